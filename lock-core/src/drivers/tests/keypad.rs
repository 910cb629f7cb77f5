//! The matrix, on a simulated keypad without diodes: current takes every way through
//! pressed keys, so ghosts appear as they do on a real one.

use core::cell::RefCell;
use std::collections::BTreeSet;
use std::rc::Rc;
use std::vec::Vec;

use proptest::prelude::*;

use super::*;
use crate::drivers::{COLUMNS, Matrix, ROWS, SETTLED};
use crate::keys::Key;

/// Rows driven low, keys held down: row × 3 + column.
#[derive(Default)]
struct Pad {
    low: [bool; ROWS],
    down: BTreeSet<usize>,
    /// A key that conducts too poorly for a way through it and others.
    poor: Option<usize>,
    /// Nanoseconds: the time, when each column was last let go while it was low, and how
    /// long the pull-up takes to bring it up.
    now: u64,
    let_go: [u64; COLUMNS],
    rises: u64,
}

impl Pad {
    /// Whether a column is joined to a row that is low, through any number of keys.
    fn reads_low(&self, column: usize) -> bool {
        let (mut rows, mut columns) = (BTreeSet::new(), BTreeSet::from([column]));
        loop {
            let before = rows.len() + columns.len();
            for key in self.down.iter().filter(|key| self.poor != Some(**key)) {
                let (row, column) = (key / COLUMNS, key % COLUMNS);
                if columns.contains(&column) || rows.contains(&row) {
                    rows.insert(row);
                    columns.insert(column);
                }
            }
            if rows.len() + columns.len() == before {
                let alone = self.poor.filter(|key| key % COLUMNS == column);
                rows.extend(alone.map(|key| key / COLUMNS));
                return rows.iter().any(|row| self.low[*row]);
            }
        }
    }
}

struct Row(Rc<RefCell<Pad>>, usize);
struct Column(Rc<RefCell<Pad>>, usize);

impl ErrorType for Row {
    type Error = Infallible;
}

impl ErrorType for Column {
    type Error = Infallible;
}

impl OutputPin for Row {
    fn set_low(&mut self) -> Result<(), Infallible> {
        self.0.borrow_mut().low[self.1] = true;
        Ok(())
    }

    fn set_high(&mut self) -> Result<(), Infallible> {
        let mut pad = self.0.borrow_mut();
        if pad.low[self.1] {
            let low: Vec<usize> = (0..COLUMNS).filter(|column| pad.reads_low(*column)).collect();
            let now = pad.now;
            low.into_iter().for_each(|column| pad.let_go[column] = now);
        }
        pad.low[self.1] = false;
        Ok(())
    }
}

impl InputPin for Column {
    fn is_low(&mut self) -> Result<bool, Infallible> {
        let pad = self.0.borrow();
        Ok(pad.reads_low(self.1) || pad.now < pad.let_go[self.1] + pad.rises)
    }

    fn is_high(&mut self) -> Result<bool, Infallible> {
        self.is_low().map(|low| !low)
    }
}

/// Time passes for the columns.
struct Rising(Rc<RefCell<Pad>>);

impl DelayNs for Rising {
    fn delay_ns(&mut self, nanos: u32) {
        self.0.borrow_mut().now += u64::from(nanos);
    }
}

struct Keypad {
    pad: Rc<RefCell<Pad>>,
    matrix: Matrix<Row, Column>,
}

impl Keypad {
    fn new() -> Self {
        let pad = Rc::<RefCell<Pad>>::default();
        let rows = core::array::from_fn(|row| Row(Rc::clone(&pad), row));
        let columns = core::array::from_fn(|column| Column(Rc::clone(&pad), column));
        Self { matrix: Matrix::new(rows, columns), pad }
    }

    /// Holds these keys for so many scans; the places of the keys that came of it.
    fn hold(&mut self, down: &[usize], scans: usize) -> Vec<usize> {
        self.pad.borrow_mut().down = down.iter().copied().collect();
        let all = Key::LAYOUT.as_flattened();
        let mut delay = Rising(Rc::clone(&self.pad));
        let keys = (0..scans).filter_map(|_| self.matrix.scan(&mut delay));
        keys.map(|key| all.iter().position(|other| *other == key).unwrap()).collect()
    }
}

const LONG: usize = 3 * SETTLED as usize;

/// ITU-T E.161 (from memory): 1 2 3 in the top row, 0 in the middle of the last one.
#[test]
fn each_key_is_where_it_is_written() {
    let mut pad = Keypad::new();
    for (place, key) in Key::LAYOUT.as_flattened().iter().enumerate() {
        assert!(!pad.hold(&[], LONG).contains(&place));
        assert!(pad.matrix.is_idle());
        assert_eq!(pad.hold(&[place], LONG), [place]);
        assert!(!pad.matrix.is_idle());
        if let (0..=8, Key::Digit(digit)) = (place, key) {
            assert_eq!(usize::from(digit.get()), place + 1);
        }
    }
}

/// One finger after the other, the first still down: both count, in order.
#[test]
fn rolling_fingers_lose_nothing() {
    for (one, other) in (0..12).flat_map(|a| (0..12).map(move |b| (a, b))).filter(|(a, b)| a != b) {
        let mut pad = Keypad::new();
        let mut keys = pad.hold(&[one], LONG);
        keys.extend(pad.hold(&[one, other], LONG));
        keys.extend(pad.hold(&[other], LONG));
        keys.extend(pad.hold(&[], LONG));
        assert_eq!(keys, [one, other]);
    }
}

/// Every three keys, in every order: what comes was pressed, and once three corners
/// of a rectangle are down, nothing comes until they are up.
#[test]
fn no_ghost_ever_types() {
    for keys in (0..12_usize.pow(3)).map(|n| [n % 12, n / 12 % 12, n / 144]) {
        let [a, b, c] = keys;
        if a == b || b == c || a == c {
            continue;
        }
        let mut pad = Keypad::new();
        let mut came = pad.hold(&[a], LONG);
        came.extend(pad.hold(&[a, b], LONG));
        assert_eq!(came, [a, b]);
        let third = pad.hold(&[a, b, c], LONG);
        let columns: BTreeSet<usize> = keys.iter().map(|key| key % COLUMNS).collect();
        let rows: BTreeSet<usize> = keys.iter().map(|key| key / COLUMNS).collect();
        let corners = columns.len() == 2 && rows.len() == 2;
        let expected: &[usize] = if corners { &[] } else { &keys[2..] };
        assert_eq!(third, expected, "{keys:?}");
        // Let go one by one: nothing comes of that.
        for down in [&[a, c][..], &[c], &[]] {
            assert_eq!(pad.hold(down, LONG), [], "{keys:?}");
        }
        assert_eq!(pad.hold(&[b], LONG), [b], "it works again");
    }
}

/// A ghost is joined through three contacts, and may show later than the third key,
/// by any number of scans: carbon pads conduct the better the harder they are pressed.
#[test]
fn a_late_ghost_does_not_type() {
    let rectangles = (0..ROWS).flat_map(|row| (0..COLUMNS).map(move |column| (row, column)));
    for (row, column) in rectangles {
        for (other_row, other_column) in
            (0..ROWS).flat_map(|row| (0..COLUMNS).map(move |column| (row, column)))
        {
            if row == other_row || column == other_column {
                continue;
            }
            let place = |row, column| row * COLUMNS + column;
            let keys = [place(row, column), place(row, other_column), place(other_row, column)];
            for late in [1, usize::from(SETTLED), LONG] {
                let mut pad = Keypad::new();
                pad.hold(&keys[..1], LONG);
                pad.hold(&keys[..2], LONG);
                // The third one's contact is poor yet: it conducts to its own row only.
                pad.pad.borrow_mut().poor = Some(keys[2]);
                let mut came = pad.hold(&keys, late);
                pad.pad.borrow_mut().poor = None;
                came.extend(pad.hold(&keys, LONG));
                came.retain(|key| *key != keys[2]);
                assert_eq!(came, [], "a ghost of {keys:?} after {late} scans");
            }
        }
    }
}

/// Of two at once nobody knows the order.
#[test]
fn two_at_once_are_none() {
    let mut pad = Keypad::new();
    assert_eq!(pad.hold(&[0, 4], LONG), []);
    assert_eq!(pad.hold(&[4], LONG), []);
    assert_eq!(pad.hold(&[4, 8], LONG), [8], "a third one, alone, counts");
    assert_eq!(pad.hold(&[], LONG), []);
    assert_eq!(pad.hold(&[4], LONG), [4]);
}

/// Between entries all rows are low, so that any key pulls its column down and wakes the
/// processor; the first scan after that reads each row for itself all the same.
#[test]
fn at_rest_every_key_is_heard() {
    for key in 0..ROWS * COLUMNS {
        let mut pad = Keypad::new();
        pad.hold(&[], LONG);
        assert!(pad.matrix.is_idle());
        pad.matrix.rest();
        pad.pad.borrow_mut().down = BTreeSet::from([key]);
        assert!(pad.pad.borrow().reads_low(key % COLUMNS), "an edge wakes");
        let scans = usize::from(SETTLED);
        assert_eq!(pad.hold(&[key], scans), [key], "no scan is wasted");
        assert!(!pad.matrix.is_idle());
    }
}

/// A keypad on a metre of cable: pulled up by 40 kΩ against 400 pF, a column reads high
/// (seven tenths of the supply) after 1.2 time constants, 19 µs. It may not pull its key
/// into the next row.
#[test]
fn a_slow_column_is_no_second_key() {
    for key in 0..ROWS * COLUMNS {
        let mut pad = Keypad::new();
        pad.pad.borrow_mut().rises = 19_264;
        assert_eq!(pad.hold(&[key], LONG), [key]);
        assert_eq!(pad.hold(&[], LONG), []);
        pad.matrix.rest();
        assert_eq!(pad.hold(&[key], LONG), [key]);
    }
}

/// A press shorter than 20 ms is a bounce, whenever the scans fall, and a longer one
/// with a scan to spare is a key.
#[test]
fn twenty_milliseconds_are_a_press() {
    const EVERY: usize = 5;
    for length in 1..60 {
        for offset in 0..EVERY {
            let mut pad = Keypad::new();
            pad.hold(&[], LONG);
            let mut came = Vec::new();
            for now in (0..200).step_by(EVERY) {
                let down = (50 + offset..50 + offset + length).contains(&now);
                came.extend(pad.hold(if down { &[4] } else { &[] }, 1));
            }
            if length < 20 {
                assert_eq!(came, [], "{length} ms from {offset}");
            } else if length > 20 + EVERY {
                assert_eq!(came, [4], "{length} ms from {offset}");
            }
        }
    }
}

proptest! {
    /// However the contact bounces, as long as no bounce is as long as a picture
    /// takes to count: one press is one key, letting go is none.
    #[test]
    fn a_bouncing_key_is_one_key(
        key in 0_usize..12,
        press in prop::collection::vec(1_usize..SETTLED as usize, 0..20),
        release in prop::collection::vec(1_usize..SETTLED as usize, 0..20),
    ) {
        let mut pad = Keypad::new();
        pad.hold(&[], LONG);
        let mut keys = Vec::new();
        // Down and up in turn; it ends down, and stays so.
        for (place, scans) in press.iter().enumerate() {
            let down: &[usize] = if place % 2 == 0 { &[key] } else { &[] };
            keys.extend(pad.hold(down, *scans));
        }
        prop_assert!(keys.is_empty(), "nothing counts while it bounces");
        keys.extend(pad.hold(&[key], LONG));
        prop_assert_eq!(&keys, &[key]);
        for (place, scans) in release.iter().enumerate() {
            let down: &[usize] = if place % 2 == 0 { &[] } else { &[key] };
            keys.extend(pad.hold(down, *scans));
        }
        keys.extend(pad.hold(&[], LONG));
        prop_assert_eq!(keys, [key]);
    }

    /// Whatever is held for however long: every key that comes is down at that
    /// moment, in the simulated keypad, not only in what it reads.
    #[test]
    fn what_comes_is_pressed(story in prop::collection::vec((prop::collection::vec(0_usize..12, 0..5), 1_usize..12), 1..40)) {
        let mut pad = Keypad::new();
        for (down, scans) in story {
            for key in pad.hold(&down, scans) {
                prop_assert!(down.contains(&key), "{key} of {down:?}");
            }
        }
    }
}
