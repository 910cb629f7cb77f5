//! `audit verify`.

use std::io;

use clap::Args;
use lock_core::link::extract::Scope;
use lock_core::time::Date;
use serde_json::json;

use super::super::moment::parse_date;
use super::super::{Format, Outcome, Streams};
use super::absent::{Absent, Newest, Overdue};
use super::keys::KeyringArguments;
use super::{Found, Input, is_broken, unread_line};
use crate::audit::extract::{Maker, Opener};
use crate::audit::reading::{FileNote, LockFiles, Problem, read};
use crate::audit::report::{EMULATED, json, several};
use crate::plain;

#[derive(Args)]
pub(in crate::cli) struct Arguments {
    #[command(flatten)]
    input: Input,
    #[command(flatten)]
    keys: KeyringArguments,
    /// Call out locks whose newest extract was made so many days ago or more, as `35d`.
    #[arg(long, value_name = "DAYS", value_parser = parse_days)]
    overdue: Option<u32>,
    /// The date as of which that is asked; today where it is left out.
    #[arg(long, value_name = "DATE", value_parser = parse_date, requires = "overdue")]
    today: Option<Date>,
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
        let overdue = self.overdue.map(|days| Overdue::of(days, self.today, &found));
        match self.format {
            Format::Text => text(&opener, &found, overdue, streams),
            Format::Json => objects(&opener, &found, overdue, streams),
        }
    }
}

fn parse_days(text: &str) -> Result<u32, String> {
    let days = text.strip_suffix('d').unwrap_or(text);
    let days = days.parse().ok().filter(|days| (1..=3_650).contains(days));
    days.ok_or_else(|| "write 1 to 3650 days, as \"35d\"".to_owned())
}

/// What the files came to.
#[derive(Default)]
struct Tally {
    files: u32,
    broken: u32,
    missing: u32,
    emulated: u32,
    newest: Newest,
}

impl Tally {
    fn of(found: &Found) -> Self {
        let broken = u32::try_from(found.unread.len()).unwrap_or(u32::MAX);
        Self { files: broken, broken, ..Self::default() }
    }

    fn add_lock(&mut self, lock: &LockFiles, notes: &[FileNote]) {
        notes.iter().for_each(|note| self.add(note));
        // An emulated lock's proves nothing of the real one.
        if lock.maker == Maker::Real {
            self.newest.add(lock.lock, notes);
        }
    }

    fn add(&mut self, note: &FileNote) {
        self.files += 1;
        self.broken += u32::from(is_broken(note));
        self.emulated += u32::from(note.header.maker == Maker::Emulated);
        let missing = |p: &Problem| p.is_finding() && !p.is_broken();
        self.missing += u32::from(note.problems.iter().any(missing));
    }

    fn outcome(&self, absent: &Absent) -> Outcome {
        let counts = [self.broken, self.missing, self.emulated];
        let fine = counts == [0; 3] && absent.is_empty();
        if fine { Outcome::Fine } else { Outcome::Found }
    }
}

fn text(
    opener: &impl Opener,
    found: &Found,
    overdue: Option<Overdue>,
    streams: &mut Streams<'_>,
) -> io::Result<Outcome> {
    let mut tally = Tally::of(found);
    for lock in &found.locks {
        let notes = read(opener, lock, &mut |_| {});
        tally.add_lock(lock, &notes);
        files(lock, &notes, found, streams)?;
    }
    if !found.unread.is_empty() || !found.unsearched.is_empty() {
        writeln!(streams.out, "Not read")?;
    }
    for folder in found.unsearched_lines() {
        writeln!(streams.out, "  FOLDER  {folder}")?;
    }
    for unread in &found.unread {
        writeln!(streams.out, "  BROKEN  {}", unread_line(unread))?;
    }
    let absent = Absent::of(found, &tally.newest, overdue);
    if !absent.is_empty() {
        writeln!(streams.out, "Not collected")?;
    }
    for line in absent.lines(found) {
        writeln!(streams.out, "{line}")?;
    }
    let emulated = match tally.emulated {
        0 => String::new(),
        emulated => format!(", {emulated} {EMULATED}"),
    };
    writeln!(
        streams.out,
        "{}, {}: {} broken, {} with records missing{emulated}{}",
        several(found.real_locks(), "lock"),
        several(tally.files, "file"),
        tally.broken,
        tally.missing,
        absent.summary(),
    )?;
    Ok(found.outcome(tally.outcome(&absent)))
}

/// The files of one lock.
fn files(
    lock: &LockFiles,
    notes: &[FileNote],
    found: &Found,
    streams: &mut Streams<'_>,
) -> io::Result<()> {
    let names = found.names(lock);
    let (title, emulated) = (names.lock(lock.lock), lock.maker == Maker::Emulated);
    match lock.maker {
        Maker::Real => writeln!(streams.out, "{title}")?,
        Maker::Emulated => {
            writeln!(streams.out, "{title}, {EMULATED}: it proves nothing of the real one")?;
        }
    }
    for note in notes {
        let finding = note.problems.iter().any(Problem::is_finding);
        let verdict = if is_broken(note) {
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
        let extent = extent(note);
        writeln!(
            streams.out,
            "  {verdict:<7} {}\n          key generation {}, made {made}; {}, {span}{known}{extent}",
            plain::path(&note.path),
            note.header.generation,
            several(note.records, "record"),
        )?;
        for problem in &note.problems {
            writeln!(streams.out, "          {}", problem.words())?;
        }
    }
    Ok(())
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

fn objects(
    opener: &impl Opener,
    found: &Found,
    overdue: Option<Overdue>,
    streams: &mut Streams<'_>,
) -> io::Result<Outcome> {
    let mut tally = Tally::of(found);
    write!(streams.out, "{{\"locks\":[")?;
    for (place, lock) in found.locks.iter().enumerate() {
        let notes = read(opener, lock, &mut |_| {});
        tally.add_lock(lock, &notes);
        let comma = if place == 0 { "" } else { "," };
        let files: serde_json::Value = notes.iter().map(json::file).collect();
        let id = found.names(lock).plan(lock.lock).map(|plan| plan.id.as_str());
        let emulated = lock.maker == Maker::Emulated;
        let object = json!({ "lock": lock.lock, "id": id, "emulated": emulated, "files": files });
        write!(streams.out, "{comma}\n{object}")?;
    }
    let unread: serde_json::Value = found.unread.iter().map(json::unread).collect();
    let absent = Absent::of(found, &tally.newest, overdue);
    let (without, late) = absent.json(found);
    let rest = json!({
        "unread": unread,
        "unsearched": found.unsearched_json(),
        "without_extract": without,
        "overdue": late,
        "counts": {
            "files": tally.files, "broken": tally.broken, "missing": tally.missing,
            "emulated": tally.emulated,
        },
    });
    let rest = rest.to_string();
    writeln!(streams.out, "\n],{}", rest.strip_prefix('{').unwrap_or(&rest))?;
    Ok(found.outcome(tally.outcome(&absent)))
}
