//! Bolt, blocker, frame and door.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use crate::draw::pen::Shape::Rect;
use crate::draw::pen::{Mark, Pen, cut, ink};

/// Door and frame, and the bolt across the gap between them.
pub(super) const THROWN: &[Mark] = &[
    // The door is hollow, the frame solid.
    ink(Rect(0, 0, 76, 112)),
    ink(Rect(84, 0, 28, 112)),
    cut(Rect(8, 8, 60, 96)),
    // Where the bolt passes.
    cut(Rect(64, 40, 40, 32)),
    ink(Rect(16, 44, 84, 24)),
];

/// The blocker's seat in the bolt, seen as a slit round the blocker.
const SEAT: Mark = cut(Rect(32, 44, 24, 14));

/// The blocker in the bolt.
pub(super) const BLOCKED: &[Mark] = &[SEAT, ink(Rect(36, 8, 16, 48))];

/// The blocker lifted.
pub(super) const FREE: &[Mark] = &[SEAT, ink(Rect(36, 8, 16, 20))];

/// A blocker from either side.
pub(super) const HELD: &[Mark] =
    &[cut(Rect(8, 8, 52, 96)), ink(Rect(14, 8, 18, 96)), ink(Rect(38, 8, 18, 96))];

/// A frame with nothing in it, and the door swung out to the left.
pub(super) fn open<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.marks(&[ink(Rect(40, 0, 72, 100)), cut(Rect(48, 8, 56, 84))])?;
    // Its edges slant.
    for (left, top) in (0..36).step_by(3).zip((1..=12).rev()) {
        pen.mark(ink(Rect(left, top, 3, 100)))?;
    }
    // Its handle.
    pen.mark(cut(Rect(8, 48, 8, 20)))
}

/// An arrow in the open frame that points at it.
pub(super) fn push<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.mark(ink(Rect(54, 44, 20, 12)))?;
    for (left, half) in (74..98).zip((0_u8..24).rev()) {
        let (top, height) = (50_u8.saturating_sub(half), half.saturating_mul(2));
        pen.mark(ink(Rect(left, top, 1, height)))?;
    }
    Ok(())
}
