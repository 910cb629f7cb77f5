//! A pen that knows which colour is ink: the same shapes serve black on white
//! and white on black.

use embedded_graphics::Drawable;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{OriginDimensions, Point, Size};
use embedded_graphics::image::GetPixel;
use embedded_graphics::mono_font::MonoFont;
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::primitives::{Circle, Line, Primitive, PrimitiveStyle, Rectangle};

use super::pictogram::Ground;
use crate::words::{CODE_DIGIT, decimal};

/// Pixels of a letter, from left to right and from top to bottom.
const LETTER_WIDTH: i32 = 10;
const LETTER_HEIGHT: i32 = 20;
/// What is drawn for a digit of a code.
const CODE_DOT: Shape = Shape::Disc(1, 7, 8);

/// What a shape is drawn with.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Tone {
    /// The colour of shapes.
    Ink,
    /// The colour of the ground: cuts a piece out.
    Paper,
}

/// A filled shape, in pixels from where the pen starts.
#[derive(Clone, Copy)]
pub(super) enum Shape {
    /// A box: left, top, width, height.
    Rect(u8, u8, u8, u8),
    /// A disc: the left and top of the box around it, its diameter.
    Disc(u8, u8, u8),
    /// A straight stroke: from, to, width.
    Line((u8, u8), (u8, u8), u8),
}

/// A shape, and what it is drawn with.
pub(super) type Mark = (Tone, Shape);

/// A shape in ink.
pub(super) const fn ink(shape: Shape) -> Mark {
    (Tone::Ink, shape)
}

/// A shape cut out.
pub(super) const fn cut(shape: Shape) -> Mark {
    (Tone::Paper, shape)
}

/// Draws on a ground, from a place that is its origin.
pub(super) struct Pen<'a, D> {
    target: &'a mut D,
    at: Point,
    ground: Ground,
    font: &'a MonoFont<'a>,
}

impl<'a, D> Pen<'a, D>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pub(super) const fn new(
        target: &'a mut D,
        at: Point,
        ground: Ground,
        font: &'a MonoFont<'a>,
    ) -> Self {
        Self { target, at, ground, font }
    }

    /// The same pen so far to the right and down.
    pub(super) fn moved(&mut self, by: (u8, u8)) -> Pen<'_, D> {
        let at = self.point(by);
        Pen { target: &mut *self.target, at, ground: self.ground, font: self.font }
    }

    const fn color(&self, tone: Tone) -> BinaryColor {
        match (tone, self.ground) {
            (Tone::Ink, Ground::Paper) | (Tone::Paper, Ground::Ink) => BinaryColor::On,
            (Tone::Paper, Ground::Paper) | (Tone::Ink, Ground::Ink) => BinaryColor::Off,
        }
    }

    fn point(&self, (right, down): (u8, u8)) -> Point {
        Point::new(
            self.at.x.saturating_add(i32::from(right)),
            self.at.y.saturating_add(i32::from(down)),
        )
    }

    /// Shapes, one over the other.
    #[inline(never)] // one copy
    pub(super) fn marks(&mut self, marks: &[Mark]) -> Result<(), D::Error> {
        marks.iter().try_for_each(|mark| self.mark(*mark))
    }

    /// The same of several pictures.
    pub(super) fn layers(&mut self, layers: &[&[Mark]]) -> Result<(), D::Error> {
        layers.iter().try_for_each(|marks| self.marks(marks))
    }

    /// One shape.
    #[inline(never)] // one copy
    pub(super) fn mark(&mut self, (tone, shape): Mark) -> Result<(), D::Error> {
        let color = self.color(tone);
        match shape {
            Shape::Rect(left, top, width, height) => {
                let size = Size::new(u32::from(width), u32::from(height));
                self.target.fill_solid(&Rectangle::new(self.point((left, top)), size), color)
            }
            Shape::Disc(left, top, diameter) => {
                Circle::new(self.point((left, top)), u32::from(diameter))
                    .into_styled(PrimitiveStyle::with_fill(color))
                    .draw(self.target)
            }
            Shape::Line(from, to, width) => Line::new(self.point(from), self.point(to))
                .into_styled(PrimitiveStyle::with_stroke(color, u32::from(width)))
                .draw(self.target),
        }
    }

    /// Letters side by side.
    pub(super) fn text(&mut self, text: &str, tone: Tone) -> Result<(), D::Error> {
        text.chars().try_for_each(|letter| self.letter(letter, 1, tone))
    }

    /// A number in ink, its letters `scale` times as large.
    pub(super) fn number(&mut self, number: u32, scale: u8) -> Result<(), D::Error> {
        let mut places = (0..decimal::digits(number)).rev();
        places.try_for_each(|place| self.letter(decimal::digit(number, place), scale, Tone::Ink))
    }

    /// A letter, `scale` times as large. The pen moves on to the next.
    pub(super) fn letter(&mut self, letter: char, scale: u8, tone: Tone) -> Result<(), D::Error> {
        match letter {
            // A font's own dot, two pixels wide, is too faint to count digits by.
            CODE_DIGIT => self.mark((tone, CODE_DOT))?,
            _ => self.glyph(letter, scale, tone)?,
        }
        self.at.x = self.at.x.saturating_add(LETTER_WIDTH.saturating_mul(i32::from(scale)));
        Ok(())
    }

    /// Each pixel of a letter as a box of `scale` × `scale`.
    // The library's own text renderer scales nothing, and takes more flash.
    #[inline(never)] // one copy
    fn glyph(&mut self, letter: char, scale: u8, tone: Tone) -> Result<(), D::Error> {
        let (image, color) = (&self.font.image, self.color(tone));
        let (scale, side) = (i32::from(scale), Size::new_equal(u32::from(scale)));
        let index = i32::try_from(self.font.glyph_mapping.index(letter)).unwrap_or(0);
        let in_a_row = image.size().width.cast_signed() / LETTER_WIDTH;
        let left = index.checked_rem(in_a_row).unwrap_or(0).saturating_mul(LETTER_WIDTH);
        let top = index.checked_div(in_a_row).unwrap_or(0).saturating_mul(LETTER_HEIGHT);
        for y in 0..LETTER_HEIGHT {
            for x in 0..LETTER_WIDTH {
                let pixel = Point::new(left.saturating_add(x), top.saturating_add(y));
                if image.pixel(pixel) == Some(BinaryColor::On) {
                    let at = Point::new(
                        self.at.x.saturating_add(x.saturating_mul(scale)),
                        self.at.y.saturating_add(y.saturating_mul(scale)),
                    );
                    self.target.fill_solid(&Rectangle::new(at, side), color)?;
                }
            }
        }
        Ok(())
    }
}
