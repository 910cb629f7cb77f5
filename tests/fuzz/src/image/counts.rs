//! The wrong counts, as far as they are known.

use emulator::rig::store::counts;
use lock_core::port::{StoreFault, Tally};
use lock_core::recovered::Recovered;
use lock_core::tally::TallyState;

/// What the tally must add up to; `None` once a write failed, which may have
/// reached the flash.
pub(super) struct Counts(Option<counts::Counts>);

impl Counts {
    /// Where no settings are in force a boot tells of no counts, and those that lie in
    /// flash are anybody's guess.
    pub(super) fn of_boot(found: &Recovered) -> Self {
        match &found.known {
            Ok(_) => Self::of(&found.tally),
            Err(_) => Self(None),
        }
    }

    pub(super) fn of(tally: &TallyState) -> Self {
        Self(Some(counts::Counts::found(tally)))
    }

    pub(super) fn asked(&mut self, entry: Tally, done: Result<(), StoreFault>) {
        match (&mut self.0, done) {
            (Some(counts), Ok(())) => counts.count(entry),
            (_, Err(StoreFault)) => self.0 = None,
            (None, Ok(())) => {}
        }
    }

    pub(super) fn are_those_of(&self, tally: &TallyState) {
        if let Some(counts) = &self.0 {
            assert_eq!(counts.are_those_of(tally), Ok(()));
        }
    }
}
