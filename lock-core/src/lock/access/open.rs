//! Open: the bolt is drawn, or the door open. Only a hand ends it (R9).

use super::{Access, Consequences, Event, Moment};
use crate::audit::{self, People};
use crate::port::{Drive, Sound};
use crate::rules::ends::Ends;
use crate::screen::Late;
use crate::time::{Seconds, Uptime};

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

    pub(super) fn on(self, event: Event, at: Moment) -> (Access, Consequences) {
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
