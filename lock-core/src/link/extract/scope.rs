//! Which records an extract lists.

use serde::{Deserialize, Serialize};

use crate::audit::Event;

/// Which records an extract lists.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Scope {
    /// Every one.
    All,
    /// Who opened, for how long, and when it was closed; delays and hold-shuts.
    Openings,
    /// What was changed, and who asked for what.
    Changes,
    /// What somebody may have to look into: wrong codes, refusals, forced bolts,
    /// faults, the clock and the supply; and every use of a right code, since any
    /// may have been under duress.
    Alarms,
}

/// What a record is about.
#[derive(Clone, Copy, PartialEq, Eq)]
enum About {
    Opening,
    Change,
    Alarm,
}

impl Scope {
    /// All, as numbered on the wire.
    pub const ALL: [Self; 4] = [Self::All, Self::Openings, Self::Changes, Self::Alarms];

    pub(in super::super) const fn number(self) -> u8 {
        match self {
            Self::All => 0,
            Self::Openings => 1,
            Self::Changes => 2,
            Self::Alarms => 3,
        }
    }

    pub(super) fn numbered(number: u8) -> Option<Self> {
        Self::ALL.get(usize::from(number)).copied()
    }

    /// Whether an extract of this scope lists a record of `event`. The same for a
    /// plain code and a duress code (R4).
    #[must_use]
    pub fn takes(self, event: &Event) -> bool {
        match self {
            Self::All => true,
            Self::Openings => about(event) == About::Opening,
            Self::Changes => about(event) == About::Change,
            Self::Alarms => about(event) == About::Alarm || event.outcome().is_some(),
        }
    }
}

const fn about(event: &Event) -> About {
    match event {
        Event::Released { .. }
        | Event::Opened
        | Event::Secured { .. }
        | Event::NotDrawn
        | Event::DelayStarted { .. }
        | Event::Lapsed
        | Event::Cancelled { .. }
        | Event::FirstOfTwo { .. }
        | Event::HeldShut { .. } => About::Opening,
        Event::Status { .. } | Event::Asked { .. } | Event::Changed { .. } => About::Change,
        Event::PoweredUp { .. }
        | Event::FoundThrown { .. }
        | Event::LeftOpen
        | Event::Forced
        | Event::WrongCode { .. }
        | Event::Refused { .. }
        | Event::Penalty { .. }
        | Event::Supply { .. }
        | Event::ClockInvalid
        | Event::Fault { .. } => About::Alarm,
    }
}
