//! Time: a wait, a date, a clock.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use crate::draw::pen::Shape::{Disc, Rect};
use crate::draw::pen::{Mark, Pen, Tone, cut, ink};

/// The hours of a clock's face from one to twelve: the left and top of a dot of
/// 16 pixels, 48 pixels from the middle.
const FACE: [(u8, u8); 12] = [
    (72, 7),
    (90, 25),
    (96, 48),
    (90, 72),
    (72, 90),
    (48, 96),
    (24, 90),
    (7, 72),
    (0, 48),
    (7, 25),
    (24, 7),
    (48, 0),
];
/// Minutes that a dot stands for.
const DOT_MINUTES: u16 = 5;

/// Where no number is known.
const DOTS: &[Mark] =
    &[ink(Rect(30, 50, 12, 12)), ink(Rect(50, 50, 12, 12)), ink(Rect(70, 50, 12, 12))];

pub(super) fn wait<D>(pen: &mut Pen<'_, D>, minutes: Option<u16>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    let full = minutes.map_or(usize::MAX, |left| usize::from(left.div_ceil(DOT_MINUTES)));
    for (at, hour) in FACE.into_iter().zip(0..) {
        let mut pen = pen.moved(at);
        pen.mark(ink(Disc(0, 0, 16)))?;
        if hour >= full {
            pen.mark(cut(Disc(4, 4, 8)))?;
        }
    }
    match minutes {
        Some(minutes) => in_the_middle(pen, u32::from(minutes)),
        None => pen.marks(DOTS),
    }
}

/// A number in the middle, as large as there is room.
fn in_the_middle<D>(pen: &mut Pen<'_, D>, number: u32) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    // A letter is 10 × 20 pixels, of which a digit inks rows 3 to 15.
    let (at, scale) = match number {
        0..=9 => ((41, 28), 3),
        10..=99 => ((26, 28), 3),
        100..=999 => ((26, 37), 2),
        1_000..=9_999 => ((36, 47), 1),
        _ => ((31, 47), 1),
    };
    pen.moved(at).number(number, scale)
}

/// A leaf with a head, hung up by two rings.
const LEAF: &[Mark] = &[
    ink(Rect(4, 8, 104, 104)),
    cut(Rect(12, 36, 88, 68)),
    cut(Rect(24, 4, 12, 24)),
    ink(Rect(26, 0, 8, 24)),
    cut(Rect(76, 4, 12, 24)),
    ink(Rect(78, 0, 8, 24)),
];

pub(super) fn calendar<D>(pen: &mut Pen<'_, D>, day: Option<u8>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.marks(LEAF)?;
    match day {
        Some(day) => {
            let left = if day > 9 { 16 } else { 36 };
            pen.moved((left, 32)).number(u32::from(day), 4)
        }
        None => pen.mark(ink(Rect(32, 64, 48, 12))),
    }
}

/// A clock with a question mark where its hands should be.
pub(super) fn no_clock<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.marks(&[ink(Disc(0, 0, 112)), cut(Disc(10, 10, 92))])?;
    pen.moved((36, 18)).letter('?', 4, Tone::Ink)
}

/// The same, small, in the door under the bolt.
pub(super) fn small_clock<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.marks(&[ink(Disc(24, 70, 32)), cut(Disc(27, 73, 26))])?;
    pen.moved((35, 76)).letter('?', 1, Tone::Ink)
}
