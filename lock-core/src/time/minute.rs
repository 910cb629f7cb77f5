//! A time on the face of a wall clock.

use serde::{Deserialize, Serialize};

/// A minute of a wall-clock day, 00:00 to 24:00.
///
/// 24:00 is the end of the day and serves as the end of a window only; a clock
/// never shows it.
#[derive(
    Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Hash, Serialize, Deserialize,
)]
#[serde(try_from = "u16", into = "u16")]
pub struct Minute(u16);

impl Minute {
    /// 00:00.
    pub const START: Self = Self(0);
    /// 24:00, the end of the day.
    pub const END: Self = Self(1_440);

    /// The minute `m` after midnight, or `None` above 1,440.
    #[must_use]
    pub const fn new(m: u16) -> Option<Self> {
        if m <= Self::END.0 { Some(Self(m)) } else { None }
    }

    /// The minute written `hour:minute`, or `None` if no clock face has it.
    ///
    /// `24:00` is accepted, `24:01` and `08:60` are not.
    #[must_use]
    pub fn from_hm(hour: u8, minute: u8) -> Option<Self> {
        if minute > 59 {
            return None;
        }
        Self::new(u16::from(hour).saturating_mul(60).saturating_add(u16::from(minute)))
    }

    /// Minutes since midnight, 0 to 1,440.
    #[must_use]
    pub const fn get(self) -> u16 {
        self.0
    }

    /// Hour (0 to 24) and minute (0 to 59).
    #[must_use]
    pub fn hm(self) -> (u8, u8) {
        let hour = u8::try_from(self.0 / 60).unwrap_or(24);
        let minute = u8::try_from(self.0 % 60).unwrap_or(0);
        (hour, minute)
    }

    /// Seconds since midnight, 0 to 86,400.
    #[must_use]
    pub fn seconds(self) -> u32 {
        u32::from(self.0).saturating_mul(60)
    }
}

/// A number above 1,440 arrived where a minute of the day belongs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NotAMinute;

impl core::fmt::Display for NotAMinute {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("a day has the minutes 0 to 1440")
    }
}

impl core::error::Error for NotAMinute {}

impl TryFrom<u16> for Minute {
    type Error = NotAMinute;

    fn try_from(m: u16) -> Result<Self, NotAMinute> {
        Self::new(m).ok_or(NotAMinute)
    }
}

impl From<Minute> for u16 {
    fn from(m: Minute) -> Self {
        m.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_minute_reads_back() {
        for m in 0..=u16::MAX {
            match Minute::new(m) {
                Some(minute) => {
                    assert!(m <= 1_440);
                    let (hour, part) = minute.hm();
                    assert_eq!(u16::from(hour) * 60 + u16::from(part), m);
                    assert_eq!(Minute::from_hm(hour, part), Some(minute));
                    assert_eq!(minute.seconds(), u32::from(m) * 60);
                }
                None => assert!(m > 1_440),
            }
        }
    }

    #[test]
    fn what_no_clock_shows_is_refused() {
        assert_eq!(Minute::from_hm(24, 0), Some(Minute::END));
        assert_eq!(Minute::from_hm(24, 1), None);
        assert_eq!(Minute::from_hm(8, 60), None);
        assert_eq!(Minute::from_hm(255, 59), None);
    }
}
