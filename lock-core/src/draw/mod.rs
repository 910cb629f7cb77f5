//! Pixels: one large pictogram on the left, words on the right.
//!
//! Made for a 1-bit e-paper of 296 × 128 pixels; `On` is ink.
//!
//! ```text
//!   0          116                         296
//!   +-----------+---------------------------+   0
//!   |           |  title, white on black    |
//!   | pictogram +---------------------------+  30
//!   | 112 × 112 |  body, four lines of      |
//!   |           |  17 letters, 10 × 20      |
//!   +-----------+---------------------------+ 128
//! ```
//!
//! While the lock is secured, the pictogram is black on white; once it is not,
//! white on black: that much reads across a room before any shape does. The
//! shapes are our own; [`Pictogram`] lists them.
//!
//! All coordinates are constants and lie inside, so a target of at least
//! [`WIDTH`] × [`HEIGHT`] never has to clip.

mod frame;
mod pen;
mod pictogram;
#[cfg(test)]
mod tests;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::mono_font::MonoFont;
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::primitives::Rectangle;

pub use frame::{BYTES, Frame};
pub use pictogram::{Ground, Pictogram, SIDE};

use self::pen::{Pen, Tone};
use crate::screen::Screen;
use crate::words::{self, Language, Lines};

/// Pixels from left to right.
pub const WIDTH: u32 = 296;
/// Pixels from top to bottom.
pub const HEIGHT: u32 = 128;

/// The pictogram and the room around it.
const PANEL: Rectangle = Rectangle::new(Point::zero(), Size::new(116, HEIGHT));
const PICTOGRAM_AT: Point = Point::new(2, 8);
const TITLE_BAR: Rectangle = Rectangle::new(Point::new(116, 0), Size::new(180, 30));
const TITLE_AT: (u8, u8) = (122, 5);
/// Where each line of a body starts: the left and top of its first letter.
const BODY_AT: [(u8, u8); words::BODY_LINES] = [(122, 35), (122, 58), (122, 81), (122, 104)];

/// Draws `screen` in English.
///
/// # Errors
/// Whatever the target reports.
pub fn screen<D>(screen: &Screen, target: &mut D) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    screen_in(&words::ENGLISH, screen, target)
}

/// Draws `screen` in `language`.
///
/// # Errors
/// Whatever the target reports.
pub fn screen_in<D>(language: &Language, screen: &Screen, target: &mut D) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    target.clear(BinaryColor::Off)?;
    let pictogram = Pictogram::of(screen);
    if pictogram.ground() == Ground::Ink {
        target.fill_solid(&PANEL, BinaryColor::On)?;
    }
    pictogram.draw_at(PICTOGRAM_AT, language.font, target)?;
    lines(&words::in_language(language, screen), language.font, target)
}

fn lines<D>(lines: &Lines, font: &MonoFont<'_>, target: &mut D) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    target.fill_solid(&TITLE_BAR, BinaryColor::On)?;
    let mut pen = Pen::new(target, Point::zero(), Ground::Paper, font);
    pen.moved(TITLE_AT).text(lines.title(), Tone::Paper)?;
    for (line, at) in lines.body().zip(BODY_AT) {
        pen.moved(at).text(line, Tone::Ink)?;
    }
    Ok(())
}
