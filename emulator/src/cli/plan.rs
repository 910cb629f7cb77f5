//! `plan openings` and `plan check`.

use std::io;
use std::path::PathBuf;

use clap::{Args, Subcommand};
use lock_core::holder::{Number, Standing};
use lock_core::time::{Date, Zone};
use lock_core::timetable::{Follows, TimetableId};
use serde_json::json;

use super::moment::{date_text, day_text, parse_date, rfc3339, time_text, today};
use super::report::{Unusable, refuse};
use super::{Format, Outcome, Streams};
use crate::document::LoadError;
use crate::plan::{Finding, Range, Severity, Stretch, check, everybody, first_instant, openings};
use crate::site::{Person, Site};

#[derive(Subcommand)]
pub(super) enum Command {
    /// List when a holder, a timetable or everybody may open a lock.
    ///
    /// What is listed is permission to be released: time delay, penalties and
    /// hold-shut are not counted in. Stretches include their first instant and
    /// end before their last.
    #[command(after_help = "Example:\n  emulator plan openings harbour-bakery.toml --lock till \
                            --holder 12 --from 2027-03-01 --to 2027-04-01")]
    Openings(OpeningsArguments),
    /// Look for what is written correctly and yet will not work out.
    ///
    /// Exit code 0 if there are notes at most, 1 if there are errors or
    /// warnings, 2 if the file cannot be used.
    #[command(after_help = "Example:\n  emulator plan check harbour-bakery.toml --from 2027-03-01")]
    Check(CheckArguments),
    /// Seal a lock's opening times into a file that this lock alone takes.
    ///
    /// Closures, special days, timetables and zone are those of the site file.
    /// Every file has a higher version than the one before it; the lock takes no
    /// older one. The fingerprint is shown by the lock too, to be compared.
    #[command(after_help = "Example:\n  emulator plan seal harbour-bakery.toml --lock till \
                      --keyring bakery.keyring --out till.timetables")]
    Seal(super::keyring::SealArguments),
    /// Make a courier's next one-time code.
    ///
    /// It is good for one opening within the courier's timetable. The lock looks
    /// ten counters ahead, some of which are left out: have no more than six codes
    /// outstanding.
    #[command(after_help = "Example:\n  emulator plan code harbour-bakery.toml --lock till \
                      --holder 40 --keyring bakery.keyring")]
    Code(super::keyring::CodeArguments),
}

#[derive(Args)]
pub(super) struct OpeningsArguments {
    /// The site file.
    site: PathBuf,
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

#[derive(Args)]
pub(super) struct CheckArguments {
    /// The site file.
    site: PathBuf,
    /// The date to look ahead from; today where it is left out.
    #[arg(long, value_name = "DATE", value_parser = parse_date)]
    from: Option<Date>,
    /// How the findings are written.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

pub(super) fn parse_number(text: &str) -> Result<Number, String> {
    let plain = text.len() <= 2 && text.bytes().all(|b| b.is_ascii_digit());
    let number = plain.then(|| text.parse().ok()).flatten().and_then(Number::new);
    number.filter(|number| number.get() != 0).ok_or_else(|| "holders are numbered 1 to 99".into())
}

fn parse_timetable(text: &str) -> Result<TimetableId, String> {
    let found = TimetableId::ALL.into_iter().find(|id| text == id.letter().to_string());
    found.ok_or_else(|| "timetables are called A, B, C and D".into())
}

impl Command {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        match self {
            Self::Openings(arguments) => match Site::load(&arguments.site) {
                Ok(site) => match arguments.answer(&site) {
                    Ok(answer) => answer.write(&site, arguments, streams),
                    Err(why) => refuse(streams, &why),
                },
                Err(why) => refuse_file(streams, &why),
            },
            Self::Check(arguments) => match Site::load(&arguments.site) {
                Ok(site) => arguments.write(&site, streams),
                Err(why) => refuse_file(streams, &why),
            },
            Self::Seal(arguments) => arguments.run(streams),
            Self::Code(arguments) => arguments.run(streams),
        }
    }
}

fn refuse_file(streams: &mut Streams<'_>, why: &LoadError) -> io::Result<Outcome> {
    refuse(streams, why)
}

/// What `plan openings` answers.
enum Answer<'s> {
    /// For one holder or timetable.
    One(List<'s>),
    /// For each holder.
    Everybody(Vec<List<'s>>),
}

/// The openings of one holder or timetable.
struct List<'s> {
    whose: Whose<'s>,
    stretches: Vec<Stretch>,
}

#[derive(Clone, Copy)]
enum Whose<'s> {
    Holder(&'s Person),
    Timetable(TimetableId),
}

impl OpeningsArguments {
    fn answer<'s>(&self, site: &'s Site) -> Result<Answer<'s>, Unusable> {
        if site.lock(&self.lock).is_none() {
            let ids: Vec<&str> = site.locks.iter().map(|lock| lock.id.as_str()).collect();
            let what = format!("The site has no lock \"{}\".", self.lock);
            return Err(Unusable::new(what, format!("Its locks are: {}.", ids.join(", "))));
        }
        let range = self.range(site)?;
        let list = |whose| List { whose, stretches: stretches(site, whose, range) };
        if let Some(id) = self.timetable {
            if !site.defines(id) {
                let what = format!("The site has no timetable {}.", id.letter());
                return Err(Unusable::new(what, "Name one that the file defines."));
            }
            return Ok(Answer::One(list(Whose::Timetable(id))));
        }
        if let Some(number) = self.holder {
            let person = site.holder(number).ok_or_else(|| {
                let what = format!("Nobody has the number {:02}.", number.get());
                Unusable::new(
                    what,
                    "Name a holder of the file, or leave --holder out for everybody.",
                )
            })?;
            return Ok(Answer::One(list(Whose::Holder(person))));
        }
        let lists = everybody(site, range).into_iter();
        let lists =
            lists.map(|(person, stretches)| List { whose: Whose::Holder(person), stretches });
        Ok(Answer::Everybody(lists.collect()))
    }

    fn range(&self, site: &Site) -> Result<Range, Unusable> {
        if self.to < self.from {
            let what = "--to lies before --from.";
            return Err(Unusable::new(what, "The list starts with --from and ends before --to."));
        }
        let range = Range::between(&site.zone, self.from, self.to).ok_or_else(|| {
            Unusable::new("The clock of a lock does not reach these dates.", "Name later dates.")
        })?;
        if range.from < site.zone_since && range.from < range.to {
            let since = date_text(site.zone.local(site.zone_since).date);
            let what = format!("The clock of {} had other rules before {since}.", site.zone_name);
            return Err(Unusable::new(what, format!("Name dates after {since}.")));
        }
        Ok(range)
    }
}

/// The stretches of one: none for whoever may not open.
fn stretches(site: &Site, whose: Whose<'_>, range: Range) -> Vec<Stretch> {
    match whose {
        Whose::Timetable(id) => openings(site, Follows::Timetable(id), range),
        Whose::Holder(person) if person.may_open() => openings(site, person.follows, range),
        Whose::Holder(_) => Vec::new(),
    }
}

impl Answer<'_> {
    fn write(
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

impl CheckArguments {
    fn write(&self, site: &Site, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let from = self.from.unwrap_or_else(|| today(&site.zone));
        if first_instant(&site.zone, from).is_none() {
            let what = "The clock of a lock does not reach this date.";
            return refuse(streams, &Unusable::new(what, "Name a later date."));
        }
        let findings = check::check(site, from);
        let file = &site.places.file;
        match self.format {
            Format::Json => {
                let rows: Vec<_> = findings.iter().map(|finding| json_row(file, finding)).collect();
                writeln!(streams.out, "{:#}", serde_json::Value::Array(rows))?;
            }
            Format::Text => {
                for Finding { severity, place, what, remedy } in &findings {
                    let word = severity.word();
                    writeln!(
                        streams.out,
                        "{file}:{}:{}: {word}: {what}",
                        place.line, place.column
                    )?;
                    writeln!(streams.out, "    {remedy}")?;
                }
                writeln!(streams.out, "{}", summary(&findings))?;
            }
        }
        let worst = findings.iter().map(|finding| finding.severity).max();
        Ok(match worst {
            Some(Severity::Error | Severity::Warning) => Outcome::Found,
            Some(Severity::Note) | None => Outcome::Fine,
        })
    }
}

fn json_row(file: &str, finding: &Finding) -> serde_json::Value {
    json!({
        "severity": finding.severity.word(),
        "file": file,
        "line": finding.place.line,
        "column": finding.place.column,
        "what": finding.what,
        "remedy": finding.remedy,
    })
}

/// `1 error, 2 warnings, 0 notes`.
fn summary(findings: &[Finding]) -> String {
    let count = |severity: Severity| {
        let count = findings.iter().filter(|finding| finding.severity == severity).count();
        let plural = if count == 1 { "" } else { "s" };
        format!("{count} {}{plural}", severity.word())
    };
    [Severity::Error, Severity::Warning, Severity::Note].map(count).join(", ")
}
