//! What a tally must add up to, counted by hand from `docs/behaviour.md`.

use lock_core::port::Tally;
use lock_core::tally::{ClockMark, PenaltyMark, TallyState};
use lock_core::time::Utc;

/// Wrong counts, penalty, hold-shut and doubt.
#[derive(Clone)]
pub struct Counts {
    totals: [u8; 100],
    shares: [u8; 100],
    step: u8,
    running: bool,
    doubted: bool,
    held: Option<Utc>,
    settling: Option<Utc>,
    corrected: u32,
    collected: u32,
}

impl Counts {
    /// Nothing was counted yet.
    pub const NONE: Self = Self {
        totals: [0; 100],
        shares: [0; 100],
        step: 0,
        running: false,
        doubted: false,
        held: None,
        settling: None,
        corrected: 0,
        collected: 0,
    };

    /// Those that a boot found: where the content of a flash is arbitrary, only
    /// what follows can be foretold.
    #[must_use]
    pub fn found(tally: &TallyState) -> Self {
        Self {
            totals: tally.totals,
            shares: tally.shares,
            step: tally.step,
            running: tally.penalty == PenaltyMark::Running,
            doubted: tally.clock == ClockMark::Doubted,
            held: tally.held_until,
            settling: tally.settling,
            corrected: tally.corrected.get(),
            collected: tally.collected.0,
        }
    }

    /// That was asked, and reported durable.
    pub fn count(&mut self, entry: Tally) {
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
            Tally::Corrected(by) => {
                self.doubted = false;
                self.corrected = self.corrected.saturating_add(by.get());
            }
            Tally::CorrectionsOver => self.corrected = 0,
            Tally::ClockSet(before) => {
                self.doubted = false;
                self.settling = Some(self.settling.unwrap_or(before).min(before));
            }
            Tally::Settled => self.settling = None,
            Tally::Collected(upto) => self.collected = self.collected.max(upto.0),
        }
    }

    /// Whether a tally says the same.
    ///
    /// # Errors
    /// What it says otherwise, in a sentence.
    pub fn are_those_of(&self, tally: &TallyState) -> Result<(), &'static str> {
        if tally.totals != self.totals || tally.shares != self.shares {
            return Err("Invariant 4: a count is not what was counted.");
        }
        let marks = (tally.step, tally.penalty == PenaltyMark::Running, tally.held_until);
        if marks != (self.step, self.running, self.held) {
            return Err("Invariant 5: penalty, step or hold-shut are not what was written.");
        }
        if (tally.clock == ClockMark::Doubted) != self.doubted {
            return Err("R3: the doubt of the clock is not what was written.");
        }
        if (tally.settling, tally.corrected.get()) != (self.settling, self.corrected) {
            return Err("R3: settling or corrections are not what was written.");
        }
        if tally.collected.0 != self.collected {
            return Err("Invariant 11: what was collected is not what was written.");
        }
        Ok(())
    }
}
