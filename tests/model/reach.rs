//! What random stories reach, by the reference alone: of each thing that a lock
//! can live through the share of stories that get there. A share below 5 %
//! proves nothing about that thing, so the test fails.
//!
//! `STORIES` and `FIRST_STORY` say which stories are told (`seeds.rs`).

use std::collections::{BTreeMap, BTreeSet};

use crate::reference::{Flash, Model, Role, Seen};
use crate::seeds;
use crate::walk::Walk;

/// Stories told where nothing is said.
const STORIES: u32 = 200;
const LEAST_PERCENT: usize = 5;

/// Everything that must be reached.
const WANTED: [&str; 65] = [
    "waiting",
    "claimable",
    "claimed",
    "first of two",
    "opened by two",
    "second person in a dialogue",
    "penalty",
    "barred",
    "a barred warden let in",
    "duress opening",
    "not drawn",
    "left open",
    "forced",
    "cancelled: changed",
    "cancelled: clock",
    "cancelled: inhibit",
    "refused first-refused",
    "hold-shut done",
    "status done",
    "change-code done",
    "enrol done",
    "suspend done",
    "restore done",
    "remove done",
    "change-role done",
    "choose-timetable done",
    "numbers shown",
    "files done",
    "set-clock done",
    "set-policy done",
    "test-alarm done",
    "pair done",
    "reset done",
    "reset without a code",
    "reset without a code ended",
    "first warden",
    "first warden on erased flash",
    "held shut",
    "row waits",
    "stricter policy waits",
    "brought forward",
    "file waits",
    "file that waited adopted",
    "courier opening",
    "courier claim",
    "clock set forward",
    "clock set back",
    "clock corrected",
    "settling",
    "settled",
    "clock invalid",
    "service",
    "stuck: refused",
    "stuck: asked once more",
    "being set up ended",
    "way out begun",
    "way out ended",
    "way out over",
    "way out alone",
    "way out ended by nobody",
    "duress in the list",
    "duress of a second person",
    "duress of a courier",
    "duress in a penalty",
    "enrolled in a closed lock",
];

/// What one story has reached so far.
#[derive(Default)]
struct Reached {
    things: BTreeSet<&'static str>,
    erased: bool,
    barred_wardens: BTreeSet<u8>,
    /// The state of access at the moment before.
    access: &'static str,
}

impl Reached {
    fn see(&mut self, model: &Model, seen: &Seen) {
        let before = std::mem::replace(&mut self.access, seen.access);
        self.see_state(model, seen);
        for record in &seen.records {
            let by_courier =
                record.numbers.iter().any(|number| model.setup().counters.contains_key(number));
            let duress = record.outcome == Some("duress");
            let claim = before == "claimable";
            if duress {
                self.reach_if(by_courier, "duress of a courier");
                self.reach_if(record.kind == "refused-penalty", "duress in a penalty");
                if record.kind == "asked" {
                    let second = model.desk.form().is_some_and(|form| form.second.is_some());
                    self.reach(if second {
                        "duress of a second person"
                    } else {
                        "duress in the list"
                    });
                }
            }
            let nobody = record.numbers.is_empty();
            self.reach_if(record.kind == "way-out-ended" && nobody, "way out ended by nobody");
            let closed = record.kind == "enrolled" && !model.is_opened();
            self.reach_if(closed, "enrolled in a closed lock");
            match record.kind.as_str() {
                "released" => {
                    self.reach_if(claim, "claimed");
                    self.reach_if(record.numbers.len() == 2, "opened by two");
                    self.reach_if(duress, "duress opening");
                    self.reach_if(by_courier, "courier opening");
                    self.reach_if(by_courier && claim, "courier claim");
                }
                "clock-set" | "clock-corrected" => {
                    self.see_setting(seen, record.value, &record.kind)
                }
                "cancelled" => match record.why {
                    "changed" => self.reach("cancelled: changed"),
                    "clock" => self.reach("cancelled: clock"),
                    "inhibit" => self.reach("cancelled: inhibit"),
                    _ => (),
                },
                "file-loaded" if record.numbers.is_empty() => {
                    self.reach("file that waited adopted");
                }
                "file-loaded" => self.reach("files done"),
                "file-waits" => {
                    self.reach("files done");
                    self.reach("file waits");
                }
                "reset" if record.numbers.is_empty() => self.reach("reset without a code"),
                "asked" if model.desk.form().is_some_and(|form| form.second.is_some()) => {
                    self.reach("second person in a dialogue");
                }
                "commissioned" if self.erased => {
                    self.reach("first warden on erased flash");
                    self.reach("first warden");
                }
                kind => self.things.extend(by_kind(kind)),
            }
        }
        for tally in &seen.tallies {
            match tally.split(' ').next().expect("a word") {
                "settled" => self.reach("settled"),
                "set-up" => self.reach("being set up ended"),
                "brought" => self.reach("brought forward"),
                _ => (),
            }
        }
    }

    fn see_setting(&mut self, seen: &Seen, value: Option<i64>, kind: &str) {
        self.reach("set-clock done");
        let Some(target) = seen.clock_set.first() else { return };
        let before = match (kind, value) {
            ("clock-corrected", Some(by)) => Some(target - by),
            (_, before) => before,
        };
        if let Some(before) = before {
            self.reach_if(*target > before, "clock set forward");
            self.reach_if(*target < before, "clock set back");
        }
        self.reach_if(kind == "clock-corrected", "clock corrected");
    }

    fn see_state(&mut self, model: &Model, seen: &Seen) {
        self.reach_if(seen.access == "waiting", "waiting");
        self.reach_if(seen.access == "claimable", "claimable");
        self.reach_if(seen.screen.starts_with("penalty"), "penalty");
        self.reach_if(seen.screen.starts_with("form numbers shows"), "numbers shown");
        self.reach_if(seen.screen.ends_with("refused=stuck"), "stuck: refused");
        self.reach_if(seen.screen.ends_with("once more"), "stuck: asked once more");
        self.reach_if(model.held().is_some(), "held shut");
        self.reach_if(model.fault.is_some(), "service");
        let setup = model.setup();
        let row_waits = setup.holders.values().any(|row| model.row_waits(row).is_err());
        self.reach_if(row_waits, "row waits");
        self.reach_if(setup.stricter.is_some(), "stricter policy waits");
        let alone = model.kept.way_out.as_ref().is_some_and(|(_, alone)| *alone);
        self.reach_if(alone, "way out alone");
        self.reach_if(model.kept.settling, "settling");
        for holder in setup.holders.values() {
            let number = holder.number;
            if holder.role == Role::Warden && model.total(number) == 100 {
                self.barred_wardens.insert(number);
            } else if self.barred_wardens.remove(&number)
                && seen.tallies.contains(&format!("cleared {number:02}"))
                && seen.tallies.contains(&format!("counted {number:02}"))
            {
                self.reach("a barred warden let in");
            }
        }
    }

    fn reach(&mut self, thing: &'static str) {
        self.things.insert(thing);
    }

    fn reach_if(&mut self, there: bool, thing: &'static str) {
        if there {
            self.reach(thing);
        }
    }
}

fn by_kind(kind: &str) -> Option<&'static str> {
    Some(match kind {
        "first-of-two" => "first of two",
        "refused-barred" => "barred",
        "refused-first-refused" => "refused first-refused",
        "not-drawn" => "not drawn",
        "left-open" => "left open",
        "forced" => "forced",
        "held-shut" => "hold-shut done",
        "status" => "status done",
        "code-changed" => "change-code done",
        "enrolled" => "enrol done",
        "suspended" => "suspend done",
        "restored" => "restore done",
        "removed" => "remove done",
        "role-changed" => "change-role done",
        "timetable-chosen" => "choose-timetable done",
        "policy-set" => "set-policy done",
        "alarm-tested" => "test-alarm done",
        "paired" => "pair done",
        "reset" => "reset done",
        "reset-cancelled" => "reset without a code ended",
        "commissioned" => "first warden",
        "clock-invalid" => "clock invalid",
        "way-out-begun" => "way out begun",
        "way-out-ended" => "way out ended",
        "way-out" => "way out over",
        _ => return None,
    })
}

#[test]
fn stories_reach_everything_often_enough() {
    let names = seeds::names_or(STORIES);
    let mut counts: BTreeMap<&str, usize> = BTreeMap::new();
    for name in &names {
        let story = name.story();
        let mut walk = Walk::new(story.start_utc);
        let (mut model, seen) = walk.boot(&story.setup, story.flash);
        let mut reached = Reached { erased: story.flash == Flash::Erased, ..Reached::default() };
        reached.see(&model, &seen);
        for step in &story.steps {
            walk.play(&mut model, step, &mut |model, _, moments| {
                for (_, seen) in moments {
                    reached.see(model, seen);
                }
            });
        }
        for thing in reached.things {
            *counts.entry(thing).or_default() += 1;
        }
    }
    let all = names.len();
    println!("| what | stories of {all} | share |\n| --- | --- | --- |");
    let mut rare = Vec::new();
    for thing in WANTED {
        let count = counts.get(thing).copied().unwrap_or_default();
        println!("| {thing} | {count} | {} % |", count * 100 / all.max(1));
        if count * 100 < LEAST_PERCENT * all {
            rare.push(format!("{thing}: {count} of {all}"));
        }
    }
    assert!(rare.is_empty(), "reached too seldom: {rare:#?}");
}
