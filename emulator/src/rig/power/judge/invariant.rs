//! What must hold for every trace of a lock, by number.

use std::fmt;

/// What must hold, whatever happens to power and flash.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Invariant {
    /// Every release follows the durable record of that very opening; until it
    /// is overwritten every boot lists it; a record authorises one release.
    RecordedRelease,
    /// No output between a cut and the next boot.
    SilentWithoutPower,
    /// A boot ends within a fixed number of steps, with no release before.
    BootEnds,
    /// The verdict on a code follows the durable count of that try, and the
    /// count falls only by a recorded rule.
    CountedFirst,
    /// Powered time before the next try is taken is at least the penalty.
    PenaltyServed,
    /// A release follows the full wait in one uninterrupted run.
    WaitWaited,
    /// Settings after a boot are the last committed or the in-flight version,
    /// whole, and never revert later.
    SettingsWhole,
    /// Listed numbers rise by one, what is missing stands in a gap, and no
    /// number ever carries two contents.
    NumbersRise,
    /// The promised number of newest records is listed.
    Kept,
    /// A duress alarm goes out, and its record is in every later list.
    DuressHeard,
    /// Committed means read back equal.
    Committed,
    /// Any image boots: no panic, nothing released, nothing invented.
    AnyImage,
    /// Pages wear evenly, and no word is programmed beyond its limit.
    Wear,
}

impl Invariant {
    /// All of them, in order of their numbers.
    pub const ALL: [Self; 13] = [
        Self::RecordedRelease,
        Self::SilentWithoutPower,
        Self::BootEnds,
        Self::CountedFirst,
        Self::PenaltyServed,
        Self::WaitWaited,
        Self::SettingsWhole,
        Self::NumbersRise,
        Self::Kept,
        Self::DuressHeard,
        Self::Committed,
        Self::AnyImage,
        Self::Wear,
    ];

    /// Its number, 1 to 13.
    #[must_use]
    pub fn number(self) -> usize {
        Self::ALL.iter().position(|other| *other == self).map_or(0, |place| place + 1)
    }

    /// What it asks for, in short.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::RecordedRelease => "a release follows its durable record",
            Self::SilentWithoutPower => "no output without power",
            Self::BootEnds => "a boot ends, and releases nothing",
            Self::CountedFirst => "a try is counted before it is judged",
            Self::PenaltyServed => "a penalty is served whole",
            Self::WaitWaited => "a delay is waited in one run",
            Self::SettingsWhole => "settings are whole and never revert",
            Self::NumbersRise => "numbers rise by one and keep their content",
            Self::Kept => "the promised records are listed",
            Self::DuressHeard => "duress is heard and stays recorded",
            Self::Committed => "committed means read back",
            Self::AnyImage => "any image boots secured",
            Self::Wear => "pages wear evenly",
        }
    }
}

/// Something that must not be.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Violation {
    /// What it violates.
    pub of: Invariant,
    /// What was seen, in a sentence.
    pub what: String,
}

impl Violation {
    pub(super) fn new(of: Invariant, what: impl Into<String>) -> Self {
        Self { of, what: what.into() }
    }
}

impl fmt::Display for Violation {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "invariant {} ({}): {}", self.of.number(), self.of.name(), self.what)
    }
}
