//! Writes `docs/screens.png`, a sheet of what the display shows, and
//! `docs/dialogues.png`, what it shows in dialogues; or prints the same screens as
//! panels with `--print`.

use std::error::Error;
use std::path::Path;

use emulator::picture::{self, Look};
use lock_core::audit::{Change, Refusal};
use lock_core::code::Guessable;
use lock_core::holder::{Number, Opens};
use lock_core::policy::{Millivolts, Policy};
use lock_core::port::Fault;
use lock_core::role::Role;
use lock_core::rules::supply::{self, Level};
use lock_core::screen::{
    ClockSeen, Field, Form, Gist, Late, Row, Screen, Shown, Stamp, Topic, Trouble, Typed, Whom,
};
use lock_core::task::Task;
use lock_core::time::{Date, Minute};
use lock_core::timetable::{Follows, TimetableId};

const SHEET: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../docs/screens.png");
const DIALOGUES: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../docs/dialogues.png");
const COLUMNS: usize = 3;
const SCALE: u8 = 2;

fn main() -> Result<(), Box<dyn Error>> {
    let missing = "a number or date of the examples does not exist";
    let screens = screens().ok_or(missing)?;
    let dialogues = dialogues().ok_or(missing)?;
    match std::env::args().nth(1).as_deref() {
        None => {
            std::fs::write(Path::new(SHEET), picture::sheet(&screens, COLUMNS, SCALE)?)?;
            std::fs::write(Path::new(DIALOGUES), picture::sheet(&dialogues, COLUMNS, SCALE)?)?;
        }
        Some("--print") => print(&[screens, dialogues].concat(), Look::Plain),
        Some("--paper") => print(&[screens, dialogues].concat(), Look::Paper),
        Some(other) => return Err(format!("{other}: only --print and --paper are known").into()),
    }
    Ok(())
}

fn print(screens: &[Screen], look: Look) {
    for screen in screens {
        println!("{}", picture::panel(screen, look));
    }
}

fn screens() -> Option<Vec<Screen>> {
    let monday = Stamp { date: Date::from_ymd(2027, 3, 1)?, minute: Minute::from_hm(8, 30)? };
    let tomasz = Number::new(12)?;
    let (supply, clock) = (Level::Good, ClockSeen::Valid);
    let refused = |why| Screen::Refused { why, until: None };
    Some(vec![
        Screen::Secured { supply, clock },
        Screen::Entry(Typed::Number(tomasz, 4)),
        Screen::Released { supply },
        Screen::Open { late: Late::No },
        Screen::Open { late: Late::Yes },
        Screen::WrongCode { left: 3 },
        Screen::Penalty { minutes: 5 },
        Screen::Refused { why: Refusal::Closed, until: Some(monday) },
        Screen::Waiting { minutes: 10 },
        Screen::Claimable { minutes: 3 },
        Screen::SecondPerson { first: tomasz },
        Screen::HeldShut { until: Some(monday) },
        Screen::List { page: 0 },
        Screen::Who(Task::HoldShut, Typed::Nothing),
        Screen::Status {
            supply: Some(supply::charge(&Policy::DEFAULT, Level::Good, Millivolts::new(5_840))),
            now: Some(monday),
            uncollected: 31,
        },
        Screen::Secured { supply: Level::Low, clock },
        Screen::Secured { supply, clock: ClockSeen::Invalid },
        Screen::Secured { supply: Level::Spent, clock },
        refused(Refusal::Suspended),
        refused(Refusal::Inhibit),
        refused(Refusal::Waiting),
        Screen::TooShort,
        Screen::TooLong,
        Screen::Service(Fault::Blank),
    ])
}

fn dialogues() -> Option<Vec<Screen>> {
    let monday = Stamp { date: Date::from_ymd(2027, 3, 1)?, minute: Minute::from_hm(8, 30)? };
    let afternoon = Stamp { minute: Minute::from_hm(13, 30)?, ..monday };
    let [maeve, ines, rory, new] = [1, 3, 14, 15].map(Number::new);
    let (maeve, ines, rory, new) = (maeve?, ines?, rory?, new?);
    let pages = (0..6).map(|page| Screen::List { page });
    let task = Topic::Task;
    let none = Shown::Digits { value: 0, count: 0 };
    let ask = |topic, field, shown, trouble| Form::Ask { topic, field, shown, trouble };
    let row = |number, role, suspended| Some(Row { number, role, suspended });
    let enrol = task(Task::Enrol);
    let follows = Follows::Timetable(TimetableId::A);
    let keyholder = Role::Keyholder;
    let forms = [
        ask(enrol, Field::Number, none, None),
        ask(enrol, Field::Number, none, Some(Trouble::Taken)),
        ask(enrol, Field::Role, none, None),
        ask(enrol, Field::Timetable, none, None),
        ask(enrol, Field::NewCode, Shown::Dots(4), None),
        ask(enrol, Field::NewCode, Shown::Dots(0), Some(Trouble::Guessable(Guessable::Date))),
        Form::Confirm {
            topic: enrol,
            gist: Gist::Row { number: new, role: keyholder, opens: Opens::No, follows },
            trouble: None,
        },
        Form::Done { change: Change::Enrolled(new, keyholder), from: Some(afternoon) },
        Form::Numbers {
            rows: [
                row(maeve, Role::Warden, false),
                row(ines, Role::Deputy, false),
                row(rory, keyholder, true),
            ],
        },
        Form::Second { topic: task(Task::Remove), whom: Whom::Steward, typed: Typed::Nothing },
        ask(task(Task::SetClock), Field::Date, Shown::Digits { value: 1_032_027, count: 8 }, None),
        Form::Confirm { topic: task(Task::SetClock), gist: Gist::Clock(monday), trouble: None },
        ask(task(Task::SetPolicy), Field::Key { page: 1 }, none, None),
        ask(task(Task::SetPolicy), Field::Value { key: 4 }, none, Some(Trouble::OutOfBounds)),
        ask(task(Task::Pair), Field::Group { index: 2 }, Shown::Dots(3), None),
        Form::Confirm {
            topic: task(Task::TestAlarm),
            gist: Gist::Plain,
            trouble: Some(Trouble::DrawBolt),
        },
        Form::Files,
        Form::Confirm {
            topic: task(Task::Files),
            gist: Gist::File { version: 37, fingerprint: 4_071_966 },
            trouble: None,
        },
    ];
    Some(pages.chain(forms.into_iter().map(Screen::Form)).collect())
}
