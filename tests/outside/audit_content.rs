//! Source: Common Criteria part 2, FAU_GEN.1.2 (each record: time, type,
//! subject, outcome) and FAU_STG.4 (a full trail may overwrite the oldest).
//! *Common practice:* a record of who opened, for how long, and when it was
//! closed.
//!
//! FAU_STG.4's rule is read as: what is lost is the oldest and nothing else.
//! Flash is erased in pages, so the oldest go a page at a time, not one by one.

use emulator::audit::export::{Exporter, Form, Span};
use emulator::audit::names::Names;
use emulator::audit::report::Telling;
use emulator::audit::sample::fortnight;
use emulator::site::Site;

use crate::lock_of_a_site::{MAEVE, TOMASZ, audit, enter, lock, wait};
use lock_core::audit::{Entry, Event, Outcome, People, Refusal, Ring, Seq};
use lock_core::holder::Number;
use lock_core::port::Bolt;
use lock_core::store::{OPENINGS_KEPT, REFUSALS_KEPT};
use lock_core::time::{Date, Seconds, Utc};

const TABLE: &str = "mon = [\"08:00-09:00\"]";
/// Monday 2027-03-01 08:00 UTC.
const OPENS: u32 = 1_803_888_000;

fn number(n: u8) -> Number {
    Number::new(n).unwrap()
}

/// Who opened, when, with what outcome, for how long, and when it was closed.
#[test]
fn an_opening_is_told_from_release_to_closing() {
    let mut world = lock("", TABLE, OPENS);
    wait(&mut world, 60);
    enter(&mut world, TOMASZ);
    wait(&mut world, 2);
    world.move_bolt(Bolt::Drawn).unwrap();
    wait(&mut world, 240);
    world.move_bolt(Bolt::Thrown).unwrap();
    let records = audit(&mut world);
    let at = |after: u32| Some(Utc::from_secs(OPENS + after));
    let people = People { first: number(12), second: None };
    let expected = [
        (at(0), Event::PoweredUp { unrecorded: 0 }),
        (at(60), Event::Released { people, outcome: Outcome::Plain }),
        (at(62), Event::Opened),
        (at(302), Event::Secured { open_for: Seconds::new(240) }),
    ];
    let seen: Vec<_> = records.iter().map(|(_, r)| (r.at, r.event)).collect();
    assert_eq!(seen, expected);
}

/// A refusal has time, type, subject and outcome as well; so has a wrong code,
/// whose outcome its type is, also on a number that nobody holds.
#[test]
fn a_refusal_and_a_wrong_code_are_told_as_fully() {
    let mut world = lock("", TABLE, OPENS - 3_600);
    enter(&mut world, TOMASZ);
    enter(&mut world, "12739205");
    enter(&mut world, "77123987");
    let seen: Vec<_> = audit(&mut world).iter().skip(1).map(|(_, r)| (r.at, r.event)).collect();
    let at = Some(Utc::from_secs(OPENS - 3_600));
    let refused = |outcome| Event::Refused { who: number(12), why: Refusal::Closed, outcome };
    assert_eq!(
        seen,
        [
            (at, refused(Outcome::Plain)),
            (at, refused(Outcome::Duress)),
            (at, Event::WrongCode { who: number(77) }),
        ]
    );
}

/// Records are numbered without a gap, and as the trail fills it is the oldest
/// of a ring that go, in order; the promised number of newest ones stays.
/// Somebody who is refused a thousand times floods no opening out.
#[test]
fn a_full_trail_loses_its_oldest_records_and_no_others() {
    let mut world = lock("", TABLE, OPENS - 3_600);
    let mut last = None;
    for _ in 0..300 {
        enter(&mut world, MAEVE);
        world.move_bolt(Bolt::Drawn).unwrap();
        wait(&mut world, 1);
        world.move_bolt(Bolt::Thrown).unwrap();
        // Refusals in between, more than their ring keeps.
        for _ in 0..4 {
            enter(&mut world, TOMASZ);
        }
        let records = audit(&mut world);
        for ring in [Ring::Openings, Ring::Refusals] {
            let kept: Vec<Seq> =
                records.iter().filter(|(_, r)| r.event.ring() == ring).map(|(s, _)| *s).collect();
            assert!(kept.is_sorted());
        }
        let newest = records.last().map(|(seq, _)| *seq).unwrap();
        assert!(last.is_none_or(|last| newest > last), "numbers rise");
        last = Some(newest);
    }
    let records = audit(&mut world);
    let of = |ring| records.iter().filter(move |(_, r)| r.event.ring() == ring);
    let openings = u32::try_from(of(Ring::Openings).count()).unwrap();
    let refusals: Vec<u32> = of(Ring::Refusals).map(|(s, _)| s.0).collect();
    // 1 + 300 × 3 openings fit their ring, so none is lost to 1,200 refusals.
    assert_eq!(openings, 901);
    assert!(openings <= OPENINGS_KEPT);
    let kept = u32::try_from(refusals.len()).unwrap();
    assert!((REFUSALS_KEPT..1_200).contains(&kept), "{kept} refusals are kept");
    // What is kept of the refusals is the newest, without a hole: every number
    // from the oldest kept one on is listed, in one ring or the other.
    let oldest = refusals[0];
    let listed = records.iter().filter(|(s, _)| s.0 >= oldest).count();
    let newest = records.last().unwrap().0.0;
    assert_eq!(listed, usize::try_from(newest - oldest + 1).unwrap());
}

/// What is read on the laptop is no less: a fortnight of a site, exported, has
/// time, type, subject and outcome of every record; a time is missing only
/// where the clock was invalid.
#[test]
fn an_export_tells_as_much_as_the_lock() {
    let text = include_str!("../../emulator/demo/harbour-bakery.toml");
    let site = Site::parse("demo", text).map_err(|why| why.to_string()).unwrap();
    let mut entries: Vec<Entry> = Vec::new();
    fortnight(&site, "till", Date::from_ymd(2027, 3, 1).unwrap(), &mut |world| {
        entries = world.memory().unwrap().records(Seq(0)).collect();
    })
    .map_err(|_| "format")
    .unwrap();
    let mut out = Vec::new();
    let (names, telling) = (Names::of(Some(&site)), Telling::Confidential);
    let span = Span::default();
    let mut exporter = Exporter::new(&mut out, Form::JsonLines, names, telling, span).unwrap();
    entries.iter().for_each(|entry| exporter.take(1001, entry).unwrap());
    exporter.finish().unwrap();
    let rows = String::from_utf8(out).unwrap();
    let rows: Vec<serde_json::Value> =
        rows.lines().map(|line| serde_json::from_str(line).unwrap()).collect();
    assert_eq!(rows.len(), entries.len());
    for ((seq, record), row) in entries.iter().filter_map(Entry::record).zip(&rows) {
        assert_eq!(row["record"], seq.0);
        assert_eq!(row["at"].is_string(), record.at.is_some());
        assert_eq!(row["kind"], record.event.kind());
        assert_eq!(row["outcome"].is_string(), record.event.outcome().is_some());
        let subject = match record.event {
            Event::Released { people, .. } | Event::DelayStarted { people, .. } => {
                Some(people.first)
            }
            Event::WrongCode { who }
            | Event::Refused { who, .. }
            | Event::FirstOfTwo { who, .. } => Some(who),
            _ => None,
        };
        assert_eq!(row["who"].as_u64(), subject.map(|who| u64::from(who.get())));
    }
}
