//! The tally's state: wrong counts, penalty step, hold-shut, clock doubt.
//!
//! What [`Tally`] entries add up to. The machine keeps one in memory, the store
//! rebuilds one at boot from what lies in flash; both apply the same entries
//! through [`TallyState::apply`], so that they cannot come to differ.

use crate::audit::Seq;
use crate::holder::Number;
use crate::policy::NUMBER_LIMIT;
use crate::port::Tally;
use crate::time::{Seconds, Utc};

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

/// What the entries of a tally add up to.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TallyState {
    /// Consecutive failures of each number, 0 to [`NUMBER_LIMIT`].
    pub totals: [u8; Number::COUNT],
    /// Each number's share of the lock's count, 0 to [`TallyState::SHARE_MOST`].
    pub shares: [u8; Number::COUNT],
    /// How often the next penalty is doubled; stops at 255.
    pub step: u8,
    /// Whether a penalty is running.
    pub penalty: PenaltyMark,
    /// The end of the last hold-shut, also when it is past.
    pub held_until: Option<Utc>,
    /// Whether the clock is believed.
    pub clock: ClockMark,
    /// While a clock that two people set is settling: when the lock believed it
    /// to be before, at the latest.
    pub settling: Option<Utc>,
    /// The sum of corrections by stewards alone.
    pub corrected: Seconds,
    /// The newest record that a reader confirmed to have, 0 for none.
    pub collected: Seq,
}

impl Default for TallyState {
    fn default() -> Self {
        Self::NEW
    }
}

impl TallyState {
    /// Where a share stops. The lock's count starts a penalty at 10 at the
    /// latest (the policy table), so a share that stops here has lost nothing;
    /// two of them fit a byte of flash.
    pub const SHARE_MOST: u8 = 15;

    /// A tally without an entry.
    pub const NEW: Self = Self {
        totals: [0; Number::COUNT],
        shares: [0; Number::COUNT],
        step: 0,
        penalty: PenaltyMark::Served,
        held_until: None,
        clock: ClockMark::Believed,
        settling: None,
        corrected: Seconds::new(0),
        collected: Seq(0),
    };

    /// Adds one entry.
    pub fn apply(&mut self, entry: Tally) {
        match entry {
            Tally::Counted(number) => {
                if let Some(total) = self.totals.get_mut(number.index()) {
                    *total = total.saturating_add(1).min(NUMBER_LIMIT);
                }
                if let Some(share) = self.shares.get_mut(number.index()) {
                    *share = share.saturating_add(1).min(Self::SHARE_MOST);
                }
            }
            Tally::Cleared(_) if canary!(OthersCleared) => {
                self.totals = [0; Number::COUNT];
                self.shares = [0; Number::COUNT];
            }
            Tally::Cleared(number) => {
                for counts in [&mut self.totals, &mut self.shares] {
                    if let Some(count) = counts.get_mut(number.index()) {
                        *count = 0;
                    }
                }
            }
            Tally::Penalty => {
                self.shares = [0; Number::COUNT];
                self.step = self.step.saturating_add(1);
                self.penalty = PenaltyMark::Running;
            }
            Tally::Served => self.penalty = PenaltyMark::Served,
            Tally::Faded => {
                self.shares = [0; Number::COUNT];
                self.step = 0;
            }
            Tally::HeldShut(until) => self.held_until = Some(until),
            Tally::ClockDoubt => self.clock = ClockMark::Doubted,
            Tally::Corrected(by) => {
                self.clock = ClockMark::Believed;
                self.corrected = self.corrected.saturating_add(by);
            }
            Tally::CorrectionsOver => self.corrected = Seconds::new(0),
            Tally::ClockSet(before) => {
                self.clock = ClockMark::Believed;
                // Set again while it settles: what was believed first counts.
                self.settling = Some(self.settling.map_or(before, |first| first.min(before)));
            }
            Tally::Settled => self.settling = None,
            Tally::Collected(upto) => self.collected = self.collected.max(upto),
        }
    }

    /// The lock's count: the sum of all shares.
    #[must_use]
    pub fn lock_count(&self) -> u16 {
        self.shares.iter().fold(0, |sum, share| sum.saturating_add(u16::from(*share)))
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
            Tally::Counted(guessed),
            Tally::Counted(own),
            Tally::Cleared(own),
        ]);
        assert_eq!((state.total(guessed), state.total(own), state.lock_count()), (2, 0, 2));
    }

    #[test]
    fn counts_stop_at_their_limits() {
        let state = after(&[Tally::Counted(number(99)); 300]);
        assert_eq!((state.total(number(99)), state.lock_count()), (100, 15));
    }

    #[test]
    fn a_share_that_stops_is_past_every_policy() {
        let most = TABLE.iter().find(|row| row.key == "wrong_codes").map(|row| row.most);
        assert!(most.is_some_and(|most| most <= u32::from(TallyState::SHARE_MOST)));
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
    fn fading_leaves_totals_and_marks() {
        let n = number(12);
        let until = Utc::from_secs(5);
        let state = after(&[
            Tally::Counted(n),
            Tally::Penalty,
            Tally::Counted(n),
            Tally::HeldShut(until),
            Tally::ClockDoubt,
            Tally::Faded,
        ]);
        let mut expected = TallyState::NEW;
        expected.totals[12] = 2;
        expected.penalty = PenaltyMark::Running;
        expected.held_until = Some(until);
        expected.clock = ClockMark::Doubted;
        assert_eq!(state, expected);
    }
}
