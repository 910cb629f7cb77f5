//! A record of the audit in the model's words.

use lock_core::audit::{self, CancelReason, Change, Event, Outcome, People};
use lock_core::holder::Number;
use lock_core::policy::KEYS;
use lock_core::role::Role;
use lock_core::time::Utc;
use lock_core::timetable::{Follows, TimetableId};

use super::fault;
use crate::reference::Record;

pub(in super::super) fn record(record: &audit::Record) -> Record {
    let event = &record.event;
    let told = Record {
        outcome: event.outcome().map(outcome),
        utc: record.at.map(seconds),
        ..Record::of(event.kind())
    };
    match *event {
        Event::PoweredUp { unrecorded } => told.value(unrecorded),
        Event::Released { people, .. } | Event::DelayStarted { people, .. } => {
            told.numbers(&numbers(Some(people)))
        }
        Event::FirstOfTwo { who, .. }
        | Event::WrongCode { who }
        | Event::Refused { who, .. }
        | Event::Status { who, .. } => told.numbers(&[who.get()]),
        Event::Asked { who, task, .. } => told.numbers(&[who.get()]).why(task.name()),
        Event::HeldShut { who, until } => told.numbers(&[who.get()]).value(seconds(until)),
        Event::Secured { open_for } => told.value(open_for.get()),
        Event::FoundThrown { open_for } => {
            Record { value: open_for.map(|length| i64::from(length.get())), ..told }
        }
        Event::Penalty { lasts } => told.value(lasts.get()),
        Event::Supply { measured, .. } => told.value(measured.get()),
        Event::Cancelled { why } => told.why(cancelled(why)),
        Event::Fault { fault: why } => told.why(fault(why)),
        Event::Changed { by, change } => changed(told.numbers(&numbers(by)), change),
        Event::Opened
        | Event::NotDrawn
        | Event::LeftOpen
        | Event::Forced
        | Event::Lapsed
        | Event::ClockInvalid => told,
    }
}

fn changed(told: Record, change: Change) -> Record {
    match change {
        Change::Commissioned(number)
        | Change::CodeChanged(number)
        | Change::Suspended(number)
        | Change::Restored(number)
        | Change::Removed(number) => told.about(number.get()),
        Change::Enrolled(number, role) | Change::RoleChanged(number, role) => {
            told.about(number.get()).value(role_number(role))
        }
        Change::TimetableChosen(number, follows) => {
            told.about(number.get()).value(follows_number(follows))
        }
        Change::ClockCorrected(by) => told.value(by),
        Change::ClockSet(before) => Record { value: before.map(seconds), ..told },
        Change::PolicySet(key, value) => told.value(value).why(KEYS[usize::from(key)]),
        Change::Paired(generation) => told.value(generation),
        Change::FileLoaded(version) | Change::FileWaits(version) => told.value(version),
        Change::Collected(up_to) => told.value(up_to.0),
        Change::AlarmTested
        | Change::ResetBegun
        | Change::ResetCancelled
        | Change::Reset
        | Change::WayOutBegun
        | Change::WayOutEnded
        | Change::WayOut => told,
    }
}

fn numbers(people: Option<People>) -> Vec<u8> {
    let both = people.map(|People { first, second }| [Some(first), second]);
    both.into_iter().flatten().flatten().map(Number::get).collect()
}

/// As `docs/behaviour.md`, section 11, has them in order, from 1.
fn role_number(role: Role) -> u8 {
    match role {
        Role::Warden => 1,
        Role::Deputy => 2,
        Role::Keyholder => 3,
        Role::Courier => 4,
        Role::Steward => 5,
    }
}

/// 0 always, 1 to 8 A to H.
fn follows_number(follows: Follows) -> usize {
    match follows {
        Follows::Always => 0,
        Follows::Timetable(id) => {
            1 + TimetableId::ALL.iter().position(|other| *other == id).expect("one of them")
        }
    }
}

fn outcome(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Plain => "plain",
        Outcome::Duress => "duress",
    }
}

fn seconds(utc: Utc) -> i64 {
    i64::from(utc.as_secs())
}

fn cancelled(why: CancelReason) -> &'static str {
    match why {
        CancelReason::WindowEnd => "window-end",
        CancelReason::Inhibit => "inhibit",
        CancelReason::HeldShut => "held-shut",
        CancelReason::Forced => "forced",
        CancelReason::Barred => "barred",
        CancelReason::Clock => "clock",
        CancelReason::Changed => "changed",
    }
}
