//! The display in a terminal: the pictogram from its pixels, the words as text.
//!
//! A cell of a terminal is about twice as high as wide. Each stands for 4 × 8
//! pixels and shows one of the sixteen quadrant blocks, so that the shapes,
//! most of which lie on a grid of four pixels, keep their edges. Words would
//! not survive that; they are written out.

use embedded_graphics::pixelcolor::BinaryColor;
use lock_core::draw::Frame;
use lock_core::screen::Screen;
use lock_core::words::{self, Lines};

/// Columns of a panel, with its border.
pub const COLUMNS: usize = PICTURE_COLUMNS + WORD_COLUMNS + 2;
/// Rows of a panel, with its border.
pub const ROWS: usize = PICTURE_ROWS + 2;

const PICTURE_COLUMNS: usize = 29;
const PICTURE_ROWS: usize = 16;
/// Room for a line of a body, three blanks before and two behind it.
const WORD_COLUMNS: usize = words::COLUMNS + 5;
const TITLE_ROW: usize = 2;
const RULE_ROW: usize = 3;
/// The row of a body's first line; the others follow on every second.
const BODY_ROW: usize = 6;

/// How a panel is coloured.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Look {
    /// Not at all: for files, pipes and `NO_COLOR`.
    Plain,
    /// Black on white, like paper, whatever the terminal's colours.
    Paper,
}

/// `screen` as a panel of [`ROWS`] lines, each [`COLUMNS`] wide, with a line
/// break after each.
#[must_use]
pub fn panel(screen: &Screen, look: Look) -> String {
    let frame = super::frame(screen);
    let lines = words::english(screen);
    let (start, end) = match look {
        Look::Plain => ("", ""),
        Look::Paper => ("\x1b[30;107m", "\x1b[0m"),
    };
    let edge = "─".repeat(COLUMNS - 2);
    let mut out = format!("╭{edge}╮\n");
    for row in 0..PICTURE_ROWS {
        let picture: String =
            (0..PICTURE_COLUMNS).map(|column| cell(&frame, column, row)).collect();
        out += &format!("│{start}{picture}{}{end}│\n", words_at(&lines, row, look));
    }
    out + &format!("╰{edge}╯\n")
}

fn words_at(lines: &Lines, row: usize, look: Look) -> String {
    let width = WORD_COLUMNS - 3;
    match row {
        TITLE_ROW => match look {
            Look::Plain => format!("   {:width$}", lines.title()),
            Look::Paper => format!("   \x1b[1m{:width$}\x1b[22m", lines.title()),
        },
        RULE_ROW => format!("   {}  ", "━".repeat(words::COLUMNS)),
        _ => {
            let line = row.checked_sub(BODY_ROW).filter(|rest| rest % 2 == 0).map(|rest| rest / 2);
            let text = line.and_then(|line| lines.body().nth(line)).unwrap_or_default();
            format!("   {text:width$}")
        }
    }
}

/// The quadrant block for 4 × 8 pixels.
fn cell(frame: &Frame, column: usize, row: usize) -> char {
    /// By upper left, upper right, lower left and lower right quarter, the
    /// first the highest bit.
    const BLOCKS: [char; 16] =
        [' ', '▗', '▖', '▄', '▝', '▐', '▞', '▟', '▘', '▚', '▌', '▙', '▀', '▜', '▛', '█'];
    let (left, top) = (column * 4, row * 8);
    let quarters = [(0, 0), (2, 0), (0, 4), (2, 4)];
    let index = quarters
        .iter()
        .fold(0, |bits, (x, y)| bits * 2 + usize::from(mostly_ink(frame, left + x, top + y)));
    BLOCKS[index]
}

/// Whether at least half of 2 × 4 pixels are ink.
fn mostly_ink(frame: &Frame, left: usize, top: usize) -> bool {
    let ink = |x: usize, y: usize| {
        let at = (u32::try_from(x).ok(), u32::try_from(y).ok());
        let (Some(x), Some(y)) = at else { return false };
        frame.pixel(x, y) == Some(BinaryColor::On)
    };
    let count = (0..8).filter(|n| ink(left + n % 2, top + n / 2)).count();
    count >= 4
}

#[cfg(test)]
mod tests {
    use super::*;
    use lock_core::rules::supply::Level;
    use lock_core::screen::ClockSeen;

    fn secured() -> Screen {
        Screen::Secured { supply: Level::Good, clock: ClockSeen::Valid }
    }

    #[test]
    fn a_panel_is_a_rectangle_of_80_columns_at_most() {
        let panel = panel(&secured(), Look::Plain);
        let widths: Vec<_> = panel.lines().map(|line| line.chars().count()).collect();
        assert_eq!(widths, [COLUMNS; ROWS]);
        const { assert!(COLUMNS <= 80) }
    }

    /// The colours add nothing that takes a column.
    #[test]
    fn paper_says_the_same() {
        let paper = panel(&secured(), Look::Paper);
        let plain = ["\x1b[30;107m", "\x1b[0m", "\x1b[1m", "\x1b[22m"]
            .iter()
            .fold(paper, |text, code| text.replace(code, ""));
        assert_eq!(plain, panel(&secured(), Look::Plain));
    }

    /// Every cell against its 32 pixels: as much ink, give or take half of
    /// what its quarters can round away.
    #[test]
    fn a_cell_has_the_ink_of_its_pixels() {
        let frame = crate::picture::frame(&secured());
        let filled = |block: char| match block {
            ' ' => 0,
            '▗' | '▖' | '▝' | '▘' => 8,
            '▄' | '▐' | '▞' | '▚' | '▌' | '▀' => 16,
            '▟' | '▙' | '▜' | '▛' => 24,
            '█' => 32,
            other => panic!("{other:?} is no quadrant block"),
        };
        let mut seen = 0;
        for row in 0..PICTURE_ROWS {
            for column in 0..PICTURE_COLUMNS {
                let pixels = (0..32_usize)
                    .filter(|n| {
                        let x = u32::try_from(column * 4 + n % 4).unwrap();
                        let y = u32::try_from(row * 8 + n / 4).unwrap();
                        frame.pixel(x, y) == Some(BinaryColor::On)
                    })
                    .count();
                let filled: usize = filled(cell(&frame, column, row));
                assert!(filled.abs_diff(pixels) <= 16, "{column} {row}");
                seen += filled;
            }
        }
        assert!(seen > 1_000);
    }
}
