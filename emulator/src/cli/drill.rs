//! `emulator drill`: plays drill files.

use std::io;
use std::path::{Path, PathBuf};

use clap::Args;
use emulated_board::trace::{self, Line, What};
use lock_core::port::{Chip, Effect};
use lock_core::words;
use serde_json::{Value, json};

use super::report::{Unusable, refuse};
use super::{Format, Outcome, Streams};
use crate::conformance;
use crate::drill::{self, Drill, Play, Played};
use crate::files::{Eyes, NewFile, There};
use crate::plain;

/// Play drill files on the emulated lock.
#[derive(Args)]
#[command(after_help = "\
Examples:
  emulator drill emulator/demo/drills
  emulator drill --format json emulator/demo/drills/r03-closed-is-closed.toml
  emulator drill --record recordings emulator/demo/drills

Each drill is played twice and both runs are compared: the same inputs must
give the same outputs. The last line says how many passed and failed, and
how many were only played, since nothing is expected of them.")]
pub(super) struct Command {
    /// Drill files, or folders with drill files.
    #[arg(required = true)]
    paths: Vec<PathBuf>,
    /// `json` prints the trace of each drill, an object a line.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
    /// Also write the traces, as COBS frames of postcard, to this file.
    #[arg(long, value_name = "FILE")]
    trace: Option<PathBuf>,
    /// Also record each drill into this folder, four files each, so that any
    /// board can play it again: docs/conformance.md. They hold the drill's codes.
    #[arg(long, value_name = "FOLDER")]
    record: Option<PathBuf>,
}

impl Command {
    pub(super) fn run(&self, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let drills = drill::files(&self.paths).and_then(|files| {
            files.iter().map(|file| Drill::load(file)).collect::<Result<Vec<_>, _>>()
        });
        let drills = match drills {
            Ok(drills) => drills,
            Err(why) => return refuse(streams, &why),
        };
        let begin = |path: &PathBuf| NewFile::begin(path, There::Goes, Eyes::Everybody);
        let mut file = match self.trace.as_ref().map(begin).transpose() {
            Ok(file) => file,
            Err(why) => return self.refuse_trace(&why, streams),
        };
        if let Some(folder) = &self.record
            && let Err(why) = record(&drills, folder)
        {
            let what = format!("No recording can be made in {}: {why}.", plain::path(folder));
            return refuse(streams, &Unusable::new(what, "Give another folder."));
        }
        let (mut passed, mut failed, mut unchecked) = (0, 0, 0);
        for drill in &drills {
            let played = play(drill)?;
            if let Some(file) = &mut file
                && let Err(why) = frames(&played.trace, file)
            {
                return self.refuse_trace(&why, streams);
            }
            match (played.failures.is_empty(), drill.checks()) {
                (false, _) => failed += 1,
                (true, true) => passed += 1,
                (true, false) => unchecked += 1,
            }
            match self.format {
                Format::Text => text(drill, &played, streams)?,
                Format::Json => objects(drill, &played, streams)?,
            }
        }
        if let Some(Err(why)) = file.map(NewFile::keep) {
            return self.refuse_trace(&why, streams);
        }
        match self.format {
            Format::Text => {
                write!(streams.out, "{passed} passed, {failed} failed")?;
                if unchecked > 0 {
                    write!(streams.out, ", {unchecked} without an expectation")?;
                }
                writeln!(streams.out)?;
            }
            Format::Json => {
                let sums = json!({ "passed": passed, "failed": failed, "unchecked": unchecked });
                writeln!(streams.out, "{sums}")?;
            }
        }
        Ok(if failed == 0 { Outcome::Fine } else { Outcome::Found })
    }

    fn refuse_trace(&self, why: &io::Error, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let path = self.trace.as_deref().unwrap_or(Path::new(""));
        refuse(streams, &Unusable::not_written(path, why, "Give --trace another path."))
    }
}

/// Plays a drill twice. A second run that differs is a failure of its own (R10).
fn play(drill: &Drill) -> io::Result<Played> {
    let run =
        || Play::start(drill).map(Play::finish).map_err(|why| io::Error::other(format!("{why:?}")));
    let (mut first, second) = (run()?, run()?);
    if first.trace != second.trace {
        first.failures.push(drill::Failure {
            step: 0,
            line: 1,
            key: "the second run",
            expected: "the same trace as the first".to_owned(),
            seen: "another one".to_owned(),
        });
    }
    Ok(first)
}

/// Records each drill under the name of its file.
fn record(drills: &[Drill], folder: &Path) -> io::Result<()> {
    std::fs::create_dir_all(folder)?;
    for drill in drills {
        let name = Path::new(&drill.file).file_stem().unwrap_or_default();
        let play = Play::recorded(drill).map_err(|why| io::Error::other(format!("{why:?}")))?;
        if let (_, Some(recording)) = play.finish_recorded() {
            conformance::save(&recording, folder, &name.to_string_lossy())?;
        }
    }
    Ok(())
}

fn text(drill: &Drill, played: &Played, streams: &mut Streams<'_>) -> io::Result<()> {
    let mark = match (played.failures.is_empty(), drill.checks()) {
        (false, _) => "FAIL",
        (true, true) => "pass",
        // Nothing was expected of it.
        (true, false) => "played",
    };
    writeln!(streams.out, "{mark}  {}", drill.title)?;
    for failure in &played.failures {
        let drill::Failure { step, line, key, expected, seen } = failure;
        writeln!(streams.out, "      {}:{line}: step {step}: {key}", drill.file)?;
        writeln!(streams.out, "        expected: {expected}")?;
        writeln!(streams.out, "        seen:     {seen}")?;
    }
    Ok(())
}

fn objects(drill: &Drill, played: &Played, streams: &mut Streams<'_>) -> io::Result<()> {
    for line in &played.trace {
        writeln!(streams.out, "{}", object(drill, line))?;
    }
    let failures: Vec<Value> = played
        .failures
        .iter()
        .map(|f| {
            json!({ "step": f.step, "line": f.line, "key": f.key,
                    "expected": f.expected, "seen": f.seen })
        })
        .collect();
    let result = json!({
        "drill": drill.title, "file": drill.file,
        "checked": drill.checks(),
        "passed": failures.is_empty() && drill.checks(), "failures": failures,
        "audit": played.audit,
    });
    writeln!(streams.out, "{result}")
}

fn object(drill: &Drill, line: &Line) -> Value {
    let local = match line.chip {
        Chip::At(utc) => Value::from(super::moment::rfc3339(&drill.site.zone, utc)),
        Chip::Lost => Value::Null,
    };
    let mut object = json!({
        "drill": drill.title,
        "uptime_ms": line.uptime.as_millis(),
        "chip": local,
        "what": line.what,
    });
    if let What::Did(Effect::Show(screen)) = line.what {
        let words = words::english(&screen).joined();
        object["words"] = Value::from(words.as_str());
    }
    object
}

fn frames(lines: &[Line], file: &mut impl io::Write) -> io::Result<()> {
    let mut room = [0; trace::LINE];
    for line in lines {
        let frame =
            trace::encode(line, &mut room).map_err(|_| io::Error::other("a line too long"))?;
        file.write_all(frame)?;
    }
    Ok(())
}
