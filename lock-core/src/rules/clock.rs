//! Whether the clock can be believed (R3).
//!
//! Windows are judged by the clock chip, lengths by uptime; the two watch each
//! other. A clock that lost power, reads below the newest record or strays from
//! uptime is invalid until it is set.

use crate::port::{Chip, Now};
use crate::time::{Seconds, Uptime, Utc};

/// How far clock and uptime may be apart at once. Ours: a whole-second reading
/// is up to one second old on either side.
pub const SLACK: Seconds = Seconds::new(2);

/// The part of the elapsed time by which they may drift apart besides: 1/4096,
/// 244 ppm. Ours: two crystals of 100 ppm each, rounded up.
pub const DRIFT_DIVISOR: u32 = 4_096;

/// How old the comparison point may get. Ours: the sum of slacks stays below
/// 24 s a day.
pub const COMPARE_OVER: Seconds = Seconds::from_hours(24);

/// The clock as the lock sees it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Clock {
    /// Believed; compared with uptime since that point.
    Valid {
        /// Uptime at the comparison point.
        uptime: Uptime,
        /// UTC at the comparison point.
        utc: Utc,
    },
    /// Not believed until it is set.
    Invalid,
}

impl Clock {
    /// The clock as a boot finds it: `floor` is the newest record's time,
    /// `doubted` what the tally says.
    #[must_use]
    pub fn at_boot(now: Now, floor: Option<Utc>, doubted: bool) -> Self {
        match now.chip {
            Chip::At(utc) if !doubted && floor.is_none_or(|floor| utc >= floor) => {
                Self::Valid { uptime: now.uptime, utc }
            }
            Chip::At(_) | Chip::Lost => Self::Invalid,
        }
    }

    /// The clock after looking at it `now`.
    #[must_use]
    pub fn looked_at(self, now: Now) -> Self {
        match (self, now.chip) {
            (Self::Valid { uptime, utc }, Chip::At(reads)) => {
                let elapsed = now.uptime.since(uptime);
                if !agree(elapsed, utc, reads) {
                    Self::Invalid
                } else if elapsed >= COMPARE_OVER {
                    Self::Valid { uptime: now.uptime, utc: reads }
                } else {
                    self
                }
            }
            (Self::Valid { .. }, Chip::Lost) | (Self::Invalid, _) => Self::Invalid,
        }
    }

    /// The time, if the clock is believed.
    #[must_use]
    pub const fn utc(self, now: Now) -> Option<Utc> {
        match (self, now.chip) {
            (Self::Valid { .. }, Chip::At(utc)) => Some(utc),
            (Self::Valid { .. }, Chip::Lost) | (Self::Invalid, _) => None,
        }
    }
}

fn agree(elapsed: Seconds, from: Utc, reads: Utc) -> bool {
    let expected = i64::from(elapsed.get());
    let seen = i64::from(reads.as_secs()).saturating_sub(i64::from(from.as_secs()));
    let drift = i64::from(elapsed.get() / DRIFT_DIVISOR);
    let allowed = i64::from(SLACK.get()).saturating_add(drift);
    seen.saturating_sub(expected).saturating_abs() <= allowed
}

#[cfg(test)]
mod tests {
    use super::*;

    fn now(uptime: u64, utc: u32) -> Now {
        let chip = Chip::At(Utc::from_secs(utc));
        Now { uptime: Uptime::from_millis(uptime * 1_000), chip }
    }

    /// R3: a clock set forward or back, even by little, is not believed.
    #[test]
    fn a_jump_beyond_slack_and_drift_makes_it_invalid() {
        let clock = Clock::at_boot(now(0, 1_000_000), None, false);
        for (elapsed, off, believed) in [
            (0, 2, true),
            (0, 3, false),
            (0, -2, true),
            (0, -3, false),
            (4_096, 3, true),
            (4_096, 4, false),
        ] {
            let reads = u32::try_from(1_000_000 + elapsed + off).unwrap();
            let seen = clock.looked_at(now(u64::try_from(elapsed).unwrap(), reads));
            assert_eq!(seen != Clock::Invalid, believed, "{elapsed} {off}");
        }
    }

    #[test]
    fn once_invalid_it_stays_so() {
        assert_eq!(Clock::Invalid.looked_at(now(5, 5)), Clock::Invalid);
        assert_eq!(Clock::at_boot(now(0, 5), Some(Utc::from_secs(6)), false), Clock::Invalid);
        assert_eq!(Clock::at_boot(now(0, 5), None, true), Clock::Invalid);
    }
}
