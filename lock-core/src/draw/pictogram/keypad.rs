//! The keypad, and what can be wrong with an entry.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use crate::draw::pen::Shape::{Disc, Line, Rect};
use crate::draw::pen::{Mark, Pen, cut, ink};

pub(super) fn keypad<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    keys(pen, [12, 44, 76], [0, 30, 60, 90], (24, 22))
}

pub(super) fn in_ring<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.marks(&[ink(Disc(0, 0, 112)), cut(Disc(8, 8, 96))])?;
    keys(pen, [31, 49, 67], [22, 40, 58, 76], (14, 14))
}

/// Three columns and four rows of keys of that size.
fn keys<D>(
    pen: &mut Pen<'_, D>,
    columns: [u8; 3],
    rows: [u8; 4],
    (width, height): (u8, u8),
) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    for left in columns {
        for top in rows {
            pen.mark(ink(Rect(left, top, width, height)))?;
        }
    }
    Ok(())
}

/// A bar from corner to corner, clear of what lies beneath.
pub(super) const STRIKE: &[Mark] =
    &[cut(Line((15, 15), (96, 96), 36)), ink(Line((10, 10), (101, 101), 18))];

pub(super) const LIST: &[Mark] = &[
    ink(Rect(4, 4, 24, 24)),
    ink(Rect(40, 4, 68, 24)),
    ink(Rect(4, 44, 24, 24)),
    ink(Rect(40, 44, 68, 24)),
    ink(Rect(4, 84, 24, 24)),
    ink(Rect(40, 84, 68, 24)),
];

pub(super) const CROSS: &[Mark] =
    &[ink(Line((18, 18), (93, 93), 26)), ink(Line((93, 18), (18, 93), 26))];

/// The two marks between which a code should end.
const FROM: Mark = ink(Rect(0, 12, 8, 88));
const TO: Mark = ink(Rect(80, 12, 8, 88));

pub(super) const SHORT: &[Mark] = &[FROM, TO, ink(Rect(16, 40, 28, 32))];

pub(super) const LONG: &[Mark] = &[FROM, TO, cut(Rect(76, 36, 16, 40)), ink(Rect(16, 40, 96, 32))];
