//! The keypad, and what can be wrong with an entry.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use crate::draw::pen::{Pen, Tone};

pub(super) fn keypad<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    for left in [12, 44, 76] {
        for top in [0, 30, 60, 90] {
            pen.rect((left, top, 24, 22), Tone::Ink)?;
        }
    }
    Ok(())
}

pub(super) fn crossed_out<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    keypad(pen)?;
    strike(pen)
}

/// A bar from corner to corner, clear of what lies beneath.
pub(super) fn strike<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.stroke((15, 15), (96, 96), 36, Tone::Paper)?;
    pen.stroke((10, 10), (101, 101), 18, Tone::Ink)
}

pub(super) fn in_ring<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.disc((0, 0, 112), Tone::Ink)?;
    pen.disc((8, 8, 96), Tone::Paper)?;
    for left in [31, 49, 67] {
        for top in [22, 40, 58, 76] {
            pen.rect((left, top, 14, 14), Tone::Ink)?;
        }
    }
    Ok(())
}

pub(super) fn list<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    for top in [4, 44, 84] {
        pen.rects(&[(4, top, 24, 24), (40, top, 68, 24)])?;
    }
    Ok(())
}

pub(super) fn cross<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.stroke((18, 18), (93, 93), 26, Tone::Ink)?;
    pen.stroke((93, 18), (18, 93), 26, Tone::Ink)
}

/// The two marks between which a code should end.
const MARKS: [(i32, i32, u32, u32); 2] = [(0, 12, 8, 88), (80, 12, 8, 88)];

pub(super) fn short<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.rects(&MARKS)?;
    pen.rect((16, 40, 28, 32), Tone::Ink)
}

pub(super) fn long<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.rects(&MARKS)?;
    pen.rect((76, 36, 16, 40), Tone::Paper)?;
    pen.rect((16, 40, 96, 32), Tone::Ink)
}
