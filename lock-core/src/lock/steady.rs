//! Steady time: what the lock keeps of it between two looks (R3).
//!
//! With a valid clock it is UTC less the shift, and never falls. Without one it goes
//! on by uptime from where it was: slower than real time at the most, since the time
//! without power is missing.

use crate::recovered::Recovered;
use crate::tally::ClockMark;
use crate::time::{Shift, Steady, Uptime, Utc};

/// Steady time at some moment of this boot; `None` where no time was ever known.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct SteadyClock(Option<(Steady, Uptime)>);

impl SteadyClock {
    /// Where a boot takes it up, should the clock be invalid.
    pub(super) fn at_boot(found: &Recovered, at: Uptime) -> Self {
        let tally = &found.tally;
        let newest = found.floor.map(|floor| tally.shift.steady(floor));
        let known = match tally.clock {
            ClockMark::Doubted => tally.doubted_at,
            ClockMark::Believed => newest,
        };
        Self(known.map(|steady| (steady, at)))
    }

    /// Looks at it; `utc` is the time by a valid clock.
    pub(super) fn looked_at(
        &mut self,
        uptime: Uptime,
        utc: Option<Utc>,
        shift: Shift,
    ) -> Option<Steady> {
        match (utc, self.0) {
            (Some(utc), known) => {
                let steady = shift.steady(utc).max(known.map_or(Steady::default(), |(s, _)| s));
                self.0 = Some((steady, uptime));
                Some(steady)
            }
            (None, known) => known.map(|(steady, since)| steady.after(uptime.since(since))),
        }
    }
}
