//! A moment that everybody agrees on.

use serde::{Deserialize, Serialize};

use super::Seconds;

/// Seconds since 1970-01-01 00:00:00 UTC, without leap seconds (POSIX).
///
/// Four bytes last until 2106-02-07 06:28:15; [`Utc::MAX`] is that second.
#[derive(
    Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Utc(u32);

impl Utc {
    /// 1970-01-01 00:00:00.
    pub const MIN: Self = Self(0);
    /// 2106-02-07 06:28:15.
    pub const MAX: Self = Self(u32::MAX);

    /// The moment `secs` seconds after 1970-01-01 00:00:00.
    #[must_use]
    pub const fn from_secs(secs: u32) -> Self {
        Self(secs)
    }

    /// Seconds since 1970-01-01 00:00:00.
    #[must_use]
    pub const fn as_secs(self) -> u32 {
        self.0
    }

    /// The moment `length` later, or `None` past [`Utc::MAX`].
    #[must_use]
    pub fn checked_add(self, length: Seconds) -> Option<Self> {
        self.0.checked_add(length.get()).map(Self)
    }

    /// The moment `length` later, [`Utc::MAX`] at most.
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

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    proptest! {
        #[test]
        fn sums_stop_at_the_end_and_differences_at_zero(start: u32, length: u32) {
            let from = Utc::from_secs(start);
            let to = from.after(Seconds::new(length));
            match from.checked_add(Seconds::new(length)) {
                Some(exact) => {
                    prop_assert_eq!(to, exact);
                    prop_assert_eq!(to.since(from).get(), length);
                }
                None => {
                    prop_assert!(length > u32::MAX.saturating_sub(start));
                    prop_assert_eq!(to, Utc::MAX);
                }
            }
            prop_assert_eq!(from.since(to), Seconds::ZERO);
        }
    }
}
