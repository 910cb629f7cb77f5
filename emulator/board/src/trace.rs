//! Traces: what a lock was told and what it did, a line at a time.
//!
//! A line is postcard; a trace is such lines in COBS frames, so that a reader
//! finds the next line after a damaged one. Digits are not in it: a trace may
//! be shown, and a digit may be part of a code.

use lock_core::keys::Key;
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Chip, Door, Effect, Inhibit, Input, Write};
use lock_core::time::Uptime;
use serde::{Deserialize, Serialize};

/// Bytes of the longest framed line; a test holds every kind of line to it.
pub const LINE: usize = 64;

/// One line: when, and what.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Line {
    /// Time since the boot.
    pub uptime: Uptime,
    /// What the clock chip read.
    pub chip: Chip,
    /// What happened.
    pub what: What,
}

/// What happened.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum What {
    /// Power came.
    PowerOn,
    /// Power went.
    PowerCut,
    /// The lock was told something.
    Told(Told),
    /// The lock did something.
    Did(Effect),
    /// The lock had something written; whether it became durable.
    Wrote(Write, Durable),
}

/// Whether a write became durable.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Durable {
    /// It did.
    Yes,
    /// It did not.
    No,
}

/// An input without its secrets.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Told {
    /// A digit, whichever.
    Digit,
    /// The key *back*.
    Back,
    /// The key *OK*.
    Ok,
    /// The bolt moved.
    Bolt(Bolt),
    /// The door moved.
    Door(Door),
    /// The supply was measured.
    Supply(Millivolts),
    /// The inhibit input changed.
    Inhibit(Inhibit),
    /// A wake-up.
    Woken,
    /// The drive did not move.
    DriveFault,
}

impl Told {
    /// What a trace says of an input; the result of a write is told with the
    /// write itself.
    #[must_use]
    pub const fn of(input: &Input) -> Option<Self> {
        Some(match input {
            Input::Key(Key::Digit(_)) => Self::Digit,
            Input::Key(Key::Back) => Self::Back,
            Input::Key(Key::Ok) => Self::Ok,
            Input::Bolt(bolt) => Self::Bolt(*bolt),
            Input::Door(door) => Self::Door(*door),
            Input::Supply(measured) => Self::Supply(*measured),
            Input::Inhibit(inhibit) => Self::Inhibit(*inhibit),
            Input::Woken => Self::Woken,
            Input::DriveFault => Self::DriveFault,
            Input::Stored(_) => return None,
        })
    }
}

/// A line that does not fit [`LINE`], or bytes that are no line.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NotALine;

/// Writes `line` as one frame into `room`, and returns the frame.
///
/// # Errors
/// [`NotALine`] if the room is too small; [`LINE`] bytes always suffice.
pub fn encode<'a>(line: &Line, room: &'a mut [u8]) -> Result<&'a [u8], NotALine> {
    postcard::to_slice_cobs(line, room).map(|frame| &*frame).map_err(|_| NotALine)
}

/// Reads one frame; its bytes are overwritten.
///
/// # Errors
/// [`NotALine`] if the bytes are none.
pub fn decode(frame: &mut [u8]) -> Result<Line, NotALine> {
    postcard::from_bytes_cobs(frame).map_err(|_| NotALine)
}
