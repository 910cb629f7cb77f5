//! What somebody outside the lock gives it and sees of it, as plain data.

use std::fmt;

use super::setup::Calendar;

/// What the clock chip says.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Chip {
    /// Seconds since 1970 in UTC.
    Reads(i64),
    /// It lost its power and says so.
    Lost,
}

/// A moment: uptime since the boot, and the chip's reading at it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Now {
    pub(crate) uptime_ms: u64,
    pub(crate) chip: Chip,
}

impl Now {
    /// The moment `uptime_ms` if the chip runs on as it does at `self`.
    pub(crate) fn later(self, uptime_ms: u64) -> Self {
        let seconds = uptime_ms.saturating_sub(self.uptime_ms) / 1_000;
        let seconds = i64::try_from(seconds).expect("a sensible uptime");
        let chip = match self.chip {
            Chip::Reads(utc) => Chip::Reads(utc + seconds),
            Chip::Lost => Chip::Lost,
        };
        Self { uptime_ms, chip }
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Key {
    Digit(u8),
    Back,
    Ok,
}

/// A sealed timetable file as it comes over the cable, whole.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct File {
    pub(crate) lock: u16,
    /// Of the key under which it is sealed.
    pub(crate) generation: u32,
    pub(crate) version: u32,
    pub(crate) calendar: Calendar,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Input {
    Key(Key),
    /// True: drawn.
    Bolt(bool),
    /// True: open.
    Door(bool),
    SupplyMv(u32),
    /// True: set.
    Inhibit(bool),
    /// The service switch inside the door. True: on.
    Switch(bool),
    Woken,
    /// The drive reports a fault.
    DriveFault,
    /// A laptop loads a file.
    File(Box<File>),
}

/// What the contacts say; at boot all at once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Sensors {
    pub(crate) bolt_drawn: bool,
    pub(crate) door_open: bool,
    pub(crate) inhibit: bool,
    pub(crate) switch_on: bool,
}

/// One line of the audit. `numbers` are those whose codes were given, or who
/// changed something; `about` is whose row was changed. `value` is the length
/// of a penalty or an opening in seconds, a supply in millivolts, the end of a
/// hold-shut in UTC, or what a change put in place; `why` tells why a wait was
/// cancelled, what was asked, or which key of the policy was set.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Record {
    pub(crate) kind: String,
    pub(crate) numbers: Vec<u8>,
    pub(crate) about: Option<u8>,
    pub(crate) outcome: Option<&'static str>,
    pub(crate) value: Option<i64>,
    pub(crate) why: &'static str,
    pub(crate) utc: Option<i64>,
}

impl Record {
    pub(crate) fn of(kind: &str) -> Self {
        Self { kind: kind.to_owned(), ..Self::default() }
    }

    pub(crate) fn numbers(mut self, numbers: &[u8]) -> Self {
        self.numbers = numbers.to_vec();
        self
    }

    pub(crate) fn about(mut self, number: u8) -> Self {
        self.about = Some(number);
        self
    }

    pub(crate) fn outcome(mut self, outcome: &'static str) -> Self {
        self.outcome = Some(outcome);
        self
    }

    pub(crate) fn value(mut self, value: impl TryInto<i64>) -> Self {
        self.value = value.try_into().ok();
        self
    }

    pub(crate) fn why(mut self, why: &'static str) -> Self {
        self.why = why;
        self
    }
}

/// Everything but the time: `refused-closed 12 plain`, `penalty =300`,
/// `enrolled 01 02 of 15 =3`.
impl fmt::Display for Record {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}", self.kind)?;
        for number in &self.numbers {
            write!(out, " {number:02}")?;
        }
        if let Some(number) = self.about {
            write!(out, " of {number:02}")?;
        }
        if let Some(outcome) = self.outcome {
            write!(out, " {outcome}")?;
        }
        if let Some(value) = self.value {
            write!(out, " ={value}")?;
        }
        if self.why.is_empty() { Ok(()) } else { write!(out, " ({})", self.why) }
    }
}

/// What one input, or one wake-up, brings to light.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Seen {
    /// What stands on the screen afterwards.
    pub(crate) screen: String,
    pub(crate) sounds: Vec<&'static str>,
    /// `free` and `block`, in order.
    pub(crate) drive: Vec<&'static str>,
    /// The level of the alarm line afterwards: quiet, tamper, duress.
    pub(crate) alarm: &'static str,
    pub(crate) records: Vec<Record>,
    /// `counted 12`, `served`, …
    pub(crate) tallies: Vec<String>,
    /// Both of the above in the order of their writing, as text.
    pub(crate) writes: Vec<String>,
    /// secured, waiting, claimable, released or open, afterwards.
    pub(crate) access: &'static str,
    /// What the lock set its clock chip to, in UTC.
    pub(crate) clock_set: Vec<i64>,
    /// What the laptop is told of the file it loaded.
    pub(crate) link: Option<String>,
}

impl Seen {
    /// Whether anything at all differs for an observer who saw `before`.
    pub(crate) fn is_news_after(&self, before: &Seen) -> bool {
        !self.sounds.is_empty()
            || !self.drive.is_empty()
            || !self.writes.is_empty()
            || !self.clock_set.is_empty()
            || (&self.screen, self.alarm, self.access)
                != (&before.screen, before.alarm, before.access)
    }
}
