//! Whether the clock can be believed (R3).
//!
//! Windows are judged by the clock chip, lengths by uptime; the two watch each
//! other. A clock that lost power, reads below the newest record or strays from
//! uptime is invalid until it is set.

use crate::port::{Chip, Now};
use crate::tally::ClockMark;
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

/// How far ahead of the floor a boot still believes the chip: 366 days. Ours: a lock
/// that lay without power for longer has its clock set anew.
pub const FLOOR_AHEAD: Seconds = Seconds::from_hours(366 * 24);

/// For how long after the firmware was built its clock may be set: 30 years of 365.25
/// days. Ours: longer than a lock lives.
pub const LIFE: Seconds = Seconds::new(30 * 31_557_600);

/// Whether a lock whose firmware was built then may be told that it is `utc`.
#[must_use]
pub fn is_within_life(utc: Utc, built: Utc) -> bool {
    utc >= built && utc.since(built) <= LIFE
}

impl Clock {
    /// The clock as a boot finds it. `floor` is the latest time in any record since the
    /// clock was set, `built` when the firmware was built, `doubted` what the tally says.
    #[must_use]
    pub fn at_boot(now: Now, floor: Option<Utc>, built: Utc, doubted: ClockMark) -> Self {
        let likely = |utc: Utc| {
            floor.is_none_or(|floor| utc >= floor && utc.since(floor) <= FLOOR_AHEAD)
                && is_within_life(utc, built)
        };
        match (now.chip, doubted) {
            (Chip::At(utc), ClockMark::Believed) if likely(utc) => {
                Self::Valid { uptime: now.uptime, utc }
            }
            (Chip::At(_) | Chip::Lost, _) => Self::Invalid,
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
        let clock = Clock::at_boot(now(0, 1_000_000), None, Utc::MIN, ClockMark::Believed);
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

    const BELIEVED: ClockMark = ClockMark::Believed;

    #[test]
    fn once_invalid_it_stays_so() {
        let at = |utc, floor: Option<u32>, built, mark| {
            Clock::at_boot(now(0, utc), floor.map(Utc::from_secs), Utc::from_secs(built), mark)
        };
        assert_eq!(Clock::Invalid.looked_at(now(5, 5)), Clock::Invalid);
        assert_eq!(at(5, Some(6), 0, BELIEVED), Clock::Invalid);
        assert_eq!(at(5, None, 0, ClockMark::Doubted), Clock::Invalid);
    }

    /// Section 9: a year past the newest record is doubted, and 30 years past the
    /// firmware.
    #[test]
    fn a_boot_believes_a_year_past_the_floor_and_30_past_the_build() {
        let (year, life) = (366 * 86_400, 946_728_000);
        for (utc, floor, believed) in [
            (1_000_000, None, true),
            (999_999, None, false),
            (1_000_000 + life, None, true),
            (1_000_001 + life, None, false),
            (2_000_000 + year, Some(2_000_000), true),
            (2_000_001 + year, Some(2_000_000), false),
        ] {
            let floor = floor.map(Utc::from_secs);
            let found = Clock::at_boot(now(0, utc), floor, Utc::from_secs(1_000_000), BELIEVED);
            assert_eq!(found != Clock::Invalid, believed, "{utc} {floor:?}");
        }
    }
}
