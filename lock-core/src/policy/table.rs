//! The table of the policy: one row a key, and everything that is made of it.

use serde::{Deserialize, Serialize};

use super::kind::{self, Unit};
use super::{Control, Deputies, DuressCodes, Millivolts};
use crate::time::Seconds;

/// One row of the policy table.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Row {
    /// What records call it, in flash and in extracts: never another key's, even
    /// if this one goes.
    pub number: u8,
    /// The key as the site file spells it.
    pub key: &'static str,
    /// What its numbers count.
    pub unit: Unit,
    /// The least value allowed.
    pub least: u32,
    /// The value where nothing is said.
    pub default: u32,
    /// The greatest value allowed.
    pub most: u32,
    /// Why it is what it is, with its source.
    pub why: &'static str,
}

/// What a lock needs of a row: its texts are not in an image that does not name them.
#[derive(Clone, Copy)]
pub(crate) struct Figures {
    pub(crate) number: u8,
    /// How many of its unit are one of what is typed at the keypad.
    pub(crate) scale: u8,
    /// Its first byte in the row in flash, and the one behind its last.
    pub(crate) at: (u8, u8),
    pub(crate) least: u32,
    pub(crate) default: u32,
    pub(crate) most: u32,
}

macro_rules! policy {
    ($(
        $(#[$doc:meta])*
        $field:ident: $type:ty, $number:literal $key:literal, $kind:ident
        [$least:literal, $default:literal, $most:literal], bytes $from:literal to $to:literal, $why:literal;
    )+) => {
        /// The policy of one lock. [`Policy::check`] says whether it is within bounds.
        #[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
        pub struct Policy {$(
            $(#[$doc])*
            pub $field: $type,
        )+}

        /// The policy table: every value with bounds, default and reason. Places in it
        /// are for a lock's memory; what lasts names a key by its [`Row::number`].
        pub const TABLE: [Row; KEYS.len()] = [$(Row {
            number: $number,
            key: $key,
            unit: kind::$kind::UNIT,
            least: $least,
            default: $default,
            most: $most,
            why: $why,
        }),+];

        /// Every key of the policy as the site file spells it, in the order of [`TABLE`].
        pub const KEYS: [&str; [$($number),+].len()] = [$($key),+];

        pub(crate) static FIGURES: [Figures; KEYS.len()] = FIGURES_OF;
        const FIGURES_OF: [Figures; KEYS.len()] = [$(Figures {
            number: $number,
            scale: kind::$kind::SCALE,
            at: ($from, $to),
            least: $least,
            default: $default,
            most: $most,
        }),+];

        impl Policy {
            /// The defaults of [`TABLE`].
            pub const DEFAULT: Self = Self {$($field: kind::$kind::of($default)),+};

            /// The values in the order of [`TABLE`], each as a number of its unit.
            #[must_use]
            pub const fn values(&self) -> [u32; KEYS.len()] {
                [$(kind::$kind::number(self.$field)),+]
            }

            /// The policy of values that are within bounds.
            pub(super) const fn of_checked(values: &[u32; KEYS.len()]) -> Self {
                let [$($field),+] = *values;
                Self {$($field: kind::$kind::of($field)),+}
            }
        }

        $(const _: () = {
            use kind::$kind::{number, of};
            assert!($least <= $default && $default <= $most, $key);
            assert!(
                number(of($least)) == $least && number(of($most)) == $most,
                concat!("the type of `", $key, "` does not hold its bounds"),
            );
            assert!(
                holds($from, $to, $most),
                concat!("the bytes of `", $key, "` do not hold what it may be"),
            );
        };)+
    };
}

// A row: the field and its type; the key's number for good, and the key; its kind;
// least, default, most; its bytes in the row in flash, counted as
// `docs/flash-layout.md` does; the reason.
policy! {
    /// Digits of a new code; applies at the next change of a code.
    code_digits: u8, 0 "code_digits", digits [6, 6, 8], bytes 4 to 5,
        "ours: more are written down";
    /// Wrong codes that start a penalty.
    wrong_codes: u8, 1 "wrong_codes", tries [3, 4, 10], bytes 5 to 6,
        "ours: room for a slip";
    /// Length of the first penalty; each further one is twice as long.
    penalty: Seconds, 2 "penalty", minutes [60, 300, 3_600], bytes 6 to 10,
        "ours: long for a guesser";
    /// The longest a penalty gets.
    penalty_cap: Seconds, 3 "penalty_cap", minutes [60, 2_400, 86_400], bytes 10 to 14,
        "ours: reached by the fourth penalty of the default";
    /// Time delay between a right code and the claim; zero: none.
    delay: Seconds, 4 "delay", minutes [0, 0, 5_940], bytes 14 to 18,
        "ours: 99 minutes are two digits";
    /// How long a waited-out delay can be claimed.
    claim: Seconds, 5 "claim", minutes [60, 180, 900], bytes 18 to 22,
        "ours: time to come back";
    /// How long the first of two people waits for the second.
    dual_limit: Seconds, 6 "dual_limit", seconds [10, 60, 300], bytes 22 to 26,
        "ours: two people stand side by side";
    /// How long the alarm line is held.
    alarm_hold: Seconds, 7 "alarm_hold", seconds [10, 60, 600], bytes 26 to 30,
        "ours: long enough for a polled line";
    /// How long the bolt can be drawn after a release.
    release: Seconds, 8 "release", seconds [3, 6, 20], bytes 30 to 34,
        "ours: time to draw the bolt";
    /// Below this the supply is low.
    supply_low: Millivolts, 9 "supply_low", millivolts [3_000, 4_800, 9_000], bytes 34 to 38,
        "ours: four LR6 cells at 1.2 V";
    /// Below this nothing is released.
    supply_spent: Millivolts, 10 "supply_spent", millivolts [2_500, 4_200, 8_800], bytes 38 to 42,
        "ours: four LR6 cells at 1.05 V";
    /// One person or two.
    control: Control, 11 "dual_control", people [1, 1, 2], bytes 42 to 43,
        "ours: whoever wants two people says so";
    /// Whether duress codes are told from wrong ones.
    duress: DuressCodes, 12 "duress", switch [0, 1, 1], bytes 43 to 44,
        "ours; a duress code is common practice";
    /// What deputies may do to keyholders.
    deputies: Deputies, 13 "deputies", deputies [1, 3, 3], bytes 44 to 45,
        "ours: each includes the former";
}

/// Numbers of keys that are gone: records still name them, so nobody gets them again.
const RETIRED: &[u8] = &[];

/// The number that the next new key gets.
const NEXT: u8 = 14;

const _: () = assert!(
    every_number_is_given_once(),
    "each number below NEXT stands once, in the table or in RETIRED, and none above"
);

const fn every_number_is_given_once() -> bool {
    let mut given: usize = 0;
    let mut number: u8 = 0;
    while number < NEXT {
        if times_in_table(number).saturating_add(times(RETIRED, number)) != 1 {
            return false;
        }
        given = given.saturating_add(1);
        number = number.saturating_add(1);
    }
    given == KEYS.len().saturating_add(RETIRED.len())
}

const fn times(mut numbers: &[u8], number: u8) -> u8 {
    let mut times: u8 = 0;
    while let [first, rest @ ..] = numbers {
        if *first == number {
            times = times.saturating_add(1);
        }
        numbers = rest;
    }
    times
}

const fn times_in_table(number: u8) -> u8 {
    let mut rows: &[Figures] = &FIGURES_OF;
    let mut times: u8 = 0;
    while let [first, rest @ ..] = rows {
        if first.number == number {
            times = times.saturating_add(1);
        }
        rows = rest;
    }
    times
}

/// Whether so many bytes hold `most`, and it is not what erased ones read.
const fn holds(from: u8, to: u8, most: u32) -> bool {
    match to.checked_sub(from) {
        Some(1) => most < 0xFF,
        Some(2) => most < 0xFFFF,
        Some(4) => most < u32::MAX,
        _ => false,
    }
}

/// Whether each row lies in a part of its own of the
/// bytes `from` to `to`, of which those from `taken.0` to `taken.1` are somebody else's.
pub(crate) const fn lies_within((from, to): (u8, u8), taken: (u8, u8)) -> bool {
    const fn apart(one: (u8, u8), other: (u8, u8)) -> bool {
        one.1 <= other.0 || other.1 <= one.0
    }
    let mut rows: &[Figures] = &FIGURES_OF;
    while let [row, behind @ ..] = rows {
        if row.at.0 < from || row.at.1 > to || !apart(row.at, taken) {
            return false;
        }
        let mut others = behind;
        while let [other, rest @ ..] = others {
            if !apart(row.at, other.at) {
                return false;
            }
            others = rest;
        }
        rows = behind;
    }
    true
}

/// The place of `key` in the table. For constants: what no row has does not compile.
pub(crate) const fn place(key: &str) -> u8 {
    let mut keys: &[&str] = &KEYS;
    let mut place: u8 = 0;
    while let [first, rest @ ..] = keys {
        if same(first.as_bytes(), key.as_bytes()) {
            return place;
        }
        place = place.saturating_add(1);
        keys = rest;
    }
    assert!(!keys.is_empty(), "the policy has no such key");
    place
}

const fn same(mut one: &[u8], mut other: &[u8]) -> bool {
    while let ([a, rest @ ..], [b, others @ ..]) = (one, other) {
        if *a != *b {
            return false;
        }
        (one, other) = (rest, others);
    }
    one.is_empty() && other.is_empty()
}
