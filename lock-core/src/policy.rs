//! The policy of a lock: its values, their defaults, bounds and reasons.
//!
//! | file | what is in it |
//! | --- | --- |
//! | `policy/table.rs` | the table, one row a key: all that a new value takes |
//! | `policy/kind.rs` | what a value can be, and the number that stands for it |

mod kind;
mod table;
#[cfg(test)]
mod tests;

use serde::{Deserialize, Serialize};

use crate::time::Seconds;

pub use kind::Unit;
use table::place;
pub(crate) use table::{FIGURES, Figures, lies_within};
pub use table::{KEYS, Policy, Row, TABLE};

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

impl Control {
    /// Its number in the policy and in flash: 1 or 2.
    #[must_use]
    pub const fn people(self) -> u8 {
        match self {
            Self::Single => 1,
            Self::Dual => 2,
        }
    }

    /// So many people, if that is a way to open.
    #[must_use]
    pub const fn of_people(people: u8) -> Option<Self> {
        match people {
            1 => Some(Self::Single),
            2 => Some(Self::Dual),
            _ => None,
        }
    }

    const fn of(people: u32) -> Self {
        if people == 1 { Self::Single } else { Self::Dual }
    }
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

impl DuressCodes {
    const fn number(self) -> u32 {
        match self {
            Self::Off => 0,
            Self::On => 1,
        }
    }

    const fn of(number: u32) -> Self {
        if number == 0 { Self::Off } else { Self::On }
    }
}

/// What deputies may do to keyholders, each including the former. Ours.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Deputies {
    /// Suspend them.
    Suspend,
    /// And remove them.
    Remove,
    /// And enrol and restore them, and give them a timetable.
    Enrol,
}

impl Deputies {
    /// All of it, in order.
    pub const ALL: [Self; 3] = [Self::Suspend, Self::Remove, Self::Enrol];

    /// Its number in the policy and in flash: 1 to 3.
    #[must_use]
    pub const fn number(self) -> u8 {
        match self {
            Self::Suspend => 1,
            Self::Remove => 2,
            Self::Enrol => 3,
        }
    }

    /// What that number names, if it names any.
    #[must_use]
    pub fn numbered(number: u32) -> Option<Self> {
        Self::ALL.into_iter().find(|deputies| u32::from(deputies.number()) == number)
    }

    /// As the site file has them, in order.
    const NAMES: [&str; 3] = ["suspend", "remove", "enrol"];

    const fn of(number: u32) -> Self {
        match number {
            1 => Self::Suspend,
            2 => Self::Remove,
            _ => Self::Enrol,
        }
    }
}

/// A failure count at which one number is barred. Fixed. NIST SP 800-63B (June 2017, updated
/// March 2020; from memory), 5.2.2, has at most 100 consecutive failures on one account. The
/// initial public draft of SP 800-63B-4 (December 2022; from memory), 5.2.11, has ten for
/// activation secrets, which only their owner can try. Everybody can reach a keypad: ten wrong
/// codes would bar a holder within a quarter of an hour, a hundred take fifteen hours.
pub const NUMBER_LIMIT: u8 = 100;

/// The place of dual control in [`KEYS`].
pub(crate) const DUAL_CONTROL: u8 = place("dual_control");

/// Places in [`KEYS`] of those whose bounds depend on another value, and of that.
const PENALTY: u8 = place("penalty");
const PENALTY_CAP: u8 = place("penalty_cap");
const SUPPLY_LOW: u8 = place("supply_low");
const SUPPLY_SPENT: u8 = place("supply_spent");

/// What records call the key at that place in [`KEYS`]; `None` beyond the last.
pub(crate) fn number_of(place: u8) -> Option<u8> {
    FIGURES.get(usize::from(place)).map(|row| row.number)
}

/// The place in [`KEYS`] of the key that records call `number`; `None` if no key
/// has it.
pub(crate) fn place_of(number: u8) -> Option<u8> {
    (0..).zip(&FIGURES).find(|(_, row)| row.number == number).map(|(place, _)| place)
}

/// The least and the greatest value of the key at that place in [`KEYS`], as
/// [`Policy::value`] has it. `None` beyond the last.
pub(crate) fn bounds(key: u8) -> Option<(u32, u32)> {
    FIGURES.get(usize::from(key)).map(|row| (row.least, row.most))
}

/// How many of the policy table's units are one of what is typed: lengths that
/// last minutes are typed in minutes.
#[must_use]
pub fn scale(key: u8) -> u32 {
    FIGURES.get(usize::from(key)).map_or(1, |row| u32::from(row.scale))
}

/// What an opening takes besides the policy, until an instant: where a change
/// of the policy widened opening while the bolt was thrown, the old values hold
/// until the next opening window starts (R3).
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Stricter {
    /// Until then, exclusive.
    pub until: crate::time::Steady,
    /// When it was made to wait: what the lock is opened after that ends it.
    pub made: crate::time::Steady,
    /// At least so long a delay.
    pub delay: Seconds,
    /// At least so many people.
    pub control: Control,
    /// Deputies may do no more than that.
    pub deputies: Deputies,
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
    /// The policy of values in the order of [`TABLE`], each as a number of its unit.
    ///
    /// # Errors
    /// As [`Policy::check`].
    pub fn from_values(values: &[u32; KEYS.len()]) -> Result<Self, OutOfBounds> {
        check(values).map(|()| Self::of_checked(values))
    }

    /// The value of the key at that place in [`KEYS`], in the unit of the table.
    /// `None` beyond the last.
    #[must_use]
    pub fn value(&self, key: u8) -> Option<u32> {
        self.values().get(usize::from(key)).copied()
    }

    /// The policy with another value at that place in [`KEYS`], or `None` if
    /// that is out of bounds.
    #[must_use]
    pub fn with(self, key: u8, value: u32) -> Option<Self> {
        let mut values = self.values();
        *values.get_mut(usize::from(key))? = value;
        Self::from_values(&values).ok()
    }

    /// Whether every value is within its bounds.
    ///
    /// # Errors
    /// The first value of [`TABLE`] that is not, with the bounds that hold for
    /// it: the cap is at least the penalty, and a spent supply lies at least
    /// [`SUPPLY_HYSTERESIS`] below a low one.
    pub fn check(&self) -> Result<(), OutOfBounds> {
        check(&self.values())
    }
}

fn check(values: &[u32; KEYS.len()]) -> Result<(), OutOfBounds> {
    let of = |key| values.get(usize::from(key)).copied().unwrap_or_default();
    for ((&value, row), key) in values.iter().zip(&FIGURES).zip(0..) {
        let mut allowed = OutOfBounds { key, least: row.least, most: row.most };
        if key == PENALTY_CAP {
            allowed.least = of(PENALTY);
        }
        if key == SUPPLY_SPENT {
            allowed.most = of(SUPPLY_LOW).saturating_sub(u32::from(SUPPLY_HYSTERESIS.get()));
        }
        if value < allowed.least || value > allowed.most {
            return Err(allowed);
        }
    }
    Ok(())
}
