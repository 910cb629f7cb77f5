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
    pen.disc((0, 8, 112), Tone::Ink)?;
    pen.disc((10, 18, 92), Tone::Paper)?;
    pen.rect((0, 80, 112, 40), Tone::Paper)?;
    pen.rect((0, 72, 112, 10), Tone::Ink)?;
    pen.stroke((56, 72), (80, 34), 8, Tone::Ink)?;
    pen.disc((46, 60, 20), Tone::Ink)
}

pub(super) fn spanner<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.stroke((36, 76), (76, 36), 20, Tone::Ink)?;
    pen.disc((56, 0, 56), Tone::Ink)?;
    pen.disc((0, 56, 56), Tone::Ink)?;
    pen.stroke((80, 32), (100, 12), 20, Tone::Paper)?;
    pen.stroke((12, 100), (32, 80), 20, Tone::Paper)
}
