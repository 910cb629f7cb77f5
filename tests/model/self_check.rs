//! That the model does what the contract says: cases worked by hand from the
//! sentences of `docs/behaviour.md`, and what must hold in every story.
//! Source of every expectation: the contract; weekdays and dates by a paper
//! calendar (1 March 2027 is a Monday).

mod always;
mod boots;
mod opening;
mod tasks;
mod typing;
mod windows;

use jiff::civil::{DateTime, date};

use crate::reference::{Durable, Follows, Holder, Input, Key, Model, Policy, Role, Seen, Setup};
use crate::reference::{Week, Window};
use crate::walk::{Event, Step, Walk, digits, typed};

const OPEN_ALWAYS: (u8, &str) = (1, "480317");
const COUNTER: (u8, &str) = (12, "739204");
const COUNTER_TOO: (u8, &str) = (14, "520846");
const COURIER: (u8, &str) = (30, "618352");
const STEWARD: (u8, &str) = (40, "294713");
const SUSPENDED: (u8, &str) = (50, "851627");

/// A shop in UTC: A on weekdays 08:30–12:30 and 13:30–17:00, B on Sunday
/// 22:00–02:00.
fn shop() -> Setup {
    let row = |(number, code): (u8, &str), role, follows| Holder {
        number,
        role,
        code: code.to_owned(),
        follows,
        opens: true,
        suspended: number == SUSPENDED.0,
    };
    let mut timetables: [Week; 4] = Default::default();
    for day in timetables[0].iter_mut().take(5) {
        *day = vec![Window { from: 510, to: 750 }, Window { from: 810, to: 1_020 }];
    }
    timetables[1][6] = vec![Window { from: 1_320, to: 120 }];
    Setup {
        policy: Policy::default(),
        zone: "UTC0".to_owned(),
        holders: vec![
            row(OPEN_ALWAYS, Role::Warden, Follows::Always),
            row(COUNTER, Role::Keyholder, Follows::Timetable(0)),
            row(COUNTER_TOO, Role::Keyholder, Follows::Timetable(0)),
            row(COURIER, Role::Courier, Follows::Always),
            row(STEWARD, Role::Steward, Follows::Timetable(1)),
            row(SUSPENDED, Role::Keyholder, Follows::Always),
        ],
        timetables,
        closures: Vec::new(),
        specials: Vec::new(),
    }
}

fn shop_with(change: impl FnOnce(&mut Setup)) -> Setup {
    let mut setup = shop();
    change(&mut setup);
    setup
}

fn utc(wall: DateTime) -> i64 {
    jiff::tz::Offset::UTC.to_timestamp(wall).expect("in range").as_second()
}

/// Monday at that time.
fn monday(hour: i8, minute: i8) -> i64 {
    utc(date(2027, 3, 1).at(hour, minute, 0, 0))
}

/// A model on a table, with a list of what it wrote since somebody looked.
struct Bench {
    walk: Walk,
    model: Model,
    writes: Vec<String>,
    sounds: Vec<&'static str>,
    drive: Vec<&'static str>,
    seen: Seen,
}

impl Bench {
    /// A lock just set up, on Monday at that time, with its boot looked at.
    fn new(setup: &Setup, start_utc: i64) -> Self {
        Self::booted(Walk::new(setup, start_utc), None)
    }

    fn booted(walk: Walk, kept: Option<Durable>) -> Self {
        let (model, seen) = walk.boot(kept);
        Self { walk, model, writes: Vec::new(), sounds: Vec::new(), drive: Vec::new(), seen }
    }

    fn step(&mut self, step: &Step) -> &mut Self {
        let Self { walk, model, writes, sounds, drive, seen } = self;
        walk.play(model, step, &mut |_: &Event, moments| {
            for (_, each) in moments {
                writes.extend(each.writes.iter().cloned());
                sounds.extend(&each.sounds);
                drive.extend(&each.drive);
                seen.clone_from(each);
            }
        });
        self
    }

    fn enter(&mut self, (number, code): (u8, &str)) -> &mut Self {
        self.step(&Step::Keys(typed(number, code)))
    }

    fn digits(&mut self, text: &str) -> &mut Self {
        self.step(&Step::Keys(digits(text)))
    }

    fn key(&mut self, key: Key) -> &mut Self {
        self.step(&Step::Keys(vec![key]))
    }

    fn wait(&mut self, seconds: u64) -> &mut Self {
        self.step(&Step::Wait(seconds))
    }

    fn contact(&mut self, input: Input) -> &mut Self {
        self.step(&Step::Contact(input))
    }

    /// Writes, sounds and drive since the last look.
    fn look(&mut self) -> (Vec<String>, Vec<&'static str>, Vec<&'static str>) {
        let taken = (&mut self.writes, &mut self.sounds, &mut self.drive);
        (std::mem::take(taken.0), std::mem::take(taken.1), std::mem::take(taken.2))
    }

    fn look_at_writes(&mut self) -> Vec<String> {
        self.look().0
    }

    fn shows(&self) -> &str {
        &self.seen.screen
    }
}
