//! Waiting: a time delay is running.

use super::{Access, Claimable, Consequences, Event, Moment, forced};
use crate::audit::{CancelReason, People};
use crate::policy::Policy;
use crate::rules::ends::Ends;
use crate::time::{Seconds, Uptime};

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
}

impl Waiting {
    pub(super) fn on(self, event: Event, at: Moment, policy: &Policy) -> (Access, Consequences) {
        let stay = (Access::Waiting(self), Consequences::NONE);
        match event {
            Event::Time if self.ends.reached(at.utc) => cancelled(CancelReason::WindowEnd),
            Event::Time if at.uptime >= self.ready => {
                let until = self.ready.after(policy.claim);
                let Self { people, ends, delay, .. } = self;
                let claimable = Claimable { people, ends, delay, until };
                (Access::Claimable(claimable), Consequences::NONE)
            }
            Event::Ajar => forced_out(at),
            Event::Cancel(why) => cancelled(why),
            Event::Time | Event::Shut | Event::BeginWait(..) | Event::Release(..) => stay,
        }
    }
}

/// A delay or claim that is over before its time.
pub(super) fn cancelled(why: CancelReason) -> (Access, Consequences) {
    (Access::Secured, Consequences { cancelled: Some(why), ..Consequences::NONE })
}

/// A delay or claim that ends because the lock was forced.
pub(super) fn forced_out(at: Moment) -> (Access, Consequences) {
    let (open, consequences) = forced(at);
    (open, Consequences { cancelled: Some(CancelReason::Forced), ..consequences })
}
