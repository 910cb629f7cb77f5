//! `emulator audit`: what was carried out of locks, verified, reported, exported.

mod absent;
mod export;
mod keys;
mod report;
mod verify;

use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};

use clap::{Args, Subcommand};
use serde_json::json;

use super::report::{Unusable, refuse};
use super::{Outcome, Streams};
use crate::audit::extract::{self, Listing, Maker, Opener};
use crate::audit::names::Names;
use crate::audit::reading::{FileNote, LockFiles, Problem, Unread, sort};
use crate::audit::report::Telling;
use crate::files::{Eyes, NewFile, There};
use crate::plain;
use crate::site::Site;

#[derive(Subcommand)]
pub(super) enum Command {
    /// Check that extracts are whole, and that nothing is missing between them.
    ///
    /// Each file's seal, lock, key generation and sequence of records; records
    /// that are lost, or were overwritten before anybody collected them; and
    /// whether extracts of one lock agree where they overlap. With --site, locks of
    /// which there is no extract; with --overdue, locks whose newest one is old.
    ///
    /// Exit code 0 if everything is there, 1 if a file is broken or emulated, or records
    /// or extracts are missing or overdue, 2 if the command cannot be carried out or a
    /// folder in what was named could not be searched.
    #[command(after_help = "Example:\n  emulator audit verify --keyring bakery.keyring extracts/")]
    Verify(verify::Arguments),
    /// Tell what happened: openings from release to closing, refusals, changes.
    ///
    /// What should be looked into comes first, each with its record's number.
    /// Nothing tells a duress code from a plain one unless --confidential is
    /// given.
    ///
    /// Exit code 0 if nothing stands out, 1 if something does or a file is broken or
    /// emulated, 2 if the command cannot be carried out or a folder in what was named could not be searched.
    #[command(after_help = "\
Examples:
  emulator audit report --keyring bakery.keyring --site harbour-bakery.toml extracts/
  emulator audit report --keyring bakery.keyring --html audit.html till.extract")]
    Report(report::Arguments),
    /// Write records one by one, for spreadsheets and other programs.
    ///
    /// Exit code 0 if all could be read, 1 if a file is broken or emulated, 2 if the command
    /// cannot be carried out or a folder in what was named could not be searched.
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
    /// Folders that could not be searched.
    unsearched: Vec<(PathBuf, io::Error)>,
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
        let Listing { files: paths, unsearched } = match extract::files(&self.paths) {
            Ok(listing) => listing,
            Err((path, why)) => {
                let what = format!("{} cannot be read: {why}.", plain::path(&path));
                let why = Unusable::new(what, "Name extracts, or folders that hold them.");
                return refuse(streams, &why).map(Err);
            }
        };
        if paths.is_empty() && unsearched.is_empty() {
            let what = "There is no extract in what was named.";
            let remedy =
                format!("In a folder, files are read whose names end in .{}.", extract::ENDING);
            return refuse(streams, &Unusable::new(what, remedy)).map(Err);
        }
        let (locks, unread) = sort(opener, &paths);
        let found = Found { sites, locks, unread, unsearched };
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
        self.names_of(lock.lock)
    }

    fn names_of(&self, lock: u32) -> Names<'_> {
        Names::of_lock(&self.sites, lock)
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

impl Found {
    /// A line for each folder that could not be searched.
    fn unsearched_lines(&self) -> impl Iterator<Item = String> {
        self.unsearched
            .iter()
            .map(|(path, why)| format!("{} could not be searched: {why}.", plain::path(path)))
    }

    /// The same for programs.
    fn unsearched_json(&self) -> serde_json::Value {
        let row = |(path, why): &(PathBuf, io::Error)| json!({ "folder": plain::path(path), "why": why.to_string() });
        self.unsearched.iter().map(row).collect()
    }

    /// What was searched came to `outcome`; what was not may hold anything.
    fn outcome(&self, outcome: Outcome) -> Outcome {
        if self.unsearched.is_empty() { outcome } else { Outcome::Unusable }
    }
}

/// The new file of `--output` or `--html`. One that tells of duress is for its
/// owner's eyes only.
fn new_file(path: &Path, confidential: bool, force: bool) -> io::Result<NewFile> {
    let eyes = if confidential { Eyes::Owner } else { Eyes::Everybody };
    let there = if force { There::Goes } else { There::Stays };
    NewFile::begin(path, there, eyes)
}

/// Why there is no new file, and what to do.
fn not_written(path: &Path, why: &io::Error) -> Unusable {
    let remedy = match why.kind() {
        io::ErrorKind::AlreadyExists => "Give another path, or --force to put it in its place.",
        _ => "Give another path.",
    };
    Unusable::not_written(path, why, remedy)
}

const fn telling(confidential: bool) -> Telling {
    if confidential { Telling::Confidential } else { Telling::Discreet }
}

/// `till-2.extract is cut short: …`
fn unread_line(unread: &Unread) -> String {
    format!("{} {}.", plain::path(&unread.path), unread.why)
}

/// The same for each problem of a file that could be opened.
fn broken_lines(note: &FileNote) -> impl Iterator<Item = String> {
    let broken = note.problems.iter().filter(|problem| problem.is_broken());
    broken.map(|problem| format!("{} {}", plain::path(&note.path), problem.words()))
}

/// Whether a file is not what its lock sealed.
fn is_broken(note: &FileNote) -> bool {
    note.problems.iter().any(Problem::is_broken)
}
