//! The wrong counts, counted by hand: written from `docs/behaviour.md`.

use lock_core::port::{StoreFault, Tally};
use lock_core::tally::{ClockMark, PenaltyMark, TallyState};
use lock_core::time::Utc;

/// What the tally must add up to, as far as it is known.
pub(super) struct Counts {
    totals: [u8; 100],
    shares: [u8; 100],
    step: u8,
    running: bool,
    doubted: bool,
    held: Option<Utc>,
    /// A write that failed may have reached the flash: nothing is known.
    known: bool,
}

impl Counts {
    pub(super) fn of(tally: &TallyState) -> Self {
        Self {
            totals: tally.totals,
            shares: tally.shares,
            step: tally.step,
            running: tally.penalty == PenaltyMark::Running,
            doubted: tally.clock == ClockMark::Doubted,
            held: tally.held_until,
            known: true,
        }
    }

    pub(super) fn asked(&mut self, entry: Tally, done: Result<(), StoreFault>) {
        self.known &= done.is_ok();
        match entry {
            Tally::Counted(number) => {
                let at = number.index();
                self.totals[at] = (self.totals[at] + 1).min(100);
                self.shares[at] = (self.shares[at] + 1).min(15);
            }
            Tally::Cleared(number) => {
                self.totals[number.index()] = 0;
                self.shares[number.index()] = 0;
            }
            Tally::Penalty => {
                self.shares = [0; 100];
                self.step = self.step.saturating_add(1);
                self.running = true;
            }
            Tally::Served => self.running = false,
            Tally::Faded => {
                self.shares = [0; 100];
                self.step = 0;
            }
            Tally::HeldShut(until) => self.held = Some(until),
            Tally::ClockDoubt => self.doubted = true,
        }
    }

    pub(super) fn are_those_of(&self, tally: &TallyState) {
        if !self.known {
            return;
        }
        assert!(
            tally.totals == self.totals && tally.shares == self.shares,
            "Invariant 4: a count is not what was counted"
        );
        let marks = (tally.step, tally.penalty == PenaltyMark::Running, tally.held_until);
        assert!(
            marks == (self.step, self.running, self.held),
            "Invariant 5: penalty, step or hold-shut are not what was written"
        );
        assert!(
            (tally.clock == ClockMark::Doubted) == self.doubted,
            "R3: the doubt of the clock is not what was written"
        );
    }
}
