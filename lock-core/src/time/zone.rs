//! Where the lock stands: a rule that turns moments into wall-clock time.
//!
//! The rule is a POSIX TZ string (IEEE Std 1003.1, chapter 8.3) with the
//! extension of RFC 9636 section 3.3.2, times from -167 to 167 hours. It fits
//! in a few bytes, needs no database in the lock, and IANA publishes one for
//! nearly every place on earth. What it cannot say, a table of dates, the
//! laptop must refuse before it reaches the lock.
//!
//! # Which offset holds
//!
//! Every year brings two *switches*, one to daylight saving and one back. A
//! rule may put a switch of one year into the days before or after it (a time
//! of -100 or +150 hours does), and may even let one year's saving reach into
//! the next year's. Therefore:
//!
//! 1. Of the switches that have happened, those of the latest year decide.
//! 2. Of two switches of the same year, the later one decides; at the same
//!    moment the one back to standard time.
//!
//! Rule 1 makes "all year" come out right where a rule must spell it as two
//! switches at one moment, or one after the other (RFC 9636:
//! `XXX3EDT4,0/0,J365/23`).
//!
//! A day 365 (counted from zero) of a year that ends with day 364 is the first
//! of the next January; POSIX does not say.

mod bytes;
mod parse;

pub use bytes::NotAZone;
pub use parse::{ZoneError, ZoneErrorKind};

use serde::{Deserialize, Serialize};

use super::date::{days_before_month, month_length, year_start};
use super::{DAY_SECONDS, Date, Local, Offset, Utc};

/// Whole days that a switch can lie outside its year: a rule time of
/// 167:59:59 and an [`Offset::LIMIT`] make 194 hours.
const REACH_DAYS: u8 = 9;
/// The last year whose switches can lie before [`Utc::MAX`] in February 2106.
const LAST_YEAR: u16 = 2_106;

/// A time zone: an offset, and with daylight saving a second one and the two
/// switches between them.
///
/// Names of the zone are checked when it is parsed and then dropped: no screen
/// of the lock shows one.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash, Serialize, Deserialize)]
#[serde(try_from = "[u8; 24]", into = "[u8; 24]")]
pub struct Zone {
    standard: Offset,
    daylight: Option<Daylight>,
}

/// The other half of the year.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
struct Daylight {
    offset: Offset,
    starts: Switch,
    ends: Switch,
}

/// A moment that comes once a year.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
struct Switch {
    day: YearDay,
    /// Seconds from 00:00 of that day on the clock as it was before the
    /// switch, within ±167:59:59.
    time: i32,
}

/// A day of each year.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Hash)]
enum YearDay {
    /// POSIX `Mm.w.d`: the weekday (0 = Sunday) of that week (5 = the last).
    Nth { month: u8, week: u8, weekday: u8 },
    /// POSIX `Jn`: 1 to 365, the 29th of February never counted.
    Common(u16),
    /// POSIX `n`: 0 to 365, the 29th of February counted.
    Ordinal(u16),
}

/// The moments at which a wall clock shows a given time.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Instants {
    /// Never: a clock change skips it, or it lies outside what [`Utc`] holds.
    None,
    /// Once, as on any ordinary day.
    One(Utc),
    /// Twice, the earlier moment first: a clock change repeats it.
    Two(Utc, Utc),
}

impl Zone {
    /// UTC itself, the zone of a lock that was told nothing.
    pub const UTC: Self = Self { standard: Offset::UTC, daylight: None };

    /// Reads a POSIX TZ string such as `CET-1CEST,M3.5.0,M10.5.0/3`.
    ///
    /// # Errors
    ///
    /// Whatever is not a complete rule, with the place and what is expected
    /// there. A string that names daylight saving without saying when it
    /// starts and ends is refused, because POSIX leaves its meaning open.
    pub fn parse(text: &str) -> Result<Self, ZoneError> {
        parse::zone(text.as_bytes())
    }

    /// The offset that holds at a moment.
    #[must_use]
    pub fn offset(&self, at: Utc) -> Offset {
        match &self.daylight {
            Some(daylight) if daylight.holds(self.standard, at) => daylight.offset,
            Some(_) | None => self.standard,
        }
    }

    /// What a wall clock shows at a moment.
    ///
    /// West of Greenwich the first hours of the range fall into 1969, which no
    /// [`Date`] can say; they are shown as 1970-01-01 00:00.
    #[must_use]
    pub fn local(&self, at: Utc) -> Local {
        Local::at(at.as_secs(), self.offset(at))
    }

    /// The first moment after `at` with another offset than the moment before
    /// it, or `None` if none comes within the range of [`Utc`].
    #[must_use]
    pub fn next_change(&self, at: Utc) -> Option<Utc> {
        let daylight = self.daylight.as_ref()?;
        // From the year before, because its switches may lie in this one. A
        // change by a switch of one year comes before all switches of the
        // next: had one of those happened, it would decide (rule 1).
        (date_of(at).year().saturating_sub(1)..=LAST_YEAR).find_map(|year| {
            daylight
                .switches(self.standard, year)
                .into_iter()
                .filter_map(|switch| u32::try_from(switch).ok().map(Utc::from_secs))
                .filter(|&here| here > at && self.changes_at(here))
                .min()
        })
    }

    /// The moments at which a wall clock shows `second` seconds of `date`.
    #[must_use]
    pub fn instants(&self, date: Date, second: u32) -> Instants {
        let wall = i64::from(date.days())
            .wrapping_mul(i64::from(DAY_SECONDS))
            .wrapping_add(i64::from(second));
        let standard = self.instant_with(wall, self.standard);
        let other = self
            .daylight
            .filter(|daylight| daylight.offset != self.standard)
            .and_then(|daylight| self.instant_with(wall, daylight.offset));
        match (standard, other) {
            (None, None) => Instants::None,
            (Some(only), None) | (None, Some(only)) => Instants::One(only),
            (Some(a), Some(b)) => Instants::Two(a.min(b), a.max(b)),
        }
    }

    /// The moment of a wall time under the given offset, if that offset holds
    /// at that moment.
    fn instant_with(&self, wall: i64, offset: Offset) -> Option<Utc> {
        let seconds = wall.wrapping_sub(i64::from(offset.as_secs()));
        let at = Utc::from_secs(u32::try_from(seconds).ok()?);
        (self.offset(at) == offset).then_some(at)
    }

    /// Whether the offset differs from that of the second before.
    fn changes_at(&self, at: Utc) -> bool {
        match at.as_secs().checked_sub(1) {
            Some(before) => self.offset(Utc::from_secs(before)) != self.offset(at),
            None => false,
        }
    }
}

impl Daylight {
    /// Whether daylight saving is in effect at a moment; see the module's
    /// rules.
    fn holds(&self, standard: Offset, at: Utc) -> bool {
        let seconds = i64::from(at.as_secs());
        let (year, month, day) = date_of(at).ymd();
        // The switches of the year after can have happened only in the last
        // days of this one; those of two years ago have happened for certain.
        let late = month == 12 && day > 31_u8.saturating_sub(REACH_DAYS);
        let mut candidate = year.saturating_add(u16::from(late));
        loop {
            let [starts, ends] = self.switches(standard, candidate);
            match (starts <= seconds, ends <= seconds) {
                (true, false) => return true,
                (false, true) => return false,
                (true, true) => return starts > ends,
                (false, false) if candidate.saturating_add(2) <= year => return false,
                (false, false) => candidate = candidate.saturating_sub(1),
            }
        }
    }

    /// Both switches of a year, to daylight saving and back, in seconds since
    /// 1970-01-01 00:00 UTC.
    fn switches(&self, standard: Offset, year: u16) -> [i64; 2] {
        [self.starts.instant(year, standard), self.ends.instant(year, self.offset)]
    }
}

impl Switch {
    /// The moment in `year`, given the offset that holds before it.
    fn instant(self, year: u16, before: Offset) -> i64 {
        i64::from(self.day.in_year(year))
            .wrapping_mul(i64::from(DAY_SECONDS))
            .wrapping_add(i64::from(self.time))
            .wrapping_sub(i64::from(before.as_secs()))
    }
}

impl YearDay {
    /// Days from 1970-01-01 to this day of `year`.
    fn in_year(self, year: u16) -> i32 {
        let start = year_start(i32::from(year));
        match self {
            Self::Ordinal(day) => start.wrapping_add(i32::from(day)),
            Self::Common(day) => {
                // From March on, a leap day stands between the counts.
                let leap = i32::from(day >= 60 && days_before_month(year, 3) == 60);
                start.wrapping_add(i32::from(day)).wrapping_sub(1).wrapping_add(leap)
            }
            Self::Nth { month, week, weekday } => {
                let first = start.wrapping_add(i32::from(days_before_month(year, month)));
                // 1970-01-01 was a Thursday, day 4 from Sunday.
                let first_weekday = first.wrapping_add(4).rem_euclid(7);
                let to_weekday = i32::from(weekday).wrapping_sub(first_weekday).rem_euclid(7);
                let weeks = i32::from(week).wrapping_sub(1).wrapping_mul(7);
                let length = i32::from(month_length(year, month).unwrap_or(31));
                let day = to_weekday.wrapping_add(weeks);
                // Only a fifth week can run past the month: then the fourth
                // is the last.
                let day = if day < length { day } else { day.wrapping_sub(7) };
                first.wrapping_add(day)
            }
        }
    }
}

/// The date of a moment in UTC.
fn date_of(at: Utc) -> Date {
    match u16::try_from(at.as_secs() / DAY_SECONDS) {
        Ok(days) => Date::from_days(days),
        Err(_) => Date::MAX,
    }
}
