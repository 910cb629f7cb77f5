//! A chart as PNG, for programs that show no SVG.
//!
//! Its font has the letters of ISO 8859-1; others are drawn as a question mark.

use std::convert::Infallible;

use ::png::{BitDepth, ColorType, Encoder, EncodingError};
use embedded_graphics::mono_font::iso_8859_1::{FONT_6X10, FONT_7X13, FONT_10X20};
use embedded_graphics::mono_font::{MonoFont, MonoTextStyle};
use embedded_graphics::pixelcolor::Rgb888;
use embedded_graphics::prelude::{
    Dimensions, DrawTarget, Drawable, OriginDimensions, Pixel, Point, Primitive, RgbColor,
    Size as Area,
};
use embedded_graphics::primitives::{PrimitiveStyle, Rectangle};
use embedded_graphics::text::{Alignment, Text};

use super::Chart;
use super::layout::{Anchor, Shape, Size, layout};

/// The chart as a PNG file.
///
/// # Errors
/// [`EncodingError`] if the chart is too large for a PNG.
pub fn png(chart: &Chart) -> Result<Vec<u8>, EncodingError> {
    let drawing = layout(chart);
    let area = Area::new(drawing.width.unsigned_abs(), drawing.height.unsigned_abs());
    let mut paper = Paper { area, pixels: vec![255; pixels(area) * 3] };
    for shape in &drawing.shapes {
        match draw(shape, &mut paper) {
            Ok(()) => {}
            Err(never) => match never {},
        }
    }
    let mut bytes = Vec::new();
    let mut encoder = Encoder::new(&mut bytes, area.width, area.height);
    encoder.set_color(ColorType::Rgb);
    encoder.set_depth(BitDepth::Eight);
    encoder.write_header()?.write_image_data(&paper.pixels)?;
    Ok(bytes)
}

fn pixels(area: Area) -> usize {
    let side = |length: u32| usize::try_from(length).unwrap_or(0);
    side(area.width) * side(area.height)
}

fn draw(shape: &Shape, paper: &mut Paper) -> Result<(), Infallible> {
    let rectangle = |(x, y): (i32, i32), (width, height): (i32, i32)| {
        Rectangle::new(Point::new(x, y), Area::new(width.unsigned_abs(), height.unsigned_abs()))
    };
    match shape {
        Shape::Fill { at, size, colour, .. } => {
            let style = PrimitiveStyle::with_fill(rgb(*colour));
            rectangle(*at, *size).into_styled(style).draw(paper)
        }
        Shape::Edge { at, size, colour } => {
            let style = PrimitiveStyle::with_stroke(rgb(*colour), 2);
            rectangle(*at, *size).into_styled(style).draw(paper)
        }
        Shape::Text { at: (x, y), words, size, anchor, colour } => {
            let font: &MonoFont<'_> = match size {
                Size::Small => &FONT_6X10,
                Size::Plain => &FONT_7X13,
                Size::Large => &FONT_10X20,
            };
            let alignment = match anchor {
                Anchor::Start => Alignment::Left,
                Anchor::Middle => Alignment::Center,
                Anchor::End => Alignment::Right,
            };
            let style = MonoTextStyle::new(font, rgb(*colour));
            Text::with_alignment(words, Point::new(*x, *y), style, alignment).draw(paper)?;
            Ok(())
        }
    }
}

fn rgb(colour: u32) -> Rgb888 {
    let [_, red, green, blue] = colour.to_be_bytes();
    Rgb888::new(red, green, blue)
}

/// Pixels, row by row, three bytes each.
struct Paper {
    area: Area,
    pixels: Vec<u8>,
}

impl OriginDimensions for Paper {
    fn size(&self) -> Area {
        self.area
    }
}

impl DrawTarget for Paper {
    type Color = Rgb888;
    type Error = Infallible;

    fn draw_iter<I>(&mut self, drawn: I) -> Result<(), Infallible>
    where
        I: IntoIterator<Item = Pixel<Rgb888>>,
    {
        let whole = self.bounding_box();
        let width = usize::try_from(self.area.width).unwrap_or(0);
        for Pixel(point, colour) in drawn.into_iter().filter(|pixel| whole.contains(pixel.0)) {
            let (Ok(x), Ok(y)) = (usize::try_from(point.x), usize::try_from(point.y)) else {
                continue;
            };
            let start = (y * width + x) * 3;
            if let Some(pixel) = self.pixels.get_mut(start..start + 3) {
                pixel.copy_from_slice(&[colour.r(), colour.g(), colour.b()]);
            }
        }
        Ok(())
    }
}
