//! Writes `docs/screens.png`, a sheet of what the display shows, or prints the
//! same screens as panels with `--print`.

use std::error::Error;
use std::path::Path;

use emulator::picture::{self, Look};
use lock_core::audit::Refusal;
use lock_core::holder::Number;
use lock_core::policy::Millivolts;
use lock_core::port::Fault;
use lock_core::rules::supply::Level;
use lock_core::screen::{ClockSeen, Late, Screen, Stamp, Typed};
use lock_core::task::Task;
use lock_core::time::{Date, Minute};

const SHEET: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/../docs/screens.png");
const COLUMNS: usize = 3;
const SCALE: u8 = 2;

fn main() -> Result<(), Box<dyn Error>> {
    let screens = screens().ok_or("a number or date of the examples does not exist")?;
    match std::env::args().nth(1).as_deref() {
        None => std::fs::write(Path::new(SHEET), picture::sheet(&screens, COLUMNS, SCALE)?)?,
        Some("--print") => print(&screens, Look::Plain),
        Some("--paper") => print(&screens, Look::Paper),
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
            supply: Some(Millivolts::new(5_840)),
            now: Some(monday),
            openings: Some(2_460),
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
