//! Every screen, for tests: all variants with their extreme values.

mod forms;

use std::vec::Vec;

use crate::audit::Refusal;
use crate::holder::Number;
use crate::policy::{Millivolts, Policy};
use crate::port::Fault;
use crate::rules::supply::{self, Charge, Level};
use crate::screen::{ClockSeen, Form, Late, Screen, Stamp, Typed};
use crate::task::Task;
use crate::time::{Date, Minute};

pub(crate) const LEVELS: [Level; 3] = [Level::Good, Level::Low, Level::Spent];
pub(crate) const FAULTS: [Fault; 6] =
    [Fault::Blank, Fault::Settings, Fault::Store, Fault::Drive, Fault::Bug, Fault::Layout];
const NUMBERS: [u16; 12] = [0, 1, 2, 5, 9, 10, 59, 60, 99, 100, 1_440, u16::MAX];
const CODE_DIGITS: u8 = 8;

/// Every weekday and month, short and long days, first and last minute.
pub(crate) fn stamps() -> Vec<Stamp> {
    let days = (0..366 * 2).map(|day| Date::from_days(20_000 + day));
    days.chain([Date::MIN, Date::MAX])
        .flat_map(|date| [Minute::START, Minute::END].map(|minute| Stamp { date, minute }))
        .collect()
}

/// Every charge, from nothing to full.
pub(crate) fn charges() -> [Charge; 5] {
    let of = |level, mv| supply::charge(&Policy::DEFAULT, level, Millivolts::new(mv));
    let good = [4_800, 5_100, 5_700].map(|mv| of(Level::Good, mv));
    [of(Level::Spent, 4_000), of(Level::Low, 4_500), good[0], good[1], good[2]]
}

pub(crate) fn typed() -> Vec<Typed> {
    let mut all = std::vec![Typed::Nothing];
    all.extend((0..=9).map(Typed::Tens));
    for number in (0..=99).filter_map(Number::new) {
        all.extend((0..=CODE_DIGITS).map(|code| Typed::Number(number, code)));
    }
    all
}

/// Every screen. The match in [`variants`] makes a new variant a compile
/// error here.
pub(crate) fn screens() -> Vec<Screen> {
    let samples = [
        Screen::Secured { supply: Level::Good, clock: ClockSeen::Valid },
        Screen::Entry(Typed::Nothing),
        Screen::List { page: 0 },
        Screen::Form(Form::Files),
        Screen::Who(Task::Status, Typed::Nothing),
        Screen::TooShort,
        Screen::TooLong,
        Screen::WrongCode { left: 3 },
        Screen::Refused { why: Refusal::Closed, until: None },
        Screen::Penalty { minutes: 5 },
        Screen::Released { supply: Level::Good },
        Screen::Open { late: Late::No },
        Screen::SecondPerson { first: Number::new(12).unwrap() },
        Screen::Waiting { minutes: 10 },
        Screen::Claimable { minutes: 3 },
        Screen::HeldShut { until: None },
        Screen::HoldSet { until: stamps()[0] },
        Screen::Status { supply: None, now: None, uncollected: 0 },
        Screen::WayOut { hours: 72 },
        Screen::SettingUp,
        Screen::Service(Fault::Blank),
    ];
    samples.into_iter().flat_map(variants).collect()
}

fn variants(sample: Screen) -> Vec<Screen> {
    let untils = || stamps().into_iter().map(Some).chain([None]);
    match sample {
        Screen::Secured { .. } => LEVELS
            .into_iter()
            .flat_map(|supply| {
                [ClockSeen::Valid, ClockSeen::Invalid]
                    .map(|clock| Screen::Secured { supply, clock })
            })
            .collect(),
        Screen::Entry(_) => typed().into_iter().map(Screen::Entry).collect(),
        Screen::Who(_, _) => Task::ALL
            .into_iter()
            .flat_map(|task| typed().into_iter().map(move |typed| Screen::Who(task, typed)))
            .collect(),
        Screen::WrongCode { .. } => (0..=u8::MAX).map(|left| Screen::WrongCode { left }).collect(),
        Screen::Refused { .. } => Refusal::ALL
            .into_iter()
            .flat_map(|why| untils().map(move |until| Screen::Refused { why, until }))
            .collect(),
        Screen::Released { .. } => LEVELS.map(|supply| Screen::Released { supply }).into(),
        Screen::Open { .. } => [Late::No, Late::Yes].map(|late| Screen::Open { late }).into(),
        Screen::SecondPerson { .. } => {
            (0..=99).filter_map(Number::new).map(|first| Screen::SecondPerson { first }).collect()
        }
        Screen::Penalty { .. } => NUMBERS.map(|minutes| Screen::Penalty { minutes }).into(),
        Screen::Waiting { .. } => NUMBERS.map(|minutes| Screen::Waiting { minutes }).into(),
        Screen::Claimable { .. } => NUMBERS.map(|minutes| Screen::Claimable { minutes }).into(),
        Screen::HeldShut { .. } => untils().map(|until| Screen::HeldShut { until }).collect(),
        Screen::HoldSet { .. } => {
            stamps().into_iter().map(|until| Screen::HoldSet { until }).collect()
        }
        Screen::Status { .. } => charges()
            .into_iter()
            .map(Some)
            .chain([None])
            .flat_map(|supply| {
                untils().flat_map(move |now| {
                    [0, 9, u32::MAX].map(|uncollected| Screen::Status { supply, now, uncollected })
                })
            })
            .collect(),
        Screen::Service(_) => FAULTS.map(Screen::Service).into(),
        Screen::List { .. } => (0..6).map(|page| Screen::List { page }).collect(),
        Screen::Form(_) => forms::forms().into_iter().map(Screen::Form).collect(),
        Screen::WayOut { .. } => NUMBERS.map(|hours| Screen::WayOut { hours }).into(),
        Screen::TooShort | Screen::TooLong | Screen::SettingUp => std::vec![sample],
    }
}
