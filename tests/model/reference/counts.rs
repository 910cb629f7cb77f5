//! What wrong tries weigh, penalties, and the supply's level (sections 3, 4
//! and 9).

use super::durable::{MOST_FAILURES, Tally};
use super::lock::{DAY_MS, Level, Model, Penalty};
use super::seen::Record;
use super::setup::Role;
use super::typing::Desk;

const WARDEN_TRIES_A_DAY: u32 = 4;

impl Model {
    pub(crate) fn settle_counts(&mut self) {
        let now_ms = self.now.uptime_ms;
        if self.day != now_ms / DAY_MS {
            self.day = now_ms / DAY_MS;
            self.tries_today.clear();
        }
        if self.penalty.as_ref().is_some_and(|penalty| penalty.until_ms <= now_ms) {
            self.penalty = None;
            self.tally(&Tally::Served);
            self.eases_ms = (self.kept.step > 0).then_some(now_ms + DAY_MS);
        }
        if self.eases_ms.is_some_and(|at| at <= now_ms) {
            self.eases_ms = None;
            self.tally(&Tally::Eased);
        }
        if let Some(number) = self.next_to_fade(now_ms) {
            let moments = self.fades_ms.get_mut(&number).expect("there is one");
            moments.remove(0);
            self.tally(&Tally::Faded(number));
        }
    }

    /// The lowest number with a share that falls now.
    pub(crate) fn next_to_fade(&self, now_ms: u64) -> Option<u8> {
        let due = |moments: &Vec<u64>| moments.first().is_some_and(|at| *at <= now_ms);
        self.fades_ms.iter().find(|(_, moments)| due(moments)).map(|(number, _)| *number)
    }

    /// A try is counted and weighs for a day, on its own number.
    pub(crate) fn count(&mut self, number: u8) -> bool {
        *self.tries_today.entry(number).or_default() += 1;
        self.fades_ms.entry(number).or_default().push(self.now.uptime_ms + DAY_MS);
        self.tally(&Tally::Counted(number))
    }

    pub(crate) fn clear(&mut self, number: u8) -> bool {
        self.fades_ms.remove(&number);
        self.tally(&Tally::Cleared(number))
    }

    /// For a try that is not counted yet: a total of 100 bars whoever has no
    /// way in.
    pub(crate) fn is_barred(&self, number: u8) -> bool {
        self.total(number) == MOST_FAILURES && !self.has_a_way_in(number)
    }

    fn has_a_way_in(&self, number: u8) -> bool {
        let holder = self.setup().holder(number);
        if holder.is_none_or(|holder| holder.role != Role::Warden) {
            return false;
        }
        let vouched = self
            .vouched_until_ms
            .iter()
            .any(|(other, until)| *other != number && self.now.uptime_ms < *until);
        let tries = self.tries_today.get(&number).copied().unwrap_or_default();
        self.sensors.bolt_drawn || vouched || (self.day > 0 && tries < WARDEN_TRIES_A_DAY)
    }

    /// Starts a penalty if the lock's count has reached the limit.
    pub(crate) fn punish_at_limit(&mut self) -> bool {
        let policy = &self.setup().policy;
        if self.kept.lock_count() < policy.wrong_codes {
            return false;
        }
        let length_s = (0..self.kept.step)
            .fold(policy.penalty_s, |length, _| (length * 2).min(policy.penalty_cap_s))
            .min(policy.penalty_cap_s);
        self.fades_ms.clear();
        self.eases_ms = None;
        self.notice = None;
        self.desk = Desk::Rest;
        let until_ms = self.now.uptime_ms + length_s * 1_000;
        self.penalty = Some(Penalty { until_ms, judged: 0 });
        if self.tally(&Tally::Penalty(length_s)) {
            self.record(Record::of("penalty").value(length_s));
        }
        true
    }

    pub(crate) fn measure(&mut self, mv: u32) {
        let policy = &self.setup().policy;
        let (low, spent) = (policy.supply_low_mv, policy.supply_spent_mv);
        self.supply_mv = Some(mv);
        let level = match self.level {
            Level::Good | Level::Low if mv < spent => Level::Spent,
            Level::Good if mv < low => Level::Low,
            Level::Low | Level::Spent if mv >= low + 200 => Level::Good,
            Level::Spent if mv >= spent + 200 => Level::Low,
            same @ (Level::Good | Level::Low | Level::Spent) => same,
        };
        self.level = level;
        let kind = match level {
            Level::Good => "supply-good",
            Level::Low => "supply-low",
            Level::Spent => "supply-spent",
        };
        if kind != self.kept.recorded_supply() {
            self.record(Record::of(kind).value(mv));
        }
    }

    /// The supply in quarters with its word.
    pub(crate) fn supply_words(&self) -> String {
        let Some(mv) = self.supply_mv else { return "unknown".to_owned() };
        let policy = &self.setup().policy;
        let (low, spent) = (policy.supply_low_mv, policy.supply_spent_mv);
        // Twice the millivolts above the lower threshold, against the span
        // between the two thresholds.
        let above = 2 * i64::from(mv) - 2 * i64::from(low);
        let span = i64::from(low - spent);
        let quarters = match self.level {
            Level::Spent => 0,
            Level::Low => 1,
            Level::Good if above < span => 2,
            Level::Good if above < 3 * span => 3,
            Level::Good => 4,
        };
        let word = ["change soon", "change soon", "half", "half", "full"][quarters];
        format!("{quarters}/4 {word}")
    }
}
