//! The display as a PNG file: one picture, or a sheet of many.

use ::png::{BitDepth, ColorType, Encoder, EncodingError};
use embedded_graphics::pixelcolor::BinaryColor;
use lock_core::draw::{Frame, HEIGHT, WIDTH};
use lock_core::screen::Screen;

const BLACK: u8 = 0;
const EDGE: u8 = 120;
const GREY: u8 = 224;
const WHITE: u8 = 255;
/// Room between the pictures of a sheet, and round them.
const GAP: usize = 24;

/// `frame` as a PNG, each pixel `scale` × `scale`; a scale of 0 counts
/// as 1.
///
/// # Errors
/// [`EncodingError`] if the encoder reports one.
pub fn png(frame: &Frame, scale: u8) -> Result<Vec<u8>, EncodingError> {
    let scale = usize::from(scale.max(1));
    let mut canvas = Canvas::new(side(WIDTH) * scale, side(HEIGHT) * scale, WHITE);
    canvas.picture(frame, (0, 0), scale);
    canvas.encode()
}

/// A sheet of `screens` in rows of `columns`, each pixel `scale` ×
/// `scale`; 0 counts as 1 for both.
///
/// # Errors
/// [`EncodingError`] if the sheet is too large for a PNG.
pub fn sheet(screens: &[Screen], columns: usize, scale: u8) -> Result<Vec<u8>, EncodingError> {
    let (scale, columns) = (usize::from(scale.max(1)), columns.max(1));
    let (width, height) = (side(WIDTH) * scale + GAP, side(HEIGHT) * scale + GAP);
    let rows = screens.len().div_ceil(columns);
    let mut canvas = Canvas::new(columns * width + GAP, rows * height + GAP, GREY);
    for (place, screen) in screens.iter().enumerate() {
        let (left, top) = (place % columns * width + GAP, place / columns * height + GAP);
        canvas.fill((left - 1, top - 1), (width - GAP + 2, height - GAP + 2), EDGE);
        canvas.picture(&super::frame(screen), (left, top), scale);
    }
    canvas.encode()
}

fn side(pixels: u32) -> usize {
    usize::try_from(pixels).unwrap_or(0)
}

/// Grey pixels, row by row.
struct Canvas {
    width: usize,
    pixels: Vec<u8>,
}

impl Canvas {
    fn new(width: usize, height: usize, grey: u8) -> Self {
        Self { width, pixels: vec![grey; width * height] }
    }

    fn fill(&mut self, (left, top): (usize, usize), (width, height): (usize, usize), grey: u8) {
        for row in self.pixels.chunks_exact_mut(self.width).skip(top).take(height) {
            row[left..left + width].fill(grey);
        }
    }

    fn picture(&mut self, frame: &Frame, (left, top): (usize, usize), scale: usize) {
        for (y, row) in (0..HEIGHT).zip((top..).step_by(scale)) {
            for (x, column) in (0..WIDTH).zip((left..).step_by(scale)) {
                let ink = frame.pixel(x, y) == Some(BinaryColor::On);
                self.fill((column, row), (scale, scale), if ink { BLACK } else { WHITE });
            }
        }
    }

    fn encode(&self) -> Result<Vec<u8>, EncodingError> {
        let mut bytes = Vec::new();
        let height = self.pixels.len().checked_div(self.width).unwrap_or(0);
        let dimension = |pixels| u32::try_from(pixels).unwrap_or(u32::MAX);
        let mut encoder = Encoder::new(&mut bytes, dimension(self.width), dimension(height));
        encoder.set_color(ColorType::Grayscale);
        encoder.set_depth(BitDepth::Eight);
        encoder.write_header()?.write_image_data(&self.pixels)?;
        Ok(bytes)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use lock_core::rules::supply::Level;
    use lock_core::screen::Late;
    use std::io::Cursor;

    fn decode(bytes: Vec<u8>) -> (u32, u32, Vec<u8>) {
        let mut reader = ::png::Decoder::new(Cursor::new(bytes)).read_info().unwrap();
        let mut pixels = vec![0; reader.output_buffer_size().unwrap()];
        let info = reader.next_frame(&mut pixels).unwrap();
        (info.width, info.height, pixels)
    }

    /// The file, read back, has the frame's pixels.
    #[test]
    fn a_png_reads_back() {
        let frame = super::super::frame(&Screen::Released { supply: Level::Low });
        let (width, height, pixels) = decode(png(&frame, 3).unwrap());
        assert_eq!((width, height), (888, 384));
        for (at, grey) in (0..).zip(pixels) {
            let ink = frame.pixel(at % 888 / 3, at / 888 / 3) == Some(BinaryColor::On);
            assert_eq!(grey, if ink { 0 } else { 255 });
        }
    }

    #[test]
    fn a_sheet_holds_every_screen() {
        let screens = [Screen::List { page: 0 }, Screen::TooLong, Screen::Open { late: Late::No }];
        let (width, height, pixels) = decode(sheet(&screens, 2, 1).unwrap());
        assert_eq!((width, height), (2 * 320 + 24, 2 * 152 + 24));
        for (screen, (left, top)) in screens.iter().zip([(24, 24), (344, 24), (24, 176)]) {
            let frame = super::super::frame(screen);
            for (x, y) in (0..296).flat_map(|x| (0..128).map(move |y| (x, y))) {
                let grey = pixels[side((top + y) * width + left + x)];
                let ink = frame.pixel(x, y) == Some(BinaryColor::On);
                assert_eq!(grey, if ink { 0 } else { 255 }, "{screen:?}");
            }
        }
    }

    #[test]
    fn nought_counts_as_one() {
        let frame = super::super::frame(&Screen::List { page: 0 });
        assert_eq!(png(&frame, 0).unwrap(), png(&frame, 1).unwrap());
        assert_eq!(sheet(&[], 0, 0).unwrap(), sheet(&[], 1, 1).unwrap());
    }
}
