//! Why the chosen holder may open now, or may not: each rule in words, and when
//! that changes. The lock itself is asked ([`Decided`]); nothing is decided here.

use lock_core::audit::{People, Refusal};
use lock_core::decide::{Clause, Decision, Hours, Stage};
use lock_core::holder::Number;
use lock_core::policy::Control;
use lock_core::port::{Fault, Inhibit};
use lock_core::rules::opening_time::OpeningTime;
use lock_core::rules::supply::Level;
use lock_core::time::{Seconds, Uptime, Utc};
use serde_json::{Value, json};

use super::front::moment;
use crate::audit::names::length;
use crate::audit::words::refusal;
use crate::plan::{Reason, Told, why};
use crate::site::Site;
use crate::world::{Decided, World};

/// How a rule stands.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Stands {
    /// It permits.
    For,
    /// It forbids.
    Against,
    /// It permits if something more is done.
    Asks,
}

impl Stands {
    const fn name(self) -> &'static str {
        match self {
            Self::For => "for",
            Self::Against => "against",
            Self::Asks => "asks",
        }
    }
}

/// One rule as the page lists it.
struct Row {
    rule: &'static str,
    stands: Stands,
    says: String,
    /// When that changes by itself.
    until: Option<Utc>,
}

impl Row {
    const fn new(rule: &'static str, stands: Stands, says: String, until: Option<Utc>) -> Self {
        Self { rule, stands, says, until }
    }

    fn in_favour(rule: &'static str, says: &str) -> Self {
        Self::new(rule, Stands::For, says.to_owned(), None)
    }

    fn against(rule: &'static str, says: &str, until: Option<Utc>) -> Self {
        Self::new(rule, Stands::Against, says.to_owned(), until)
    }
}

/// A lock and the holder whose openings are explained.
struct Case<'a> {
    world: &'a World,
    site: &'a Site,
    lock: &'a str,
    number: Number,
    now: Utc,
}

/// What stands for and against an opening by `number`.
pub(super) fn explain(world: &mut World, site: &Site, lock: &str, number: Number) -> Value {
    let decided = world.decide(number);
    let case = Case { world, site, lock, number, now: world.utc() };
    let name = case.called(number);
    let (opens, says, rows) = match &decided {
        None if !world.has_power() => {
            let says = "Without power the lock does nothing. The blocker stays where it is.";
            (false, says.to_owned(), Vec::new())
        }
        None => (false, format!("Nobody is enrolled under {:02}.", number.get()), Vec::new()),
        Some(decided) => {
            let opens = !matches!(decided.decision, Decision::Service(_) | Decision::Refuse(_));
            (opens, case.says(decided), case.rows(decided))
        }
    };
    let rows = rows.into_iter().map(|row| {
        let until = row.until.map(|until| moment(&site.zone, until, case.now));
        let Row { rule, stands, says, .. } = row;
        json!({ "rule": rule, "stands": stands.name(), "says": says, "until": until })
    });
    json!({
        "number": number.get(),
        "name": name,
        "may_open": opens,
        "says": says,
        "rules": rows.collect::<Vec<_>>(),
    })
}

impl Case<'_> {
    fn called(&self, number: Number) -> String {
        let person = self.site.holder(number);
        person.map_or_else(|| format!("{:02}", number.get()), |person| person.called())
    }

    fn both(&self, people: People) -> String {
        let first = self.called(people.first);
        match people.second {
            Some(second) => format!("{first} and {}", self.called(second)),
            None => first,
        }
    }

    fn utc(&self, uptime: Uptime) -> Utc {
        let seconds = self.world.when(uptime).div_ceil(1_000);
        Utc::from_secs(u32::try_from(seconds).unwrap_or(u32::MAX))
    }

    fn says(&self, decided: &Decided) -> String {
        let name = self.called(self.number);
        match decided.decision {
            Decision::Service(fault) => {
                format!("The lock takes no code: {}.", fault_words(fault))
            }
            Decision::Refuse(refused) => {
                let why = refusal(refused.why);
                format!("A right code of {name} opens nothing now: {why}.")
            }
            Decision::First => format!("A right code of {name} is taken as the first of two."),
            Decision::Wait(..) => {
                let delay = length(decided.delay().get());
                format!("A right code of {name} begins the wait of {delay}.")
            }
            Decision::Release(..) if matches!(decided.stage(), Some(Stage::Claimable(..))) => {
                format!("A right code of {name} claims the wait and frees the bolt.")
            }
            Decision::Release(..) => format!("A right code of {name} frees the bolt."),
        }
    }

    /// A row a clause, in the order in which the lock asks them.
    fn rows(&self, decided: &Decided) -> Vec<Row> {
        let goes_on = matches!(decided.stage(), Some(Stage::Waiting(..) | Stage::Claimable(..)));
        let row = |clause: &Clause| match *clause {
            Clause::Service(fault) => {
                let says = format!("No code is taken: {}.", fault_words(fault?));
                Some(Row::new("Service", Stands::Against, says, None))
            }
            Clause::Penalty(None) => Some(Row::in_favour("Penalty", "None is running.")),
            Clause::Penalty(Some(until)) => {
                let says = "Too many wrong codes: no code is taken.";
                Some(Row::against("Penalty", says, Some(self.utc(until))))
            }
            Clause::Person(may) => Some(self.person(may)),
            Clause::Change(from) => {
                let says = "A change that gives this person more time does not apply yet.";
                from.map(|from| Row::against("Waiting change", says, Some(from)))
            }
            Clause::Free(true) => {
                Some(Row::against("Bolt", "The bolt is free or drawn already.", None))
            }
            Clause::Free(false) => Some(Row::in_favour("Bolt", "Thrown and blocked.")),
            Clause::Inhibit(Inhibit::Set) => {
                let says = "The building's intruder alarm is set, or its line is broken. \
                            Nobody overrides it.";
                Some(Row::against("Intruder alarm", says, None))
            }
            Clause::Inhibit(Inhibit::Clear) => {
                Some(Row::in_favour("Intruder alarm", "The building's intruder alarm is unset."))
            }
            Clause::HeldShut(None) => Some(Row::in_favour("Hold-shut", "Not in force.")),
            Clause::HeldShut(until) => {
                let says = "Somebody held the lock shut. Nobody can undo it.";
                Some(Row::against("Hold-shut", says, until))
            }
            Clause::Supply(level) => Some(supply(level)),
            Clause::Clock { utc, settles, needed } => Some(clock(utc, settles, needed)),
            Clause::Hours(hours) => Some(self.hours(hours)),
            Clause::Stage(stage, goes_on) => self.stage(stage, goes_on.is_ok()),
            Clause::People { control, first, stands } => Some(self.people(control, first, stands)),
            // A delay that runs, or is over, has its row already.
            Clause::Delay(..) if goes_on => None,
            Clause::Delay(delay, fits) => Some(delay_row(delay, fits.is_ok())),
        };
        decided.clauses.iter().filter_map(row).collect()
    }

    fn person(&self, may: Result<(), Refusal>) -> Row {
        let says = match may {
            Ok(()) => {
                let says = format!("{} may open this lock.", self.called(self.number));
                return Row::new("Person", Stands::For, says, None);
            }
            Err(Refusal::Suspended) => "Suspended, until somebody who enrols restores them.",
            Err(Refusal::Barred) => "Barred: too many wrong codes on this number over time.",
            Err(_) => "Enrolled for other things; this role or row does not open.",
        };
        Row::against("Person", says, None)
    }

    fn hours(&self, hours: Hours) -> Row {
        let row = |stands, says, until| Row::new("Opening time", stands, says, until);
        match hours {
            Hours::Unknown => row(Stands::Against, "Unknown without a clock.".to_owned(), None),
            Hours::Always => {
                row(Stands::For, "Follows no timetable: at all times.".to_owned(), None)
            }
            Hours::Timetable(OpeningTime::Within { until }) => {
                row(Stands::For, format!("Inside an opening window{}.", self.because(true)), until)
            }
            Hours::Timetable(OpeningTime::Outside { opens }) => {
                row(Stands::Against, format!("Closed{}.", self.because(false)), opens)
            }
        }
    }

    /// What the site file says about it, if it says the same as the lock.
    fn because(&self, open: bool) -> String {
        let (Some(lock), Some(person)) = (self.site.lock(self.lock), self.site.holder(self.number))
        else {
            return String::new();
        };
        let plan = why(self.site, lock, person, self.now);
        if plan.may_open != open {
            return String::new();
        }
        let told = |what: &str, told: &Told| match &told.why {
            Some(why) => format!(": {what}, {why}"),
            None => format!(": {what}"),
        };
        match &plan.reason {
            Reason::Window { window, .. } => format!(", {}", crate::site::window_text(*window)),
            Reason::Closure(_, closure) => told("a closure", closure),
            Reason::ClosureBefore(closure) => told("a closure of the day before", closure),
            Reason::Special(_, special) => told("a special day", special),
            Reason::Weekday(windows) if windows.is_empty() => {
                ": this weekday has no window".to_owned()
            }
            Reason::Weekday(windows) => {
                let texts: Vec<String> =
                    windows.iter().map(|window| crate::site::window_text(*window)).collect();
                format!(": the windows are {}", texts.join(" and "))
            }
            Reason::Suspended | Reason::Role | Reason::Always => String::new(),
        }
    }

    fn stage(&self, stage: Stage, goes_on: bool) -> Option<Row> {
        let row =
            |stands, says, until| Some(Row::new("Time delay", stands, says, Some(self.utc(until))));
        match stage {
            Stage::Secured | Stage::Free => None,
            Stage::Waiting(people, ready) => {
                let says = format!("{} waits; then it can be claimed.", self.both(people));
                row(Stands::Against, says, ready)
            }
            Stage::Claimable(people, until) => {
                let says = format!("The wait is over: {} may claim it.", self.both(people));
                row(if goes_on { Stands::For } else { Stands::Against }, says, until)
            }
        }
    }

    fn people(
        &self,
        control: Control,
        first: Option<(Number, Uptime)>,
        stands: Result<(), Refusal>,
    ) -> Row {
        let row = |stands, says, until| Row::new("People", stands, says, until);
        match (control, first) {
            (Control::Single, _) => row(Stands::For, "One person opens.".to_owned(), None),
            (Control::Dual, None) => {
                row(Stands::Asks, "Two people: another one's code must follow.".to_owned(), None)
            }
            (Control::Dual, Some((first, until))) => {
                let first = self.called(first);
                let (stands, says) = match stands {
                    Ok(()) => {
                        (Stands::For, format!("{first} was the first of two; this is the second."))
                    }
                    Err(Refusal::SamePerson) => (
                        Stands::Against,
                        "Was the first of two; somebody else must follow.".to_owned(),
                    ),
                    Err(_) => (
                        Stands::Against,
                        format!("{first} was the first of two, and may not open by now."),
                    ),
                };
                row(stands, says, Some(self.utc(until)))
            }
        }
    }
}

fn clock(utc: Option<Utc>, settles: Option<Utc>, needed: bool) -> Row {
    // Who follows no timetable needs no clock.
    let stands = if needed { Stands::Against } else { Stands::For };
    let row = |says: &str, until| Row::new("Clock", stands, says.to_owned(), until);
    match (utc, settles) {
        (None, _) => row("Not believed: timetables stay closed until two people set it.", None),
        (Some(_), Some(until)) => {
            row("It was set and settles: timetables stay closed.", Some(until))
        }
        (Some(_), None) => Row::in_favour("Clock", "The lock believes its clock."),
    }
}

fn delay_row(delay: Seconds, fits: bool) -> Row {
    let length = length(delay.get());
    let row = |stands, says| Row::new("Time delay", stands, says, None);
    match (delay, fits) {
        (Seconds::ZERO, _) => row(Stands::For, "This lock has none.".to_owned()),
        (_, true) => row(Stands::Asks, format!("{length} to wait first, then the code again.")),
        (_, false) => {
            row(Stands::Against, format!("The wait of {length} would outlast the window."))
        }
    }
}

fn supply(level: Level) -> Row {
    let row = |stands, says: &str| Row::new("Supply", stands, says.to_owned(), None);
    match level {
        Level::Good => row(Stands::For, "Good."),
        Level::Low => row(Stands::For, "Low: it opens and warns."),
        Level::Spent => row(Stands::Against, "Spent: what cannot be finished is not started."),
    }
}

const fn fault_words(fault: Fault) -> &'static str {
    match fault {
        Fault::Blank => "nobody is enrolled yet",
        Fault::Layout => "its settings are those of other firmware",
        Fault::Settings => "its settings cannot be read",
        Fault::Store => "it could not write to its memory",
        Fault::Drive => "its drive did not move",
        Fault::Bug => "a mistake in its program",
    }
}
