//! `plan calendar` read back by somebody else's reader.
//!
//! Source: RFC 5545 by the crate calcard 0.3, which shares no code with the
//! crate that writes (icalendar): what it reads, expanded, must be the
//! openings. Sections: 3.1 (lines of 75 octets, CRLF), 3.6.1 and 3.8.7.2 (UID
//! and DTSTAMP of every event), 3.8.4.7 (UIDs are unique and persistent).

use std::collections::BTreeSet;

use calcard::common::timezone::Tz;
use calcard::icalendar::ICalendar;
use jiff::civil::Weekday;
use jiff::tz::TimeZone;

use crate::openings::start_of;
use crate::planner::SiteFile;

/// A long name, with everything in it that has to be escaped.
const SITE: &str = r#"site = "Gull, Cod; Herring, Mackerel & Daughters"
zone = "Europe/Dublin"
[[lock]]
id = "till"
number = 1
[timetable.A]
mon = ["08:30-12:30", "13:30-17:00"]
sat = ["22:00-01:30"]
[[closure]]
from = 2027-03-08
[[holder]]
number = 7
name = "Caoimhe Ní Ḃaoiġill-Ƿalsh, Éldér; Ros\\na"
role = "keyholder"
timetable = "A"
"#;

fn written(file: &SiteFile, whose: &[&str]) -> String {
    let rest = ["--from", "2027-01-01", "--to", "2028-01-01"];
    let (code, out, err) = file.calendar(&[whose, &rest].concat());
    assert_eq!((code, err.as_str()), (0, ""));
    out
}

/// The openings of 2027 by section 5 of docs/behaviour.md and jiff's civil time alone: each
/// minute of the year is asked whether its wall clock lies in a window, and those that touch
/// are joined.
fn minute_by_minute(tz: &TimeZone) -> Vec<(i64, i64)> {
    let open = |at: i64| {
        let at = jiff::Timestamp::from_second(at).unwrap();
        let local = tz.to_offset(at).to_datetime(at);
        let minute = i32::from(local.hour()) * 60 + i32::from(local.minute());
        let today = local.date();
        let closed = |date: jiff::civil::Date| date == jiff::civil::date(2027, 3, 8);
        let monday = today.weekday() == Weekday::Monday && !closed(today);
        let morning = (510..750).contains(&minute) || (810..1_020).contains(&minute);
        let saturday = today.weekday() == Weekday::Saturday && minute >= 1_320;
        let sunday = today.weekday() == Weekday::Sunday && minute < 90;
        monday && morning || saturday || sunday
    };
    let year = |year| start_of(jiff::civil::date(year, 1, 1), tz).as_second();
    let (from, to) = (year(2027), year(2028));
    let mut openings: Vec<(i64, i64)> = Vec::new();
    for at in (from..to).step_by(60).filter(|at| open(*at)) {
        match openings.last_mut() {
            Some((_, end)) if *end == at => *end = at + 60,
            _ => openings.push((at, at + 60)),
        }
    }
    openings
}

#[test]
fn another_reader_finds_exactly_the_openings() {
    let file = SiteFile::new(SITE);
    let tz = TimeZone::get("Europe/Dublin").unwrap();
    for whose in [["--holder", "7"], ["--timetable", "A"]] {
        let text = written(&file, &whose);
        let calendar = ICalendar::parse(&text).unwrap_or_else(|why| panic!("{why:?}"));
        let expanded = calendar.expand_dates(Tz::UTC, 100_000);
        assert_eq!(expanded.errors, []);
        let mut seen: Vec<_> = expanded.events.iter().map(|event| event.timestamps()).collect();
        seen.sort_unstable();
        let expected = minute_by_minute(&tz);
        assert!(expected.len() > 150);
        assert_eq!(seen, expected);
    }
}

/// Content lines end in CRLF and have 75 octets at most, and folding breaks no
/// character.
#[test]
fn lines_are_folded_as_the_rfc_says() {
    let file = SiteFile::new(SITE);
    let text = written(&file, &["--holder", "7"]);
    assert!(text.ends_with("END:VCALENDAR\r\n"));
    assert_eq!(text.matches('\n').count(), text.matches("\r\n").count());
    let longest = text.split("\r\n").map(str::len).max();
    assert!(longest <= Some(75), "{longest:?} octets");
    let folded = text.split("\r\n").filter(|line| line.starts_with(' ')).count();
    assert!(folded > 0, "the name is long enough to be folded");
    let unfolded = text.replace("\r\n ", "");
    let name = "Caoimhe Ní Ḃaoiġill-Ƿalsh\\, Éldér\\; Ros\\\\na (07) may open till";
    assert!(unfolded.contains(&format!("SUMMARY:{name}\r\n")), "{unfolded:.900}");
}

#[test]
fn every_event_has_a_uid_that_stays_and_a_stamp() {
    let file = SiteFile::new(SITE);
    let uids = |text: &str| -> Vec<String> {
        let text = text.replace("\r\n ", "");
        text.lines().filter(|line| line.starts_with("UID:")).map(str::to_owned).collect()
    };
    let text = written(&file, &["--holder", "7"]);
    let events = text.matches("BEGIN:VEVENT").count();
    assert_eq!(text.matches("\r\nDTSTAMP:").count(), events);
    let own = uids(&text);
    assert_eq!(own.len(), events);
    assert_eq!(own.iter().collect::<BTreeSet<_>>().len(), events);
    assert_eq!(uids(&written(&file, &["--holder", "7"])), own);
    // Somebody else's openings are others.
    let others = uids(&written(&file, &["--timetable", "A"]));
    assert!(own.iter().all(|uid| !others.contains(uid)));
}
