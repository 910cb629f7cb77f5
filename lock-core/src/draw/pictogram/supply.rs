//! What the lock depends on: its supply, the building's alarm, service.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use crate::draw::pen::Shape::{Disc, Line, Rect};
use crate::draw::pen::{Mark, Pen, cut, ink};
use crate::rules::supply::Charge;

/// A battery without anything in it.
pub(super) const SPENT: &[Mark] =
    &[ink(Rect(0, 28, 100, 56)), ink(Rect(100, 44, 12, 24)), cut(Rect(8, 36, 84, 40))];

/// A small battery with little in it, in the door under the bolt.
pub(super) const SMALL_BATTERY: &[Mark] = &[
    ink(Rect(16, 76, 40, 24)),
    ink(Rect(56, 82, 6, 12)),
    cut(Rect(20, 80, 32, 16)),
    ink(Rect(22, 82, 8, 12)),
];

pub(super) const BELL: &[Mark] = &[
    ink(Disc(48, 0, 16)),
    ink(Disc(20, 10, 72)),
    ink(Rect(20, 46, 72, 32)),
    ink(Rect(8, 76, 96, 12)),
    ink(Disc(44, 88, 24)),
    cut(Rect(8, 88, 96, 4)),
];

/// The quarters of a battery, from the left.
const QUARTERS: [Mark; 4] = [
    ink(Rect(12, 40, 17, 32)),
    ink(Rect(32, 40, 17, 32)),
    ink(Rect(52, 40, 17, 32)),
    ink(Rect(72, 40, 16, 32)),
];

/// A battery with as many quarters in it as there are; a line across where it was not
/// measured.
pub(super) fn battery<D>(pen: &mut Pen<'_, D>, charge: Option<Charge>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.marks(SPENT)?;
    match charge {
        Some(charge) => {
            let full = usize::from(charge.quarters());
            QUARTERS.iter().take(full).try_for_each(|quarter| pen.mark(*quarter))
        }
        None => pen.mark(ink(Rect(36, 50, 28, 12))),
    }
}

pub(super) const SPANNER: &[Mark] = &[
    ink(Line((30, 81), (81, 30), 22)),
    ink(Disc(56, 4, 52)),
    ink(Disc(4, 56, 52)),
    // Jaw and ring.
    cut(Line((80, 31), (102, 9), 20)),
    cut(Disc(18, 70, 24)),
];
