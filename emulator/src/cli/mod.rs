//! The command line: what can be asked, and the exit codes.
//!
//! | exit code | meaning |
//! | --- | --- |
//! | 0 | fine |
//! | 1 | a finding, or a failed expectation |
//! | 2 | unusable input: arguments, or a file that is refused |
//!
//! Results go to `out`, everything else to `err`. [`run`] touches neither the
//! process nor its streams, so that tests call it as they are.

mod audit;
mod drill;
mod keyring;
pub(crate) mod moment;
mod passphrase;
mod plan;
mod report;
mod rig;
#[cfg(feature = "page")]
mod serve;

use std::ffi::OsString;
use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;

use clap::{Parser, Subcommand, ValueEnum};

use crate::{picture, tour};

/// How a command ended.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Outcome {
    /// Nothing to complain about.
    Fine,
    /// A finding, or a failed expectation.
    Found,
    /// The input cannot be used.
    Unusable,
}

impl Outcome {
    /// The exit code.
    #[must_use]
    pub const fn code(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::Found => 1,
            Self::Unusable => 2,
        }
    }
}

/// Whether what people read is coloured.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Look {
    /// Bare text.
    Plain,
    /// With colours for a terminal.
    Coloured,
}

/// How a result is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug, ValueEnum)]
enum Format {
    /// For people.
    Text,
    /// For programs.
    Json,
}

/// Where a command writes to.
struct Streams<'w> {
    out: &'w mut dyn Write,
    err: &'w mut dyn Write,
    /// How `out` looks.
    out_look: Look,
    /// How `err` looks.
    look: Look,
    /// Whether somebody watches `err`.
    bar: Bar,
    /// Who reads `out`.
    reader: Reader,
}

/// Who reads what a command writes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Reader {
    /// Somebody at a terminal.
    Person,
    /// A file or another program.
    Program,
}

/// Whether a long run shows how far it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Bar {
    /// Redrawn on standard error.
    Shown,
    /// Nobody would see it move.
    Hidden,
}

/// A time lock on the desk: watch it live, prove its rules, plan its times.
///
/// Without a command it plays a tour: a day of a bakery's safes.
#[derive(Parser)]
#[command(
    name = "emulator",
    version,
    disable_help_subcommand = true,
    after_help = "Examples:\n  emulator\n  emulator drill emulator/demo/drills\n  emulator plan check harbour-bakery.toml\n\nExit codes: 0 fine, 1 a finding or a failed expectation, 2 unusable input."
)]
struct Arguments {
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Subcommand)]
enum Command {
    /// Plan with a site file: when may who open, and what will not work out.
    #[command(
        subcommand,
        after_help = "Example:\n  emulator plan check harbour-bakery.toml --from 2027-03-01"
    )]
    Plan(plan::Command),
    Drill(drill::Command),
    /// Read what was carried out of locks: who opened, when, for how long.
    #[command(
        subcommand,
        after_help = "Example:\n  emulator audit report --keyring bakery.keyring extracts/"
    )]
    Audit(audit::Command),
    /// Keep the keys that laptop and locks share.
    #[command(
        subcommand,
        after_help = "Example:\n  emulator keyring pair --keyring bakery.keyring --lock 1001"
    )]
    Keyring(keyring::Command),
    /// Attack the lock many times over: what must always hold, held against it.
    #[command(subcommand, after_help = "A failure prints the command that repeats it.")]
    Rig(rig::Command),
    #[cfg(feature = "page")]
    Serve(serve::Command),
}

/// Runs the command line `arguments`, the program's name first. The exit code.
///
/// What is written is plain text of a fixed width.
pub fn run<A>(
    arguments: impl IntoIterator<Item = A>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> u8
where
    A: Into<OsString> + Clone,
{
    let (out_look, look, bar) = (Look::Plain, Look::Plain, Bar::Hidden);
    let reader = Reader::Program;
    run_with(arguments, Streams { out, err, out_look, look, bar, reader }).code()
}

/// Runs the process's own command line on its own streams.
#[must_use]
pub fn main() -> ExitCode {
    let (mut out, mut err) = (io::stdout().lock(), io::stderr().lock());
    let no_colour = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    let look = |terminal: bool| {
        if terminal && !no_colour { Look::Coloured } else { Look::Plain }
    };
    let (out_look, look) = (look(out.is_terminal()), look(err.is_terminal()));
    let bar = if err.is_terminal() { Bar::Shown } else { Bar::Hidden };
    let reader = if out.is_terminal() { Reader::Person } else { Reader::Program };
    let streams = Streams { out: &mut out, err: &mut err, out_look, look, bar, reader };
    ExitCode::from(run_with(std::env::args_os(), streams).code())
}

fn run_with<A>(arguments: impl IntoIterator<Item = A>, mut streams: Streams<'_>) -> Outcome
where
    A: Into<OsString> + Clone,
{
    let done = match Arguments::try_parse_from(arguments) {
        Ok(Arguments { command: Some(Command::Plan(command)) }) => command.run(&mut streams),
        Ok(Arguments { command: Some(Command::Drill(command)) }) => command.run(&mut streams),
        Ok(Arguments { command: Some(Command::Rig(command)) }) => command.run(&mut streams),
        Ok(Arguments { command: Some(Command::Audit(command)) }) => command.run(&mut streams),
        Ok(Arguments { command: Some(Command::Keyring(command)) }) => command.run(&mut streams),
        #[cfg(feature = "page")]
        Ok(Arguments { command: Some(Command::Serve(command)) }) => command.run(&mut streams),
        Ok(Arguments { command: None }) => tour(&mut streams),
        Err(error) => explain(&error, &mut streams),
    };
    // A reader that went away (a pager, say) has seen what it wanted.
    done.unwrap_or(Outcome::Fine)
}

/// Plays the tour, which is a check as well: what its drills expect must come.
fn tour(streams: &mut Streams<'_>) -> io::Result<Outcome> {
    let chapters = match tour::chapters() {
        Ok(chapters) => chapters,
        Err(why) => return report::refuse(streams, &why),
    };
    let look = match streams.out_look {
        Look::Plain => picture::Look::Plain,
        Look::Coloured => picture::Look::Paper,
    };
    let failures = tour::play(&chapters, streams.out, look)?;
    for (file, failure) in &failures {
        writeln!(
            streams.err,
            "{file}:{}: {}: expected {}, seen {}",
            failure.line, failure.key, failure.expected, failure.seen
        )?;
    }
    Ok(if failures.is_empty() { Outcome::Fine } else { Outcome::Found })
}

/// Help and version are results; the rest is unusable input.
fn explain(error: &clap::Error, streams: &mut Streams<'_>) -> io::Result<Outcome> {
    let text = error.render();
    if error.use_stderr() {
        match streams.look {
            Look::Plain => write!(streams.err, "{text}")?,
            Look::Coloured => write!(streams.err, "{}", text.ansi())?,
        }
        return Ok(Outcome::Unusable);
    }
    writeln!(streams.out, "{}", text.to_string().trim_end())?;
    Ok(Outcome::Fine)
}
