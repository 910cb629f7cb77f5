//! What a boot finds in the store: the machine starts from it.

use crate::audit::{Outcome, People};
use crate::code::LockKey;
use crate::policy::{Policy, Stricter};
use crate::port::Fault;
use crate::rules::supply::Level;
use crate::settings::FileState;
use crate::tally::TallyState;
use crate::time::{Utc, Zone};

/// Everything that a mount recovered.
///
/// No `Debug`: see [`Known`].
pub struct Recovered {
    /// The settings, or what is wrong with them: [`Fault::Blank`] if the store
    /// was never formatted, [`Fault::Settings`] if they cannot be read.
    pub known: Result<Known, Fault>,
    /// What the tally adds up to.
    pub tally: TallyState,
    /// The latest time in any record from the newest setting of the clock on: a clock
    /// that reads earlier is wrong.
    pub floor: Option<Utc>,
    /// The outcome of the newest record that has one, over both rings.
    pub newest_outcome: Option<Outcome>,
    /// How the audit left the bolt.
    pub last_word: LastWord,
    /// The supply as it was recorded last.
    pub supply: Level,
    /// Whether the two newest records, but those of the supply, are both power-ups.
    pub powered_up_twice: bool,
}

silent!(Recovered);

impl Recovered {
    /// What a store recovers in which nothing can be read.
    #[must_use]
    pub const fn nothing(fault: Fault) -> Self {
        Self {
            known: Err(fault),
            tally: TallyState::NEW,
            floor: None,
            newest_outcome: None,
            last_word: LastWord::Shut,
            supply: Level::Good,
            powered_up_twice: false,
        }
    }
}

/// The settings that the machine keeps in memory. Rows and days stay in the
/// store and are read when needed.
///
/// No `Debug`: it holds the lock's key.
pub struct Known {
    /// The policy, within its bounds.
    pub policy: Policy,
    /// What holds besides for a while.
    pub stricter: Option<Stricter>,
    /// How many holders are enrolled: with none the lock asks to be commissioned.
    pub enrolled: u8,
    /// The zone rule.
    pub zone: Zone,
    /// The key of the digests.
    pub key: LockKey,
    /// What is known of timetable files.
    pub file: FileState,
}

silent!(Known);

/// The audit's last word on the bolt: the newest record of released, opened,
/// secured, not-drawn, forced and found-thrown; commissioned and reset, which take a
/// drawn bolt, count as opened.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum LastWord {
    /// None of the others, or there is no such record: a bolt found drawn was
    /// drawn without a release.
    #[default]
    Shut,
    /// Forced: it is no news that the bolt is drawn.
    Forced,
    /// Released, for these people.
    Released(Option<People>),
    /// Opened by these people, at that time, where it is known.
    Opened(Option<People>, Option<Utc>),
}
