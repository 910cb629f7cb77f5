//! What the screen shows, as data. Words and pixels are made of it elsewhere.

mod form;

pub use crate::policy::scale as policy_scale;
pub use form::{Field, Form, Gist, ROWS_A_PAGE, Row, Shown, Topic, Trouble, Whom};

use serde::{Deserialize, Serialize};

use crate::audit::Refusal;
use crate::code::Entry;
use crate::holder::Number;
use crate::keys::Digit;
use crate::port::Fault;
use crate::rules::supply::{Charge, Level};
use crate::task::Task;
use crate::time::{Date, Local, Minute};

/// A local date and time, to the minute: what a person is told.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Stamp {
    /// The local date.
    pub date: Date,
    /// The minute of that day.
    pub minute: Minute,
}

impl From<Local> for Stamp {
    fn from(local: Local) -> Self {
        Self { date: local.date, minute: local.minute() }
    }
}

/// What stands in an entry: the number in clear, the code as a count.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Typed {
    /// Nothing yet.
    Nothing,
    /// The first digit of the number.
    Tens(u8),
    /// The number, and how many digits of a code.
    Number(Number, u8),
}

impl Typed {
    /// What the screen may show of an entry.
    #[must_use]
    pub fn of(entry: &Entry) -> Self {
        match (entry.number(), entry.len()) {
            (Some(number), len) => {
                Self::Number(number, u8::try_from(len.saturating_sub(2)).unwrap_or(u8::MAX))
            }
            (None, 0) => Self::Nothing,
            (None, _) => Self::Tens(entry.tens().map_or(0, Digit::get)),
        }
    }
}

/// What the screen shows.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Screen {
    /// At rest, secured.
    Secured {
        /// The supply, warned about unless good.
        supply: Level,
        /// Whether the clock is believed.
        clock: ClockSeen,
    },
    /// Somebody types.
    Entry(Typed),
    /// A page of the list of tasks.
    List {
        /// Which, from 0.
        page: u8,
    },
    /// Somebody says who they are, for a task.
    Who(Task, Typed),
    /// A dialogue.
    Form(Form),
    /// An entry was too short to be a code.
    TooShort,
    /// An entry was too long to be a code.
    TooLong,
    /// A wrong code.
    WrongCode {
        /// Wrong codes left before a penalty.
        left: u8,
    },
    /// A right code, refused.
    Refused {
        /// Why.
        why: Refusal,
        /// Until when, where that is known.
        until: Option<Stamp>,
    },
    /// No code is taken.
    Penalty {
        /// Minutes left, rounded up.
        minutes: u16,
    },
    /// The bolt is free.
    Released {
        /// The supply, warned about unless good.
        supply: Level,
    },
    /// The bolt is drawn or the door open.
    Open {
        /// Whether it should have been closed by now.
        late: Late,
    },
    /// The second of two people is waited for.
    SecondPerson {
        /// The first.
        first: Number,
    },
    /// A time delay is running.
    Waiting {
        /// Minutes left, rounded up.
        minutes: u16,
    },
    /// The delay is over: the code again.
    Claimable {
        /// Minutes left to claim, rounded up.
        minutes: u16,
    },
    /// A hold-shut is in force.
    HeldShut {
        /// Its end, where the clock is believed.
        until: Option<Stamp>,
    },
    /// A hold-shut was set just now.
    HoldSet {
        /// Its end.
        until: Stamp,
    },
    /// The status.
    Status {
        /// The supply in quarters, where it was measured.
        supply: Option<Charge>,
        /// Local time, where the clock is believed.
        now: Option<Stamp>,
        /// Records that no reader has collected yet.
        uncollected: u32,
    },
    /// A way out was asked for: the lock is being set up after that (R11).
    WayOut {
        /// Hours left, rounded up.
        hours: u16,
    },
    /// Nobody can open yet.
    SettingUp,
    /// The lock needs service.
    Service(Fault),
}

/// Whether the clock is believed, as the resting screen says it.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum ClockSeen {
    /// It is.
    Valid,
    /// It is not, until it is set.
    Invalid,
}

/// Whether an open lock should have been closed by now.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Late {
    /// Its window still runs, or none was bound to it.
    No,
    /// Its window has ended.
    Yes,
}
