//! The clock chip, steady time, and setting the clock (sections 1 and 9).

use super::access::Access;
use super::boot::{CORRECTIONS_MS, SETTLING_MS};
use super::durable::Tally;
use super::lock::{DAY_MS, Model};
use super::seen::{Chip, Record};

/// What a steward may correct alone, in sum.
const ALONE_S: u64 = 5 * 60;
/// 30 years of 365.25 days.
const THIRTY_YEARS_S: i64 = 30 * 31_557_600;
const YEAR_AND_A_DAY_S: i64 = 366 * 86_400;

impl Model {
    /// UTC, while the clock is valid.
    pub(crate) fn utc(&self) -> Option<i64> {
        match self.now.chip {
            Chip::Reads(utc) if !self.kept.clock_doubt => Some(utc),
            Chip::Reads(_) | Chip::Lost => None,
        }
    }

    /// Whether UTC may be set to that: not before the firmware was built, nor
    /// 30 years after it.
    pub(crate) fn is_plausible(&self, utc: i64) -> bool {
        (self.make.built..=self.make.built + THIRTY_YEARS_S).contains(&utc)
    }

    /// True: the clock is found invalid now, and was not before.
    pub(crate) fn boot_clock(&mut self) -> bool {
        let brought = self.kept.brought;
        let from = move |steady: Option<i64>| steady.max(brought).map(|steady| (steady, 0));
        if self.kept.clock_doubt {
            self.steady_at = from(self.kept.doubt_at);
            return false;
        }
        let floor = self.kept.floor();
        let shift = self.kept.shift;
        if let Chip::Reads(utc) = self.now.chip {
            let above = floor.is_none_or(|floor| floor <= utc && utc <= floor + YEAR_AND_A_DAY_S);
            if above && self.is_plausible(utc) {
                self.steady_at = from(Some(utc - shift));
                return false;
            }
        }
        // No record may carry the time of a clock that is found wrong now.
        self.kept.clock_doubt = true;
        self.steady_at = from(floor.map(|floor| floor - shift));
        true
    }

    fn chip_is_wrong(&self) -> bool {
        let Chip::Reads(utc) = self.now.chip else {
            return true;
        };
        self.compared.is_some_and(|(then_ms, then_utc)| {
            let elapsed = i64::try_from(self.now.uptime_ms - then_ms).expect("sensible");
            let apart = ((utc - then_utc) * 1_000 - elapsed).abs();
            // More than 2 s + 1/4096, without a fraction.
            apart * 4_096 > 2_000 * 4_096 + elapsed
        })
    }

    pub(crate) fn compare_clock(&mut self) {
        if self.kept.clock_doubt {
            return;
        }
        if self.chip_is_wrong() {
            self.compared = None;
            self.tally(&Tally::ClockDoubt(self.steady()));
            self.record(Record::of("clock-invalid"));
            return;
        }
        let Some(utc) = self.utc() else { return };
        let reads = utc - self.kept.shift;
        let steady = self.steady_at.map_or(reads, |(steady, _)| steady.max(reads));
        self.steady_at = Some((steady, self.now.uptime_ms));
        if let Some((then_ms, _)) = self.compared
            && self.now.uptime_ms >= then_ms + DAY_MS
        {
            self.compared = Some((self.now.uptime_ms, utc));
        }
    }

    pub(crate) fn settle_clock(&mut self) {
        let now_ms = self.now.uptime_ms;
        if self.settles_ms.is_some_and(|at| at <= now_ms) {
            self.settles_ms = None;
            self.tally(&Tally::Settled);
            self.decide_people_anew();
        }
        if self.corrections_over_ms.is_some_and(|at| at <= now_ms) {
            self.corrections_over_ms = None;
            self.tally(&Tally::CorrectionsOver);
        }
    }

    /// Steady time: with a valid clock as it was at this step, else going on by
    /// uptime from the last step with a valid one, or from the boot.
    pub(crate) fn steady(&self) -> Option<i64> {
        let (steady, at_ms) = self.steady_at?;
        let since = (self.now.uptime_ms - at_ms) / 1_000;
        Some(steady + i64::try_from(since).expect("a sensible uptime"))
    }

    /// Whether an instant in steady time has come: the one answer to *is it
    /// due* wherever something waits.
    pub(crate) fn has_come(&self, steady: i64) -> bool {
        self.steady().is_some_and(|now| now >= steady)
    }

    /// The end of a hold-shut that runs, in steady time.
    pub(crate) fn held(&self) -> Option<i64> {
        self.kept.held_until.filter(|until| !self.has_come(*until))
    }

    /// What an instant in UTC is in steady time, and back.
    pub(crate) fn to_steady(&self, utc: i64) -> i64 {
        utc - self.kept.shift
    }

    pub(crate) fn to_utc(&self, steady: i64) -> i64 {
        steady + self.kept.shift
    }

    /// Whether a steward alone may set the clock to that.
    pub(crate) fn steward_may(&self, target: i64) -> bool {
        self.utc().is_some_and(|utc| self.kept.corrected_s + target.abs_diff(utc) <= ALONE_S)
    }

    /// Sets the clock; `warden` is the second person, where it takes one.
    pub(crate) fn set_clock(&mut self, steward: u8, warden: Option<u8>, target: i64) -> bool {
        let before = self.utc();
        // What it takes by now, whoever was asked.
        let alone = self.steward_may(target);
        let steady = self.steady();
        let shift = steady.map_or(0, |steady| target - steady);
        if !self.tally(&Tally::ClockDoubt(steady)) {
            return false;
        }
        self.now.chip = Chip::Reads(target);
        self.seen.clock_set.push(target);
        let by = before.map_or(0, |before| target.abs_diff(before));
        let entry = match (alone, self.is_opened()) {
            (true, _) => Tally::Corrected(by, shift),
            (false, true) => Tally::Corrected(0, shift),
            (false, false) => Tally::ClockSet(shift),
        };
        let mut people = vec![steward];
        people.extend(warden);
        let kind = if alone { "clock-corrected" } else { "clock-set" };
        let value = if alone { before.map(|before| target - before) } else { before };
        let record = Record { value, ..Record::of(kind).numbers(&people) };
        if !self.record_at(record, Some(target)) || !self.tally(&entry) {
            return false;
        }
        self.steady_at = Some((target - shift, self.now.uptime_ms));
        self.compared = Some((self.now.uptime_ms, target));
        if alone {
            let over_ms = self.now.uptime_ms + CORRECTIONS_MS;
            self.corrections_over_ms = (self.kept.corrected_s > 0).then_some(over_ms);
        }
        if matches!(entry, Tally::ClockSet(_)) {
            self.settles_ms = Some(self.now.uptime_ms + SETTLING_MS);
        }
        if !alone && self.is_opened() && self.settles_ms.take().is_some() {
            self.tally(&Tally::Settled);
        }
        if !alone {
            self.first = None;
            if self.access.is_wait() {
                self.go(Access::Secured);
                self.record(Record::of("cancelled").why("clock"));
            }
        }
        self.decide_people_anew();
        true
    }
}
