//! Bolt, blocker, frame and door.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use crate::draw::pen::{Pen, Tone};

/// Door and frame, and the bolt across the gap between them.
fn thrown<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    // The door is hollow, the frame solid.
    pen.rects(&[(0, 0, 76, 112), (84, 0, 28, 112)])?;
    pen.rect((8, 8, 60, 96), Tone::Paper)?;
    // Where the bolt passes.
    pen.rect((64, 40, 40, 32), Tone::Paper)?;
    pen.rect((16, 44, 84, 24), Tone::Ink)
}

/// The blocker's seat in the bolt, seen as a slit round the blocker.
const SEAT: (i32, i32, u32, u32) = (32, 44, 24, 14);

pub(super) fn secured<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    thrown(pen)?;
    pen.rect(SEAT, Tone::Paper)?;
    pen.rect((36, 8, 16, 48), Tone::Ink)
}

pub(super) fn held<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    thrown(pen)?;
    pen.rect((8, 8, 52, 96), Tone::Paper)?;
    pen.rects(&[(14, 8, 18, 96), (38, 8, 18, 96)])
}

pub(super) fn free<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    thrown(pen)?;
    pen.rect(SEAT, Tone::Paper)?;
    pen.rect((36, 8, 16, 20), Tone::Ink)
}

/// A frame with nothing in it, and the door swung out to the left.
pub(super) fn open<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.rect((40, 0, 72, 100), Tone::Ink)?;
    pen.rect((48, 8, 56, 84), Tone::Paper)?;
    // Its edges slant.
    for (left, top) in (0..36).step_by(3).zip((1..=12).rev()) {
        pen.rect((left, top, 3, 100), Tone::Ink)?;
    }
    // Its handle.
    pen.rect((8, 48, 8, 20), Tone::Paper)
}

/// An arrow in the open frame that points at it.
pub(super) fn push<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.rect((54, 44, 20, 12), Tone::Ink)?;
    for (left, half) in (74..98).zip((0..24_i32).rev()) {
        let top = 50_i32.saturating_sub(half);
        pen.rect((left, top, 1, half.unsigned_abs().saturating_mul(2)), Tone::Ink)?;
    }
    Ok(())
}
