//! Seconds since 1970 read as date and time of day, and back.
//!
//! Sources:
//! - RFC 6238 appendix B, the table's columns "Time (sec)" and "UTC Time";
//! - chrono 0.4 for a sweep over all four bytes.

use chrono::{DateTime, Datelike, Timelike};
use lock_core::time::{Date, Instants, Local, Offset, Utc, Zone};

/// Seconds between two moments of the sweep: a prime, so that in passing over
/// the range it meets every second of a day.
const STRIDE: usize = 3_571;

fn agrees_with_chrono(secs: u32) {
    let local = Zone::UTC.local(Utc::from_secs(secs));
    let theirs = DateTime::from_timestamp(i64::from(secs), 0).unwrap();
    let (year, month, day) = local.date.ymd();
    let (hour, minute, second) = local.hms();
    assert_eq!(
        (i32::from(year), u32::from(month), u32::from(day)),
        (theirs.year(), theirs.month(), theirs.day()),
        "{secs} s"
    );
    assert_eq!(
        (u32::from(hour), u32::from(minute), u32::from(second)),
        (theirs.hour(), theirs.minute(), theirs.second()),
        "{secs} s"
    );
    assert_eq!(local.offset, Offset::UTC);
    assert_eq!(Zone::UTC.instants(local.date, local.second), Instants::One(Utc::from_secs(secs)));
}

#[test]
fn the_table_of_rfc_6238() {
    for (secs, ymd, hms) in [
        (59, (1970, 1, 1), (0, 0, 59)),
        (1_111_111_109, (2005, 3, 18), (1, 58, 29)),
        (1_111_111_111, (2005, 3, 18), (1, 58, 31)),
        (1_234_567_890, (2009, 2, 13), (23, 31, 30)),
        (2_000_000_000, (2033, 5, 18), (3, 33, 20)),
    ] {
        let local = Zone::UTC.local(Utc::from_secs(secs));
        assert_eq!((local.date.ymd(), local.hms()), (ymd, hms), "{secs} s");
    }
    // Its last row, 20000000000 s in the year 2603, is more than four bytes.
    assert!(u32::try_from(20_000_000_000_u64).is_err());
}

#[test]
fn the_ends_of_four_bytes() {
    let first = Zone::UTC.local(Utc::MIN);
    assert_eq!((first.date.ymd(), first.hms()), ((1970, 1, 1), (0, 0, 0)));
    let last = Zone::UTC.local(Utc::from_secs(u32::MAX));
    assert_eq!((last.date.ymd(), last.hms()), ((2106, 2, 7), (6, 28, 15)));
    // The second after the last is no moment.
    assert_eq!(Zone::UTC.instants(last.date, last.second + 1), Instants::None);
    assert_eq!(Zone::UTC.instants(Date::MAX, 0), Instants::None);
}

#[test]
fn a_sweep_agrees_with_chrono() {
    (0..=u32::MAX).step_by(STRIDE).for_each(agrees_with_chrono);
    agrees_with_chrono(u32::MAX);
}

#[test]
fn every_midnight_agrees_with_chrono() {
    for midnight in (86_400..=u32::MAX).step_by(86_400) {
        agrees_with_chrono(midnight - 1);
        agrees_with_chrono(midnight);
    }
}

/// West of Greenwich the range begins in 1969, which no date can say.
#[test]
fn wall_time_before_1970_shows_the_first_midnight() {
    let west = Zone::parse("EST5").unwrap();
    let clamped =
        Local { date: Date::MIN, second: 0, offset: Offset::from_secs(-5 * 3_600).unwrap() };
    for secs in [0, 1, 17_999, 18_000] {
        assert_eq!(west.local(Utc::from_secs(secs)), clamped, "{secs} s");
    }
    assert_eq!(west.local(Utc::from_secs(18_001)).second, 1);
}
