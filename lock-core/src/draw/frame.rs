//! The picture as the display takes it: one bit a pixel.

use core::convert::Infallible;

use embedded_graphics::Pixel;
use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::geometry::{OriginDimensions, Point, Size};
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_graphics::primitives::Rectangle;

use super::{HEIGHT, WIDTH};

/// Bytes of a row.
const ROW: usize = 37;
const ROWS: usize = 128;
/// Bytes of a [`Frame`].
pub const BYTES: usize = ROW * ROWS;

/// A picture of [`WIDTH`] × [`HEIGHT`] pixels.
///
/// Row by row from the top, 37 bytes a row, the leftmost pixel in the highest
/// bit of the first byte; a set bit is ink. What lies outside is dropped.
#[derive(Clone, PartialEq, Eq)]
pub struct Frame {
    rows: [[u8; ROW]; ROWS],
}

impl Frame {
    /// A picture without ink.
    #[must_use]
    pub const fn new() -> Self {
        Self { rows: [[0; ROW]; ROWS] }
    }

    /// The picture, [`BYTES`] long.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        self.rows.as_flattened()
    }

    /// The pixel `x` from the left and `y` from the top; `None` outside.
    #[must_use]
    pub fn pixel(&self, x: u32, y: u32) -> Option<BinaryColor> {
        let row = self.rows.get(usize::try_from(y).ok()?)?;
        let byte = row.get(usize::try_from(x / 8).ok()?)?;
        Some(BinaryColor::from(byte & bit(x) != 0))
    }

    fn set(&mut self, at: Point, color: BinaryColor) {
        let (Ok(x), Ok(y)) = (u32::try_from(at.x), usize::try_from(at.y)) else { return };
        let Ok(column) = usize::try_from(x / 8) else { return };
        if let Some(byte) = self.rows.get_mut(y).and_then(|row| row.get_mut(column)) {
            put(byte, bit(x), color);
        }
    }
}

impl Default for Frame {
    fn default() -> Self {
        Self::new()
    }
}

impl OriginDimensions for Frame {
    fn size(&self) -> Size {
        Size::new(WIDTH, HEIGHT)
    }
}

impl DrawTarget for Frame {
    type Color = BinaryColor;
    type Error = Infallible;

    fn draw_iter<I>(&mut self, pixels: I) -> Result<(), Self::Error>
    where
        I: IntoIterator<Item = Pixel<Self::Color>>,
    {
        for Pixel(at, color) in pixels {
            self.set(at, color);
        }
        Ok(())
    }

    /// Whole bytes at a time: boxes are most of what is drawn.
    fn fill_solid(&mut self, area: &Rectangle, color: BinaryColor) -> Result<(), Self::Error> {
        let (left, right) = clipped(area.top_left.x, area.size.width, ROW * 8);
        let (top, bottom) = clipped(area.top_left.y, area.size.height, ROWS);
        for line in self.rows.get_mut(top..bottom).unwrap_or_default() {
            let mut start = left & !7;
            for byte in line.get_mut(left / 8..right.div_ceil(8)).unwrap_or_default() {
                put(byte, mask(start, left, right), color);
                start = start.saturating_add(8);
            }
        }
        Ok(())
    }

    fn clear(&mut self, color: BinaryColor) -> Result<(), Self::Error> {
        let byte = if color.is_on() { 0xFF } else { 0 };
        self.rows.as_flattened_mut().fill(byte);
        Ok(())
    }
}

const fn bit(x: u32) -> u8 {
    0x80 >> (x % 8)
}

fn put(byte: &mut u8, mask: u8, color: BinaryColor) {
    match color {
        BinaryColor::On => *byte |= mask,
        BinaryColor::Off => *byte &= !mask,
    }
}

/// The bits of the byte that starts at pixel `start` that lie in
/// `left..right`.
fn mask(start: usize, left: usize, right: usize) -> u8 {
    let from = |edge: usize| match edge.saturating_sub(start) {
        within @ 0..8 => 0xFF >> within,
        _ => 0_u8,
    };
    from(left) & !from(right)
}

/// Where the `length` pixels from `start` on begin and end, of those before
/// `end`.
fn clipped(start: i32, length: u32, end: usize) -> (usize, usize) {
    let within = |at: i32| usize::try_from(at).unwrap_or(0).min(end);
    (within(start), within(start.saturating_add_unsigned(length)))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Boxes at every left and right edge, against pixel by pixel.
    #[test]
    fn a_box_is_its_pixels() {
        for left in -3..300 {
            for width in [0, 1, 2, 7, 8, 9, 15, 40, 296, 310] {
                for color in [BinaryColor::On, BinaryColor::Off] {
                    let area = Rectangle::new(Point::new(left, 3), Size::new(width, 2));
                    let mut fast = Frame::new();
                    fast.clear(color.invert()).unwrap();
                    fast.fill_solid(&area, color).unwrap();
                    for y in 2..6 {
                        for x in 0..296 {
                            let at = Point::new(x, y);
                            let want = if area.contains(at) { color } else { color.invert() };
                            let (x, y) = (at.x.unsigned_abs(), at.y.unsigned_abs());
                            assert_eq!(fast.pixel(x, y), Some(want), "{area:?} {at:?}");
                        }
                    }
                }
            }
        }
    }

    /// Boxes at every upper and lower edge, and far outside.
    #[test]
    fn a_box_is_clipped_above_and_below() {
        for top in (-3..131).chain([i32::MIN, i32::MAX]) {
            for height in [0, 1, 2, 60, 128, 140, u32::MAX] {
                let area = Rectangle::new(Point::new(-2, top), Size::new(5, height));
                let mut frame = Frame::new();
                frame.fill_solid(&area, BinaryColor::On).unwrap();
                for y in 0..128_u8 {
                    let (above, y) = (i64::from(y) - i64::from(top), u32::from(y));
                    let within = (0..i64::from(height)).contains(&above);
                    let row = (0..4).map(|x| frame.pixel(x, y) == Some(BinaryColor::On));
                    assert!(row.eq([within, within, within, false]), "{area:?} {y}");
                }
            }
        }
    }

    #[test]
    fn bytes_are_rows_with_the_leftmost_pixel_highest() {
        let mut frame = Frame::new();
        let pixels = [(0, 0), (9, 0), (295, 127)].map(|(x, y)| Point::new(x, y));
        frame.draw_iter(pixels.map(|at| Pixel(at, BinaryColor::On))).unwrap();
        let bytes = frame.bytes();
        assert_eq!(bytes.len(), 4_736);
        assert_eq!((bytes[0], bytes[1], bytes[4_735]), (0x80, 0x40, 0x01));
        assert_eq!(bytes.iter().map(|byte| byte.count_ones()).sum::<u32>(), 3);
    }

    #[test]
    fn what_lies_outside_is_dropped() {
        let mut frame = Frame::new();
        let outside = [(-1, 0), (0, -1), (296, 0), (0, 128), (i32::MIN, i32::MAX)];
        let pixels = outside.map(|(x, y)| Pixel(Point::new(x, y), BinaryColor::On));
        frame.draw_iter(pixels).unwrap();
        assert_eq!(frame.pixel(296, 0), None);
        assert_eq!(frame.pixel(0, 128), None);
        assert!(frame == Frame::new());
    }
}
