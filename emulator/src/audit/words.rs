//! Records in sentences.

use lock_core::audit::{CancelReason, Change, Event, Gap, Refusal};
use lock_core::policy::{Millivolts, TABLE, Unit};
use lock_core::rules::supply::Level;
use lock_core::task::Task;
use lock_core::timetable::Follows;

use super::names::{Names, length};

/// `5.91 V`.
#[must_use]
pub fn volts(measured: Millivolts) -> String {
    format!("{}.{:02} V", measured.get() / 1_000, measured.get() % 1_000 / 10)
}

/// `Records 41 to 44 are missing: 1 lost, 3 overwritten.`
#[must_use]
pub fn gap_words(gap: &Gap) -> String {
    let Gap { from, to, lost } = gap;
    let missing = count(gap);
    let (numbers, are) = if from == to {
        (format!("Record {}", from.0), "is")
    } else {
        (format!("Records {} to {}", from.0, to.0), "are")
    };
    let overwritten = missing.saturating_sub(*lost);
    match (lost, overwritten) {
        (0, _) => format!("{numbers} {are} overwritten: the lock keeps the newest."),
        (_, 0) => format!(
            "{numbers} {are} lost: being written when the power failed, or no longer readable."
        ),
        (lost, overwritten) => {
            format!("{numbers} {are} missing: {lost} lost, {overwritten} overwritten.")
        }
    }
}

/// How many numbers a gap spans.
#[must_use]
pub const fn count(gap: &Gap) -> u32 {
    gap.to.0.saturating_sub(gap.from.0).saturating_add(1)
}

/// Why a right code did not open.
#[must_use]
pub const fn refusal(why: Refusal) -> &'static str {
    match why {
        Refusal::AlreadyOpen => "released or open already",
        Refusal::Suspended => "suspended",
        Refusal::Barred => "barred: too many wrong codes on this number",
        Refusal::Right => "no right to do this",
        Refusal::Inhibit => "inhibited by the building's alarm",
        Refusal::HeldShut => "held shut",
        Refusal::Supply => "supply spent",
        Refusal::Clock => "clock invalid",
        Refusal::Closed => "outside the opening windows",
        Refusal::Late => "the delay would outlast the window",
        Refusal::Waiting => "a time delay is running",
        Refusal::OtherPerson => "somebody else's delay is to be claimed",
        Refusal::SamePerson => "the same person twice",
        Refusal::Penalty => "in a penalty",
        Refusal::Hold => "nothing to hold shut until",
        Refusal::Settling => "the clock was set and settles",
        Refusal::FirstRefused => "the first of the two may not open by then",
    }
}

/// What ended a delay or a claim.
#[must_use]
pub const fn reason(why: CancelReason) -> &'static str {
    match why {
        CancelReason::WindowEnd => "the window ended",
        CancelReason::Inhibit => "inhibited",
        CancelReason::HeldShut => "held shut",
        CancelReason::Forced => "forced open",
        CancelReason::Barred => "holder barred",
        CancelReason::Clock => "clock invalid or set",
        CancelReason::Changed => "a change of the settings",
    }
}

/// The level of the supply.
#[must_use]
pub const fn level(level: Level) -> &'static str {
    match level {
        Level::Good => "good",
        Level::Low => "low",
        Level::Spent => "spent",
    }
}

/// What was asked for or changed, and by whom; empty for other records.
#[must_use]
pub fn change(event: &Event, names: &Names<'_>) -> (String, String) {
    match event {
        Event::HeldShut { who, until, .. } => {
            let until = names.moment(Some(*until));
            (names.who(*who), format!("Held the lock shut until {until}."))
        }
        Event::Status { who, .. } => (names.who(*who), "Read the status.".to_owned()),
        Event::Asked { who, task, .. } => {
            (names.who(*who), format!("Began: {}.", task_words(*task)))
        }
        Event::Changed { by, change } => {
            let by = by.map_or("nobody: its time came".to_owned(), |by| names.people(&by));
            (by, change_words(*change, names))
        }
        _ => (String::new(), String::new()),
    }
}

/// A task of the list.
const fn task_words(task: Task) -> &'static str {
    match task {
        Task::HoldShut => "hold shut",
        Task::Status => "read the status",
        Task::ChangeCode => "change the own code",
        Task::Enrol => "enrol somebody",
        Task::Suspend => "suspend somebody",
        Task::Restore => "restore somebody",
        Task::Remove => "remove somebody",
        Task::ChangeRole => "give somebody another role",
        Task::ChooseTimetable => "choose a timetable for somebody",
        Task::Numbers => "see the numbers taken",
        Task::Files => "load timetables, collect the audit",
        Task::SetClock => "set the clock",
        Task::SetPolicy => "set the policy",
        Task::TestAlarm => "try the alarm line",
        Task::Pair => "make a new pairing key",
        Task::Reset => "reset the lock",
        Task::WayOut => "ask for a way out of a stuck lock",
    }
}

fn change_words(change: Change, names: &Names<'_>) -> String {
    let who = |number| names.who(number);
    match change {
        Change::Commissioned(number) => format!("Commissioned: {} is warden.", who(number)),
        Change::Enrolled(number, role) => format!("Enrolled {} as {}.", who(number), role.name()),
        Change::CodeChanged(number) => format!("New code of {}.", who(number)),
        Change::RoleChanged(number, role) => format!("{} is now {}.", who(number), role.name()),
        Change::TimetableChosen(number, Follows::Always) => {
            format!("{} may now open at all times.", who(number))
        }
        Change::TimetableChosen(number, Follows::Timetable(id)) => {
            format!("{} now follows timetable {}.", who(number), id.letter())
        }
        Change::Suspended(number) => format!("Suspended {}.", who(number)),
        Change::Restored(number) => format!("Restored {}.", who(number)),
        Change::Removed(number) => format!("Removed {}.", who(number)),
        Change::ClockCorrected(by) => {
            let to = if by < 0 { "back" } else { "forward" };
            format!("Set the clock {to} by {}.", length(by.unsigned_abs()))
        }
        Change::ClockSet(None) => "Set the clock; the settling time began.".to_owned(),
        Change::ClockSet(before @ Some(_)) => {
            format!("Set the clock; before, it was {}.", names.moment(before))
        }
        Change::PolicySet(place, value) => policy_words(place, value),
        Change::Paired(generation) => format!("New pairing key, generation {generation}."),
        Change::FileLoaded(version) => format!("Timetable file {version} is in force."),
        Change::FileWaits(version) => {
            format!("Timetable file {version} waits for the next opening window.")
        }
        Change::Collected(seq) => format!("Audit collected up to record {}.", seq.0),
        Change::AlarmTested => "Tried the alarm line.".to_owned(),
        Change::ResetBegun => "Began a reset without a warden's code.".to_owned(),
        Change::ResetCancelled => "The reset was given up.".to_owned(),
        Change::Reset => "Reset: everybody and everything but the audit is gone.".to_owned(),
        Change::WayOutBegun => "Asked for a way out: nobody could open the lock.".to_owned(),
        Change::WayOutEnded => "The way out was ended.".to_owned(),
        Change::WayOut => "The way out has come: the lock is being set up.".to_owned(),
    }
}

/// `Set penalty to 10 min 00 s.`
fn policy_words(place: u8, value: u32) -> String {
    let Some(row) = TABLE.get(usize::from(place)) else {
        return format!("Set an unknown value of the policy to {value}.");
    };
    let said = match row.unit {
        Unit::Seconds => length(value),
        Unit::Millivolts => u16::try_from(value)
            .map_or_else(|_| format!("{value} mV"), |value| volts(Millivolts::new(value))),
        Unit::Digits => format!("{value} digits"),
        Unit::Tries => format!("{value} tries"),
        Unit::Switch => if value == 0 { "off" } else { "on" }.to_owned(),
        Unit::People | Unit::Choice(_) => value.to_string(),
    };
    format!("Set {} to {said}.", row.key)
}
