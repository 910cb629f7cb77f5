//! The command line: what can be asked, and the exit codes.
//!
//! | exit code | meaning |
//! | --- | --- |
//! | 0 | fine |
//! | 1 | a finding, or a failed expectation |
//! | 2 | it could not be carried out: arguments, a file that is refused, a result that could not be written |
//! | 130 | a rig was interrupted (Ctrl-C) and had found nothing until then |
//!
//! Results go to `out`, everything else to `err`. [`run`] touches neither the
//! process nor its streams, so that tests call it as they are. `settle` is the one
//! place where what came of a command becomes its outcome.

mod audit;
mod drill;
mod interrupt;
mod keyring;
pub(crate) mod moment;
mod outlet;
mod passphrase;
mod plan;
mod report;
mod rig;
#[cfg(feature = "page")]
mod serve;

use std::borrow::Cow;
use std::ffi::OsString;
use std::io::{self, IsTerminal, Write};
use std::process::ExitCode;

use clap::{Parser, Subcommand, ValueEnum};

use crate::{picture, plain, tour};
use outlet::Outlet;

/// How a command ended.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Outcome {
    /// Nothing to complain about.
    Fine,
    /// A finding, or a failed expectation.
    Found,
    /// It could not be carried out: the input cannot be used, or the result could
    /// not be written.
    Unusable,
    /// It was interrupted, and had found nothing until then.
    Interrupted,
}

impl Outcome {
    /// The exit code.
    #[must_use]
    pub const fn code(self) -> u8 {
        match self {
            Self::Fine => 0,
            Self::Found => 1,
            Self::Unusable => 2,
            // As shells say it of a program that SIGINT ended: 128 and its number.
            Self::Interrupted => 130,
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
    /// Whether Ctrl-C is waited for.
    signals: Signals,
}

/// Whose signals they are.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Signals {
    /// The process's own: it may catch them.
    Ours,
    /// Somebody else's.
    Theirs,
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
    after_help = "\
Examples:
  emulator
  emulator drill emulator/demo/drills
  emulator plan check harbour-bakery.toml

Exit codes, of every command:
  0    fine
  1    a finding, or a failed expectation
  2    it could not be carried out: arguments or a file that cannot be used, a
       result that could not be written
  130  a rig was interrupted (Ctrl-C), having found nothing until then

A reader of the output that goes away early changes nothing about them."
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
    let (reader, signals) = (Reader::Program, Signals::Theirs);
    run_with(arguments, Streams { out, err, out_look, look, bar, reader, signals }).code()
}

/// Runs the process's own command line on its own streams.
#[must_use]
pub fn main() -> ExitCode {
    let (terminal, mut err) = (io::stdout().is_terminal(), io::stderr().lock());
    let mut out = outlet::standard_output();
    let no_colour = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    let look = |terminal: bool| {
        if terminal && !no_colour { Look::Coloured } else { Look::Plain }
    };
    let (out_look, look) = (look(terminal), look(err.is_terminal()));
    let bar = if err.is_terminal() { Bar::Shown } else { Bar::Hidden };
    let reader = if terminal { Reader::Person } else { Reader::Program };
    let signals = Signals::Ours;
    let (out, err): (&mut dyn Write, &mut dyn Write) = (&mut out, &mut err);
    let streams = Streams { out, err, out_look, look, bar, reader, signals };
    ExitCode::from(run_with(std::env::args_os(), streams).code())
}

fn run_with<A>(arguments: impl IntoIterator<Item = A>, streams: Streams<'_>) -> Outcome
where
    A: Into<OsString> + Clone,
{
    let (mut out, mut err) = (Outlet::new(streams.out), Outlet::new(streams.err));
    let Streams { out_look, look, bar, reader, signals, .. } = streams;
    let to = (&mut out, &mut err);
    let mut streams = Streams { out: to.0, err: to.1, out_look, look, bar, reader, signals };
    let done = carry_out(arguments, &mut streams);
    settle(done, &mut out, &mut err)
}

fn carry_out<A>(
    arguments: impl IntoIterator<Item = A>,
    streams: &mut Streams<'_>,
) -> io::Result<Outcome>
where
    A: Into<OsString> + Clone,
{
    match Arguments::try_parse_from(arguments) {
        Ok(Arguments { command: Some(Command::Plan(command)) }) => command.run(streams),
        Ok(Arguments { command: Some(Command::Drill(command)) }) => command.run(streams),
        Ok(Arguments { command: Some(Command::Rig(command)) }) => command.run(streams),
        Ok(Arguments { command: Some(Command::Audit(command)) }) => command.run(streams),
        Ok(Arguments { command: Some(Command::Keyring(command)) }) => command.run(streams),
        #[cfg(feature = "page")]
        Ok(Arguments { command: Some(Command::Serve(command)) }) => command.run(streams),
        Ok(Arguments { command: None }) => tour(streams),
        Err(error) => explain(&error, streams),
    }
}

/// The outcome, when all that was said has been written. What was not written, or
/// not carried out to its end, is no outcome of the command.
fn settle(done: io::Result<Outcome>, out: &mut Outlet<'_>, err: &mut Outlet<'_>) -> Outcome {
    // What fails here is kept by the outlets.
    let _ = out.flush().and(err.flush());
    let why = match (out.lost(), err.lost(), done) {
        (None, None, Ok(outcome)) => return outcome,
        (Some(why), _, _) => format!("The result could not be written: {why}."),
        (None, Some(why), _) => format!("Not everything could be told: {why}."),
        (None, None, Err(why)) => format!("It could not be carried out: {why}."),
    };
    // If nobody can be told, the exit code still tells it.
    let _ = writeln!(err, "{}", plain::line(&why)).and_then(|()| err.flush());
    Outcome::Unusable
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
        let bare = text.to_string();
        // Arguments are quoted, and a file's name may have become one.
        match (streams.look, plain::lines(&bare)) {
            (Look::Coloured, Cow::Borrowed(_)) => write!(streams.err, "{}", text.ansi())?,
            (_, shown) => write!(streams.err, "{shown}")?,
        }
        return Ok(Outcome::Unusable);
    }
    writeln!(streams.out, "{}", text.to_string().trim_end())?;
    Ok(Outcome::Fine)
}
