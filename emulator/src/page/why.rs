//! Why the chosen holder may open now, or may not: each rule in words, and when
//! that changes. The lock itself is asked ([`Outlook`]); nothing is judged here.

use lock_core::audit::{People, Refusal};
use lock_core::holder::Number;
use lock_core::lock::{Delayed, Outlook};
use lock_core::policy::Control;
use lock_core::port::{Fault, Inhibit};
use lock_core::rules::admission::{Admission, Bar, Ends};
use lock_core::rules::supply::Level;
use lock_core::time::{Uptime, Utc};
use serde_json::{Value, json};

use super::front::moment;
use crate::audit::names::length;
use crate::audit::words::refusal;
use crate::plan::{Reason, Told, why};
use crate::site::Site;
use crate::world::World;

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

    /// Against, if it is so; otherwise for.
    fn if_so(rule: &'static str, so: bool, (says, otherwise): (&str, &str)) -> Self {
        if so {
            Self::new(rule, Stands::Against, says.to_owned(), None)
        } else {
            Self::new(rule, Stands::For, otherwise.to_owned(), None)
        }
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
    let outlook = world.outlook(number);
    let case = Case { world, site, lock, number, now: world.utc() };
    let name = case.called(number);
    let (opens, says, rows) = match &outlook {
        None if !world.has_power() => {
            let says = "Without power the lock does nothing. The blocker stays where it is.";
            (false, says.to_owned(), Vec::new())
        }
        None => (false, format!("Nobody is enrolled under {:02}.", number.get()), Vec::new()),
        Some(outlook) => (outlook.refusal.is_none(), case.verdict(outlook), case.rows(outlook)),
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

    fn verdict(&self, outlook: &Outlook) -> String {
        let name = self.called(self.number);
        if let Some(fault) = outlook.service {
            return format!("The lock takes no code: {}.", fault_words(fault));
        }
        if let Some(why) = outlook.refusal {
            return format!("A right code of {name} opens nothing now: {}.", refusal(why));
        }
        match (outlook.control, outlook.first, outlook.under_way) {
            (Control::Dual, None, _) => {
                format!("A right code of {name} is taken as the first of two.")
            }
            (_, _, Some((Delayed::Claimable, ..))) => {
                format!("A right code of {name} claims the wait and frees the bolt.")
            }
            _ if outlook.delay.get() > 0 => {
                let delay = length(outlook.delay.get());
                format!("A right code of {name} begins the wait of {delay}.")
            }
            _ => format!("A right code of {name} frees the bolt."),
        }
    }

    fn rows(&self, outlook: &Outlook) -> Vec<Row> {
        let mut rows = Vec::new();
        if let Some(fault) = outlook.service {
            let says = format!("No code is taken: {}.", fault_words(fault));
            rows.push(Row::new("Service", Stands::Against, says, None));
        }
        rows.push(match outlook.penalty {
            Some(until) => {
                let says = "Too many wrong codes: no code is taken.".to_owned();
                Row::new("Penalty", Stands::Against, says, Some(self.utc(until)))
            }
            None => Row::new("Penalty", Stands::For, "None is running.".to_owned(), None),
        });
        rows.push(self.person(outlook));
        rows.extend(outlook.deferred.map(|from| {
            let says = "A change that gives this person more time does not apply yet.";
            Row::new("Waiting change", Stands::Against, says.to_owned(), Some(from))
        }));
        rows.push(Row::if_so(
            "Bolt",
            outlook.already_open,
            ("The bolt is free or drawn already.", "Thrown and blocked."),
        ));
        rows.push(Row::if_so(
            "Intruder alarm",
            outlook.conditions.inhibit == Inhibit::Set,
            (
                "The building's intruder alarm is set, or its line is broken. Nobody overrides it.",
                "The building's intruder alarm is unset.",
            ),
        ));
        rows.push(match outlook.conditions.held_until {
            Some(until) => {
                let says = "Somebody held the lock shut. Nobody can undo it.".to_owned();
                Row::new("Hold-shut", Stands::Against, says, Some(until))
            }
            None => Row::new("Hold-shut", Stands::For, "Not in force.".to_owned(), None),
        });
        rows.push(supply(outlook.conditions.supply));
        rows.push(self.clock(outlook));
        rows.push(self.hours(outlook));
        rows.push(self.delay(outlook));
        rows.push(self.people(outlook));
        rows
    }

    fn person(&self, outlook: &Outlook) -> Row {
        let says = match outlook.standing {
            Ok(()) => {
                let says = format!("{} may open this lock.", self.called(self.number));
                return Row::new("Person", Stands::For, says, None);
            }
            Err(Refusal::Suspended) => {
                "Suspended, until somebody who enrols restores them.".to_owned()
            }
            Err(Refusal::Barred) => {
                "Barred: too many wrong codes on this number over time.".to_owned()
            }
            Err(_) => "Enrolled for other things; this role or row does not open.".to_owned(),
        };
        Row::new("Person", Stands::Against, says, None)
    }

    fn clock(&self, outlook: &Outlook) -> Row {
        let against = |says: &str, until| {
            let stands = match outlook.hours {
                // Who follows no timetable needs no clock.
                Some(Admission::Granted(Ends::Never)) => Stands::For,
                Some(_) | None => Stands::Against,
            };
            Row::new("Clock", stands, says.to_owned(), until)
        };
        match (outlook.conditions.utc, outlook.conditions.settles) {
            (None, _) => {
                against("Not believed: timetables stay closed until two people set it.", None)
            }
            (Some(_), Some(until)) => {
                against("It was set and settles: timetables stay closed.", Some(until))
            }
            (Some(_), None) => {
                Row::new("Clock", Stands::For, "The lock believes its clock.".to_owned(), None)
            }
        }
    }

    fn hours(&self, outlook: &Outlook) -> Row {
        let row = |stands, says, until| Row::new("Opening time", stands, says, until);
        match outlook.hours {
            None => row(Stands::Against, "Unknown without a clock.".to_owned(), None),
            Some(Admission::Granted(Ends::Never)) => {
                row(Stands::For, "Follows no timetable: at all times.".to_owned(), None)
            }
            Some(Admission::Granted(ends)) => {
                let says = format!("Inside an opening window{}.", self.because(true));
                row(Stands::For, says, ends.instant())
            }
            Some(Admission::Refused(Bar::Closed(opens))) => {
                row(Stands::Against, format!("Closed{}.", self.because(false)), opens)
            }
            Some(Admission::Refused(_)) => row(Stands::Against, "Closed.".to_owned(), None),
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

    fn delay(&self, outlook: &Outlook) -> Row {
        let row = |stands, says, until| Row::new("Time delay", stands, says, until);
        let delay = length(outlook.delay.get());
        match outlook.under_way {
            Some((Delayed::Waiting, people, ready)) => {
                let says = format!("{} waits; then it can be claimed.", self.both(people));
                row(Stands::Against, says, Some(self.utc(ready)))
            }
            Some((Delayed::Claimable, people, until)) => {
                let says = format!("The wait is over: {} may claim it.", self.both(people));
                let mine = people.include(self.number);
                row(if mine { Stands::For } else { Stands::Against }, says, Some(self.utc(until)))
            }
            None if outlook.delay.get() == 0 => {
                row(Stands::For, "This lock has none.".to_owned(), None)
            }
            None if outlook.delay_fits => {
                let says = format!("{delay} to wait first, then the code again.");
                row(Stands::Asks, says, None)
            }
            None => {
                let says = format!("The wait of {delay} would outlast the window.");
                row(Stands::Against, says, None)
            }
        }
    }

    fn people(&self, outlook: &Outlook) -> Row {
        let row = |stands, says, until| Row::new("People", stands, says, until);
        match (outlook.control, outlook.first) {
            (Control::Single, _) => row(Stands::For, "One person opens.".to_owned(), None),
            (Control::Dual, None) => {
                row(Stands::Asks, "Two people: another one's code must follow.".to_owned(), None)
            }
            (Control::Dual, Some((first, until))) if first == self.number => {
                let says = "Was the first of two; somebody else must follow.".to_owned();
                row(Stands::Against, says, Some(self.utc(until)))
            }
            (Control::Dual, Some((first, until))) => {
                let says =
                    format!("{} was the first of two; this is the second.", self.called(first));
                row(Stands::For, says, Some(self.utc(until)))
            }
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
