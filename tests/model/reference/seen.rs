//! What somebody outside the lock gives it and sees of it, as plain data.

use std::collections::BTreeMap;
use std::fmt;

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

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Input {
    Key(Key),
    /// True: drawn.
    Bolt(bool),
    /// True: open.
    Door(bool),
    SupplyMv(u32),
    /// True: set.
    Inhibit(bool),
    Woken,
    /// The drive reports a fault.
    DriveFault,
}

/// What the contacts say; at boot all at once.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Sensors {
    pub(crate) bolt_drawn: bool,
    pub(crate) door_open: bool,
    pub(crate) inhibit: bool,
}

/// One line of the audit. Numbers stand in records of codes only; `value` is
/// the length of a penalty or an opening in seconds, a supply in millivolts,
/// or the end of a hold-shut in UTC; `why` tells why a wait was cancelled.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Record {
    pub(crate) kind: String,
    pub(crate) numbers: Vec<u8>,
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

/// Everything but the time: `refused-closed 12 plain`, `penalty =300`.
impl fmt::Display for Record {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}", self.kind)?;
        for number in &self.numbers {
            write!(out, " {number:02}")?;
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
}

impl Seen {
    /// Whether anything at all differs for an observer who saw `before`.
    pub(crate) fn is_news_after(&self, before: &Seen) -> bool {
        !self.sounds.is_empty()
            || !self.drive.is_empty()
            || !self.writes.is_empty()
            || (&self.screen, self.alarm, self.access)
                != (&before.screen, before.alarm, before.access)
    }
}

/// What a power cut leaves. Counts are by number; a missing one is nought.
#[derive(Clone, Debug, Default)]
pub(crate) struct Durable {
    pub(crate) records: Vec<Record>,
    pub(crate) totals: BTreeMap<u8, u32>,
    pub(crate) shares: BTreeMap<u8, u32>,
    pub(crate) step: u32,
    /// The full length of the penalty that runs, in seconds.
    pub(crate) penalty_s: Option<u64>,
    pub(crate) held_until: Option<i64>,
    pub(crate) clock_doubt: bool,
}

impl Durable {
    /// The newest time in any record: no true clock reads less.
    pub(crate) fn floor(&self) -> Option<i64> {
        self.records.iter().filter_map(|record| record.utc).max()
    }

    /// Adds up one entry of the tally; `penalty_s` is the length of the
    /// penalty that starts, if one does.
    pub(crate) fn add(&mut self, entry: &str, penalty_s: Option<u64>) {
        let (kind, rest) = entry.split_once(' ').unwrap_or((entry, ""));
        match kind {
            "counted" => {
                let number = rest.parse().expect("a number");
                let total = self.totals.entry(number).or_default();
                *total = (*total + 1).min(100);
                *self.shares.entry(number).or_default() += 1;
            }
            "cleared" => {
                let number = rest.parse().expect("a number");
                self.totals.remove(&number);
                self.shares.remove(&number);
            }
            "penalty" => {
                self.shares.clear();
                self.step += 1;
                self.penalty_s = penalty_s;
            }
            "served" => self.penalty_s = None,
            "faded" => {
                self.shares.clear();
                self.step = 0;
            }
            "held-shut" => {
                self.held_until = rest.strip_prefix('=').and_then(|end| end.parse().ok())
            }
            "clock-doubt" => self.clock_doubt = true,
            other => panic!("{other} is no entry of the tally"),
        }
    }

    /// The sum of the shares.
    pub(crate) fn lock_count(&self) -> u32 {
        self.shares.values().sum()
    }

    pub(crate) fn newest_outcome(&self) -> Option<&'static str> {
        self.records.iter().rev().find_map(|record| record.outcome)
    }

    /// The newest record that says where the bolt was left.
    pub(crate) fn last_word(&self) -> Option<&str> {
        let told = ["released", "opened", "not-drawn", "secured", "forced"];
        let mut newest_first = self.records.iter().rev().map(|record| record.kind.as_str());
        newest_first.find(|kind| told.contains(kind))
    }
}
