//! A try (section 3) and the penalty it may bring (section 4).

use super::lock::{DAY_MS, Model, Penalty};
use super::seen::Record;
use super::setup::{Follows, Role, may, may_open};
use super::typing::{Asked, Desk, Task};

const MOST_FAILURES: u32 = 100;
const WARDEN_TRIES_A_DAY: u32 = 4;
const JUDGED_IN_A_PENALTY: u32 = 8;

/// Why a right code gets nothing, and until when if that is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Refusal {
    pub(crate) why: &'static str,
    pub(crate) until: Option<i64>,
}

pub(crate) fn because(why: &'static str) -> Refusal {
    Refusal { why, until: None }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Verdict {
    Wrong,
    Right,
    Duress,
}

impl Model {
    pub(crate) fn try_code(&mut self, asked: Asked, digits: &str) {
        let (number, code) = split(digits);
        let barred = self.is_barred(number);
        *self.tries_today.entry(number).or_default() += 1;
        let total = self.kept.totals.entry(number).or_default();
        *total = (*total + 1).min(MOST_FAILURES);
        *self.kept.shares.entry(number).or_default() += 1;
        if !self.tally(&format!("counted {number:02}")) {
            return;
        }
        self.note_judged();
        let outcome = match self.verdict(number, code) {
            Verdict::Wrong => return self.wrong(number, barred),
            Verdict::Right => "plain",
            Verdict::Duress => "duress",
        };
        if let Err(refusal) = self.admit(asked, number, barred) {
            return self.refuse(number, outcome, refusal);
        }
        match asked {
            Asked::Open => self.ask_to_open(number, outcome),
            Asked::Task("hold-shut") => self.hold_shut(number, outcome),
            Asked::Task("status") => self.tell_status(number, outcome),
            Asked::Task(task) => self.begin(task, number, outcome),
        }
    }

    /// A well-formed entry in a penalty.
    pub(crate) fn try_in_the_dark(&mut self, digits: &str) {
        let (number, code) = split(digits);
        let Some(penalty) = &mut self.penalty else {
            return;
        };
        if penalty.judged >= JUDGED_IN_A_PENALTY {
            return;
        }
        penalty.judged += 1;
        self.note_judged();
        let outcome = match self.verdict(number, code) {
            Verdict::Wrong | Verdict::Right => "plain",
            Verdict::Duress => "duress",
        };
        self.record_code("refused-penalty", &[number], outcome, None);
    }

    fn verdict(&self, number: u8, code: &str) -> Verdict {
        let Some(holder) = self.setup.holder(number) else {
            return Verdict::Wrong;
        };
        if holder.code == code {
            Verdict::Right
        } else if self.setup.policy.duress && duress_variant(&holder.code) == code {
            Verdict::Duress
        } else {
            Verdict::Wrong
        }
    }

    fn wrong(&mut self, number: u8, barred: bool) {
        if !self.record(Record::of("wrong-code").numbers(&[number])) {
            return;
        }
        self.seen.sounds.push("refused");
        self.fades_ms = Some(self.now.uptime_ms + DAY_MS);
        if !self.punish_at_limit() {
            let left = self.setup.policy.wrong_codes - self.kept.lock_count();
            self.notify(match barred {
                true => "refused barred".to_owned(),
                false => format!("wrong code left={left}"),
            });
        }
    }

    /// The order of section 3, step 4, before the one judge.
    fn admit(&self, asked: Asked, number: u8, barred: bool) -> Result<(), Refusal> {
        let holder = self.setup.holder(number).expect("a code was right");
        let allowed = match asked {
            Asked::Open => may_open(holder),
            Asked::Task(task) => may(holder.role, task),
        };
        if barred {
            Err(because("barred"))
        } else if holder.suspended {
            Err(because("suspended"))
        } else if !allowed {
            Err(because("right"))
        } else if asked == Asked::Open && self.access.is_released_or_open() {
            Err(because("already-open"))
        } else {
            Ok(())
        }
    }

    /// For a try that is not counted yet.
    pub(crate) fn is_barred(&self, number: u8) -> bool {
        let total = self.total(number);
        let warden = self.setup.holder(number).is_some_and(|holder| holder.role == Role::Warden);
        let tries = self.tries_today.get(&number).copied().unwrap_or_default();
        total == MOST_FAILURES && (!warden || self.day == 0 || tries >= WARDEN_TRIES_A_DAY)
    }

    pub(crate) fn refuse(&mut self, number: u8, outcome: &'static str, refusal: Refusal) {
        let kind = format!("refused-{}", refusal.why);
        if !self.record_code(&kind, &[number], outcome, None) {
            return;
        }
        self.seen.sounds.push("refused");
        if refusal.why == "barred" {
            self.fades_ms = Some(self.now.uptime_ms + DAY_MS);
            if self.punish_at_limit() {
                return;
            }
        } else {
            self.clear(number);
        }
        self.notify(format!("refused {}{}", refusal.why, self.until(refusal.until)));
    }

    /// The record of a right or duress code; the alarm follows it, written or
    /// not.
    pub(crate) fn record_code(
        &mut self,
        kind: &str,
        numbers: &[u8],
        outcome: &'static str,
        value: Option<i64>,
    ) -> bool {
        let record = Record { value, ..Record::of(kind).numbers(numbers).outcome(outcome) };
        let written = self.record(record);
        if outcome == "duress" {
            self.raise();
        }
        written
    }

    fn raise(&mut self) {
        let hold_ms = self.setup.policy.alarm_hold_s * 1_000;
        self.duress_until_ms = Some(self.now.uptime_ms + hold_ms);
    }

    pub(crate) fn clear(&mut self, number: u8) {
        self.kept.totals.remove(&number);
        self.kept.shares.remove(&number);
        self.tally(&format!("cleared {number:02}"));
    }

    fn hold_shut(&mut self, number: u8, outcome: &'static str) {
        let holder = self.setup.holder(number).expect("a code was right");
        let timetables = match holder.follows {
            Follows::Always => 0..4,
            Follows::Timetable(timetable) => timetable..timetable + 1,
        };
        let start = self.utc().and_then(|utc| {
            timetables.filter_map(|timetable| self.hours().next_start(timetable, utc)).min()
        });
        let Some(start) = start else {
            return self.refuse(number, outcome, because("hold"));
        };
        let end = self.held_until.map_or(start, |running| running.max(start));
        if !self.tally(&format!("held-shut ={end}")) {
            if outcome == "duress" {
                self.raise();
            }
            return;
        }
        self.kept.held_until = Some(end);
        self.held_until = Some(end);
        if self.record_code("held-shut", &[number], outcome, Some(end)) {
            self.seen.sounds.push("accepted");
            self.clear(number);
            self.notify(format!("hold set{}", self.until(Some(end))));
        }
    }

    /// A right code begins a task's dialogue.
    fn begin(&mut self, task: Task, number: u8, outcome: &'static str) {
        let record = Record::of("asked").numbers(&[number]).outcome(outcome).why(task);
        let written = self.record(record);
        if outcome == "duress" {
            self.raise();
        }
        if written {
            self.seen.sounds.push("key");
            self.begin_dialogue(task);
            self.clear(number);
        }
    }

    fn tell_status(&mut self, number: u8, outcome: &'static str) {
        if self.record_code("status", &[number], outcome, None) {
            self.seen.sounds.push("accepted");
            self.clear(number);
            let supply =
                self.supply_mv.map_or_else(|| "unknown".to_owned(), |mv| format!("{mv}mV"));
            let clock = self.utc().map_or_else(|| "invalid".to_owned(), |utc| self.zone.text(utc));
            self.notify(format!("status supply={supply} clock={clock}"));
        }
    }

    /// Starts a penalty if the lock's count has reached the limit.
    pub(crate) fn punish_at_limit(&mut self) -> bool {
        let policy = &self.setup.policy;
        if self.kept.lock_count() < policy.wrong_codes {
            return false;
        }
        let doubled = (0..self.kept.step)
            .fold(policy.penalty_s, |length, _| (length * 2).min(policy.penalty_cap_s));
        let length_s = doubled.min(policy.penalty_cap_s);
        self.kept.shares.clear();
        self.kept.step += 1;
        self.kept.penalty_s = Some(length_s);
        self.notice = None;
        self.desk = Desk::Rest;
        let until_ms = self.now.uptime_ms + length_s * 1_000;
        self.penalty = Some(Penalty { until_ms, judged: 0 });
        if self.tally("penalty") {
            self.record(Record::of("penalty").value(length_s));
        }
        true
    }

    /// Any judged try keeps a duress alarm up, and wakes the lock later.
    fn note_judged(&mut self) {
        let hold_ms = self.setup.policy.alarm_hold_s * 1_000;
        let until_ms = self.now.uptime_ms + hold_ms;
        self.duress_until_ms = self.duress_until_ms.map(|_| until_ms);
        self.quiet_wakes_ms.push(until_ms);
    }
}

fn split(digits: &str) -> (u8, &str) {
    let (number, code) = digits.split_at(2);
    (number.parse().expect("two digits"), code)
}

/// The last digit plus one, modulo ten.
pub(crate) fn duress_variant(code: &str) -> String {
    let (front, last) = code.split_at(code.len() - 1);
    let last: u8 = last.parse().expect("a digit");
    format!("{front}{}", (last + 1) % 10)
}
