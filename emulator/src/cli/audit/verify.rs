//! `audit verify`.

use std::io;

use clap::Args;
use lock_core::link::extract::Scope;
use serde_json::json;

use super::super::{Format, Outcome, Streams};
use super::keys::KeyringArguments;
use super::{Found, Input, is_broken, unread_line};
use crate::audit::extract::{Maker, Opener};
use crate::audit::reading::{FileNote, Problem, read};
use crate::audit::report::{EMULATED, json, several};

#[derive(Args)]
pub(in crate::cli) struct Arguments {
    #[command(flatten)]
    input: Input,
    #[command(flatten)]
    keys: KeyringArguments,
    /// How the findings are written.
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
        match self.format {
            Format::Text => text(&opener, &found, streams),
            Format::Json => objects(&opener, &found, streams),
        }
    }
}

/// What the files came to.
#[derive(Default)]
struct Tally {
    files: u32,
    broken: u32,
    missing: u32,
    emulated: u32,
}

impl Tally {
    fn of(found: &Found) -> Self {
        let broken = u32::try_from(found.unread.len()).unwrap_or(u32::MAX);
        Self { files: broken, broken, ..Self::default() }
    }

    fn add(&mut self, note: &FileNote) {
        self.files += 1;
        self.broken += u32::from(is_broken(note));
        self.emulated += u32::from(note.header.maker == Maker::Emulated);
        let missing = |p: &Problem| p.is_finding() && !p.is_broken();
        self.missing += u32::from(note.problems.iter().any(missing));
    }

    fn outcome(&self) -> Outcome {
        if self.broken == 0 && self.missing == 0 && self.emulated == 0 {
            Outcome::Fine
        } else {
            Outcome::Found
        }
    }
}

fn text(opener: &impl Opener, found: &Found, streams: &mut Streams<'_>) -> io::Result<Outcome> {
    let mut tally = Tally::of(found);
    for lock in &found.locks {
        let names = found.names(lock);
        let (title, emulated) = (names.lock(lock.lock), lock.maker == Maker::Emulated);
        match lock.maker {
            Maker::Real => writeln!(streams.out, "{title}")?,
            Maker::Emulated => {
                writeln!(streams.out, "{title}, {EMULATED}: it proves nothing of the real one")?;
            }
        }
        for note in read(opener, lock, &mut |_| {}) {
            tally.add(&note);
            let finding = note.problems.iter().any(Problem::is_finding);
            let verdict = if is_broken(&note) {
                "BROKEN"
            } else if emulated {
                "EMULATED"
            } else if finding {
                "GAPS"
            } else {
                "fine"
            };
            let span = note.span.map_or("none".to_owned(), |(first, last)| {
                format!("numbers {} to {}", first.0, last.0)
            });
            let known = match note.known {
                0 => String::new(),
                known => format!(", {known} collected before"),
            };
            let made = match note.header.made {
                Some(at) => names.moment(Some(at)),
                None => "without a valid clock".to_owned(),
            };
            let extent = extent(&note);
            writeln!(
                streams.out,
                "  {verdict:<7} {}\n          key generation {}, made {made}; {}, {span}{known}{extent}",
                note.path.display(),
                note.header.generation,
                several(note.records, "record"),
            )?;
            for problem in &note.problems {
                writeln!(streams.out, "          {}", problem.words())?;
            }
        }
    }
    if !found.unread.is_empty() {
        writeln!(streams.out, "Not read")?;
    }
    for unread in &found.unread {
        writeln!(streams.out, "  BROKEN  {}", unread_line(unread))?;
    }
    let emulated = match tally.emulated {
        0 => String::new(),
        emulated => format!(", {emulated} {EMULATED}"),
    };
    writeln!(
        streams.out,
        "{}, {}: {} broken, {} with records missing{emulated}",
        several(found.real_locks(), "lock"),
        several(tally.files, "file"),
        tally.broken,
        tally.missing
    )?;
    Ok(tally.outcome())
}

/// `; openings only, 12 records left out; what was new`.
fn extent(note: &FileNote) -> String {
    let scope = match note.header.scope {
        Scope::All => String::new(),
        Scope::Openings => format!("; openings only, {} left out", note.left_out),
        Scope::Changes => format!("; changes only, {} left out", note.left_out),
        Scope::Alarms => format!("; alarms only, {} left out", note.left_out),
    };
    let since = if note.header.since_last { "; what was new then" } else { "" };
    format!("{scope}{since}")
}

fn objects(opener: &impl Opener, found: &Found, streams: &mut Streams<'_>) -> io::Result<Outcome> {
    let mut tally = Tally::of(found);
    write!(streams.out, "{{\"locks\":[")?;
    for (place, lock) in found.locks.iter().enumerate() {
        let notes = read(opener, lock, &mut |_| {});
        notes.iter().for_each(|note| tally.add(note));
        let comma = if place == 0 { "" } else { "," };
        let files: serde_json::Value = notes.iter().map(json::file).collect();
        let id = found.names(lock).plan(lock.lock).map(|plan| plan.id.as_str());
        let emulated = lock.maker == Maker::Emulated;
        let object = json!({ "lock": lock.lock, "id": id, "emulated": emulated, "files": files });
        write!(streams.out, "{comma}\n{object}")?;
    }
    let unread: serde_json::Value = found.unread.iter().map(json::unread).collect();
    let counts = json!({
        "files": tally.files, "broken": tally.broken, "missing": tally.missing,
        "emulated": tally.emulated,
    });
    writeln!(streams.out, "\n],\"unread\":{unread},\"counts\":{counts}}}")?;
    Ok(tally.outcome())
}
