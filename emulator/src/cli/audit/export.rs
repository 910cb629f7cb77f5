//! `audit export`.

use std::io::{self, Write};
use std::path::PathBuf;

use clap::{Args, ValueEnum};
use lock_core::time::{Date, Utc};

use super::super::moment::parse_date;
use super::super::report::{Unusable, refuse};
use super::super::{Outcome, Streams};
use super::keys::KeyringArguments;
use super::{Found, Input, broken_lines, new_file, not_written, telling, unread_line};
use crate::audit::export::{Exporter, Form, Span};
use crate::audit::extract::{Maker, Opener};
use crate::audit::names::Names;
use crate::audit::reading::read;
use crate::audit::report::{EMULATED, several};
use crate::plain;
use crate::plan::first_instant;

#[derive(Args)]
pub(in crate::cli) struct Arguments {
    #[command(flatten)]
    input: Input,
    #[command(flatten)]
    keys: KeyringArguments,
    /// The first date that is written; without it, from the first record on.
    ///
    /// A record without a time counts as of the time of the record before.
    #[arg(long, value_name = "DATE", value_parser = parse_date)]
    from: Option<Date>,
    /// The date at whose start the list ends.
    #[arg(long, value_name = "DATE", value_parser = parse_date)]
    until: Option<Date>,
    /// Tell which codes were given under duress, in a column `outcome`.
    #[arg(long)]
    confidential: bool,
    /// The file to make, where there is none of that name yet; without it, records go
    /// to the standard output. With --confidential only its owner can read it.
    #[arg(long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Put the new file in the place of one that is there.
    #[arg(long, requires = "output")]
    force: bool,
    /// How records are written.
    #[arg(long, value_enum, default_value_t = Table::Csv)]
    format: Table,
}

/// How records are written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
enum Table {
    /// Comma-separated values (RFC 4180), for spreadsheets.
    #[value(alias = "text")]
    Csv,
    /// An object a line, for programs.
    Json,
}

impl Arguments {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let opener = match self.keys.open(streams)? {
            Ok(opener) => opener,
            Err(outcome) => return Ok(outcome),
        };
        let found = match self.input.find(&opener, streams)? {
            Ok(found) => found,
            Err(outcome) => return Ok(outcome),
        };
        if let (Some(from), Some(until)) = (self.from, self.until)
            && until <= from
        {
            let why = Unusable::new(
                "--until does not lie after --from.",
                "The list starts with --from and ends before --until.",
            );
            return refuse(streams, &why);
        }
        let written = match &self.output {
            None => self.write(&opener, &found, &mut *streams.out)?,
            Some(path) => {
                let written = new_file(path, self.confidential, self.force).and_then(|mut file| {
                    let written = self.write(&opener, &found, &mut file)?;
                    file.keep().map(|()| written)
                });
                match written {
                    Ok(written) => written,
                    Err(why) => return refuse(streams, &not_written(path, &why)),
                }
            }
        };
        self.tell(&found, &written, streams)
    }

    fn span(&self, names: Names<'_>) -> Span {
        let start = |date: Option<Date>| -> Option<Utc> {
            date.map(|date| first_instant(names.zone(), date).unwrap_or(Utc::MAX))
        };
        Span { from: start(self.from), until: start(self.until) }
    }

    fn write<W: Write>(&self, opener: &impl Opener, found: &Found, out: W) -> io::Result<Written> {
        let form = match self.format {
            Table::Csv => Form::Csv,
            Table::Json => Form::JsonLines,
        };
        let telling = telling(self.confidential);
        let mut exporter = Exporter::new(out, form, Names::of(None), telling, Span::default())?;
        let mut written = Written::default();
        for lock in &found.locks {
            if lock.maker == Maker::Emulated {
                let files = lock.files.iter();
                written.broken.extend(files.map(|(path, _)| {
                    format!("{} was {EMULATED}: its records are left out.", plain::path(path))
                }));
                continue;
            }
            exporter.begin(found.names(lock), self.span(found.names(lock)));
            let mut result = Ok(());
            let notes = read(opener, lock, &mut |entry| {
                if result.is_ok() {
                    result = exporter.take(lock.lock, entry);
                }
            });
            result?;
            written.broken.extend(notes.iter().flat_map(broken_lines));
        }
        written.rows = exporter.finish()?;
        Ok(written)
    }

    fn tell(
        &self,
        found: &Found,
        written: &Written,
        streams: &mut Streams<'_>,
    ) -> io::Result<Outcome> {
        let broken = found.unread.iter().map(unread_line).chain(written.broken.iter().cloned());
        let broken = broken.chain(found.unsearched_lines());
        let mut outcome = Outcome::Fine;
        for line in broken {
            writeln!(streams.err, "{line}")?;
            outcome = Outcome::Found;
        }
        if let Some(path) = &self.output {
            let rows = several(written.rows, "row");
            writeln!(streams.err, "{rows} written to {}.", plain::path(path))?;
        }
        self.name_deletable(found, streams)?;
        Ok(found.outcome(outcome))
    }

    /// Whoever keeps no records from before a date must delete more than the
    /// export: the extracts that hold nothing else.
    fn name_deletable(&self, found: &Found, streams: &mut Streams<'_>) -> io::Result<()> {
        let files = found.locks.iter().flat_map(|lock| {
            let from = self.span(found.names(lock)).from;
            lock.files.iter().filter_map(move |(path, header)| Some((path, header, from?)))
        });
        for (path, header, from) in files {
            if header.made.is_some_and(|made| made < from) {
                writeln!(
                    streams.err,
                    "{} was made before that date: delete it to forget what it holds.",
                    plain::path(path)
                )?;
            }
        }
        Ok(())
    }
}

/// What was written, and what could not be read.
#[derive(Default)]
struct Written {
    rows: u32,
    broken: Vec<String>,
}
