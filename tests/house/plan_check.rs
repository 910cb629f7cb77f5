//! `plan check`: each finding, its place, its severity and the exit code.

use crate::site_text::{SITE, run, spoiled};

const CHECK: [&str; 6] = ["emulator", "plan", "check", "SITE", "--from", "2027-01-01"];

/// What is replaced in the site; with what, `§` before the place; the severity;
/// words of the finding.
const ROWS: &[(&str, &str, &str, &[&str])] = &[
    (
        "sun = [\"22:00-02:00\"]",
        "",
        "error",
        &["Tomasz (12) cannot open at all within the coming year"],
    ),
    (
        "to = 2027-12-26",
        "to = 2028-12-26\n[[closure]]\nfrom = 2026-12-01\nto = 2027-12-20\ntimetables = [\"B\"]",
        "error",
        &["Tomasz (12) cannot open"],
    ),
    (
        "opens = true\ntimetable = \"A\"",
        "opens = true\ntimetable = \"always\"",
        "warning",
        &["Maeve (01) may open at any time"],
    ),
    (
        "name = \"Declan\"\nrole = \"warden\"",
        "name = \"Declan\"\nrole = \"deputy\"",
        "warning",
        &["Maeve (01) is the only warden"],
    ),
    (
        "name = \"Declan\"\nrole = \"warden\"",
        "name = \"Declan\"\nrole = \"warden\"\nsuspended = true",
        "warning",
        &["only warden"],
    ),
    (
        "timetable = \"B\"",
        "timetable = \"A\"",
        "warning",
        &["Timetable B (Night) is followed by nobody"],
    ),
    (
        "[[lock]]\nid = \"store\"",
        "§[[lock]]\ndual_control = true\nid = \"store\"",
        "error",
        &["Tomasz (12) is alone", "the lock store needs two people"],
    ),
    (
        "delay = \"10m\"",
        "delay = \"10m\"\n[timetable.C]\nmon = [\"08:00-08:10\"]\n[[holder]]\nnumber = 30\nname = \"C\"\nrole = \"keyholder\"\ntimetable = \"C\"",
        "error",
        &["Timetable C", "can never open the lock store", "delay of 10 min", "longest has 10 min"],
    ),
    (
        "delay = \"10m\"",
        "delay = \"10m\"\n[timetable.C]\nmon = [\"08:00-08:12\"]\n[[holder]]\nnumber = 30\nname = \"C\"\nrole = \"keyholder\"\ntimetable = \"C\"",
        "warning",
        &["whole delay and claim of the lock store", "13 min", "has 12 min"],
    ),
    (
        "sun = [\"22:00-02:00\"]",
        "sun = [§\"01:15-01:45\"]",
        "warning",
        &["01:15-01:45 does not happen on 2027-03-28 and 2028-03-26"],
    ),
    (
        "sun = [\"22:00-02:00\"]",
        "sat = [§\"22:00-01:30\"]",
        "note",
        &["22:00-01:30 of 2027-03-27 and 2028-03-25 is shorter"],
    ),
    (
        "sun = [\"22:00-02:00\"]",
        "sun = [§\"01:30-02:30\"]",
        "note",
        &["01:30-02:30 of 2027-10-31 and 2028-10-29", "open both times"],
    ),
    (
        "[[closure]]",
        "§[[closure]]\nfrom = 2026-12-24\n[[closure]]",
        "note",
        &["The closure to 2026-12-24 is over"],
    ),
    (
        "[[special]]",
        "§[[special]]\ndate = 2026-12-24\nwindows = []\n[[special]]",
        "note",
        &["special day 2026-12-24 is over"],
    ),
    (
        "timetable = \"B\"\n",
        "timetable = \"A\"\n[[closure]]\nfrom = 2027-08-01\ntimetables = [\"B\"]",
        "warning",
        &["This closure concerns no timetable"],
    ),
    (
        "[[special]]\ndate = 2027-12-24\ntimetables = [\"A\"]",
        "§[[special]]\ndate = 2027-12-24\ntimetables = [\"C\"]\nwindows = []\n[timetable.C]\n[[special]]\ndate = 2027-12-24\ntimetables = [\"A\"]",
        "warning",
        &["This special day concerns no timetable"],
    ),
    ("\"01\" = \"480317\"", "", "note", &["holds codes for drills"]),
];

#[test]
fn each_finding_has_its_severity_place_and_sentence() {
    for (old, new, severity, words) in ROWS {
        let (text, place) = spoiled(old, new);
        let (code, name, out, err) = run(&text, &CHECK);
        assert_eq!(err, "");
        let mut lines = out.lines();
        let line = lines.find(|line| words.iter().all(|word| line.contains(word)));
        let line = line.unwrap_or_else(|| panic!("{words:?} are missing in:\n{out}"));
        assert!(line.contains(&format!(": {severity}: ")), "{line}");
        let is_store = line.contains("the lock store needs");
        if let Some((row, column)) = place.filter(|_| !is_store) {
            assert!(
                line.starts_with(&format!("{name}:{row}:{column}: ")),
                "{row}:{column}\n{line}"
            );
        }
        assert!(lines.next().is_some_and(|remedy| remedy.starts_with("    ")), "{out}");
        let expected = u8::from(out.contains(": error: ") || out.contains(": warning: "));
        assert_eq!(code, expected, "{out}");
        if *severity != "note" {
            assert_eq!(code, 1);
        }
    }
}

#[test]
fn a_site_in_order_has_a_note_and_exits_with_zero() {
    let (code, name, out, err) = run(SITE, &CHECK);
    let place = SITE.lines().position(|line| line == "[demo.codes]").unwrap() + 1;
    let note = format!("{name}:{place}:1: note: This file holds codes for drills.");
    assert!(out.starts_with(&note), "{out}");
    assert!(out.ends_with("0 errors, 0 warnings, 1 note\n"), "{out}");
    assert_eq!((code, err.as_str()), (0, ""));
}

#[test]
fn findings_in_json_say_the_same() {
    let (_, name, out, _) = run(SITE, &[&CHECK[..], &["--format", "json"]].concat());
    let rows: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!(rows.as_array().map(Vec::len), Some(1));
    assert_eq!(rows[0]["severity"], "note");
    assert_eq!(rows[0]["file"], name);
    assert_eq!(rows[0]["column"], 1);
    assert!(rows[0]["what"].is_string() && rows[0]["remedy"].is_string());
}

/// Fewer than two who may open, where two are needed.
#[test]
fn dual_control_for_one_is_an_error() {
    let text = SITE.replace("opens = true\ntimetable = \"A\"\n", "");
    let text = text.replace("delay = \"10m\"", "dual_control = true");
    let (code, _, out, _) = run(&text, &CHECK);
    assert!(out.contains("fewer than two may open"), "{out}");
    assert_eq!(code, 1);
}

/// The demonstration's own site: its one warning is the warden's `always`, its
/// notes are the two clock changes and the codes for drills.
#[test]
fn the_demo_site_is_in_order() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../emulator/demo/harbour-bakery.toml");
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let arguments = ["emulator", "plan", "check", path, "--from", "2027-03-01"];
    let code = emulator::cli::run(arguments, &mut out, &mut err);
    let out = String::from_utf8(out).unwrap();
    assert!(out.contains("Maeve (01) may open at any time"), "{out}");
    assert!(out.ends_with("0 errors, 1 warning, 3 notes\n"), "{out}");
    assert_eq!((code, err.len()), (1, 0));
}
