//! What a number that has failed too often may still try (R2).
//!
//! At [`NUMBER_LIMIT`] failures a number is barred, so that nobody guesses at
//! one holder for ever. A warden keeps a way in, so that nobody can lock every
//! warden out.

use crate::policy::NUMBER_LIMIT;
use crate::role::Role;

/// Tries in one day of uptime that a barred warden keeps. Ours.
pub const WARDEN_TRIES_A_DAY: u8 = 4;

/// Whether a barred warden's code is taken all the same: while the bolt is drawn,
/// shortly after another privileged person's code, or as one of a few tries a day.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum WayIn {
    /// It is not.
    No,
    /// It is.
    Yes,
}

/// How a number stood when a try on it began.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stood {
    /// Below the limit.
    Below,
    /// At the limit, with a way in for a warden or without.
    AtLimit(WayIn),
}

impl Stood {
    /// From the failures counted before this try.
    #[must_use]
    pub const fn with(failures: u8, way_in: WayIn) -> Self {
        if failures >= NUMBER_LIMIT { Self::AtLimit(way_in) } else { Self::Below }
    }

    /// Whether a right code of that role is refused all the same.
    #[must_use]
    pub fn bars(self, role: Role) -> bool {
        match (self, role) {
            (Self::Below, _) | (Self::AtLimit(WayIn::Yes), Role::Warden) => false,
            (Self::AtLimit(_), _) => true,
        }
    }
}

/// Behaviour, section 3: `barred`. For the hundred see [`NUMBER_LIMIT`].
#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_warden_with_a_way_in_is_not_barred_at_the_limit() {
        for failures in 0..=u8::MAX {
            for way_in in [WayIn::No, WayIn::Yes] {
                for role in Role::ALL {
                    let has_one = (way_in, role) == (WayIn::Yes, Role::Warden);
                    let bars = Stood::with(failures, way_in).bars(role);
                    assert_eq!(bars, failures >= 100 && !has_one, "{failures} {way_in:?} {role:?}");
                }
            }
        }
    }
}
