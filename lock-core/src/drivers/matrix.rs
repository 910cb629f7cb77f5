//! A keypad matrix of 4 rows and 3 columns.
//!
//! Rows are outputs, open drain, idle high; columns are inputs, pulled up. A pressed key
//! joins its row to its column: while the row is low, the column reads low. A row that
//! pushes its high level would fight the low one through two keys of a column: it takes a
//! diode, its cathode at the pin.
//!
//! Call [`Matrix::scan`] from a timer, every 5 ms, while anybody types. Once
//! [`Matrix::is_idle`], call [`Matrix::rest`] and stop the timer: all rows are low then,
//! and the edge on a column that starts it again is a key.
//!
//! **Bounces.** A picture counts once [`SETTLED`] scans in a row agree on it.
//!
//! **Ghosts.** Without a diode at each key, three keys on the corners of a rectangle
//! make the fourth one read as pressed, at once or a little later. While all corners of a
//! rectangle read as pressed, no key counts that was not pressed before; and of two that
//! come together nobody knows the order, so neither does. Such keys count only after they
//! have been let go.

use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{InputPin, OutputPin};

use crate::keys::Key;

/// Rows of the keypad.
pub const ROWS: usize = 4;
/// Columns of the keypad.
pub const COLUMNS: usize = 3;
/// Scans that must agree before a picture counts. Ours: from the first to the last are
/// 20 ms, at a scan every 5 ms; longer than contacts bounce (from memory: 5 to 20 ms).
pub const SETTLED: u8 = 5;
/// How long a row is given to reach its level, and a column to rise again. Ours: 1.2 time
/// constants (a column reads high at seven tenths of the supply) of 40 kΩ and 400 pF, more
/// than a metre of cable has.
const LEVEL_NANOS: u32 = 20_000;

/// A key a bit: row × 3 + column.
type Picture = u16;

/// A scanned keypad. No `Debug`: what is pressed may be a digit of a code.
pub struct Matrix<R, C> {
    rows: [R; ROWS],
    columns: [C; COLUMNS],
    /// The last scan, and how many in a row agree on it.
    seen: Picture,
    agree: u8,
    /// What counts as pressed.
    pressed: Picture,
    /// What counts only after it was let go.
    barred: Picture,
}

silent!(Matrix<(), ()>);

impl<R: OutputPin, C: InputPin> Matrix<R, C> {
    /// A keypad on these pins, rows from the top, columns from the left, as
    /// [`Key::LAYOUT`] has them.
    pub const fn new(rows: [R; ROWS], columns: [C; COLUMNS]) -> Self {
        Self { rows, columns, seen: 0, agree: 0, pressed: 0, barred: 0 }
    }

    /// Looks at the keypad once; the key that was pressed, if a press counts now.
    ///
    /// Nothing is said of a key that is let go. A pin that fails reads as not
    /// pressed.
    pub fn scan(&mut self, delay: &mut impl DelayNs) -> Option<Key> {
        let picture = self.look(delay);
        self.take(picture)
    }

    /// Whether no key counts as pressed and none is on its way: the timer may stop.
    #[must_use]
    pub const fn is_idle(&self) -> bool {
        self.seen == 0 && self.pressed == 0 && self.agree >= SETTLED
    }

    /// Leaves all rows low, so that any key pulls its column down: for as long as nobody
    /// types. The next scan begins with all of them high.
    pub fn rest(&mut self) {
        for row in &mut self.rows {
            // A row that fails is a row that wakes nobody.
            let _ = row.set_low();
        }
    }

    fn look(&mut self, delay: &mut impl DelayNs) -> Picture {
        for row in &mut self.rows {
            let _ = row.set_high();
        }
        let mut picture = 0;
        let mut bit: Picture = 1;
        for row in &mut self.rows {
            let driven = row.set_low().is_ok();
            delay.delay_ns(LEVEL_NANOS);
            for column in &mut self.columns {
                if driven && column.is_low().unwrap_or(false) {
                    picture |= bit;
                }
                bit = bit.wrapping_shl(1);
            }
            // A row that stays low would show its keys in every other row.
            let _ = row.set_high();
        }
        picture
    }

    fn take(&mut self, picture: Picture) -> Option<Key> {
        if picture != self.seen {
            self.seen = picture;
            self.agree = 0;
        }
        if self.agree < SETTLED {
            self.agree = self.agree.saturating_add(1);
        }
        if self.agree < SETTLED || picture == self.pressed {
            return None;
        }
        let new = picture & !self.pressed & !self.barred;
        self.barred &= picture;
        self.pressed = picture;
        if new.count_ones() > 1 || has_rectangle(picture) {
            self.barred |= new;
            return None;
        }
        key(new)
    }
}

/// Whether two rows have two columns in common: one of the four keys may be a ghost.
fn has_rectangle(picture: Picture) -> bool {
    let row = |row: u32| picture.wrapping_shr(row.saturating_mul(3)) & 0b111;
    let rows = [row(0), row(1), row(2), row(3)];
    let shared = |other: &Picture, one: &Picture| (other & one).count_ones() > 1;
    rows.iter()
        .enumerate()
        .any(|(place, one)| rows.iter().take(place).any(|other| shared(other, one)))
}

/// The key of a single bit; `None` for none.
fn key(bit: Picture) -> Option<Key> {
    let place = usize::try_from(bit.trailing_zeros()).ok()?;
    Key::LAYOUT.as_flattened().get(place).copied()
}
