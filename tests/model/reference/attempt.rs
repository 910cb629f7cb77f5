//! A try (section 3), and entries in a penalty (section 4).

use super::access::Person;
use super::durable::{MOST_FAILURES, Tally};
use super::forms::Page;
use super::judge::{Refusal, because};
use super::lock::Model;
use super::policy::Deputies;
use super::seen::Record;
use super::setup::{Holder, Role};
use super::typing::{Asked, Desk, FEWEST_DIGITS, Task};

const JUDGED_IN_A_PENALTY: u32 = 8;
/// How many counters of a courier's one-time codes are looked at.
const LOOK_AHEAD: u32 = 10;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Verdict {
    Wrong,
    Right,
    Duress,
}

impl Model {
    /// Judges a try up to the point where what was asked is done. What is let
    /// through has no record yet, and its count still stands.
    pub(crate) fn try_code(
        &mut self,
        asked: &Asked,
        digits: &str,
    ) -> Option<(Person, &'static str)> {
        let (number, code) = split(digits);
        let barred = self.is_barred(number);
        let past_limit = self.total(number) == MOST_FAILURES;
        if !self.count(number) {
            return None;
        }
        self.note_judged();
        let (verdict, counter) = self.verdict(number, code);
        let outcome = match verdict {
            Verdict::Wrong => {
                self.wrong(number, past_limit);
                return None;
            }
            Verdict::Right => "plain",
            Verdict::Duress => "duress",
        };
        let admitted = self.admit(asked, number, barred);
        let let_by = match &admitted {
            Ok(()) => true,
            Err(refusal) => !["barred", "suspended"].contains(&refusal.why),
        };
        if let_by && self.is_privileged(number) {
            let limit_ms = self.setup().policy.dual_limit_s * 1_000;
            self.vouched_until_ms.insert(number, self.now.uptime_ms + limit_ms);
        }
        match admitted {
            Ok(()) => Some((Person { number, counter }, outcome)),
            Err(refusal) => {
                self.refuse(number, outcome, refusal);
                if let_by {
                    self.end_way_out(number);
                }
                None
            }
        }
    }

    fn is_privileged(&self, number: u8) -> bool {
        self.setup().holder(number).is_some_and(|holder| holder.role.is_privileged())
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
        let verdict = self.verdict(number, code).0;
        let outcome = if verdict == Verdict::Duress { "duress" } else { "plain" };
        let written = self.record_code("refused-penalty", &[number], outcome);
        let suspended = self.setup().holder(number).is_none_or(|holder| holder.suspended);
        let barred = self.is_barred(number);
        if written && verdict != Verdict::Wrong && !suspended && !barred {
            self.end_way_out(number);
        }
    }

    /// What stands in an entry that *OK* would have judged, and what it is for: the
    /// name of a task of the list, `open`, `second` or `penalty`.
    pub(crate) fn entry(&self) -> Option<(Task, &str)> {
        let (asked, digits) = match &self.desk {
            Desk::Entry { asked: Asked::Open, digits, .. } => ("open", digits),
            Desk::Entry { asked: Asked::Task(task), digits, .. } => (*task, digits),
            Desk::Entry { asked: Asked::Second(_), digits, .. } => ("second", digits),
            Desk::Form(form) if form.page == Page::Second => ("second", &form.typed),
            Desk::Form(_) | Desk::Rest | Desk::TooLong { .. } | Desk::List { .. } => return None,
        };
        let asked = if self.penalty.is_some() { "penalty" } else { asked };
        (digits.len() >= FEWEST_DIGITS).then_some((asked, digits))
    }

    /// Whether those digits would now be judged as under duress, and by which
    /// one-time code; `None`: they are wrong.
    pub(crate) fn judged(&self, digits: &str) -> Option<(bool, Option<u32>)> {
        let (number, code) = split(digits);
        match self.verdict(number, code) {
            (Verdict::Wrong, _) => None,
            (Verdict::Right, counter) => Some((false, counter)),
            (Verdict::Duress, counter) => Some((true, counter)),
        }
    }

    fn verdict(&self, number: u8, code: &str) -> (Verdict, Option<u32>) {
        let Some(holder) = self.setup().holder(number) else {
            return (Verdict::Wrong, None);
        };
        if holder.role == Role::Courier {
            return self.one_time_verdict(number, code);
        }
        (self.compare(&holder.code, code), None)
    }

    fn compare(&self, right: &str, code: &str) -> Verdict {
        if right == code {
            Verdict::Right
        } else if self.setup().policy.duress && duress_variant(right) == code {
            Verdict::Duress
        } else {
            Verdict::Wrong
        }
    }

    /// The code of the courier's counter or of one of the nine behind it; in a
    /// wait that it began, that code and no other.
    fn one_time_verdict(&self, number: u8, code: &str) -> (Verdict, Option<u32>) {
        let Some(generation) = self.setup().key else {
            return (Verdict::Wrong, None);
        };
        let began = self.access.wait().and_then(|wait| {
            wait.people.iter().find(|person| person.number == number).and_then(|it| it.counter)
        });
        let next = self.setup().counters.get(&number).copied().unwrap_or_default();
        let counters = match began {
            Some(counter) => counter..counter + 1,
            None => next..next + LOOK_AHEAD,
        };
        for counter in counters {
            if self.is_left_out(generation, number, counter) {
                continue;
            }
            let right = self.make.office.one_time_code(generation, number, counter);
            let verdict = self.compare(&right, code);
            if verdict != Verdict::Wrong {
                return (verdict, Some(counter));
            }
        }
        (Verdict::Wrong, None)
    }

    /// "Both sides leave out a counter whose code or duress variant is easy to
    /// guess, or is the code or variant of one of the nine counters before it."
    pub(crate) fn is_left_out(&self, generation: u32, number: u8, counter: u32) -> bool {
        let office = &self.make.office;
        let both = |counter| {
            let code = office.one_time_code(generation, number, counter);
            let variant = duress_variant(&code);
            [code, variant]
        };
        let here = both(counter);
        here.iter().any(|code| office.is_easy(code))
            || (counter.saturating_sub(LOOK_AHEAD - 1)..counter)
                .any(|earlier| both(earlier).iter().any(|code| here.contains(code)))
    }

    fn wrong(&mut self, number: u8, past_limit: bool) {
        if !self.record(Record::of("wrong-code").numbers(&[number])) {
            return;
        }
        self.seen.sounds.push("refused");
        if !self.punish_at_limit() {
            let left = self.setup().policy.wrong_codes - self.kept.lock_count();
            self.notify(match past_limit {
                true => "refused barred".to_owned(),
                false => format!("wrong code left={left}"),
            });
        }
    }

    /// The order of section 3, step 4, before the one judge.
    fn admit(&self, asked: &Asked, number: u8, barred: bool) -> Result<(), Refusal> {
        let holder = self.setup().holder(number).expect("a code was right");
        if barred {
            return Err(because("barred"));
        }
        if holder.suspended {
            return Err(because("suspended"));
        }
        match asked {
            Asked::Open if !holder.may_open() => Err(because("right")),
            Asked::Open if self.access.is_released_or_open() => Err(because("already-open")),
            Asked::Open => self.row_waits(holder),
            Asked::Task(task) if !self.may(holder, task) => Err(because("right")),
            Asked::Task("hold-shut") if self.hold_until(number).is_none() => Err(because("hold")),
            Asked::Task(_) => Ok(()),
            Asked::Second(kind) if kind.by == number => Err(because("same-person")),
            Asked::Second(kind) if !kind.takes(holder) => Err(because("right")),
            Asked::Second(_) => Ok(()),
        }
    }

    /// The table of section 11, for the tasks of the list.
    pub(crate) fn may(&self, holder: &Holder, task: Task) -> bool {
        use Role::{Courier, Deputy, Keyholder, Steward, Warden};
        let deputies = self.in_force().deputies;
        let deputy_may = |least: Deputies| holder.role == Deputy && deputies >= least;
        match task {
            "status" => true,
            "hold-shut" => matches!(holder.role, Warden | Deputy | Keyholder),
            "change-code" => holder.role != Courier,
            "suspend" | "numbers" => matches!(holder.role, Warden | Deputy),
            "remove" => holder.role == Warden || deputy_may(Deputies::Remove),
            "enrol" | "restore" | "choose-timetable" => {
                holder.role == Warden || deputy_may(Deputies::Enrol)
            }
            "files" | "set-clock" => holder.role == Steward,
            "pair" | "way-out" => holder.role.is_privileged(),
            "change-role" | "set-policy" | "test-alarm" | "reset" => holder.role == Warden,
            unknown => panic!("no such task: {unknown}"),
        }
    }

    pub(crate) fn refuse(&mut self, number: u8, outcome: &'static str, refusal: Refusal) {
        let kind = format!("refused-{}", refusal.why);
        if !self.record_code(&kind, &[number], outcome) {
            return;
        }
        self.seen.sounds.push("refused");
        if refusal.why == "barred" {
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
    ) -> bool {
        self.record_with_outcome(Record::of(kind).numbers(numbers), outcome)
    }

    pub(crate) fn record_with_outcome(&mut self, record: Record, outcome: &'static str) -> bool {
        let written = self.record(record.outcome(outcome));
        if outcome == "duress" {
            self.raise();
        }
        written
    }

    /// The end of a hold that an earlier try began, under duress or not, is not brought
    /// forward.
    pub(crate) fn raise(&mut self) {
        let until_ms = self.now.uptime_ms + self.setup().policy.alarm_hold_s * 1_000;
        let held_ms = self.quiet_wakes_ms.iter().copied().max();
        self.duress_until_ms = held_ms.max(Some(until_ms));
    }

    /// A right code begins a task's dialogue.
    pub(crate) fn record_asked(&mut self, task: Task, number: u8, outcome: &'static str) -> bool {
        let record = Record::of("asked").numbers(&[number]).why(task);
        if !self.record_with_outcome(record, outcome) {
            return false;
        }
        self.seen.sounds.push("key");
        self.fades_ms.remove(&number);
        self.tally(&Tally::Cleared(number))
    }

    pub(crate) fn tell_status(&mut self, number: u8, outcome: &'static str) {
        if self.record_code("status", &[number], outcome) {
            self.seen.sounds.push("accepted");
            self.clear(number);
            let supply = self.supply_words();
            let clock =
                self.utc().map_or_else(|| "invalid".to_owned(), |utc| self.zone().text(utc));
            let unread = self.kept.records.len() - 1;
            self.notify(format!("status supply={supply} clock={clock} unread={unread}"));
        }
    }

    /// Any judged try keeps a duress alarm up, and wakes the lock later.
    fn note_judged(&mut self) {
        let hold_ms = self.setup().policy.alarm_hold_s * 1_000;
        let until_ms = self.now.uptime_ms + hold_ms;
        self.duress_until_ms = self.duress_until_ms.map(|old_ms| old_ms.max(until_ms));
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
