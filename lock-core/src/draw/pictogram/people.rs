//! People.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use super::keypad::strike;
use crate::draw::pen::{Pen, Tone};

pub(super) fn person<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.disc((32, 0, 48), Tone::Ink)?;
    // Shoulders, rounded.
    pen.disc((8, 56, 48), Tone::Ink)?;
    pen.disc((56, 56, 48), Tone::Ink)?;
    pen.rects(&[(32, 56, 48, 24), (8, 80, 96, 32)])
}

pub(super) fn barred<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    person(pen)?;
    strike(pen)
}

/// One who is here, and one who is awaited.
pub(super) fn two<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    // Only the outline of the second.
    bust(pen, 58, Tone::Ink)?;
    pen.disc((72, 20, 26), Tone::Paper)?;
    pen.disc((64, 62, 22), Tone::Paper)?;
    pen.disc((84, 62, 22), Tone::Paper)?;
    pen.rect((75, 62, 20, 12), Tone::Paper)?;
    pen.rect((64, 73, 42, 33), Tone::Paper)?;
    bust(pen, 0, Tone::Ink)
}

/// A person half as wide.
fn bust<D>(pen: &mut Pen<'_, D>, left: i32, tone: Tone) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    let at = |x: i32| left.saturating_add(x);
    pen.disc((at(8), 14, 38), tone)?;
    pen.disc((at(0), 56, 34), tone)?;
    pen.disc((at(20), 56, 34), tone)?;
    pen.rect((at(17), 56, 20, 17), tone)?;
    pen.rect((at(0), 73, 54, 39), tone)
}
