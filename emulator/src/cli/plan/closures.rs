//! `plan closures`: from a calendar of holidays to closures.

use std::io;
use std::path::PathBuf;

use clap::Args;
use lock_core::time::Date;
use lock_core::timetable::CLOSURES;
use serde_json::json;

use crate::cli::moment::{date_text, parse_date};
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::plan::holidays::{Dates, Holidays, SIZE_MOST, read, toml};
use crate::{files, plain};

#[derive(Args)]
pub(in crate::cli) struct ClosuresArguments {
    /// The calendar, an iCalendar file (.ics).
    calendar: PathBuf,
    /// The first date that matters; 1970-01-01 where it is left out.
    #[arg(long, value_name = "DATE", value_parser = parse_date)]
    from: Option<Date>,
    /// The date from which on nothing matters any more.
    #[arg(long, value_name = "DATE", value_parser = parse_date)]
    to: Option<Date>,
    /// How the closures are written: as TOML for the site file, or as JSON.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

impl ClosuresArguments {
    pub(super) fn write(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let dates = Dates { from: self.from.unwrap_or(Date::from_days(0)), to: self.to };
        if dates.to.is_some_and(|to| to < dates.from) {
            let what = "--to lies before --from.";
            let remedy = "Closures are listed from --from on, and before --to.";
            return refuse(streams, &Unusable::new(what, remedy));
        }
        let name = plain::path(&self.calendar);
        let text = match files::read_text(&self.calendar, SIZE_MOST) {
            Ok(text) => text,
            Err(why) => {
                let what = format!("{name} cannot be read: {why}.");
                let remedy = "Check the path; it must lead to an iCalendar (.ics) in UTF-8.";
                return refuse(streams, &Unusable::new(what, remedy));
            }
        };
        let found = match read(&name, &text, dates) {
            Ok(found) => found,
            Err(why) => return refuse(streams, why.as_ref()),
        };
        match self.format {
            Format::Text => write!(streams.out, "{}", toml(&found.holidays))?,
            Format::Json => {
                let rows = found.holidays.iter().map(|holiday| {
                    json!({
                        "from": date_text(holiday.from),
                        "to": date_text(holiday.to),
                        "why": holiday.why,
                        "line": holiday.line,
                    })
                });
                writeln!(streams.out, "{:#}", rows.collect::<serde_json::Value>())?;
            }
        }
        for note in notes(&found) {
            writeln!(streams.err, "Note: {note}")?;
        }
        Ok(Outcome::Fine)
    }
}

/// What was left out, and what a site file cannot hold.
fn notes(found: &Holidays) -> Vec<String> {
    let mut notes = Vec::new();
    if found.cancelled > 0 {
        notes.push(format!("{} cancelled events were left out.", found.cancelled));
    }
    if found.outside > 0 {
        notes.push(format!("{} events lie outside these dates.", found.outside));
    }
    if found.holidays.len() > CLOSURES {
        let count = found.holidays.len();
        notes.push(format!(
            "these are {count} closures, and a site file holds {CLOSURES}: narrow --from and --to."
        ));
    }
    notes
}
