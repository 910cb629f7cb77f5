//! `plan why`: one instant, explained.

use std::io;
use std::path::PathBuf;

use clap::Args;
use lock_core::holder::Number;
use lock_core::policy::Control;
use lock_core::time::{Instants, Seconds, Utc, Zone};
use lock_core::timetable::{Follows, Window};
use serde_json::json;
use toml::value::{Datetime, Offset};

use super::{holder_of, lock_of, parse_number, rule_holds};
use crate::cli::moment::{date_text, day_text, parse_date, rfc3339, time_text};
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::plan::{Reason, Told, Why, why};
use crate::site::{LockPlan, Person, Site, window_text};

#[derive(Args)]
pub(in crate::cli) struct WhyArguments {
    /// The site file.
    pub(super) site: PathBuf,
    /// The lock's id.
    #[arg(long, value_name = "ID")]
    lock: String,
    /// The holder's number.
    #[arg(long, value_name = "NUMBER", value_parser = parse_number)]
    holder: Number,
    /// The local time, such as 2027-03-17T09:00; an offset may follow.
    #[arg(long, value_name = "TIME", value_parser = parse_moment)]
    at: Moment,
    /// How the answer is written.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

/// A time as it was typed.
#[derive(Clone)]
pub(super) struct Moment {
    date: lock_core::time::Date,
    second: u32,
    /// Seconds east of UTC, if it says so.
    east: Option<i64>,
}

fn parse_moment(text: &str) -> Result<Moment, String> {
    let wrong = || "write a date and a time such as 2027-03-17T09:00".to_owned();
    // TOML wants seconds; people leave them out.
    let bare = text.len() == "2027-03-17T09:00".len();
    let padded = if bare { format!("{text}:00") } else { text.to_owned() };
    let moment: Datetime = padded.parse().map_err(|_| wrong())?;
    let (Some(_), Some(time)) = (moment.date, moment.time) else { return Err(wrong()) };
    let date = parse_date(text.get(..10).ok_or_else(wrong)?)?;
    let second = u32::from(time.hour) * 3_600
        + u32::from(time.minute) * 60
        + u32::from(time.second.unwrap_or(0));
    let east = moment.offset.map(|offset| match offset {
        Offset::Z => 0,
        Offset::Custom { minutes } => i64::from(minutes) * 60,
    });
    // A leap second is no time of a lock's clock.
    if second >= lock_core::time::DAY_SECONDS || time.second == Some(60) {
        return Err(wrong());
    }
    Ok(Moment { date, second, east })
}

impl Moment {
    /// The instant, and the second one if the clock repeats it.
    fn instant(&self, zone: &Zone) -> Result<(Utc, Option<Utc>), Unusable> {
        let outside = || {
            let what = "The clock of a lock does not reach this time.";
            Unusable::new(what, "Name a time from 1970 to 2100.")
        };
        if let Some(east) = self.east {
            let local = i64::from(self.date.days()) * 86_400 + i64::from(self.second);
            let at = u32::try_from(local - east).map_err(|_| outside())?;
            return Ok((Utc::from_secs(at), None));
        }
        match zone.instants(self.date, self.second) {
            Instants::One(at) => Ok((at, None)),
            Instants::Two(first, second) => Ok((first, Some(second))),
            Instants::None => {
                let what =
                    format!("The clock change of {} skips this local time.", date_text(self.date));
                let remedy = "Name a time before or after the change, or add an offset.";
                Err(Unusable::new(what, remedy))
            }
        }
    }
}

impl WhyArguments {
    pub(super) fn write(&self, site: &Site, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let found = lock_of(site, &self.lock)
            .and_then(|lock| Ok((lock, holder_of(site, self.holder)?)))
            .and_then(|(lock, person)| Ok((lock, person, self.at.instant(&site.zone)?)));
        let (lock, person, (at, second)) = match found {
            Ok(found) => found,
            Err(why) => return refuse(streams, &why),
        };
        if let Err(why) = rule_holds(site, at) {
            return refuse(streams, &why);
        }
        let told = Telling { site, lock, person, at, second, why: why(site, lock, person, at) };
        match self.format {
            Format::Json => writeln!(streams.out, "{:#}", told.json())?,
            Format::Text => {
                for sentence in told.sentences() {
                    writeln!(streams.out, "{sentence}")?;
                }
            }
        }
        Ok(Outcome::Fine)
    }
}

/// An answer and what it is about.
struct Telling<'s> {
    site: &'s Site,
    lock: &'s LockPlan,
    person: &'s Person,
    at: Utc,
    /// The other instant with the same time on the wall.
    second: Option<Utc>,
    why: Why,
}

impl Telling<'_> {
    fn sentences(&self) -> Vec<String> {
        let mut all = vec![format!("{} {}", self.verdict(), self.reason())];
        if let (Follows::Timetable(_), true) = (self.person.follows, self.person.may_open()) {
            all.push(self.bounds());
        }
        all.extend(self.delay());
        all.extend(self.dual());
        all.extend(self.change());
        all
    }

    fn verdict(&self) -> String {
        let local = self.site.zone.local(self.at);
        let may = if self.why.may_open { "may open" } else { "may not open" };
        format!(
            "{} {may} the lock {} on {} at {}:",
            self.person.called(),
            self.lock.id,
            day_text(local.date),
            time_text(local),
        )
    }

    fn reason(&self) -> String {
        let letter = match self.person.follows {
            Follows::Timetable(id) => format!("timetable {}", id.letter()),
            Follows::Always => "always".into(),
        };
        match &self.why.reason {
            Reason::Suspended => {
                "the holder is suspended, until somebody who enrols restores them.".into()
            }
            Reason::Role => format!("a {} of this file does not open.", self.person.role.name()),
            Reason::Always => "the holder follows no timetable, so windows, closures and special \
                               days do not apply."
                .into(),
            Reason::Window { window, date, special } => {
                let window = window_text(*window);
                let day = day_text(*date);
                match special {
                    None => format!("the window {window} of {letter}, which starts on {day}."),
                    Some(told) => {
                        let because = self.told("special day", told);
                        format!("the window {window} of {letter} on {day}, a {because}.")
                    }
                }
            }
            Reason::Closure(closure, told) => {
                let (from, to) = (date_text(closure.from), date_text(closure.to));
                let dates = if from == to { from } else { format!("{from} to {to}") };
                format!("{letter} is closed on {dates} by a {}.", self.told("closure", told))
            }
            Reason::ClosureBefore(told) => format!(
                "the window of {letter} that would run in from the day before is closed by a {}.",
                self.told("closure", told)
            ),
            Reason::Special(windows, told) => format!(
                "outside the windows of {letter} on a {}: {}.",
                self.told("special day", told),
                listed(windows),
            ),
            Reason::Weekday(windows) => {
                format!("outside the windows of {letter} on this weekday: {}.", listed(windows))
            }
        }
    }

    /// `closure (line 66, "Christmas")`.
    fn told(&self, what: &str, told: &Told) -> String {
        let line = told.place.line;
        match &told.why {
            Some(why) => format!("{what} (line {line}, \"{why}\")"),
            None => format!("{what} (line {line})"),
        }
    }

    /// Since when and until when.
    fn bounds(&self) -> String {
        let say = |at: Utc| {
            let local = self.site.zone.local(at);
            format!("{} {}", day_text(local.date), time_text(local))
        };
        let state = if self.why.may_open { "Open" } else { "Closed" };
        let since = self
            .why
            .since
            .map_or("for two months or more".into(), |at| format!("since {}", say(at)));
        match (self.why.until, self.why.may_open) {
            (Some(until), true) => format!("{state} {since}, until {}.", say(until)),
            (Some(until), false) => format!("{state} {since}; opens {}.", say(until)),
            (None, _) => format!("{state} {since}, and for two months or more."),
        }
    }

    fn delay(&self) -> Option<String> {
        let delay = self.lock.policy.delay;
        if delay == Seconds::ZERO || !self.why.may_open {
            return None;
        }
        let minutes = delay.get().div_ceil(60);
        if !self.why.delay_fits {
            return Some(format!(
                "The delay of {minutes} min would not be over before the window ends, so the \
                 lock refuses to begin it."
            ));
        }
        let ready = self.site.zone.local(self.at.after(delay));
        Some(format!(
            "The lock waits {minutes} min first: a wait begun now can be claimed from {} on.",
            time_text(ready)
        ))
    }

    fn dual(&self) -> Option<String> {
        if self.lock.policy.control != Control::Dual || !self.why.may_open {
            return None;
        }
        let names: Vec<String> = self.others().map(Person::called).collect();
        Some(if names.is_empty() {
            "The lock needs two people, and nobody else may open at this time.".into()
        } else {
            format!("The lock needs two people; the second could be {}.", names.join(", "))
        })
    }

    fn others(&self) -> impl Iterator<Item = &Person> {
        self.why.others.iter().filter_map(|row| self.site.holders.get(*row))
    }

    fn change(&self) -> Option<String> {
        let change = self.why.change?;
        let zone = &self.site.zone;
        let before = Utc::from_secs(change.at.as_secs().saturating_sub(1));
        let wall = zone.local(before);
        let shown = (wall.second + 1) % lock_core::time::DAY_SECONDS;
        let way = if change.forward > 0 { "forward" } else { "back" };
        let mut said = format!(
            "The clock goes {way} on this date: at {} it shows {}.",
            crate::plan::chart::clock(shown),
            time_text(zone.local(change.at)),
        );
        if let Some(second) = self.second {
            said.push_str(&format!(
                " This time comes twice; the first is meant. For the second write {}.",
                rfc3339(zone, second)
            ));
        }
        Some(said)
    }

    fn json(&self) -> serde_json::Value {
        let zone = &self.site.zone;
        let instant = |at: Option<Utc>| at.map(|at| rfc3339(zone, at));
        let (kind, told, windows) = match &self.why.reason {
            Reason::Suspended => ("suspended", None, Vec::new()),
            Reason::Role => ("role", None, Vec::new()),
            Reason::Always => ("always", None, Vec::new()),
            Reason::Window { window, special, .. } => ("window", special.as_ref(), vec![*window]),
            Reason::Closure(_, told) => ("closure", Some(told), Vec::new()),
            Reason::ClosureBefore(told) => ("closure-before", Some(told), Vec::new()),
            Reason::Special(windows, told) => ("special-day", Some(told), windows.clone()),
            Reason::Weekday(windows) => ("outside-windows", None, windows.clone()),
        };
        let windows: Vec<String> = windows.into_iter().map(window_text).collect();
        json!({
            "holder": self.person.number.get(),
            "lock": self.lock.id,
            "at": rfc3339(zone, self.at),
            "may_open": self.why.may_open,
            "since": instant(self.why.since),
            "until": instant(self.why.until),
            "reason": kind,
            "windows": windows,
            "line": told.map(|told| told.place.line),
            "why": told.and_then(|told| told.why.clone()),
            "delay_fits": self.why.delay_fits,
            "others": self.others().map(|person| person.number.get()).collect::<Vec<_>>(),
            "clock_change": instant(self.why.change.map(|change| change.at)),
            "comes_again": instant(self.second),
            "sentences": self.sentences(),
        })
    }
}

fn listed(windows: &[Window]) -> String {
    if windows.is_empty() {
        return "it has none".into();
    }
    windows.iter().map(|window| window_text(*window)).collect::<Vec<_>>().join(", ")
}
