//! Every form that the machine can make, with its extreme values.

use std::vec::Vec;

use super::stamps;
use crate::audit::{Change, Seq};
use crate::code::Guessable;
use crate::holder::{Number, Opens};
use crate::policy::KEYS;
use crate::role::Role;
use crate::screen::{Field, Form, Gist, Row, Shown, Topic, Trouble, Typed, Whom};
use crate::task::Task;
use crate::timetable::{Follows, TimetableId};

const GUESSABLE: [Guessable; 9] = [
    Guessable::FewDigits,
    Guessable::EvenSteps,
    Guessable::Repeated,
    Guessable::Doubled,
    Guessable::Mirrored,
    Guessable::Strokes,
    Guessable::Date,
    Guessable::Popular,
    Guessable::Run,
];

fn topics() -> Vec<Topic> {
    let tasks = Task::ALL.into_iter().map(Topic::Task);
    tasks.chain([Topic::FirstWarden, Topic::SlowReset]).collect()
}

fn troubles(field: Field) -> Vec<Option<Trouble>> {
    let some: Vec<Trouble> = match field {
        Field::Number => std::vec![
            Trouble::Taken,
            Trouble::Free,
            Trouble::NotYours,
            Trouble::NeverOpens,
            Trouble::Yourself,
            Trouble::Already,
            Trouble::Courier,
            Trouble::NoChoice,
        ],
        Field::Role => {
            std::vec![Trouble::NotYours, Trouble::Courier, Trouble::NotPaired, Trouble::NoChoice,]
        }
        Field::Timetable => std::vec![Trouble::NoWindow, Trouble::NoChoice],
        Field::Opens | Field::Which | Field::Key { .. } => std::vec![Trouble::NoChoice],
        Field::NewCode => {
            let easy = GUESSABLE.into_iter().map(Trouble::Guessable);
            let rest = [
                Trouble::CodeLength(8),
                Trouble::VariantGuessable,
                Trouble::Unchanged,
                Trouble::Differ,
            ];
            easy.chain(rest).collect()
        }
        Field::Again => std::vec![],
        Field::Date => std::vec![Trouble::NoDate],
        Field::Time => std::vec![Trouble::NoTime, Trouble::NotInItsLife],
        Field::Value { .. } => {
            std::vec![Trouble::Already, Trouble::OutOfBounds, Trouble::AgainstAnother]
        }
        Field::Group { .. } => std::vec![Trouble::Group, Trouble::OldKey, Trouble::OtherLock],
    };
    some.into_iter().map(Some).chain([None]).collect()
}

fn asks() -> Vec<Form> {
    let keys = u8::try_from(KEYS.len()).unwrap();
    let mut fields = std::vec![
        (Field::Number, 2, false),
        (Field::Role, 0, false),
        (Field::Opens, 0, false),
        (Field::Timetable, 0, false),
        (Field::Which, 0, false),
        (Field::NewCode, 8, true),
        (Field::Again, 8, true),
        (Field::Date, 8, false),
        (Field::Time, 4, false),
    ];
    fields.extend((0..5).map(|page| (Field::Key { page }, 0, false)));
    fields.extend((0..keys).map(|key| (Field::Value { key }, 6, false)));
    fields.extend((0..8).map(|index| (Field::Group { index }, 6, true)));
    let mut all = Vec::new();
    for (field, digits, secret) in fields {
        for trouble in troubles(field) {
            for topic in topics() {
                for count in 0..=digits {
                    let value = 10_u32.pow(u32::from(count)) - 1;
                    let shown =
                        if secret { Shown::Dots(count) } else { Shown::Digits { value, count } };
                    all.push(Form::Ask { topic, field, shown, trouble });
                }
            }
        }
    }
    all
}

fn gists() -> Vec<(Topic, Gist)> {
    let follows = TimetableId::ALL.map(Follows::Timetable).into_iter().chain([Follows::Always]);
    let number = Number::new(99).unwrap();
    let mut all: Vec<_> = topics().into_iter().map(|topic| (topic, Gist::Plain)).collect();
    for gist in [Gist::Holder(number), Gist::Stuck] {
        all.extend(topics().into_iter().map(|topic| (topic, gist)));
    }
    all.push((Topic::FirstWarden, Gist::Erase));
    all.push((Topic::Task(Task::WayOut), Gist::Alone));
    for follows in follows {
        for role in Role::ALL {
            for opens in [Opens::Yes, Opens::No] {
                let gist = Gist::Row { number, role, opens, follows };
                all.push((Topic::Task(Task::Enrol), gist));
            }
        }
        all.push((Topic::Task(Task::ChooseTimetable), Gist::Follows(number, follows)));
    }
    for stamp in stamps() {
        all.push((Topic::Task(Task::SetClock), Gist::Clock(stamp)));
        all.push((Topic::Task(Task::HoldShut), Gist::Hold(stamp)));
    }
    for key in 0..u8::try_from(KEYS.len()).unwrap() {
        all.push((Topic::Task(Task::SetPolicy), Gist::Value { key, value: 9_999 }));
    }
    for fingerprint in [0, 1, 99_999_999] {
        let gist = Gist::File { version: u32::MAX, fingerprint };
        all.push((Topic::Task(Task::Files), gist));
    }
    all
}

fn changes() -> Vec<Change> {
    let number = Number::new(99).unwrap();
    std::vec![
        Change::Commissioned(number),
        Change::Enrolled(number, Role::Keyholder),
        Change::CodeChanged(number),
        Change::RoleChanged(number, Role::Keyholder),
        Change::TimetableChosen(number, Follows::Always),
        Change::Suspended(number),
        Change::Restored(number),
        Change::Removed(number),
        Change::ClockCorrected(-300),
        Change::ClockSet(None),
        Change::PolicySet(0, 8),
        Change::Paired(999),
        Change::FileLoaded(u32::MAX),
        Change::FileWaits(u32::MAX),
        Change::Collected(Seq(u32::MAX)),
        Change::AlarmTested,
        Change::ResetBegun,
        Change::ResetCancelled,
        Change::Reset,
        Change::WayOutBegun,
        Change::WayOutEnded,
        Change::WayOut,
    ]
}

/// What can still be wrong once everything was given. Whatever it is about, the
/// words are the same.
fn hindrances() -> Vec<Option<Trouble>> {
    let some = [
        Trouble::Free,
        Trouble::Already,
        Trouble::OutOfBounds,
        Trouble::NoTime,
        Trouble::NotInItsLife,
        Trouble::Group,
        Trouble::NoStart,
        Trouble::ClockUnsure,
        Trouble::OpenFirst,
        Trouble::NoWindow,
        Trouble::Stuck,
        Trouble::NotStuck,
        Trouble::DrawBolt,
        Trouble::SwitchOn,
        Trouble::NoChoice,
    ];
    some.into_iter().map(Some).chain([None]).collect()
}

pub(super) fn forms() -> Vec<Form> {
    let number = Number::new(99).unwrap();
    let mut all = asks();
    for topic in topics() {
        for whom in [Whom::Warden, Whom::Steward, Whom::Privileged] {
            for typed in [Typed::Nothing, Typed::Tens(9), Typed::Number(number, 8)] {
                all.push(Form::Second { topic, whom, typed });
            }
        }
    }
    for (topic, gist) in gists() {
        for trouble in hindrances() {
            all.push(Form::Confirm { topic, gist, trouble });
        }
    }
    let row = |role, suspended| Some(Row { number, role, suspended });
    for role in Role::ALL {
        all.push(Form::Numbers { rows: [row(role, false), row(role, true), row(role, false)] });
    }
    all.push(Form::Numbers { rows: [row(Role::Warden, false), None, None] });
    all.push(Form::Files);
    for change in changes() {
        all.push(Form::Done { change, from: None });
        let may_wait = matches!(
            change,
            Change::Enrolled(..)
                | Change::RoleChanged(..)
                | Change::TimetableChosen(..)
                | Change::Restored(_)
                | Change::FileWaits(_)
                | Change::PolicySet(..)
        );
        let froms = stamps().into_iter().filter(|_| may_wait);
        all.extend(froms.map(|from| Form::Done { change, from: Some(from) }));
    }
    all
}
