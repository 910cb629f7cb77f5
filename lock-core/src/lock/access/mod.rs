//! What the bolt may do: a file a state.

mod claimable;
mod open;
mod released;
mod secured;
mod waiting;

pub use claimable::Claimable;
pub use open::{How, Open};
pub use released::Released;
pub use waiting::Waiting;

use crate::audit::{self, CancelReason, People};
use crate::policy::Policy;
use crate::port::{Drive, Sound};
use crate::rules::ends::Ends;
use crate::time::{Steady, Uptime, Utc};

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
    /// Secured, but a hand may have been faster than the blocker: `until` ends that.
    Blocked(Released),
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
    /// Steady time, where any time is known.
    pub steady: Option<Steady>,
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
            Self::Blocked(released) => released.on_blocked(event, at, policy),
            Self::Open(open) => open.on(event, at),
        }
    }

    /// Whose delay runs or may be claimed, and until when they may.
    #[must_use]
    pub const fn delayed(&self) -> Option<(People, Ends)> {
        match self {
            Self::Waiting(waiting) => Some((waiting.people, waiting.ends)),
            Self::Claimable(claim) => Some((claim.people, claim.ends)),
            Self::Secured | Self::Released(_) | Self::Blocked(_) | Self::Open(_) => None,
        }
    }

    /// Whether the lock was opened: ajar, and not forced.
    #[must_use]
    pub const fn is_opened(&self) -> bool {
        matches!(self, Self::Open(Open { how: How::Opened | How::FoundOpened, .. }))
    }

    /// Whether it was opened by a hand that the lock saw: what waits, waits no more.
    #[must_use]
    pub const fn was_seen_opened(&self) -> bool {
        matches!(self, Self::Open(Open { how: How::Opened, .. }))
    }

    /// The state's name, as the diagram and the drills spell it.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Secured | Self::Blocked(_) => "secured",
            Self::Waiting(_) => "waiting",
            Self::Claimable(_) => "claimable",
            Self::Released(_) => "released",
            Self::Open(_) => "open",
        }
    }
}

/// Found open without a release.
fn forced(at: Moment) -> (Access, Consequences) {
    let open = Open::now(How::Forced, None, Ends::Never, at);
    let consequences =
        Consequences { forced: Forced::Yes, ..Consequences::record(audit::Event::Forced) };
    (Access::Open(open), consequences)
}

fn release(people: People, ends: Ends, at: Moment, policy: &Policy) -> (Access, Consequences) {
    let released = Released { people, ends, until: at.uptime.after(policy.release) };
    (Access::Released(released), Consequences { drive: Some(Drive::Free), ..Consequences::NONE })
}
