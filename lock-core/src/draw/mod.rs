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

use embedded_graphics::Drawable;
use embedded_graphics::draw_target::{DrawTarget, DrawTargetExt};
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::mono_font::MonoTextStyle;
use embedded_graphics::mono_font::iso_8859_1::FONT_10X20;
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::primitives::{Circle, Primitive, PrimitiveStyle, Rectangle};
use embedded_graphics::text::Baseline;
use embedded_graphics::text::renderer::TextRenderer;

pub use frame::{BYTES, Frame};
pub use pictogram::{Ground, Pictogram, SIDE};

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
const TITLE_AT: Point = Point::new(122, 5);
/// Where each line of a body starts: the left edge of its first letter.
const BODY_AT: [Point; words::BODY_LINES] =
    [Point::new(122, 35), Point::new(122, 58), Point::new(122, 81), Point::new(122, 104)];

/// Pixels from one letter to the next.
const LETTER: usize = 10;
/// What words say for a digit of a code, and the dot drawn for it.
const CODE_DIGIT: char = '·';
const CODE_DOT: u32 = 8;

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
    pictogram.draw(&mut target.translated(PICTOGRAM_AT))?;
    lines(&words::in_language(language, screen), target)
}

fn lines<D>(lines: &Lines, target: &mut D) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    target.fill_solid(&TITLE_BAR, BinaryColor::On)?;
    text(lines.title(), TITLE_AT, BinaryColor::Off, target)?;
    for (line, at) in lines.body().zip(BODY_AT) {
        text(line, at, BinaryColor::On, target)?;
    }
    Ok(())
}

fn text<D>(text: &str, at: Point, color: BinaryColor, target: &mut D) -> Result<(), D::Error>
where
    D: DrawTarget<Color = BinaryColor>,
{
    let style = MonoTextStyle::new(&FONT_10X20, color);
    // `Text` would split lines, which leaves a panic path in the link.
    style.draw_string(text, at, Baseline::Top, target)?;
    // The font's own dot, two pixels wide, is too faint to count digits by.
    for (letter, left) in text.chars().zip((at.x..).step_by(LETTER)) {
        if letter == CODE_DIGIT {
            let dot = Point::new(left.saturating_add(1), at.y.saturating_add(7));
            Circle::new(dot, CODE_DOT)
                .into_styled(PrimitiveStyle::with_fill(color))
                .draw(target)?;
        }
    }
    Ok(())
}
