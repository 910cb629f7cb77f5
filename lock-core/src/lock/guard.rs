//! Counts and penalty: what stands between a guesser and the bolt (R2).

use crate::holder::Number;
use crate::policy::Policy;
use crate::port::Tally;
use crate::recovered::Recovered;
use crate::role::Role;
use crate::rules::limit::{Stood, WARDEN_TRIES_A_DAY};
use crate::rules::penalty;
use crate::tally::{PenaltyMark, TallyState};
use crate::time::{Seconds, Uptime, Utc};

/// Entries in one penalty that are still judged, for duress alone (R4). Ours.
const LOOKS: u8 = 8;

/// After so long without a wrong try the lock's count and the step fall. Ours.
const FADE: Seconds = Seconds::from_hours(24);

/// The region of counts and penalty.
pub(super) struct Guard {
    tally: TallyState,
    penalty: Penalty,
    /// When the lock's count and the step fall; `None` once they have, until
    /// the next wrong try.
    fades: Option<Uptime>,
    /// The day of uptime for which `tries` counts.
    day: u64,
    tries: [u8; Number::COUNT],
}

/// Whether codes are taken.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Penalty {
    None,
    Running {
        until: Uptime,
        /// Entries that may still be judged.
        looks: u8,
    },
}

impl Guard {
    /// From what a boot found; a penalty that was running restarts, whole.
    pub(super) fn at_boot(found: &Recovered, policy: &Policy, at: Uptime) -> Self {
        let mut tally = found.tally.clone();
        // Some record is as late as its end: it was over before this boot.
        tally.held_until = tally.held_until.filter(|end| found.floor.is_none_or(|f| f < *end));
        let penalty = match tally.penalty {
            PenaltyMark::Running if canary!(PenaltyForgotten) => Penalty::None,
            PenaltyMark::Running => {
                let lasts = penalty::length(policy, tally.step.saturating_sub(1));
                Penalty::Running { until: at.after(lasts), looks: LOOKS }
            }
            PenaltyMark::Served => Penalty::None,
        };
        Self {
            tally,
            penalty,
            fades: Some(at.after(FADE)),
            day: 0,
            // A boot counts as a full day's tries, so that a power cut gives
            // no barred warden new ones.
            tries: [WARDEN_TRIES_A_DAY; Number::COUNT],
        }
    }

    /// Takes an entry that is on its way to the store into account.
    pub(super) fn apply(&mut self, entry: Tally) {
        self.tally.apply(entry);
    }

    /// Notes a try on `number`; how that number stood before it.
    pub(super) fn try_on(&mut self, number: Number, at: Uptime) -> Stood {
        self.turn_day(at);
        let failures = self.tally.total(number);
        let nth_today = match self.tries.get_mut(number.index()) {
            Some(tries) => {
                *tries = tries.saturating_add(1);
                *tries
            }
            None => u8::MAX,
        };
        Stood::with(failures, nth_today)
    }

    /// How `number` stands without a new try: for the first of two people.
    pub(super) fn stands(&mut self, number: Number, at: Uptime) -> Stood {
        self.turn_day(at);
        let nth_today = self.tries.get(number.index()).copied().unwrap_or(u8::MAX);
        Stood::with(self.tally.total(number), nth_today)
    }

    /// How `number` would stand when a try on it began now.
    pub(super) fn next_try(&self, number: Number, at: Uptime) -> Stood {
        let new_day = at.days() != self.day;
        let tries = self.tries.get(number.index()).copied().unwrap_or(u8::MAX);
        let tries = if new_day { 0 } else { tries };
        Stood::with(self.tally.total(number), tries.saturating_add(1))
    }

    fn turn_day(&mut self, at: Uptime) {
        let day = at.days();
        if day != self.day {
            self.day = day;
            self.tries = [0; Number::COUNT];
        }
    }

    /// Whether the next try on `number` would find it barred for that role.
    pub(super) fn bars(&self, number: Number, role: Role) -> bool {
        let tries = self.tries.get(number.index()).copied().unwrap_or(u8::MAX);
        Stood::with(self.tally.total(number), tries.saturating_add(1)).bars(role)
    }

    /// A wrong or barred try: the day without one starts anew.
    pub(super) fn failed(&mut self, at: Uptime) {
        self.fades = Some(at.after(FADE));
    }

    /// Wrong codes left before a penalty; 0: it is due.
    pub(super) fn left(&self, policy: &Policy) -> u8 {
        let count = u8::try_from(self.tally.lock_count()).unwrap_or(u8::MAX);
        policy.wrong_codes.saturating_sub(count)
    }

    /// Starts a penalty; its length. The caller writes [`Tally::Penalty`].
    pub(super) fn start_penalty(&mut self, policy: &Policy, at: Uptime) -> Seconds {
        let lasts = penalty::length(policy, self.tally.step);
        self.penalty = Penalty::Running { until: at.after(lasts), looks: LOOKS };
        lasts
    }

    /// When the running penalty ends.
    pub(super) fn penalty_until(&self) -> Option<Uptime> {
        match self.penalty {
            Penalty::None => None,
            Penalty::Running { until, .. } => Some(until),
        }
    }

    /// Whether one more entry of this penalty is judged for duress.
    pub(super) fn look(&mut self) -> bool {
        match &mut self.penalty {
            Penalty::None | Penalty::Running { looks: 0, .. } => false,
            Penalty::Running { looks, .. } => {
                *looks = looks.saturating_sub(1);
                true
            }
        }
    }

    /// What the tally must be told at this moment, if anything: a penalty
    /// served, or a day without a wrong try.
    pub(super) fn due(&mut self, at: Uptime) -> Option<Tally> {
        if self.penalty_until().is_some_and(|until| at >= until) {
            self.penalty = Penalty::None;
            return Some(Tally::Served);
        }
        let anything = self.fades_at().is_some();
        // Over for good, also with nothing to fall: a try that is counted later
        // must not fall while it is being judged.
        self.fades.take_if(|fades| at >= *fades)?;
        anything.then_some(Tally::Faded)
    }

    /// When the lock's count and the step fall, if there is anything to fall.
    pub(super) fn fades_at(&self) -> Option<Uptime> {
        let something = self.tally.lock_count() > 0 || self.tally.step > 0;
        self.fades.filter(|_| something)
    }

    /// Ends a hold-shut whose end has come. Without a valid clock nobody can
    /// say that it has.
    pub(super) fn end_hold(&mut self, utc: Option<Utc>) {
        let over = |until: &Utc| utc.is_some_and(|now| now >= *until);
        if self.tally.held_until.as_ref().is_some_and(over) {
            self.tally.held_until = None;
        }
    }

    /// The sum of corrections by stewards alone.
    pub(super) const fn corrected(&self) -> Seconds {
        self.tally.corrected
    }

    /// While a clock settles: when the lock believed it to be before.
    pub(super) const fn settling(&self) -> Option<Utc> {
        self.tally.settling
    }

    /// The newest record that a reader has.
    pub(super) const fn collected(&self) -> crate::audit::Seq {
        self.tally.collected
    }

    /// The end of the hold-shut that is in force.
    pub(super) const fn held_until(&self) -> Option<Utc> {
        self.tally.held_until
    }
}
