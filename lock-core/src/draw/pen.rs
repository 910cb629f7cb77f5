//! A pen that knows which colour is ink: the same shapes serve black on white
//! and white on black.

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{Point, Size};
use embedded_graphics::mono_font::MonoTextStyle;
use embedded_graphics::mono_font::iso_8859_1::FONT_10X20;
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::primitives::{Circle, Line, Primitive, PrimitiveStyle, Rectangle};
use embedded_graphics::text::Baseline;
use embedded_graphics::text::renderer::TextRenderer;
use embedded_graphics::{Drawable, Pixel};

use super::pictogram::Ground;

/// What a shape is drawn with.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Tone {
    /// The colour of shapes.
    Ink,
    /// The colour of the ground: cuts a piece out.
    Paper,
}

/// Draws shapes on a ground.
pub(super) struct Pen<'a, D> {
    target: &'a mut D,
    ground: Ground,
}

impl<'a, D> Pen<'a, D>
where
    D: DrawTarget<Color = BinaryColor>,
{
    pub(super) const fn new(target: &'a mut D, ground: Ground) -> Self {
        Self { target, ground }
    }

    const fn color(&self, tone: Tone) -> BinaryColor {
        match (tone, self.ground) {
            (Tone::Ink, Ground::Paper) | (Tone::Paper, Ground::Ink) => BinaryColor::On,
            (Tone::Paper, Ground::Paper) | (Tone::Ink, Ground::Ink) => BinaryColor::Off,
        }
    }

    /// A filled box: left, top, width, height.
    pub(super) fn rect(
        &mut self,
        (left, top, width, height): (i32, i32, u32, u32),
        tone: Tone,
    ) -> Result<(), D::Error> {
        let area = Rectangle::new(Point::new(left, top), Size::new(width, height));
        self.target.fill_solid(&area, self.color(tone))
    }

    /// Filled boxes in ink.
    pub(super) fn rects(&mut self, boxes: &[(i32, i32, u32, u32)]) -> Result<(), D::Error> {
        boxes.iter().try_for_each(|&shape| self.rect(shape, Tone::Ink))
    }

    /// A filled disc: the left and top of the box around it, its diameter.
    pub(super) fn disc(
        &mut self,
        (left, top, diameter): (i32, i32, u32),
        tone: Tone,
    ) -> Result<(), D::Error> {
        Circle::new(Point::new(left, top), diameter)
            .into_styled(PrimitiveStyle::with_fill(self.color(tone)))
            .draw(self.target)
    }

    /// A straight stroke, `width` pixels wide.
    pub(super) fn stroke(
        &mut self,
        from: (i32, i32),
        to: (i32, i32),
        width: u32,
        tone: Tone,
    ) -> Result<(), D::Error> {
        Line::new(Point::new(from.0, from.1), Point::new(to.0, to.1))
            .into_styled(PrimitiveStyle::with_stroke(self.color(tone), width))
            .draw(self.target)
    }

    /// Letters of the body's font, `scale` times as large, from the left and
    /// top of the first.
    pub(super) fn large(
        &mut self,
        text: &str,
        (left, top): (i32, i32),
        scale: i32,
    ) -> Result<(), D::Error> {
        let style = MonoTextStyle::new(&FONT_10X20, BinaryColor::On);
        let color = self.color(Tone::Ink);
        let origin = Point::new(left, top);
        let mut scaled = Scaled { target: &mut *self.target, origin, scale, color };
        style.draw_string(text, Point::zero(), Baseline::Top, &mut scaled)?;
        Ok(())
    }
}

/// Draws every pixel as a box of `scale` × `scale`, in one colour.
struct Scaled<'a, D> {
    target: &'a mut D,
    origin: Point,
    scale: i32,
    color: BinaryColor,
}

impl<D: DrawTarget> embedded_graphics::geometry::Dimensions for Scaled<'_, D> {
    fn bounding_box(&self) -> Rectangle {
        self.target.bounding_box()
    }
}

impl<D> DrawTarget for Scaled<'_, D>
where
    D: DrawTarget<Color = BinaryColor>,
{
    type Color = BinaryColor;
    type Error = D::Error;

    fn draw_iter<I>(&mut self, pixels: I) -> Result<(), Self::Error>
    where
        I: IntoIterator<Item = Pixel<Self::Color>>,
    {
        let side = self.scale.unsigned_abs();
        for Pixel(at, color) in pixels {
            if color.is_on() {
                let left = self.origin.x.saturating_add(at.x.saturating_mul(self.scale));
                let top = self.origin.y.saturating_add(at.y.saturating_mul(self.scale));
                let area = Rectangle::new(Point::new(left, top), Size::new(side, side));
                self.target.fill_solid(&area, self.color)?;
            }
        }
        Ok(())
    }
}
