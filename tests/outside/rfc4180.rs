//! Source: RFC 4180, section 2 (from memory): its grammar as a reader that
//! shares nothing with the writer, checked first on the RFC's own examples.
//! Times are read by jiff (RFC 3339).
//!
//! Every record that a lock can write comes back from an export as it was.

mod records;

use std::collections::BTreeMap;

use emulator::audit::export::{Exporter, FIELDS, Form, Span};
use emulator::audit::names::Names;
use emulator::audit::report::Telling;
use emulator::site::Site;
use lock_core::audit::{Change, Entry, Event, Gap, Outcome, People, Record, Refusal, Seq};
use lock_core::holder::Number;
use lock_core::policy::{KEYS, Millivolts};
use lock_core::role::Role;
use lock_core::rules::supply::Level;
use lock_core::task::Task;
use lock_core::time::{Seconds, Utc};
use lock_core::timetable::{Follows, TimetableId};
use proptest::prelude::*;
use serde_json::{Value, json};

use self::records::entries;

/// Reads a file by the grammar: `file = record *(CRLF record) [CRLF]`,
/// `record = field *(COMMA field)`, `field = escaped / non-escaped`,
/// `escaped = DQUOTE *(TEXTDATA / COMMA / CR / LF / 2DQUOTE) DQUOTE`. Text
/// outside US-ASCII counts as TEXTDATA, as RFC 7111 has it.
fn read(text: &str) -> Result<Vec<Vec<String>>, String> {
    let mut rest = text;
    let mut records = Vec::new();
    while !rest.is_empty() {
        let mut record = Vec::new();
        loop {
            let (field, after) = field(rest)?;
            record.push(field);
            rest = after;
            match rest.strip_prefix(',') {
                Some(after) => rest = after,
                None => break,
            }
        }
        rest = match rest.strip_prefix("\r\n") {
            Some(after) => after,
            None if rest.is_empty() => rest,
            None => return Err(format!("no CRLF before {rest:.20?}")),
        };
        records.push(record);
    }
    Ok(records)
}

fn field(text: &str) -> Result<(String, &str), String> {
    let Some(mut rest) = text.strip_prefix('"') else {
        let end = text.find([',', '\r', '\n']).unwrap_or(text.len());
        let (field, rest) = text.split_at(end);
        let textdata = |c: char| c != '"' && !c.is_ascii_control();
        return match field.chars().all(textdata) {
            true => Ok((field.to_owned(), rest)),
            false => Err(format!("{field:?} must be escaped")),
        };
    };
    let mut field = String::new();
    loop {
        let quote = rest.find('"').ok_or("an escaped field without an end")?;
        field.push_str(&rest[..quote]);
        rest = &rest[quote + 1..];
        match rest.strip_prefix('"') {
            Some(after) => {
                field.push('"');
                rest = after;
            }
            None => return Ok((field, rest)),
        }
    }
}

/// The examples of section 2, items 1, 2, 5, 6 and 7.
#[test]
fn the_reader_reads_the_examples_of_the_rfc() {
    let rows = |rows: &[[&str; 3]]| -> Vec<Vec<String>> {
        rows.iter().map(|row| row.iter().map(|&cell| cell.to_owned()).collect()).collect()
    };
    let two = rows(&[["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]);
    assert_eq!(read("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n").unwrap(), two);
    assert_eq!(read("aaa,bbb,ccc\r\nzzz,yyy,xxx").unwrap(), two);
    assert_eq!(read("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx").unwrap(), two);
    let broken = rows(&[["aaa", "b\r\nbb", "ccc"], ["zzz", "yyy", "xxx"]]);
    assert_eq!(read("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx").unwrap(), broken);
    assert_eq!(read("\"aaa\",\"b\"\"bb\",\"ccc\"").unwrap(), rows(&[["aaa", "b\"bb", "ccc"]]));
    for wrong in ["aaa,b\"bb,ccc", "aaa\nbbb", "\"aaa", "\"aaa\"b,c"] {
        assert!(read(wrong).is_err(), "{wrong:?}");
    }
}

/// Names that a careless writer would spoil.
const SITE: &str = r#"
site = "Check"
zone = "Europe/Dublin"
[[lock]]
id = "till"
number = 1001
[timetable.A]
mon = ["08:30-12:30"]
[[holder]]
number = 12
name = "O'Brien, \"Mick\"; née Ó Briain"
role = "keyholder"
timetable = "A"
[[holder]]
number = 13
name = "\"Quoted\""
role = "keyholder"
timetable = "A"
"#;

fn site() -> Site {
    Site::parse("check.toml", SITE).map_err(|why| why.to_string()).unwrap()
}

fn export(entries: &[Entry], form: Form, telling: Telling) -> String {
    let (site, mut out) = (site(), Vec::new());
    let names = Names::of(Some(&site));
    let mut exporter = Exporter::new(&mut out, form, names, telling, Span::default()).unwrap();
    entries.iter().for_each(|entry| exporter.take(1001, entry).unwrap());
    assert_eq!(exporter.finish().unwrap() as usize, entries.len());
    String::from_utf8(out).unwrap()
}

/// A row by its fields' names; what is empty is left out.
type Fields = BTreeMap<String, String>;

fn csv_rows(text: &str) -> Vec<Fields> {
    let mut records = read(text).unwrap().into_iter();
    let head = records.next().unwrap();
    assert_eq!(head[..FIELDS.len()], FIELDS);
    let row = |record: Vec<String>| {
        assert_eq!(record.len(), head.len());
        head.iter().cloned().zip(record).filter(|(_, cell)| !cell.is_empty()).collect()
    };
    records.map(row).collect()
}

fn json_rows(text: &str) -> Vec<Fields> {
    let row = |line: &str| {
        let Value::Object(object) = serde_json::from_str(line).unwrap() else { panic!("{line}") };
        let cell = |(key, value): (String, Value)| match value {
            Value::Null => None,
            Value::String(text) => Some((key, text)),
            other => Some((key, other.to_string())),
        };
        object.into_iter().filter_map(cell).collect()
    };
    text.lines().map(row).collect()
}

fn number(n: u8) -> Number {
    Number::new(n).unwrap()
}

/// The entry that a row tells of.
fn entry(row: &Fields) -> Entry {
    let seq = Seq(row["record"].parse().unwrap());
    if row["kind"] == "gap" {
        let count: u32 = row["value"].parse().unwrap();
        let lost = row["detail"].strip_suffix(" lost").unwrap().parse().unwrap();
        return Entry::Gap(Gap { from: seq, to: Seq(seq.0 + count - 1), lost });
    }
    let at = row.get("at").map(|at| instant(at));
    assert_eq!(at, row.get("local").map(|local| instant(local)), "the same instant twice");
    Entry::Record(seq, Record { at, event: event(row) })
}

fn instant(text: &str) -> Utc {
    let at: jiff::Timestamp = text.parse().unwrap();
    Utc::from_secs(at.as_second().try_into().unwrap())
}

fn event(row: &Fields) -> Event {
    let kind = row["kind"].as_str();
    let of = |key: &str| row.get(key).map(|n| number(n.parse().unwrap()));
    let (who, second) = (of("who"), of("second"));
    let people = || People { first: who.unwrap(), second };
    let outcome = || serde_json::from_value::<Outcome>(json!(row["outcome"])).unwrap();
    let value = || row["value"].parse::<u32>().unwrap();
    let detail = || row["detail"].as_str();
    let supply = |level| Event::Supply { level, measured: Millivolts::new(value() as u16) };
    match kind {
        "powered-up" => Event::PoweredUp {
            unrecorded: row.get("value").map_or(0, |value| value.parse().unwrap()),
        },
        "found-thrown" => Event::FoundThrown {
            open_for: row.get("value").map(|value| Seconds::new(value.parse().unwrap())),
        },
        "released" => Event::Released { people: people(), outcome: outcome() },
        "opened" => Event::Opened,
        "secured" => Event::Secured { open_for: Seconds::new(value()) },
        "not-drawn" => Event::NotDrawn,
        "left-open" => Event::LeftOpen,
        "forced" => Event::Forced,
        "delay-started" => Event::DelayStarted { people: people(), outcome: outcome() },
        "lapsed" => Event::Lapsed,
        "cancelled" => Event::Cancelled { why: serde_json::from_value(json!(detail())).unwrap() },
        "first-of-two" => Event::FirstOfTwo { who: who.unwrap(), outcome: outcome() },
        "wrong-code" => Event::WrongCode { who: who.unwrap() },
        "penalty" => Event::Penalty { lasts: Seconds::new(value()) },
        "held-shut" => {
            let until = instant(detail());
            Event::HeldShut { who: who.unwrap(), until }
        }
        "status" => Event::Status { who: who.unwrap(), outcome: outcome() },
        "supply-good" => supply(Level::Good),
        "supply-low" => supply(Level::Low),
        "supply-spent" => supply(Level::Spent),
        "clock-invalid" => Event::ClockInvalid,
        "fault" => Event::Fault { fault: serde_json::from_value(json!(detail())).unwrap() },
        "asked" => {
            let task = Task::ALL.into_iter().find(|task| task.name() == detail()).unwrap();
            Event::Asked { who: who.unwrap(), task, outcome: outcome() }
        }
        kind => match Refusal::ALL.into_iter().find(|why| why.kind() == kind) {
            Some(why) => Event::Refused { who: who.unwrap(), why, outcome: outcome() },
            None => Event::Changed {
                by: who.map(|first| People { first, second }),
                change: change(row, of("about")),
            },
        },
    }
}

fn change(row: &Fields, about: Option<Number>) -> Change {
    let about = || about.unwrap();
    let detail = || row["detail"].as_str();
    let value = || row["value"].parse::<u32>().unwrap();
    let role = || Role::ALL.into_iter().find(|role| role.name() == detail()).unwrap();
    match row["kind"].as_str() {
        "commissioned" => Change::Commissioned(about()),
        "enrolled" => Change::Enrolled(about(), role()),
        "code-changed" => Change::CodeChanged(about()),
        "role-changed" => Change::RoleChanged(about(), role()),
        "timetable-chosen" => {
            let id = TimetableId::ALL.into_iter().find(|id| id.letter().to_string() == detail());
            Change::TimetableChosen(about(), id.map_or(Follows::Always, Follows::Timetable))
        }
        "suspended" => Change::Suspended(about()),
        "restored" => Change::Restored(about()),
        "removed" => Change::Removed(about()),
        "clock-corrected" => Change::ClockCorrected(row["value"].parse().unwrap()),
        "clock-set" => Change::ClockSet(
            row.get("detail").map(|before| instant(before.strip_prefix("from ").unwrap())),
        ),
        "policy-set" => {
            let place = match detail().strip_prefix("value ") {
                Some(place) => place.parse().unwrap(),
                None => KEYS.iter().position(|&key| key == detail()).unwrap(),
            };
            Change::PolicySet(place.try_into().unwrap(), value())
        }
        "paired" => Change::Paired(value()),
        "file-loaded" => Change::FileLoaded(value()),
        "file-waits" => Change::FileWaits(value()),
        "audit-collected" => Change::Collected(Seq(value())),
        "alarm-tested" => Change::AlarmTested,
        "reset-begun" => Change::ResetBegun,
        "reset-cancelled" => Change::ResetCancelled,
        "reset" => Change::Reset,
        "way-out-begun" => Change::WayOutBegun,
        "way-out-ended" => Change::WayOutEnded,
        "way-out" => Change::WayOut,
        other => panic!("no such kind: {other}"),
    }
}

proptest! {
    #[test]
    fn an_export_comes_back_as_it_was(entries in entries()) {
        let rows = csv_rows(&export(&entries, Form::Csv, Telling::Confidential));
        prop_assert_eq!(rows.iter().map(entry).collect::<Vec<_>>(), entries.clone());
        let lines = json_rows(&export(&entries, Form::JsonLines, Telling::Confidential));
        prop_assert_eq!(&lines, &rows, "both tell the same");
        let names = rows.iter().filter(|row| row.get("who").is_some_and(|who| who == "12"));
        for row in names {
            prop_assert_eq!(&row["who_name"], "O'Brien, \"Mick\"; née Ó Briain");
        }
    }

    /// Without leave to tell, nothing is left that tells duress from plain: with
    /// every outcome turned round the export is the same, byte by byte.
    #[test]
    fn a_discreet_export_has_no_outcome(entries in entries()) {
        for form in [Form::Csv, Form::JsonLines] {
            let text = export(&entries, form, Telling::Discreet);
            prop_assert_eq!(&text, &export(&turned_round(&entries), form, Telling::Discreet));
            let told = export(&entries, form, Telling::Confidential);
            let turned = export(&turned_round(&entries), form, Telling::Confidential);
            let has_outcome = |entry: &Entry| {
                entry.record().is_some_and(|(_, record)| record.event.outcome().is_some())
            };
            prop_assert_eq!(told != turned, entries.iter().any(has_outcome));
        }
        let rows = csv_rows(&export(&entries, Form::Csv, Telling::Discreet));
        prop_assert_eq!(rows.len(), entries.len());
        prop_assert!(rows.iter().all(|row| !row.contains_key("outcome")));
    }
}

fn turned_round(entries: &[Entry]) -> Vec<Entry> {
    let turn = |event: Event| -> Event {
        let mut value = json!(event);
        for fields in value.as_object_mut().into_iter().flat_map(|object| object.values_mut()) {
            match fields.get("outcome").and_then(Value::as_str) {
                Some("plain") => fields["outcome"] = json!("duress"),
                Some(_) => fields["outcome"] = json!("plain"),
                None => {}
            }
        }
        serde_json::from_value(value).unwrap()
    };
    let entries = entries.iter().map(|entry| match entry {
        Entry::Record(seq, record) => {
            Entry::Record(*seq, Record { event: turn(record.event), ..*record })
        }
        Entry::Gap(gap) => Entry::Gap(*gap),
    });
    entries.collect()
}
