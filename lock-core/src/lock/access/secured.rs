//! Secured: blocked, and nothing is under way.

use super::{Access, Consequences, Event, Moment, Waiting, forced, release};
use crate::policy::Policy;
use crate::port::Sound;

pub(super) fn on(event: Event, at: Moment, policy: &Policy) -> (Access, Consequences) {
    match event {
        Event::Ajar => forced(at),
        Event::BeginWait(people, ends) => {
            let ready = at.uptime.after(policy.delay);
            let sound = Some(Sound::Accepted);
            let delay = policy.delay;
            let waiting = Access::Waiting(Waiting { people, ends, delay, ready });
            (waiting, Consequences { sound, ..Consequences::NONE })
        }
        Event::Release(people, ends) => release(people, ends, at, policy),
        Event::Time | Event::Shut | Event::Cancel(_) => (Access::Secured, Consequences::NONE),
    }
}
