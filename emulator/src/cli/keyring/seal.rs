//! `emulator plan seal`: opening times, sealed for one lock.

use std::io;
use std::path::{Path, PathBuf};

use clap::Args;
use lock_core::link::{Fingerprint, Version, Wrong};
use lock_core::time::Utc;
use miette::Diagnostic;
use serde_json::json;

use super::{RingArguments, lock_of, no_key, tell_waiting};
use crate::carry::{opening_times, sealed};
use crate::cli::moment::today;
use crate::cli::plan::rule_holds;
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::files::{Eyes, There, write};
use crate::keyring::NoVersion;
use crate::plain;
use crate::plan::check::check;
use crate::plan::{Severity, first_instant};
use crate::site::Site;

#[derive(Args)]
pub(in crate::cli) struct Arguments {
    /// The site file.
    site: PathBuf,
    /// The lock's id.
    #[arg(long, value_name = "ID")]
    lock: String,
    #[command(flatten)]
    ring: RingArguments,
    /// The file to make; there must be none of that name yet.
    #[arg(long, value_name = "FILE")]
    out: PathBuf,
    /// The version in force at the lock, where the keyring does not know it: after
    /// the loss of a keyring.
    #[arg(long, value_name = "VERSION", default_value_t = 0,
          value_parser = clap::value_parser!(u32).range(..=AFTER_MOST))]
    after: u32,
}

/// A slip must not use up the versions of a lock's whole life.
const AFTER_MOST: i64 = 1_000_000_000;

/// What was sealed.
struct Sealed {
    lock: u16,
    generation: u32,
    /// A newer key, of which nobody said that the lock has it.
    waiting: Option<u32>,
    version: Version,
    fingerprint: Fingerprint,
}

impl Arguments {
    pub(in crate::cli) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        match self.seal() {
            Ok(sealed) => self.tell(&sealed, streams),
            Err(why) => refuse(streams, &*why),
        }
    }

    fn seal(&self) -> Result<Sealed, Box<dyn Diagnostic>> {
        let site = Site::load(&self.site)?;
        let (_, lock) = lock_of(&site, &self.lock)?;
        if let Some(place) = site.places.demo {
            let what = format!(
                "The site file holds [demo.codes] (line {}); it is one for the emulator.",
                place.line
            );
            let remedy = "Take them out: no file on a laptop may hold the codes of real locks.";
            return Err(Unusable::new(what, remedy).into());
        }
        let today = first_instant(&site.zone, today(&site.zone)).unwrap_or(Utc::MIN);
        rule_holds(&site, today)?;
        refuse_errors(&site)?;
        // Before a version is used up for nothing.
        opening_times(&site).check().map_err(useless)?;
        if self.out.symlink_metadata().is_ok() {
            return Err(not_written(&self.out, "there is a file of that name").into());
        }
        let mut ring = self.ring.open()?;
        let version = ring.keyring.next_version(lock, self.after).map_err(|why| match why {
            NoVersion::NoKey => no_key(&ring.keyring, lock),
            NoVersion::Spent => {
                Unusable::new("All versions are used up.", "Report this: it should not happen.")
            }
        })?;
        // A version that might be forgotten could be used twice, under one nonce.
        ring.save()?;
        let pairing = ring.keyring.sealing(lock);
        let pairing = pairing.ok_or_else(|| no_key(&ring.keyring, lock))?;
        let (file, fingerprint) = sealed(&site, pairing, version).map_err(useless)?;
        write(&self.out, &file.bytes(), There::Stays, Eyes::Everybody)
            .map_err(|why| not_written(&self.out, &why.to_string()))?;
        let (generation, waiting) = (pairing.generation(), ring.keyring.waiting(lock));
        Ok(Sealed { lock: lock.get(), generation, waiting, version, fingerprint })
    }

    fn tell(&self, sealed: &Sealed, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let Sealed { lock, generation, waiting, version: Version(version), fingerprint } = sealed;
        match self.ring.format {
            Format::Json => {
                let object = json!({
                    "lock": lock,
                    "generation": generation,
                    "unconfirmed": waiting,
                    "version": version,
                    "fingerprint": fingerprint.to_string(),
                });
                writeln!(streams.out, "{object}")?;
            }
            Format::Text => {
                writeln!(
                    streams.out,
                    "Opening times for lock {lock} ({}), version {version}, under key {generation}.\n\n  \
                 Fingerprint  {fingerprint}\n\nTake the file to the lock and load it there; \
                 confirm only if the lock shows\nthis fingerprint.",
                    self.lock
                )?;
                tell_waiting(*waiting, streams)?;
            }
        }
        Ok(Outcome::Fine)
    }
}

/// What `plan check` calls an error reaches no lock.
fn refuse_errors(site: &Site) -> Result<(), Unusable> {
    let findings = check(site, today(&site.zone));
    let Some(first) = findings.iter().find(|finding| finding.severity == Severity::Error) else {
        return Ok(());
    };
    let what = format!("The site file has an error in line {}: {}", first.place.line, first.what);
    Err(Unusable::new(what, first.remedy.clone()))
}

fn not_written(path: &Path, why: &str) -> Unusable {
    let what = format!("{} cannot be written: {why}.", plain::path(path));
    Unusable::new(what, "Name another file with --out.")
}

fn useless(_: Wrong) -> Unusable {
    let what = "A lock would refuse these opening times: they contradict themselves.";
    Unusable::new(what, "Look for overlapping windows: emulator plan check.")
}
