//! Closures from a calendar of holidays, as states and churches publish them.
//!
//! The file is an iCalendar (RFC 5545). Each of its events must be one or more
//! whole days, once or every year; the file is refused whole at the first event
//! that is something else, because a closure that was left out is a door that
//! opens on a holiday.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | from events to closures |
//! | `lines.rs` | where in the file a property stands |
//! | `event.rs` | one event: its dates, its yearly rule |
//!
//! The crate icalendar reads the file, the crate rrule repeats events; what is
//! here says which of that a closure can be.

mod event;
mod lines;

use icalendar::parser;
use lock_core::time::Date;

use crate::document::{Read, Refusal, Source, Wrong};
use crate::plain::is_plain;

use event::Event;
use lines::Lines;

/// The largest file that is read, in bytes: decades of holidays.
pub const SIZE_MOST: usize = 4 << 20;
/// Most characters of a closure's reason.
const WHY_MOST: usize = 200;

/// Days in a row on which the site is closed.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Holiday {
    /// The first day.
    pub from: Date,
    /// The last day.
    pub to: Date,
    /// What the calendar calls it.
    pub why: Option<String>,
    /// The line on which its event starts.
    pub line: usize,
}

/// What a calendar comes to.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Holidays {
    /// The holidays, earliest first, none twice.
    pub holidays: Vec<Holiday>,
    /// Events that the calendar itself says are cancelled.
    pub cancelled: usize,
    /// Events that never touch the dates that were asked for.
    pub outside: usize,
}

/// The dates that are asked for: `from`, inclusive, to `to`, exclusive.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Dates {
    /// The first date.
    pub from: Date,
    /// The first date that is no longer asked for; `None` for no end.
    pub to: Option<Date>,
}

/// Reads the text of a calendar; `name` is what errors call it.
///
/// # Errors
/// [`Refusal`] at the first event that cannot be a closure, or where the text
/// is no iCalendar.
pub fn read(name: &str, text: &str, dates: Dates) -> Result<Holidays, Box<Refusal>> {
    let source = Source::without_codes(name, text);
    read_all(text, &source, dates).map_err(|wrong| wrong.in_source(&source))
}

fn read_all(text: &str, source: &Source<'_>, dates: Dates) -> Read<Holidays> {
    if text.len() > SIZE_MOST {
        let what = "This file is larger than 4 MiB.";
        return Err(Wrong::new(&(0..0), what, "A calendar of holidays is far smaller; check it."));
    }
    let lines = Lines::read(text)?;
    let unfolded = lines.unfolded();
    let calendar = parser::read_calendar(&unfolded).map_err(|why| lines.no_calendar(&why))?;
    let events = calendar.components.iter().filter(|part| part.name.as_str() == "VEVENT");
    let mut found = Holidays::default();
    let mut count = 0;
    for (event, at) in events.zip(lines.events()) {
        count += 1;
        let event = Event::read(event, at)?;
        if event.cancelled {
            found.cancelled += 1;
            continue;
        }
        let why = event.why.as_deref().and_then(reason);
        let line = source.place(at.start()).line;
        let occurrences = event.occurrences(dates)?;
        found.outside += usize::from(occurrences.is_empty());
        for (from, to) in occurrences {
            found.holidays.push(Holiday { from, to, why: why.clone(), line });
        }
    }
    if count == 0 || count != lines.events().count() {
        let what = "This calendar holds no event that could be read.";
        let remedy = "Export the calendar again, as iCalendar (.ics) with its events.";
        return Err(Wrong::new(&(0..0), what, remedy));
    }
    found.holidays.sort();
    found.holidays.dedup_by(|a, b| (a.from, a.to, &a.why) == (b.from, b.to, &b.why));
    Ok(found)
}

/// A summary as a site file can hold it: one line, not too long.
fn reason(summary: &str) -> Option<String> {
    let plain: String = summary.chars().map(|c| if is_plain(c) { c } else { ' ' }).collect();
    let words: Vec<&str> = plain.split_whitespace().collect();
    let cut: String = words.join(" ").chars().take(WHY_MOST).collect();
    Some(cut.trim().to_owned()).filter(|why| !why.is_empty())
}

/// The holidays as `[[closure]]` tables of a site file.
#[must_use]
pub fn toml(holidays: &[Holiday]) -> String {
    let mut tables = Vec::new();
    for Holiday { from, to, why, .. } in holidays {
        let mut table = format!("[[closure]]\nfrom = {}\n", date_text(*from));
        if to != from {
            table.push_str(&format!("to = {}\n", date_text(*to)));
        }
        if let Some(why) = why {
            let escaped = why.replace('\\', "\\\\").replace('"', "\\\"");
            table.push_str(&format!("why = \"{escaped}\"\n"));
        }
        tables.push(table);
    }
    tables.join("\n")
}

fn date_text(date: Date) -> String {
    let (year, month, day) = date.ymd();
    format!("{year}-{month:02}-{day:02}")
}
