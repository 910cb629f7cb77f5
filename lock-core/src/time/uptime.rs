//! Time since the board started.

use serde::{Deserialize, Serialize};

use super::Seconds;

const MILLIS_PER_SECOND: u16 = 1_000;
const MILLIS_PER_MINUTE: u16 = 60_000;
const MINUTES_PER_DAY: u16 = 1_440;

/// Milliseconds since the board started; nobody can set it.
///
/// It starts at zero with every boot, so a value says nothing after a power
/// cut. The range, 584 million years, outlasts the board.
#[derive(
    Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Uptime(u64);

impl Uptime {
    /// The start of the board.
    pub const ZERO: Self = Self(0);

    /// The moment `millis` milliseconds after the start.
    #[must_use]
    pub const fn from_millis(millis: u64) -> Self {
        Self(millis)
    }

    /// Milliseconds since the start.
    #[must_use]
    pub const fn as_millis(self) -> u64 {
        self.0
    }

    /// The moment `length` later, stopping at the end of the range.
    #[must_use]
    #[cfg_attr(target_os = "none", inline(never))] // one copy
    pub fn after(self, length: Seconds) -> Self {
        let millis = u64::from(length.get()).saturating_mul(MILLIS_PER_SECOND.into());
        Self(self.0.saturating_add(millis))
    }

    /// Whole seconds passed since `earlier`; zero if that lies ahead.
    ///
    /// Rounded down, so that a delay of 300 s still refuses at 299.999 s.
    #[must_use]
    pub fn since(self, earlier: Self) -> Seconds {
        let millis = self.0.saturating_sub(earlier.0);
        match u32::try_from(divided(millis, MILLIS_PER_SECOND)) {
            Ok(seconds) => Seconds::new(seconds),
            Err(_) => Seconds::MAX,
        }
    }

    /// Minutes until `later`, a part of one counted as one; zero if that is past.
    #[must_use]
    pub fn minutes_until(self, later: Self) -> u64 {
        let started = u64::from(MILLIS_PER_MINUTE).saturating_sub(1);
        divided(later.0.saturating_sub(self.0).saturating_add(started), MILLIS_PER_MINUTE)
    }

    /// Whole days since the start.
    #[must_use]
    pub fn days(self) -> u64 {
        divided(divided(self.0, MILLIS_PER_MINUTE), MINUTES_PER_DAY)
    }
}

/// Division by hand, 16 bits at a time: a small processor divides 32 bits by
/// itself, and the 64 of `/` with a kilobyte of code.
#[cfg_attr(target_os = "none", inline(never))] // one copy
fn divided(value: u64, by: u16) -> u64 {
    let [a, b, c, d, e, f, g, h] = value.to_be_bytes();
    let (mut quotient, mut rest) = (0_u64, 0_u32);
    for digit in [[a, b], [c, d], [e, f], [g, h]] {
        // Below `by` times 65,536, since the rest is below `by`.
        let part = rest << 16 | u32::from(u16::from_be_bytes(digit));
        quotient = quotient << 16 | u64::from(part.checked_div(by.into()).unwrap_or(0));
        rest = part.checked_rem(by.into()).unwrap_or(0);
    }
    quotient
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn a_started_second_does_not_count() {
        let start = Uptime::from_millis(17);
        let end = start.after(Seconds::new(300));
        assert_eq!(end.as_millis(), 300_017);
        assert_eq!(Uptime::from_millis(300_016).since(start).get(), 299);
        assert_eq!(end.since(start).get(), 300);
    }

    #[test]
    fn the_ends_of_the_range_hold() {
        let last = Uptime::from_millis(u64::MAX);
        assert_eq!(last.after(Seconds::new(1)), last);
        assert_eq!(last.since(Uptime::ZERO), Seconds::MAX);
        assert_eq!(Uptime::ZERO.since(last), Seconds::ZERO);
    }

    #[test]
    fn a_started_minute_counts() {
        let at = Uptime::from_millis;
        assert_eq!(at(5).minutes_until(at(60_005)), 1);
        assert_eq!(at(5).minutes_until(at(60_006)), 2);
        assert_eq!(at(5).minutes_until(at(4)), 0);
        assert_eq!((at(86_399_999).days(), at(86_400_000).days()), (0, 1));
    }

    proptest! {
        #[test]
        fn division_by_hand_is_division(value: u64, by in 1..=u16::MAX) {
            for value in [value, value % 100_000_000, u64::MAX] {
                prop_assert_eq!(divided(value, by), value / u64::from(by));
            }
        }

        #[test]
        fn since_undoes_after(start in 0..u64::MAX / 2, length: u32, part in 0_u64..1_000) {
            let start = Uptime::from_millis(start);
            let end = start.after(Seconds::new(length));
            prop_assert_eq!(end.since(start).get(), length);
            let later = Uptime::from_millis(end.as_millis().saturating_add(part));
            prop_assert_eq!(later.since(start).get(), length);
        }
    }
}
