//! Time that no setting of the clock moves.

use serde::{Deserialize, Serialize};

use super::{Seconds, Utc};

/// Steady time: UTC less the [`Shift`], in whole seconds.
///
/// Everything that waits for an instant is kept in it, so that nobody brings it
/// forward, or puts it off, by setting the clock (R3).
#[derive(
    Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Steady(u32);

impl Steady {
    /// The steady time of that many seconds.
    #[must_use]
    pub const fn from_secs(secs: u32) -> Self {
        Self(secs)
    }

    /// Its seconds.
    #[must_use]
    pub const fn as_secs(self) -> u32 {
        self.0
    }

    /// So much later; it stops at what four bytes hold.
    #[must_use]
    pub const fn after(self, length: Seconds) -> Self {
        Self(self.0.saturating_add(length.get()))
    }

    /// The time passed since `earlier`; zero if that lies ahead.
    #[must_use]
    pub const fn since(self, earlier: Self) -> Seconds {
        Seconds::new(self.0.saturating_sub(earlier.0))
    }
}

/// The sum of all settings of the clock, forward less back, in seconds.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Shift(i32);

impl Shift {
    /// The clock was never set, or as far back as forward.
    pub const NONE: Self = Self(0);

    /// A shift of that many seconds.
    #[must_use]
    pub const fn from_secs(secs: i32) -> Self {
        Self(secs)
    }

    /// Its seconds.
    #[must_use]
    pub const fn as_secs(self) -> i32 {
        self.0
    }

    /// The shift after which it is `utc` at `steady`. Stops 68 years ahead or back.
    #[must_use]
    pub fn between(steady: Steady, utc: Utc) -> Self {
        let by = i64::from(utc.as_secs()).saturating_sub(i64::from(steady.0));
        let most = if by < 0 { i32::MIN } else { i32::MAX };
        Self(i32::try_from(by).unwrap_or(most))
    }

    /// The steady time at `utc`; it stops at both ends of what four bytes hold.
    #[must_use]
    pub const fn steady(self, utc: Utc) -> Steady {
        Steady(moved(utc.as_secs(), self.0, Direction::Back))
    }

    /// UTC at `steady`; it stops at both ends of what four bytes hold.
    #[must_use]
    pub const fn utc(self, steady: Steady) -> Utc {
        Utc::from_secs(moved(steady.0, self.0, Direction::Forward))
    }
}

#[derive(Clone, Copy)]
enum Direction {
    Forward,
    Back,
}

const fn moved(secs: u32, by: i32, direction: Direction) -> u32 {
    let length = by.unsigned_abs();
    match (direction, by < 0) {
        (Direction::Forward, false) | (Direction::Back, true) => secs.saturating_add(length),
        (Direction::Forward, true) | (Direction::Back, false) => secs.saturating_sub(length),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn a_setting_moves_utc_and_not_steady_time(
            steady in 1_000_000_000..3_000_000_000u32,
            target in 1_000_000_000..3_000_000_000u32,
        ) {
            let (steady, target) = (Steady::from_secs(steady), Utc::from_secs(target));
            let shift = Shift::between(steady, target);
            prop_assert_eq!(shift.utc(steady), target);
            prop_assert_eq!(shift.steady(target), steady);
        }

        /// However often the clock is set, a length of steady time is a length of UTC
        /// between two settings, and nothing waits shorter or longer by a setting.
        #[test]
        fn settings_in_a_row_move_no_end(
            start in 1_000_000_000..2_000_000_000u32,
            waits in 1..100_000u32,
            settings in proptest::collection::vec((0..10_000u32, -40_000_000..40_000_000i64), 1..8),
        ) {
            let end = Steady::from_secs(start).after(Seconds::new(waits));
            let (mut shift, mut utc) = (Shift::NONE, i64::from(start));
            let mut passed = 0;
            for (passes, by) in settings {
                utc += i64::from(passes);
                passed += passes;
                let now = Utc::from_secs(u32::try_from(utc).unwrap());
                let steady = shift.steady(now);
                prop_assert_eq!(steady, Steady::from_secs(start + passed));
                prop_assert_eq!(steady >= end, passed >= waits);
                utc += by;
                shift = Shift::between(steady, Utc::from_secs(u32::try_from(utc).unwrap()));
                prop_assert_eq!(i64::from(shift.as_secs()), utc - i64::from(start + passed));
            }
        }

        /// At both ends of what four bytes hold it stops, and never turns round.
        #[test]
        fn it_stops_at_both_ends(shift: i32, a: u32, b: u32, length: u32) {
            let shift = Shift::from_secs(shift);
            let steady = |utc| shift.steady(Utc::from_secs(utc));
            prop_assert_eq!(steady(a.min(b)) <= steady(a.max(b)), true);
            let utc = |steady| shift.utc(Steady::from_secs(steady));
            prop_assert_eq!(utc(a.min(b)) <= utc(a.max(b)), true);
            let exact = (i64::from(a) - i64::from(shift.as_secs())).clamp(0, u32::MAX.into());
            prop_assert_eq!(i64::from(steady(a).as_secs()), exact);
            let (early, late) = (Steady::from_secs(a), Steady::from_secs(a).after(Seconds::new(length)));
            prop_assert_eq!(late.since(early).get(), length.min(u32::MAX - a));
            prop_assert_eq!(early.since(late), Seconds::new(0));
        }
    }
}
