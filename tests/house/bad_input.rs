//! Every mistake that a person makes in a site file or on the command line: it
//! is refused whole, with its place, its own sentence, and what to do; and no
//! code is ever shown (R5).

use std::fmt::Write as _;

use crate::site_text::{SITE, run, spoiled};

/// What is replaced in the site; with what, `§` before the caret; words of the
/// complaint.
type Row = (&'static str, &'static str, &'static [&'static str]);

const KEYS_AND_TYPES: &[Row] = &[
    ("penalty = \"5m\"", "§penlaty = \"6m\"", &["`penlaty` is no key", "mean `penalty`"]),
    // What stands there already cannot be meant: it would be refused as written twice.
    ("[policy]", "[policy]\n§penlaty = \"6m\"", &["`penlaty` is no key", "here: code_digits,"]),
    ("site = \"Corner", "§sit = \"Corner", &["`sit` is no key", "mean `site`"]),
    ("site = \"Corner", "§sight = \"Corner", &["`sight` is no key", "stand here: site."]),
    (
        "to = 2027-12-26",
        "§until = 2027-12-26",
        &["`until` is no key of a [[closure]]", "timetables"],
    ),
    (
        "mon = [\"08:30",
        "§monday = [\"08:30",
        &["`monday` is no key of a [timetable]", "mean `mon`"],
    ),
    ("delay = \"10m\"", "§delai = \"1m\"", &["`delai`", "mean `delay`"]),
    (
        "role = \"steward\"",
        "role = \"steward\"\n§code = \"593716\"",
        &["`code` is no key", "could stand here: opens, timetable"],
    ),
    ("[demo.codes]", "[demo]\n§names = 1\n[demo.codes]", &["`names`", "Take it out"]),
    ("site = \"Corner Shop\"", "site = §7", &["`site` must be a text", "whole number"]),
    ("site = \"Corner Shop\"", "site = §\"  \"", &["`site` is empty"]),
    ("penalty = \"5m\"", "penalty = §300", &["`penalty` must be a duration", "\"5m\""]),
    ("penalty = \"5m\"", "penalty = §\"5 minutes\"", &["`penalty` must be a duration"]),
    ("penalty = \"5m\"", "supply_low = §4800", &["`supply_low` must be a voltage", "4.8V"]),
    ("penalty = \"5m\"", "duress = §\"yes\"", &["`duress` must be true or false", "a text"]),
    ("penalty = \"5m\"", "wrong_codes = §\"4\"", &["must be a whole number"]),
    ("[policy]", "§[[policy]]", &["`policy` must be a table", "a list"]),
    ("from = 2027-12-25", "from = §\"2027-12-25\"", &["`from` must be a date", "without quotes"]),
    ("from = 2027-12-25", "from = §2027-12-25T00:00:00", &["`from` must be a date"]),
    ("from = 2027-12-25", "from = §2107-12-25", &["outside the years"]),
    ("zone = \"Europe/Dublin\"\n", "", &["`zone` is missing", "Europe/Dublin"]),
    ("number = 1001\n", "", &["`number` is missing in a [[lock]]"]),
    ("date = 2027-12-24", "", &["`date` is missing in a [[special]]"]),
    ("role = \"steward\"\n", "", &["`role` is missing in a [[holder]]"]),
    ("site = \"Corner Shop\"", "site = §Corner Shop", &["This is no TOML"]),
    ("mon = [", "sat = []\nmon = [", &["This is written twice"]),
];

const POLICY: &[Row] = &[
    (
        "penalty = \"5m\"",
        "penalty = §\"59s\"",
        &["`penalty` must lie between 1m and 1h", "common practice"],
    ),
    ("penalty = \"5m\"", "penalty = §\"2h\"", &["between 1m and 1h"]),
    ("penalty = \"5m\"", "penalty = §\"1h\"", &["`penalty_cap` is 40m", "beside this `penalty`"]),
    ("penalty = \"5m\"", "penalty_cap = §\"4m\"", &["`penalty_cap` is 4m", "between 5m and 24h"]),
    ("penalty = \"5m\"", "wrong_codes = §2", &["number from 3 to 10", "common practice"]),
    ("penalty = \"5m\"", "wrong_codes = §11", &["number from 3 to 10"]),
    ("penalty = \"5m\"", "wrong_codes = §-1", &["number from 3 to 10"]),
    ("penalty = \"5m\"", "code_digits = §9", &["number from 6 to 8"]),
    ("penalty = \"5m\"", "claim = §\"16m\"", &["`claim`", "between 1m and 15m"]),
    ("penalty = \"5m\"", "dual_limit = §\"5s\"", &["`dual_limit`", "between 10s and 5m"]),
    ("penalty = \"5m\"", "alarm_hold = §\"1h\"", &["`alarm_hold`", "between 10s and 10m"]),
    ("penalty = \"5m\"", "release = §\"30s\"", &["`release`", "between 3s and 20s"]),
    (
        "penalty = \"5m\"",
        "supply_low = §\"12V\"",
        &["`supply_low`", "between 3.0V and 9.0V", "LR6"],
    ),
    ("penalty = \"5m\"", "supply_spent = §\"4.7V\"", &["`supply_spent` is 4.7V", "2.5V and 4.6V"]),
    ("penalty = \"5m\"", "supply_low = §\"4.3V\"", &["`supply_spent` is 4.2V", "2.5V and 4.1V"]),
    ("delay = \"10m\"", "delay = §\"100m\"", &["`delay`", "between 0s and 99m", "99 minutes"]),
    ("delay = \"10m\"", "penalty_cap = §\"2m\"", &["`penalty_cap` is 2m"]),
];

const LOCKS: &[Row] = &[
    ("id = \"store\"", "id = §\"till\"", &["lock id \"till\" is given twice", "by this lock"]),
    ("number = 1002", "number = §1001", &["lock number 1001 is given twice"]),
    ("id = \"store\"", "id = §\"the store\"", &["letters, digits and hyphens"]),
    ("id = \"store\"", "id = §\"\"", &["`id` is empty"]),
    ("id = \"store\"", "id = §\"store-behind-the-bakery\"", &["`id` is too long", "23 characters"]),
    ("number = 1002", "number = §0", &["from 1 to 65535"]),
];

const WINDOWS: &[Row] = &[
    ("13:30-17:00\"]", "12:29-17:00\"]", &["08:30-12:30 and 12:29-17:00 overlap", "with this one"]),
    (
        "\"08:30-12:30\", \"13:30",
        "\"13:00-14:00\", §\"13:30",
        &["13:00-14:00 and 13:30-17:00 overlap"],
    ),
    (
        "\"13:30-17:00\"]",
        "\"22:00-02:00\"]\ntue = [§\"01:30-03:00\"]",
        &["overlap (mon runs into tue)"],
    ),
    ("name = \"Night\"", "mon = [\"01:59-03:00\"]", &["overlap (sun runs into mon)"]),
    (
        "sun = [\"22:00-02:00\"]",
        "sun = [\"22:00-02:00\"]\nmon = [§\"01:59-03:00\"]",
        &["sun runs into mon", "22:00-02:00"],
    ),
    ("\"08:30-12:30\"", "§\"08:30-08:30\"", &["no length", "00:00-24:00"]),
    ("\"08:30-12:30\"", "§\"08:30-24:30\"", &["`24:30` is not a time"]),
    ("\"08:30-12:30\"", "§\"08:60-12:30\"", &["`08:60` is not a time"]),
    ("\"08:30-12:30\"", "§\"8:30-12:30\"", &["`8:30` is not a time", "\"08:30-12:30\""]),
    ("\"08:30-12:30\"", "§\"25:00-12:30\"", &["`25:00` is not a time"]),
    ("\"08:30-12:30\"", "§\"24:00-12:30\"", &["cannot start at 24:00"]),
    ("\"08:30-12:30\"", "§\"half past eight-noon\"", &["is not a time of day"]),
    ("\"08:30-12:30\"", "§\"08:30\"", &["a start and an end"]),
    ("\"08:30-12:30\"", "§830", &["A window must be a text"]),
    (
        "mon = [\"08:30-12:30\", \"13:30-17:00\"]",
        "mon = §\"08:30-12:30\"",
        &["`mon` must be a list"],
    ),
    (
        "mon = [\"08:30-12:30\", \"13:30-17:00\"]",
        "mon = [\"01:00-02:00\", \"03:00-04:00\", \"05:00-06:00\", \"07:00-08:00\", \"08:00-09:00\", §\"10:00-11:00\"]",
        &["`mon` has more than 4 windows", "windows that touch count as one"],
    ),
    ("[timetable.B]", "[timetable.§E]\n[timetable.B]", &["no such timetable", "A, B, C and D"]),
    ("[timetable.B]", "[timetable.§b]\n[timetable.B]", &["no such timetable"]),
    ("[timetable.B]", "[timetable.A]\n[timetable.B]", &["written twice"]),
    ("name = \"Counter\"", "name = §\"A counter with a name far longer than any\"", &["too long"]),
];

const DATES: &[Row] = &[
    ("to = 2027-12-26", "to = §2027-12-24", &["ends before it starts", "one day"]),
    ("to = 2027-12-26", "timetables = [§\"C\"]", &["Timetable C is not defined", "[timetable.C]"]),
    ("to = 2027-12-26", "timetables = [§\"E\"]", &["no such timetable"]),
    ("to = 2027-12-26", "timetables = [\"A\", §\"A\"]", &["Timetable A is named twice"]),
    ("to = 2027-12-26", "timetables = §[]", &["names no timetable"]),
    ("to = 2027-12-26", "timetables = [§1]", &["letters in quotes"]),
    (
        "[[special]]\ndate = 2027-12-24",
        "§[[special]]\ndate = 2027-12-26",
        &["2027-12-26 is both a closure and a special day of timetable A", "this closure"],
    ),
    (
        "[[holder]]\nnumber = 1\n",
        "§[[special]]\ndate = 2027-12-24\nwindows = []\n[[holder]]\nnumber = 1\n",
        &["2027-12-24 is twice a special day of timetable A", "the first"],
    ),
    // Friday's special day runs into Saturday's window.
    (
        "windows = [\"08:30-12:00\"]",
        "windows = []\n[[special]]\ndate = 2027-12-17\nwindows = [§\"20:00-09:01\"]",
        &["a special day and the day after"],
    ),
    // Sunday's window runs into the special Monday.
    (
        "timetables = [\"A\"]\nwindows = [\"08:30-12:00\"]",
        "windows = []\n[[special]]\ndate = 2027-12-20\nwindows = [§\"01:00-03:00\"]",
        &["a special day and the day before"],
    ),
    // Two special days in a row.
    (
        "windows = [\"08:30-12:00\"]",
        "windows = [\"08:30-12:00\"]\n[[special]]\ndate = 2027-11-03\nwindows = [\"22:00-04:00\"]\n\
         [[special]]\ndate = 2027-11-04\nwindows = [§\"03:30-05:00\"]",
        &["22:00-04:00 and 03:30-05:00 overlap"],
    ),
];

const ZONES: &[Row] = &[
    ("\"Europe/Dublin\"", "§\"Europe/Dubin\"", &["zone is not known", "\"Europe/Dublin\""]),
    ("\"Europe/Dublin\"", "§\"Dublin\"", &["not known", "\"Europe/Dublin\""]),
    ("\"Europe/Dublin\"", "§\"Narnia/Cair Paravel\"", &["not known"]),
    (
        "\"Europe/Dublin\"",
        "§\"Africa/Casablanca\"\n[[closure]]\nfrom = 2026-08-14",
        &["table of dates", "Casablanca", "until 2026-09", "one yearly rule"],
    ),
    ("\"Europe/Dublin\"", "§\"Asia/Gaza\"", &["table of dates", "until 2086-"]),
];

const PEOPLE: &[Row] = &[
    ("number = 50", "number = §0", &["from 1 to 99"]),
    ("number = 50", "number = §100", &["from 1 to 99"]),
    ("number = 50", "number = §12", &["number 12 is given twice", "by this holder"]),
    ("role = \"steward\"", "role = §\"stewart\"", &["no such role", "\"steward\""]),
    ("role = \"steward\"", "role = §\"king\"", &["no such role", "warden, deputy"]),
    ("role = \"steward\"", "role = \"steward\"\nopens = §true", &["A steward can never open"]),
    (
        "role = \"keyholder\"",
        "role = \"keyholder\"\nopens = §false",
        &["keyholder always may open", "suspended"],
    ),
    (
        "[[holder]]\nnumber = 12",
        "§[[holder]]\nnumber = 13\nname = \"N\"\nrole = \"keyholder\"\n[[holder]]\nnumber = 12",
        &["no timetable says when", "always"],
    ),
    ("opens = true\ntimetable = \"A\"", "opens = true", &["no timetable says when"]),
    ("timetable = \"B\"", "timetable = §\"C\"", &["Timetable C is not defined"]),
    ("timetable = \"B\"", "timetable = §\"Night\"", &["no such timetable"]),
    ("name = \"Ruth\"", "name = §\"\"", &["`name` is empty"]),
    (
        "name = \"Ruth\"",
        "name = §\"Ruth with a name that goes on and on and on\"",
        &["`name` is too long", "1 to 40"],
    ),
    ("name = \"Ruth\"", "name = §\"Ru\\u0007th\"", &["cannot be shown"]),
];

/// The codes in these rows are all different from those in the site.
const CODES: &[Row] = &[
    ("\"739204\"", "§\"135791\"", &["code of 12 is too easy to guess", "even steps"]),
    ("\"739204\"", "§\"120884\"", &["code of 12 is too easy to guess", "read as a date"]),
    ("\"739204\"", "§\"135790\"", &["code of 12", "too close to a code"]),
    ("\"739204\"", "§\"73920\"", &["code of 12 has the wrong length", "6 to 8 digits"]),
    ("\"739204\"", "§\"739204817\"", &["wrong length"]),
    ("\"739204\"", "§\"739-204\"", &["something else than digits"]),
    ("\"739204\"", "§739204", &["must be a text in quotes"]),
    ("\"12\" = \"739204\"", "§\"13\" = \"739204\"", &["Nobody has the number 13"]),
    ("\"12\" = \"739204\"", "§\"739204\" = \"12\"", &["behind a holder's number"]),
    ("\"12\" = \"739204\"", "§\"00\" = \"739204\"", &["no such number"]),
    ("\"12\" = \"739204\"", "§\"1\" = \"739204\"", &["two digits"]),
    ("\"12\" = \"739204\"", "\"12\" = §739204x", &["no TOML"]),
    ("\"12\" = \"739204\"", "§\"01\" = \"739204\"", &["written twice"]),
    (
        "number = 50",
        "code = \"739204\"\nnumber = 50",
        &["`code` is no key", "could stand here: opens, timetable"],
    ),
    ("number = 50", "\"739204\" = 1\nnumber = 50", &["unknown key"]),
];

/// Digits of every code in the site or the rows, and what is left of them when
/// only a part is shown.
const SECRETS: [&str; 12] = [
    "480317", "739204", "593716", "135790", "120884", "135791", "73920", "7392", "9204", "739-204",
    "4803", "0317",
];

/// What is wrong with how `text` is refused, if anything.
fn complaint(text: &str, caret: Option<(usize, usize)>, words: &[&str]) -> Option<String> {
    let check = ["emulator", "plan", "check", "SITE", "--from", "2027-01-01"];
    let (code, name, out, err) = run(text, &check);
    if code != 2 || !out.is_empty() {
        return Some(format!("{words:?}: exit code {code}, printed:\n{out}"));
    }
    // The report may break a sentence.
    let flat = err.split_whitespace().filter(|word| *word != "│").collect::<Vec<_>>().join(" ");
    let place = caret.map(|(line, column)| format!("[{name}:{line}:{column}]"));
    let wanted = words.iter().copied().chain(place.as_deref()).chain(["help: "]);
    let missing: Vec<&str> = wanted.filter(|word| !flat.contains(word)).collect();
    let shown: Vec<&str> = SECRETS.into_iter().filter(|secret| err.contains(secret)).collect();
    let plain = !err.contains('\u{1b}') && err.lines().all(|line| line.chars().count() <= 160);
    let fine = missing.is_empty() && shown.is_empty() && plain;
    (!fine).then(|| format!("missing {missing:?}, codes shown {shown:?}:\n{err}"))
}

fn refused(text: &str, caret: Option<(usize, usize)>, words: &[&str]) {
    assert_eq!(complaint(text, caret, words), None);
}

#[test]
fn every_mistake_in_a_site_file_is_refused_with_place_and_remedy() {
    let tables = [KEYS_AND_TYPES, POLICY, LOCKS, WINDOWS, DATES, ZONES, PEOPLE, CODES];
    let complaints: Vec<String> = tables
        .into_iter()
        .flatten()
        .filter_map(|(old, new, words)| {
            let (text, caret) = spoiled(old, new);
            complaint(&text, caret, words)
        })
        .collect();
    assert!(complaints.is_empty(), "{}", complaints.join("\n\n"));
}

/// The limits of a lock: 64 closures, 32 special days.
#[test]
fn one_closure_or_special_day_too_many_is_refused() {
    for (rows, fits) in [(63, true), (64, false)] {
        let mut text = String::from(SITE);
        for row in 0..rows {
            writeln!(text, "[[closure]]\nfrom = {}-{:02}-05", 2028 + row / 12, row % 12 + 1)
                .unwrap();
        }
        if fits {
            assert_eq!(
                run(&text, &["emulator", "plan", "check", "SITE", "--from", "2027-01-01"]).0,
                0
            );
        } else {
            let last = text.lines().count() - 1;
            refused(&text, Some((last, 1)), &["more than 64 closures"]);
        }
    }
    for (rows, fits) in [(31, true), (32, false)] {
        let mut text = String::from(SITE);
        for row in 0..rows {
            let (year, month) = (2028 + row / 12, row % 12 + 1);
            writeln!(text, "[[special]]\ndate = {year}-{month:02}-05\nwindows = [\"09:00-10:00\"]")
                .unwrap();
        }
        if fits {
            assert_eq!(
                run(&text, &["emulator", "plan", "check", "SITE", "--from", "2027-01-01"]).0,
                0
            );
        } else {
            let last = text.lines().count() - 2;
            refused(&text, Some((last, 1)), &["more than 32 special days"]);
        }
    }
}

/// What must not be refused: the edges of every rule above.
#[test]
fn what_is_just_right_is_read() {
    for (old, new) in [
        ("penalty = \"5m\"", "penalty = \"1h\"\npenalty_cap = \"60m\""),
        (
            "penalty = \"5m\"",
            "delay = \"99m\"\nclaim = \"15m\"\nrelease = \"20s\"\ndual_limit = \"300s\"",
        ),
        ("penalty = \"5m\"", "supply_low = \"4.85V\"\nsupply_spent = \"4650mV\""),
        (
            "13:30-17:00\"]",
            "12:30-17:00\", \"17:00-18:00\", \"18:00-19:00\", \"20:00-21:00\", \"21:00-24:00\"]",
        ),
        ("\"13:30-17:00\"]", "\"22:00-02:00\"]\ntue = [\"02:00-03:00\"]"),
        ("\"08:30-12:30\", \"13:30-17:00\"", "\"06:00-18:00\", \"18:00-06:00\""),
        ("\"08:30-12:30\", \"13:30-17:00\"", "\"00:00-12:00\", \"12:00-00:00\""),
        // Closures part what would overlap: Friday's window never reaches a
        // closed Saturday.
        (
            "date = 2027-12-24\ntimetables = [\"A\"]\nwindows = [\"08:30-12:00\"]",
            "date = 2027-12-24\nwindows = [\"20:00-09:01\"]",
        ),
        ("\"739204\"", "\"73920481\""),
        ("role = \"steward\"", "role = \"steward\"\nopens = false\nsuspended = true"),
        ("role = \"keyholder\"", "role = \"courier\"\nopens = true"),
        ("\"Europe/Dublin\"", "\"europe/dublin\""),
    ] {
        let (text, _) = spoiled(old, new);
        let (code, _, out, err) =
            run(&text, &["emulator", "plan", "check", "SITE", "--from", "2027-01-01"]);
        assert!(code < 2, "{new}:\n{out}{err}");
    }
}

/// Arguments that cannot be used.
#[test]
fn unusable_arguments_exit_with_two() {
    let dates = ["--from", "2027-03-01", "--to", "2027-04-01"];
    let openings = ["emulator", "plan", "openings", "SITE", "--lock"];
    for (arguments, words) in [
        (vec!["emulator", "plan"], "Usage"),
        (vec!["emulator", "plann", "check", "SITE"], "similar subcommand"),
        (vec!["emulator", "plan", "check"], "<SITE>"),
        (vec!["emulator", "plan", "check", "no-such-file.toml"], "cannot be read"),
        (vec!["emulator", "plan", "check", "SITE", "--from", "2027-02-29"], "a date such as"),
        (vec!["emulator", "plan", "check", "SITE", "--from", "2101-01-01"], "to 2100-12-31"),
        (vec!["emulator", "plan", "check", "SITE", "--format", "xml"], "text, json"),
        ([&openings[..], &["tell"], &dates].concat(), "Its locks are: till, store."),
        ([&openings[..], &["till", "--holder", "13"], &dates].concat(), "Nobody has the number 13"),
        ([&openings[..], &["till", "--holder", "100"], &dates].concat(), "1 to 99"),
        ([&openings[..], &["till", "--holder", "0"], &dates].concat(), "1 to 99"),
        ([&openings[..], &["till", "--timetable", "C"], &dates].concat(), "no timetable C"),
        ([&openings[..], &["till", "--timetable", "E"], &dates].concat(), "A, B, C and D"),
        (
            [&openings[..], &["till", "--holder", "1", "--timetable", "A"], &dates].concat(),
            "cannot be used with",
        ),
        ([&openings[..], &["till", "--from", "2027-03-01"]].concat(), "--to"),
        (
            [&openings[..], &["till", "--from", "2027-03-02", "--to", "2027-03-01"]].concat(),
            "--to lies before --from",
        ),
        (
            [&openings[..], &["till", "--from", "1980-01-01", "--to", "1980-02-01"]].concat(),
            "had other rules before 1995-",
        ),
    ] {
        let (code, _, out, err) = run(SITE, &arguments);
        assert_eq!(code, 2, "{arguments:?}\n{out}");
        assert!(err.contains(words), "{arguments:?}: `{words}` is missing in:\n{err}");
        assert_eq!(out, "");
    }
}

#[test]
fn every_command_has_help_with_an_example() {
    for arguments in [
        &["emulator", "--help"][..],
        &["emulator", "plan", "--help"],
        &["emulator", "plan", "check", "--help"],
        &["emulator", "plan", "openings", "--help"],
        &["emulator", "drill", "--help"],
    ] {
        let (code, _, out, err) = run(SITE, arguments);
        assert_eq!((code, err.as_str()), (0, ""));
        let example = |text: &str| out.contains(&format!("{text}:\n  emulator"));
        assert!(example("Example") || example("Examples"), "{out}");
    }
}
