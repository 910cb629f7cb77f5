//! When a timetable has opening time, instant by instant (R3).
//!
//! Wall-clock membership is the rule: an instant is open if its local wall time
//! lies in a window of the date on which that window started. So a window
//! inside the hour that a clock change skips loses that part, and one inside
//! the repeated hour is open both times. A closure removes all wall time of its
//! dates, also what runs in from the day before, and the windows that start on
//! them, whole.

use crate::rules::{Days, Unreadable};
use crate::time::{Date, Seconds, Utc, Zone};
use crate::timetable::{Day, TimetableId, Window, Windows};

/// Local dates that are searched for the next change, the first one included.
///
/// Two months: longer than any closed season a safe is likely to see, short
/// enough that a refusal on a microcontroller is answered at once.
pub const HORIZON_DATES: u16 = 62;

/// Minutes in a day, as in ISO 8601's 24:00.
const DAY_MINUTES: u16 = 1_440;

/// Where an instant stands in a timetable.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum OpeningTime {
    /// Inside: until that instant, or beyond the horizon.
    Within {
        /// The first instant outside, if it comes within the horizon.
        until: Option<Utc>,
    },
    /// Outside: until that instant, or beyond the horizon.
    Outside {
        /// The first instant inside, if it comes within the horizon.
        opens: Option<Utc>,
    },
}

/// Where `at` stands in timetable `id`.
///
/// # Errors
/// [`Unreadable`] if a day cannot be read.
pub fn at(
    days: &mut impl Days,
    zone: &Zone,
    id: TimetableId,
    at: Utc,
) -> Result<OpeningTime, Unreadable> {
    stands(days, zone, id, at)
}

#[inline(never)] // one copy
fn stands(
    days: &mut dyn Days,
    zone: &Zone,
    id: TimetableId,
    at: Utc,
) -> Result<OpeningTime, Unreadable> {
    let mut walk = Walk::start(days, zone, id, at)?;
    let within = walk.inside();
    let changes = walk.until_side_is(!within)?;
    Ok(if within {
        OpeningTime::Within { until: changes }
    } else {
        OpeningTime::Outside { opens: changes }
    })
}

/// The next instant strictly after `after` at which a window of `id` starts:
/// the first instant inside after one outside.
///
/// # Errors
/// [`Unreadable`] if a day cannot be read.
pub fn next_start(
    days: &mut impl Days,
    zone: &Zone,
    id: TimetableId,
    after: Utc,
) -> Result<Option<Utc>, Unreadable> {
    let last = horizon(zone, after, HORIZON_DATES);
    start_until(days, zone, id, (after, last))
}

/// The next instant strictly after `after` at which a window of `id` starts, on
/// that last local date or before.
///
/// # Errors
/// [`Unreadable`] if a day cannot be read.
#[inline(never)] // one copy
pub(crate) fn start_until(
    days: &mut dyn Days,
    zone: &Zone,
    id: TimetableId,
    (after, last): (Utc, Date),
) -> Result<Option<Utc>, Unreadable> {
    let mut walk = Walk::start(days, zone, id, after)?;
    walk.last = last;
    if walk.inside() && walk.until_side_is(false)?.is_none() {
        return Ok(None);
    }
    walk.until_side_is(true)
}

/// The last of so many local dates, of which the date of `at` is the first.
pub(crate) fn horizon(zone: &Zone, at: Utc, dates: u16) -> Date {
    let last = zone.local(at).date.checked_add(dates.saturating_sub(1));
    last.unwrap_or(Date::from_days(u16::MAX))
}

/// A walk forward through local time, from one boundary to the next.
struct Walk<'a> {
    days: &'a mut dyn Days,
    zone: &'a Zone,
    id: TimetableId,
    at: Utc,
    /// The date of `at`, what it is, and what still runs in from the day before.
    date: Date,
    second: u32,
    today: Day,
    running_in: Windows,
    /// The next instant at which the zone's offset changes.
    shift: Option<Utc>,
    last: Date,
}

impl<'a> Walk<'a> {
    fn start(
        days: &'a mut dyn Days,
        zone: &'a Zone,
        id: TimetableId,
        at: Utc,
    ) -> Result<Self, Unreadable> {
        let local = zone.local(at);
        let mut walk = Self {
            zone,
            id,
            at,
            date: local.date,
            second: local.second,
            today: Day::Closed,
            running_in: Windows::new(),
            shift: zone.next_change(at),
            last: horizon(zone, at, HORIZON_DATES),
            days,
        };
        walk.read_days()?;
        Ok(walk)
    }

    fn read_days(&mut self) -> Result<(), Unreadable> {
        self.today = self.days.day(self.id, self.date)?;
        self.running_in = match self.date.prev() {
            Some(before) => windows_of(self.days.day(self.id, before)?),
            None => Windows::new(),
        };
        Ok(())
    }

    fn inside(&self) -> bool {
        let minute = minute_of(self.second);
        match &self.today {
            Day::Closed => false,
            Day::Windows(windows) => {
                let runs_in = minute.saturating_add(DAY_MINUTES);
                windows.iter().any(|w| w.holds(minute))
                    || self.running_in.iter().any(|w| w.holds(runs_in))
            }
        }
    }

    /// Walks on until being inside equals `side`; the instant, or `None` if
    /// the horizon comes first.
    fn until_side_is(&mut self, side: bool) -> Result<Option<Utc>, Unreadable> {
        while self.advance()? {
            if self.inside() == side {
                return Ok(Some(self.at));
            }
        }
        Ok(None)
    }

    /// Goes to the next instant at which anything could change. `false` at the
    /// horizon, and at the end of time.
    fn advance(&mut self) -> Result<bool, Unreadable> {
        let boundary = self.next_boundary();
        let ahead = Seconds::new(boundary.saturating_sub(self.second));
        let Some(mut next) = self.at.checked_add(ahead) else {
            return Ok(false);
        };
        if let Some(shift) = self.shift
            && shift <= next
        {
            next = shift;
            self.shift = self.zone.next_change(shift);
        }
        self.at = next;
        let local = self.zone.local(next);
        self.second = local.second;
        if local.date != self.date {
            self.date = local.date;
            if self.date > self.last {
                return Ok(false);
            }
            self.read_days()?;
        }
        Ok(true)
    }

    /// The next second of this wall-clock day at which a window starts or
    /// ends, or midnight.
    fn next_boundary(&self) -> u32 {
        let mut next = seconds_of(DAY_MINUTES);
        let mut consider = |minute: u16| {
            let second = seconds_of(minute);
            if second > self.second && second < next {
                next = second;
            }
        };
        if let Day::Windows(windows) = &self.today {
            for window in windows {
                consider(window.from().get());
                consider(window.end());
            }
            for window in &self.running_in {
                consider(window.end().saturating_sub(DAY_MINUTES));
            }
        }
        next
    }
}

fn windows_of(day: Day) -> Windows {
    match day {
        Day::Closed => Windows::new(),
        Day::Windows(mut windows) => {
            // Not `filter` and `collect`, which could panic.
            windows.retain(|w: &Window| w.end() > DAY_MINUTES);
            windows
        }
    }
}

fn minute_of(second: u32) -> u16 {
    u16::try_from(second / 60).unwrap_or(u16::MAX)
}

fn seconds_of(minute: u16) -> u32 {
    u32::from(minute).saturating_mul(60)
}
