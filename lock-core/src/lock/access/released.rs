//! Released: the bolt is free to be drawn for a few seconds. When that is over, a
//! hand may still have been faster than the blocker.

use super::{Access, Consequences, Event, How, Moment, Open, secured};
use crate::audit::{self, CancelReason, People};
use crate::policy::Policy;
use crate::port::Drive;
use crate::rules::ends::Ends;
use crate::time::{Seconds, Uptime};

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
    pub(super) fn on(self, event: Event, at: Moment) -> (Access, Consequences) {
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
    pub(super) fn on_blocked(
        self,
        event: Event,
        at: Moment,
        policy: &Policy,
    ) -> (Access, Consequences) {
        match event {
            Event::Ajar if at.uptime < self.until => self.drawn(at),
            Event::Time if at.uptime < self.until => (Access::Blocked(self), Consequences::NONE),
            Event::Cancel(_) | Event::Shut => (Access::Blocked(self), Consequences::NONE),
            Event::Time | Event::Ajar | Event::BeginWait(..) | Event::Release(..) => {
                secured::on(event, at, policy)
            }
        }
    }
}
