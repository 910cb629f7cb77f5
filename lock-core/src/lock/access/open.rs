//! Open: the bolt is drawn, or the door open. Only a hand ends it (R9).

use super::{Access, Consequences, Event, Moment};
use crate::audit;
use crate::port::{Drive, Sound};
use crate::rules::admission::Ends;
use crate::screen::Late;
use crate::time::Uptime;

/// An open lock.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Open {
    /// Since when.
    pub since: Uptime,
    /// When the permit ends; never after a forced opening.
    pub ends: Ends,
    /// Whether it has ended.
    pub late: Late,
}

impl Open {
    pub(super) fn on(self, event: Event, at: Moment) -> (Access, Consequences) {
        let stay = (Access::Open(self), Consequences::NONE);
        match event {
            Event::Shut => {
                let open_for = at.uptime.since(self.since);
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
