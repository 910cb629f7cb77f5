//! The day walk: every date a clock of four bytes can show.
//!
//! Sources:
//! - chrono 0.4: date, weekday, ISO week;
//! - `calendrical_calculations` 0.2, after Reingold and Dershowitz,
//!   *Calendrical Calculations*: date, and the weekday as the day number
//!   modulo seven;
//! - the same book's table of sample dates, by its day numbers (R.D.), for the
//!   anchors; two of its dates precede 1970 and are out of our range.

use calendrical_calculations::gregorian::{fixed_from_gregorian, gregorian_from_fixed};
use calendrical_calculations::rata_die::RataDie;
use chrono::{Datelike, NaiveDate};
use lock_core::time::{Date, Utc, Weekday, Zone};

/// R.D. of 1970-01-01.
const RD_1970: i64 = 719_163;
/// Days from 1970-01-01 to 2106-02-07, on which 2³² seconds end.
const LAST_DAY: u16 = 49_710;

fn ours(year: i32, month: u32, day: u32) -> Option<Date> {
    Date::from_ymd(u16::try_from(year).ok()?, u8::try_from(month).ok()?, u8::try_from(day).ok()?)
}

#[test]
fn every_day_agrees_with_chrono() {
    let mut theirs = NaiveDate::from_ymd_opt(1970, 1, 1).unwrap();
    let mut walked = Date::MIN;
    for days in 0..=LAST_DAY {
        let date = Date::from_days(days);
        assert_eq!(walked, date);
        let (year, month, day) = date.ymd();
        assert_eq!(
            (i32::from(year), u32::from(month), u32::from(day)),
            (theirs.year(), theirs.month(), theirs.day()),
            "day {days}"
        );
        assert_eq!(date.year(), year);
        assert_eq!(Date::from_ymd(year, month, day), Some(date), "{theirs}");
        assert_eq!(
            date.weekday().index(),
            usize::try_from(theirs.weekday().num_days_from_monday()).unwrap(),
            "{theirs}"
        );
        let (iso_year, week) = date.iso_week();
        assert_eq!(
            (i32::from(iso_year), u32::from(week)),
            (theirs.iso_week().year(), theirs.iso_week().week()),
            "{theirs}"
        );
        theirs = theirs.succ_opt().unwrap();
        walked = walked.next().unwrap();
    }
    assert_eq!(theirs, NaiveDate::from_ymd_opt(2106, 2, 8).unwrap());
}

#[test]
fn every_day_agrees_with_calendrical_calculations() {
    for days in 0..=LAST_DAY {
        let date = Date::from_days(days);
        let rd = RD_1970 + i64::from(days);
        let (year, month, day) = gregorian_from_fixed(RataDie::new(rd)).unwrap();
        assert_eq!(date.ymd(), (u16::try_from(year).unwrap(), month, day), "R.D. {rd}");
        // R.D. 1 was a Monday.
        let weekday = usize::try_from((rd - 1).rem_euclid(7)).unwrap();
        assert_eq!(date.weekday().index(), weekday, "R.D. {rd}");
    }
}

/// A date is accepted exactly if chrono has it, whatever is asked for.
#[test]
fn only_days_of_the_calendar_are_accepted() {
    for year in 1960..=2155 {
        for month in 0..=14 {
            for day in 0..=33 {
                let theirs = NaiveDate::from_ymd_opt(year, month, day).filter(|date| {
                    (NaiveDate::from_ymd_opt(1970, 1, 1).unwrap()
                        ..=NaiveDate::from_ymd_opt(2149, 6, 6).unwrap())
                        .contains(date)
                });
                let date = ours(year, month, day);
                assert_eq!(date.is_some(), theirs.is_some(), "{year}-{month}-{day}");
            }
        }
    }
}

#[test]
fn anchors_of_the_book() {
    for (rd, (year, month, day), weekday, week) in [
        (728_714, (1996, 2, 25), Weekday::Sun, 8),
        (744_313, (2038, 11, 10), Weekday::Wed, 45),
        (764_652, (2094, 7, 18), Weekday::Sun, 28),
    ] {
        let date = Date::from_ymd(year, month, day).unwrap();
        assert_eq!(RD_1970 + i64::from(date.days()), rd);
        assert_eq!(date.weekday(), weekday, "R.D. {rd}");
        assert_eq!(date.iso_week(), (year, week), "R.D. {rd}");
    }
    // R.D. 709409 and 710347: before the lock's first day.
    for (rd, year, month, day) in [(709_409, 1943, 4, 19), (710_347, 1945, 11, 12)] {
        assert_eq!(fixed_from_gregorian(year, month, day), RataDie::new(rd));
        assert_eq!(ours(year, u32::from(month), u32::from(day)), None);
    }
}

/// *Common knowledge of the calendar*, from memory and easily counted.
#[test]
fn well_known_days() {
    assert_eq!(Date::from_ymd(2000, 3, 1).unwrap().days(), 11_017);
    assert_eq!(Date::from_days(LAST_DAY).ymd(), (2106, 2, 7));
    assert_eq!(Date::from_days(LAST_DAY).weekday(), Weekday::Sun);
    assert_eq!(
        Zone::UTC.local(Utc::MAX).date,
        Date::from_days(LAST_DAY),
        "2^32 - 1 is a moment of 2106-02-07"
    );
}

/// ISO 8601: a year has 53 weeks if its 28 December lies in week 53.
#[test]
fn long_years_have_53_weeks() {
    let long: Vec<u16> = (2020..=2037)
        .filter(|&year| Date::from_ymd(year, 12, 28).unwrap().iso_week() == (year, 53))
        .collect();
    assert_eq!(long, [2020, 2026, 2032, 2037]);
}
