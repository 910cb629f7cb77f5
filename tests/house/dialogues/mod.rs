//! Dialogues on a whole lock: the real device and store on the emulated board.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | the lock, and the people at it |
//! | `rights.rs` | who may begin what |
//! | `people.rs` | who may do what to whom, and with whom |
//! | `duress.rs` | R4 over whole dialogues |
//!
//! Sources of every expectation: sections 2, 11 and 12 of docs/behaviour.md, and
//! the rules as numbered in `lock-core/src/lib.rs`.

mod duress;
mod people;
mod rights;

use emulated_board::trace::{Line, What};
use emulator::world::World;
use lock_core::audit::Event;
use lock_core::code::{Code, LockKey, Salt, digest};
use lock_core::holder::{HolderRow, Number, Opens, Standing};
use lock_core::keys::{Digit, Key};
use lock_core::policy::Policy;
use lock_core::port::{Reads, Write};
use lock_core::role::Role;
use lock_core::screen::{Form, Screen};
use lock_core::settings::Settings;
use lock_core::task::{TASKS_A_PAGE, Task};
use lock_core::time::{Minute, Utc};
use lock_core::timetable::{Calendar, Follows, TimetableId, Window};

/// Monday 2027-03-01 08:45:00 UTC.
const START: u32 = 1_803_890_700;

/// Number, role, code.
type Person = (u8, Role, &'static str);

const MAEVE: Person = (1, Role::Warden, "480317");
const DECLAN: Person = (2, Role::Warden, "615928");
const INES: Person = (3, Role::Deputy, "371940");
const ODHRAN: Person = (4, Role::Deputy, "926041");
const TOMASZ: Person = (12, Role::Keyholder, "739204");
const AOIFE: Person = (13, Role::Keyholder, "918053");
const COURIER: Person = (30, Role::Courier, "6071845");
const GRAINNE: Person = (50, Role::Steward, "805231");
const SEAN: Person = (51, Role::Steward, "269483");

/// Two of each role but one courier, whom nobody but tests gives a code.
const PEOPLE: [Person; 9] = [MAEVE, DECLAN, INES, ODHRAN, TOMASZ, AOIFE, COURIER, GRAINNE, SEAN];

/// Tasks that take no dialogue.
const AT_ONCE: [Task; 1] = [Task::Status];

fn number(n: u8) -> Number {
    Number::new(n).unwrap()
}

fn row(key: &LockKey, (who, role, code): Person) -> HolderRow {
    let salt = Salt::from_bytes([who; Salt::LEN]);
    HolderRow {
        role,
        opens: Opens::Yes,
        standing: Standing::Active,
        follows: Follows::Timetable(TimetableId::A),
        digest: digest(key, &salt, number(who), &Code::parse(code).unwrap()),
        salt,
        pending: None,
        counter: 0,
    }
}

/// Everybody of [`PEOPLE`] follows A, from seven to six every day; `change` has
/// the last word.
fn settings(change: impl FnOnce(&mut Settings)) -> Settings {
    let key = LockKey::from_bytes([0x5A; LockKey::LEN]);
    let mut holders = [const { None }; Number::COUNT];
    for person in PEOPLE {
        holders[usize::from(person.0)] = Some(row(&key, person));
    }
    let mut calendar = Calendar::default();
    let at = |hour| Minute::from_hm(hour, 0).unwrap();
    calendar.weeks[0] = std::array::from_fn(|_| Window::new(at(7), at(18)).into_iter().collect());
    let zone = "UTC0".try_into().unwrap();
    let policy = Policy::DEFAULT;
    let mut settings = Settings { policy, zone, key, pairing: None, holders, calendar };
    change(&mut settings);
    settings
}

/// The keys of a text: digits, `k` for *OK*, `b` for *back*; blanks are for
/// reading.
fn keys(text: &str) -> Vec<Key> {
    let key = |c: char| match c {
        'k' => Key::Ok,
        'b' => Key::Back,
        digit => {
            let digit = digit.to_digit(10).and_then(|digit| u8::try_from(digit).ok());
            Key::Digit(digit.and_then(Digit::new).unwrap())
        }
    };
    text.chars().filter(|c| *c != ' ').map(key).collect()
}

/// From rest to the question who it is.
fn pick(task: Task) -> String {
    let place = Task::ALL.iter().position(|other| *other == task).unwrap();
    format!("{}{}", "k".repeat(place / TASKS_A_PAGE + 1), place % TASKS_A_PAGE + 1)
}

/// Number, code and *OK*.
fn entry((who, _, code): Person) -> String {
    format!("{who:02}{code}k")
}

/// The lock, and what was seen of it.
struct Lock {
    world: World,
    /// Since the last look.
    lines: Vec<Line>,
}

impl Lock {
    fn with(change: impl FnOnce(&mut Settings)) -> Self {
        let world = World::commission(&settings(change), Utc::from_secs(START));
        let mut world = world.map_err(|_| "the settings do not fit").unwrap();
        drop(world.take_trace());
        Self { world, lines: Vec::new() }
    }

    fn new() -> Self {
        Self::with(|_| ())
    }

    fn press(&mut self, text: &str) -> &mut Self {
        for key in keys(text) {
            self.world.press(key);
        }
        self.lines.extend(self.world.take_trace());
        self
    }

    /// The list, the task, and who it is.
    fn ask(&mut self, task: Task, who: Person) -> &mut Self {
        self.press(&pick(task)).press(&entry(who))
    }

    /// Records since the last look.
    fn recorded(&mut self) -> Vec<Event> {
        let record = |line: Line| match line.what {
            What::Wrote(Write::Record(record) | Write::Edit(record), _) => Some(record.event),
            _ => None,
        };
        self.lines.drain(..).filter_map(record).collect()
    }

    /// The kinds of records since the last look.
    fn kinds(&mut self) -> Vec<&'static str> {
        self.recorded().iter().map(Event::kind).collect()
    }

    fn form(&self) -> Option<Form> {
        match self.world.screen() {
            Some(Screen::Form(form)) => Some(form),
            _ => None,
        }
    }

    fn row(&mut self, (who, ..): Person) -> Option<HolderRow> {
        let memory = self.world.memory().unwrap();
        memory.holder(number(who)).map_err(|_| "unreadable").unwrap()
    }

    /// The row, as far as nobody changed their code.
    fn stands(&mut self, who: Person) -> Option<(Role, Opens, Standing, Follows)> {
        self.row(who).map(|row| (row.role, row.opens, row.standing, row.follows))
    }
}
