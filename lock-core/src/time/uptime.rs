//! Time since the board started.

use serde::{Deserialize, Serialize};

use super::Seconds;

const MILLIS_PER_SECOND: u64 = 1_000;

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
    // Called from every timer: one copy of it is enough.
    #[cfg_attr(target_os = "none", inline(never))]
    pub fn after(self, length: Seconds) -> Self {
        let millis = u64::from(length.get()).saturating_mul(MILLIS_PER_SECOND);
        Self(self.0.saturating_add(millis))
    }

    /// Whole seconds passed since `earlier`; zero if that lies ahead.
    ///
    /// Rounded down, so that a delay of 300 s still refuses at 299.999 s.
    #[must_use]
    pub fn since(self, earlier: Self) -> Seconds {
        let millis = self.0.saturating_sub(earlier.0);
        match u32::try_from(millis / MILLIS_PER_SECOND) {
            Ok(seconds) => Seconds::new(seconds),
            Err(_) => Seconds::MAX,
        }
    }
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

    proptest! {
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
