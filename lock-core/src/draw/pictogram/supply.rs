//! What the lock depends on: its supply, the building's alarm, service.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use crate::draw::pen::{Pen, Tone};

/// A battery without anything in it.
pub(super) fn spent<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.rects(&[(0, 28, 100, 56), (100, 44, 12, 24)])?;
    pen.rect((8, 36, 84, 40), Tone::Paper)
}

/// A small battery with little in it, in the door under the bolt.
pub(super) fn small_battery<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.rects(&[(16, 76, 40, 24), (56, 82, 6, 12)])?;
    pen.rect((20, 80, 32, 16), Tone::Paper)?;
    pen.rect((22, 82, 8, 12), Tone::Ink)
}

pub(super) fn bell<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.disc((48, 0, 16), Tone::Ink)?;
    pen.disc((20, 10, 72), Tone::Ink)?;
    pen.rects(&[(20, 46, 72, 32), (8, 76, 96, 12)])?;
    pen.disc((44, 88, 24), Tone::Ink)?;
    pen.rect((8, 88, 96, 4), Tone::Paper)
}

pub(super) fn dial<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.disc((0, 0, 112), Tone::Ink)?;
    pen.disc((10, 10, 92), Tone::Paper)?;
    // The scale is open below.
    pen.rect((0, 84, 112, 28), Tone::Paper)?;
    pen.stroke((56, 60), (80, 28), 10, Tone::Ink)?;
    pen.disc((44, 48, 24), Tone::Ink)?;
    pen.rect((32, 92, 48, 12), Tone::Ink)
}

pub(super) fn spanner<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.stroke((30, 81), (81, 30), 22, Tone::Ink)?;
    pen.disc((56, 4, 52), Tone::Ink)?;
    pen.disc((4, 56, 52), Tone::Ink)?;
    // Jaw and ring.
    pen.stroke((80, 31), (102, 9), 20, Tone::Paper)?;
    pen.disc((18, 70, 24), Tone::Paper)
}
