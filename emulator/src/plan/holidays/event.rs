//! One event of a calendar of holidays.

use std::ops::Range;

use icalendar::parser::{Component, Property};
use jiff::civil;
use lock_core::time::{DAY_SECONDS, Date};
use rrule::RRuleSet;

use super::Dates;
use super::lines::At;
use crate::document::{LAST_YEAR, Read, Wrong};

/// Most days of one event: more is no holiday.
const DAYS_MOST: i64 = 366;
/// Most times that one event is repeated, from its first year on.
const TIMES_MOST: u16 = 1_000;
/// Properties that change when an event happens and cannot be followed here.
const REFUSED: [(&str, &str); 3] = [
    ("RDATE", "has extra dates (RDATE)"),
    ("EXRULE", "has a rule of exceptions (EXRULE)"),
    ("RECURRENCE-ID", "changes one day of another event (RECURRENCE-ID)"),
];

/// An event: whole days, once or every year.
pub(super) struct Event<'a> {
    /// The summary, unescaped.
    pub(super) why: Option<String>,
    /// Whether the calendar says that it does not happen.
    pub(super) cancelled: bool,
    start: civil::Date,
    days: i64,
    rule: Option<String>,
    excepted: Vec<civil::Date>,
    at: &'a At,
}

impl<'a> Event<'a> {
    /// Reads an event, or says why it is no closure.
    pub(super) fn read(event: &Component<'_>, at: &'a At) -> Read<Self> {
        let all = |name: &'static str| {
            let named = move |p: &&Property<'_>| p.name.as_str().eq_ignore_ascii_case(name);
            event.properties.iter().filter(named)
        };
        for (name, words) in REFUSED {
            if all(name).next().is_some() {
                let what = format!("This event {words}.");
                let remedy = "Write each of its dates as an event of its own.";
                return Err(Wrong::new(&at.property(name), what, remedy));
            }
        }
        for name in ["DTSTART", "DTEND", "DURATION", "RRULE"] {
            if all(name).count() > 1 {
                let what = format!("This event has {name} more than once.");
                return Err(Wrong::new(&at.property(name), what, "Keep one of them."));
            }
        }
        let start = all("DTSTART").next().ok_or_else(|| {
            let what = "This event has no first day.";
            Wrong::new(&at.property("DTSTART"), what, "Add DTSTART;VALUE=DATE:20271225.")
        })?;
        let start = date(start, &at.property("DTSTART"))?;
        let excepted = all("EXDATE").map(|property| dates(property, &at.property("EXDATE")));
        let excepted = excepted.collect::<Read<Vec<_>>>()?.concat();
        let rule = all("RRULE").next().map(|rule| yearly(rule, at)).transpose()?;
        let text = |name| all(name).next().map(|p| p.val.clone().unescape_text());
        Ok(Self {
            why: text("SUMMARY").map(|text| text.as_str().to_owned()),
            cancelled: text("STATUS").is_some_and(|s| s.as_str().eq_ignore_ascii_case("CANCELLED")),
            start,
            days: length(start, all("DTEND").next(), all("DURATION").next(), at)?,
            rule,
            excepted,
            at,
        })
    }

    /// First and last day each time that it touches `dates`.
    pub(super) fn occurrences(&self, dates: Dates) -> Read<Vec<(Date, Date)>> {
        let starts = match &self.rule {
            None => vec![day_number(self.start)],
            Some(rule) => self.repeated(rule, dates)?,
        };
        let excepted: Vec<i64> = self.excepted.iter().copied().map(day_number).collect();
        let first = i64::from(dates.from.days());
        let end = dates.to.map_or(i64::MAX, |to| i64::from(to.days()));
        let touching = starts
            .into_iter()
            .filter(|day| !excepted.contains(day))
            .filter(|day| *day < end && day + self.days > first);
        touching
            .map(|day| Some((known(day)?, known(day + self.days - 1)?)))
            .collect::<Option<_>>()
            .ok_or_else(|| {
                let what = "This event lies outside the years that a lock can plan.";
                let remedy = format!("Dates go from 1970-01-01 to {LAST_YEAR}-12-31.");
                Wrong::new(&self.at.property("DTSTART"), what, remedy)
            })
    }

    /// The first days of a yearly event, up to the end of `dates`.
    fn repeated(&self, rule: &str, dates: Dates) -> Read<Vec<i64>> {
        let at = self.at.property("RRULE");
        let bounded = rule.contains("COUNT=") || rule.contains("UNTIL=");
        if !bounded && dates.to.is_none() {
            let what = "This event comes back every year without an end.";
            return Err(Wrong::new(&at, what, "Say with --to up to which date it matters."));
        }
        let start = self.start.strftime("%Y%m%d");
        let text = format!("DTSTART:{start}T000000Z\nRRULE:{rule}");
        let set: RRuleSet = text.parse().map_err(|_| {
            let what = "This rule of repetition cannot be followed.";
            Wrong::new(&at, what, "Write the dates as events of their own, one a year.")
        })?;
        let (mut days, mut any) = (Vec::new(), false);
        for date in &set {
            any = true;
            let day = date.timestamp().div_euclid(i64::from(DAY_SECONDS));
            if dates.to.is_some_and(|to| day >= i64::from(to.days())) {
                break;
            }
            if days.len() == usize::from(TIMES_MOST) {
                let what = format!("This event comes more than {TIMES_MOST} times.");
                return Err(Wrong::new(&at, what, "Give it an end (UNTIL), or use --to."));
            }
            days.push(day);
        }
        if !any {
            // A holiday that is dropped is a door that opens on it.
            let what = "This rule of repetition gives no day at all.";
            return Err(Wrong::new(
                &at,
                what,
                "Correct it, or write the dates as events of their own.",
            ));
        }
        Ok(days)
    }
}

/// A yearly rule as the repeating crate takes it: an UNTIL of a date becomes
/// one of an instant.
fn yearly(rule: &Property<'_>, at: &At) -> Read<String> {
    let text = rule.val.as_str().to_ascii_uppercase();
    let parts: Vec<&str> = text.split(';').map(str::trim).collect();
    if !parts.contains(&"FREQ=YEARLY") {
        let what = "This event does not come once a year, but more often.";
        let remedy =
            "What is closed every week belongs in the timetables: leave the day out there.";
        return Err(Wrong::new(&at.property("RRULE"), what, remedy));
    }
    // The repeating crate takes it and finds no day; RFC 5545 wants a positive number.
    let interval = parts.iter().filter_map(|part| part.strip_prefix("INTERVAL="));
    if interval.clone().any(|number| number.parse::<u16>().map_or(true, |years| years == 0)) {
        let what = "This event comes back after no number of years.";
        let remedy = "INTERVAL is 1 or more; leave it out for every year.";
        return Err(Wrong::new(&at.property("RRULE"), what, remedy).here("INTERVAL"));
    }
    let instant = |part: &&str| match part.strip_prefix("UNTIL=") {
        Some(date) if date.len() == 8 => format!("UNTIL={date}T000000Z"),
        _ => (*part).to_owned(),
    };
    Ok(parts.iter().map(instant).collect::<Vec<_>>().join(";"))
}

/// How many days an event takes.
fn length(
    start: civil::Date,
    end: Option<&Property<'_>>,
    duration: Option<&Property<'_>>,
    at: &At,
) -> Read<i64> {
    let (place, days) = match (end, duration) {
        (None, None) => return Ok(1),
        (Some(end), None) => {
            let place = at.property("DTEND");
            let end = date(end, &place)?;
            let days = day_number(end) - day_number(start);
            (place, days)
        }
        (None, Some(duration)) => {
            let place = at.property("DURATION");
            let days = whole_days(duration.val.as_str()).ok_or_else(|| {
                let what = "This duration is no number of whole days.";
                Wrong::new(&place, what, "Write days or weeks, such as P2D or P1W.")
            })?;
            (place, days)
        }
        (Some(_), Some(_)) => {
            let what = "This event has both an end and a duration.";
            return Err(Wrong::new(&at.property("DURATION"), what, "Keep DTEND or DURATION."));
        }
    };
    if days < 1 {
        let what = "This event ends before it starts.";
        let remedy =
            "DTEND is the first day that is free again: for one day, the day after DTSTART.";
        return Err(Wrong::new(&place, what, remedy));
    }
    if days > DAYS_MOST {
        let what = format!("This event takes {days} days, which is no holiday.");
        return Err(Wrong::new(&place, what, "Correct the end, or close the lock otherwise."));
    }
    Ok(days)
}

/// `P2D` or `P1W`.
fn whole_days(text: &str) -> Option<i64> {
    let rest = text.trim().trim_start_matches('+').strip_prefix('P')?;
    let (count, unit) = match (rest.strip_suffix('D'), rest.strip_suffix('W')) {
        (Some(days), _) => (days, 1),
        (None, Some(weeks)) => (weeks, 7),
        (None, None) => return None,
    };
    let plain = (1..=4).contains(&count.len()) && count.bytes().all(|b| b.is_ascii_digit());
    plain.then(|| count.parse::<i64>().ok()).flatten().map(|count| count * unit)
}

fn date(property: &Property<'_>, at: &Range<usize>) -> Read<civil::Date> {
    match dates(property, at)?.as_slice() {
        [one] => Ok(*one),
        _ => Err(no_date(at)),
    }
}

/// A list of dates, each `20271225`.
fn dates(property: &Property<'_>, at: &Range<usize>) -> Read<Vec<civil::Date>> {
    let value = property.val.as_str().trim();
    if value.contains('T') {
        let what = "This event has a time of day, but a closure is whole days.";
        let remedy = "Make it an all-day event, or a [[special]] day with shorter windows.";
        return Err(Wrong::new(at, what, remedy).here("a date and a time"));
    }
    value.split(',').map(|one| whole_date(one.trim()).ok_or_else(|| no_date(at))).collect()
}

fn whole_date(text: &str) -> Option<civil::Date> {
    let plain = text.len() == 8 && text.bytes().all(|b| b.is_ascii_digit());
    plain.then(|| civil::Date::strptime("%Y%m%d", text).ok()).flatten()
}

fn no_date(at: &Range<usize>) -> Box<Wrong> {
    let what = "This is no date of the calendar.";
    Wrong::new(at, what, "A date is written as eight digits, such as 20271225.").here("no date")
}

/// Days since 1970-01-01.
fn day_number(date: civil::Date) -> i64 {
    let epoch = civil::Date::constant(1970, 1, 1);
    date.since(epoch).map_or(0, |span| i64::from(span.get_days()))
}

/// The date, within the years that a site can plan.
fn known(day: i64) -> Option<Date> {
    let date = u16::try_from(day).ok().map(Date::from_days)?;
    (date.year() <= LAST_YEAR).then_some(date)
}
