//! What a dialogue has been given so far, and what it still needs.

use crate::code::Code;
use crate::holder::{Number, Opens, Standing};
use crate::pairing_code::PairingCode;
use crate::role::Role;
use crate::screen::{Field, Topic, Whom};
use crate::task::Task;
use crate::time::{Date, Minute};
use crate::timetable::Follows;

/// The row of the holder whom a dialogue is about, as it was found.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Found {
    /// Their role.
    pub role: Role,
    /// Whether they open, where the role leaves it to the row.
    pub opens: Opens,
    /// Whether they may act.
    pub standing: Standing,
    /// What they follow.
    pub follows: Follows,
    /// Whether their number has failed too often.
    pub failed: Failed,
}

/// Whether a number has failed too often.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Failed {
    /// It has not.
    No,
    /// It has: it is barred until it has a new code.
    TooOften,
}

/// Whether a new code was typed a second time, alike.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Twice {
    /// Not yet.
    #[default]
    No,
    /// It was.
    Yes,
}

/// What has been given. No `Debug`: it may hold a code or a key; both are wiped
/// when it is dropped.
#[derive(Default)]
pub struct Draft {
    /// Whom it is about.
    pub number: Option<Number>,
    /// How they were found, if they are enrolled.
    pub found: Option<Found>,
    /// The role to be given.
    pub role: Option<Role>,
    /// Whether they are to open, where the role leaves it to the row.
    pub opens: Option<Opens>,
    /// What they are to follow.
    pub follows: Option<Follows>,
    /// A new code.
    pub code: Option<Code>,
    /// Whether it was typed twice.
    pub twice: Twice,
    /// A local date.
    pub date: Option<Date>,
    /// A local time.
    pub minute: Option<Minute>,
    /// Which of the two instants of that time; [`Which::Only`] where there is one.
    pub which: Option<Which>,
    /// A value of the policy: its place in [`crate::policy::KEYS`].
    pub key: Option<u8>,
    /// The value, in the unit of the policy table.
    pub value: Option<u32>,
    /// The pairing code.
    pub pairing: PairingCode,
    /// How many of its groups were given.
    pub groups: u8,
    /// Who a second person must be, if it takes one.
    pub needs: Option<Whom>,
    /// Whether it goes on without one, where it may.
    pub alone: Alone,
    /// The second person.
    pub second: Option<Number>,
}

silent!(Draft);

/// Which of the instants that a local time names.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Which {
    /// It names one.
    Only,
    /// Of two the first.
    First,
    /// Of two the second.
    Second,
}

/// Whether a dialogue that takes a second person goes on without.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Alone {
    /// It does not.
    #[default]
    No,
    /// Whoever leads it said so.
    Yes,
}

/// What a dialogue does next.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Next {
    /// It asks for that.
    Ask(Field),
    /// It asks for a second person.
    Second(Whom),
    /// It says what is about to be done: *OK* does it.
    Confirm,
}

impl Draft {
    /// Role, opening and timetable of the row to be written: what was given, or
    /// what was found where nothing was asked.
    #[must_use]
    pub fn row_wanted(&self) -> (Role, Opens, Follows) {
        let found = self.found;
        let role = self.role.or(found.map(|found| found.role)).unwrap_or(Role::Keyholder);
        let opens = self.opens.unwrap_or(Opens::No);
        let follows = self.follows.or(found.map(|found| found.follows));
        // Who never opens follows nothing; what stands there grants nothing.
        (role, opens, follows.unwrap_or(Follows::Always))
    }

    /// What is still missing, in the order in which it is asked for.
    #[must_use]
    pub fn next(&self, topic: Topic) -> Next {
        let missing = match topic {
            Topic::FirstWarden => self.number().or_else(|| self.code()),
            Topic::SlowReset => None,
            Topic::Task(Task::ChangeCode) => self.code(),
            Topic::Task(Task::Enrol) => self
                .number()
                .or_else(|| self.row())
                .or_else(|| if self.role == Some(Role::Courier) { None } else { self.code() }),
            Topic::Task(Task::Restore) => self.number().or_else(|| self.code_anew()),
            Topic::Task(Task::Suspend | Task::Remove) => self.number(),
            Topic::Task(Task::ChangeRole) => self.number().or_else(|| self.row()),
            Topic::Task(Task::ChooseTimetable) => self.number().or_else(|| self.timetable()),
            Topic::Task(Task::SetClock) => missing(self.date.is_some(), Field::Date)
                .or_else(|| missing(self.minute.is_some(), Field::Time))
                .or_else(|| missing(self.which.is_some(), Field::Which)),
            Topic::Task(Task::SetPolicy) => match (self.key, self.value) {
                (None, _) => Some(Field::Key { page: 0 }),
                (Some(key), None) => Some(Field::Value { key }),
                (Some(_), Some(_)) => None,
            },
            Topic::Task(
                Task::HoldShut
                | Task::Status
                | Task::Numbers
                | Task::Files
                | Task::TestAlarm
                | Task::Pair
                | Task::Reset
                | Task::WayOut,
            ) => None,
        };
        let second = self.needs.filter(|_| self.second.is_none() && self.alone == Alone::No);
        match (missing, second) {
            (Some(field), _) => Next::Ask(field),
            (None, Some(whom)) => Next::Second(whom),
            (None, None) => self.after_the_second(topic),
        }
    }

    /// The pairing code is not typed in vain: first both people are there.
    fn after_the_second(&self, topic: Topic) -> Next {
        match topic {
            Topic::Task(Task::Pair) if usize::from(self.groups) < PairingCode::GROUPS => {
                Next::Ask(Field::Group { index: self.groups })
            }
            Topic::Task(_) | Topic::FirstWarden | Topic::SlowReset => Next::Confirm,
        }
    }

    fn number(&self) -> Option<Field> {
        missing(self.number.is_some(), Field::Number)
    }

    /// Role, and what depends on it.
    fn row(&self) -> Option<Field> {
        let role = match self.role {
            Some(role) => role,
            None => return Some(Field::Role),
        };
        let opens = match role {
            Role::Warden | Role::Deputy => missing(self.opens.is_some(), Field::Opens),
            Role::Keyholder | Role::Courier | Role::Steward => None,
        };
        let may_open = match role {
            Role::Warden | Role::Deputy => self.opens == Some(Opens::Yes),
            Role::Keyholder | Role::Courier => true,
            Role::Steward => false,
        };
        opens.or_else(|| if may_open { self.timetable() } else { None })
    }

    fn timetable(&self) -> Option<Field> {
        missing(self.follows.is_some(), Field::Timetable)
    }

    /// A barred number is restored with a new code; a courier's codes are new anyway.
    fn code_anew(&self) -> Option<Field> {
        let barred = self
            .found
            .is_some_and(|found| found.failed == Failed::TooOften && found.role != Role::Courier);
        if barred { self.code() } else { None }
    }

    fn code(&self) -> Option<Field> {
        missing(self.code.is_some(), Field::NewCode)
            .or_else(|| missing(self.twice == Twice::Yes, Field::Again))
    }
}

const fn missing(given: bool, field: Field) -> Option<Field> {
    if given { None } else { Some(field) }
}
