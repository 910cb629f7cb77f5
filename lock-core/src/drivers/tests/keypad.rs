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
}

impl Pad {
    /// Whether a column is joined to a row that is low, through any number of keys.
    fn reads_low(&self, column: usize) -> bool {
        let (mut rows, mut columns) = (BTreeSet::new(), BTreeSet::from([column]));
        loop {
            let before = rows.len() + columns.len();
            for key in &self.down {
                let (row, column) = (key / COLUMNS, key % COLUMNS);
                if columns.contains(&column) || rows.contains(&row) {
                    rows.insert(row);
                    columns.insert(column);
                }
            }
            if rows.len() + columns.len() == before {
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
        self.0.borrow_mut().low[self.1] = false;
        Ok(())
    }
}

impl InputPin for Column {
    fn is_low(&mut self) -> Result<bool, Infallible> {
        Ok(self.0.borrow().reads_low(self.1))
    }

    fn is_high(&mut self) -> Result<bool, Infallible> {
        self.is_low().map(|low| !low)
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
        let keys = (0..scans).filter_map(|_| self.matrix.scan(&mut AtOnce));
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
