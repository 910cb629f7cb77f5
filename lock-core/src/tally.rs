//! The tally's state: wrong counts, penalty step, hold-shut, clock doubt.
//!
//! What [`Tally`] entries add up to. The machine keeps one in memory, the store
//! rebuilds one at boot from what lies in flash; both apply the same entries
//! through [`TallyState::apply`], so that they cannot come to differ.

use crate::audit::{People, Seq};
use crate::holder::Number;
use crate::policy::NUMBER_LIMIT;
use crate::port::Tally;
use crate::time::{Seconds, Shift, Steady};

/// Whether a penalty was running when the last entry was written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum PenaltyMark {
    /// None, or served to its end.
    #[default]
    Served,
    /// One started and was not served to its end.
    Running,
}

/// Whether the clock is believed.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum ClockMark {
    /// Nothing speaks against it.
    #[default]
    Believed,
    /// Not until it is set.
    Doubted,
}

/// How far a lock is with being set up (R11).
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum SetUp {
    /// Nobody could open yet: widening applies at once.
    #[default]
    Going,
    /// Somebody could open once.
    Done,
}

/// The numbers of the wrong tries that still weigh, oldest first.
pub type Weights = heapless::Vec<Number, WEIGHTS, u8>;

/// Wrong tries that can weigh at once: a penalty starts at 10 at the latest (the
/// policy table) and ends them all; one more is under way, and one is spare.
pub const WEIGHTS: usize = 12;

/// What the entries of a tally add up to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TallyState {
    /// Consecutive failures of each number, 0 to [`NUMBER_LIMIT`].
    pub totals: [u8; Number::COUNT],
    /// The wrong tries that still weigh. Those of one number are its share.
    pub weights: Weights,
    /// How often the next penalty is doubled; stops at 255.
    pub step: u8,
    /// Whether a penalty is running.
    pub penalty: PenaltyMark,
    /// The end of the last hold-shut, also when it is past.
    pub held_until: Option<Steady>,
    /// Whether the clock is believed.
    pub clock: ClockMark,
    /// Where steady time stood when the clock was doubted last.
    pub doubted_at: Option<Steady>,
    /// The sum of all settings of the clock.
    pub shift: Shift,
    /// Whether a clock that two people set is settling.
    pub settling: Settling,
    /// The sum of corrections by stewards alone.
    pub corrected: Seconds,
    /// The newest record that a reader confirmed to have, 0 for none.
    pub collected: Seq,
    /// When the lock was opened last while something may have waited.
    pub brought: Option<Steady>,
    /// How far the lock is with being set up.
    pub set_up: SetUp,
    /// Who asked for a way out, while one runs.
    pub way_out: Option<People>,
    /// Power-ups that are not on record, ever.
    pub power_ups: u32,
}

/// Whether a clock that two people set is settling.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Settling {
    /// It is not.
    #[default]
    No,
    /// It is: holders of timetables stay closed.
    Yes,
}

impl Default for TallyState {
    fn default() -> Self {
        Self::NEW
    }
}

impl TallyState {
    /// A tally without an entry.
    pub const NEW: Self = Self {
        totals: [0; Number::COUNT],
        weights: Weights::new(),
        step: 0,
        penalty: PenaltyMark::Served,
        held_until: None,
        clock: ClockMark::Believed,
        doubted_at: None,
        shift: Shift::NONE,
        settling: Settling::No,
        corrected: Seconds::new(0),
        collected: Seq(0),
        brought: None,
        set_up: SetUp::Going,
        way_out: None,
        power_ups: 0,
    };

    /// Adds one entry.
    pub fn apply(&mut self, entry: Tally) {
        match entry {
            Tally::Counted(number) => {
                if let Some(total) = self.totals.get_mut(number.index()) {
                    *total = total.saturating_add(1).min(NUMBER_LIMIT);
                }
                // What finds no room is past every policy already.
                let _ = self.weights.push(number);
            }
            Tally::Cleared(number) => {
                if let Some(total) = self.totals.get_mut(number.index()) {
                    *total = 0;
                }
                self.weights.retain(|other| *other != number);
            }
            Tally::Penalty => {
                self.weights.clear();
                self.step = self.step.saturating_add(1);
                self.penalty = PenaltyMark::Running;
            }
            Tally::Served => self.penalty = PenaltyMark::Served,
            Tally::Faded(number) => {
                let oldest = self.weights.iter().position(|other| *other == number);
                let mut place = 0_usize;
                // Not `remove`, which would bring a `memmove` of its own along.
                self.weights.retain(|_| {
                    let stays = Some(place) != oldest;
                    place = place.saturating_add(1);
                    stays
                });
            }
            Tally::Eased => self.step = 0,
            Tally::HeldShut(until) => self.held_until = Some(until),
            Tally::ClockDoubt(at) => {
                self.clock = ClockMark::Doubted;
                self.doubted_at = at;
            }
            Tally::Corrected { by, shift } => {
                self.clock = ClockMark::Believed;
                self.shift = shift;
                self.corrected = self.corrected.saturating_add(by);
            }
            Tally::CorrectionsOver => self.corrected = Seconds::new(0),
            Tally::ClockSet(shift) => {
                self.clock = ClockMark::Believed;
                self.shift = shift;
                self.settling = Settling::Yes;
            }
            Tally::Settled => self.settling = Settling::No,
            Tally::Collected(upto) => self.collected = self.collected.max(upto),
            Tally::Brought(at) => self.brought = Some(at),
            Tally::SettingUp => {
                self.set_up = SetUp::Going;
                self.way_out = None;
            }
            Tally::SetUp => self.set_up = SetUp::Done,
            Tally::PoweredUp => self.power_ups = self.power_ups.saturating_add(1),
            Tally::WayOut(people) => self.way_out = Some(people),
            Tally::WayOutOver => self.way_out = None,
        }
    }

    /// The lock's count: the sum of all shares.
    #[must_use]
    pub fn lock_count(&self) -> u16 {
        u16::try_from(self.weights.len()).unwrap_or(u16::MAX)
    }

    /// The share of `number`: its wrong tries that still weigh.
    #[must_use]
    pub fn share(&self, number: Number) -> usize {
        self.weights.iter().filter(|other| **other == number).count()
    }

    /// The failures counted for `number`, 0 to [`NUMBER_LIMIT`].
    #[must_use]
    pub fn total(&self, number: Number) -> u8 {
        self.totals.get(number.index()).copied().unwrap_or(NUMBER_LIMIT)
    }
}

/// Behaviour sections 3 and 4 (R2), spelled out by hand.
#[cfg(test)]
mod tests {
    use super::*;
    use crate::policy::TABLE;

    fn number(n: u8) -> Number {
        Number::new(n).unwrap()
    }

    fn after(entries: &[Tally]) -> TallyState {
        let mut state = TallyState::NEW;
        for entry in entries {
            state.apply(*entry);
        }
        state
    }

    #[test]
    fn a_right_code_clears_its_own_share_and_no_other() {
        let (guessed, own) = (number(7), number(0));
        let state = after(&[
            Tally::Counted(guessed),
            Tally::Counted(own),
            Tally::Counted(guessed),
            Tally::Cleared(own),
        ]);
        assert_eq!((state.total(guessed), state.total(own), state.lock_count()), (2, 0, 2));
        assert_eq!((state.share(guessed), state.share(own)), (2, 0));
    }

    #[test]
    fn counts_stop_at_their_limits() {
        let state = after(&[Tally::Counted(number(99)); 300]);
        assert_eq!((state.total(number(99)), state.lock_count()), (100, 12));
    }

    #[test]
    fn weights_that_stop_are_past_every_policy() {
        let most = TABLE.iter().find(|row| row.key == "wrong_codes").map(|row| row.most);
        assert!(most.is_some_and(|most| usize::try_from(most).unwrap() < WEIGHTS));
    }

    #[test]
    fn a_penalty_restarts_the_locks_count_and_keeps_the_totals() {
        let n = number(12);
        let state = after(&[Tally::Counted(n), Tally::Penalty, Tally::Counted(n), Tally::Penalty]);
        assert_eq!((state.total(n), state.lock_count(), state.step), (2, 0, 2));
        assert_eq!(state.penalty, PenaltyMark::Running);
        let state = after(&[Tally::Penalty, Tally::Served]);
        assert_eq!((state.penalty, state.step), (PenaltyMark::Served, 1));
    }

    #[test]
    fn one_try_fades_at_a_time_and_totals_stay() {
        let (a, b) = (number(12), number(13));
        let state = after(&[
            Tally::Counted(a),
            Tally::Counted(b),
            Tally::Counted(a),
            Tally::Faded(a),
            Tally::Faded(number(14)),
        ]);
        assert_eq!((state.share(a), state.share(b), state.total(a)), (1, 1, 2));
        let state = after(&[Tally::Penalty, Tally::Served, Tally::Counted(a), Tally::Eased]);
        assert_eq!((state.step, state.share(a)), (0, 1));
    }

    #[test]
    fn a_setting_moves_the_shift_and_ends_the_doubt() {
        let (doubt, shift) = (Steady::from_secs(7), Shift::from_secs(-300));
        let state = after(&[Tally::ClockDoubt(Some(doubt)), Tally::ClockSet(shift)]);
        assert_eq!((state.clock, state.shift), (ClockMark::Believed, shift));
        assert_eq!((state.doubted_at, state.settling), (Some(doubt), Settling::Yes));
    }
}
