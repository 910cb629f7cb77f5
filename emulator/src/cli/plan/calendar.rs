//! `plan calendar`: from opening times to a calendar.

use std::io;
use std::path::PathBuf;

use clap::Args;
use lock_core::holder::Number;
use lock_core::time::{Date, Utc};
use lock_core::timetable::TimetableId;
use serde_json::json;

use super::openings::{Whose, stretches};
use super::{defined, holder_of, lock_of, parse_number, parse_timetable, range_of};
use crate::cli::moment::{parse_date, rfc3339};
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::files::{Eyes, There, write};
use crate::plain;
use crate::plan::{Entry, calendar};
use crate::site::Site;

#[derive(Args)]
pub(in crate::cli) struct CalendarArguments {
    /// The site file.
    pub(super) site: PathBuf,
    /// The lock's id.
    #[arg(long, value_name = "ID")]
    lock: String,
    /// A holder's number; without it and --timetable: everybody.
    #[arg(long, value_name = "NUMBER", conflicts_with = "timetable", value_parser = parse_number)]
    holder: Option<Number>,
    /// A timetable's letter.
    #[arg(long, value_name = "LETTER", value_parser = parse_timetable)]
    timetable: Option<TimetableId>,
    /// The first date.
    #[arg(long, value_name = "DATE", value_parser = parse_date)]
    from: Date,
    /// The date at whose start the calendar ends.
    #[arg(long, value_name = "DATE", value_parser = parse_date)]
    to: Date,
    /// The file to write; standard output where it is left out.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// As an iCalendar, or its entries as JSON.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

impl CalendarArguments {
    pub(super) fn write(&self, site: &Site, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let entries = match self.entries(site) {
            Ok(entries) => entries,
            Err(why) => return refuse(streams, &why),
        };
        let text = match self.format {
            Format::Text => {
                let now = u32::try_from(jiff::Timestamp::now().as_second()).unwrap_or(u32::MAX);
                calendar(site, &entries, Utc::from_secs(now))
            }
            Format::Json => {
                let rows = entries.iter().map(|entry| {
                    json!({
                        "uid": entry.uid(site),
                        "summary": entry.summary,
                        "from": rfc3339(&site.zone, entry.stretch.from),
                        "to": rfc3339(&site.zone, entry.stretch.to),
                    })
                });
                format!("{:#}\n", rows.collect::<serde_json::Value>())
            }
        };
        let Some(path) = &self.out else {
            write!(streams.out, "{text}")?;
            return Ok(Outcome::Fine);
        };
        if let Err(why) = write(path, text.as_bytes(), There::Goes, Eyes::Everybody) {
            let remedy = "Name a file in a folder of yours.";
            return refuse(streams, &Unusable::not_written(path, &why, remedy));
        }
        let count = entries.len();
        writeln!(streams.out, "{count} openings were written to {}.", plain::path(path))?;
        Ok(Outcome::Fine)
    }

    fn entries(&self, site: &Site) -> Result<Vec<Entry>, Unusable> {
        lock_of(site, &self.lock)?;
        let range = range_of(site, self.from, self.to)?;
        let whose: Vec<Whose<'_>> = match (self.timetable, self.holder) {
            (Some(id), _) => vec![Whose::Timetable(defined(site, id)?)],
            (None, Some(number)) => vec![Whose::Holder(holder_of(site, number)?)],
            (None, None) => site.holders.iter().map(Whose::Holder).collect(),
        };
        let entries = whose.into_iter().flat_map(|whose| {
            let (key, called) = match whose {
                Whose::Timetable(id) => {
                    (format!("timetable-{}", id.letter()), format!("Timetable {}", id.letter()))
                }
                Whose::Holder(person) => {
                    (format!("holder-{:02}", person.number.get()), person.called())
                }
            };
            stretches(site, whose, range).into_iter().map(move |stretch| Entry {
                whose: key.clone(),
                summary: format!("{called} may open {}", self.lock),
                lock: self.lock.clone(),
                stretch,
            })
        });
        Ok(entries.collect())
    }
}
