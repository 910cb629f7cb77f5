//! `emulator audit`: what was carried out of locks, verified, reported, exported.

mod export;
mod keys;
mod report;
mod verify;

use std::collections::BTreeMap;
use std::io;
use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::report::{Unusable, refuse};
use super::{Outcome, Streams};
use crate::audit::extract::{self, Maker, Opener};
use crate::audit::names::Names;
use crate::audit::reading::{FileNote, LockFiles, Problem, Unread, sort};
use crate::audit::report::Telling;
use crate::site::Site;

#[derive(Subcommand)]
pub(super) enum Command {
    /// Check that extracts are whole, and that nothing is missing between them.
    ///
    /// Each file's seal, lock, key generation and sequence of records; records
    /// that are lost, or were overwritten before anybody collected them; and
    /// whether extracts of one lock agree where they overlap.
    ///
    /// Exit code 0 if everything is there, 1 if a file is broken or records are
    /// missing, 2 if the command cannot be carried out.
    #[command(after_help = "Example:\n  emulator audit verify --keyring bakery.keyring extracts/")]
    Verify(verify::Arguments),
    /// Tell what happened: openings from release to closing, refusals, changes.
    ///
    /// What should be looked into comes first, each with its record's number.
    /// Nothing tells a duress code from a plain one unless --confidential is
    /// given.
    ///
    /// Exit code 0 if nothing stands out, 1 if something does, 2 if the command
    /// cannot be carried out.
    #[command(after_help = "\
Examples:
  emulator audit report --keyring bakery.keyring --site harbour-bakery.toml extracts/
  emulator audit report --keyring bakery.keyring --html audit.html till.extract")]
    Report(report::Arguments),
    /// Write records one by one, for spreadsheets and other programs.
    ///
    /// Exit code 0 if all could be read, 1 if a file is broken, 2 if the command
    /// cannot be carried out.
    #[command(after_help = "\
Examples:
  emulator audit export --keyring bakery.keyring --output march.csv extracts/
  emulator audit export --keyring bakery.keyring --from 2027-03-01 --format json extracts/")]
    Export(export::Arguments),
}

impl Command {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        match self {
            Self::Verify(arguments) => arguments.run(streams),
            Self::Report(arguments) => arguments.run(streams),
            Self::Export(arguments) => arguments.run(streams),
        }
    }
}

/// What is read, and with which keys and names.
#[derive(Args)]
struct Input {
    /// Extracts, or folders; in a folder, files ending in `.extract` are read.
    #[arg(required = true)]
    paths: Vec<PathBuf>,
    /// A site file: names and local time of its locks. May be given several times;
    /// a lock that is in none of them is told by numbers and in UTC.
    #[arg(long, value_name = "FILE")]
    site: Vec<PathBuf>,
}

/// The extracts that were found.
struct Found {
    sites: Vec<Site>,
    locks: Vec<LockFiles>,
    unread: Vec<Unread>,
}

impl Input {
    /// Finds the files and sorts them by lock; `None` if that was refused.
    fn find(
        &self,
        opener: &impl Opener,
        streams: &mut Streams<'_>,
    ) -> io::Result<Result<Found, Outcome>> {
        let sites: Result<Vec<Site>, _> = self.site.iter().map(|path| Site::load(path)).collect();
        let sites = match sites {
            Ok(sites) => sites,
            Err(why) => return refuse(streams, &why).map(Err),
        };
        if let Some(why) = claimed_twice(&sites) {
            return refuse(streams, &why).map(Err);
        }
        let paths = match extract::files(&self.paths) {
            Ok(paths) => paths,
            Err((path, why)) => {
                let what = format!("{} cannot be read: {why}.", path.display());
                let why = Unusable::new(what, "Name extracts, or folders that hold them.");
                return refuse(streams, &why).map(Err);
            }
        };
        if paths.is_empty() {
            let what = "There is no extract in what was named.";
            let remedy =
                format!("In a folder, files are read whose names end in .{}.", extract::ENDING);
            return refuse(streams, &Unusable::new(what, remedy)).map(Err);
        }
        let (locks, unread) = sort(opener, &paths);
        let found = Found { sites, locks, unread };
        found.warn(streams)?;
        Ok(Ok(found))
    }
}

/// Two site files that have one lock: nothing says whose names and times are right.
fn claimed_twice(sites: &[Site]) -> Option<Unusable> {
    let mut seen: BTreeMap<u32, &Site> = BTreeMap::new();
    for site in sites {
        for plan in &site.locks {
            let Some(other) = seen.insert(plan.number, site) else { continue };
            let (one, two) = (&other.places.file, &site.places.file);
            let what = format!("Lock {} is in two site files: {one} and {two}.", plan.number);
            return Some(Unusable::new(what, "Name the one that it belongs to."));
        }
    }
    None
}

impl Found {
    fn names(&self, lock: &LockFiles) -> Names<'_> {
        Names::of_lock(&self.sites, lock.lock)
    }

    /// Says which locks no site file has.
    fn warn(&self, streams: &mut Streams<'_>) -> io::Result<()> {
        let mut told = None;
        for lock in self.locks.iter().filter(|lock| self.names(lock).is_stranger()) {
            if told.replace(lock.lock) != Some(lock.lock) {
                writeln!(
                    streams.err,
                    "Lock {} is in none of the site files: it is told by numbers, in UTC.",
                    lock.lock
                )?;
            }
        }
        Ok(())
    }

    /// How many locks there are, emulated ones left out.
    fn real_locks(&self) -> u32 {
        let real = self.locks.iter().filter(|lock| lock.maker == Maker::Real);
        u32::try_from(real.count()).unwrap_or(u32::MAX)
    }
}

const fn telling(confidential: bool) -> Telling {
    if confidential { Telling::Confidential } else { Telling::Discreet }
}

/// `till-2.extract is cut short: …`
fn unread_line(unread: &Unread) -> String {
    format!("{} {}.", unread.path.display(), unread.why)
}

/// The same for each problem of a file that could be opened.
fn broken_lines(note: &FileNote) -> impl Iterator<Item = String> {
    let broken = note.problems.iter().filter(|problem| problem.is_broken());
    broken.map(|problem| format!("{} {}", note.path.display(), problem.words()))
}

/// Whether a file is not what its lock sealed.
fn is_broken(note: &FileNote) -> bool {
    note.problems.iter().any(Problem::is_broken)
}
