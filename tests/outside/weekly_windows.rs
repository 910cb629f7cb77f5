//! Weekly windows against recurrence rules, and a holiday season.
//!
//! Sources: RFC 5545 section 3.8.5.3 by the crate rrule 0.14, itself shown to be
//! right on the RFC's own examples; PyPI holidays 0.109 for Germany, BY.

use std::fmt::Write as _;

use jiff::Timestamp;
use jiff::tz::TimeZone;
use rrule::RRuleSet;

use crate::openings::Dice;
use crate::planner::SiteFile;

const DAYS: [(&str, &str); 7] = [
    ("mon", "MO"),
    ("tue", "TU"),
    ("wed", "WE"),
    ("thu", "TH"),
    ("fri", "FR"),
    ("sat", "SA"),
    ("sun", "SU"),
];

fn occurrences(rule: &str) -> Vec<i64> {
    let set: RRuleSet = rule.parse().expect("a recurrence rule");
    let all = set.all(10_000);
    assert!(!all.limited);
    all.dates.iter().map(|date| date.timestamp()).collect()
}

fn dates(rule: &str) -> Vec<String> {
    let set: RRuleSet = rule.parse().expect("a recurrence rule");
    set.all(1_000).dates.iter().map(|date| date.format("%m-%d").to_string()).collect()
}

/// The oracle itself, on the examples of RFC 5545.
#[test]
fn the_recurrence_rules_of_the_rfc_come_out_as_printed() {
    let every_two_weeks = |week_start: &str| {
        dates(&format!(
            "DTSTART;TZID=America/New_York:19970805T090000\n\
             RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST={week_start}"
        ))
    };
    assert_eq!(every_two_weeks("MO"), ["08-05", "08-10", "08-19", "08-24"]);
    assert_eq!(every_two_weeks("SU"), ["08-05", "08-17", "08-19", "08-31"]);
    let biweekly = dates(
        "DTSTART;TZID=America/New_York:19970901T090000\n\
         RRULE:FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR",
    );
    assert_eq!(biweekly.len(), 25);
    assert_eq!(biweekly.last().map(String::as_str), Some("12-22"));
}

/// Two windows a day, by day, without closures: each starts and ends as a
/// weekly recurrence does. Windows keep away from the hours of clock changes,
/// for which a recurrence has rules of its own.
#[test]
fn weekly_windows_recur_as_rfc_5545_says() {
    let zones = ["Europe/Dublin", "America/New_York", "Asia/Kathmandu", "Australia/Lord_Howe"];
    for seed in 20_000..20_040 {
        let mut dice = Dice::new(seed);
        let zone = zones[usize::try_from(dice.upto(3)).unwrap()];
        let tz = TimeZone::get(zone).unwrap();
        let morning = (300 + dice.upto(200), 520 + dice.upto(200));
        let night = (800 + dice.upto(500), 1_320 + dice.upto(179));
        let mut text = format!(
            "site = \"S\"\nzone = \"{zone}\"\n[[lock]]\nid = \"till\"\nnumber = 1\n[timetable.D]\n"
        );
        let mut expected: Vec<(i64, i64)> = Vec::new();
        let mut days: [Vec<String>; 7] = Default::default();
        for (from, to) in [morning, night] {
            // Which days have this window.
            let mask = 1 + dice.upto(126);
            let chosen = (0..7).filter(|day| mask >> day & 1 == 1);
            let named: Vec<&str> = chosen.clone().map(|day: usize| DAYS[day].1).collect();
            let rule = |minute: i64, shift: usize| {
                let named: Vec<&str> =
                    chosen.clone().map(|day| DAYS[(day + shift) % 7].1).collect();
                format!(
                    "DTSTART;TZID={zone}:20270{}T{:02}{:02}00\n\
                     RRULE:FREQ=WEEKLY;UNTIL=20290{}T{:02}{:02}00Z;BYDAY={}",
                    // 2027-03-01 is a Monday; what ends after midnight ends a
                    // day later.
                    301 + shift,
                    minute / 60,
                    minute % 60,
                    226 + shift,
                    minute / 60,
                    minute % 60,
                    named.join(",")
                )
            };
            let starts = occurrences(&rule(from, 0));
            let ends = occurrences(&rule(to % 1_440, usize::from(to >= 1_440)));
            assert!(!named.is_empty() && starts.len().abs_diff(ends.len()) <= 1);
            expected.extend(starts.into_iter().zip(ends));
            for day in chosen {
                days[day].push(format!(
                    "\"{:02}:{:02}-{:02}:{:02}\"",
                    from / 60,
                    from % 60,
                    to % 1_440 / 60,
                    to % 60
                ));
            }
        }
        expected.sort_unstable();
        for (windows, (day, _)) in days.iter().zip(DAYS) {
            writeln!(text, "{day} = [{}]", windows.join(", ")).unwrap();
        }
        let file = SiteFile::new(&text);
        let rest = ["--timetable", "D", "--from", "2027-03-08", "--to", "2029-02-20"];
        let seen = file.openings(&tz, &rest);
        let end = tz.to_timestamp("2029-02-20T00:00".parse().unwrap()).unwrap();
        let start = tz.to_timestamp("2027-03-08T00:00".parse().unwrap()).unwrap();
        let clipped = |second: i64| Timestamp::from_second(second).unwrap().clamp(start, end);
        let expected: Vec<_> = expected
            .into_iter()
            .map(|(from, to)| (clipped(from), clipped(to)))
            .filter(|(from, to)| from < to)
            .collect();
        let differs = seen.iter().zip(&expected).find(|(seen, expected)| seen != expected);
        assert_eq!(differs, None, "seed {seed}\n{text}");
        assert_eq!(seen.len(), expected.len(), "seed {seed}\n{text}");
        assert!(seen.len() > 90, "two years of at least one window a week");
    }
}

/// Monday to Friday in Bavaria, 2025-12-15 to 2026-01-09: 16 open days.
#[test]
fn the_holidays_of_bavaria_leave_sixteen_open_days() {
    let mut text = String::from(
        "site = \"S\"\nzone = \"Europe/Berlin\"\n[[lock]]\nid = \"till\"\nnumber = 1\n[timetable.A]\n",
    );
    for (day, _) in &DAYS[..5] {
        writeln!(text, "{day} = [\"09:00-17:00\"]").unwrap();
    }
    for holiday in ["2025-12-25\nto = 2025-12-26", "2026-01-01", "2026-01-06"] {
        writeln!(text, "[[closure]]\nfrom = {holiday}").unwrap();
    }
    let tz = TimeZone::get("Europe/Berlin").unwrap();
    let rest = ["--timetable", "A", "--from", "2025-12-15", "--to", "2026-01-10"];
    let seen = SiteFile::new(&text).openings(&tz, &rest);
    let days: Vec<String> = seen
        .iter()
        .map(|(from, _)| from.to_zoned_datetime(tz.clone()).date().to_string())
        .collect();
    assert_eq!(days.len(), 16);
    for holiday in ["2025-12-25", "2025-12-26", "2026-01-01", "2026-01-06"] {
        assert!(!days.iter().any(|day| day == holiday));
    }
    for open in ["2025-12-24", "2025-12-29", "2026-01-02", "2026-01-05", "2026-01-07"] {
        assert!(days.iter().any(|day| day == open));
    }
}
