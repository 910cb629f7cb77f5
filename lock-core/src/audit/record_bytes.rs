//! What happened, in the bytes that flash and extracts share.
//!
//! Nine bytes say everything of an event: its kind, five fields of which each kind
//! uses some, and the outcome, in which alone a duress entry differs (R4). The
//! table of kinds, fields and numbers stands in `store/record_slot.rs`; a number
//! that was given out is never given to anything else.

use super::{CancelReason, Change, Event, Outcome, People, Refusal, Seq};
use crate::byte_table::ERASED;
use crate::holder::Number;
use crate::policy::{self, Millivolts};
use crate::port::Fault;
use crate::role::Role;
use crate::rules::supply::Level;
use crate::task::Task;
use crate::time::{Seconds, Utc};
use crate::timetable::Follows;

const CANCELS: [CancelReason; 7] = [
    CancelReason::WindowEnd,
    CancelReason::Inhibit,
    CancelReason::HeldShut,
    CancelReason::Forced,
    CancelReason::Barred,
    CancelReason::Clock,
    CancelReason::Changed,
];
const LEVELS: [Level; 3] = [Level::Spent, Level::Low, Level::Good];
const FAULTS: [Fault; 6] =
    [Fault::Blank, Fault::Settings, Fault::Store, Fault::Drive, Fault::Bug, Fault::Layout];

/// The fields that depend on the event.
pub(crate) struct Fields {
    pub(crate) kind: u8,
    pub(crate) who: u8,
    pub(crate) second: u8,
    pub(crate) detail: u8,
    pub(crate) outcome: u8,
    pub(crate) value: u32,
}

impl Fields {
    const fn kind(kind: u8) -> Self {
        Self { kind, who: ERASED, second: ERASED, detail: ERASED, outcome: ERASED, value: u32::MAX }
    }

    const fn who(self, who: Number) -> Self {
        Self { who: who.get(), ..self }
    }

    fn people(self, people: People) -> Self {
        Self { second: people.second.map_or(ERASED, Number::get), ..self.who(people.first) }
    }

    const fn detail(self, detail: u8) -> Self {
        Self { detail, ..self }
    }

    const fn outcome(self, outcome: Outcome) -> Self {
        let outcome = match outcome {
            Outcome::Plain => 1,
            Outcome::Duress => 2,
        };
        Self { outcome, ..self }
    }

    const fn value(self, value: u32) -> Self {
        Self { value, ..self }
    }

    /// The fields of an event.
    pub(crate) fn of(event: &Event) -> Self {
        match *event {
            Event::PoweredUp { unrecorded } => Self::kind(1).value(unrecorded),
            Event::Released { people, outcome } => Self::kind(2).people(people).outcome(outcome),
            Event::Opened => Self::kind(3),
            Event::Secured { open_for } => Self::kind(4).value(open_for.get()),
            Event::NotDrawn => Self::kind(5),
            Event::LeftOpen => Self::kind(6),
            Event::Forced => Self::kind(7),
            Event::DelayStarted { people, outcome } => {
                Self::kind(8).people(people).outcome(outcome)
            }
            Event::Lapsed => Self::kind(9),
            Event::Cancelled { why } => Self::kind(10).detail(cancel_number(why)),
            Event::FirstOfTwo { who, outcome } => Self::kind(11).who(who).outcome(outcome),
            Event::WrongCode { who } => Self::kind(12).who(who),
            Event::Refused { who, why, outcome } => {
                Self::kind(13).who(who).detail(refusal_number(why)).outcome(outcome)
            }
            Event::Penalty { lasts } => Self::kind(14).value(lasts.get()),
            Event::HeldShut { who, until } => Self::kind(15).who(who).value(until.as_secs()),
            Event::Status { who, outcome } => Self::kind(16).who(who).outcome(outcome),
            Event::Supply { level, measured } => {
                Self::kind(17).detail(level_number(level)).value(u32::from(measured.get()))
            }
            Event::ClockInvalid => Self::kind(18),
            Event::Fault { fault } => Self::kind(19).detail(fault_number(fault)),
            Event::Asked { who, task, outcome } => {
                Self::kind(20).who(who).detail(task_number(task)).outcome(outcome)
            }
            Event::Changed { by, change } => Self::change(change).by(by),
            Event::FoundThrown { open_for } => {
                Self::kind(40).value(open_for.map_or(u32::MAX, Seconds::get))
            }
        }
    }

    /// The event of these fields, or `None` if they say none.
    pub(crate) fn event(&self) -> Option<Event> {
        Some(match self.kind {
            1 => Event::PoweredUp { unrecorded: self.value },
            2 => Event::Released { people: self.read_people()?, outcome: self.read_outcome()? },
            3 => Event::Opened,
            4 => Event::Secured { open_for: Seconds::new(self.value) },
            5 => Event::NotDrawn,
            6 => Event::LeftOpen,
            7 => Event::Forced,
            8 => Event::DelayStarted { people: self.read_people()?, outcome: self.read_outcome()? },
            9 => Event::Lapsed,
            10 => Event::Cancelled { why: numbered_from_one(&CANCELS, self.detail)? },
            11 => Event::FirstOfTwo { who: self.read_who()?, outcome: self.read_outcome()? },
            12 => Event::WrongCode { who: self.read_who()? },
            13 => Event::Refused {
                who: self.read_who()?,
                why: Refusal::ALL.get(usize::from(self.detail)).copied()?,
                outcome: self.read_outcome()?,
            },
            14 => Event::Penalty { lasts: Seconds::new(self.value) },
            15 => Event::HeldShut { who: self.read_who()?, until: Utc::from_secs(self.value) },
            16 => Event::Status { who: self.read_who()?, outcome: self.read_outcome()? },
            17 => Event::Supply {
                level: numbered_from_one(&LEVELS, self.detail)?,
                measured: Millivolts::new(u16::try_from(self.value).ok()?),
            },
            18 => Event::ClockInvalid,
            19 => Event::Fault { fault: numbered_from_one(&FAULTS, self.detail)? },
            20 => Event::Asked {
                who: self.read_who()?,
                task: Task::ALL.get(usize::from(self.detail)).copied()?,
                outcome: self.read_outcome()?,
            },
            40 => Event::FoundThrown {
                open_for: Some(Seconds::new(self.value)).filter(|_| self.value != u32::MAX),
            },
            _ => Event::Changed { by: self.read_by()?, change: self.read_change()? },
        })
    }

    fn by(self, by: Option<People>) -> Self {
        match by {
            Some(people) => self.people(people),
            None => self,
        }
    }

    fn change(change: Change) -> Self {
        let of = |kind, number: Number| Self::kind(kind).detail(number.get());
        match change {
            Change::Commissioned(number) => of(21, number),
            Change::Enrolled(number, role) => of(22, number).value(role_number(role)),
            Change::CodeChanged(number) => of(23, number),
            Change::RoleChanged(number, role) => of(24, number).value(role_number(role)),
            Change::TimetableChosen(number, follows) => {
                of(25, number).value(follows.number().into())
            }
            Change::Suspended(number) => of(26, number),
            Change::Restored(number) => of(27, number),
            Change::Removed(number) => of(28, number),
            Change::ClockCorrected(by) => {
                Self::kind(29).value(u32::from_le_bytes(by.to_le_bytes()))
            }
            Change::ClockSet(before) => Self::kind(30).value(before.map_or(u32::MAX, Utc::as_secs)),
            Change::PolicySet(key, value) => {
                Self::kind(31).detail(policy::number_of(key).unwrap_or(ERASED)).value(value)
            }
            Change::Paired(generation) => Self::kind(32).value(generation),
            Change::FileLoaded(version) => Self::kind(33).value(version),
            Change::FileWaits(version) => Self::kind(34).value(version),
            Change::Collected(upto) => Self::kind(35).value(upto.0),
            Change::AlarmTested => Self::kind(36),
            Change::ResetBegun => Self::kind(37),
            Change::ResetCancelled => Self::kind(38),
            Change::Reset => Self::kind(39),
            Change::WayOutBegun => Self::kind(41),
            Change::WayOutEnded => Self::kind(42),
            Change::WayOut => Self::kind(43),
        }
    }

    fn read_change(&self) -> Option<Change> {
        let number = || Number::new(self.detail);
        let role = || numbered_from_one(&Role::ALL, u8::try_from(self.value).ok()?);
        Some(match self.kind {
            21 => Change::Commissioned(number()?),
            22 => Change::Enrolled(number()?, role()?),
            23 => Change::CodeChanged(number()?),
            24 => Change::RoleChanged(number()?, role()?),
            25 => Change::TimetableChosen(number()?, self.read_follows()?),
            26 => Change::Suspended(number()?),
            27 => Change::Restored(number()?),
            28 => Change::Removed(number()?),
            29 => Change::ClockCorrected(i32::from_le_bytes(self.value.to_le_bytes())),
            30 => Change::ClockSet(
                Some(Utc::from_secs(self.value)).filter(|_| self.value != u32::MAX),
            ),
            31 => Change::PolicySet(policy::place_of(self.detail)?, self.value),
            32 => Change::Paired(self.value),
            33 => Change::FileLoaded(self.value),
            34 => Change::FileWaits(self.value),
            35 => Change::Collected(Seq(self.value)),
            36 => Change::AlarmTested,
            37 => Change::ResetBegun,
            38 => Change::ResetCancelled,
            39 => Change::Reset,
            41 => Change::WayOutBegun,
            42 => Change::WayOutEnded,
            43 => Change::WayOut,
            _ => return None,
        })
    }

    fn read_follows(&self) -> Option<Follows> {
        Follows::ALL.get(usize::try_from(self.value).ok()?).copied()
    }

    fn read_by(&self) -> Option<Option<People>> {
        match (self.who, self.second) {
            (ERASED, ERASED) => Some(None),
            _ => Some(Some(self.read_people()?)),
        }
    }

    fn read_who(&self) -> Option<Number> {
        Number::new(self.who)
    }

    fn read_people(&self) -> Option<People> {
        let second = match self.second {
            ERASED => None,
            second => Some(Number::new(second)?),
        };
        Some(People { first: self.read_who()?, second })
    }

    fn read_outcome(&self) -> Option<Outcome> {
        match self.outcome {
            1 => Some(Outcome::Plain),
            2 => Some(Outcome::Duress),
            _ => None,
        }
    }
}

fn numbered_from_one<T: Copy>(all: &[T], number: u8) -> Option<T> {
    all.get(usize::from(number).checked_sub(1)?).copied()
}

const fn cancel_number(why: CancelReason) -> u8 {
    match why {
        CancelReason::WindowEnd => 1,
        CancelReason::Inhibit => 2,
        CancelReason::HeldShut => 3,
        CancelReason::Forced => 4,
        CancelReason::Barred => 5,
        CancelReason::Clock => 6,
        CancelReason::Changed => 7,
    }
}

const fn level_number(level: Level) -> u8 {
    match level {
        Level::Spent => 1,
        Level::Low => 2,
        Level::Good => 3,
    }
}

const fn fault_number(fault: Fault) -> u8 {
    match fault {
        Fault::Blank => 1,
        Fault::Settings => 2,
        Fault::Store => 3,
        Fault::Drive => 4,
        Fault::Bug => 5,
        Fault::Layout => 6,
    }
}

/// From 1, in the order of the table of roles.
const fn role_number(role: Role) -> u32 {
    match role {
        Role::Warden => 1,
        Role::Deputy => 2,
        Role::Keyholder => 3,
        Role::Courier => 4,
        Role::Steward => 5,
    }
}

/// The place in [`Task::ALL`], which a test holds it to.
const fn task_number(task: Task) -> u8 {
    match task {
        Task::HoldShut => 0,
        Task::Status => 1,
        Task::ChangeCode => 2,
        Task::Enrol => 3,
        Task::Suspend => 4,
        Task::Restore => 5,
        Task::Remove => 6,
        Task::ChangeRole => 7,
        Task::ChooseTimetable => 8,
        Task::Numbers => 9,
        Task::Files => 10,
        Task::SetClock => 11,
        Task::SetPolicy => 12,
        Task::TestAlarm => 13,
        Task::Pair => 14,
        Task::Reset => 15,
        Task::WayOut => 16,
    }
}

/// The place in [`Refusal::ALL`], which a test holds it to.
const fn refusal_number(why: Refusal) -> u8 {
    match why {
        Refusal::AlreadyOpen => 0,
        Refusal::Suspended => 1,
        Refusal::Barred => 2,
        Refusal::Right => 3,
        Refusal::Inhibit => 4,
        Refusal::HeldShut => 5,
        Refusal::Supply => 6,
        Refusal::Clock => 7,
        Refusal::Closed => 8,
        Refusal::Late => 9,
        Refusal::Waiting => 10,
        Refusal::OtherPerson => 11,
        Refusal::SamePerson => 12,
        Refusal::Penalty => 13,
        Refusal::Hold => 14,
        Refusal::Settling => 15,
        Refusal::FirstRefused => 16,
    }
}
