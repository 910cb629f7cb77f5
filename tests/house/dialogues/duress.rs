//! R4 over whole dialogues: with a plain code and with its duress variant, of
//! each of the people in it, everything in front and everything asked of the
//! flash is the same, at the same moments; stored contents differ in the outcome
//! and its check value.

use emulated_board::trace::{Line, What};
use emulator::world::{Deed, Happening, Keeping};
use lock_core::audit::{Event, Outcome, Record};
use lock_core::port::{Alarm, Bolt, Effect, Switch, Write};

use super::*;

/// What is done behind the code of the first person; `/` stands where the second
/// one types theirs. The last column says who they are and whether the bolt is
/// drawn and the switch on.
const SCRIPTS: [(Task, Person, &str, Option<Person>, Bolt); 21] = [
    (Task::HoldShut, TOMASZ, "k", None, Bolt::Thrown),
    (Task::HoldShut, MAEVE, "b", None, Bolt::Thrown),
    (Task::Status, GRAINNE, "", None, Bolt::Thrown),
    (Task::ChangeCode, TOMASZ, "528406k 528406k k", None, Bolt::Thrown),
    (Task::ChangeCode, GRAINNE, "528406k 528407k b", None, Bolt::Thrown),
    (Task::Enrol, MAEVE, "12k 61k 3 1 528406k 528406k k", None, Bolt::Thrown),
    (Task::Suspend, INES, "12k k", None, Bolt::Thrown),
    (Task::Suspend, MAEVE, "02k / k", Some(GRAINNE), Bolt::Thrown),
    (Task::Restore, MAEVE, "12k b", None, Bolt::Thrown),
    (Task::Remove, MAEVE, "02k / k", Some(SEAN), Bolt::Thrown),
    // A deputy is no privileged person: the dialogue is over.
    (Task::Remove, MAEVE, "02k / k", Some(INES), Bolt::Thrown),
    // The lock is not stuck: it says so.
    (Task::WayOut, MAEVE, "/ k", Some(GRAINNE), Bolt::Thrown),
    (Task::WayOut, GRAINNE, "/ k", Some(MAEVE), Bolt::Thrown),
    (Task::ChangeRole, MAEVE, "12k 2 1 1k", None, Bolt::Drawn),
    (Task::ChooseTimetable, MAEVE, "13k 2 k", None, Bolt::Drawn),
    (Task::Numbers, INES, "k k b", None, Bolt::Thrown),
    (Task::Files, GRAINNE, "1 b", None, Bolt::Thrown),
    (Task::SetClock, GRAINNE, "01032027k 0847k k", None, Bolt::Thrown),
    (Task::SetClock, GRAINNE, "02032027k 1000k / k", Some(MAEVE), Bolt::Thrown),
    (Task::SetPolicy, MAEVE, "k 2 10k k", None, Bolt::Drawn),
    (Task::TestAlarm, MAEVE, "k", None, Bolt::Drawn),
];

/// Who types the variant of their code.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Pressed {
    first: bool,
    second: bool,
}

fn typed((who, role, code): Person, pressed: bool) -> String {
    let (front, last) = code.split_at(code.len() - 1);
    let last: u8 = last.parse().unwrap();
    let varied = format!("{front}{}", (last + 1) % 10);
    let code = if pressed { &varied } else { code };
    let _ = role;
    format!("{who:02}{code}k")
}

/// All that a meter on everything but the alarm line tells, and the flash.
struct Observed {
    steps: Vec<String>,
    wakes: Vec<Option<u64>>,
    flash: Vec<u8>,
    alarms: usize,
}

fn observe(script: (Task, Person, &str, Option<Person>, Bolt), pressed: Pressed) -> Observed {
    let (task, who, rest, second, bolt) = script;
    let mut lock = Lock::new();
    if bolt == Bolt::Drawn {
        lock.press(&entry(TOMASZ));
        assert!(lock.world.move_bolt(bolt).is_ok());
        lock.world.switch(Switch::On);
    }
    lock.world.keep(Keeping::Steps, u32::MAX);
    let second = second.map(|person| typed(person, pressed.second)).unwrap_or_default();
    let text = format!("{}{}{}", pick(task), typed(who, pressed.first), rest.replace('/', &second));
    let mut wakes = Vec::new();
    for key in keys(&text) {
        lock.world.press(key);
        wakes.push(lock.world.next_wake());
    }
    // Past every pause, notice and alarm.
    for _ in 0..8 {
        lock.world.run_until(lock.world.now() + 30_000);
        wakes.push(lock.world.next_wake());
    }
    let mut alarms = 0;
    let journal = lock.world.take_journal();
    let steps = journal.iter().filter_map(|happening| told(happening, &mut alarms)).collect();
    let flash = lock.world.flash().map(|flash| flash.content().to_vec()).unwrap_or_default();
    Observed { steps, wakes, flash, alarms }
}

/// One happening as it shows in front: without digits, outcomes or the alarm
/// line; of the flash, what is asked of it and where.
fn told(happening: &Happening, alarms: &mut usize) -> Option<String> {
    Some(match happening {
        Happening::Step { deed: Deed::Effect(Effect::Alarm(_)), .. } => return None,
        Happening::Step { deed: Deed::Program { address, word }, .. } => {
            format!("programs {} at {address}", word.len())
        }
        Happening::Step { deed, .. } => format!("{deed:?}"),
        Happening::Line(Line { what: What::Did(Effect::Alarm(level)), .. }) => {
            *alarms += usize::from(*level == Alarm::Duress);
            return None;
        }
        Happening::Line(line) => format!("{:?} {:?}", line.uptime, levelled(line.what)),
        Happening::Edited { line, .. } => format!("{:?} edits {:?}", line.uptime, line.what),
        // Steps are counted over the alarm line's too.
        Happening::Rest { .. } => "rests".to_owned(),
        Happening::Restless(restless) => restless.to_string(),
        Happening::Boot(..) | Happening::Look(_) | Happening::Spoilt(_) => return None,
    })
}

/// The same with a plain outcome: the only field that may differ.
fn levelled(what: What) -> What {
    let What::Wrote(Write::Record(record), durable) = what else { return what };
    let mut event = record.event;
    if let Event::Status { outcome, .. }
    | Event::Refused { outcome, .. }
    | Event::Asked { outcome, .. } = &mut event
    {
        *outcome = Outcome::Plain;
    }
    What::Wrote(Write::Record(Record { event, ..record }), durable)
}

#[test]
fn a_dialogue_under_duress_shows_nothing_in_front() {
    for script in SCRIPTS {
        let plain = observe(script, Pressed { first: false, second: false });
        let test = usize::from(script.0 == Task::TestAlarm);
        assert_eq!(plain.alarms, test, "{}: nobody was pressed", script.0.name());
        let programs = plain.steps.iter().filter(|step| step.starts_with("programs"));
        assert!(programs.count() > 3, "{}: writes were watched", script.0.name());
        for pressed in [(true, false), (false, true), (true, true)] {
            let pressed = Pressed { first: pressed.0, second: pressed.1 };
            if pressed.second && script.3.is_none() {
                continue;
            }
            let duress = observe(script, pressed);
            let what = format!("{} {pressed:?}", script.0.name());
            for (at, (one, other)) in plain.steps.iter().zip(&duress.steps).enumerate() {
                assert_eq!(one, other, "{what}, step {at}");
            }
            assert_eq!(plain.steps.len(), duress.steps.len(), "{what}");
            assert_eq!(plain.wakes, duress.wakes, "{what}: wake-ups");
            assert!(duress.alarms >= 1, "{what}: no alarm went out");
            // Byte 5 of a record is its outcome, 28 to 31 its check value; those
            // of a checkpoint of the tally are 163 and 188 to 191.
            let bytes = plain.flash.iter().zip(&duress.flash);
            let apart = bytes.enumerate().filter(|(_, (one, other))| one != other);
            let apart: Vec<usize> = apart.map(|(at, _)| at % 32).collect();
            assert!(!apart.is_empty(), "{what}: the outcome is on record");
            assert!(apart.iter().all(|at| matches!(at, 3 | 5 | 28..32)), "{what}: {apart:?}");
        }
    }
}
