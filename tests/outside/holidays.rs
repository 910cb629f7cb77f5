//! Holidays from a calendar that somebody else's writer wrote.
//!
//! Sources: RFC 5545 by the crate icalendar 0.17 as the writer (ours reads with
//! the same crate's parser, a module that shares no code with its writer) and
//! by calcard 0.3 as a second reader; the dates by jiff; PyPI holidays 0.109
//! for Germany, BY, 2025-12-15 to 2026-01-09: 16 open days.

use std::fmt::Write as _;

use calcard::common::timezone::Tz;
use calcard::icalendar::ICalendar;
use emulator::plan::holidays::{Dates, read, toml};
use icalendar::{Calendar, Component, Event};
use jiff::civil;
use jiff::tz::TimeZone;
use lock_core::time::Date;
use proptest::prelude::*;

use crate::planner::SiteFile;

fn lock_date(date: civil::Date) -> Date {
    let [year, month, day] = [date.year().into(), date.month().into(), date.day().into()];
    let small = |n: i32| u8::try_from(n).unwrap();
    Date::from_ymd(u16::try_from(year).unwrap(), small(month), small(day)).unwrap()
}

/// A whole-day event, as the writer writes it.
fn event(name: &str, from: civil::Date, end: Option<civil::Date>, rule: Option<&str>) -> Event {
    let plain = |date: civil::Date| date.strftime("%Y%m%d").to_string();
    let mut event = Event::with_uid(&format!("{from}@holidays"));
    event.summary(name);
    let property = |key: &str, date| {
        icalendar::Property::new(key, plain(date)).add_parameter("VALUE", "DATE").done()
    };
    event.append_property(property("DTSTART", from));
    if let Some(end) = end {
        event.append_property(property("DTEND", end));
    }
    if let Some(rule) = rule {
        event.add_property("RRULE", rule);
    }
    event.done()
}

fn calendar(events: impl IntoIterator<Item = Event>) -> String {
    let mut calendar = Calendar::new();
    for event in events {
        calendar.push(event);
    }
    calendar.to_string()
}

fn day(year: i16, month: i8, day: i8) -> civil::Date {
    civil::Date::constant(year, month, day)
}

/// Monday to Friday in Bavaria, from a calendar of its holidays to the openings.
#[test]
fn a_calendar_of_bavaria_leaves_sixteen_open_days() {
    let text = calendar([
        event("Weihnachten", day(2020, 12, 25), Some(day(2020, 12, 27)), Some("FREQ=YEARLY")),
        event("Neujahr", day(2026, 1, 1), None, None),
        event("Heilige Drei Könige", day(2010, 1, 6), Some(day(2010, 1, 7)), Some("FREQ=YEARLY")),
    ]);
    let dates = Dates { from: lock_date(day(2025, 12, 15)), to: Some(lock_date(day(2026, 1, 10))) };
    let found = read("bavaria.ics", &text, dates).unwrap_or_else(|why| panic!("{why}"));
    let closures = toml(&found.holidays);
    let mut site = String::from(
        "site = \"S\"\nzone = \"Europe/Berlin\"\n[[lock]]\nid = \"till\"\nnumber = 1\n[timetable.A]\n",
    );
    for day in ["mon", "tue", "wed", "thu", "fri"] {
        writeln!(site, "{day} = [\"09:00-17:00\"]").unwrap();
    }
    let rest = ["--timetable", "A", "--from", "2025-12-15", "--to", "2026-01-10"];
    let tz = TimeZone::get("Europe/Berlin").unwrap();
    let open = |text: &str| -> Vec<String> {
        let stretches = SiteFile::new(text).openings(&tz, &rest);
        let dates =
            stretches.iter().map(|(from, _)| from.to_zoned_datetime(tz.clone()).date().to_string());
        dates.collect()
    };
    assert_eq!(open(&site).len(), 20, "without holidays");
    let days = open(&format!("{site}{closures}"));
    assert_eq!(days.len(), 16, "{closures}");
    for holiday in ["2025-12-25", "2025-12-26", "2026-01-01", "2026-01-06"] {
        assert!(!days.iter().any(|day| day == holiday), "{closures}");
    }
}

/// Every fourth Thursday in November: dates of a wall calendar, from memory.
#[test]
fn a_rule_by_weekday_is_followed() {
    let rule = "FREQ=YEARLY;BYMONTH=11;BYDAY=4TH;COUNT=3";
    let text = calendar([event("Fourth Thursday", day(2025, 11, 27), None, Some(rule))]);
    let dates = Dates { from: lock_date(day(2025, 1, 1)), to: None };
    let found = read("x.ics", &text, dates).unwrap_or_else(|why| panic!("{why}"));
    let from: Vec<_> = found.holidays.iter().map(|holiday| holiday.from).collect();
    let expected = [day(2025, 11, 27), day(2026, 11, 26), day(2027, 11, 25)].map(lock_date);
    assert_eq!(from, expected);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whatever whole days the writer wrote, ours and a second reader find the
    /// same dates.
    #[test]
    fn two_readers_find_the_same_days(
        rows in prop::collection::vec((0_i32..3_000, 1_i32..20, any::<bool>(), "\\PC{1,60}"), 1..12),
    ) {
        let events = rows.iter().map(|(after, length, yearly, name)| {
            let from = day(2020, 1, 1).saturating_add(jiff::Span::new().days(*after));
            let end = from.saturating_add(jiff::Span::new().days(*length));
            event(name, from, Some(end), yearly.then_some("FREQ=YEARLY;COUNT=3"))
        });
        let text = calendar(events);
        let dates = Dates { from: Date::from_days(0), to: None };
        let found = read("x.ics", &text, dates);
        let found = found.unwrap_or_else(|why| panic!("{why}\n{text}"));
        let mut own: Vec<(i64, i64)> = found
            .holidays
            .iter()
            .map(|holiday| (i64::from(holiday.from.days()), i64::from(holiday.to.days()) + 1))
            .collect();
        let other = ICalendar::parse(&text).unwrap_or_else(|why| panic!("{why:?}\n{text}"));
        let expanded = other.expand_dates(Tz::UTC, 10_000);
        let mut theirs: Vec<(i64, i64)> = expanded
            .events
            .iter()
            .map(|event| event.timestamps())
            .map(|(from, to)| (from.div_euclid(86_400), to.div_euclid(86_400)))
            .collect();
        own.sort_unstable();
        own.dedup();
        theirs.sort_unstable();
        theirs.dedup();
        prop_assert_eq!(own, theirs, "{}", text);
    }
}
