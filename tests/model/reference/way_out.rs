//! No dead end (R11, section 13): who could open, who may still enrol, being
//! set up, and a way out of a lock that is stuck.

use super::change::Outcome;
use super::durable::Tally;
use super::forms::Form;
use super::lock::{DAY_MS, HOUR_MS, Model};
use super::seen::Record;
use super::setup::{Follows, Role, Setup, TIMETABLES};
use super::windows::{DATES_AHEAD, Hours};

const DATES: i64 = 400;
const DAY_S: i64 = 86_400;

impl Model {
    /// The instant that counts as now: by a valid clock, or by one that a
    /// warden and a steward may set.
    fn today(&self, setup: &Setup) -> Option<i64> {
        if let Some(utc) = self.utc() {
            return Some(utc);
        }
        let there = |role| !self.able_privileged(setup, Some(role)).is_empty();
        let may_be_set = there(Role::Warden) && there(Role::Steward);
        let now = self.steady().map_or(self.make.built, |steady| self.to_utc(steady));
        may_be_set.then_some(now)
    }

    pub(crate) fn somebody_could_open(&self, setup: &Setup) -> bool {
        let needed = if setup.policy.dual_control { 2 } else { 1 };
        let delay_s = i64::try_from(setup.policy.delay_s).expect("at most 99 minutes");
        let able = setup.holders.values().filter(|holder| self.is_able(holder));
        let openers: Vec<Follows> = able.filter_map(|holder| holder.grants()).collect();
        let always = openers.iter().filter(|follows| **follows == Follows::Always).count();
        if always >= needed {
            return true;
        }
        let Some(now) = self.today(setup) else { return false };
        let hours = Hours::of(setup.last_calendar());
        let followed: Vec<(usize, usize)> = (0..TIMETABLES)
            .map(|timetable| {
                let follows = Follows::Timetable(timetable);
                (timetable, openers.iter().filter(|it| **it == follows).count())
            })
            .filter(|(_, people)| *people > 0)
            .collect();
        let spans: Vec<_> = followed
            .iter()
            .map(|(timetable, people)| {
                let spans = hours.spans(*timetable, now - DAY_S, now + (DATES + 3) * DAY_S);
                (spans, *people)
            })
            .collect();
        let mut instants = vec![now];
        for (timetable, _) in &followed {
            instants.extend(hours.starts(*timetable, now, DATES).iter().map(|span| span.0));
        }
        instants.into_iter().any(|instant| {
            let long = |span: &(i64, i64)| span.0 <= instant && span.1 - instant > delay_s;
            let there = spans.iter().filter(|(spans, _)| spans.iter().any(long));
            always + there.map(|(_, people)| people).sum::<usize>() >= needed
        })
    }

    fn somebody_may_enrol(&self, setup: &Setup) -> bool {
        let wardens = self.able_privileged(setup, Some(Role::Warden)).len();
        let privileged = self.able_privileged(setup, None).len();
        if wardens == 0 || (setup.policy.dual_control && privileged < 2) {
            return false;
        }
        let delay_s = i64::try_from(setup.policy.delay_s).expect("at most 99 minutes");
        let Some(now) = self.today(setup) else { return false };
        let hours = Hours::of(setup.last_calendar());
        (0..TIMETABLES).any(|timetable| {
            let starts = hours.starts(timetable, now, DATES_AHEAD);
            starts.iter().any(|span| span.1 - span.0 > delay_s)
        })
    }

    /// Nobody could open, and nobody may enrol.
    pub(crate) fn is_stuck(&self, setup: &Setup) -> bool {
        !self.somebody_could_open(setup) && !self.somebody_may_enrol(setup)
    }

    pub(crate) fn makes_stuck(&self, new: &Setup) -> bool {
        self.is_stuck(new) && !self.is_stuck(self.setup())
    }

    /// Being set up is over, for good, once somebody could open.
    pub(crate) fn look_whether_set_up(&mut self) {
        if self.kept.setting_up && self.somebody_could_open(self.setup()) {
            self.tally(&Tally::SetUp);
        }
    }

    pub(crate) fn may_ask_for_a_way_out(&self) -> Result<(), &'static str> {
        if self.kept.setting_up || self.kept.way_out.is_some() {
            Err("already")
        } else if !self.is_stuck(self.setup()) {
            Err("not-stuck")
        } else {
            Ok(())
        }
    }

    pub(crate) fn begin_way_out(&mut self, form: &Form) -> Outcome {
        let people = form.people();
        let record = Record::of("way-out-begun").numbers(&people);
        self.way_out_ms = Some(self.now.uptime_ms + way_out_ms(form.alone));
        if self.record(record) && self.tally(&Tally::WayOut(people, form.alone)) {
            Outcome::Done("done way-out".to_owned())
        } else {
            Outcome::Failed
        }
    }

    /// The code of a privileged person who did not ask for it ends a way out.
    pub(crate) fn end_way_out(&mut self, number: u8) {
        let Some((people, _)) = &self.kept.way_out else { return };
        let privileged =
            self.setup().holder(number).is_some_and(|holder| holder.role.is_privileged());
        if !privileged || people.contains(&number) || self.fault.is_some() {
            return;
        }
        self.way_out_ms = None;
        if self.tally(&Tally::WayOutOver) {
            self.record(Record::of("way-out-ended").numbers(&[number]));
        }
    }

    /// The 72nd hour, or the end of the 14th day.
    pub(crate) fn settle_way_out(&mut self) {
        let due = self.way_out_ms.is_some_and(|at| at <= self.now.uptime_ms);
        if !due || self.nobody_is_enrolled() || self.stands_at_a_last_page() {
            return;
        }
        self.way_out_ms = None;
        if self.is_stuck(self.setup()) {
            if self.record(Record::of("way-out")) {
                self.tally(&Tally::SettingUp);
            }
        } else if self.tally(&Tally::WayOutOver) {
            self.record(Record::of("way-out-ended"));
        }
    }
}

/// How long a way out takes: with both people or the only one, or without the
/// other one.
pub(crate) fn way_out_ms(alone: bool) -> u64 {
    if alone { 14 * DAY_MS } else { 72 * HOUR_MS }
}
