//! What a tally must add up to, counted by hand from `docs/behaviour.md`.

use lock_core::audit::People;
use lock_core::port::Tally;
use lock_core::tally::{ClockMark, PenaltyMark, SetUp, Settling, TallyState, WEIGHTS};
use lock_core::time::{Shift, Steady};

/// What setting the clock, an opened lock and being set up leave behind.
#[derive(Clone, Copy, PartialEq, Eq)]
struct Marks {
    doubted_at: Option<Steady>,
    shift: Shift,
    settling: bool,
    brought: Option<Steady>,
    set_up: bool,
    way_out: Option<People>,
    power_ups: u32,
}

/// Wrong counts, penalty, hold-shut and doubt.
#[derive(Clone)]
pub struct Counts {
    totals: [u8; 100],
    weights: Vec<u8>,
    step: u8,
    running: bool,
    doubted: bool,
    held: Option<Steady>,
    marks: Marks,
    corrected: u32,
    collected: u32,
}

impl Counts {
    /// Nothing was counted yet.
    pub const NONE: Self = Self {
        totals: [0; 100],
        weights: Vec::new(),
        step: 0,
        running: false,
        doubted: false,
        held: None,
        marks: Marks {
            doubted_at: None,
            shift: Shift::NONE,
            settling: false,
            brought: None,
            set_up: true,
            way_out: None,
            power_ups: 0,
        },
        corrected: 0,
        collected: 0,
    };

    /// Those that a boot found: where the content of a flash is arbitrary, only
    /// what follows can be foretold.
    #[must_use]
    pub fn found(tally: &TallyState) -> Self {
        Self {
            totals: tally.totals,
            weights: tally.weights.iter().map(|number| number.get()).collect(),
            step: tally.step,
            running: tally.penalty == PenaltyMark::Running,
            doubted: tally.clock == ClockMark::Doubted,
            held: tally.held_until,
            marks: marks(tally),
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
                if self.weights.len() < WEIGHTS {
                    self.weights.push(number.get());
                }
            }
            Tally::Cleared(number) => {
                self.totals[number.index()] = 0;
                self.weights.retain(|other| *other != number.get());
            }
            Tally::Penalty => {
                self.weights.clear();
                self.step = self.step.saturating_add(1);
                self.running = true;
            }
            Tally::Served => self.running = false,
            Tally::Faded(number) => {
                if let Some(oldest) = self.weights.iter().position(|n| *n == number.get()) {
                    self.weights.remove(oldest);
                }
            }
            Tally::Eased => self.step = 0,
            Tally::HeldShut(until) => self.held = Some(until),
            Tally::ClockDoubt(at) => (self.doubted, self.marks.doubted_at) = (true, at),
            Tally::Corrected { by, shift } => {
                (self.doubted, self.marks.shift) = (false, shift);
                self.corrected = self.corrected.saturating_add(by.get());
            }
            Tally::CorrectionsOver => self.corrected = 0,
            Tally::ClockSet(shift) => {
                self.doubted = false;
                (self.marks.shift, self.marks.settling) = (shift, true);
            }
            Tally::Settled => self.marks.settling = false,
            Tally::Collected(upto) => self.collected = self.collected.max(upto.0),
            Tally::Brought(at) => self.marks.brought = Some(at),
            Tally::SettingUp => (self.marks.set_up, self.marks.way_out) = (false, None),
            Tally::SetUp => self.marks.set_up = true,
            Tally::PoweredUp => self.marks.power_ups += 1,
            Tally::WayOut(people) => self.marks.way_out = Some(people),
            Tally::WayOutOver => self.marks.way_out = None,
        }
    }

    /// Whether a tally says the same.
    ///
    /// # Errors
    /// What it says otherwise, in a sentence.
    pub fn are_those_of(&self, tally: &TallyState) -> Result<(), &'static str> {
        if tally.totals != self.totals
            || !tally.weights.iter().map(|number| number.get()).eq(self.weights.iter().copied())
        {
            return Err("Invariant 4: a count is not what was counted.");
        }
        let penalty = (tally.step, tally.penalty == PenaltyMark::Running, tally.held_until);
        if penalty != (self.step, self.running, self.held) {
            return Err("Invariant 5: penalty, step or hold-shut are not what was written.");
        }
        if (tally.clock == ClockMark::Doubted) != self.doubted {
            return Err("R3: the doubt of the clock is not what was written.");
        }
        if (marks(tally), tally.corrected.get()) != (self.marks, self.corrected) {
            return Err("R3, R11: what a setting, an opening or setting up left is not there.");
        }
        if tally.collected.0 != self.collected {
            return Err("Invariant 11: what was collected is not what was written.");
        }
        Ok(())
    }
}

fn marks(tally: &TallyState) -> Marks {
    Marks {
        doubted_at: tally.doubted_at,
        shift: tally.shift,
        settling: tally.settling == Settling::Yes,
        brought: tally.brought,
        set_up: tally.set_up == SetUp::Done,
        way_out: tally.way_out,
        power_ups: tally.power_ups,
    }
}
