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
    (
        "name = \"Ruth\"\nrole = \"steward\"",
        "name = \"Ruth\"\nrole = \"keyholder\"\ntimetable = \"A\"",
        "warning",
        &["Nobody is a steward"],
    ),
    (
        "[[holder]]\nnumber = 50\nname = \"Ruth\"\nrole = \"steward\"",
        "§[[holder]]\nnumber = 50\nname = \"Ruth\"\nrole = \"steward\"\nsuspended = true",
        "warning",
        &["Ruth (50) is the only steward, and suspended"],
    ),
    // EN 1300 from memory: six digits are enough for B, also with duress codes,
    // and too few for C; seven are enough for D, eight for everything.
    (
        "penalty = \"5m\"",
        "penalty = \"5m\"\nclass = §\"C\"",
        "error",
        &["lock till is weaker", "Class C asks for 1,000,000", "6 digits are 889,354"],
    ),
    (
        "id = \"store\"\n",
        "id = \"store\"\nclass = §\"D\"\n",
        "error",
        &["lock store is weaker", "Class D asks for 3,000,000"],
    ),
    (
        "penalty = \"5m\"",
        "penalty = \"5m\"\nwrong_codes = 5",
        "warning",
        &[
            "Guessing at the locks till, store",
            "one chance in 444,677",
            "5 tries of a minute one in 88,935",
        ],
    ),
    (
        "penalty = \"5m\"",
        "penalty = \"5m\"\nduress = false",
        "note",
        &["6 digits without duress codes give a try one chance in 889,354"],
    ),
    // Monday morning has nobody but Maeve; Sunday night has both.
    (
        "delay = \"10m\"\n\n[timetable.A]\nname = \"Counter\"",
        "dual_control = true\n\n[timetable.A]\nname = \"Counter\"\nsun = [\"23:00-24:00\"]",
        "warning",
        &["Maeve (01) is alone in", "first on 2027-01-02 at 09:00", "lock store needs two"],
    ),
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
fn a_site_in_order_has_notes_and_exits_with_zero() {
    let (code, name, out, err) = run(SITE, &CHECK);
    let place = SITE.lines().position(|line| line == "[demo.codes]").unwrap() + 1;
    let note = format!("{name}:{place}:1: note: This file holds codes for drills.");
    assert!(out.contains(&note), "{out}");
    assert!(out.ends_with("0 errors, 0 warnings, 3 notes\n"), "{out}");
    assert_eq!((code, err.as_str()), (0, ""));
}

/// Wardens and stewards alone: the lock stays shut.
#[test]
fn a_lock_that_nobody_may_open_is_an_error() {
    let text = "site = \"Quay\"\nzone = \"Europe/Dublin\"\n[[lock]]\nid = \"till\"\nnumber = 1\n\
        [[holder]]\nnumber = 1\nname = \"Ida\"\nrole = \"warden\"\nopens = false\n\
        [[holder]]\nnumber = 2\nname = \"Ola\"\nrole = \"steward\"\n";
    let (code, _, out, err) = run(text, &CHECK);
    assert!(out.contains("error: Nobody may open the lock till."), "{out}{err}");
    assert_eq!(code, 1, "{out}");
}

#[test]
fn findings_in_json_say_the_same() {
    let (_, name, out, _) = run(SITE, &[&CHECK[..], &["--format", "json"]].concat());
    let rows: serde_json::Value = serde_json::from_str(&out).expect("JSON");
    assert_eq!(rows.as_array().map(Vec::len), Some(3));
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

/// With every warden suspended, nobody can restore anybody.
#[test]
fn a_suspended_holder_whom_nobody_restores_is_an_error() {
    let suspended =
        |text: &str| text.replace("role = \"warden\"", "role = \"warden\"\nsuspended = true");
    let (code, _, out, _) = run(&suspended(SITE), &CHECK);
    for who in ["Maeve (01)", "Declan (02)"] {
        let words = format!("{who} is suspended, and nobody can restore them");
        assert!(out.contains(&words), "{out}");
    }
    assert_eq!(code, 1);
    let (text, _) = spoiled("timetable = \"B\"", "timetable = \"B\"\nsuspended = true");
    let (_, _, out, _) = run(&text, &CHECK);
    assert!(!out.contains("nobody can restore"), "{out}");
}

/// Class A and B are met by six digits, C and D by seven, all of them also
/// with duress codes (EN 1300, from memory).
#[test]
fn a_class_that_is_met_is_no_finding() {
    for (class, digits) in [("A", 6), ("B", 6), ("C", 7), ("D", 7), ("D", 8)] {
        let policy = format!("class = \"{class}\"\ncode_digits = {digits}\npenalty = \"5m\"");
        let (text, _) = spoiled("penalty = \"5m\"", &policy);
        let (code, _, out, _) = run(&text, &CHECK);
        assert!(!out.contains("Class"), "{out}");
        assert_eq!(code, 0, "{out}");
        assert_eq!(out.contains("Guessing"), digits == 6, "seven digits pass both figures: {out}");
    }
    let (text, _) = spoiled("penalty = \"5m\"", "class = \"E\"");
    let (code, _, _, err) = run(&text, &CHECK);
    assert!(err.contains("There is no such class.") && err.contains("A, B, C and D"), "{err}");
    assert_eq!(code, 2);
}

/// The demonstration's own site: its one warning is the warden's `always`, its
/// notes are the chance of a guess, the two clock changes and the codes for
/// drills.
#[test]
fn the_demo_site_is_in_order() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../emulator/demo/harbour-bakery.toml");
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let arguments = ["emulator", "plan", "check", path, "--from", "2027-03-01"];
    let code = emulator::cli::run(arguments, &mut out, &mut err);
    let out = String::from_utf8(out).unwrap();
    assert!(out.contains("Maeve (01) may open at any time"), "{out}");
    assert!(out.ends_with("0 errors, 1 warning, 5 notes\n"), "{out}");
    assert_eq!((code, err.len()), (1, 0));
}

/// On a courier's number the lock takes ten counters and their variants: of ten million
/// codes at most twenty entries. Before, a courier was told to be worth as much as a
/// chosen code, and no class warned of one.
#[test]
fn a_couriers_odds_are_those_of_ten_counters() {
    let office = include_str!("../../emulator/demo/office/harbour-bakery.toml");
    let (_, _, out, _) = run(office, &CHECK);
    let flat = out.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "6 digits with duress codes give a try one chance in 444,677",
        "7 digits on a courier's number, 10 counters with duress codes give a try one chance in \
         500,000, the 4 tries of a minute one in 125,000",
    ] {
        assert!(flat.contains(words), "{flat}");
    }
    let off = office.replace("duress = true", "duress = false");
    let (_, _, out, _) = run(&off, &CHECK);
    let flat = out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(flat.contains("10 counters without duress codes give a try one chance in 1,000,000"));
    // Seven digits chosen are enough for C and D; a courier's are worth 500,000.
    for (class, warned) in [("A", false), ("B", false), ("C", true), ("D", true)] {
        let policy = format!("class = \"{class}\"\ncode_digits = 7");
        let text = office.replacen("code_digits = 6", &policy, 1);
        let (_, _, out, _) = run(&text, &CHECK);
        let flat = out.split_whitespace().collect::<Vec<_>>().join(" ");
        let told = flat.contains("takes 20 entries of 10,000,000, as if there were 500,000.");
        assert_eq!(told, warned, "{class}: {flat}");
    }
    // Who has no courier hears nothing of one.
    let (_, _, out, _) = run(SITE, &CHECK);
    assert!(!out.contains("courier's number"), "{out}");
}
