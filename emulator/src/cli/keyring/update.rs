//! `emulator keyring update`: what extracts tell the keyring.

use std::io;
use std::path::PathBuf;

use clap::Args;
use lock_core::pairing::LockNumber;
use miette::Diagnostic;
use serde_json::{Value, json};

use super::RingArguments;
use crate::audit::extract::{Maker, files};
use crate::audit::reading::{FileNote, LockFiles, Problem, Unread, read, sort};
use crate::audit::report::several;
use crate::audit::sealed::Sealed;
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::keyring::{Heard, Keyring, News, Standing};
use crate::plain;

#[derive(Args)]
pub(in crate::cli) struct Arguments {
    #[command(flatten)]
    ring: RingArguments,
    /// Extracts, or folders; in a folder, files ending in `.extract` are read.
    #[arg(required = true)]
    paths: Vec<PathBuf>,
}

/// What came of one lock's extracts.
struct Told {
    lock: LockNumber,
    /// A key that the lock is known to have only now.
    confirmed: Option<u32>,
    news: News,
    /// Files that are not what the lock sealed.
    broken: u32,
}

/// What came of the extracts, those that could not be read, and the folders that could
/// not be searched.
type Read = (Vec<Told>, Vec<Unread>, Vec<(PathBuf, io::Error)>);

impl Arguments {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        match self.update() {
            Ok((told, unread, unsearched)) => self.tell(&told, &unread, &unsearched, streams),
            Err(why) => refuse(streams, &*why),
        }
    }

    fn update(&self) -> Result<Read, Box<dyn Diagnostic>> {
        let mut ring = self.ring.open()?;
        let listing = files(&self.paths).map_err(|(path, why)| {
            let what = format!("{} cannot be read: {why}.", plain::path(&path));
            Unusable::new(what, "Name extracts, or folders that hold them.")
        })?;
        let (locks, unread) = sort(&Sealed(&ring.keyring), &listing.files);
        let mut all = Vec::new();
        for files in locks.iter().filter(|files| files.maker == Maker::Real) {
            let number = u16::try_from(files.lock).ok().and_then(LockNumber::new);
            all.extend(number.map(|lock| told(&mut ring.keyring, lock, files)));
        }
        ring.save()?;
        Ok((all, unread, listing.unsearched))
    }

    fn tell(
        &self,
        all: &[Told],
        unread: &[Unread],
        unsearched: &[(PathBuf, io::Error)],
        streams: &mut Streams<'_>,
    ) -> io::Result<Outcome> {
        match self.ring.format {
            Format::Json => {
                let rows = all.iter().map(|told| {
                    json!({
                        "lock": told.lock.get(), "confirmed": told.confirmed,
                        "used": told.news.codes.used, "unknown": told.news.codes.unknown,
                        "version": told.news.version, "broken": told.broken,
                    })
                });
                let rows = rows.collect::<Value>();
                let (unread, unsearched) = (unread.len(), unsearched.len());
                let object = json!({ "locks": rows, "unread": unread, "unsearched": unsearched });
                writeln!(streams.out, "{object}")?;
            }
            Format::Text => {
                for told in all {
                    told.write(streams)?;
                }
                for Unread { path, why } in unread {
                    writeln!(streams.err, "{} {why}.", plain::path(path))?;
                }
                for (path, why) in unsearched {
                    let path = plain::path(path);
                    writeln!(streams.err, "{path} could not be searched: {why}.")?;
                }
            }
        }
        let found = all.iter().any(Told::is_finding) || !unread.is_empty();
        Ok(match (unsearched.is_empty(), found) {
            (false, _) => Outcome::Unusable,
            (true, true) => Outcome::Found,
            (true, false) => Outcome::Fine,
        })
    }
}

/// Reads one lock's extracts into the keyring.
fn told(keyring: &mut Keyring, lock: LockNumber, files: &LockFiles) -> Told {
    let mut heard = Heard::default();
    let notes = read(&Sealed(&*keyring), files, &mut |entry| heard.take(entry));
    let whole = |note: &&FileNote| !note.problems.iter().any(Problem::is_broken);
    let proved = notes.iter().filter(whole).map(|note| note.header.generation).max();
    let confirmed =
        proved.filter(|proved| keyring.standing(lock, *proved) == Some(Standing::Unconfirmed));
    let confirmed = confirmed.and_then(|proved| keyring.confirm(lock, Some(proved)).ok());
    let broken = notes.iter().filter(|note| !whole(note)).count();
    let broken = u32::try_from(broken).unwrap_or(u32::MAX);
    Told { lock, confirmed, news: keyring.hear(lock, &heard), broken }
}

impl Told {
    /// Whether somebody should look into it: something was made elsewhere.
    const fn is_finding(&self) -> bool {
        self.news.codes.unknown > 0 || self.news.version.is_some() || self.broken > 0
    }

    fn write(&self, streams: &mut Streams<'_>) -> io::Result<()> {
        let lock = self.lock.get();
        let used = several(self.news.codes.used, "code");
        writeln!(streams.out, "Lock {lock}: {used} used.")?;
        if let Some(generation) = self.confirmed {
            writeln!(streams.out, "  It has key {generation}, which is used from now on.")?;
        }
        if self.news.codes.unknown > 0 {
            let uses = several(self.news.codes.unknown, "opening");
            writeln!(
                streams.out,
                "  {uses} by couriers with codes that are not out here. Was another copy of the \
                 keyring used?"
            )?;
        }
        if let Some(version) = self.news.version {
            writeln!(
                streams.out,
                "  It took version {version}, which was not sealed here; the next one is above \
                 it. Was another copy of the keyring used?"
            )?;
        }
        if self.broken > 0 {
            let files = several(self.broken, "file");
            writeln!(streams.out, "  {files} broken: emulator audit verify says which.")?;
        }
        Ok(())
    }
}
