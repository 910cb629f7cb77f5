//! `audit report`.

use std::io;
use std::path::{Path, PathBuf};

use clap::Args;
use lock_core::time::Seconds;

use super::super::report::refuse;
use super::super::{Format, Outcome, Streams};
use super::keys::KeyringArguments;
use super::{Found, Input, broken_lines, is_broken, new_file, not_written, telling, unread_line};
use crate::audit::extract::Opener;
use crate::audit::finding::Limits;
use crate::audit::ledger::{Clerk, Ledger};
use crate::audit::reading::{FileNote, LockFiles, read};
use crate::audit::report::page::{self, Overview};
use crate::audit::report::{EMULATED, Report, json, several};

#[derive(Args)]
pub(in crate::cli) struct Arguments {
    #[command(flatten)]
    input: Input,
    #[command(flatten)]
    keys: KeyringArguments,
    /// Tell which codes were given under duress. Not for a screen that
    /// others can see.
    #[arg(long)]
    confidential: bool,
    /// Call out openings that are longer than this.
    #[arg(long, value_name = "MINUTES", default_value_t = 60, value_parser = clap::value_parser!(u32).range(1..=10_080))]
    long: u32,
    /// Also write the report as a page, with a picture of the days, where there is no
    /// file of that name yet. With --confidential only its owner can read it.
    #[arg(long, value_name = "FILE")]
    html: Option<PathBuf>,
    /// Put the page in the place of a file that is there.
    #[arg(long, requires = "html")]
    force: bool,
    /// How the report is written.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
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
        if let Some(path) = &self.html
            && let Err(why) = self.page(&opener, &found, path)
        {
            return refuse(streams, &not_written(path, &why));
        }
        match self.format {
            Format::Text => self.text(&opener, &found, streams),
            Format::Json => self.json(&opener, &found, streams),
        }
    }

    /// Calls `with` for the report of each lock, one in memory at a time.
    fn each<O: Opener>(
        &self,
        opener: &O,
        found: &Found,
        with: &mut dyn FnMut(&Report<'_>) -> io::Result<()>,
    ) -> io::Result<()> {
        let limits = Limits { open: Seconds::from_minutes(self.long) };
        for (place, lock) in found.locks.iter().enumerate() {
            let (ledger, notes) = ledger(opener, lock);
            let (names, telling) = (found.names(lock), telling(self.confidential));
            let mut report = Report::new(lock.lock, &notes, &ledger, names, limits, telling);
            if report.is_emulated() {
                report.anchor = format!("emulated-{place}");
            }
            with(&report)?;
        }
        Ok(())
    }

    fn text<O: Opener>(
        &self,
        opener: &O,
        found: &Found,
        streams: &mut Streams<'_>,
    ) -> io::Result<Outcome> {
        let (mut standing_out, mut emulated, mut broken) = (0_u32, 0_u32, found.unread.len());
        self.each(opener, found, &mut |report| {
            standing_out += u32::from(report.has_findings() && !report.is_emulated());
            emulated += u32::from(report.is_emulated());
            broken += report.files.iter().filter(|note| is_broken(note)).count();
            report.write_text(streams.out)?;
            writeln!(streams.out)
        })?;
        for line in found.unread.iter().map(unread_line).chain(found.unsearched_lines()) {
            writeln!(streams.out, "{line}")?;
        }
        let marked = match emulated {
            0 => String::new(),
            emulated => format!("; {emulated} {EMULATED}"),
        };
        writeln!(
            streams.out,
            "{}, {standing_out} with something to look into; {} broken{marked}",
            several(found.real_locks(), "lock"),
            several(u32::try_from(broken).unwrap_or(u32::MAX), "file"),
        )?;
        let fine = standing_out == 0 && broken == 0 && emulated == 0;
        Ok(found.outcome(if fine { Outcome::Fine } else { Outcome::Found }))
    }

    fn json<O: Opener>(
        &self,
        opener: &O,
        found: &Found,
        streams: &mut Streams<'_>,
    ) -> io::Result<Outcome> {
        let mut outcome = if found.unread.is_empty() { Outcome::Fine } else { Outcome::Found };
        let mut comma = "";
        write!(streams.out, "{{\"locks\":[")?;
        self.each(opener, found, &mut |report| {
            if report.has_findings() {
                outcome = Outcome::Found;
            }
            write!(streams.out, "{comma}\n{}", report.json())?;
            comma = ",";
            Ok(())
        })?;
        let unread: serde_json::Value = found.unread.iter().map(json::unread).collect();
        let unsearched = found.unsearched_json();
        writeln!(streams.out, "\n],\"unread\":{unread},\"unsearched\":{unsearched}}}")?;
        Ok(found.outcome(outcome))
    }

    /// Reads everything twice: the overview stands at the top, and only one
    /// lock's report is in memory at a time.
    fn page<O: Opener>(&self, opener: &O, found: &Found, path: &Path) -> io::Result<()> {
        let mut locks = Vec::new();
        let mut files: Vec<String> = found.unread.iter().map(unread_line).collect();
        files.extend(found.unsearched_lines());
        self.each(opener, found, &mut |report| {
            files.extend(report.files.iter().flat_map(broken_lines));
            locks.push(overview(report));
            Ok(())
        })?;
        let mut out = new_file(path, self.confidential, self.force)?;
        page::begin(&mut out, &found.sites, telling(self.confidential), &locks, &files)?;
        self.each(opener, found, &mut |report| report.write_section(&mut out))?;
        page::end(&mut out)?;
        out.keep()
    }
}

fn overview(report: &Report<'_>) -> Overview {
    let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
    Overview {
        anchor: report.anchor.clone(),
        title: report.title(),
        openings: count(report.ledger.openings.len()),
        findings: count(report.findings.len()),
        broken: count(report.files.iter().filter(|note| is_broken(note)).count()),
    }
}

fn ledger(opener: &impl Opener, lock: &LockFiles) -> (Ledger, Vec<FileNote>) {
    let mut clerk = Clerk::default();
    let notes = read(opener, lock, &mut |entry| clerk.take(entry));
    (clerk.finish(), notes)
}
