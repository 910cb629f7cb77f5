//! A day of the calendar.

use serde::{Deserialize, Serialize};

use super::Weekday;

/// Days from 0000-03-01 to 1970-01-01 in the proleptic Gregorian calendar.
const MARCH_OF_YEAR_ZERO: u32 = 719_468;
/// Days in 400 years, after which the calendar repeats.
const DAYS_400_YEARS: u32 = 146_097;

/// A date of the Gregorian calendar, 1970-01-01 to 2149-06-06.
///
/// It is kept as the count of days since 1970-01-01, two bytes in flash.
#[derive(
    Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Date(u16);

impl Date {
    /// 1970-01-01.
    pub const MIN: Self = Self(0);
    /// 2149-06-06.
    pub const MAX: Self = Self(u16::MAX);

    /// The date `days` days after 1970-01-01.
    #[must_use]
    pub const fn from_days(days: u16) -> Self {
        Self(days)
    }

    /// Days since 1970-01-01.
    #[must_use]
    pub const fn days(self) -> u16 {
        self.0
    }

    /// The date written `year`-`month`-`day`, or `None` if the calendar has no
    /// such day or it lies outside the range.
    #[must_use]
    pub fn from_ymd(year: u16, month: u8, day: u8) -> Option<Self> {
        if day == 0 || day > month_length(year, month)? {
            return None;
        }
        let days = year_start(i32::from(year))
            .wrapping_add(i32::from(days_before_month(year, month)))
            .wrapping_add(i32::from(day))
            .wrapping_sub(1);
        u16::try_from(days).ok().map(Self)
    }

    /// Year, month (1 to 12) and day (1 to 31).
    #[must_use]
    pub fn ymd(self) -> (u16, u8, u8) {
        civil(u32::from(self.0))
    }

    /// The year alone.
    #[must_use]
    pub fn year(self) -> u16 {
        civil(u32::from(self.0)).0
    }

    /// The day of the week.
    #[must_use]
    pub fn weekday(self) -> Weekday {
        match monday_zero(u32::from(self.0)) {
            0 => Weekday::Mon,
            1 => Weekday::Tue,
            2 => Weekday::Wed,
            3 => Weekday::Thu,
            4 => Weekday::Fri,
            5 => Weekday::Sat,
            _ => Weekday::Sun,
        }
    }

    /// The ISO 8601 week: its year, which is not always the date's, and its
    /// number, 1 to 53.
    #[must_use]
    pub fn iso_week(self) -> (u16, u8) {
        // A week belongs to the year of its Thursday. The first day of the
        // range is a Thursday, so none lies before it.
        let days = u32::from(self.0);
        let thursday = days.saturating_add(3).saturating_sub(monday_zero(days));
        let (year, _, _) = civil(thursday);
        let start = u32::try_from(year_start(i32::from(year))).unwrap_or(0);
        let week = (thursday.saturating_sub(start) / 7).saturating_add(1);
        (year, u8::try_from(week).unwrap_or(53))
    }

    /// The day after, or `None` after [`Date::MAX`].
    #[must_use]
    pub const fn next(self) -> Option<Self> {
        self.checked_add(1)
    }

    /// The day before, or `None` before [`Date::MIN`].
    #[must_use]
    pub const fn prev(self) -> Option<Self> {
        self.checked_sub(1)
    }

    /// The date `days` days later, or `None` after [`Date::MAX`].
    #[must_use]
    pub const fn checked_add(self, days: u16) -> Option<Self> {
        match self.0.checked_add(days) {
            Some(sum) => Some(Self(sum)),
            None => None,
        }
    }

    /// The date `days` days earlier, or `None` before [`Date::MIN`].
    #[must_use]
    pub const fn checked_sub(self, days: u16) -> Option<Self> {
        match self.0.checked_sub(days) {
            Some(rest) => Some(Self(rest)),
            None => None,
        }
    }
}

/// Days since 1970-01-01 on the first of January of `year`, from 1 on.
pub(super) const fn year_start(year: i32) -> i32 {
    /// Leap years before 1970.
    const LEAP_YEARS_TO_1970: i32 = 477;
    let before = year.wrapping_sub(1);
    let leap_years = (before / 4)
        .wrapping_sub(before / 100)
        .wrapping_add(before / 400)
        .wrapping_sub(LEAP_YEARS_TO_1970);
    year.wrapping_sub(1_970).wrapping_mul(365).wrapping_add(leap_years)
}

/// Whether `year` has a 29th of February.
pub(super) const fn is_leap(year: u16) -> bool {
    year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400))
}

/// Days of `year` before the first of `month`; a month above 12 counts as 12.
pub(super) const fn days_before_month(year: u16, month: u8) -> u16 {
    let common = match month {
        0 | 1 => return 0,
        2 => return 31,
        3 => 59_u16,
        4 => 90,
        5 => 120,
        6 => 151,
        7 => 181,
        8 => 212,
        9 => 243,
        10 => 273,
        11 => 304,
        _ => 334,
    };
    if is_leap(year) { common.wrapping_add(1) } else { common }
}

/// Days in a month, or `None` if there is no such month.
pub(super) const fn month_length(year: u16, month: u8) -> Option<u8> {
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => Some(31),
        4 | 6 | 9 | 11 => Some(30),
        2 if is_leap(year) => Some(29),
        2 => Some(28),
        _ => None,
    }
}

/// 0 for Monday to 6 for Sunday; 1970-01-01 was a Thursday.
const fn monday_zero(days: u32) -> u32 {
    days.wrapping_add(3) % 7
}

/// Year, month and day of a count of days since 1970-01-01, up to 2^17.
///
/// Counts from the first of March, so that the leap day comes last: the method
/// of Howard Hinnant's "chrono-Compatible Low-Level Date Algorithms". Within
/// these ranges no operation wraps.
fn civil(days: u32) -> (u16, u8, u8) {
    let days = days.wrapping_add(MARCH_OF_YEAR_ZERO);
    let cycle = days / DAYS_400_YEARS;
    let day_of_cycle = days % DAYS_400_YEARS;
    let year_of_cycle = day_of_cycle
        .wrapping_sub(day_of_cycle / 1_460)
        .wrapping_add(day_of_cycle / 36_524)
        .wrapping_sub(day_of_cycle / 146_096)
        / 365;
    let day_of_year = day_of_cycle
        .wrapping_sub(year_of_cycle.wrapping_mul(365))
        .wrapping_sub(year_of_cycle / 4)
        .wrapping_add(year_of_cycle / 100);
    // Five months from March have 153 days, and so have the next five.
    let month_from_march = day_of_year.wrapping_mul(5).wrapping_add(2) / 153;
    let day = day_of_year
        .wrapping_sub(month_from_march.wrapping_mul(153).wrapping_add(2) / 5)
        .wrapping_add(1);
    let march_year = year_of_cycle.wrapping_add(cycle.wrapping_mul(400));
    let (year, month) = if month_from_march < 10 {
        (march_year, month_from_march.wrapping_add(3))
    } else {
        (march_year.wrapping_add(1), month_from_march.wrapping_sub(9))
    };
    (
        u16::try_from(year).unwrap_or(u16::MAX),
        u8::try_from(month).unwrap_or(12),
        u8::try_from(day).unwrap_or(31),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The tests from outside walk the days; this one covers what is theirs
    /// not to see, the rest of the two-byte range.
    #[test]
    fn the_whole_range_reads_back_day_by_day() {
        let mut date = Date::MIN;
        let mut ymd = date.ymd();
        assert_eq!(ymd, (1970, 1, 1));
        while let Some(next) = date.next() {
            let (year, month, day) = next.ymd();
            let follows = (year, month, day) == (ymd.0, ymd.1, ymd.2 + 1)
                || ((year, month, day) == (ymd.0, ymd.1 + 1, 1)
                    && Some(ymd.2) == month_length(ymd.0, ymd.1))
                || ((year, month, day) == (ymd.0 + 1, 1, 1) && (ymd.1, ymd.2) == (12, 31));
            assert!(follows, "{ymd:?} is followed by {:?}", next.ymd());
            assert_eq!(Date::from_ymd(year, month, day), Some(next));
            assert_eq!(next.weekday(), date.weekday().next());
            assert_eq!(next.prev(), Some(date));
            date = next;
            ymd = next.ymd();
        }
        assert_eq!(ymd, (2149, 6, 6));
        assert_eq!(Date::MIN.prev(), None);
    }

    #[test]
    fn days_that_no_calendar_has_are_refused() {
        for (year, month, day) in [
            (2027, 0, 1),
            (2027, 13, 1),
            (2027, 1, 0),
            (2027, 1, 32),
            (2027, 4, 31),
            (2027, 2, 29),
            (2100, 2, 29),
            (2028, 2, 30),
            (1969, 12, 31),
            (2149, 6, 7),
            (u16::MAX, 12, 31),
            (0, 1, 1),
        ] {
            assert_eq!(Date::from_ymd(year, month, day), None, "{year}-{month}-{day}");
        }
        assert!(Date::from_ymd(2000, 2, 29).is_some());
    }
}
