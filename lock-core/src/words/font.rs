//! Letters in pixels.

use embedded_graphics::mono_font::MonoFont;
use embedded_graphics::mono_font::ascii::FONT_10X20;

/// The letters of ASCII, 10 × 20 pixels each: what [`super::ENGLISH`] takes.
///
/// They stand in the order of their codes, so none has to be looked for.
pub const ASCII: MonoFont<'static> = MonoFont { glyph_mapping: &place, ..FONT_10X20 };

/// Letters of the font, from the blank on.
const LETTERS: usize = 96;

/// Where a letter stands; that of a question mark for one that the font lacks.
fn place(letter: char) -> usize {
    let from_blank = |letter: char| u32::from(letter).wrapping_sub(u32::from(' '));
    match usize::try_from(from_blank(letter)) {
        Ok(place) if place < LETTERS => place,
        Ok(_) | Err(_) => usize::try_from(from_blank('?')).unwrap_or(0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the mapping that comes with the font.
    #[test]
    fn every_letter_stands_where_the_font_has_it() {
        for letter in '\0'..='\u{FFFF}' {
            assert_eq!(place(letter), FONT_10X20.glyph_mapping.index(letter), "{letter:?}");
        }
    }
}
