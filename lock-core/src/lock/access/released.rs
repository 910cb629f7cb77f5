//! Released: the bolt is free to be drawn for a few seconds.

use super::{Access, Consequences, Event, Moment, Open};
use crate::audit;
use crate::port::Drive;
use crate::rules::admission::Ends;
use crate::screen::Late;
use crate::time::Uptime;

/// A release.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Released {
    /// When the permit ends.
    pub ends: Ends,
    /// When the bolt is blocked again.
    pub until: Uptime,
}

impl Released {
    pub(super) fn on(self, event: Event, at: Moment) -> (Access, Consequences) {
        let stay = (Access::Released(self), Consequences::NONE);
        match event {
            Event::Time if at.uptime >= self.until => {
                let record = Some(audit::Event::NotDrawn);
                let drive = Some(Drive::Block);
                (Access::Secured, Consequences { record, drive, ..Consequences::NONE })
            }
            Event::Ajar => {
                let open = Open { since: at.uptime, ends: self.ends, late: Late::No };
                (Access::Open(open), Consequences::record(audit::Event::Opened))
            }
            Event::Time
            | Event::Shut
            | Event::Cancel(_)
            | Event::BeginWait(..)
            | Event::Release(..) => stay,
        }
    }
}
