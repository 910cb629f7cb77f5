//! What a number that has failed too often may still try (R2).
//!
//! At [`NUMBER_LIMIT`] failures a number is barred, so that nobody guesses at
//! one holder for ever. A warden keeps a few tries a day, so that nobody can
//! lock every warden out.

use crate::policy::NUMBER_LIMIT;
use crate::role::Role;

/// Tries in one day of uptime that a barred warden keeps. Ours.
pub const WARDEN_TRIES_A_DAY: u8 = 4;

/// How a number stood when a try on it began.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stood {
    /// Below the limit.
    Below,
    /// At the limit; this is its nth try of the day of uptime. A boot counts
    /// as a full day's tries, so that a power cut gives no new ones.
    AtLimit {
        /// 1 for the first try of the day.
        nth_today: u8,
    },
}

impl Stood {
    /// From the failures counted before this try.
    #[must_use]
    pub const fn with(failures: u8, nth_today: u8) -> Self {
        if failures >= NUMBER_LIMIT { Self::AtLimit { nth_today } } else { Self::Below }
    }

    /// Whether a right code of that role is refused all the same.
    #[must_use]
    pub fn bars(self, role: Role) -> bool {
        match (self, role) {
            (Self::Below, _) => false,
            (Self::AtLimit { nth_today }, Role::Warden) => nth_today > WARDEN_TRIES_A_DAY,
            (
                Self::AtLimit { .. },
                Role::Deputy | Role::Keyholder | Role::Courier | Role::Steward,
            ) => true,
        }
    }
}
