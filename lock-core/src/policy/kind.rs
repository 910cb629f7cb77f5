//! What a value of the policy can be: its type in the code, the number that stands
//! for it everywhere else, and its unit.

use super::{Control, Deputies, DuressCodes, Millivolts};
use crate::time::Seconds;

/// What the number of a value counts, and so how it is read and written.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Unit {
    /// Digits of a code.
    Digits,
    /// Wrong codes.
    Tries,
    /// Seconds.
    Seconds,
    /// Millivolts.
    Millivolts,
    /// People: one or two.
    People,
    /// 0 for off, 1 for on.
    Switch,
    /// One of these words, counted from the least value.
    Choice(&'static [&'static str]),
}

/// Each kind is a module: `of` makes a value of a number that is within the bounds of
/// its row, and `number` is the way back. The table holds them together.
macro_rules! kinds {
    ($(
        $(#[$doc:meta])*
        $kind:ident: $type:ty, $unit:expr, typed by $scale:literal, |$n:ident| $of:expr, |$value:ident| $number:expr;
    )+) => {$(
        $(#[$doc])*
        pub(super) mod $kind {
            use super::*;
            pub(in crate::policy) const UNIT: Unit = $unit;
            pub(in crate::policy) const SCALE: u8 = $scale;
            pub(in crate::policy) const fn of($n: u32) -> $type {
                $of
            }
            pub(in crate::policy) const fn number($value: $type) -> u32 {
                $number
            }
        }
    )+};
}

kinds! {
    /// Digits of a code.
    digits: u8, Unit::Digits, typed by 1, |n| low_byte(n), |value| of_byte(value);
    /// Wrong codes.
    tries: u8, Unit::Tries, typed by 1, |n| low_byte(n), |value| of_byte(value);
    /// A length of time.
    seconds: Seconds, Unit::Seconds, typed by 1, |n| Seconds::new(n), |value| value.get();
    /// A length of time that is typed in minutes.
    minutes: Seconds, Unit::Seconds, typed by 60, |n| Seconds::new(n), |value| value.get();
    /// A voltage.
    millivolts: Millivolts, Unit::Millivolts, typed by 1, |n| Millivolts(low_half(n)), |value| of_half(value.0);
    /// How many people an opening takes.
    people: Control, Unit::People, typed by 1, |n| Control::of(n), |value| of_byte(value.people());
    /// Whether duress codes are told from wrong ones.
    switch: DuressCodes, Unit::Switch, typed by 1, |n| DuressCodes::of(n), |value| value.number();
    /// What deputies may do.
    deputies: Deputies, Unit::Choice(&Deputies::NAMES), typed by 1, |n| Deputies::of(n), |value| of_byte(value.number());
}

const fn low_byte(n: u32) -> u8 {
    let [byte, ..] = n.to_le_bytes();
    byte
}

const fn low_half(n: u32) -> u16 {
    let [low, high, ..] = n.to_le_bytes();
    u16::from_le_bytes([low, high])
}

const fn of_byte(byte: u8) -> u32 {
    u32::from_le_bytes([byte, 0, 0, 0])
}

const fn of_half(half: u16) -> u32 {
    let [low, high] = half.to_le_bytes();
    u32::from_le_bytes([low, high, 0, 0])
}
