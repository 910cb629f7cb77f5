//! What a dialogue does at its last *OK*: one change, whole, with its record.

use super::durable::{Durable, Flash, Tally};
use super::forms::{Form, Page};
use super::lock::Model;
use super::seen::Record;
use super::setup::{Follows, Holder, Role, Setup};

/// What comes of the last *OK*.
pub(crate) enum Outcome {
    /// With the notice that says what was changed.
    Done(String),
    /// A write failed: the lock is in service.
    Failed,
    Refused(&'static str),
    Asks(Page),
}

/// A change of the settings as it would be made now.
pub(crate) struct Plan {
    pub(crate) settings: Setup,
    pub(crate) record: Record,
    /// From when on it opens, in UTC, if not at once.
    pub(crate) from: Option<i64>,
    /// Whose total and share become 0.
    pub(crate) clears: Option<u8>,
}

impl Model {
    /// Whether a task that asks for nothing can be done at all.
    pub(crate) fn may_begin(&self, form: &Form) -> Result<(), &'static str> {
        match form.task {
            "hold-shut" => self.hold_end(form.by).map(|_| ()).ok_or("no-start"),
            "way-out" => self.may_ask_for_a_way_out(),
            _ => Ok(()),
        }
    }

    /// Whether what has been given can be done, short of what must stand at
    /// the last *OK*.
    pub(crate) fn ready(&self, form: &Form) -> Result<(), &'static str> {
        let Some(plan) = self.plan(form)? else {
            return self.may_begin(form);
        };
        let asks = self.sensors.bolt_drawn || form.task == "suspend" || form.task == "reset";
        if !asks && self.makes_stuck(&plan.settings) {
            return Err("stuck");
        }
        Ok(())
    }

    /// The last *OK*: everything is judged anew.
    pub(crate) fn act(&mut self, form: &Form) -> Outcome {
        if let Err(reason) = self.plan(form).map(|_| ()) {
            return Outcome::Refused(reason);
        }
        if let Some(reason) = self.lacks(form) {
            return Outcome::Refused(reason);
        }
        if self.second_for(form).is_some() && form.second.is_none() {
            // It has come to take one.
            return Outcome::Refused(if form.task == "set-clock" {
                "out-of-bounds"
            } else {
                "second"
            });
        }
        if let Err(reason) = self.ready(form) {
            return Outcome::Refused(reason);
        }
        match form.task {
            "hold-shut" => self.hold_shut(form),
            "test-alarm" => self.test_alarm(form),
            "way-out" => self.begin_way_out(form),
            "slow-reset" => self.begin_reset(),
            "set-clock" => {
                let target = form.draft.instants[0];
                match self.set_clock(form.by, form.second, target) {
                    true => Outcome::Done("done set-clock".to_owned()),
                    false => Outcome::Failed,
                }
            }
            "first-warden" => self.commission(form),
            _ => self.change(form),
        }
    }

    fn change(&mut self, form: &Form) -> Outcome {
        let plan = match self.plan(form) {
            Ok(Some(plan)) => plan,
            Ok(None) => unreachable!("a task that changes something"),
            Err(reason) => return Outcome::Refused(reason),
        };
        let exempt = form.task == "reset" || form.page == Page::OnceMore;
        if !exempt && self.makes_stuck(&plan.settings) {
            return Outcome::Asks(Page::OnceMore);
        }
        let about = plan.record.about;
        if form.task == "reset" {
            let done = self.edit(plan.settings, plan.record) && self.after_reset();
            return if done { Outcome::Done("done reset".to_owned()) } else { Outcome::Failed };
        }
        if !self.carry_out(plan.settings, plan.record, plan.clears) {
            return Outcome::Failed;
        }
        // A change that waits: the next opening brings it forward.
        if plan.from.is_some() {
            self.brings = self.steady().map(|steady| steady + 1);
        }
        let about = about.map_or_else(String::new, |number| format!(" {number:02}"));
        Outcome::Done(format!("done {}{about}{}", form.task, self.from(plan.from)))
    }

    fn from(&self, utc: Option<i64>) -> String {
        utc.map_or_else(String::new, |utc| format!(" from={}", self.zone().text(utc)))
    }

    /// Writes a change, and whatever follows from it.
    pub(crate) fn carry_out(
        &mut self,
        settings: Setup,
        record: Record,
        clears: Option<u8>,
    ) -> bool {
        if !self.edit(settings, record) {
            return false;
        }
        if let Some(number) = clears {
            self.clear(number);
        }
        self.decide_people_anew();
        self.look_whether_set_up();
        true
    }

    fn hold_end(&self, number: u8) -> Option<i64> {
        const AHEAD_S: i64 = 31 * 86_400;
        let utc = self.utc()?;
        let start = match self.setup().holder(number)?.follows {
            Follows::Always => self.hours().next_start_of_any(utc),
            Follows::Timetable(timetable) => self.hours().next_start(timetable, utc),
        };
        let end = self.to_steady(start.filter(|start| *start <= utc + AHEAD_S)?);
        Some(self.held().map_or(end, |running| running.max(end)))
    }

    /// Until when a hold-shut would last, in UTC.
    pub(crate) fn hold_until(&self, number: u8) -> Option<i64> {
        self.hold_end(number).map(|end| self.to_utc(end))
    }

    fn hold_shut(&mut self, form: &Form) -> Outcome {
        let Some(end) = self.hold_end(form.by) else {
            return Outcome::Refused("no-start");
        };
        if form.about != self.about_to(form) {
            return Outcome::Asks(Page::Confirm);
        }
        let until = self.to_utc(end);
        let record = Record::of("held-shut").numbers(&[form.by]).value(until);
        if self.tally(&Tally::HeldShut(end)) && self.record(record) {
            Outcome::Done(format!("done hold-shut{}", self.until(Some(until))))
        } else {
            Outcome::Failed
        }
    }

    fn test_alarm(&mut self, form: &Form) -> Outcome {
        if !self.record(Record::of("alarm-tested").numbers(&[form.by])) {
            return Outcome::Failed;
        }
        let hold_ms = self.setup().policy.alarm_hold_s * 1_000;
        self.tested_until_ms = Some(self.now.uptime_ms + hold_ms);
        Outcome::Done("done test-alarm".to_owned())
    }

    /// The change that a dialogue would make; `None` for a task that changes
    /// no settings.
    pub(crate) fn plan(&self, form: &Form) -> Result<Option<Plan>, &'static str> {
        let mut settings = self.setup().clone();
        let draft = &form.draft;
        let record = |kind: &str| Record::of(kind).numbers(&form.people());
        let number = draft.number.unwrap_or(form.by);
        let plan = |kind: &str| Plan {
            settings: settings.clone(),
            record: record(kind).about(number),
            from: None,
            clears: None,
        };
        Ok(Some(match form.task {
            "change-code" => {
                let mut plan = plan("code-changed");
                let row = plan.settings.holders.get_mut(&number).ok_or("nobody")?;
                row.code = draft.code.clone().ok_or("digits")?;
                plan
            }
            "enrol" | "change-role" | "choose-timetable" | "suspend" | "restore" | "remove" => {
                return self.plan_row(form, number).map(Some);
            }
            "set-policy" => return self.plan_policy(form).map(Some),
            "files" => return self.plan_file(form).map(Some),
            "pair" => {
                let paired = self.make.office.read_pairing_code(&draft.groups).ok_or("mistyped")?;
                if paired.lock != self.make.office.lock() {
                    return Err("other-lock");
                }
                if paired.generation <= settings.last_generation {
                    return Err("not-newer");
                }
                settings.key = Some(paired.generation);
                settings.last_generation = paired.generation;
                // It was sealed under the old key.
                settings.file = None;
                let record = record("paired").value(paired.generation);
                Plan { settings, record, from: None, clears: None }
            }
            "reset" => {
                let record = record("reset");
                Plan { settings: forgotten(&settings), record, from: None, clears: None }
            }
            _ => return Ok(None),
        }))
    }

    fn plan_row(&self, form: &Form, number: u8) -> Result<Plan, &'static str> {
        let mut settings = self.setup().clone();
        let before = settings.holders.get(&number).cloned();
        let record = |kind: &str| Record::of(kind).numbers(&form.people()).about(number);
        let missing = || before.clone().ok_or("nobody");
        let (row, record, clears) = match form.task {
            "enrol" => {
                let role = form.draft.role.ok_or("nobody")?;
                let row = Holder { suspended: false, waits: None, ..self.row_of(form, role) };
                (Some(row), record("enrolled").value(role_number(role)), Some(number))
            }
            "change-role" => {
                let role = form.draft.role.ok_or("nobody")?;
                let row = self.row_of(form, role);
                (Some(row), record("role-changed").value(role_number(role)), None)
            }
            "choose-timetable" => {
                let follows = form.draft.follows.ok_or("no-start")?;
                let row = Holder { follows, ..missing()? };
                (Some(row), record("timetable-chosen").value(follows_number(follows)), None)
            }
            "suspend" => {
                let row = Holder { suspended: true, ..missing()? };
                (Some(row), record("suspended"), None)
            }
            "restore" => {
                let old = missing()?;
                let barred = self.total(number) == super::durable::MOST_FAILURES;
                let code = form.draft.code.clone().unwrap_or_else(|| old.code.clone());
                let row = Holder { suspended: false, code, ..old };
                (Some(row), record("restored"), barred.then_some(number))
            }
            _ => (None, record("removed"), None),
        };
        let mut from = None;
        match row {
            Some(mut row) => {
                let restored = form.task == "restore";
                from = self.when_row(before.as_ref(), &mut row, restored)?;
                settings.holders.insert(number, row);
            }
            None => {
                settings.holders.remove(&number);
            }
        }
        let wardens = |setup: &Setup| {
            setup.holders.values().any(|row| row.role == Role::Warden && !row.suspended)
        };
        if wardens(self.setup()) && !wardens(&settings) {
            return Err("last-warden");
        }
        Ok(Plan { settings, record, from, clears })
    }

    fn plan_policy(&self, form: &Form) -> Result<Plan, &'static str> {
        let (key, value) = form.draft.key.zip(form.draft.value).ok_or("out-of-bounds")?;
        let mut settings = self.setup().clone();
        settings.policy = settings.policy.with(key, value);
        let unit = settings.policy.value(key);
        let from = self.when_policy(&mut settings)?;
        let record = Record::of("policy-set").numbers(&form.people()).value(unit).why(key);
        Ok(Plan { settings, record, from, clears: None })
    }

    /// The first warden; what is on the flash beside our own layout is erased.
    fn commission(&mut self, form: &Form) -> Outcome {
        let (Some(number), Some(code)) = (form.draft.number, form.draft.code.clone()) else {
            return Outcome::Refused("nobody");
        };
        let doubted = self.kept.flash != Flash::Ours && self.kept.clock_doubt;
        if self.kept.flash != Flash::Ours {
            let settings = Setup::factory(&self.setup().calendar.zone);
            let fresh = Durable::new(settings, Flash::Ours);
            self.kept = fresh.clone();
            self.written = fresh;
            self.kept.clock_doubt = doubted;
        }
        self.way_out_ms = None;
        let mut settings = self.setup().clone();
        let row = Holder {
            number,
            role: Role::Warden,
            code,
            follows: Follows::Always,
            opens: false,
            suspended: false,
            waits: None,
        };
        settings.holders.insert(number, row);
        let record = Record::of("commissioned").about(number);
        let doubt = Tally::ClockDoubt(self.steady());
        if self.carry_out(settings, record, Some(number)) && (!doubted || self.tally(&doubt)) {
            Outcome::Done(format!("done first-warden {number:02}"))
        } else {
            Outcome::Failed
        }
    }

    fn begin_reset(&mut self) -> Outcome {
        const SLOW_MS: u64 = super::lock::DAY_MS;
        if !self.record(Record::of("reset-begun")) {
            return Outcome::Failed;
        }
        self.reset_ms = Some(self.now.uptime_ms + SLOW_MS);
        Outcome::Done("done slow-reset".to_owned())
    }

    /// A reset without a code: the bolt must stay drawn and the switch on.
    pub(crate) fn settle_reset(&mut self) {
        let Some(at_ms) = self.reset_ms else { return };
        if !self.sensors.bolt_drawn || !self.sensors.switch_on {
            self.reset_ms = None;
            self.record(Record::of("reset-cancelled"));
        } else if at_ms <= self.now.uptime_ms && !self.stands_at_a_last_page() {
            self.reset_ms = None;
            let settings = forgotten(self.setup());
            if self.edit(settings, Record::of("reset")) {
                self.after_reset();
            }
        }
    }

    fn after_reset(&mut self) -> bool {
        self.reset_ms = None;
        self.way_out_ms = None;
        self.desk = super::typing::Desk::Rest;
        if self.ajar() {
            let since_ms = match &self.access {
                super::access::Access::Open { since_ms, .. } => *since_ms,
                _ => self.now_ms(),
            };
            self.access = super::access::Access::opened_by_nobody(since_ms);
        }
        self.tally(&Tally::SettingUp)
    }

    /// What becomes due while a dialogue stands at its last page waits for it.
    pub(crate) fn stands_at_a_last_page(&self) -> bool {
        self.desk.form().is_some_and(Form::is_at_its_last_page)
    }
}

/// "Everybody and everything is forgotten but audit, sequence, counts, zone
/// and the last generation of the pairing key."
fn forgotten(settings: &Setup) -> Setup {
    let last_generation = settings.last_generation;
    Setup { last_generation, ..Setup::factory(&settings.calendar.zone) }
}

fn role_number(role: Role) -> u8 {
    match role {
        Role::Warden => 1,
        Role::Deputy => 2,
        Role::Keyholder => 3,
        Role::Courier => 4,
        Role::Steward => 5,
    }
}

/// 0 always, 1 to 8 A to H.
fn follows_number(follows: Follows) -> usize {
    match follows {
        Follows::Always => 0,
        Follows::Timetable(timetable) => timetable + 1,
    }
}
