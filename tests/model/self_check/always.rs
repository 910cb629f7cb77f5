//! What must hold in every story, whatever is typed. Sources: R1, R3 and R9 as
//! the contract quotes them.

use std::cell::RefCell;
use std::collections::BTreeSet;

use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

use crate::generator::{Story, stories};
use crate::reference::{Follows, Hours, Record, Seen, Setup, Zone};
use crate::walk::{Event, Walk};

/// Every story of the generator can be told, breaks none of the rules below,
/// and between them the stories reach every kind of record.
#[test]
fn in_every_story_nothing_opens_unrecorded_or_closed() {
    let kinds = RefCell::new(BTreeSet::new());
    runner(150)
        .run(&stories(), |story| {
            let records = live_through(&story);
            kinds.borrow_mut().extend(records.into_iter().map(|record| record.kind));
            Ok(())
        })
        .expect("the rules hold");
    let kinds = kinds.into_inner();
    for kind in [
        "powered-up",
        "released",
        "opened",
        "not-drawn",
        "secured",
        "forced",
        "left-open",
        "wrong-code",
        "penalty",
        "refused-penalty",
        "refused-already-open",
        "refused-suspended",
        "refused-barred",
        "refused-right",
        "refused-inhibit",
        "refused-held-shut",
        "refused-supply",
        "refused-clock",
        "refused-closed",
        "refused-late",
        "refused-waiting",
        "refused-other-person",
        "refused-same-person",
        "refused-hold",
        "first-of-two",
        "lapsed",
        "delay-started",
        "cancelled",
        "held-shut",
        "status",
        "supply-good",
        "supply-low",
        "supply-spent",
        "clock-invalid",
    ] {
        assert!(kinds.contains(kind), "no story reaches {kind}");
    }
}

/// The edges that the model looks at leave no opening or closing out: a sweep of
/// every minute of nine days finds the same.
#[test]
fn a_sweep_of_every_minute_finds_the_same_edges() {
    runner(12)
        .run(&stories(), |story| {
            let zone = Zone::new(&story.setup.zone);
            let hours = Hours { setup: &story.setup, zone: &zone };
            let start = story.start_utc / 60 * 60;
            for timetable in 0..4 {
                let (mut next, mut was) = (start, hours.is_open(timetable, start));
                for minute in 1..9 * 1_440 {
                    let utc = start + minute * 60;
                    let is = hours.is_open(timetable, utc);
                    if is != was {
                        let found = hours.next_change(timetable, next);
                        assert_eq!(found, Some(utc));
                        assert_eq!(
                            hours.next_open(timetable, next),
                            Some(if is { utc } else { next })
                        );
                        if was {
                            assert_eq!(hours.open_until(timetable, next), Some(utc));
                        }
                        (next, was) = (utc, is);
                    }
                }
            }
            Ok(())
        })
        .expect("the sweep agrees");
}

fn runner(cases: u32) -> TestRunner {
    let config = Config { cases, failure_persistence: None, ..Config::default() };
    TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha))
}

fn live_through(story: &Story) -> Vec<Record> {
    let mut walk = Walk::new(&story.setup, story.start_utc);
    let (mut model, booted) = walk.boot(None);
    let zone = Zone::new(&story.setup.zone);
    let judge = Judge { setup: &story.setup, zone: &zone };
    let mut records = booted.records;
    for step in &story.steps {
        walk.play(&mut model, step, &mut |event: &Event, moments| {
            for (at_ms, seen) in moments {
                judge.look(event, *at_ms, seen);
                records.extend(seen.records.iter().cloned());
            }
        });
        assert!(model.power_cut().lock_count() < story.setup.policy.wrong_codes);
    }
    records
}

struct Judge<'a> {
    setup: &'a Setup,
    zone: &'a Zone,
}

impl Judge<'_> {
    fn look(&self, event: &Event, at_ms: u64, seen: &Seen) {
        let told = |kind: &str| seen.records.iter().find(|record| record.kind == kind);
        let frees = seen.drive.iter().filter(|order| **order == "free").count();
        assert_eq!(frees, usize::from(told("released").is_some()), "R1 {event:?} {seen:?}");
        assert!(!seen.screen.is_empty() && !seen.alarm.is_empty());
        assert!(told("opened").is_none() || told("forced").is_none());
        if let Event::Input(now, _) = event {
            assert_eq!(now.uptime_ms, at_ms);
        }
        if let Some(released) = told("released") {
            self.look_at_release(released);
        }
    }

    /// R3: nobody who is suspended, alone under dual control, or closed out.
    fn look_at_release(&self, released: &Record) {
        let pair = usize::from(self.setup.policy.dual_control) + 1;
        assert_eq!(released.numbers.len(), pair);
        for number in &released.numbers {
            let holder = self.setup.holder(*number).expect("enrolled");
            assert!(!holder.suspended);
            if let Follows::Timetable(timetable) = holder.follows {
                let utc = released.utc.expect("a valid clock");
                let hours = Hours { setup: self.setup, zone: self.zone };
                assert!(hours.is_open(timetable, utc), "R3");
            }
        }
    }
}
