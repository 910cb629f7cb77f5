//! The model itself: its state, its steps, and what time alone brings about.

use std::collections::BTreeMap;

use super::access::{Access, First, Hand};
use super::civil::Zone;
use super::durable::{Durable, Flash, Tally};
use super::office::TheOffice;
use super::seen::{Chip, Input, Now, Record, Seen, Sensors};
use super::setup::Setup;
use super::typing::Desk;
use super::windows::Hours;

pub(crate) const HOUR_MS: u64 = 3_600 * 1_000;
pub(crate) const DAY_MS: u64 = 24 * HOUR_MS;

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

/// What a lock is made with: how it agrees with a laptop, and the instant at
/// which its firmware was built, in UTC.
#[derive(Clone)]
pub(crate) struct Make {
    pub(crate) office: TheOffice,
    pub(crate) built: i64,
}

#[derive(Clone)]
pub(crate) struct Model {
    pub(crate) make: Make,
    /// The counts, records and settings as the lock knows them.
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
    /// A release that was ended at once, and may have been too slow.
    pub(crate) hand: Option<Hand>,
    pub(crate) penalty: Option<Penalty>,
    /// When each wrong try on a number weighs no more.
    pub(crate) fades_ms: BTreeMap<u8, Vec<u64>>,
    /// When the step of penalties falls to 0.
    pub(crate) eases_ms: Option<u64>,
    /// Tries by number in the current day of uptime.
    pub(crate) tries_today: BTreeMap<u8, u32>,
    pub(crate) day: u64,
    /// How long each privileged person's right code is a way in for others.
    pub(crate) vouched_until_ms: BTreeMap<u8, u64>,
    pub(crate) duress_until_ms: Option<u64>,
    pub(crate) tamper_until_ms: Option<u64>,
    /// A test of the line, which no try lengthens.
    pub(crate) tested_until_ms: Option<u64>,
    /// Wake-ups that follow each judged try and show nothing.
    pub(crate) quiet_wakes_ms: Vec<u64>,
    /// Where the chip was last found in step with uptime.
    pub(crate) compared: Option<(u64, i64)>,
    /// Steady time at some uptime, from which it goes on; `None`: unknown.
    pub(crate) steady_at: Option<(i64, u64)>,
    pub(crate) settles_ms: Option<u64>,
    pub(crate) corrections_over_ms: Option<u64>,
    pub(crate) way_out_ms: Option<u64>,
    /// A reset without a code.
    pub(crate) reset_ms: Option<u64>,
    /// The first opening from that steady time on brings forward all that waits; an
    /// earlier one tells so too.
    pub(crate) brings: Option<i64>,
    /// The lock was opened while a file waited.
    pub(crate) file_brought: bool,
    pub(crate) fault: Option<&'static str>,
    /// How many more writes succeed; `None`: all.
    pub(crate) writes_left: Option<u32>,
    /// The drive moves no more, and reports it each time.
    pub(crate) drive_sticks: bool,
    /// A key is what this step was given.
    pub(crate) at_the_keys: bool,
    pub(crate) seen: Seen,
    pub(crate) before: Seen,
}

impl Model {
    /// Starts the lock at uptime nought; `kept` is what its flash holds.
    pub(crate) fn boot(make: &Make, kept: Durable, now: Now, sensors: Sensors) -> (Self, Seen) {
        assert_eq!(now.uptime_ms, 0, "uptime counts from the boot");
        let mut model = Self {
            make: make.clone(),
            written: kept.clone(),
            kept,
            now,
            sensors,
            level: Level::Good,
            supply_mv: None,
            desk: Desk::Rest,
            notice: None,
            access: Access::Secured,
            first: None,
            hand: None,
            penalty: None,
            fades_ms: BTreeMap::new(),
            eases_ms: None,
            tries_today: BTreeMap::new(),
            day: 0,
            vouched_until_ms: BTreeMap::new(),
            duress_until_ms: None,
            tamper_until_ms: None,
            tested_until_ms: None,
            quiet_wakes_ms: Vec::new(),
            compared: None,
            steady_at: None,
            settles_ms: None,
            corrections_over_ms: None,
            way_out_ms: None,
            reset_ms: None,
            brings: Some(i64::MIN),
            file_brought: false,
            fault: None,
            writes_left: None,
            drive_sticks: false,
            at_the_keys: false,
            seen: Seen::default(),
            before: Seen::default(),
        };
        model.start();
        model.settle();
        let seen = model.seal();
        (model, seen)
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
    pub(crate) fn input(&mut self, now: Now, input: &Input) -> Seen {
        assert_eq!(self.due_before(now), None, "timers run before the input");
        self.at_the_keys = matches!(input, Input::Key(_));
        let seen = self.step(now, |model| match input {
            Input::Key(key) => model.key(*key),
            Input::Bolt(drawn) => model.sensors.bolt_drawn = *drawn,
            Input::Door(open) => model.sensors.door_open = *open,
            Input::Inhibit(set) => model.sensors.inhibit = *set,
            Input::Switch(on) => model.sensors.switch_on = *on,
            Input::SupplyMv(mv) => model.measure(*mv),
            Input::Woken => (),
            Input::DriveFault => model.drive_fault(),
            Input::File(file) => model.load(file),
        });
        self.at_the_keys = false;
        seen
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

    /// What is set up, as the lock knows it.
    pub(crate) fn setup(&self) -> &Setup {
        &self.kept.settings
    }

    pub(crate) fn nobody_is_enrolled(&self) -> bool {
        self.setup().holders.is_empty()
    }

    pub(crate) fn total(&self, number: u8) -> u32 {
        self.kept.totals.get(&number).copied().unwrap_or_default()
    }

    /// The seconds a penalty still has to run; nought without one.
    pub(crate) fn penalty_left_s(&self) -> u64 {
        self.penalty.as_ref().map_or(0, |penalty| {
            penalty.until_ms.saturating_sub(self.now.uptime_ms).div_ceil(1_000)
        })
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

    /// Everything that follows from the moment and the contacts alone. Of several tries
    /// that fade at once each is a step of its own.
    fn settle(&mut self) {
        self.settle_once();
        while self.fault.is_none() && self.next_to_fade(self.now.uptime_ms).is_some() {
            self.settle_once();
        }
    }

    fn settle_once(&mut self) {
        self.compare_clock();
        if self.fault.is_none() {
            self.settle_clock();
            self.settle_counts();
        }
        let now_ms = self.now.uptime_ms;
        self.duress_until_ms = self.duress_until_ms.filter(|until| *until > now_ms);
        self.tamper_until_ms = self.tamper_until_ms.filter(|until| *until > now_ms);
        self.tested_until_ms = self.tested_until_ms.filter(|until| *until > now_ms);
        self.quiet_wakes_ms.retain(|at| *at > now_ms);
        self.settle_access();
        if self.desk.times_out_ms().is_some_and(|at| at <= now_ms) {
            self.desk = Desk::Rest;
        }
        // These come when no other write is under way.
        if self.fault.is_none() && self.next_to_fade(now_ms).is_none() {
            self.settle_way_out();
            self.settle_file();
            self.settle_reset();
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
        moments.extend(self.fades_ms.values().flatten());
        moments.extend(self.eases_ms);
        moments.extend(self.duress_until_ms);
        moments.extend(self.tamper_until_ms);
        moments.extend(self.tested_until_ms);
        moments.extend(self.desk.times_out_ms());
        moments.extend(self.notice.as_ref().map(|notice| notice.until_ms));
        moments.extend(self.first.as_ref().map(|first| first.until_ms));
        moments.extend(self.hand.as_ref().map(|hand| hand.until_ms));
        moments.extend(self.access.until_ms());
        if self.access.is_wait() {
            moments.extend(self.vouched_until_ms.values());
        }
        moments.extend(self.compared.map(|(at, _)| at + DAY_MS));
        moments.extend([self.settles_ms, self.corrections_over_ms].into_iter().flatten());
        moments.extend([self.way_out_ms, self.reset_ms].into_iter().flatten());
        moments.extend(self.countdown_turns_ms());
        moments.extend(self.access.permit_end().and_then(|utc| self.uptime_of_utc(utc)));
        let file = self.setup().file.as_ref().map(|file| file.until);
        for steady in [self.held(), file].into_iter().flatten() {
            moments.extend(self.uptime_of_steady(steady));
        }
        moments.into_iter().filter(|at| *at > now_ms).min()
    }

    /// Whether that number is the first of two, or one of those who wait for a delay.
    pub(crate) fn is_involved(&self, number: u8) -> bool {
        let first = self.first.as_ref().is_some_and(|first| first.person.number == number);
        first || self.access.wait().is_some_and(|wait| wait.numbers().contains(&number))
    }

    /// When what the screen shows of a length that runs changes. What is not on the
    /// screen wakes nothing.
    fn countdown_turns_ms(&self) -> Option<u64> {
        let screen = self.screen();
        let (until_ms, unit_ms) = if screen.starts_with("penalty") {
            (self.penalty.as_ref()?.until_ms, 60_000)
        } else if screen.starts_with("waiting") || screen.starts_with("claimable") {
            (self.access.until_ms()?, 60_000)
        } else if screen.starts_with("way out") {
            (self.way_out_ms?, HOUR_MS)
        } else {
            return None;
        };
        Some(turns(self.now.uptime_ms, until_ms, unit_ms))
    }

    /// Writes a record; false, and service, if the store fails.
    pub(crate) fn record(&mut self, record: Record) -> bool {
        self.record_at(record, self.utc())
    }

    /// The same with another time than that of the clock.
    pub(crate) fn record_at(&mut self, record: Record, utc: Option<i64>) -> bool {
        let record = Record { utc, ..record };
        if !self.store_takes_one() {
            return false;
        }
        self.show_record(&record);
        self.written.record(record.clone());
        self.kept.record(record);
        true
    }

    fn show_record(&mut self, record: &Record) {
        self.seen.writes.push(format!("record {record}"));
        self.seen.records.push(record.clone());
    }

    /// Writes a tally entry, which holds in memory at once; false, and
    /// service, if the store fails.
    pub(crate) fn tally(&mut self, entry: &Tally) -> bool {
        self.kept.add(entry);
        if !self.store_takes_one() {
            return false;
        }
        self.written.add(entry);
        self.seen.writes.push(format!("tally {entry}"));
        self.seen.tallies.push(entry.to_string());
        true
    }

    /// Writes a change of the settings with its record, whole or not at all,
    /// and looks at what follows from it.
    pub(crate) fn edit(&mut self, settings: Setup, record: Record) -> bool {
        let record = Record { utc: self.utc(), ..record };
        if !self.store_takes_one() {
            return false;
        }
        self.show_record(&record);
        for side in [&mut self.written, &mut self.kept] {
            side.settings = settings.clone();
            side.record(record.clone());
        }
        true
    }

    fn store_takes_one(&mut self) -> bool {
        if self.kept.flash != Flash::Ours {
            return false;
        }
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
        self.reset_ms = None;
        if self.access.is_wait() {
            self.access = Access::Secured;
        }
    }

    pub(crate) fn ajar(&self) -> bool {
        self.sensors.bolt_drawn || self.sensors.door_open
    }

    pub(crate) fn zone(&self) -> Zone {
        Zone::new(&self.setup().calendar.zone)
    }

    /// What is in force: while a file waits, only what both open.
    pub(crate) fn hours(&self) -> Hours<'_> {
        let waiting = self.setup().file.as_ref().map(|file| &file.calendar);
        Hours { calendar: &self.setup().calendar, waiting }
    }

    /// The uptime at which a chip that runs true will read `utc`.
    fn uptime_of_utc(&self, utc: i64) -> Option<u64> {
        let Chip::Reads(reads) = self.now.chip else { return None };
        self.utc()?;
        let ahead = u64::try_from(utc - reads).ok()?;
        Some(self.now.uptime_ms + ahead * 1_000)
    }

    fn uptime_of_steady(&self, steady: i64) -> Option<u64> {
        if self.utc().is_some() {
            return self.uptime_of_utc(self.to_utc(steady));
        }
        let ahead = u64::try_from(steady - self.steady()?).ok()?;
        Some(self.now.uptime_ms + ahead * 1_000)
    }
}

/// When the minutes left until `until_ms`, rounded up, next become fewer.
fn turns(now_ms: u64, until_ms: u64, unit_ms: u64) -> u64 {
    let left = until_ms.saturating_sub(now_ms).div_ceil(unit_ms);
    until_ms - left.saturating_sub(1) * unit_ms
}
