//! `plan openings`: when somebody may open.

use std::io;
use std::path::PathBuf;

use clap::Args;
use lock_core::holder::{Number, Standing};
use lock_core::time::{Date, Zone};
use lock_core::timetable::{Follows, TimetableId};
use serde_json::json;

use super::{defined, holder_of, lock_of, parse_number, parse_timetable, range_of};
use crate::cli::moment::{day_text, parse_date, rfc3339, time_text};
use crate::cli::report::Unusable;
use crate::cli::{Format, Outcome, Streams};
use crate::plan::{Range, Stretch, everybody, openings};
use crate::site::{Person, Site};

#[derive(Args)]
pub(in crate::cli) struct OpeningsArguments {
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
    /// The date at whose start the list ends.
    #[arg(long, value_name = "DATE", value_parser = parse_date)]
    to: Date,
    /// How the list is written.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

/// What `plan openings` answers.
pub(super) enum Answer<'s> {
    /// For one holder or timetable.
    One(List<'s>),
    /// For each holder.
    Everybody(Vec<List<'s>>),
}

/// The openings of one holder or timetable.
pub(super) struct List<'s> {
    whose: Whose<'s>,
    stretches: Vec<Stretch>,
}

#[derive(Clone, Copy)]
pub(super) enum Whose<'s> {
    Holder(&'s Person),
    Timetable(TimetableId),
}

impl OpeningsArguments {
    pub(super) fn answer<'s>(&self, site: &'s Site) -> Result<Answer<'s>, Unusable> {
        lock_of(site, &self.lock)?;
        let range = range_of(site, self.from, self.to)?;
        let list = |whose| List { whose, stretches: stretches(site, whose, range) };
        if let Some(id) = self.timetable {
            return Ok(Answer::One(list(Whose::Timetable(defined(site, id)?))));
        }
        if let Some(number) = self.holder {
            return Ok(Answer::One(list(Whose::Holder(holder_of(site, number)?))));
        }
        let lists = everybody(site, range).into_iter();
        let lists =
            lists.map(|(person, stretches)| List { whose: Whose::Holder(person), stretches });
        Ok(Answer::Everybody(lists.collect()))
    }
}

/// The stretches of one: none for whoever may not open.
pub(super) fn stretches(site: &Site, whose: Whose<'_>, range: Range) -> Vec<Stretch> {
    match whose {
        Whose::Timetable(id) => openings(site, Follows::Timetable(id), range),
        Whose::Holder(person) if person.may_open() => openings(site, person.follows, range),
        Whose::Holder(_) => Vec::new(),
    }
}

impl Answer<'_> {
    pub(super) fn write(
        &self,
        site: &Site,
        arguments: &OpeningsArguments,
        streams: &mut Streams<'_>,
    ) -> io::Result<Outcome> {
        let lists: &[List<'_>] = match self {
            Self::One(list) => std::slice::from_ref(list),
            Self::Everybody(lists) => lists,
        };
        for list in lists {
            list.note(streams)?;
        }
        match (arguments.format, self) {
            (Format::Json, Self::One(list)) => {
                writeln!(streams.out, "{:#}", list.json(&site.zone))?;
            }
            (Format::Json, Self::Everybody(lists)) => {
                let people: Vec<_> =
                    lists.iter().map(|list| list.json_with_holder(&site.zone)).collect();
                writeln!(streams.out, "{:#}", serde_json::Value::Array(people))?;
            }
            (Format::Text, _) => {
                for list in lists {
                    list.text(site, &arguments.lock, streams)?;
                }
            }
        }
        Ok(Outcome::Fine)
    }
}

impl List<'_> {
    /// Says why a list is empty.
    fn note(&self, streams: &mut Streams<'_>) -> io::Result<()> {
        let Whose::Holder(person) = self.whose else { return Ok(()) };
        if person.may_open() {
            return Ok(());
        }
        let why = match person.standing {
            Standing::Suspended => "is suspended".into(),
            Standing::Active => format!("may not open: a {} in this file", person.role.name()),
        };
        writeln!(streams.err, "Note: {} {why}.", person.called())
    }

    fn json(&self, zone: &Zone) -> serde_json::Value {
        let stretch = |stretch: &Stretch| {
            let (from, to) = (rfc3339(zone, stretch.from), rfc3339(zone, stretch.to));
            json!({ "from": from, "to": to })
        };
        self.stretches.iter().map(stretch).collect()
    }

    fn json_with_holder(&self, zone: &Zone) -> serde_json::Value {
        match self.whose {
            Whose::Holder(person) => json!({
                "holder": person.number.get(),
                "name": person.name,
                "openings": self.json(zone),
            }),
            Whose::Timetable(id) => json!({
                "timetable": id.letter().to_string(),
                "openings": self.json(zone),
            }),
        }
    }

    fn text(&self, site: &Site, lock: &str, streams: &mut Streams<'_>) -> io::Result<()> {
        let who = match self.whose {
            Whose::Holder(person) => person.called(),
            Whose::Timetable(id) => format!("Timetable {}", id.letter()),
        };
        writeln!(streams.out, "{who}, lock {lock}, {}:", site.zone_name)?;
        if self.stretches.is_empty() {
            writeln!(streams.out, "  no opening time")?;
        }
        for stretch in &self.stretches {
            writeln!(streams.out, "  {}", line(&site.zone, *stretch))?;
        }
        Ok(())
    }
}

/// `Mon 2027-03-01  08:30 to 12:30`.
fn line(zone: &Zone, stretch: Stretch) -> String {
    let (from, to) = (zone.local(stretch.from), zone.local(stretch.to));
    let end = if from.date == to.date {
        time_text(to)
    } else if from.date.next() == Some(to.date) && to.second == 0 {
        "24:00".into()
    } else {
        format!("{} {}", day_text(to.date), time_text(to))
    };
    let change = if from.offset == to.offset { "" } else { "  (the clock changes)" };
    format!("{}  {} to {end}{change}", day_text(from.date), time_text(from))
}
