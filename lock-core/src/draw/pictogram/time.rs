//! Time: a wait, a date, a clock.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;

use crate::draw::pen::{Pen, Tone};

/// The hours of a clock's face from one to twelve: the left and top of a dot of
/// [`DOT`], 48 pixels from the middle.
const FACE: [(i32, i32); 12] = [
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
const DOT: u32 = 16;
/// Minutes that a dot stands for.
const DOT_MINUTES: u16 = 5;

pub(super) fn wait<D>(pen: &mut Pen<'_, D>, minutes: Option<u16>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    let full = minutes.map_or(usize::MAX, |left| usize::from(left.div_ceil(DOT_MINUTES)));
    for ((left, top), hour) in FACE.into_iter().zip(0..) {
        pen.disc((left, top, DOT), Tone::Ink)?;
        if hour >= full {
            let (left, top) = (left.saturating_add(4), top.saturating_add(4));
            pen.disc((left, top, 8), Tone::Paper)?;
        }
    }
    match minutes {
        Some(minutes) => in_the_middle(pen, minutes),
        None => pen.rects(&[(30, 50, 12, 12), (50, 50, 12, 12), (70, 50, 12, 12)]),
    }
}

/// A number in the middle, as large as there is room.
fn in_the_middle<D>(pen: &mut Pen<'_, D>, number: u16) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    let digits = digits(number);
    // A letter is 10 × 20 pixels, of which a digit inks rows 3 to 15.
    let (at, scale) = match digits.len() {
        0 | 1 => ((41, 28), 3),
        2 => ((26, 28), 3),
        3 => ((26, 37), 2),
        4 => ((36, 47), 1),
        _ => ((31, 47), 1),
    };
    pen.large(&digits, at, scale)
}

/// A number of at most five digits, written out.
fn digits(number: u16) -> heapless::String<5> {
    let mut text = heapless::String::new();
    for power in [10_000, 1_000, 100, 10, 1] {
        let upper = number.checked_div(power).unwrap_or(0);
        if upper > 0 || power == 1 {
            let digit = u8::try_from(upper % 10).unwrap_or(0);
            // Five powers, five digits: there is room.
            text.push(char::from(b'0'.wrapping_add(digit))).ok();
        }
    }
    text
}

pub(super) fn calendar<D>(pen: &mut Pen<'_, D>, day: Option<u8>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    // A leaf with a head, hung up by two rings.
    pen.rect((4, 8, 104, 104), Tone::Ink)?;
    pen.rect((12, 36, 88, 68), Tone::Paper)?;
    for left in [24, 76] {
        pen.rect((left, 4, 12, 24), Tone::Paper)?;
        pen.rect((left.saturating_add(2), 0, 8, 24), Tone::Ink)?;
    }
    match day {
        Some(day) => {
            let digits = digits(u16::from(day));
            let left = if digits.len() > 1 { 16 } else { 36 };
            pen.large(&digits, (left, 32), 4)
        }
        None => pen.rect((32, 64, 48, 12), Tone::Ink),
    }
}

/// A clock with a question mark where its hands should be.
pub(super) fn no_clock<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.disc((0, 0, 112), Tone::Ink)?;
    pen.disc((10, 10, 92), Tone::Paper)?;
    pen.large("?", (36, 18), 4)
}

/// The same, small, in the door under the bolt.
pub(super) fn small_clock<D>(pen: &mut Pen<'_, D>) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pen.disc((24, 70, 32), Tone::Ink)?;
    pen.disc((27, 73, 26), Tone::Paper)?;
    pen.large("?", (35, 76), 1)
}
