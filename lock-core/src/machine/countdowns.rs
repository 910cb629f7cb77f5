//! What takes days at the lock: a reset without a warden's code, and a way out. A boot
//! ends the first and begins the second anew.

use super::way_out;
use crate::audit::People;
use crate::time::{Seconds, Uptime};

/// A reset without a warden's code takes so long, with the bolt drawn (R7).
pub const SLOW_RESET: Seconds = Seconds::from_hours(24);

/// The region of countdowns: when each is over, while it runs.
pub(super) struct Countdowns {
    reset: Option<Uptime>,
    way_out: Option<Uptime>,
}

impl Countdowns {
    pub(super) fn at_boot(way_out: Option<People>, at: Uptime) -> Self {
        let way_out = way_out.map(|people| at.after(way_out::length(people)));
        Self { reset: None, way_out }
    }

    pub(super) const fn reset(&self) -> Option<Uptime> {
        self.reset
    }

    pub(super) const fn way_out(&self) -> Option<Uptime> {
        self.way_out
    }

    pub(super) fn begin_reset(&mut self, at: Uptime) {
        self.reset = Some(at.after(SLOW_RESET));
    }

    pub(super) const fn end_reset(&mut self) {
        self.reset = None;
    }

    pub(super) fn begin_way_out(&mut self, people: People, at: Uptime) {
        self.way_out = Some(at.after(way_out::length(people)));
    }

    pub(super) const fn end_way_out(&mut self) {
        self.way_out = None;
    }
}
