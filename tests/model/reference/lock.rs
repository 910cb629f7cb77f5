//! The model itself: its state, the boot, and what time alone brings about.

use std::collections::BTreeMap;

use super::access::{Access, First};
use super::civil::Zone;
use super::seen::{Chip, Durable, Input, Now, Record, Seen, Sensors};
use super::setup::Setup;
use super::typing::Desk;
use super::windows::Hours;

pub(crate) const DAY_MS: u64 = 24 * 3_600 * 1_000;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Level {
    Good,
    Low,
    Spent,
}

/// A penalty that runs.
#[derive(Clone, Debug)]
pub(crate) struct Penalty {
    pub(crate) until_ms: u64,
    /// How many entries have been judged in it.
    pub(crate) judged: u32,
}

#[derive(Clone, Debug)]
pub(crate) struct Notice {
    pub(crate) text: String,
    pub(crate) until_ms: u64,
}

pub(crate) struct Model {
    pub(crate) setup: Setup,
    pub(crate) zone: Zone,
    /// The counts and records as the lock knows them.
    pub(crate) kept: Durable,
    /// The same as a power cut would leave them: what was written.
    pub(crate) written: Durable,
    pub(crate) now: Now,
    pub(crate) sensors: Sensors,
    pub(crate) level: Level,
    pub(crate) supply_mv: Option<u32>,
    pub(crate) desk: Desk,
    pub(crate) notice: Option<Notice>,
    pub(crate) access: Access,
    pub(crate) first: Option<First>,
    pub(crate) penalty: Option<Penalty>,
    pub(crate) held_until: Option<i64>,
    /// When the shares and the step fade, unless a wrong try comes first.
    pub(crate) fades_ms: Option<u64>,
    /// Tries by number in the current day of uptime.
    pub(crate) tries_today: BTreeMap<u8, u32>,
    pub(crate) day: u64,
    pub(crate) duress_until_ms: Option<u64>,
    pub(crate) tamper_until_ms: Option<u64>,
    /// Wake-ups that follow each judged try and show nothing.
    pub(crate) quiet_wakes_ms: Vec<u64>,
    /// Where the chip was last found in step with uptime.
    pub(crate) compared: Option<(u64, i64)>,
    pub(crate) fault: Option<&'static str>,
    /// How many more writes succeed; `None`: all.
    pub(crate) writes_left: Option<u32>,
    /// The drive moves no more, and reports it each time.
    pub(crate) drive_sticks: bool,
    pub(crate) seen: Seen,
    pub(crate) before: Seen,
}

impl Model {
    /// Starts the lock at uptime nought; `kept` is what the last power cut
    /// left, `None` a lock that has just been set up.
    pub(crate) fn boot(
        setup: &Setup,
        kept: Option<Durable>,
        now: Now,
        sensors: Sensors,
    ) -> (Self, Seen) {
        assert_eq!(now.uptime_ms, 0, "uptime counts from the boot");
        let mut model = Self {
            zone: Zone::new(&setup.zone),
            setup: setup.clone(),
            written: kept.clone().unwrap_or_default(),
            kept: kept.unwrap_or_default(),
            now,
            sensors,
            level: Level::Good,
            supply_mv: None,
            desk: Desk::Rest,
            notice: None,
            access: Access::Secured,
            first: None,
            penalty: None,
            held_until: None,
            fades_ms: Some(DAY_MS),
            tries_today: BTreeMap::new(),
            day: 0,
            duress_until_ms: None,
            tamper_until_ms: None,
            quiet_wakes_ms: Vec::new(),
            compared: None,
            fault: None,
            writes_left: None,
            drive_sticks: false,
            seen: Seen::default(),
            before: Seen::default(),
        };
        model.start();
        let seen = model.seal();
        (model, seen)
    }

    fn start(&mut self) {
        let below_floor = match (self.now.chip, self.kept.floor()) {
            (Chip::Reads(utc), Some(floor)) => utc < floor,
            (Chip::Reads(_), None) => false,
            (Chip::Lost, _) => true,
        };
        let newly_in_doubt = !self.kept.clock_doubt && below_floor;
        // No record may carry the time of a clock that is found wrong now.
        self.kept.clock_doubt |= newly_in_doubt;
        self.held_until = self.kept.held_until;
        if self.kept.clock_doubt && self.kept.floor() >= self.held_until {
            self.held_until = None;
        }
        self.compared = self.utc().map(|utc| (0, utc));
        if !self.ajar() {
            self.seen.drive.push("block");
        }
        let last_word = self.kept.last_word().map(str::to_owned);
        let newest_outcome = self.kept.newest_outcome();
        self.record(Record::of("powered-up"));
        if self.ajar() {
            if matches!(last_word.as_deref(), Some("released" | "opened")) {
                self.access = Access::Open { since_ms: 0, left: None };
            } else {
                self.force();
            }
        }
        if newest_outcome == Some("duress") {
            self.duress_until_ms = Some(self.setup.policy.alarm_hold_s * 1_000);
        }
        if let Some(length_s) = self.kept.penalty_s {
            self.penalty = Some(Penalty { until_ms: length_s * 1_000, judged: 0 });
        } else {
            self.punish_at_limit();
        }
        if newly_in_doubt {
            self.tally("clock-doubt");
            self.record(Record::of("clock-invalid"));
        }
        self.settle();
    }

    /// Lets time pass to `now`, its own moment included, and tells every
    /// moment at which something was to be seen.
    pub(crate) fn advance_to(&mut self, now: Now) -> Vec<(u64, Seen)> {
        let mut news = Vec::new();
        while let Some(due_ms) = self.due_before(now) {
            let before = self.before.clone();
            let seen = self.step(self.now.later(due_ms), |_| ());
            if seen.is_news_after(&before) {
                news.push((due_ms, seen));
            }
        }
        news
    }

    /// The next moment, not after `now`, at which a timer is due.
    pub(crate) fn due_before(&self, now: Now) -> Option<u64> {
        self.next_wake().filter(|due_ms| *due_ms <= now.uptime_ms)
    }

    /// One input. Whatever is due by then must have run: see `advance_to`.
    pub(crate) fn input(&mut self, now: Now, input: Input) -> Seen {
        assert_eq!(self.due_before(now), None, "timers run before the input");
        self.step(now, |model| match input {
            Input::Key(key) => model.key(key),
            Input::Bolt(drawn) => model.sensors.bolt_drawn = drawn,
            Input::Door(open) => model.sensors.door_open = open,
            Input::Inhibit(set) => model.sensors.inhibit = set,
            Input::SupplyMv(mv) => model.measure(mv),
            Input::Woken => (),
            Input::DriveFault => model.drive_fault(),
        })
    }

    /// The chip reads something else from now on. Nobody tells the lock; it
    /// finds out at its next step.
    pub(crate) fn chip_moved(&mut self, now: Now) {
        self.now = now;
    }

    pub(crate) fn power_cut(&self) -> Durable {
        self.written.clone()
    }

    /// The store takes `more` writes and fails then.
    pub(crate) fn store_fails_after(&mut self, more: u32) {
        self.writes_left = Some(more);
    }

    pub(crate) fn drive_sticks(&mut self) {
        self.drive_sticks = true;
    }

    pub(crate) fn total(&self, number: u8) -> u32 {
        self.kept.totals.get(&number).copied().unwrap_or_default()
    }

    /// The seconds a penalty still has to run; nought without one.
    pub(crate) fn penalty_left_s(&self) -> u64 {
        self.penalty
            .as_ref()
            .map_or(0, |penalty| (penalty.until_ms - self.now.uptime_ms).div_ceil(1_000))
    }

    fn step(&mut self, now: Now, act: impl FnOnce(&mut Self)) -> Seen {
        self.now = now;
        self.settle();
        act(self);
        self.settle();
        self.seal()
    }

    fn seal(&mut self) -> Seen {
        if self.drive_sticks && !self.seen.drive.is_empty() {
            self.drive_fault();
        }
        let mut seen = std::mem::take(&mut self.seen);
        seen.screen = self.screen();
        seen.alarm = self.alarm();
        seen.access = self.access.name();
        self.before = seen.clone();
        seen
    }

    /// Everything that follows from the moment and the contacts alone.
    fn settle(&mut self) {
        let now_ms = self.now.uptime_ms;
        self.compare_clock();
        if self.day != now_ms / DAY_MS {
            self.day = now_ms / DAY_MS;
            self.tries_today.clear();
        }
        if let (Some(until), Some(utc)) = (self.held_until, self.utc()) {
            self.held_until = Some(until).filter(|until| utc < *until);
        }
        if self.penalty.as_ref().is_some_and(|penalty| penalty.until_ms <= now_ms) {
            self.penalty = None;
            self.kept.penalty_s = None;
            self.tally("served");
        }
        if self.fades_ms.is_some_and(|at| at <= now_ms) {
            self.fades_ms = None;
            if self.kept.lock_count() > 0 || self.kept.step > 0 {
                self.kept.shares.clear();
                self.kept.step = 0;
                self.tally("faded");
            }
        }
        self.duress_until_ms = self.duress_until_ms.filter(|until| *until > now_ms);
        self.tamper_until_ms = self.tamper_until_ms.filter(|until| *until > now_ms);
        self.quiet_wakes_ms.retain(|at| *at > now_ms);
        self.settle_access();
        if self.desk.times_out_ms().is_some_and(|at| at <= now_ms) {
            self.desk = Desk::Rest;
        }
        if self.notice.as_ref().is_some_and(|notice| notice.until_ms <= now_ms) {
            self.notice = None;
        }
    }

    /// The next moment after now at which the lock has something to do.
    pub(crate) fn next_wake(&self) -> Option<u64> {
        let now_ms = self.now.uptime_ms;
        let mut moments: Vec<u64> = self.quiet_wakes_ms.clone();
        moments.extend(self.penalty.as_ref().map(|penalty| penalty.until_ms));
        moments.extend(self.penalty.as_ref().map(|it| minute_turns(now_ms, it.until_ms)));
        moments.extend(self.fades_ms);
        moments.extend(self.duress_until_ms);
        moments.extend(self.tamper_until_ms);
        moments.extend(self.desk.times_out_ms());
        moments.extend(self.notice.as_ref().map(|notice| notice.until_ms));
        moments.extend(self.first.as_ref().map(|first| first.until_ms));
        moments.extend(self.access.until_ms());
        if self.access.is_wait() {
            moments.extend(self.access.until_ms().map(|until| minute_turns(now_ms, until)));
        }
        moments.extend(self.compared.map(|(at, _)| at + DAY_MS));
        for utc in [self.held_until, self.access.permit_end()].into_iter().flatten() {
            moments.extend(self.uptime_of(utc));
        }
        moments.into_iter().filter(|at| *at > now_ms).min()
    }

    /// The uptime at which a true clock will read `utc`.
    fn uptime_of(&self, utc: i64) -> Option<u64> {
        let ahead = u64::try_from(utc - self.utc()?).ok()?;
        Some(self.now.uptime_ms + ahead * 1_000)
    }

    /// UTC, while the clock is valid.
    pub(crate) fn utc(&self) -> Option<i64> {
        match self.now.chip {
            Chip::Reads(utc) if !self.kept.clock_doubt => Some(utc),
            Chip::Reads(_) | Chip::Lost => None,
        }
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

    fn compare_clock(&mut self) {
        if self.kept.clock_doubt {
            return;
        }
        if self.chip_is_wrong() {
            self.kept.clock_doubt = true;
            self.compared = None;
            self.tally("clock-doubt");
            self.record(Record::of("clock-invalid"));
        } else if let (Some((then_ms, _)), Some(utc)) = (self.compared, self.utc())
            && self.now.uptime_ms >= then_ms + DAY_MS
        {
            self.compared = Some((self.now.uptime_ms, utc));
        }
    }

    fn measure(&mut self, mv: u32) {
        let policy = &self.setup.policy;
        let (low, spent) = (policy.supply_low_mv, policy.supply_spent_mv);
        self.supply_mv = Some(mv);
        let level = match self.level {
            Level::Good | Level::Low if mv < spent => Level::Spent,
            Level::Good if mv < low => Level::Low,
            Level::Low | Level::Spent if mv >= low + 200 => Level::Good,
            Level::Spent if mv >= spent + 200 => Level::Low,
            same @ (Level::Good | Level::Low | Level::Spent) => same,
        };
        if level != self.level {
            self.level = level;
            let kind = match level {
                Level::Good => "supply-good",
                Level::Low => "supply-low",
                Level::Spent => "supply-spent",
            };
            self.record(Record::of(kind).value(mv));
        }
    }

    /// Writes a record; false, and service, if the store fails.
    pub(crate) fn record(&mut self, record: Record) -> bool {
        let record = Record { utc: self.utc(), ..record };
        if !self.store_takes_one() {
            return false;
        }
        self.seen.writes.push(format!("record {record}"));
        self.seen.records.push(record.clone());
        self.written.records.push(record.clone());
        self.kept.records.push(record);
        true
    }

    /// Writes a tally entry; false, and service, if the store fails.
    pub(crate) fn tally(&mut self, entry: &str) -> bool {
        if !self.store_takes_one() {
            return false;
        }
        self.written.add(entry, self.kept.penalty_s);
        self.seen.writes.push(format!("tally {entry}"));
        self.seen.tallies.push(entry.to_owned());
        true
    }

    fn store_takes_one(&mut self) -> bool {
        match &mut self.writes_left {
            Some(0) => {
                self.fail("store");
                false
            }
            Some(left) => {
                *left -= 1;
                true
            }
            None => true,
        }
    }

    fn drive_fault(&mut self) {
        self.record(Record::of("fault").why("drive"));
        self.fail("drive");
    }

    /// Service until the next boot; what was under way is dropped.
    fn fail(&mut self, fault: &'static str) {
        self.fault.get_or_insert(fault);
        self.desk = Desk::Rest;
        self.notice = None;
        self.first = None;
        if self.access.is_wait() {
            self.access = Access::Secured;
        }
    }

    pub(crate) fn ajar(&self) -> bool {
        self.sensors.bolt_drawn || self.sensors.door_open
    }

    pub(crate) fn hours(&self) -> Hours<'_> {
        Hours { setup: &self.setup, zone: &self.zone }
    }
}

/// When the minutes left until `until_ms`, rounded up, next become fewer.
fn minute_turns(now_ms: u64, until_ms: u64) -> u64 {
    let minutes_left = until_ms.saturating_sub(now_ms).div_ceil(60_000);
    until_ms - minutes_left.saturating_sub(1) * 60_000
}
