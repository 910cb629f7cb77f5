//! What the durable entries of the tally add up to, by the sentences of
//! docs/behaviour.md.

use lock_core::audit::People;
use lock_core::holder::Number;
use lock_core::port::Tally;
use lock_core::tally::{ClockMark, PenaltyMark, SetUp, Settling, TallyState};
use lock_core::time::Steady;

use super::super::{Invariant, Violation};

/// What durable entries add up to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Sums {
    pub(super) totals: Box<[u8; Number::COUNT]>,
    /// The numbers of the tries that weigh, oldest first.
    pub(super) weights: Vec<Number>,
    pub(super) step: u8,
    pub(super) running: bool,
    pub(super) held: Option<Steady>,
    pub(super) doubted: bool,
    /// Where steady time stood at the last doubt.
    pub(super) doubted_at: Option<Steady>,
    pub(super) shift: i32,
    pub(super) settling: bool,
    pub(super) corrected: u32,
    pub(super) collected: u32,
    pub(super) brought: Option<Steady>,
    pub(super) set_up: bool,
    pub(super) way_out: Option<People>,
    pub(super) power_ups: u32,
}

impl Default for Sums {
    fn default() -> Self {
        Self {
            totals: Box::new([0; Number::COUNT]),
            weights: Vec::new(),
            step: 0,
            running: false,
            held: None,
            doubted: false,
            doubted_at: None,
            shift: 0,
            settling: false,
            corrected: 0,
            collected: 0,
            brought: None,
            set_up: true,
            way_out: None,
            power_ups: 0,
        }
    }
}

impl Sums {
    pub(super) fn take(&mut self, entry: Tally) {
        match entry {
            Tally::Counted(n) => {
                let total = &mut self.totals[usize::from(n.get())];
                *total = (*total + 1).min(100);
                self.weights.push(n);
            }
            Tally::Cleared(n) => {
                self.totals[usize::from(n.get())] = 0;
                self.weights.retain(|other| *other != n);
            }
            Tally::Penalty => {
                self.weights.clear();
                self.step = self.step.saturating_add(1);
                self.running = true;
            }
            Tally::Served => self.running = false,
            Tally::Faded(n) => {
                if let Some(oldest) = self.weights.iter().position(|other| *other == n) {
                    self.weights.remove(oldest);
                }
            }
            Tally::Eased => self.step = 0,
            Tally::HeldShut(until) => self.held = Some(until),
            Tally::ClockDoubt(at) => (self.doubted, self.doubted_at) = (true, at),
            Tally::Corrected { by, shift } => {
                (self.doubted, self.shift) = (false, shift.as_secs());
                self.corrected = self.corrected.saturating_add(by.get());
            }
            Tally::CorrectionsOver => self.corrected = 0,
            Tally::ClockSet(shift) => {
                (self.doubted, self.shift, self.settling) = (false, shift.as_secs(), true);
            }
            Tally::Settled => self.settling = false,
            Tally::Collected(upto) => self.collected = self.collected.max(upto.0),
            Tally::Brought(at) => self.brought = Some(at),
            Tally::SettingUp => (self.set_up, self.way_out) = (false, None),
            Tally::SetUp => self.set_up = true,
            Tally::PoweredUp => self.power_ups += 1,
            Tally::WayOut(people) => self.way_out = Some(people),
            Tally::WayOutOver => self.way_out = None,
        }
    }

    pub(super) fn count(&self) -> u32 {
        u32::try_from(self.weights.len()).unwrap_or(u32::MAX)
    }

    pub(super) fn of(found: &TallyState) -> Self {
        Self {
            totals: Box::new(found.totals),
            weights: found.weights.to_vec(),
            step: found.step,
            running: found.penalty == PenaltyMark::Running,
            held: found.held_until,
            doubted: found.clock == ClockMark::Doubted,
            doubted_at: found.doubted_at,
            shift: found.shift.as_secs(),
            settling: found.settling == Settling::Yes,
            corrected: found.corrected.get(),
            collected: found.collected.0,
            brought: found.brought,
            set_up: found.set_up == SetUp::Done,
            way_out: found.way_out,
            power_ups: found.power_ups,
        }
    }

    /// What differs from what a flash has, and what that violates.
    pub(super) fn differs(&self, found: &Self) -> Violation {
        let wrong = |of, what| Violation::new(of, what);
        for n in 0..Number::COUNT {
            if self.totals[n] != found.totals[n] {
                let (total, other) = (self.totals[n], found.totals[n]);
                let what = format!("number {n:02} has {total} failures; the flash has {other}");
                return wrong(Invariant::CountedFirst, what);
            }
        }
        if self.weights != found.weights {
            let numbers = |of: &Self| of.weights.iter().map(|n| n.get()).collect::<Vec<u8>>();
            let what =
                format!("tries on {:?} weigh; the flash has {:?}", numbers(self), numbers(found));
            return wrong(Invariant::CountedFirst, what);
        }
        if (self.step, self.running) != (found.step, found.running) {
            let what = format!(
                "the penalty stands at step {}, running: {}; the flash has step {}, running: {}",
                self.step, self.running, found.step, found.running
            );
            return wrong(Invariant::PenaltyServed, what);
        }
        let marks = |of: &Self| {
            format!(
                "hold-shut {:?}, clock doubt {} at {:?}, shift {}, settling {}, corrected {}, \
                 collected {}, brought {:?}, set up {}, way out {:?}, power-ups {}",
                of.held,
                of.doubted,
                of.doubted_at,
                of.shift,
                of.settling,
                of.corrected,
                of.collected,
                of.brought,
                of.set_up,
                of.way_out,
                of.power_ups
            )
        };
        let what = format!("{} were committed; the flash has {}", marks(self), marks(found));
        wrong(Invariant::Committed, what)
    }
}
