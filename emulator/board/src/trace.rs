//! Traces: what a lock was told and what it did, a line at a time.
//!
//! A line is postcard; a trace is such lines in COBS frames, so that a reader
//! finds the next line after a damaged one. Digits are not in it: a trace may
//! be shown, and a digit may be part of a code.

use lock_core::keys::Key;
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Chip, Door, Effect, Inhibit, Input, Switch, Write};
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
    /// The store did what it had put off; whether it was done.
    Tended(Durable),
}

/// Whether a write became durable.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Durable {
    /// It did.
    Yes,
    /// It did not, as far as the lock can tell.
    No,
    /// The power went within it: the next boot will find out.
    Unknown,
}

impl<E> From<Result<(), E>> for Durable {
    fn from(result: Result<(), E>) -> Self {
        if result.is_ok() { Self::Yes } else { Self::No }
    }
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
    /// The service switch was turned.
    Switch(Switch),
    /// Something came over the link.
    Carried,
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
            Input::Switch(switch) => Self::Switch(*switch),
            Input::Transfer(_) => Self::Carried,
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

#[cfg(test)]
mod tests {
    use super::*;
    use lock_core::audit::{Event, Outcome, People, Record, Refusal};
    use lock_core::holder::Number;
    use lock_core::policy::Policy;
    use lock_core::port::{Sound, Tally};
    use lock_core::rules::supply::{Level, charge};
    use lock_core::screen::{Screen, Stamp, Typed};
    use lock_core::task::Task;
    use lock_core::time::{Date, Minute, Seconds, Shift, Steady, Utc};

    /// The longest of each kind of line, its numbers at their greatest.
    fn longest() -> impl Iterator<Item = What> {
        let number = Number::new(99).unwrap();
        let people = People { first: number, second: Some(number) };
        let (outcome, end) = (Outcome::Duress, Utc::from_secs(u32::MAX));
        let stamp = Stamp { date: Date::from_days(u16::MAX), minute: Minute::new(1_440).unwrap() };
        let mv = Millivolts::new(u16::MAX);
        let records = [
            Event::Released { people, outcome },
            Event::DelayStarted { people, outcome },
            Event::Secured { open_for: Seconds::new(u32::MAX) },
            Event::HeldShut { who: number, until: end },
            Event::Refused { who: number, why: Refusal::Hold, outcome },
            Event::Supply { level: Level::Good, measured: mv },
        ];
        let record = move |event| Write::Record(Record { at: Some(end), event });
        let written = records.map(|event| What::Wrote(record(event), Durable::No));
        let screens = [
            Screen::Status {
                supply: Some(charge(&Policy::DEFAULT, Level::Good, mv)),
                now: Some(stamp),
                uncollected: u32::MAX,
            },
            Screen::Refused { why: Refusal::Hold, until: Some(stamp) },
            Screen::Who(Task::Status, Typed::Number(number, 8)),
            Screen::HoldSet { until: stamp },
        ];
        let shown = screens.map(|screen| What::Did(Effect::Show(screen)));
        let entry = |entry| What::Wrote(Write::Tally(entry), Durable::Yes);
        let steady = Steady::from_secs(u32::MAX);
        let rest = [
            What::PowerOn,
            What::PowerCut,
            What::Told(Told::Supply(mv)),
            What::Did(Effect::Sound(Sound::Warning)),
            entry(Tally::HeldShut(steady)),
            entry(Tally::ClockDoubt(Some(steady))),
            entry(Tally::Corrected {
                by: Seconds::new(u32::MAX),
                shift: Shift::from_secs(i32::MIN),
            }),
            entry(Tally::WayOut(people)),
        ];
        written.into_iter().chain(shown).chain(rest)
    }

    #[test]
    fn the_longest_lines_fit_and_are_read_back() {
        let uptime = Uptime::from_millis(u64::MAX);
        for what in longest() {
            for chip in [Chip::At(Utc::from_secs(u32::MAX)), Chip::Lost] {
                let line = Line { uptime, chip, what };
                let mut room = [0; LINE];
                let length = encode(&line, &mut room).expect("it fits").len();
                assert_eq!(room.iter().position(|byte| *byte == 0), Some(length - 1), "one frame");
                assert_eq!(decode(&mut room[..length]), Ok(line));
            }
        }
    }

    /// What is no line is refused, and so is room that does not suffice.
    #[test]
    fn junk_and_narrow_rooms_are_refused() {
        let line = Line { uptime: Uptime::ZERO, chip: Chip::Lost, what: What::PowerOn };
        assert_eq!(encode(&line, &mut [0; 3]), Err(NotALine));
        assert_eq!(decode(&mut [0x02, 0xFF, 0x00]), Err(NotALine));
        assert_eq!(decode(&mut []), Err(NotALine));
    }
}
