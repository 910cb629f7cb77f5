//! The wrong counts, as far as they are known.

use emulator::rig::store::counts;
use lock_core::port::{StoreFault, Tally};
use lock_core::tally::TallyState;

/// What the tally must add up to; `None` once a write failed, which may have
/// reached the flash.
pub(super) struct Counts(Option<counts::Counts>);

impl Counts {
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
