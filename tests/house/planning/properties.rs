//! What holds for every site: a chart covers exactly the openings, and `why`
//! answers as the openings say, on both sides of every boundary.

use std::fmt::Write as _;

use emulator::plan::chart::Chart;
use emulator::plan::holidays::{Dates, read};
use emulator::plan::{Range, openings, why};
use emulator::site::Site;
use lock_core::time::{Date, Seconds, Utc};
use lock_core::timetable::{Follows, TimetableId};
use proptest::prelude::*;

/// Zones whose changes come by day, at midnight, by half an hour, or never.
const ZONES: [&str; 5] =
    ["Europe/Dublin", "America/Santiago", "Africa/Cairo", "Australia/Lord_Howe", "Asia/Kathmandu"];

/// A site with one timetable of two windows on chosen days, a closure and a
/// special day. The second window may run past midnight, up to the first.
fn sites() -> impl Strategy<Value = String> {
    let zone = prop::sample::select(&ZONES[..]);
    let windows = (0_u16..420, 1_u16..300, 721_u16..1_000, 1_u16..1_150);
    (zone, windows, 1_u8..128, 0_u16..364, 0_u16..5, 0_u16..364).prop_map(
        |(zone, (from, length, second, more), days, closed, closed_for, special)| {
            let clock = |minute: u16| format!("{:02}:{:02}", minute / 60 % 24, minute % 60);
            let end = (second + more).min(1_439 + from);
            let day = format!(
                "[\"{}-{}\", \"{}-{}\"]",
                clock(from),
                clock(from + length),
                clock(second),
                clock(end)
            );
            let mut text = format!(
                "site = \"S\"\nzone = \"{zone}\"\n[[lock]]\nid = \"till\"\nnumber = 1\n\
                 [[holder]]\nnumber = 1\nname = \"P\"\nrole = \"keyholder\"\ntimetable = \"A\"\n\
                 [timetable.A]\n"
            );
            for (at, name) in ["mon", "tue", "wed", "thu", "fri", "sat", "sun"].iter().enumerate() {
                if days >> at & 1 == 1 {
                    writeln!(text, "{name} = {day}").unwrap();
                }
            }
            let date = |after: u16| {
                let first = Date::from_ymd(2027, 1, 1).unwrap();
                let (year, month, day) = first.checked_add(after).unwrap().ymd();
                format!("{year}-{month:02}-{day:02}")
            };
            let (from, to) = (date(closed), date(closed + closed_for));
            writeln!(text, "[[closure]]\nfrom = {from}\nto = {to}").unwrap();
            if !(closed..=closed + closed_for).contains(&special) {
                writeln!(
                    text,
                    "[[special]]\ndate = {}\nwindows = [\"10:00-11:30\"]",
                    date(special)
                )
                .unwrap();
            }
            text
        },
    )
}

fn site(text: &str) -> Site {
    Site::parse("site.toml", text).unwrap_or_else(|why| panic!("{why}\n{text}"))
}

const A: Follows = Follows::Timetable(TimetableId::A);

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Put together again, the parts of a chart are the openings, and each lies
    /// on the wall where it says.
    #[test]
    fn a_chart_covers_exactly_the_openings(text in sites(), after in 0_u16..300) {
        let site = site(&text);
        let from = Date::from_ymd(2027, 1, 4).unwrap().checked_add(after).unwrap();
        let chart = Chart::of(&site, None, from, 6).unwrap();
        let (first, last) = (chart.rows.first().unwrap().date, chart.rows.last().unwrap().date);
        prop_assert_eq!(chart.rows.len(), 42);
        prop_assert!(first <= from && from <= last);
        let range = Range::between(&site.zone, first, last.next().unwrap()).unwrap();
        let mut joined: Vec<(Utc, Utc)> = Vec::new();
        for row in &chart.rows {
            for span in &row.lanes[0].spans {
                let local = site.zone.local(span.stretch.from);
                prop_assert_eq!((local.date, local.second), (row.date, span.from));
                prop_assert!(span.from < span.to && span.to <= 86_400);
                prop_assert_eq!(span.stretch.length(), Seconds::new(span.to - span.from));
                let end = Utc::from_secs(span.stretch.to.as_secs() - 1);
                let local = site.zone.local(end);
                prop_assert_eq!((local.date, local.second), (row.date, span.to - 1));
                match joined.last_mut() {
                    Some(last) if last.1 == span.stretch.from => last.1 = span.stretch.to,
                    _ => joined.push((span.stretch.from, span.stretch.to)),
                }
            }
        }
        let expected: Vec<_> =
            openings(&site, A, range).into_iter().map(|s| (s.from, s.to)).collect();
        prop_assert_eq!(joined, expected);
    }

    /// At the first second, the one before, the last, and the one after it.
    #[test]
    fn why_agrees_with_the_openings_at_every_boundary(text in sites()) {
        let site = site(&text);
        let day = |month, day| Date::from_ymd(2027, month, day).unwrap();
        let range = Range::between(&site.zone, day(1, 1), day(12, 31)).unwrap();
        let (lock, person) = (&site.locks[0], &site.holders[0]);
        let ask = |at: u32| why(&site, lock, person, Utc::from_secs(at));
        for stretch in openings(&site, A, range) {
            if stretch.from == range.from || stretch.to == range.to {
                continue;
            }
            let (from, to) = (stretch.from.as_secs(), stretch.to.as_secs());
            for (at, open) in [(from - 1, false), (from, true), (to - 1, true), (to, false)] {
                let why = ask(at);
                prop_assert_eq!(why.may_open, open, "{} {}", at, text);
                if open {
                    prop_assert_eq!((why.since, why.until), (Some(stretch.from), Some(stretch.to)));
                    let window = matches!(why.reason, emulator::plan::Reason::Window { .. });
                    prop_assert!(window, "{:?}", why.reason);
                }
            }
            prop_assert_eq!(ask(from - 1).until, Some(stretch.from));
            prop_assert_eq!(ask(to).since, Some(stretch.to));
        }
    }

    /// What the laptop reads, a lock takes: timetables, closures and special days of a
    /// site that was not refused pass the lock's own check, however they touch or
    /// overlap, and every lock's policy is within its bounds.
    #[test]
    fn what_the_laptop_reads_a_lock_takes(
        days in prop::collection::vec((0_usize..7, 0_u16..288, 1_u16..288), 0..9),
        closure in (1_u8..=31, 0_u8..4), special in (1_u8..=31, 0_u16..288, 1_u16..288),
        delay in 0_u16..120,
    ) {
        let time = |fives: u16| format!("{:02}:{:02}", fives % 288 / 12, fives % 12 * 5);
        let names = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
        let mut week = String::new();
        for (day, name) in names.iter().enumerate() {
            let windows = days.iter().filter(|(other, ..)| *other == day);
            let windows: Vec<String> = windows
                .map(|(_, from, length)| format!("\"{}-{}\"", time(*from), time(from + length)))
                .collect();
            if !windows.is_empty() {
                week += &format!("{name} = [{}]\n", windows.join(", "));
            }
        }
        let (from, more) = closure;
        let (date, start, length) = special;
        let text = format!(
            "site = \"Random\"\nzone = \"Europe/Dublin\"\n[[lock]]\nid = \"till\"\nnumber = 7\n\
             delay = \"{delay}m\"\n[timetable.A]\n{week}\
             [[closure]]\nfrom = 2027-05-{from:02}\nto = 2027-05-{:02}\n\
             [[special]]\ndate = 2027-05-{date:02}\ntimetables = [\"A\"]\nwindows = [\"{}-{}\"]\n",
            (from + more).min(31), time(start), time(start + length),
        );
        if let Ok(site) = Site::parse("site.toml", &text) {
            prop_assert_eq!(emulator::carry::opening_times(&site).check(), Ok(()), "{}", text);
            prop_assert_eq!(site.locks[0].policy.check(), Ok(()));
        }
    }

    /// Nothing that a file can hold makes the reader of calendars panic.
    #[test]
    fn no_text_panics_the_reader_of_calendars(
        lines in prop::collection::vec("(DTSTART|DTEND|RRULE|EXDATE|SUMMARY|DURATION|BEGIN|END|[A-Z;=\"]{0,9})(;VALUE=DATE)?[:;, ]?(2027[01][0-9][0-3][0-9]|FREQ=YEARLY;BYMONTH=[0-9]{1,2};COUNT=[0-9]{1,3}|P[0-9]{1,3}[DWH]|VEVENT|\\PC{0,12})", 0..6),
        rest in "\\PC{0,80}",
    ) {
        let dates = Dates { from: Date::from_days(0), to: Date::from_ymd(2030, 1, 1) };
        let body = lines.join("\r\n");
        let text = format!("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n{body}\r\nEND:VEVENT\r\nEND:VCALENDAR");
        let _ = read("x.ics", &text, dates);
        let _ = read("x.ics", &rest, dates);
        let _ = read("x.ics", &body, dates);
    }
}
