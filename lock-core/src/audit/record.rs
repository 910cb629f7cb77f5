//! One record: when, what, who, with what outcome.
//!
//! Time, type, subject and outcome are what Common Criteria part 2,
//! `FAU_GEN.1.2`, asks of a record. A record names holders by number only.

use serde::{Deserialize, Serialize};

use crate::holder::Number;
use crate::policy::{Control, Millivolts};
use crate::port::Fault;
use crate::rules::supply::Level;
use crate::task::Task;
use crate::time::{Seconds, Utc};

use super::change::Change;

/// A record's place in the one sequence of a lock's records: rises by one.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
pub struct Seq(pub u32);

/// What happened, and when.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Record {
    /// When; `None` while the clock was invalid.
    pub at: Option<Utc>,
    /// What.
    pub event: Event,
}

/// Which code was used. The field in which a duress entry's record differs
/// from a plain one's, and the only one (R4).
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Outcome {
    /// The code as it was set.
    Plain,
    /// Its duress variant.
    Duress,
}

/// Whom an opening is for: one holder, or two under dual control.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct People {
    /// The holder, or the first of two.
    pub first: Number,
    /// The second of two.
    pub second: Option<Number>,
}

impl People {
    /// Whether `number` is one of them.
    #[must_use]
    pub fn include(&self, number: Number) -> bool {
        self.first == number || self.second == Some(number)
    }

    /// How many they are.
    #[must_use]
    pub const fn control(&self) -> Control {
        match self.second {
            Some(_) => Control::Dual,
            None => Control::Single,
        }
    }
}

/// What happened.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Event {
    /// The lock booted.
    PoweredUp {
        /// How often in its life it did so without a record: behind two that have one.
        unrecorded: u32,
    },
    /// An opening was authorised; the drive moves only once this is durable (R1).
    Released {
        /// For whom.
        people: People,
        /// Duress if either's code now was a duress code.
        outcome: Outcome,
    },
    /// The bolt was drawn, or the door opened, after a release.
    Opened,
    /// Bolt thrown and door closed; the drive blocks.
    Secured {
        /// For how long the lock was open.
        open_for: Seconds,
    },
    /// A boot found the bolt thrown that was drawn when the power failed.
    FoundThrown {
        /// How long ago it was drawn, where both times are known.
        open_for: Option<Seconds>,
    },
    /// Released, but nobody drew the bolt in time.
    NotDrawn,
    /// Still open when the window ended.
    LeftOpen,
    /// Bolt drawn or door open without a release (R9).
    Forced,
    /// A time delay began.
    DelayStarted {
        /// For whom.
        people: People,
        /// Duress if either's code now was a duress code.
        outcome: Outcome,
    },
    /// A claim, or the wait for a second person, ran out.
    Lapsed,
    /// A delay or claim was ended before its time.
    Cancelled {
        /// By what.
        why: CancelReason,
    },
    /// The first of two people gave a right code.
    FirstOfTwo {
        /// Who.
        who: Number,
        /// With which code.
        outcome: Outcome,
    },
    /// A wrong code.
    WrongCode {
        /// The number it was tried on.
        who: Number,
    },
    /// A right code that was refused, or any code in a penalty.
    Refused {
        /// Whose number.
        who: Number,
        /// Why.
        why: Refusal,
        /// With which code; in a penalty a wrong one counts as plain.
        outcome: Outcome,
    },
    /// A penalty began.
    Penalty {
        /// Its length.
        lasts: Seconds,
    },
    /// A hold-shut was set.
    HeldShut {
        /// By whom.
        who: Number,
        /// Until when.
        until: Utc,
    },
    /// The status was read.
    Status {
        /// By whom.
        who: Number,
        /// With which code.
        outcome: Outcome,
    },
    /// The supply changed its level.
    Supply {
        /// To which.
        level: Level,
        /// What was measured.
        measured: Millivolts,
    },
    /// The clock became invalid.
    ClockInvalid,
    /// A right code began a task of the list.
    Asked {
        /// By whom.
        who: Number,
        /// For which.
        task: Task,
        /// With which code.
        outcome: Outcome,
    },
    /// Something was changed.
    Changed {
        /// By whom; nobody, where a time that came did it.
        by: Option<People>,
        /// What.
        change: Change,
    },
    /// The device failed.
    Fault {
        /// In what.
        fault: Fault,
    },
}

/// What ended a delay or claim before its time.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum CancelReason {
    /// The window ended.
    WindowEnd,
    /// The inhibit input was set.
    Inhibit,
    /// A hold-shut was set.
    HeldShut,
    /// The lock was found ajar.
    Forced,
    /// One of the people was barred.
    Barred,
    /// The clock became invalid, or two people set it.
    Clock,
    /// A change of the settings: they may not open by now, it takes two, or longer.
    Changed,
}

/// Why a right code did not open.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Refusal {
    /// It is released or open already.
    AlreadyOpen,
    /// The holder is suspended.
    Suspended,
    /// Too many wrong codes on this number.
    Barred,
    /// The role or row does not allow it.
    Right,
    /// The inhibit input is set.
    Inhibit,
    /// A hold-shut is in force.
    HeldShut,
    /// The supply is spent.
    Supply,
    /// The clock is invalid.
    Clock,
    /// Outside the opening windows.
    Closed,
    /// The time delay would outlast the window.
    Late,
    /// A time delay is running.
    Waiting,
    /// Somebody else's delay is to be claimed.
    OtherPerson,
    /// Dual control takes two different people.
    SamePerson,
    /// A penalty is running.
    Penalty,
    /// No window starts soon enough for a hold-shut, or the clock is invalid.
    Hold,
    /// The clock was set by two people and settles.
    Settling,
    /// The first of the two may not open by now.
    FirstRefused,
}

impl Refusal {
    /// Every reason, as numbered in the flash layout.
    pub const ALL: [Self; 17] = [
        Self::AlreadyOpen,
        Self::Suspended,
        Self::Barred,
        Self::Right,
        Self::Inhibit,
        Self::HeldShut,
        Self::Supply,
        Self::Clock,
        Self::Closed,
        Self::Late,
        Self::Waiting,
        Self::OtherPerson,
        Self::SamePerson,
        Self::Penalty,
        Self::Hold,
        Self::Settling,
        Self::FirstRefused,
    ];

    /// The kind of the record: `refused-` and the reason.
    #[must_use]
    pub const fn kind(self) -> &'static str {
        match self {
            Self::AlreadyOpen => "refused-already-open",
            Self::Suspended => "refused-suspended",
            Self::Barred => "refused-barred",
            Self::Right => "refused-right",
            Self::Inhibit => "refused-inhibit",
            Self::HeldShut => "refused-held-shut",
            Self::Supply => "refused-supply",
            Self::Clock => "refused-clock",
            Self::Closed => "refused-closed",
            Self::Late => "refused-late",
            Self::Waiting => "refused-waiting",
            Self::OtherPerson => "refused-other-person",
            Self::SamePerson => "refused-same-person",
            Self::Penalty => "refused-penalty",
            Self::Hold => "refused-hold",
            Self::Settling => "refused-settling",
            Self::FirstRefused => "refused-first-refused",
        }
    }
}

/// The ring in which a record is kept.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ring {
    /// Openings and changes.
    Openings,
    /// Refusals, kept apart so that nobody floods openings out (R1).
    Refusals,
}

impl Event {
    /// The kind, as drills and reports name it.
    #[must_use]
    pub const fn kind(&self) -> &'static str {
        match self {
            Self::PoweredUp { .. } => "powered-up",
            Self::FoundThrown { .. } => "found-thrown",
            Self::Released { .. } => "released",
            Self::Opened => "opened",
            Self::Secured { .. } => "secured",
            Self::NotDrawn => "not-drawn",
            Self::LeftOpen => "left-open",
            Self::Forced => "forced",
            Self::DelayStarted { .. } => "delay-started",
            Self::Lapsed => "lapsed",
            Self::Cancelled { .. } => "cancelled",
            Self::FirstOfTwo { .. } => "first-of-two",
            Self::WrongCode { .. } => "wrong-code",
            Self::Refused { why, .. } => why.kind(),
            Self::Penalty { .. } => "penalty",
            Self::HeldShut { .. } => "held-shut",
            Self::Status { .. } => "status",
            Self::Supply { level: Level::Good, .. } => "supply-good",
            Self::Supply { level: Level::Low, .. } => "supply-low",
            Self::Supply { level: Level::Spent, .. } => "supply-spent",
            Self::ClockInvalid => "clock-invalid",
            Self::Asked { .. } => "asked",
            Self::Changed { change, .. } => change.kind(),
            Self::Fault { .. } => "fault",
        }
    }

    /// The ring in which it is kept.
    #[must_use]
    pub const fn ring(&self) -> Ring {
        match self {
            Self::WrongCode { .. } | Self::Refused { .. } | Self::Penalty { .. } => Ring::Refusals,
            Self::PoweredUp { .. }
            | Self::FoundThrown { .. }
            | Self::Released { .. }
            | Self::Opened
            | Self::Secured { .. }
            | Self::NotDrawn
            | Self::LeftOpen
            | Self::Forced
            | Self::DelayStarted { .. }
            | Self::Lapsed
            | Self::Cancelled { .. }
            | Self::FirstOfTwo { .. }
            | Self::HeldShut { .. }
            | Self::Status { .. }
            | Self::Supply { .. }
            | Self::ClockInvalid
            | Self::Asked { .. }
            | Self::Changed { .. }
            | Self::Fault { .. } => Ring::Openings,
        }
    }

    /// The outcome that a boot goes by, if it was `before` this record: it says whether the
    /// silent alarm is raised again. A plain entry in a penalty takes nothing back: it may
    /// be a wrong code, and nobody without a code may have a duress alarm forgotten (R4).
    #[must_use]
    pub fn heard(&self, before: Option<Outcome>) -> Option<Outcome> {
        let in_penalty = matches!(self, Self::Refused { why: Refusal::Penalty, .. });
        match self.outcome() {
            Some(Outcome::Plain) if in_penalty => before.or(Some(Outcome::Plain)),
            Some(outcome) => Some(outcome),
            None => before,
        }
    }

    /// The outcome field, of records that tell of a code.
    #[must_use]
    pub const fn outcome(&self) -> Option<Outcome> {
        match self {
            Self::Released { outcome, .. }
            | Self::DelayStarted { outcome, .. }
            | Self::FirstOfTwo { outcome, .. }
            | Self::Refused { outcome, .. }
            | Self::Status { outcome, .. }
            | Self::Asked { outcome, .. } => Some(*outcome),
            Self::PoweredUp { .. }
            | Self::FoundThrown { .. }
            | Self::HeldShut { .. }
            | Self::Opened
            | Self::Secured { .. }
            | Self::NotDrawn
            | Self::LeftOpen
            | Self::Forced
            | Self::Lapsed
            | Self::Cancelled { .. }
            | Self::WrongCode { .. }
            | Self::Penalty { .. }
            | Self::Supply { .. }
            | Self::ClockInvalid
            | Self::Changed { .. }
            | Self::Fault { .. } => None,
        }
    }
}
