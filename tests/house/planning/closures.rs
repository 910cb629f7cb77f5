//! `plan closures`: calendars that are closures, and those that are refused.

use super::plan;

/// A calendar of one event.
fn event(lines: &str) -> String {
    format!(
        "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nBEGIN:VEVENT\r\n{lines}\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
    )
}

fn closures(text: &str, rest: &[&str]) -> (u8, String, String) {
    plan(text, "closures", rest)
}

#[test]
fn whole_days_become_closures() {
    for (lines, rest, expected) in [
        ("DTSTART;VALUE=DATE:20270317", &[][..], "from = 2027-03-17\n"),
        // DTEND is the first day that is free again (RFC 5545 section 3.6.1).
        (
            "DTSTART;VALUE=DATE:20271225\r\nDTEND;VALUE=DATE:20271227",
            &[],
            "from = 2027-12-25\nto = 2027-12-26\n",
        ),
        ("DTSTART;VALUE=DATE:20271225\r\nDURATION:P2D", &[], "to = 2027-12-26\n"),
        ("DTSTART;VALUE=DATE:20271225\r\nDURATION:P1W", &[], "to = 2027-12-31\n"),
        // Folded within a word, and with escapes (sections 3.1 and 3.3.11).
        (
            "DTSTART;VALUE=DATE:20270317\r\nSUMMARY:Saint Pat\r\n rick's Day\\, \"all day\"",
            &[],
            "why = \"Saint Patrick's Day, \\\"all day\\\"\"\n",
        ),
        ("DTSTART;VALUE=DATE:20270317\r\nSUMMARY:two\\nlines", &[], "why = \"two lines\"\n"),
        (
            "DTSTART;VALUE=DATE:20201225\r\nRRULE:FREQ=YEARLY",
            &["--from", "2027-01-01", "--to", "2029-01-01"],
            "[[closure]]\nfrom = 2027-12-25\n\n[[closure]]\nfrom = 2028-12-25\n",
        ),
        (
            "DTSTART;VALUE=DATE:20260501\r\nRRULE:FREQ=YEARLY;UNTIL=20280501\r\nEXDATE;VALUE=DATE:20270501",
            &[],
            "[[closure]]\nfrom = 2026-05-01\n\n[[closure]]\nfrom = 2028-05-01\n",
        ),
    ] {
        let (code, out, err) = closures(&event(lines), rest);
        assert_eq!((code, err.as_str()), (0, ""), "{lines}");
        assert!(out.contains(expected), "{lines}\n{out}");
        // Bare line feeds are read as well.
        let (_, same, _) = closures(&event(lines).replace("\r\n", "\n"), rest);
        assert_eq!(out, same);
    }
}

#[test]
fn json_says_the_same_with_the_line() {
    let text =
        event("SUMMARY:Christmas\r\nDTSTART;VALUE=DATE:20271225\r\nDTEND;VALUE=DATE:20271227");
    let rows = super::json(&text, "closures", &[]);
    let expected = serde_json::json!([
        { "from": "2027-12-25", "to": "2027-12-26", "why": "Christmas", "line": 3 }
    ]);
    assert_eq!(rows, expected);
}

#[test]
fn what_is_left_out_is_said() {
    let text = event("DTSTART;VALUE=DATE:20270317\r\nSTATUS:CANCELLED");
    let (code, out, err) = closures(&text, &[]);
    assert_eq!((code, out.as_str()), (0, ""));
    assert!(err.contains("1 cancelled events were left out"), "{err}");
    let text = event("DTSTART;VALUE=DATE:20270317");
    let (code, out, err) = closures(&text, &["--from", "2027-03-18"]);
    assert_eq!((code, out.as_str()), (0, ""));
    assert!(err.contains("1 events lie outside"), "{err}");
}

/// The lines of an event, the line of the file that is blamed, and words.
const REFUSED: &[(&str, usize, &str)] = &[
    ("DTSTART:20270317T090000Z", 4, "has a time of day"),
    ("SUMMARY:x\r\n y\r\nDTSTART:20270317T090000Z", 6, "has a time of day"),
    ("SUMMARY:x", 3, "has no first day"),
    ("DTSTART;VALUE=DATE:20270229", 4, "no date of the calendar"),
    ("DTSTART;VALUE=DATE:2027-03-17", 4, "no date of the calendar"),
    ("DTSTART;VALUE=DATE:20270317,20270318", 4, "no date of the calendar"),
    ("DTSTART;VALUE=DATE:20270317\r\nDTEND;VALUE=DATE:20270317", 5, "ends before it starts"),
    ("DTSTART;VALUE=DATE:20270317\r\nDTEND;VALUE=DATE:20290317", 5, "is no holiday"),
    ("DTSTART;VALUE=DATE:20270317\r\nDURATION:PT8H", 5, "no number of whole days"),
    // Rules that come to no day: a holiday would be left out without a word.
    (
        "DTSTART;VALUE=DATE:20270317\r\nRRULE:FREQ=YEARLY;INTERVAL=0;COUNT=3",
        5,
        "no number of years",
    ),
    (
        "DTSTART;VALUE=DATE:20270317\r\nRRULE:FREQ=YEARLY;INTERVAL=x;COUNT=3",
        5,
        "no number of years",
    ),
    (
        "DTSTART;VALUE=DATE:20270317\r\nRRULE:FREQ=YEARLY;UNTIL=20300101;BYMONTH=2;BYMONTHDAY=30",
        5,
        "rule of repetition",
    ),
    (
        "DTSTART;VALUE=DATE:20270317\r\nDTEND;VALUE=DATE:20270318\r\nDURATION:P1D",
        6,
        "both an end and a duration",
    ),
    ("DTSTART;VALUE=DATE:20270317\r\nRRULE:FREQ=WEEKLY;COUNT=2", 5, "but more often"),
    ("DTSTART;VALUE=DATE:20270317\r\nRRULE:FREQ=YEARLY", 5, "without an end"),
    ("DTSTART;VALUE=DATE:20270317\r\nRRULE:FREQ=YEARLY;COUNT=no", 5, "cannot be followed"),
    ("DTSTART;VALUE=DATE:20270317\r\nRDATE;VALUE=DATE:20270318", 5, "extra dates (RDATE)"),
    ("DTSTART;VALUE=DATE:20270317\r\nDTSTART;VALUE=DATE:20270318", 4, "more than once"),
    ("DTSTART;VALUE=DATE:21270317", 4, "outside the years"),
    ("DTSTART;VALUE=DATE:20270317\r\nno line", 5, "no line of an iCalendar"),
    ("BEGIN:VALARM\r\nEND:VEVENT", 5, "VALARM must end before"),
];

#[test]
fn what_is_no_closure_is_refused_with_its_line() {
    for (lines, line, words) in REFUSED {
        let (code, out, err) = closures(&event(lines), &[]);
        assert_eq!((code, out.as_str()), (2, ""), "{lines}\n{err}");
        assert!(err.contains(words), "{lines}\n{err}");
        assert!(err.contains(&format!(":{line}:")), "line {line} of\n{lines}\n{err}");
        assert!(err.contains("help: "), "{err}");
    }
}

/// A file is taken whole or not at all.
#[test]
fn one_bad_event_refuses_the_file() {
    let good = "BEGIN:VEVENT\r\nDTSTART;VALUE=DATE:20270317\r\nEND:VEVENT\r\n";
    let bad = good.replace("0317", "0317T0900");
    let file = |events: &[&str]| format!("BEGIN:VCALENDAR\r\n{}END:VCALENDAR\r\n", events.concat());
    assert_eq!(closures(&file(&[good, good]), &[]).0, 0);
    let (code, out, err) = closures(&file(&[good, &bad]), &[]);
    assert_eq!((code, out.as_str()), (2, ""), "{err}");
    assert!(err.contains(":6:"), "{err}");
}

#[test]
fn what_is_no_calendar_is_refused() {
    let deep = "BEGIN:X\r\n".repeat(100_000);
    for (text, words) in [
        ("", "This file is empty"),
        ("site = \"S\"\n", "no line of an iCalendar"),
        ("SUMMARY:x\r\n", "must be one calendar"),
        ("BEGIN:VCALENDAR\r\nEND:VCALENDAR\r\n", "no event"),
        ("BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n", "ends within a VEVENT"),
        (&format!("BEGIN:VCALENDAR\r\n{deep}"), "nested too deep"),
    ] {
        let (code, out, err) = closures(text, &[]);
        assert!(err.contains(words), "{text:.60}\n{err:.900}");
        assert_eq!((code, out.as_str()), (2, ""));
    }
    let (code, _, err) = closures(
        &event("DTSTART;VALUE=DATE:20270317"),
        &["--from", "2027-02-01", "--to", "2027-01-01"],
    );
    assert!(code == 2 && err.contains("--to lies before --from"), "{err}");
}
