//! The twelve keys, and the queue between the key interrupt and the main loop.

use core::cell::Cell;

use critical_section::Mutex;
use zeroize::Zeroize;

/// One decimal digit, 0 to 9. It may be part of a code: no `Debug`.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Digit(u8);

silent!(Digit);

impl Digit {
    /// The digit `d`, or `None` above 9.
    #[must_use]
    pub const fn new(d: u8) -> Option<Self> {
        if d <= 9 { Some(Self(d)) } else { None }
    }

    /// The digit's value, 0 to 9.
    #[must_use]
    pub const fn get(self) -> u8 {
        self.0
    }
}

/// A key of the keypad: digits laid out as ITU-T E.161, *back* and *OK*.
///
/// No `Debug`: a digit may be part of a code.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Key {
    /// A digit key.
    Digit(Digit),
    /// One step back: leaves an entry or a list.
    Back,
    /// Confirms an entry; at rest, leads to the list.
    Ok,
}

silent!(Key);

impl Key {
    /// The keypad row by row, as ITU-T E.161 lays the digits out (from
    /// memory), with *back* and *OK* beside the zero.
    pub const LAYOUT: [[Self; 3]; 4] = [
        [Self::d(1), Self::d(2), Self::d(3)],
        [Self::d(4), Self::d(5), Self::d(6)],
        [Self::d(7), Self::d(8), Self::d(9)],
        [Self::Back, Self::d(0), Self::Ok],
    ];

    const fn d(d: u8) -> Self {
        Self::Digit(Digit(d))
    }

    const fn to_byte(self) -> u8 {
        match self {
            Self::Digit(Digit(d)) => d,
            Self::Back => 10,
            Self::Ok => 11,
        }
    }

    const fn from_byte(b: u8) -> Self {
        match b {
            10 => Self::Back,
            11 => Self::Ok,
            d => Self::Digit(Digit(d)),
        }
    }
}

/// The keys that a text names: digits, and the words `ok` and `back`, with blanks between
/// them wherever you like. `None` for a letter of anything else.
pub fn named(text: &str) -> impl Iterator<Item = Option<Key>> {
    text.split_whitespace().flat_map(|word| {
        let (word, digits) = match word {
            "ok" => (Some(Key::Ok), ""),
            "back" => (Some(Key::Back), ""),
            digits => (None, digits),
        };
        let digit = |c: char| Digit::new(u8::try_from(c).ok()?.checked_sub(b'0')?);
        word.map(Some).into_iter().chain(digits.chars().map(move |c| digit(c).map(Key::Digit)))
    })
}

/// Keys pressed but not yet taken by the main loop.
///
/// An interrupt pushes, the main loop takes; each slot is wiped as it is read,
/// so that no digit of a code outlives its use. Holds [`KeyQueue::CAPACITY`]
/// keys; a key pressed while it is full is lost, as if the finger had slipped.
pub struct KeyQueue(Mutex<Cell<Slots>>);

#[derive(Clone, Copy)]
struct Slots {
    keys: [u8; KeyQueue::CAPACITY],
    count: u8,
}

silent!(Slots);

const EMPTY: Slots = Slots { keys: [0; KeyQueue::CAPACITY], count: 0 };

impl KeyQueue {
    /// Longer than the longest entry (two digits, an eight-digit code, *OK*).
    pub const CAPACITY: usize = 16;

    /// A queue without keys.
    #[must_use]
    pub const fn new() -> Self {
        Self(Mutex::new(Cell::new(EMPTY)))
    }

    /// Takes a key in; safe to call from an interrupt.
    ///
    /// # Errors
    /// [`QueueFull`] if [`KeyQueue::CAPACITY`] keys wait already; the key is
    /// then dropped.
    pub fn push(&self, key: Key) -> Result<(), QueueFull> {
        critical_section::with(|cs| {
            let cell = self.0.borrow(cs);
            let mut slots = cell.get();
            let free = slots.keys.get_mut(usize::from(slots.count));
            let pushed = match free {
                Some(slot) => {
                    *slot = key.to_byte();
                    slots.count = slots.count.saturating_add(1);
                    cell.set(slots);
                    Ok(())
                }
                None => Err(QueueFull),
            };
            slots.keys.zeroize();
            pushed
        })
    }

    /// The oldest key, taken out and wiped from the queue.
    #[must_use]
    pub fn take(&self) -> Option<Key> {
        critical_section::with(|cs| {
            let cell = self.0.borrow(cs);
            let mut slots = cell.get();
            if slots.count == 0 {
                return None;
            }
            let [first, rest @ ..] = slots.keys;
            let mut moved = EMPTY;
            for (to, from) in moved.keys.iter_mut().zip(rest) {
                *to = from;
            }
            moved.count = slots.count.saturating_sub(1);
            cell.set(moved);
            slots.keys.zeroize();
            moved.keys.zeroize();
            Some(Key::from_byte(first))
        })
    }
}

impl Default for KeyQueue {
    fn default() -> Self {
        Self::new()
    }
}

/// The queue holds [`KeyQueue::CAPACITY`] keys already.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct QueueFull;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_come_out_in_order_and_leave_nothing_behind() {
        let queue = KeyQueue::new();
        for d in 0..10 {
            assert_eq!(queue.push(Key::d(d)), Ok(()));
        }
        for d in 0..10 {
            assert!(queue.take() == Some(Key::d(d)));
        }
        assert!(queue.take().is_none());
        critical_section::with(|cs| {
            assert_eq!(queue.0.borrow(cs).get().keys, [0; KeyQueue::CAPACITY]);
        });
    }

    #[test]
    fn a_text_names_keys() {
        let keys: std::vec::Vec<_> = named(" 12ok ok back\t7").collect();
        let [one, two, seven] = [1, 2, 7].map(|d| Some(Key::d(d)));
        let expected = [one, two, None, None, Some(Key::Ok), Some(Key::Back), seven];
        assert!(keys == expected);
        assert!(named("").next().is_none());
    }

    #[test]
    fn a_full_queue_loses_the_newest_key_only() {
        let queue = KeyQueue::new();
        for _ in 0..KeyQueue::CAPACITY {
            assert_eq!(queue.push(Key::Back), Ok(()));
        }
        assert_eq!(queue.push(Key::Ok), Err(QueueFull));
        for _ in 0..KeyQueue::CAPACITY {
            assert!(queue.take() == Some(Key::Back));
        }
        assert!(queue.take().is_none());
    }
}
