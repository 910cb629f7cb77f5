//! `plan why`: the sentence for each reason, and times that are none.

use super::{json, plan};
use crate::site_text::{SITE, spoiled};

fn ask(text: &str, lock: &str, holder: &str, at: &str) -> (u8, String, String) {
    plan(text, "why", &["--lock", lock, "--holder", holder, "--at", at])
}

/// Lock, holder, time, and words of the answer, on the site as it is.
const ROWS: &[(&str, &str, &str, &[&str])] = &[
    (
        "till",
        "1",
        "2027-03-01T08:30",
        &[
            "Maeve (01) may open the lock till on Mon 2027-03-01 at 08:30",
            "window 08:30-12:30 of timetable A",
            "Open since Mon 2027-03-01 08:30, until Mon 2027-03-01 12:30",
        ],
    ),
    (
        "till",
        "1",
        "2027-03-01T12:30:00",
        &[
            "may not open",
            "outside the windows of timetable A on this weekday: 08:30-12:30, 13:30-17:00",
            "Closed since Mon 2027-03-01 12:30; opens Mon 2027-03-01 13:30",
        ],
    ),
    ("till", "1", "2027-03-02T10:00", &["on this weekday: it has none"]),
    (
        "till",
        "12",
        "2027-03-01T01:00",
        &["window 22:00-02:00 of timetable B, which starts on Sun 2027-02-28"],
    ),
    (
        "till",
        "1",
        "2027-12-25T10:00",
        &["timetable A is closed on 2027-12-25 to 2027-12-26 by a closure (line"],
    ),
    (
        "till",
        "12",
        "2027-12-27T01:00",
        &["the window of timetable B that would run in from the day before is closed"],
    ),
    (
        "till",
        "1",
        "2027-12-24T09:00",
        &["window 08:30-12:00 of timetable A on Fri 2027-12-24, a special day (line"],
    ),
    ("till", "1", "2027-12-24T15:00", &["on a special day (line", "): 08:30-12:00."]),
    ("till", "2", "2027-03-01T09:00", &["may not open", "a warden of this file does not open"]),
    ("till", "50", "2027-03-01T09:00", &["may not open", "a steward of this file"]),
    ("store", "1", "2027-03-01T09:00", &["waits 10 min first", "claimed from 09:10 on"]),
    // A wait that ends with the window is refused; a second less is not.
    ("store", "1", "2027-03-01T12:20", &["would not be over before the window ends"]),
    ("store", "1", "2027-03-01T12:19:59", &["claimed from 12:29:59 on"]),
    (
        "till",
        "12",
        "2027-03-28T00:59:59",
        &["The clock goes forward on this date: at 01:00 it shows 02:00"],
    ),
    (
        "till",
        "12",
        "2027-10-31T01:30",
        &[
            "goes back on this date: at 02:00 it shows 01:00",
            "comes twice; the first is meant",
            "2027-10-31T01:30:00+00:00",
        ],
    ),
];

#[test]
fn each_reason_has_its_sentence() {
    for (lock, holder, at, words) in ROWS {
        let (code, out, err) = ask(SITE, lock, holder, at);
        assert_eq!((code, err.as_str()), (0, ""), "{at}");
        for word in *words {
            assert!(out.contains(word), "{holder} {at}: `{word}` is missing in:\n{out}");
        }
        let rest = ["--lock", lock, "--holder", holder, "--at", at];
        let twin = json(SITE, "why", &rest);
        assert_eq!(twin["may_open"], out.contains(" may open the lock"), "{at}");
        let sentences = twin["sentences"].as_array().expect("a list");
        let sentences: Vec<_> = sentences.iter().filter_map(|s| s.as_str()).collect();
        assert_eq!(sentences.join("\n") + "\n", out);
    }
}

#[test]
fn a_closure_is_named_with_its_line_and_reason() {
    let (text, place) = spoiled("[[closure]]", "§[[closure]]\nwhy = \"Christmas\"");
    let (line, _) = place.unwrap();
    let (_, out, _) = ask(&text, "till", "1", "2027-12-25T10:00");
    assert!(out.contains(&format!("closure (line {line}, \"Christmas\")")), "{out}");
    let twin = json(&text, "why", &["--lock", "till", "--holder", "1", "--at", "2027-12-25T10:00"]);
    assert_eq!((&twin["reason"], &twin["why"]), (&"closure".into(), &"Christmas".into()));
    assert_eq!(twin["line"], line);
}

#[test]
fn the_suspended_the_unbound_and_the_second_person_are_told() {
    let (text, _) = spoiled("timetable = \"B\"", "timetable = \"B\"\nsuspended = true");
    let (_, out, _) = ask(&text, "till", "12", "2027-02-28T23:00");
    assert!(out.contains("may not open") && out.contains("is suspended"), "{out}");
    let (text, _) = spoiled("timetable = \"B\"", "timetable = \"always\"");
    let (_, out, _) = ask(&text, "till", "12", "2027-12-25T10:00");
    assert!(out.contains("may open") && out.contains("follows no timetable"), "{out}");
    let text = text.replace("number = 1002", "number = 1002\ndual_control = true");
    let (_, out, _) = ask(&text, "store", "1", "2027-03-01T09:00");
    assert!(out.contains("the second could be Tomasz (12)."), "{out}");
    let (_, out, _) = ask(&text, "store", "12", "2027-12-25T10:00");
    assert!(out.contains("nobody else may open at this time"), "{out}");
}

/// The second of two equal times on the wall is named by its offset.
#[test]
fn a_repeated_time_is_told_apart_by_its_offset() {
    let at = |time| {
        let twin = json(SITE, "why", &["--lock", "till", "--holder", "12", "--at", time]);
        (twin["at"].clone(), twin["comes_again"].clone())
    };
    let (first, second) = ("2027-10-31T01:30:00+01:00", "2027-10-31T01:30:00+00:00");
    assert_eq!(at("2027-10-31T01:30"), (first.into(), second.into()));
    assert_eq!(at(second), (second.into(), serde_json::Value::Null));
    assert_eq!(at("2027-10-31T01:30:00Z").0, second);
}

#[test]
fn what_cannot_be_asked_is_refused() {
    for (lock, holder, at, words) in [
        ("till", "1", "2027-03-28T01:30", "skips this local time"),
        ("vault", "1", "2027-03-01T09:00", "has no lock \"vault\""),
        ("till", "77", "2027-03-01T09:00", "Nobody has the number 77"),
        ("till", "1", "2027-03-01", "write a date and a time"),
        ("till", "1", "09:00", "write a date and a time"),
        ("till", "1", "2027-02-29T09:00", "write a date and a time"),
        ("till", "1", "2027-03-01T24:00", "write a date and a time"),
        ("till", "1", "2027-03-01T23:59:60", "write a date and a time"),
        ("till", "1", "2127-03-01T09:00", "write a date such as"),
        ("till", "1", "1970-01-01T00:00:00+05:00", "does not reach this time"),
        ("till", "1", "ä027-03-01T09:0", "write a date and a time"),
    ] {
        let (code, out, err) = ask(SITE, lock, holder, at);
        assert!(err.contains(words), "{at}: {err}");
        assert_eq!((code, out.as_str()), (2, ""), "{at}");
    }
}
