//! That the model does what the contract says: cases worked by hand from the
//! sentences of `docs/behaviour.md`, and what must hold in every story.
//! Source of every expectation: the contract; weekdays and dates by a paper
//! calendar (1 March 2027 is a Monday).

mod always;
mod anew;
mod boots;
mod clock;
mod couriers;
mod files;
mod last_word;
mod opening;
mod policy;
mod tasks;
mod tasks_done;
mod two_people;
mod typing;
mod way_out;
mod windows;

use jiff::civil::{DateTime, date};

use crate::reference::{
    Calendar, Durable, Flash, Follows, Holder, Input, Key, Model, Role, Seen, Setup, Window,
};
use crate::walk::{Event, Step, Walk, digits, typed};

const OPEN_ALWAYS: (u8, &str) = (1, "480317");
const WARDEN_TOO: (u8, &str) = (2, "615928");
const DEPUTY: (u8, &str) = (3, "371940");
const COUNTER: (u8, &str) = (12, "739204");
const COUNTER_TOO: (u8, &str) = (14, "520846");
const COURIER: u8 = 30;
const STEWARD: (u8, &str) = (40, "294713");
const SUSPENDED: (u8, &str) = (50, "851627");

/// A shop in UTC: A on weekdays 08:30–12:30 and 13:30–17:00, B on Sunday
/// 22:00–02:00. Two wardens, of whom the first opens; a deputy; a steward; a
/// courier in A, and the key for their codes.
fn shop() -> Setup {
    let row = |(number, code): (u8, &str), role, follows| Holder {
        number,
        role,
        code: code.to_owned(),
        follows,
        opens: number == OPEN_ALWAYS.0,
        suspended: number == SUSPENDED.0,
        waits: None,
    };
    let mut calendar = Calendar::empty("UTC0");
    for day in calendar.timetables[0].iter_mut().take(5) {
        *day = vec![Window { from: 510, to: 750 }, Window { from: 810, to: 1_020 }];
    }
    calendar.timetables[1][6] = vec![Window { from: 1_320, to: 120 }];
    let holders = [
        row(OPEN_ALWAYS, Role::Warden, Follows::Always),
        row(WARDEN_TOO, Role::Warden, Follows::Always),
        row(DEPUTY, Role::Deputy, Follows::Always),
        row(COUNTER, Role::Keyholder, Follows::Timetable(0)),
        row(COUNTER_TOO, Role::Keyholder, Follows::Timetable(0)),
        row((COURIER, ""), Role::Courier, Follows::Timetable(0)),
        row(STEWARD, Role::Steward, Follows::Timetable(1)),
        row(SUSPENDED, Role::Keyholder, Follows::Always),
    ];
    Setup {
        calendar,
        holders: holders.into_iter().map(|holder| (holder.number, holder)).collect(),
        key: Some(1),
        last_generation: 1,
        ..Setup::factory("UTC0")
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
        Self::booted(Walk::new(start_utc), Durable::new(setup.clone(), Flash::Ours))
    }

    fn booted(walk: Walk, kept: Durable) -> Self {
        let (model, seen) = walk.boot_with(kept);
        Self { walk, model, writes: Vec::new(), sounds: Vec::new(), drive: Vec::new(), seen }
    }

    fn step(&mut self, step: &Step) -> &mut Self {
        let Self { walk, model, writes, sounds, drive, seen } = self;
        walk.play(model, step, &mut |_, _: &Event, moments| {
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

    /// Digits and *OK*.
    fn field(&mut self, text: &str) -> &mut Self {
        self.digits(text).key(Key::Ok)
    }

    fn key(&mut self, key: Key) -> &mut Self {
        self.step(&Step::Keys(vec![key]))
    }

    fn ok(&mut self) -> &mut Self {
        self.key(Key::Ok)
    }

    fn wait(&mut self, seconds: u64) -> &mut Self {
        self.step(&Step::Wait(seconds))
    }

    fn contact(&mut self, input: Input) -> &mut Self {
        self.step(&Step::Contact(input))
    }

    /// A cut of the power, so many seconds long.
    fn cut(&mut self, off_s: u64) -> &mut Self {
        self.step(&Step::PowerCut { off_s, chip_lost: false })
    }

    /// From rest through the list to a task's dialogue.
    fn task(&mut self, page: usize, place: &str, person: (u8, &str)) -> &mut Self {
        self.step(&Step::Keys(vec![Key::Ok; page]));
        self.digits(place).enter(person)
    }

    /// A right code, and the bolt is drawn.
    fn open(&mut self, person: (u8, &str)) -> &mut Self {
        self.enter(person).contact(Input::Bolt(true))
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
