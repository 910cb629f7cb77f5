//! When the lock must be woken if nothing happens before: the earliest of its
//! timers. It never ticks.
//!
//! What may not be done now asks for no wake-up: whoever makes that end looks at it
//! again in the same step. So the lock never asks for a moment that has passed.

use super::bolt::{Access, Moment};
use super::step::Machine;
use crate::rules::clock::{COMPARE_OVER, Clock};
use crate::time::{Steady, Uptime, Utc};

impl Machine {
    pub(super) fn wake(&self, at: Moment) -> Option<Uptime> {
        let mut earliest = Earliest(None);
        if !self.waits_for_a_boot() {
            for moment in self.counts.wakes() {
                earliest.consider(moment);
            }
            for moment in self.correction_wakes() {
                earliest.consider(moment);
            }
        }
        earliest.consider(self.session.until());
        earliest.consider(self.notice.map(|notice| notice.until));
        earliest.consider(self.pair.until());
        if self.is_undisturbed() {
            earliest.consider(self.reset_due);
            earliest.consider(self.way_out_due);
            earliest.consider(self.file.waits.and_then(|waits| comes(waits.until, at)));
        }
        earliest.consider(self.face_changes(at));
        for end in self.alarm.wakes() {
            earliest.consider(Some(end));
        }
        let (timer, ends) = match &self.access {
            Access::Secured => (None, None),
            Access::Waiting(waiting) => (Some(waiting.ready), waiting.ends.instant()),
            Access::Claimable(claim) => (Some(claim.until), claim.ends.instant()),
            Access::Released(released) | Access::Blocked(released) => (Some(released.until), None),
            Access::Open(open) => match open.late {
                crate::screen::Late::No => (None, open.ends.instant()),
                crate::screen::Late::Yes => (None, None),
            },
        };
        earliest.consider(timer);
        earliest.consider(ends.and_then(|end| uptime_of(end, at)));
        earliest.consider(self.counts.held_until().and_then(|end| comes(end, at)));
        if let Clock::Valid { uptime, .. } = self.clock {
            earliest.consider(Some(uptime.after(COMPARE_OVER)));
        }
        earliest.0
    }
}

/// The earliest moment considered so far.
struct Earliest(Option<Uptime>);

impl Earliest {
    #[inline(never)] // one copy
    fn consider(&mut self, moment: Option<Uptime>) {
        self.0 = match (self.0, moment) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (Some(a), None) => Some(a),
            (None, b) => b,
        };
    }
}

/// When an instant will have come, on a clock that is believed.
fn uptime_of(instant: Utc, at: Moment) -> Option<Uptime> {
    Some(at.uptime.after(instant.since(at.utc?)))
}

/// When a steady time will have come.
fn comes(steady: Steady, at: Moment) -> Option<Uptime> {
    Some(at.uptime.after(steady.since(at.steady?)))
}
