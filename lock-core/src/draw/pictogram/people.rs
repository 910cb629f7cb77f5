//! People.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use crate::draw::pen::{Pen, Tone};

pub(super) fn person<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.disc((34, 0, 44), Tone::Ink)?;
    // Shoulders: the upper half of a disc.
    pen.disc((8, 52, 96), Tone::Ink)?;
    pen.rect((0, 100, 112, 12), Tone::Paper)
}

pub(super) fn barred<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    person(pen)
}

pub(super) fn two<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    person(pen)
}
