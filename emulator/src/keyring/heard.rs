//! What a lock's extracts tell the laptop that keeps its keys: which key it has, which
//! file it took, and which couriers' codes were used.

use std::collections::BTreeMap;

use lock_core::audit::{Change, Entry, Event, People};
use lock_core::holder::Number;
use lock_core::pairing::LockNumber;

use super::Keyring;
use super::ledger::{Settled, Use};

/// What one lock's records tell.
#[derive(Default)]
pub struct Heard {
    /// By number, the uses of codes that it would have as a courier.
    uses: BTreeMap<Number, Vec<Use>>,
    /// The highest version of opening times that was loaded.
    version: u32,
    /// Who waits for a delay that a record began: the same codes claim the opening.
    waiting: Option<People>,
}

impl Heard {
    /// The next entry.
    pub fn take(&mut self, entry: &Entry) {
        let Entry::Record(seq, record) = entry else { return };
        let mut used = |number: Number| {
            let one = Use { record: *seq, at: record.at };
            self.uses.entry(number).or_default().push(one);
        };
        match record.event {
            Event::FirstOfTwo { who, .. } => used(who),
            // Of two people, the first one's code has a record of its own.
            Event::DelayStarted { people, .. } => {
                used(people.second.unwrap_or(people.first));
                self.waiting = Some(people);
            }
            // A release that was waited for is claimed with the code that began the wait.
            Event::Released { people, .. } if self.waiting.take() != Some(people) => {
                used(people.second.unwrap_or(people.first));
            }
            Event::Cancelled { .. } | Event::Lapsed => self.waiting = None,
            Event::Changed {
                change: Change::FileLoaded(version) | Change::FileWaits(version),
                ..
            } => {
                self.version = self.version.max(version);
            }
            _ => {}
        }
    }
}

/// What was new of what extracts told.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct News {
    /// Codes of couriers.
    pub codes: Settled,
    /// A version that this keyring did not seal, and that the lock took.
    pub version: Option<u32>,
}

impl Keyring {
    /// Takes over what a lock's extracts told.
    pub fn hear(&mut self, lock: LockNumber, heard: &Heard) -> News {
        let mut news = News::default();
        for (number, uses) in &heard.uses {
            let Settled { used, unknown } = self.settle(lock, *number, uses);
            news.codes.used += used;
            news.codes.unknown += unknown;
        }
        if self.counters.heard_version(lock, heard.version) {
            news.version = Some(heard.version);
        }
        news
    }
}
