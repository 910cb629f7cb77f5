//! The page: well-formed, on its own, and true to what its tables say.

use std::collections::BTreeSet;

use emulator::audit::finding::Limits;
use emulator::audit::ledger::{Clerk, Ledger};
use emulator::audit::names::Names;
use emulator::audit::report::page::{self, Overview};
use emulator::audit::report::{Report, Telling};
use emulator::audit::sample::fortnight;
use emulator::site::Site;
use lock_core::audit::{Entry, Event, Outcome, People, Seq};
use lock_core::holder::Number;
use lock_core::time::{Date, Seconds};
use proptest::prelude::*;
use roxmltree::{Document, ParsingOptions};

use super::records::entries;
use super::shelf::record;

const DEMO: &str = include_str!("../../../emulator/demo/harbour-bakery.toml");

fn site(text: &str) -> Site {
    Site::parse("site.toml", text).map_err(|why| why.to_string()).unwrap()
}

fn ledger(entries: &[Entry]) -> Ledger {
    let mut clerk = Clerk::default();
    entries.iter().for_each(|entry| clerk.take(entry));
    clerk.finish()
}

fn lived(site: &Site) -> Ledger {
    let mut entries = Vec::new();
    fortnight(site, "till", Date::from_ymd(2027, 3, 1).unwrap(), &mut |world| {
        entries = world.memory().unwrap().records(Seq(0)).collect();
    })
    .map_err(|_| "format")
    .unwrap();
    ledger(&entries)
}

fn page(ledger: &Ledger, site: Option<&Site>) -> String {
    page_with(ledger, site, &[])
}

fn page_with(ledger: &Ledger, site: Option<&Site>, files: &[String]) -> String {
    let names = Names::of(site);
    let mut out = Vec::new();
    let of = |lock| {
        let (anchor, title) = (format!("lock-{lock}"), names.lock(lock));
        Overview { anchor, title, openings: 1, findings: 2, broken: 1 }
    };
    let sites = site.map(std::slice::from_ref).unwrap_or_default();
    page::begin(&mut out, sites, Telling::Discreet, &[of(1001), of(1002)], files).unwrap();
    for lock in [1001, 1002] {
        let limits = Limits::default();
        let report = Report::new(lock, &[], ledger, names, limits, Telling::Discreet);
        report.write_section(&mut out).unwrap();
    }
    page::end(&mut out).unwrap();
    String::from_utf8(out).unwrap()
}

fn parse(text: &str) -> Document<'_> {
    let options = ParsingOptions { allow_dtd: true, ..ParsingOptions::default() };
    Document::parse_with_options(text, options).unwrap()
}

/// Every link leads to a place on the page, places are unique, headings go down
/// one level at a time, and nothing is fetched or run.
#[test]
fn it_is_well_formed_and_stands_on_its_own() {
    let site = site(DEMO);
    let ledger = lived(&site);
    stands_on_its_own(&page(&ledger, Some(&site)));
    let files = ["a<b>.extract is cut short.".to_owned()];
    stands_on_its_own(&page_with(&ledger, Some(&site), &files));
}

fn stands_on_its_own(text: &str) {
    let document = parse(text);
    let elements = || document.descendants().filter(|node| node.is_element());
    let places: Vec<_> = elements().filter_map(|node| node.attribute("id")).collect();
    assert_eq!(places.len(), BTreeSet::from_iter(&places).len());
    for link in elements().filter_map(|node| node.attribute("href")) {
        assert!(places.contains(&link.strip_prefix('#').unwrap()), "{link}");
    }
    let mut level = 0;
    for node in elements() {
        let name = node.tag_name().name();
        assert!(!["script", "img", "link", "iframe", "object"].contains(&name), "{name}");
        assert!(node.attributes().all(|a| !a.name().starts_with("on") && a.name() != "src"));
        let heading = name.strip_prefix('h').and_then(|n| n.parse::<u8>().ok());
        if let Some(heading) = heading {
            assert!(heading <= level + 1, "h{heading} after h{level}");
            level = heading;
        }
        if name == "svg" {
            let words = node.attribute("aria-label").or_else(|| node.attribute("aria-hidden"));
            assert!(words.is_some(), "a picture says what it is");
        }
    }
}

/// A name may hold anything that the site file lets through.
#[test]
fn names_are_shown_as_they_are_written() {
    let strange = r#"<script>alert('x')</script> & "Co""#;
    let text = DEMO.replace("name = \"Tomasz\"", &format!("name = '''{strange}'''"));
    let site = site(&text);
    let text = page(&lived(&site), Some(&site));
    assert!(!text.contains("<script"));
    let document = parse(&text);
    let shown = format!("12 {strange}");
    assert!(document.descendants().any(|node| node.is_element() && node.text() == Some(&shown)));
}

/// What is drawn is what happened: as many bars as pieces of openings, on the
/// day and at the hour of the wall clock, cut at midnight.
#[test]
fn bars_stand_where_the_openings_were() {
    // 23:00 to 01:30 on the night of 2027-01-04.
    let start = 3 * 86_400 + 23 * 3_600;
    let people = People { first: Number::new(12).unwrap(), second: None };
    let entries = [
        record(1, start - 5, Event::Released { people, outcome: Outcome::Plain }),
        record(2, start, Event::Opened),
        record(3, start + 9_000, Event::Secured { open_for: Seconds::new(9_000) }),
    ];
    let ledger = ledger(&entries);
    let text = page(&ledger, None);
    let document = parse(&text);
    let picture = document.descendants().find(|node| node.attribute("role") == Some("img"));
    let bars = picture.unwrap().children().filter(|n| n.attribute("class") == Some("opening"));
    let number = |text: Option<&str>| text.unwrap().parse::<f64>().unwrap();
    let bars: Vec<_> =
        bars.map(|bar| ["x", "y", "width"].map(|name| number(bar.attribute(name)))).collect();
    // 36 points an hour from 100 on, 18 a day.
    assert_eq!(bars.len(), 2);
    assert!((bars[0][0] - (100.0 + 23.0 * 36.0)).abs() < 0.06, "{bars:?}");
    assert!((bars[0][2] - 36.0).abs() < 0.06, "{bars:?}");
    assert!((bars[1][0] - 100.0).abs() < 0.06 && (bars[1][2] - 54.0).abs() < 0.06, "{bars:?}");
    assert!((bars[1][1] - bars[0][1] - 18.0).abs() < 0.06, "{bars:?}");
}

/// A clock that went wrong by years draws no endless picture.
#[test]
fn a_picture_has_at_most_six_weeks() {
    let entries = [
        record(1, 0, Event::Forced),
        record(2, 300 * 86_400, Event::Secured { open_for: Seconds::new(300 * 86_400) }),
    ];
    let ledger = ledger(&entries);
    let text = page(&ledger, None);
    let document = parse(&text);
    let tracks = document.descendants().filter(|node| node.attribute("class") == Some("track"));
    assert_eq!(tracks.count(), 2 * 42);
    assert!(text.contains("The last 42 of 301 days"));
}

proptest! {
    /// Whatever a lock's records say, in whatever order, is told without a
    /// panic, and all that is told is well-formed.
    #[test]
    fn any_records_make_a_page(entries in entries(), named in any::<bool>()) {
        let site = site(DEMO);
        let ledger = ledger(&entries);
        let text = page(&ledger, named.then_some(&site));
        parse(&text);
        let names = Names::of(named.then_some(&site));
        let limits = Limits::default();
        let report = Report::new(1001, &[], &ledger, names, limits, Telling::Confidential);
        report.write_text(&mut Vec::new()).unwrap();
        prop_assert_eq!(report.json()["openings"].as_array().unwrap().len(), ledger.openings.len());
    }
}
