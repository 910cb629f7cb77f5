//! The audit as people read it: a line a record, and a line for what is
//! missing; and extracts, read, judged, reported and exported.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | a record in a line, as the tour prints it |
//! | `extract.rs` | what was carried out of a lock, and the files that hold it |
//! | `reading.rs`, `collection.rs` | the extracts of one lock, one after the other |
//! | `opening.rs` | an opening, put together from its records |
//! | `ledger.rs` | all that a lock's records tell, by what it is about |
//! | `finding/` | what somebody should look into |
//! | `names.rs`, `words.rs` | names, times and sentences |
//! | `report/` | a report for a terminal, as a page, and for programs |
//! | `export.rs` | records as CSV and as JSON lines |

pub mod collection;
pub mod export;
pub mod extract;
pub mod finding;
pub mod ledger;
pub mod names;
pub mod opening;
pub mod reading;
pub mod report;
pub mod sample;
pub mod sealed;
pub mod words;

use std::fmt::Write as _;

use lock_core::audit::{Change, Entry, Event, Gap, Outcome, People, Record, Seq};
use lock_core::holder::Number;
use lock_core::policy::KEYS;
use lock_core::time::{Utc, Zone};
use lock_core::timetable::{Follows, TimetableId};

use crate::site::Site;
use names::length;
use words::reason;

/// One item of the list in words.
#[must_use]
pub fn line(entry: &Entry, site: &Site) -> String {
    match entry {
        Entry::Record(seq, record) => line_of_record(*seq, record, site),
        Entry::Gap(gap) => line_of_gap(gap),
    }
}

/// Which numbers are missing, and why.
fn line_of_gap(gap: &Gap) -> String {
    let Gap { from, to, lost } = gap;
    let numbers =
        if from == to { format!("{}", from.0) } else { format!("{} to {}", from.0, to.0) };
    let overwritten = to.0.saturating_sub(from.0).saturating_add(1).saturating_sub(*lost);
    let why = match (lost, overwritten) {
        (0, _) => "overwritten: the lock keeps the newest".to_owned(),
        (_, 0) => "missing: being written when the power failed, or unreadable".to_owned(),
        (lost, overwritten) => format!("{lost} missing, {overwritten} overwritten"),
    };
    format!("    -  {numbers} {why}")
}

/// One record in words: number, local time, kind, and what belongs to it.
/// Holders are named from the site file; the lock knows numbers only.
fn line_of_record(seq: Seq, record: &Record, site: &Site) -> String {
    let at = record.at.map_or_else(|| "no valid clock".to_owned(), |at| local(at, &site.zone));
    let mut text = format!("{:>5}  {at:<26}  {:<21}", seq.0, record.event.kind());
    if let Some(detail) = detail(&record.event, site) {
        let _ = write!(text, " {detail}");
    }
    text.trim_end().to_owned()
}

/// Local date and time to the second, with the offset from UTC, without which
/// an hour that comes twice would be told twice: `2027-03-01 08:30:00 +00:00`.
#[must_use]
pub fn local(at: Utc, zone: &Zone) -> String {
    let local = zone.local(at);
    let ((year, month, day), (hour, minute, second)) = (local.date.ymd(), local.hms());
    let east = local.offset.as_secs();
    let (sign, minutes) = (if east < 0 { '-' } else { '+' }, east.unsigned_abs() / 60);
    format!(
        "{year:04}-{month:02}-{day:02} {hour:02}:{minute:02}:{second:02} {sign}{:02}:{:02}",
        minutes / 60,
        minutes % 60,
    )
}

/// What belongs to an event, people by name; `None` if its kind says all.
#[must_use]
pub fn detail(event: &Event, site: &Site) -> Option<String> {
    let with = |people: &People, outcome: Outcome| {
        let second = people.second.map_or(String::new(), |n| format!(" and {}", who(n, site)));
        format!("{}{second}{}", who(people.first, site), mark(outcome))
    };
    Some(match event {
        Event::Released { people, outcome } | Event::DelayStarted { people, outcome } => {
            with(people, *outcome)
        }
        Event::FirstOfTwo { who: n, outcome }
        | Event::Refused { who: n, outcome, .. }
        | Event::Status { who: n, outcome } => format!("{}{}", who(*n, site), mark(*outcome)),
        Event::Asked { who: n, task, outcome } => {
            format!("{}{}, for {}", who(*n, site), mark(*outcome), task.name())
        }
        Event::WrongCode { who: n } => who(*n, site),
        Event::HeldShut { who: n, until } => {
            format!("{}, until {}", who(*n, site), local(*until, &site.zone))
        }
        Event::FoundThrown { open_for: Some(open_for) } => {
            format!("open for at most {}", length(open_for.get()))
        }
        Event::PoweredUp { unrecorded } if *unrecorded > 0 => {
            format!("{unrecorded} power-ups without a record before")
        }
        Event::Changed { by, change } => return changed(by.as_ref(), change, site),
        Event::Secured { open_for } => format!("after {}", length(open_for.get())),
        Event::Penalty { lasts } => length(lasts.get()),
        Event::Supply { measured, .. } => {
            format!("{}.{:02} V", measured.get() / 1_000, measured.get() % 1_000 / 10)
        }
        Event::Cancelled { why } => reason(*why).to_owned(),
        Event::PoweredUp { .. }
        | Event::FoundThrown { open_for: None }
        | Event::Opened
        | Event::NotDrawn
        | Event::LeftOpen
        | Event::Forced
        | Event::Lapsed
        | Event::ClockInvalid
        | Event::Fault { .. } => return None,
    })
}

/// Who changed it, and what belongs to the change; `None` if neither says
/// anything.
fn changed(by: Option<&People>, change: &Change, site: &Site) -> Option<String> {
    let what = what_changed(change, site);
    let by = by.map(|people| {
        let second = people.second.map_or(String::new(), |n| format!(" and {}", who(n, site)));
        format!("by {}{second}", who(people.first, site))
    });
    match (what, by) {
        (Some(what), Some(by)) => Some(format!("{what}, {by}")),
        (what, by) => what.or(by),
    }
}

fn what_changed(change: &Change, site: &Site) -> Option<String> {
    Some(match change {
        Change::Enrolled(number, role) | Change::RoleChanged(number, role) => {
            format!("{}, {}", who(*number, site), role.name())
        }
        Change::TimetableChosen(number, follows) => {
            format!("{}, {}", who(*number, site), timetable(*follows))
        }
        Change::Commissioned(number)
        | Change::CodeChanged(number)
        | Change::Suspended(number)
        | Change::Restored(number)
        | Change::Removed(number) => who(*number, site),
        Change::ClockCorrected(by) => format!("{by:+} s"),
        Change::PolicySet(key, value) => match KEYS.get(usize::from(*key)) {
            Some(name) => format!("{name} = {value}"),
            None => format!("value {key} = {value}"),
        },
        Change::Paired(generation) => format!("generation {generation}"),
        Change::FileLoaded(version) | Change::FileWaits(version) => format!("version {version}"),
        Change::Collected(upto) => format!("up to {}", upto.0),
        Change::ClockSet(_)
        | Change::AlarmTested
        | Change::ResetBegun
        | Change::ResetCancelled
        | Change::Reset
        | Change::WayOutBegun
        | Change::WayOutEnded
        | Change::WayOut => return None,
    })
}

const fn timetable(follows: Follows) -> &'static str {
    match follows {
        Follows::Always => "always",
        Follows::Timetable(TimetableId::A) => "timetable A",
        Follows::Timetable(TimetableId::B) => "timetable B",
        Follows::Timetable(TimetableId::C) => "timetable C",
        Follows::Timetable(TimetableId::D) => "timetable D",
        Follows::Timetable(TimetableId::E) => "timetable E",
        Follows::Timetable(TimetableId::F) => "timetable F",
        Follows::Timetable(TimetableId::G) => "timetable G",
        Follows::Timetable(TimetableId::H) => "timetable H",
    }
}

fn who(number: Number, site: &Site) -> String {
    match site.holder(number) {
        Some(person) => format!("{:02} {}", number.get(), person.name),
        None => format!("{:02} (not enrolled)", number.get()),
    }
}

const fn mark(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Plain => "",
        Outcome::Duress => ", under duress",
    }
}
