//! The policy of a lock: its values, their defaults, bounds and reasons.

use serde::{Deserialize, Serialize};

use crate::time::Seconds;

/// A voltage in millivolts.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
pub struct Millivolts(u16);

impl Millivolts {
    /// `mv` millivolts.
    #[must_use]
    pub const fn new(mv: u16) -> Self {
        Self(mv)
    }

    /// The value in millivolts.
    #[must_use]
    pub const fn get(self) -> u16 {
        self.0
    }

    /// The sum, at most 65,535 mV.
    #[must_use]
    pub const fn saturating_add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }
}

/// How many people an opening takes.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Control {
    /// One holder.
    Single,
    /// Two different holders.
    Dual,
}

/// Whether a duress code is told from a wrong one.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum DuressCodes {
    /// A duress code is a wrong code.
    Off,
    /// A duress code opens as usual and raises the silent alarm.
    On,
}

/// A failure count at which one number is barred (NIST SP 800-63B-4, initial public draft,
/// 5.2.2: at most 100 consecutive failures on one account). Fixed. Its 5.2.11 has ten for
/// activation secrets; ten would let anybody at the keypad bar a holder within a quarter of
/// an hour, a hundred takes fifteen.
pub const NUMBER_LIMIT: u8 = 100;

/// The policy of one lock. [`Policy::check`] says whether it is within bounds.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Policy {
    /// Digits of a new code; applies at the next change of a code.
    pub code_digits: u8,
    /// Wrong codes that start a penalty.
    pub wrong_codes: u8,
    /// Length of the first penalty; each further one is twice as long.
    pub penalty: Seconds,
    /// The longest a penalty gets.
    pub penalty_cap: Seconds,
    /// Time delay between a right code and the claim; zero: none.
    pub delay: Seconds,
    /// How long a waited-out delay can be claimed.
    pub claim: Seconds,
    /// One person or two.
    pub control: Control,
    /// How long the first of two people waits for the second.
    pub dual_limit: Seconds,
    /// Whether duress codes are told from wrong ones.
    pub duress: DuressCodes,
    /// How long the alarm line is held.
    pub alarm_hold: Seconds,
    /// How long the bolt can be drawn after a release.
    pub release: Seconds,
    /// Below this the supply is low.
    pub supply_low: Millivolts,
    /// Below this nothing is released.
    pub supply_spent: Millivolts,
}

/// One row of the policy table.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Bound {
    /// What records call it, in flash and in extracts: never another key's, even
    /// if this one goes.
    pub number: u8,
    /// The key as the site file spells it.
    pub key: &'static str,
    /// What the numbers count: `digits`, `tries`, `s` or `mV`.
    pub unit: &'static str,
    /// The least value allowed.
    pub least: u32,
    /// The value where nothing is said.
    pub default: u32,
    /// The greatest value allowed.
    pub most: u32,
    /// Why it is what it is, with its source.
    pub why: &'static str,
}

const fn bound(
    number: u8,
    key: &'static str,
    unit: &'static str,
    [least, default, most]: [u32; 3],
    why: &'static str,
) -> Bound {
    Bound { number, key, unit, least, default, most, why }
}

/// The policy table: every numeric value with bounds, default and reason.
pub const TABLE: [Bound; 11] = [
    bound(0, "code_digits", "digits", [6, 6, 8], "common practice"),
    bound(1, "wrong_codes", "tries", [3, 4, 10], "common practice"),
    bound(2, "penalty", "s", [60, 300, 3_600], "common practice"),
    bound(
        3,
        "penalty_cap",
        "s",
        [60, 2_400, 86_400],
        "reached by the fourth penalty of the default",
    ),
    bound(4, "delay", "s", [0, 0, 5_940], "0 to 99 minutes: common practice"),
    bound(5, "claim", "s", [60, 180, 900], "1 to 15 minutes: common practice"),
    bound(6, "dual_limit", "s", [10, 60, 300], "ours: two people stand side by side"),
    bound(7, "alarm_hold", "s", [10, 60, 600], "ours: long enough for a polled line"),
    bound(8, "release", "s", [3, 6, 20], "common practice"),
    bound(9, "supply_low", "mV", [3_000, 4_800, 9_000], "four LR6 cells at 1.2 V (from memory)"),
    bound(
        10,
        "supply_spent",
        "mV",
        [2_500, 4_200, 8_800],
        "four LR6 cells at 1.05 V (from memory)",
    ),
];

/// The least and the greatest value of each row of [`TABLE`]: all of it that a
/// lock needs, so that its texts are not in an image that does not name them.
const BOUNDS: [(u32, u32); TABLE.len()] = {
    const fn of(row: Bound) -> (u32, u32) {
        (row.least, row.most)
    }
    let [a, b, c, d, e, f, g, h, i, j, k] = TABLE;
    [of(a), of(b), of(c), of(d), of(e), of(f), of(g), of(h), of(i), of(j), of(k)]
};

/// Places in [`KEYS`] whose bounds depend on another value.
const PENALTY_CAP: u8 = 3;
const SUPPLY_SPENT: u8 = 10;

/// What records call the keys of [`KEYS`], in their order.
const NUMBERS: [u8; KEYS.len()] = {
    let [a, b, c, d, e, f, g, h, i, j, k] = TABLE;
    [
        a.number,
        b.number,
        c.number,
        d.number,
        e.number,
        f.number,
        g.number,
        h.number,
        i.number,
        j.number,
        k.number,
        DUAL_CONTROL_NUMBER,
        DURESS_NUMBER,
    ]
};

/// The numbers of the two keys that are not in [`TABLE`].
const DUAL_CONTROL_NUMBER: u8 = 11;
const DURESS_NUMBER: u8 = 12;

/// What records call the key at that place in [`KEYS`]; `None` beyond the last.
pub(crate) fn number_of(place: u8) -> Option<u8> {
    NUMBERS.get(usize::from(place)).copied()
}

/// The place in [`KEYS`] of the key that records call `number`; `None` if no key
/// has it.
pub(crate) fn place_of(number: u8) -> Option<u8> {
    (0..).zip(NUMBERS).find(|(_, other)| *other == number).map(|(place, _)| place)
}

/// Every key of the policy as the site file spells it: those of [`TABLE`], then
/// the two that are no numbers. Places here are for a lock's memory; what lasts
/// names a key by its number ([`Bound::number`]).
pub const KEYS: [&str; TABLE.len().saturating_add(2)] = {
    let [a, b, c, d, e, f, g, h, i, j, k] = TABLE;
    [
        a.key,
        b.key,
        c.key,
        d.key,
        e.key,
        f.key,
        g.key,
        h.key,
        i.key,
        j.key,
        k.key,
        "dual_control",
        "duress",
    ]
};

/// The least and the greatest value of the key at that place in [`KEYS`], as
/// [`Policy::value`] has it. `None` beyond the last.
pub(crate) fn bounds(key: u8) -> Option<(u32, u32)> {
    let key = usize::from(key);
    match key.checked_sub(BOUNDS.len()) {
        None => BOUNDS.get(key).copied(),
        Some(0) => Some((1, 2)),
        Some(1) => Some((0, 1)),
        Some(_) => None,
    }
}

impl Policy {
    /// The value of the key at that place in [`KEYS`], in the unit of the table;
    /// people, and 0 or 1 for duress codes. `None` beyond the last.
    #[must_use]
    pub fn value(&self, key: u8) -> Option<u32> {
        let key = usize::from(key);
        match key.checked_sub(TABLE.len()) {
            None => self.values().get(key).copied(),
            Some(0) => Some(match self.control {
                Control::Single => 1,
                Control::Dual => 2,
            }),
            Some(1) => Some(match self.duress {
                DuressCodes::Off => 0,
                DuressCodes::On => 1,
            }),
            Some(_) => None,
        }
    }

    /// The policy with another value at that place in [`KEYS`], or `None` if
    /// that is out of bounds.
    #[must_use]
    pub fn with(self, key: u8, value: u32) -> Option<Self> {
        let mut new = self;
        let byte = u8::try_from(value);
        let millivolts = u16::try_from(value).map(Millivolts::new);
        let seconds = Seconds::new(value);
        match key {
            0 => new.code_digits = byte.ok()?,
            1 => new.wrong_codes = byte.ok()?,
            2 => new.penalty = seconds,
            3 => new.penalty_cap = seconds,
            4 => new.delay = seconds,
            5 => new.claim = seconds,
            6 => new.dual_limit = seconds,
            7 => new.alarm_hold = seconds,
            8 => new.release = seconds,
            9 => new.supply_low = millivolts.ok()?,
            10 => new.supply_spent = millivolts.ok()?,
            11 => {
                new.control = match value {
                    1 => Control::Single,
                    2 => Control::Dual,
                    _ => return None,
                }
            }
            12 => {
                new.duress = match value {
                    0 => DuressCodes::Off,
                    1 => DuressCodes::On,
                    _ => return None,
                }
            }
            _ => return None,
        }
        new.check().ok().map(|()| new)
    }
}

/// What an opening takes besides the policy, until an instant: where a change
/// of the policy widened opening while the bolt was thrown, the old values hold
/// until the next opening window starts (R3).
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Stricter {
    /// Until then, exclusive.
    pub until: crate::time::Utc,
    /// At least so long a delay.
    pub delay: Seconds,
    /// At least so many people.
    pub control: Control,
}

/// What is back above a supply threshold only counts this much higher, so that
/// a battery that recovers between openings does not flicker. Ours.
pub const SUPPLY_HYSTERESIS: Millivolts = Millivolts::new(200);

/// A value outside its bounds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct OutOfBounds {
    /// The key, by its place in [`KEYS`].
    pub key: u8,
    /// The least value allowed, given the other values.
    pub least: u32,
    /// The greatest value allowed, given the other values.
    pub most: u32,
}

impl Default for Policy {
    fn default() -> Self {
        Self::DEFAULT
    }
}

impl Policy {
    /// The defaults of [`TABLE`] (a test holds them together), single control,
    /// duress codes on.
    pub const DEFAULT: Self = Self {
        code_digits: 6,
        wrong_codes: 4,
        penalty: Seconds::new(300),
        penalty_cap: Seconds::new(2_400),
        delay: Seconds::new(0),
        claim: Seconds::new(180),
        control: Control::Single,
        dual_limit: Seconds::new(60),
        duress: DuressCodes::On,
        alarm_hold: Seconds::new(60),
        release: Seconds::new(6),
        supply_low: Millivolts::new(4_800),
        supply_spent: Millivolts::new(4_200),
    };

    /// The numeric values in the order of [`TABLE`].
    #[must_use]
    pub fn values(&self) -> [u32; TABLE.len()] {
        [
            u32::from(self.code_digits),
            u32::from(self.wrong_codes),
            self.penalty.get(),
            self.penalty_cap.get(),
            self.delay.get(),
            self.claim.get(),
            self.dual_limit.get(),
            self.alarm_hold.get(),
            self.release.get(),
            u32::from(self.supply_low.get()),
            u32::from(self.supply_spent.get()),
        ]
    }

    /// Whether every value is within its bounds.
    ///
    /// # Errors
    /// The first value of [`TABLE`] that is not, with the bounds that hold for
    /// it: the cap is at least the penalty, and a spent supply lies at least
    /// [`SUPPLY_HYSTERESIS`] below a low one.
    pub fn check(&self) -> Result<(), OutOfBounds> {
        for ((value, &(least, most)), key) in self.values().into_iter().zip(&BOUNDS).zip(0..) {
            let mut allowed = OutOfBounds { key, least, most };
            if key == PENALTY_CAP {
                allowed.least = self.penalty.get();
            }
            if key == SUPPLY_SPENT {
                let low = u32::from(self.supply_low.get());
                allowed.most = low.saturating_sub(u32::from(SUPPLY_HYSTERESIS.get()));
            }
            if value < allowed.least || value > allowed.most {
                return Err(allowed);
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_defaults_are_those_of_the_table_and_within_bounds() {
        assert_eq!(Policy::DEFAULT.values(), TABLE.map(|row| row.default));
        assert_eq!(Policy::DEFAULT.check(), Ok(()));
    }

    /// Every number that was ever given, and to what: a new key gets the next one
    /// and a line here, a key that goes leaves its line.
    const GIVEN: [(u8, &str); 13] = [
        (0, "code_digits"),
        (1, "wrong_codes"),
        (2, "penalty"),
        (3, "penalty_cap"),
        (4, "delay"),
        (5, "claim"),
        (6, "dual_limit"),
        (7, "alarm_hold"),
        (8, "release"),
        (9, "supply_low"),
        (10, "supply_spent"),
        (11, "dual_control"),
        (12, "duress"),
    ];

    #[test]
    fn numbers_are_unique_and_never_given_again() {
        for (line, (number, _)) in GIVEN.iter().enumerate() {
            assert_eq!(usize::from(*number), line, "each number has one line");
        }
        for (place, key) in (0..).zip(KEYS) {
            let number = number_of(place).unwrap();
            assert!(GIVEN.contains(&(number, key)), "{number} {key}");
            assert_eq!(place_of(number), Some(place), "{key}");
        }
        let unknown = (0..=u8::MAX).filter(|number| place_of(*number).is_none());
        assert_eq!(unknown.count(), 256 - KEYS.len());
        assert_eq!(number_of(13), None);
    }

    #[test]
    fn places_name_the_keys_they_should() {
        let key = |place| KEYS[usize::from(place)];
        assert_eq!((key(PENALTY_CAP), key(SUPPLY_SPENT)), ("penalty_cap", "supply_spent"));
        for (place, row) in (0..).zip(TABLE) {
            assert_eq!(bounds(place), Some((row.least, row.most)), "{}", row.key);
        }
    }

    #[test]
    fn a_value_is_set_and_read_by_its_place() {
        for key in 0..=u8::MAX {
            let within = usize::from(key) < KEYS.len();
            assert_eq!(Policy::DEFAULT.value(key).is_some(), within, "{key}");
            for value in 0..=10_000 {
                if let Some(new) = Policy::DEFAULT.with(key, value) {
                    assert_eq!((new.value(key), new.check()), (Some(value), Ok(())), "{key}");
                    let others = (0..13).filter(|other| *other != key);
                    assert!(others.into_iter().all(|o| new.value(o) == Policy::DEFAULT.value(o)));
                }
            }
        }
    }

    #[test]
    fn a_cap_below_the_penalty_is_out_of_bounds() {
        let policy = Policy { penalty_cap: Seconds::new(299), ..Policy::DEFAULT };
        let error = OutOfBounds { key: PENALTY_CAP, least: 300, most: 86_400 };
        assert_eq!(policy.check(), Err(error));
    }

    #[test]
    fn a_spent_supply_keeps_its_distance_from_a_low_one() {
        let policy = Policy { supply_spent: Millivolts::new(4_601), ..Policy::DEFAULT };
        assert_eq!(policy.check().map_err(|e| e.most), Err(4_600));
    }
}
