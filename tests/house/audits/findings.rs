//! A fortnight of the demo site, lived through by emulated locks: what stands
//! out in their audits, record by record, and who may be told of duress.

use emulator::audit::export::{Exporter, Form, Span};
use emulator::audit::finding::Limits;
use emulator::audit::ledger::{Clerk, Ledger};
use emulator::audit::names::Names;
use emulator::audit::opening::{Began, Mark};
use emulator::audit::report::{Report, Telling, page};
use emulator::audit::sample::fortnight;
use emulator::site::Site;
use lock_core::audit::{Change, Entry, Event, Gap, Outcome, People, Record, Seq};
use lock_core::holder::Number;
use lock_core::policy::Millivolts;
use lock_core::port::Fault;
use lock_core::rules::supply::Level;
use lock_core::time::{Date, Seconds, Utc};

use super::shelf::record;

const DEMO: &str = include_str!("../../../emulator/demo/harbour-bakery.toml");

fn site() -> Site {
    Site::parse("harbour-bakery.toml", DEMO).map_err(|why| why.to_string()).unwrap()
}

/// What lock `id` has on record after the fortnight from 2027-03-01.
fn lived(site: &Site, id: &str) -> Vec<Entry> {
    let mut entries = Vec::new();
    fortnight(site, id, Date::from_ymd(2027, 3, 1).unwrap(), &mut |world| {
        entries = world.memory().unwrap().records(Seq(0)).collect();
    })
    .map_err(|_| "format")
    .unwrap();
    entries
}

fn ledger(entries: &[Entry]) -> Ledger {
    let mut clerk = Clerk::default();
    entries.iter().for_each(|entry| clerk.take(entry));
    clerk.finish()
}

fn report<'a>(ledger: &'a Ledger, site: Option<&'a Site>, telling: Telling) -> Report<'a> {
    Report::new(1001, &[], ledger, Names::of(site), Limits::default(), telling)
}

fn kinds(entries: &[Entry], site: Option<&Site>) -> Vec<(&'static str, u32)> {
    let ledger = ledger(entries);
    let report = report(&ledger, site, Telling::Discreet);
    report.findings.iter().map(|finding| (finding.kind, finding.mark.seq.0)).collect()
}

/// The record of the `nth` event of that kind.
fn of_kind(entries: &[Entry], kind: &str, nth: usize) -> u32 {
    let records = entries.iter().filter_map(Entry::record);
    let mut seqs = records.filter(|(_, record)| record.event.kind() == kind);
    seqs.nth(nth).unwrap_or_else(|| panic!("no {kind} {nth}")).0.0
}

#[test]
fn a_fortnight_at_the_till_shows_what_was_done_there() {
    let site = site();
    let entries = lived(&site, "till");
    let find = |kind, nth| of_kind(&entries, kind, nth);
    let expected = [
        ("power-in-penalty", find("powered-up", 1)),
        ("left-open", find("left-open", 0)),
        // Maeve's ninety minutes on a Sunday.
        ("long-open", find("forced", 0).min(find("powered-up", 2))),
        ("penalties", find("penalty", 3)),
        ("many-wrong-codes", find("wrong-code", 17)),
        ("supply-low", find("supply-low", 0)),
        ("supply-spent", find("supply-spent", 0)),
        ("forced", find("forced", 0)),
        ("clock-invalid", find("clock-invalid", 0)),
    ];
    let seen = kinds(&entries, Some(&site));
    let names = |list: &[(&'static str, u32)]| list.iter().map(|row| row.0).collect::<Vec<_>>();
    assert_eq!(names(&seen), names(&expected));
    for (seen, expected) in seen.iter().zip(&expected).filter(|(seen, _)| seen.0 != "long-open") {
        assert_eq!(seen, expected);
    }
    // The long opening is Maeve's: record and length, from the openings.
    let ledger = ledger(&entries);
    let long = ledger.openings.iter().find(|o| o.open_for() == Some(Seconds::new(5_400)));
    let long = long.unwrap();
    assert_eq!(long.people.unwrap().first.get(), 1);
    assert_eq!(long.first().unwrap().seq.0, seen[2].1);
}

/// Delay, claim, lapse and the battery pulled while it ran; two people.
#[test]
fn store_and_vault_tell_of_waits_and_pairs() {
    let site = site();
    let store = ledger(&lived(&site, "store"));
    assert_eq!(store.openings.len(), 7);
    assert!(store.openings.iter().all(|opening| opening.waited.is_some()));
    let vault = ledger(&lived(&site, "vault"));
    assert_eq!(vault.openings.len(), 5);
    let pairs = vault.openings.iter().filter_map(|opening| opening.people?.second);
    assert_eq!(pairs.count(), 5);
    let report = report(&store, Some(&site), Telling::Discreet);
    let kinds: Vec<_> = report.findings.iter().map(|finding| finding.kind).collect();
    assert_eq!(kinds, ["power-while-waiting"]);
}

/// The same records without a trace of duress.
fn disarmed(entries: &[Entry]) -> Vec<Entry> {
    let plain = |event: Event| -> Event {
        let mut value = serde_json::to_value(event).unwrap();
        for fields in value.as_object_mut().into_iter().flat_map(|object| object.values_mut()) {
            if fields.get("outcome").is_some() {
                fields["outcome"] = "plain".into();
            }
        }
        serde_json::from_value(value).unwrap()
    };
    let entries = entries.iter().map(|entry| match entry {
        Entry::Record(seq, record) => {
            Entry::Record(*seq, Record { event: plain(record.event), ..*record })
        }
        Entry::Gap(gap) => Entry::Gap(*gap),
    });
    entries.collect()
}

/// Everything that can be written about some records.
fn written(entries: &[Entry], site: &Site, telling: Telling) -> [String; 5] {
    let ledger = ledger(entries);
    let report = report(&ledger, Some(site), telling);
    let (mut text, mut html) = (Vec::new(), Vec::new());
    report.write_text(&mut text).unwrap();
    page::begin(&mut html, std::slice::from_ref(site), telling, &[], &[]).unwrap();
    report.write_section(&mut html).unwrap();
    page::end(&mut html).unwrap();
    let [csv, json] = [Form::Csv, Form::JsonLines].map(|form| {
        let mut out = Vec::new();
        let names = Names::of(Some(site));
        let mut exporter = Exporter::new(&mut out, form, names, telling, Span::default()).unwrap();
        entries.iter().for_each(|entry| exporter.take(1001, entry).unwrap());
        exporter.finish().unwrap();
        out
    });
    let string = |bytes| String::from_utf8(bytes).unwrap();
    [string(text), string(html), string(csv), string(json), report.json().to_string()]
}

/// R4 goes on at the laptop: whoever looks over the reader's shoulder sees the
/// same, byte by byte, whether somebody was threatened or not.
#[test]
fn nothing_tells_of_duress_unless_it_is_asked_for() {
    let site = site();
    for lock in ["till", "store"] {
        let entries = lived(&site, lock);
        let plain = disarmed(&entries);
        assert_ne!(entries, plain, "somebody was under duress at the {lock}");
        assert_eq!(
            written(&entries, &site, Telling::Discreet),
            written(&plain, &site, Telling::Discreet)
        );
        let told = written(&entries, &site, Telling::Confidential);
        let untold = written(&plain, &site, Telling::Confidential);
        for (told, untold) in told.iter().zip(&untold) {
            assert_ne!(told, untold);
            assert!(told.to_lowercase().contains("duress"), "{told}");
        }
    }
}

/// No code of the demo site reaches anything that is written (R5).
#[test]
fn no_code_is_written() {
    let site = site();
    let entries = lived(&site, "till");
    for text in written(&entries, &site, Telling::Confidential) {
        for demo in &site.demo_codes {
            assert!(!text.contains(demo.digits()));
        }
    }
}

fn number(n: u8) -> Number {
    Number::new(n).unwrap()
}

fn released(seq: u32, second: u32, who: u8) -> Entry {
    let people = People { first: number(who), second: None };
    record(seq, second, Event::Released { people, outcome: Outcome::Plain })
}

/// 2027-01-04 is a Monday of winter time; seconds from 2027-01-01 00:00.
const MONDAY: u32 = 3 * 86_400;

/// Who opened against the site file: outside the window, by one second; never
/// enrolled; a steward; somebody suspended.
#[test]
fn releases_are_held_against_the_site_file() {
    let site = site();
    let cases = [
        (12, MONDAY + 8 * 3_600 + 1_799, Some("outside-window")),
        (12, MONDAY + 8 * 3_600 + 1_800, None),
        (12, MONDAY + 12 * 3_600 + 1_799, None),
        (12, MONDAY + 12 * 3_600 + 1_800, Some("outside-window")),
        (21, MONDAY + 22 * 3_600, None),
        // Runs into the next day.
        (21, MONDAY + 27 * 3_600 + 3_599, None),
        (21, MONDAY + 28 * 3_600, Some("outside-window")),
        (1, MONDAY + 3 * 3_600, None),
        (77, MONDAY + 9 * 3_600, Some("not-in-site")),
        (50, MONDAY + 9 * 3_600, Some("may-not-open")),
        (14, MONDAY + 9 * 3_600, Some("may-not-open")),
    ];
    for (who, second, expected) in cases {
        let entries = [released(1, second, who)];
        let kinds: Vec<_> =
            kinds(&entries, Some(&site)).into_iter().map(|(kind, _)| kind).collect();
        assert_eq!(kinds, Vec::from_iter(expected), "{who} at {second}");
        assert_eq!(self::kinds(&entries, None), [], "nothing to hold it against");
    }
}

/// Each thing that the device says of itself, alone.
#[test]
fn what_the_device_says_is_called_out() {
    let supply =
        |seq, level, mv| record(seq, seq, Event::Supply { level, measured: Millivolts::new(mv) });
    let changed = |change| record(1, 1, Event::Changed { by: None, change });
    type Case = (Vec<Entry>, &'static [(&'static str, u32)]);
    let cases: Vec<Case> = vec![
        (vec![record(1, 1, Event::Fault { fault: Fault::Drive })], &[("fault", 1)]),
        (vec![record(1, 1, Event::ClockInvalid)], &[("clock-invalid", 1)]),
        (
            vec![record(1, 50, Event::Opened), record(2, 40, Event::Opened)],
            &[
                ("release-missing", 1),
                ("release-missing", 2),
                ("still-open", 2),
                ("clock-set-back", 2),
            ],
        ),
        // What an extract begins with in the middle is no riddle.
        (vec![record(7, 50, Event::Opened)], &[("still-open", 7)]),
        (vec![Entry::Gap(Gap { from: Seq(1), to: Seq(2), lost: 1 })], &[("lost-records", 1)]),
        (vec![Entry::Gap(Gap { from: Seq(1), to: Seq(2), lost: 0 })], &[]),
        (vec![supply(1, Level::Good, 6_300)], &[]),
        (vec![supply(1, Level::Low, 4_700)], &[("supply-low", 1)]),
        (vec![supply(1, Level::Spent, 4_100)], &[("supply-spent", 1)]),
        (vec![changed(Change::ResetBegun)], &[("reset", 1)]),
        (vec![changed(Change::Reset)], &[("reset", 1)]),
        (vec![changed(Change::AlarmTested)], &[]),
        (vec![record(1, 1, Event::PoweredUp)], &[]),
    ];
    for (entries, expected) in cases {
        assert_eq!(kinds(&entries, None), expected, "{entries:?}");
    }
}

/// Ten wrong codes on one number within a day are many; nine are not, nor ten
/// over two days. Two penalties within a day.
#[test]
fn many_wrong_codes_on_one_number_are_called_out() {
    let wrong = |seq, second| record(seq, second, Event::WrongCode { who: number(12) });
    let every = |count: u32, apart| (1..=count).map(|n| wrong(n, n * apart)).collect::<Vec<_>>();
    assert_eq!(kinds(&every(9, 60), None), []);
    assert_eq!(kinds(&every(10, 60), None), [("many-wrong-codes", 10)]);
    assert_eq!(kinds(&every(10, 10_000), None), []);
    let penalty = |seq, second| record(seq, second, Event::Penalty { lasts: Seconds::new(300) });
    assert_eq!(kinds(&[penalty(1, 0), penalty(2, 86_399)], None), [("penalties", 2)]);
    assert_eq!(kinds(&[penalty(1, 0), penalty(2, 86_400)], None), []);
    let boot = |second| record(2, second, Event::PoweredUp);
    assert_eq!(kinds(&[penalty(1, 0), boot(299)], None), [("power-in-penalty", 2)]);
    assert_eq!(kinds(&[penalty(1, 0), boot(300)], None), []);
}

/// The first record of an opening, whatever is left of it, is one that exists.
#[test]
fn openings_point_at_records_that_exist() {
    let site = site();
    let entries = lived(&site, "till");
    let known = |mark: Mark| entries.iter().any(|entry| entry.last() == mark.seq);
    let ledger = ledger(&entries);
    assert!(ledger.openings.iter().all(|opening| opening.first().is_some_and(known)));
    let forced = ledger.openings.iter().filter(|o| matches!(o.began, Began::Forced(_)));
    assert_eq!(forced.count(), 1);
    let times = ledger.times.unwrap();
    assert!(times.0 < times.1 && times.1 < Utc::from_secs(1_806_000_000));
}
