//! What a clock on the wall shows.

use serde::{Deserialize, Serialize};

use super::{DAY_SECONDS, Date, Minute};

/// How far a wall clock is ahead of UTC, in seconds east; west is negative.
#[derive(
    Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Hash, Serialize, Deserialize,
)]
#[serde(try_from = "i32", into = "i32")]
pub struct Offset(i32);

impl Offset {
    /// No difference from UTC.
    pub const UTC: Self = Self(0);
    /// The largest distance from UTC either way, 25:59:59: a POSIX rule may
    /// name 24:59:59, and daylight saving adds an hour where it names nothing.
    pub const LIMIT: i32 = 93_599;

    /// `seconds` east of UTC, or `None` beyond [`Offset::LIMIT`] either way.
    #[must_use]
    pub const fn from_secs(seconds: i32) -> Option<Self> {
        if seconds >= -Self::LIMIT && seconds <= Self::LIMIT { Some(Self(seconds)) } else { None }
    }

    /// Seconds east of UTC.
    #[must_use]
    pub const fn as_secs(self) -> i32 {
        self.0
    }
}

/// A number beyond [`Offset::LIMIT`] arrived where an offset belongs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NotAnOffset;

impl core::fmt::Display for NotAnOffset {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("offsets from UTC go up to 25:59:59 either way")
    }
}

impl core::error::Error for NotAnOffset {}

impl TryFrom<i32> for Offset {
    type Error = NotAnOffset;

    fn try_from(seconds: i32) -> Result<Self, NotAnOffset> {
        Self::from_secs(seconds).ok_or(NotAnOffset)
    }
}

impl From<Offset> for i32 {
    fn from(offset: Offset) -> Self {
        offset.0
    }
}

/// A moment as a wall clock shows it.
///
/// Comparing two of them compares what the clocks show, not which came first:
/// in the hour that a clock change repeats, later moments compare as less.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Hash, Serialize, Deserialize)]
pub struct Local {
    /// The date on the wall.
    pub date: Date,
    /// Seconds of that date on the wall, 0 to 86,399.
    pub second: u32,
    /// How far this clock is ahead of UTC.
    pub offset: Offset,
}

impl Local {
    /// The minute of the day, 00:00 to 23:59.
    #[must_use]
    pub fn minute(self) -> Minute {
        u16::try_from(self.second / 60).ok().and_then(Minute::new).unwrap_or(Minute::END)
    }

    /// Hour (0 to 23), minute and second (0 to 59 each).
    #[must_use]
    pub fn hms(self) -> (u8, u8, u8) {
        let (hour, minute) = self.minute().hm();
        let second = u8::try_from(self.second % 60).unwrap_or(0);
        (hour, minute, second)
    }

    /// The wall time at `seconds` since 1970-01-01 00:00 UTC, `offset` ahead.
    ///
    /// Wall time before 1970-01-01 00:00 is shown as 1970-01-01 00:00.
    pub(super) fn at(seconds: u32, offset: Offset) -> Self {
        // In 32 bits: the offset shifts the second of the day by less than two
        // days, and 64-bit division is long on a small processor.
        let day = (seconds / DAY_SECONDS).cast_signed();
        let second = (seconds % DAY_SECONDS).cast_signed().wrapping_add(offset.0);
        let day = day.wrapping_add(second.div_euclid(DAY_SECONDS.cast_signed()));
        let second = second.rem_euclid(DAY_SECONDS.cast_signed());
        match u16::try_from(day) {
            Ok(day) => Self { date: Date::from_days(day), second: second.cast_unsigned(), offset },
            Err(_) => Self { date: Date::MIN, second: 0, offset },
        }
    }
}
