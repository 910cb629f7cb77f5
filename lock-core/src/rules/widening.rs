//! Which timetables a new calendar would open wider (R3): those wait.
//!
//! The old calendar is only known day by day, so days are walked:
//! [`HORIZON_DATES`] of them from yesterday on, and the last week that the
//! calendar has at all, where no closure hides what a plain week is. What
//! widens later than the horizon need not wait: it waits for longer by itself
//! than any next opening window would make it ([`super::opening_time::HORIZON_DATES`]).

use crate::rules::{Days, Unreadable};
use crate::time::Date;
use crate::timetable::{Calendar, Day, TimetableId, Timetables};

/// Dates that are compared, from yesterday on: every weekday and every yearly
/// date, and a month more.
pub const HORIZON_DATES: u16 = 400;

/// A week, and the day before it.
const WEEK: u16 = 8;

/// Minutes in a day, as in ISO 8601's 24:00.
const DAY_MINUTES: u16 = 1_440;

/// The timetables in which `new` has a minute of opening time that `old` has
/// not. Says nothing of the zone.
///
/// # Errors
/// [`Unreadable`] if a day of `old` cannot be read.
pub fn widens(old: &mut impl Days, new: &Calendar, today: Date) -> Result<Timetables, Unreadable> {
    widens_by(old, |_, id, date| Ok(new.day(id, date)), today)
}

/// The same of a calendar that whoever has the old one knows, too.
///
/// # Errors
/// [`Unreadable`] if a day of either cannot be read.
pub fn widens_by<D: Days>(
    old: &mut D,
    mut new: impl FnMut(&mut D, TimetableId, Date) -> Result<Day, Unreadable>,
    today: Date,
) -> Result<Timetables, Unreadable> {
    let yesterday = today.prev().unwrap_or(today);
    let plain = Date::MAX.checked_sub(WEEK).unwrap_or(today);
    let mut wider = Timetables::default();
    for id in TimetableId::ALL {
        if opens_more(old, &mut new, id, (yesterday, HORIZON_DATES))?
            || opens_more(old, &mut new, id, (plain, WEEK))?
        {
            wider = wider.with(id);
        }
    }
    Ok(wider)
}

/// Whether `new` has a minute that `old` has not, on one of so many dates.
fn opens_more<D: Days>(
    old: &mut D,
    new: &mut impl FnMut(&mut D, TimetableId, Date) -> Result<Day, Unreadable>,
    id: TimetableId,
    (first, dates): (Date, u16),
) -> Result<bool, Unreadable> {
    let (mut old_before, mut new_before) = match first.prev() {
        Some(before) => (old.day(id, before)?, new(old, id, before)?),
        None => (Day::Closed, Day::Closed),
    };
    for date in (0..dates).map_while(|n| first.checked_add(n)) {
        let (old_day, new_day) = (old.day(id, date)?, new(old, id, date)?);
        let more = stretches(&new_day, &new_before)
            .any(|stretch| !is_covered(stretch, &old_day, &old_before));
        if more {
            return Ok(true);
        }
        (old_before, new_before) = (old_day, new_day);
    }
    Ok(false)
}

/// The minutes of a day, from and to, that its windows have or that run in from
/// the day before.
fn stretches<'d>(day: &'d Day, before: &'d Day) -> impl Iterator<Item = (u16, u16)> + use<'d> {
    let starting = windows(day).map(|w| (w.from().get(), w.end().min(DAY_MINUTES)));
    let running_in = windows(before).map(|w| (0, w.end().saturating_sub(DAY_MINUTES)));
    let closed = *day == Day::Closed;
    starting.chain(running_in).filter(move |(from, to)| from < to && !closed)
}

fn windows(day: &Day) -> impl Iterator<Item = &crate::timetable::Window> {
    match day {
        Day::Closed => [].iter(),
        Day::Windows(windows) => windows.iter(),
    }
}

/// Whether every minute of a stretch is open on that day.
fn is_covered((from, to): (u16, u16), day: &Day, before: &Day) -> bool {
    let mut minute = from;
    while minute < to {
        let mut reaching =
            stretches(day, before).filter(|(from, to)| *from <= minute && minute < *to);
        match reaching.next() {
            Some((_, further)) => minute = further,
            None => return false,
        }
    }
    true
}

/// The judge counts minutes, over the same dates.
#[cfg(test)]
mod tests {
    use std::vec::Vec;

    use proptest::collection::vec;
    use proptest::prelude::*;

    use super::*;
    use crate::time::{Minute, Weekday};
    use crate::timetable::{Closure, Special, TIMETABLES, Week, Window, Windows};

    /// A Thursday.
    fn today() -> Date {
        Date::from_ymd(2027, 3, 4).unwrap()
    }

    fn window(from: u16, to: u16) -> Window {
        Window::new(Minute::new(from).unwrap(), Minute::new(to).unwrap()).unwrap()
    }

    fn any_windows() -> impl Strategy<Value = Windows> {
        let edge = || (0..=8u16).prop_map(|n| n * 180);
        let pair =
            (edge(), edge()).prop_filter("no window", |(from, to)| from != to && *from < 1_440);
        vec(pair, 0..3).prop_map(|all| all.into_iter().map(|(from, to)| window(from, to)).collect())
    }

    fn any_timetables() -> impl Strategy<Value = Timetables> {
        any::<u8>().prop_map(Timetables::from_bits)
    }

    /// Dates close by, so that closures and special days meet, and some around
    /// the end of the horizon.
    fn any_date() -> impl Strategy<Value = Date> {
        prop_oneof![4 => 0..12u16, 1 => 395..400u16]
            .prop_map(|n| Date::from_days(today().days() - 3 + n))
    }

    fn any_calendar() -> impl Strategy<Value = Calendar> {
        let week = vec(any_windows(), 7).prop_map(|days| Week::try_from(days).ok().unwrap());
        let closure =
            (any_date(), 0..5u16, any_timetables()).prop_map(|(from, days, timetables)| Closure {
                from,
                to: from.checked_add(days).unwrap(),
                timetables,
            });
        let special = (any_date(), any_timetables(), any_windows())
            .prop_map(|(date, timetables, windows)| Special { date, timetables, windows });
        (vec(week, TIMETABLES), vec(closure, 0..4), vec(special, 0..4)).prop_map(
            |(weeks, closures, specials)| Calendar {
                weeks: weeks.try_into().ok().unwrap(),
                closures: closures.into_iter().collect(),
                specials: specials.into_iter().collect(),
            },
        )
    }

    /// A calendar, and one that differs from it in little.
    fn any_two() -> impl Strategy<Value = (Calendar, Calendar)> {
        let change = (0..5u8, 0..56usize, any_windows(), any_timetables(), any_date());
        (any_calendar(), vec(change, 0..3)).prop_map(|(old, changes)| {
            let mut new = old.clone();
            for (what, n, windows, timetables, date) in changes {
                match what {
                    0 => new.weeks[n / 7][n % 7] = windows,
                    1 => drop(new.closures.pop()),
                    2 => drop(new.specials.pop()),
                    3 => drop(new.closures.push(Closure { from: date, to: date, timetables })),
                    _ => drop(new.specials.push(Special { date, timetables, windows })),
                }
            }
            (old, new)
        })
    }

    /// Open minutes of a date, one by one.
    fn minutes(calendar: &Calendar, id: TimetableId, date: Date) -> Vec<bool> {
        let holds = |date: Date, minute| match calendar.day(id, date) {
            Day::Closed => false,
            Day::Windows(windows) => windows.iter().any(|w| w.holds(minute)),
        };
        let closed = calendar.day(id, date) == Day::Closed;
        let open = |m| !closed && (holds(date, m) || holds(date.prev().unwrap(), m + 1_440));
        (0..1_440).step_by(180).map(open).collect()
    }

    fn judged(old: &Calendar, new: &Calendar) -> Timetables {
        let mut wider = Timetables::default();
        let near = (0..HORIZON_DATES).map(|n| Date::from_days(today().days() - 1 + n));
        // A week that no closure of these is near.
        let far = (0..7).map(|n| Date::from_ymd(2140, 1, 1).unwrap().checked_add(n).unwrap());
        for date in near.chain(far) {
            for id in TimetableId::ALL {
                let more = |(old, new): (&bool, &bool)| *new && !*old;
                if minutes(old, id, date).iter().zip(&minutes(new, id, date)).any(more) {
                    wider = wider.with(id);
                }
            }
        }
        wider
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(300))]

        #[test]
        fn a_calendar_is_wider_where_a_minute_is((old, new) in any_two()) {
            prop_assert_eq!(widens(&mut &old, &new, today()), Ok(judged(&old, &new)));
        }

        #[test]
        fn any_two_are_judged_alike(old in any_calendar(), new in any_calendar()) {
            prop_assert_eq!(widens(&mut &old, &new, today()), Ok(judged(&old, &new)));
        }
    }

    fn only(id: TimetableId, weekday: Weekday, windows: &[Window]) -> Calendar {
        let mut calendar = Calendar::default();
        calendar.weeks[id.index()][weekday.index()] = windows.iter().copied().collect();
        calendar
    }

    #[test]
    fn a_minute_more_is_wider_and_a_minute_less_is_not() {
        let old = only(TimetableId::B, Weekday::Sun, &[window(1_320, 120)]);
        let later = only(TimetableId::B, Weekday::Sun, &[window(1_320, 121)]);
        let only_b = Timetables::default().with(TimetableId::B);
        assert_eq!(widens(&mut &old, &later, today()), Ok(only_b));
        assert_eq!(widens(&mut &later, &old, today()), Ok(Timetables::default()));
        // The same minutes in other windows, past midnight.
        let mut split = only(TimetableId::B, Weekday::Sun, &[window(1_320, 1_440)]);
        split.weeks[1][0] = [window(0, 120)].into_iter().collect();
        assert_eq!(widens(&mut &old, &split, today()), Ok(Timetables::default()));
        assert_eq!(widens(&mut &split, &old, today()), Ok(Timetables::default()));
    }

    /// A closure that is taken back opens what ran in as well; one that hides
    /// a whole year does not hide the plain week behind it.
    #[test]
    fn closures_count_both_ways() {
        let mut old = only(TimetableId::A, Weekday::Wed, &[window(1_380, 60)]);
        let plain = old.clone();
        let all = Timetables::ALL;
        old.closures.push(Closure { from: today(), to: today(), timetables: all }).unwrap();
        let only_a = Timetables::default().with(TimetableId::A);
        assert_eq!(widens(&mut &old, &plain, today()), Ok(only_a));
        assert_eq!(widens(&mut &plain, &old, today()), Ok(Timetables::default()));
        let mut years = only(TimetableId::A, Weekday::Tue, &[]);
        let mut wider = only(TimetableId::A, Weekday::Tue, &[window(0, 1)]);
        let (from, to) = (today().prev().unwrap(), Date::from_ymd(2029, 1, 1).unwrap());
        for calendar in [&mut years, &mut wider] {
            calendar.closures.push(Closure { from, to, timetables: all }).unwrap();
        }
        assert_eq!(widens(&mut &years, &wider, today()), Ok(only_a));
    }
}
