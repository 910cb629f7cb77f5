//! What the bolt may do: a file a state.

mod claimable;
mod open;
mod released;
mod secured;
mod waiting;

pub use claimable::Claimable;
pub use open::Open;
pub use released::Released;
pub use waiting::Waiting;

use crate::audit::{self, CancelReason, People};
use crate::policy::Policy;
use crate::port::{Drive, Sound};
use crate::rules::admission::Ends;
use crate::screen::Late;
use crate::time::{Uptime, Utc};

/// The region of the bolt.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Access {
    /// Blocked; nothing is under way.
    Secured,
    /// A time delay is running.
    Waiting(Waiting),
    /// A delay is over and may be claimed.
    Claimable(Claimable),
    /// The bolt is free to be drawn.
    Released(Released),
    /// The bolt is drawn, or the door open.
    Open(Open),
}

/// What can happen to the bolt.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Event {
    /// A look at the time.
    Time,
    /// The bolt was drawn or the door opened.
    Ajar,
    /// Bolt thrown and door closed.
    Shut,
    /// Something ended what is under way.
    Cancel(CancelReason),
    /// The record of a delay's start is durable.
    BeginWait(People, Ends),
    /// The record of an opening is durable (R1).
    Release(People, Ends),
}

/// The moment as rules need it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Moment {
    /// Time since the boot.
    pub uptime: Uptime,
    /// UTC, while the clock is believed.
    pub utc: Option<Utc>,
}

/// What follows from an event, besides the new state.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Consequences {
    /// What it ended before its time; recorded first.
    pub cancelled: Option<CancelReason>,
    /// To be recorded.
    pub record: Option<audit::Event>,
    /// To be driven.
    pub drive: Option<Drive>,
    /// To be heard.
    pub sound: Option<Sound>,
    /// Whether the lock was found open without a release.
    pub forced: Forced,
}

/// Whether the lock was found open without a release.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Forced {
    /// It was not.
    #[default]
    No,
    /// It was: the alarm goes out (R9).
    Yes,
}

impl Consequences {
    const NONE: Self =
        Self { cancelled: None, record: None, drive: None, sound: None, forced: Forced::No };

    const fn record(event: audit::Event) -> Self {
        Self { record: Some(event), ..Self::NONE }
    }
}

impl Access {
    /// The state after `event`, and what follows from it.
    #[must_use]
    pub fn on(self, event: Event, at: Moment, policy: &Policy) -> (Self, Consequences) {
        match self {
            Self::Secured => secured::on(event, at, policy),
            Self::Waiting(waiting) => waiting.on(event, at, policy),
            Self::Claimable(claimable) => claimable.on(event, at, policy),
            Self::Released(released) => released.on(event, at),
            Self::Open(open) => open.on(event, at),
        }
    }

    /// The state's name, as the diagram and the drills spell it.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Secured => "secured",
            Self::Waiting(_) => "waiting",
            Self::Claimable(_) => "claimable",
            Self::Released(_) => "released",
            Self::Open(_) => "open",
        }
    }
}

/// Found open without a release.
fn forced(at: Moment) -> (Access, Consequences) {
    let open = Open { since: at.uptime, ends: Ends::Never, late: Late::No };
    let consequences =
        Consequences { forced: Forced::Yes, ..Consequences::record(audit::Event::Forced) };
    (Access::Open(open), consequences)
}

fn release(ends: Ends, at: Moment, policy: &Policy) -> (Access, Consequences) {
    let released = Released { ends, until: at.uptime.after(policy.release) };
    (Access::Released(released), Consequences { drive: Some(Drive::Free), ..Consequences::NONE })
}
