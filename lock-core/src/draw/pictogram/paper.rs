//! Files that come and go, and something that is done.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use crate::draw::pen::{Pen, Tone};

/// Two leaves: one with an arrow in, one with an arrow out.
pub(super) fn files<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    for (outer, inner) in [(2, 10), (60, 68)] {
        pen.rect((outer, 4, 50, 104), Tone::Ink)?;
        pen.rect((inner, 12, 34, 88), Tone::Paper)?;
    }
    pen.rects(&[(23, 22, 8, 44), (81, 46, 8, 44)])?;
    // The heads of the arrows.
    pen.stroke((15, 58), (27, 76), 8, Tone::Ink)?;
    pen.stroke((39, 58), (27, 76), 8, Tone::Ink)?;
    pen.stroke((73, 54), (85, 36), 8, Tone::Ink)?;
    pen.stroke((97, 54), (85, 36), 8, Tone::Ink)
}

pub(super) fn tick<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.stroke((16, 60), (44, 90), 22, Tone::Ink)?;
    pen.stroke((44, 90), (94, 26), 22, Tone::Ink)
}
