//! Section 5: windows, closures, special days and changes of the clocks.
//! Source: `docs/behaviour.md`, section 5.
//! Dates of the changes: EU summer time, Directive 2000/84/EC (last Sundays of
//! March and October, 01:00 UTC).

use super::*;
use crate::reference::{Closure, Hours, Special};

const DUBLIN: &str = "IST-1GMT0,M10.5.0,M3.5.0/1";

fn hours_of<T>(setup: &Setup, ask: impl FnOnce(&Hours<'_>) -> T) -> T {
    ask(&Hours::of(&setup.calendar))
}

fn at(year: i16, month: i8, day: i8, hour: i8, minute: i8) -> i64 {
    utc(date(year, month, day).at(hour, minute, 0, 0))
}

/// "`to < from` runs past midnight": Sunday's night belongs to Sunday.
#[test]
fn a_night_window_runs_into_monday() {
    hours_of(&shop(), |hours| {
        assert!(hours.is_open(1, at(2027, 3, 7, 22, 0)));
        assert!(hours.is_open(1, at(2027, 3, 8, 1, 59)));
        assert!(!hours.is_open(1, at(2027, 3, 8, 2, 0)), "the end is exclusive");
        assert!(!hours.is_open(1, at(2027, 3, 9, 1, 0)), "nothing started on Monday");
        assert_eq!(hours.open_until(1, at(2027, 3, 7, 23, 0)), Some(at(2027, 3, 8, 2, 0)));
    });
}

/// "A closure removes all wall time of its dates, also what runs in from the
/// day before, and the windows that start on them, whole."
#[test]
fn a_closure_takes_what_runs_in_and_what_runs_out() {
    for (day, open_on_sunday, open_on_monday) in [(7, false, false), (8, true, false)] {
        let closed = date(2027, 3, day);
        let closure = Closure { from: closed, to: closed, timetables: [true; 8] };
        let setup = shop_with(|setup| setup.calendar.closures.push(closure));
        hours_of(&setup, |hours| {
            assert_eq!(hours.is_open(1, at(2027, 3, 7, 23, 0)), open_on_sunday);
            assert_eq!(hours.is_open(1, at(2027, 3, 8, 1, 0)), open_on_monday);
        });
    }
}

/// "A special day replaces the windows that start on its date", for its
/// timetables only, and not what runs in.
#[test]
fn a_special_day_replaces_what_starts_on_it() {
    let special = Special {
        date: date(2027, 3, 1),
        timetables: [true, false, false, false, false, false, false, false],
        windows: vec![Window { from: 600, to: 660 }],
    };
    let setup = shop_with(|setup| setup.calendar.specials.push(special));
    hours_of(&setup, |hours| {
        assert!(!hours.is_open(0, monday(9, 0)));
        assert!(hours.is_open(0, monday(10, 30)));
        assert!(hours.is_open(1, monday(1, 0)), "Sunday's night runs in");
        assert_eq!(hours.next_start(0, monday(10, 30)), Some(at(2027, 3, 2, 8, 30)));
    });
}

/// "Touching windows and windows that run on through midnight are one."
#[test]
fn touching_windows_are_one_permit() {
    let setup = shop_with(|setup| {
        setup.calendar.timetables[2][0] =
            vec![Window { from: 600, to: 720 }, Window { from: 720, to: 0 }];
        setup.calendar.timetables[2][1] = vec![Window { from: 0, to: 60 }];
    });
    hours_of(&setup, |hours| {
        assert_eq!(hours.open_until(2, monday(10, 0)), Some(at(2027, 3, 2, 1, 0)));
        assert_eq!(hours.next_start(2, monday(9, 0)), Some(monday(10, 0)));
        let next_week = Some(at(2027, 3, 8, 10, 0));
        assert_eq!(hours.next_start(2, monday(10, 0)), next_week, "not at 12:00");
    });
}

/// "A window inside the hour that a clock change skips loses that part":
/// Dublin skips 01:00–02:00 on 28 March 2027, at 01:00 UTC.
#[test]
fn the_skipped_hour_is_lost() {
    let setup = shop_with(|setup| {
        setup.calendar.zone = DUBLIN.to_owned();
        setup.calendar.timetables[2][6] = vec![Window { from: 75, to: 150 }];
        setup.calendar.timetables[3][6] = vec![Window { from: 75, to: 105 }];
    });
    hours_of(&setup, |hours| {
        let sunday = at(2027, 3, 28, 0, 0);
        assert_eq!(hours.next_open(2, sunday), Some(at(2027, 3, 28, 1, 0)));
        assert_eq!(hours.open_until(2, at(2027, 3, 28, 1, 0)), Some(at(2027, 3, 28, 1, 30)));
        assert_eq!(hours.next_open(3, sunday), Some(at(2027, 4, 4, 0, 15)), "a week later");
    });
}

/// "And one inside the repeated hour is open both times": Dublin repeats
/// 01:00–02:00 on 31 October 2027, from 00:00 UTC.
#[test]
fn the_repeated_hour_is_open_twice() {
    let setup = shop_with(|setup| {
        setup.calendar.zone = DUBLIN.to_owned();
        setup.calendar.timetables[2][6] = vec![Window { from: 75, to: 105 }];
    });
    hours_of(&setup, |hours| {
        let open: Vec<bool> = [10, 15, 44, 45, 70, 75, 104, 105]
            .map(|minute| hours.is_open(2, at(2027, 10, 31, 0, 0) + minute * 60))
            .to_vec();
        assert_eq!(open, [false, true, true, false, false, true, true, false]);
    });
}

/// "Looked for over 62 local dates, today the first": the 62nd counts, the
/// 63rd does not.
#[test]
fn the_next_opening_is_looked_for_over_62_dates() {
    for (days_closed, found) in [(61, true), (62, false)] {
        let from = date(2027, 3, 1);
        let to = from + jiff::ToSpan::days(days_closed - 1);
        let closure = Closure { from, to, timetables: [true; 8] };
        let setup = shop_with(|setup| {
            setup.calendar.closures.push(closure);
            for day in 0..7 {
                setup.calendar.timetables[2][day] = vec![Window { from: 0, to: 1_440 }];
            }
        });
        let next = hours_of(&setup, |hours| hours.next_open(2, monday(9, 0)));
        assert_eq!(next.is_some(), found, "{days_closed} days closed");
    }
}
