//! A walker who can read and knows nothing: each task of the list is carried out
//! by pressing only what the screen names.
//!
//! It presses *OK* only where the screen says OK, a digit only where the screen
//! asks for digits or lists that choice. It does not know the order of the list
//! nor that of the questions: it answers what it is asked.

use emulator::drill::words_on;
use emulator::site::Site;
use emulator::tour;
use emulator::world::World;
use lock_core::keys::{Digit, Key};
use lock_core::port::{Bolt, Switch};
use lock_core::task::Task;
use lock_core::words::ENGLISH;

/// What the walker wants, who it is, what it answers, and what it must read at
/// the end.
struct Errand {
    task: Task,
    who: &'static str,
    /// A part of a question, and what is typed at it.
    answers: &'static [(&'static str, &'static str)],
    done: &'static str,
}

const MAEVE: &str = "01 480317";
const STEWARD: &str = "50 805231";

const ERRANDS: &[Errand] = &[
    Errand { task: Task::Status, who: STEWARD, answers: &[], done: "Battery" },
    Errand {
        task: Task::ChangeCode,
        who: "12 739204",
        answers: &[("new code", "528406 ok"), ("same again", "528406 ok")],
        done: "Your new code counts",
    },
    Errand {
        task: Task::Enrol,
        who: MAEVE,
        answers: &[
            ("Choose a number", "33 ok"),
            ("keyholder", "3"),
            ("9 always", "1"),
            ("new code", "528406 ok"),
            ("same again", "528406 ok"),
        ],
        done: "33 is enrolled",
    },
    Errand {
        task: Task::Suspend,
        who: "03 371940",
        answers: &[("Whose number", "13 ok")],
        done: "13 is suspended",
    },
    Errand {
        task: Task::Restore,
        who: MAEVE,
        answers: &[("Whose number", "14 ok")],
        done: "14 is restored",
    },
    Errand {
        task: Task::Remove,
        who: MAEVE,
        answers: &[("Whose number", "02 ok"), ("Now a warden or steward", "50 805231 ok")],
        done: "02 is removed",
    },
    Errand {
        task: Task::ChangeRole,
        who: MAEVE,
        answers: &[
            ("Whose number", "13 ok"),
            ("2 deputy", "2"),
            ("1 may open", "1"),
            ("9 always", "9"),
        ],
        done: "13 has that role",
    },
    Errand {
        task: Task::ChooseTimetable,
        who: MAEVE,
        answers: &[("Whose number", "13 ok"), ("9 always", "2")],
        done: "13 has that timetable",
    },
    Errand { task: Task::Numbers, who: MAEVE, answers: &[], done: "50 steward" },
    Errand { task: Task::Files, who: STEWARD, answers: &[], done: "load a file, or collect" },
    Errand {
        task: Task::SetClock,
        who: STEWARD,
        answers: &[
            ("Day, month, year", "02032027 ok"),
            ("Hour, minute", "1030 ok"),
            ("Now a warden", "02 615928 ok"),
        ],
        done: "The clock is set",
    },
    Errand {
        task: Task::SetPolicy,
        who: MAEVE,
        answers: &[("time delay", "2"), ("0 to 99 min", "15 ok")],
        done: "The value is set",
    },
    Errand { task: Task::TestAlarm, who: MAEVE, answers: &[], done: "The alarm is up" },
    Errand { task: Task::Reset, who: MAEVE, answers: &[], done: "Not in use yet" },
];

fn world() -> World {
    let site = Site::parse("harbour-bakery.toml", tour::SITE).map_err(|why| why.to_string());
    let site = site.unwrap();
    let lock = site.lock("till").unwrap();
    let start = lock_core::time::Utc::from_secs(1_803_890_700);
    let settings = site.settings(lock, [7; 32]);
    let mut world = World::commission(&settings, start).map_err(|_| "no lock").unwrap();
    // At an open safe with the switch on every task can be carried out.
    world.force_bolt();
    world.switch(Switch::On);
    world.run_until(world.now() + 120_000);
    assert_eq!(world.bolt(), Bolt::Drawn);
    world
}

fn press(world: &mut World, keys: &str, read: &str) {
    for word in keys.split_whitespace() {
        if word == "ok" {
            assert!(read.contains("OK"), "the screen does not name OK: {read}");
            world.press(Key::Ok);
            continue;
        }
        for digit in word.chars() {
            let digit = Digit::new(digit.to_digit(10).unwrap().try_into().unwrap()).unwrap();
            world.press(Key::Digit(digit));
        }
    }
}

/// A digit without *OK* is a choice: the screen must list it.
fn may_press(keys: &str, read: &str) -> bool {
    let typed = ["digits", "Two digits", "Type", "number and code", "again", "6 digits"];
    if keys.ends_with("ok") {
        typed.iter().any(|asks| read.contains(asks))
    } else {
        read.contains(&format!(" {keys} "))
    }
}

fn walk(errand: &Errand) {
    let mut world = world();
    let place = Task::ALL.iter().position(|task| *task == errand.task).unwrap();
    let name = ENGLISH.forms.tasks[place];
    let mut answers = errand.answers.iter();
    let mut next = answers.next();
    let mut said_who = false;
    press(&mut world, "ok", "OK at rest leads to the list");
    for _ in 0..40 {
        let read = words_on(&world);
        if said_who && read.contains(errand.done) {
            return;
        }
        let chosen = (1..=3).find(|n| read.contains(&format!(" {n} {name}")));
        match (chosen, next) {
            (Some(digit), _) if read.starts_with("Press a number") => {
                press(&mut world, &digit.to_string(), &read);
            }
            _ if read.contains("Who are you") => {
                said_who = true;
                press(&mut world, &format!("{} ok", errand.who), &read);
            }
            (_, Some((question, keys))) if read.contains(question) => {
                assert!(may_press(keys, &read), "{keys} is not asked for: {read}");
                press(&mut world, keys, &read);
                next = answers.next();
            }
            _ if read.contains("OK: more") || read.contains("OK: yes") => {
                press(&mut world, "ok", &read);
            }
            _ => panic!("{:?}: the screen names no way on: {read}", errand.task),
        }
    }
    panic!("{:?}: never done; the screen says {}", errand.task, words_on(&world));
}

#[test]
fn each_task_is_done_by_reading_the_screen() {
    for errand in ERRANDS {
        walk(errand);
    }
}

/// Hold-shut has drills of its own and needs a thrown bolt to be of use; the way out
/// needs a lock that nobody can open, pairing a pairing code.
#[test]
fn no_task_is_forgotten() {
    let elsewhere = [Task::HoldShut, Task::WayOut, Task::Pair];
    for task in Task::ALL {
        let walked = ERRANDS.iter().any(|errand| errand.task == task);
        assert!(walked != elsewhere.contains(&task), "{task:?}");
    }
}
