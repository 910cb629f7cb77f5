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
        // Else a change made after this boot could count as made before that opening.
        Self(known.max(tally.brought).map(|steady| (steady, at)))
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
            (None, None) => None,
            (None, Some((steady, since))) => {
                // By whole seconds, so that what is left of one counts at the next look.
                let passed = uptime.since(since);
                let now = steady.after(passed);
                self.0 = Some((now, since.after(passed)));
                Some(now)
            }
        }
    }
}

/// Behaviour, sections 1 and 9: at a step with a valid clock the greater of UTC less
/// the shift and of what it was; without one it goes on by uptime.
#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::port::Fault;
    use crate::tally::TallyState;

    fn booted(clock: ClockMark, floor: Option<u32>, doubted: Option<u32>) -> SteadyClock {
        let tally = TallyState {
            clock,
            doubted_at: doubted.map(Steady::from_secs),
            shift: Shift::from_secs(100),
            ..TallyState::NEW
        };
        let floor = floor.map(Utc::from_secs);
        let found = Recovered { tally, floor, ..Recovered::nothing(Fault::Blank) };
        SteadyClock::at_boot(&found, Uptime::ZERO)
    }

    #[test]
    fn a_boot_takes_it_up_from_the_doubt_or_else_from_the_floor() {
        let after = |mut clock: SteadyClock| {
            let uptime = Uptime::from_millis(7_999);
            clock.looked_at(uptime, None, Shift::from_secs(100)).map(Steady::as_secs)
        };
        assert_eq!(after(booted(ClockMark::Believed, Some(1_000), Some(5))), Some(907));
        assert_eq!(after(booted(ClockMark::Doubted, Some(1_000), Some(5))), Some(12));
        assert_eq!(after(booted(ClockMark::Doubted, Some(1_000), None)), None);
        assert_eq!(after(booted(ClockMark::Believed, None, Some(5))), None);
    }

    #[test]
    fn a_boot_never_takes_it_up_before_what_an_opening_brought() {
        for (doubted, from) in [(None, 300), (Some(5), 300), (Some(400), 400)] {
            let doubted_at = doubted.map(Steady::from_secs);
            let brought = Some(Steady::from_secs(300));
            let tally =
                TallyState { clock: ClockMark::Doubted, doubted_at, brought, ..TallyState::NEW };
            let found = Recovered { tally, ..Recovered::nothing(Fault::Blank) };
            let mut clock = SteadyClock::at_boot(&found, Uptime::ZERO);
            let now = clock.looked_at(Uptime::ZERO, None, Shift::from_secs(0));
            assert_eq!(now.map(Steady::as_secs), Some(from));
        }
    }

    proptest! {
        #[test]
        fn it_never_falls(
            floor in proptest::option::of(1_000..2_000_000u32),
            looks in proptest::collection::vec((0..5_000_000u64, proptest::option::of(0..2_000_000u32)), 1..40),
        ) {
            let mut clock = booted(ClockMark::Believed, floor, None);
            let (mut before, mut millis) = (None, 0);
            for (passes, utc) in looks {
                millis += passes;
                let utc = utc.map(Utc::from_secs);
                let shift = Shift::from_secs(100);
                let now = clock.looked_at(Uptime::from_millis(millis), utc, shift);
                prop_assert!(now >= before);
                prop_assert!(utc.is_none_or(|utc| now >= Some(shift.steady(utc))));
                before = now;
            }
        }
    }
}
