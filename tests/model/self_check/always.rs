//! What must hold in every story, whatever is typed. Sources: R1, R2, R3, R6 and
//! R9 as the contract quotes them, and its section 1.

use proptest::strategy::Strategy;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};

use jiff::ToSpan;

use super::*;
use crate::generator::{Story, stories};
use crate::reference::{Hours, Record, Zone};
use crate::seeds;

/// Stories told in each test where nothing is said.
const STORIES: u32 = 150;

/// Records of changes of the settings, each of which stands for one write.
const CHANGES: [&str; 13] = [
    "commissioned",
    "enrolled",
    "code-changed",
    "role-changed",
    "timetable-chosen",
    "suspended",
    "restored",
    "removed",
    "policy-set",
    "paired",
    "file-loaded",
    "file-waits",
    "reset",
];

/// Whether a timetable is open at an instant, from the sentence alone: "if its
/// local wall time lies in a window of the date on which that window started",
/// and no closure has the wall time's date.
fn is_open_by_the_wall(calendar: &Calendar, timetable: usize, utc: i64) -> bool {
    let wall = Zone::new(&calendar.zone).local(utc);
    if calendar.is_closure(timetable, wall.date()) {
        return false;
    }
    let minute = i32::from(wall.hour()) * 60 + i32::from(wall.minute());
    let minute = u32::try_from(minute).expect("of a day");
    let today = calendar.windows_starting_on(timetable, wall.date());
    let yesterday = calendar.windows_starting_on(timetable, wall.date() - 1.day());
    let overnight = |window: &&Window| window.to < window.from;
    today.iter().any(|it| it.from <= minute && (minute < it.to || it.to < it.from))
        || yesterday.iter().filter(overnight).any(|it| minute < it.to)
}

/// A sweep of every minute of nine days, by the wall, finds what the model works
/// out in stretches.
#[test]
fn a_sweep_of_every_minute_finds_the_same_windows() {
    let config = Config { failure_persistence: None, ..Config::default() };
    let mut runner =
        TestRunner::new_with_rng(config, TestRng::deterministic_rng(RngAlgorithm::ChaCha));
    let mut openings = 0;
    for _ in 0..16 {
        let tree = stories().new_tree(&mut runner).expect("a story");
        let story = proptest::strategy::ValueTree::current(&tree);
        let calendar = &story.setup.calendar;
        let hours = Hours::of(calendar);
        let start = story.start_utc / 60 * 60;
        for timetable in 0..5 {
            let (mut since, mut was) = (start, is_open_by_the_wall(calendar, timetable, start));
            for minute in 1..9 * 1_440 {
                let utc = start + minute * 60;
                let is = is_open_by_the_wall(calendar, timetable, utc);
                if is == was {
                    continue;
                }
                assert_eq!(hours.next_change(timetable, since), Some(utc));
                let opens = Some(if is { utc } else { since });
                assert_eq!(hours.next_open(timetable, since), opens);
                if is {
                    assert_eq!(hours.next_start(timetable, since), Some(utc));
                    openings += 1;
                } else {
                    assert_eq!(hours.open_until(timetable, since), Some(utc));
                }
                (since, was) = (utc, is);
            }
        }
    }
    assert!(openings > 100, "{openings}");
}

#[test]
fn no_story_breaks_a_rule() {
    let mut judged = Judge::default();
    for name in seeds::names_or(STORIES) {
        println!("story {name}: {}", seeds::repeat(name, "no_story_breaks_a_rule"));
        judged.live_through(&name.story());
    }
    println!(
        "{} releases, {} changes, {} duress records",
        judged.releases, judged.changes, judged.duress
    );
    assert!(judged.releases > 100 && judged.changes > 1_000 && judged.duress > 100);
}

#[derive(Default)]
struct Judge {
    releases: u32,
    changes: u32,
    duress: u32,
    steady: Option<i64>,
    before: Option<Setup>,
}

impl Judge {
    fn live_through(&mut self, story: &Story) {
        let mut walk = Walk::new(story.start_utc);
        let (mut model, _) = walk.boot(&story.setup, story.flash);
        (self.before, self.steady) = (Some(model.setup().clone()), None);
        for step in &story.steps {
            walk.play(&mut model, step, &mut |model, event, moments| {
                if matches!(event, Event::Reboot(..)) {
                    self.steady = None;
                }
                for (_, seen) in moments {
                    self.look(seen);
                }
                self.look_at(model, moments);
            });
        }
    }

    /// What each moment shows on its own.
    fn look(&mut self, seen: &Seen) {
        let told = |kind: &str| seen.records.iter().find(|record| record.kind == kind);
        let frees = seen.drive.iter().filter(|order| **order == "free").count();
        // A store that fails behind the record leaves the lock as it was.
        let serves = seen.screen.starts_with("call service");
        let released = usize::from(told("released").is_some());
        assert!(frees == released || serves && frees < released, "R1 {seen:?}");
        assert!(!seen.screen.is_empty() && !seen.alarm.is_empty());
        assert!(told("opened").is_none() || told("forced").is_none());
        for record in &seen.records {
            self.releases += u32::from(record.kind == "released");
            if record.outcome == Some("duress") {
                self.duress += 1;
                assert_eq!(seen.alarm, "duress", "R4 {seen:?}");
            }
            look_at_count(seen, record);
        }
    }

    /// What the lock is after an event.
    fn look_at(&mut self, model: &Model, moments: &[(u64, Seen)]) {
        // Steady time is that of a step, and without one nothing is asked of it.
        if !moments.is_empty() {
            let steady = model.steady();
            assert!(steady >= self.steady, "it fell: {:?} {steady:?}", self.steady);
            self.steady = steady;
        }
        self.look_at_changes(model, moments);
        if model.fault.is_some() {
            return;
        }
        let (kept, written) = (&model.kept, &model.written);
        assert_eq!(kept.settings, written.settings);
        assert_eq!(kept.totals, written.totals);
        assert_eq!(kept.records.len(), written.records.len());
        assert!(kept.lock_count() < model.setup().policy.wrong_codes.max(10));
        if let Some(file) = &model.setup().file
            && model.has_come(file.until)
        {
            assert!(model.stands_at_a_last_page(), "a file is past due");
        }
        for (_, seen) in moments {
            for record in seen.records.iter().filter(|record| record.kind == "released") {
                look_at_release(model, record);
            }
        }
        let opened =
            moments.iter().any(|(_, seen)| seen.tallies.iter().any(|it| it.starts_with("brought")));
        if opened && !model.stands_at_a_last_page() && model.setup().file.is_some() {
            panic!("an opened lock, and a file that goes on waiting");
        }
    }

    /// R6: no change of the settings without its record, one for each.
    fn look_at_changes(&mut self, model: &Model, moments: &[(u64, Seen)]) {
        let records: Vec<&Record> = moments.iter().flat_map(|(_, seen)| &seen.records).collect();
        let changes = records.iter().filter(|record| CHANGES.contains(&&*record.kind)).count();
        let brought = moments
            .iter()
            .any(|(_, seen)| seen.tallies.iter().any(|tally| tally.starts_with("brought")));
        let mut now = model.setup().clone();
        let before = self.before.replace(now.clone()).expect("known");
        // The codes that were used up are part of a release, and what waits is
        // part of `brought`.
        for (number, next) in &before.counters {
            let reset = records.iter().any(|record| record.kind == "reset");
            assert!(reset || now.counters.get(number) >= Some(next), "a used code comes back");
        }
        now.counters.clone_from(&before.counters);
        if brought {
            for (number, row) in &mut now.holders {
                row.waits = before.holders.get(number).and_then(|row| row.waits);
            }
            now.stricter.clone_from(&before.stricter);
        }
        if now != before {
            assert!(changes > 0, "changed without a record: {records:?}");
        }
        self.changes += u32::try_from(changes).expect("few");
        for (_, seen) in moments {
            let each = seen.records.iter().filter(|record| CHANGES.contains(&&*record.kind));
            // A dialogue's change, and the file that had to wait for it.
            assert!(each.count() <= 2, "{:?}", seen.writes);
        }
    }
}

/// R2: what a record tells of a code was counted first.
fn look_at_count(seen: &Seen, record: &Record) {
    let of_a_code = record.outcome.is_some() || record.kind == "wrong-code";
    if !of_a_code || record.kind == "refused-penalty" {
        return;
    }
    let number = *record.numbers.last().expect("whose code");
    let counted = format!("tally counted {number:02}");
    let place = |text: &str| seen.writes.iter().position(|write| write == text);
    let told = seen.writes.iter().position(|write| *write == format!("record {record}"));
    assert!(place(&counted) < told && place(&counted).is_some(), "R2 {:?}", seen.writes);
}

/// R3: nobody who is suspended, alone under dual control, or closed out.
fn look_at_release(model: &Model, released: &Record) {
    let setup = model.setup();
    assert!(!model.sensors.inhibit && model.held().is_none());
    assert!(!model.in_force().dual_control || released.numbers.len() == 2);
    for number in &released.numbers {
        let holder = setup.holder(*number).expect("enrolled");
        assert!(!holder.suspended && holder.may_open());
        assert!(holder.waits.is_none_or(|waits| model.has_come(waits.until)), "R3");
        if let Follows::Timetable(timetable) = holder.follows {
            let utc = released.utc.expect("a valid clock");
            assert!(!model.kept.settling);
            let waiting = setup.file.as_ref().map(|file| &file.calendar);
            for calendar in [Some(&setup.calendar), waiting].into_iter().flatten() {
                assert!(is_open_by_the_wall(calendar, timetable, utc), "R3");
            }
        }
    }
}
