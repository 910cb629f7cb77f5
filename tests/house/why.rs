//! What a lock says about an opening is what the door does: at every step of every
//! drill and lesson the decision about every holder with a demo code is asked, and where it
//! is a new one the code is typed: the record must be the one that was foretold. Source
//! of the order of refusals: `docs/behaviour.md`, section 3.

use std::collections::BTreeSet;
use std::path::PathBuf;

use emulator::drill::{Act, Drill, Fresh, Play};
use lock_core::audit::Entry;
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};

const DEMO: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../emulator/demo");

fn keys(number: Number, code: &str) -> Vec<Key> {
    let two = [number.get() / 10, number.get() % 10];
    let digits = two.into_iter().chain(code.bytes().map(|byte| byte - b'0'));
    let digits = digits.filter_map(Digit::new).map(Key::Digit);
    // Whatever somebody was in the middle of is left first.
    [Key::Back, Key::Back].into_iter().chain(digits).chain([Key::Ok]).collect()
}

/// The kinds of the records of what is done.
fn kinds(play: &mut Play<'_>, act: &Act) -> Vec<&'static str> {
    let newest = |play: &mut Play<'_>| {
        let memory = play.world_mut().memory().unwrap();
        memory.newest().map_or(0, |(seq, _)| seq.0)
    };
    let before = newest(play);
    play.perform(act);
    let memory = play.world_mut().memory().unwrap();
    let entries: Vec<Entry> = memory.records(lock_core::audit::Seq(before + 1)).collect();
    let records = entries.into_iter().filter_map(|entry| match entry {
        Entry::Record(_, record) => Some(record.event.kind()),
        Entry::Gap(_) => None,
    });
    records.collect()
}

/// The steps of a drill after which what is decided about a person, or what the lock is doing, is
/// another one than at all steps before: each of them is tried from the start.
fn worth_trying<'c>(
    drill: &Drill,
    codes: &'c [(Number, String)],
) -> Vec<(usize, &'c (Number, String))> {
    let mut play = Play::start(drill).unwrap();
    let (mut met, mut worth) = (BTreeSet::new(), Vec::new());
    for at in 0..=drill.steps.len() {
        for code in codes {
            let world = play.world_mut();
            let access = world.access();
            let foretold = world.decide(code.0).and_then(|decided| decided.decision.record());
            if met.insert((code.0.get(), access, foretold)) {
                worth.push((at, code));
            }
        }
        play.step();
    }
    worth
}

#[test]
fn what_is_decided_is_what_the_door_does() {
    let folders = ["drills", "lessons", "seams"].map(|name| PathBuf::from(DEMO).join(name));
    let files = emulator::drill::files(&folders).unwrap();
    let mut seen = std::collections::BTreeMap::<&str, u32>::new();
    for file in files {
        let drill = Drill::load(&file).unwrap();
        // Codes may have been changed at the keypad, and a cut may be due.
        if drill.fresh != Fresh::No || file.to_string_lossy().contains("keypad-") {
            continue;
        }
        let codes: Vec<(Number, String)> =
            drill.site.demo_codes.iter().map(|c| (c.number(), c.digits().to_owned())).collect();
        for (at, (number, code)) in worth_trying(&drill, &codes) {
            let mut play = Play::start(&drill).unwrap();
            for _ in 0..at {
                play.step();
            }
            let world = play.world_mut();
            if world.cut_is_due() || !world.has_power() {
                continue;
            }
            // A dialogue would take the keys; a key of an entry would be lost.
            play.perform(&Act::Keys(vec![Key::Back, Key::Back, Key::Back], 0));
            let decided = play.world_mut().decide(*number);
            let Some(what) = decided.and_then(|decided| decided.decision.record()) else {
                continue;
            };
            let kinds = kinds(&mut play, &Act::Keys(keys(*number, code), 0));
            let place = format!("{}: after step {at}: {:02}", file.display(), number.get());
            assert!(kinds.contains(&what), "{place}: {what} foretold, {kinds:?} came");
            *seen.entry(what).or_default() += 1;
        }
    }
    // It was tried on much of what there is.
    for kind in [
        "released",
        "delay-started",
        "first-of-two",
        "refused-closed",
        "refused-penalty",
        "refused-right",
        "refused-suspended",
        "refused-held-shut",
        "refused-inhibit",
        "refused-supply",
        "refused-clock",
        "refused-late",
        "refused-waiting",
        "refused-other-person",
        "refused-same-person",
        "refused-already-open",
    ] {
        assert!(seen.contains_key(kind), "{kind} was never foretold: {seen:?}");
    }
}
