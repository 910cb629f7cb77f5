//! What the bolt may do: secured, waiting, claimable, released, open.

use crate::audit::{self, CancelReason, People};
use crate::holder::Number;
use crate::policy::Policy;
use crate::port::{Bolt, Contacts, Drive, Sound, Switch};
use crate::rules::ends::Ends;
use crate::rules::limit::WayIn;
use crate::screen::Late;
use crate::time::{Seconds, Steady, Uptime, Utc};

/// One-time codes that are used up, by their couriers: the counter that each has then.
pub type Spent = [Option<(Number, u32)>; 2];

/// Counters of the one-time codes that began an opening.
pub type Began = [Option<(Number, u32)>; 2];

/// The region of the bolt.
pub(super) struct Boltwork {
    access: Access,
    contacts: Contacts,
}

impl Boltwork {
    pub(super) const fn at_boot(contacts: Contacts) -> Self {
        Self { access: Access::Secured, contacts }
    }

    pub(super) const fn access(&self) -> &Access {
        &self.access
    }

    pub(super) const fn contacts(&self) -> Contacts {
        self.contacts
    }

    pub(super) fn is_drawn(&self) -> bool {
        self.contacts.bolt == Bolt::Drawn
    }

    /// Whether somebody who is at an open safe asks for service (R7).
    pub(super) fn is_in_service(&self) -> bool {
        self.is_drawn() && self.contacts.switch == Switch::On
    }

    /// Whether a drawn bolt lets a barred warden in.
    pub(super) fn way_in(&self) -> WayIn {
        if self.is_drawn() { WayIn::Yes } else { WayIn::No }
    }

    pub(super) const fn connect(&mut self, contacts: Contacts) {
        self.contacts = contacts;
    }

    /// Takes an event in; what follows from it.
    pub(super) fn on(&mut self, event: Event, at: Moment, policy: &Policy) -> Consequences {
        let (access, consequences) = self.access.on(event, at, policy);
        self.access = access;
        consequences
    }

    /// It is found open.
    pub(super) const fn found(&mut self, open: Open) {
        self.access = Access::Open(open);
    }

    /// It was shut by hand while nobody is enrolled.
    pub(super) const fn shut(&mut self) {
        self.access = Access::Secured;
    }

    /// A delay, or its claim, is over without a word.
    pub(super) const fn drop_delay(&mut self) {
        if self.access.delayed().is_some() {
            self.access = Access::Secured;
        }
    }

    /// The permit of what is under way ends then.
    pub(super) const fn set_ends(&mut self, anew: Ends) {
        match &mut self.access {
            Access::Secured => {}
            Access::Waiting(Waiting { ends, .. })
            | Access::Claimable(Claimable { ends, .. })
            | Access::Released(Released { ends, .. })
            | Access::Blocked(Released { ends, .. })
            | Access::Open(Open { ends, .. }) => *ends = anew,
        }
    }

    /// While nobody is enrolled nothing is forced, and nobody's permit ends.
    pub(super) const fn is_opened_by_hand(&mut self) {
        if let Access::Open(open) = &mut self.access {
            open.how = How::Opened;
            (open.people, open.ends, open.late) = (None, Ends::Never, Late::No);
        }
    }

    /// The counter whose code began the opening that waits for `number`.
    pub(super) fn began_with(&self, number: Number) -> Option<u32> {
        let (people, began) = match &self.access {
            Access::Waiting(waiting) => (waiting.people, &waiting.began),
            Access::Claimable(claim) => (claim.people, &claim.began),
            Access::Secured | Access::Released(_) | Access::Blocked(_) | Access::Open(_) => {
                return None;
            }
        };
        let mut codes = began.iter().flatten().filter(|_| people.include(number));
        codes.find(|(who, _)| *who == number).map(|(_, counter)| *counter)
    }
}

/// What the bolt may do, and for whom.
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
    /// The record of a delay's start is durable; with the couriers' codes that began it.
    BeginWait(People, Ends, Began),
    /// The record of an opening is durable, and the try that brought it cleared (R1).
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
            Self::Secured => secured_on(event, at, policy),
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

/// Blocked, and nothing is under way.
fn secured_on(event: Event, at: Moment, policy: &Policy) -> (Access, Consequences) {
    match event {
        Event::Ajar => forced(at),
        Event::BeginWait(people, ends, began) => {
            let ready = at.uptime.after(policy.delay);
            let sound = Some(Sound::Accepted);
            let delay = policy.delay;
            let waiting = Access::Waiting(Waiting { people, ends, delay, ready, began });
            (waiting, Consequences { sound, ..Consequences::NONE })
        }
        Event::Release(people, ends) => release(people, ends, at, policy),
        Event::Time | Event::Shut | Event::Cancel(_) => (Access::Secured, Consequences::NONE),
    }
}

/// A running time delay.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Waiting {
    /// Who may claim it.
    pub people: People,
    /// When their permit ends.
    pub ends: Ends,
    /// How long the delay is.
    pub delay: Seconds,
    /// When it may be claimed.
    pub ready: Uptime,
    /// With which couriers' codes it was begun.
    pub began: Began,
}

impl Waiting {
    fn on(self, event: Event, at: Moment, policy: &Policy) -> (Access, Consequences) {
        let stay = (Access::Waiting(self), Consequences::NONE);
        match event {
            Event::Time if self.ends.reached(at.utc) => cancelled(CancelReason::WindowEnd),
            Event::Time if at.uptime >= self.ready => {
                let until = self.ready.after(policy.claim);
                let Self { people, ends, delay, began, .. } = self;
                let claimable = Claimable { people, ends, delay, until, began };
                (Access::Claimable(claimable), Consequences::NONE)
            }
            Event::Ajar => forced_out(at),
            Event::Cancel(why) => cancelled(why),
            Event::Time | Event::Shut | Event::BeginWait(..) | Event::Release(..) => stay,
        }
    }
}

/// A delay or claim that is over before its time.
fn cancelled(why: CancelReason) -> (Access, Consequences) {
    (Access::Secured, Consequences { cancelled: Some(why), ..Consequences::NONE })
}

/// A delay or claim that ends because the lock was forced.
fn forced_out(at: Moment) -> (Access, Consequences) {
    let (open, consequences) = forced(at);
    (open, Consequences { cancelled: Some(CancelReason::Forced), ..consequences })
}

/// A delay that is over.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Claimable {
    /// Who may claim it.
    pub people: People,
    /// When their permit ends.
    pub ends: Ends,
    /// How long the delay was.
    pub delay: Seconds,
    /// When the claim lapses.
    pub until: Uptime,
    /// With which couriers' codes it was begun.
    pub began: Began,
}

impl Claimable {
    fn on(self, event: Event, at: Moment, policy: &Policy) -> (Access, Consequences) {
        let stay = (Access::Claimable(self), Consequences::NONE);
        match event {
            Event::Time if self.ends.reached(at.utc) => cancelled(CancelReason::WindowEnd),
            Event::Time if at.uptime >= self.until => {
                (Access::Secured, Consequences::record(audit::Event::Lapsed))
            }
            Event::Ajar => forced_out(at),
            Event::Cancel(why) => cancelled(why),
            Event::Release(people, ends) => release(people, ends, at, policy),
            Event::Time | Event::Shut | Event::BeginWait(..) => stay,
        }
    }
}

/// So long after a release ended a bolt that is drawn was drawn in it. Ours: what a
/// hand and a blocker take.
const GRACE: Seconds = Seconds::new(2);

/// A release.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Released {
    /// For whom.
    pub people: People,
    /// When the permit ends.
    pub ends: Ends,
    /// When the bolt is blocked again.
    pub until: Uptime,
}

impl Released {
    fn on(self, event: Event, at: Moment) -> (Access, Consequences) {
        let stay = (Access::Released(self), Consequences::NONE);
        match event {
            Event::Time if at.uptime >= self.until => self.block(self.until),
            Event::Cancel(CancelReason::Inhibit | CancelReason::HeldShut) => self.block(at.uptime),
            Event::Ajar => self.drawn(at),
            Event::Time
            | Event::Shut
            | Event::Cancel(
                CancelReason::WindowEnd
                | CancelReason::Forced
                | CancelReason::Barred
                | CancelReason::Clock
                | CancelReason::Changed,
            )
            | Event::BeginWait(..)
            | Event::Release(..) => stay,
        }
    }

    fn block(self, ended: Uptime) -> (Access, Consequences) {
        let blocked = Access::Blocked(Self { until: ended.after(GRACE), ..self });
        let record = Some(audit::Event::NotDrawn);
        (blocked, Consequences { record, drive: Some(Drive::Block), ..Consequences::NONE })
    }

    fn drawn(self, at: Moment) -> (Access, Consequences) {
        let open = Open::now(How::Opened, Some(self.people), self.ends, at);
        (Access::Open(open), Consequences::record(audit::Event::Opened))
    }

    /// The same of a release that has just ended.
    fn on_blocked(self, event: Event, at: Moment, policy: &Policy) -> (Access, Consequences) {
        match event {
            Event::Ajar if at.uptime < self.until => self.drawn(at),
            Event::Time if at.uptime < self.until => (Access::Blocked(self), Consequences::NONE),
            Event::Cancel(_) | Event::Shut => (Access::Blocked(self), Consequences::NONE),
            Event::Time | Event::Ajar | Event::BeginWait(..) | Event::Release(..) => {
                secured_on(event, at, policy)
            }
        }
    }
}

/// An open lock.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Open {
    /// Since when, or since the boot if it was open before.
    pub since: Uptime,
    /// For how long it was open before that.
    pub earlier: Seconds,
    /// How it came to be.
    pub how: How,
    /// Who opened it, where that is known.
    pub people: Option<People>,
    /// When the permit ends; never after a forced opening.
    pub ends: Ends,
    /// Whether it has ended.
    pub late: Late,
}

/// How a lock came to be open.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum How {
    /// After a release, or while nobody was enrolled.
    Opened,
    /// The same, and a boot found it so: what waited before goes on waiting.
    FoundOpened,
    /// Without a release.
    Forced,
}

impl Open {
    /// Open from now on.
    #[must_use]
    pub const fn now(how: How, people: Option<People>, ends: Ends, at: Moment) -> Self {
        Self { since: at.uptime, earlier: Seconds::ZERO, how, people, ends, late: Late::No }
    }

    fn on(self, event: Event, at: Moment) -> (Access, Consequences) {
        let stay = (Access::Open(self), Consequences::NONE);
        match event {
            Event::Shut => {
                let open_for = at.uptime.since(self.since).saturating_add(self.earlier);
                let record = Some(audit::Event::Secured { open_for });
                let drive = Some(Drive::Block);
                (Access::Secured, Consequences { record, drive, ..Consequences::NONE })
            }
            Event::Time if self.late == Late::No && self.ends.reached(at.utc) => {
                let record = Some(audit::Event::LeftOpen);
                let sound = Some(Sound::Warning);
                let late = Access::Open(Self { late: Late::Yes, ..self });
                (late, Consequences { record, sound, ..Consequences::NONE })
            }
            Event::Time
            | Event::Ajar
            | Event::Cancel(_)
            | Event::BeginWait(..)
            | Event::Release(..) => stay,
        }
    }
}
