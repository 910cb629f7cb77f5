//! Claimable: a delay is over; the same people may claim it.

use super::waiting::{cancelled, forced_out};
use super::{Access, Consequences, Event, Moment, release};
use crate::audit::{self, CancelReason, People};
use crate::policy::Policy;
use crate::rules::ends::Ends;
use crate::time::{Seconds, Uptime};

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
}

impl Claimable {
    pub(super) fn on(self, event: Event, at: Moment, policy: &Policy) -> (Access, Consequences) {
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
