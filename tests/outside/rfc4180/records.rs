//! Not a source: any records that a lock can write, in any order.

use lock_core::audit::{CancelReason, Change, Entry, Event, Gap, Outcome};
use lock_core::audit::{People, Record, Refusal, Seq};
use lock_core::holder::Number;
use lock_core::policy::Millivolts;
use lock_core::port::Fault;
use lock_core::role::Role;
use lock_core::rules::supply::Level;
use lock_core::task::Task;
use lock_core::time::{Seconds, Utc};
use lock_core::timetable::{Follows, TimetableId};
use proptest::prelude::*;

fn number(n: u8) -> Number {
    Number::new(n).unwrap()
}

fn numbers() -> impl Strategy<Value = Number> {
    prop_oneof![Just(12_u8), Just(13), 1..=99_u8].prop_map(number)
}

fn people() -> impl Strategy<Value = People> {
    (numbers(), proptest::option::of(numbers()))
        .prop_map(|(first, second)| People { first, second })
}

fn changes() -> impl Strategy<Value = Change> {
    let roles = proptest::sample::select(Role::ALL.to_vec());
    let follows = proptest::option::of(proptest::sample::select(TimetableId::ALL.to_vec()));
    let values = (numbers(), roles, follows, any::<u32>(), any::<i32>(), 0..20_u8, 0..19_usize);
    values.prop_map(|(who, role, follows, value, by, place, which)| {
        let follows = follows.map_or(Follows::Always, Follows::Timetable);
        let all = [
            Change::Commissioned(who),
            Change::Enrolled(who, role),
            Change::CodeChanged(who),
            Change::RoleChanged(who, role),
            Change::TimetableChosen(who, follows),
            Change::Suspended(who),
            Change::Restored(who),
            Change::Removed(who),
            Change::ClockCorrected(by),
            Change::ClockSet(None),
            Change::ClockSet(Some(Utc::from_secs(1_803_890_700))),
            Change::WayOutBegun,
            Change::WayOutEnded,
            Change::WayOut,
            Change::PolicySet(place, value),
            Change::Paired(value),
            Change::FileLoaded(value),
            Change::FileWaits(value),
            Change::Collected(Seq(value)),
            Change::AlarmTested,
            Change::ResetBegun,
            Change::ResetCancelled,
            Change::Reset,
        ];
        all[which]
    })
}

fn events() -> impl Strategy<Value = Event> {
    let reasons = [
        CancelReason::WindowEnd,
        CancelReason::Inhibit,
        CancelReason::HeldShut,
        CancelReason::Forced,
        CancelReason::Barred,
        CancelReason::Clock,
    ];
    let faults = [Fault::Blank, Fault::Settings, Fault::Store, Fault::Drive, Fault::Bug];
    let levels = [Level::Good, Level::Low, Level::Spent];
    let outcomes = prop_oneof![Just(Outcome::Plain), Just(Outcome::Duress)];
    let picks = (0..6_usize, 0..5_usize, 0..3_usize, 0..16_usize, 0..15_usize);
    let values = (people(), outcomes, any::<u32>(), any::<u16>(), changes());
    let by = proptest::option::of(people());
    (values, picks, by, 0..22_usize).prop_map(move |(values, picks, by, which)| {
        let (people, outcome, value, mv, change) = values;
        let (reason, fault, level, task, refusal) = picks;
        let who = people.first;
        let all = [
            Event::PoweredUp { unrecorded: 0 },
            Event::PoweredUp { unrecorded: 7 },
            Event::FoundThrown { open_for: None },
            Event::FoundThrown { open_for: Some(Seconds::new(value)) },
            Event::Released { people, outcome },
            Event::Opened,
            Event::Secured { open_for: Seconds::new(value) },
            Event::NotDrawn,
            Event::LeftOpen,
            Event::Forced,
            Event::DelayStarted { people, outcome },
            Event::Lapsed,
            Event::Cancelled { why: reasons[reason] },
            Event::FirstOfTwo { who, outcome },
            Event::WrongCode { who },
            Event::Refused { who, why: Refusal::ALL[refusal], outcome },
            Event::Penalty { lasts: Seconds::new(value) },
            Event::HeldShut { who, until: Utc::from_secs(value) },
            Event::Status { who, outcome },
            Event::Supply { level: levels[level], measured: Millivolts::new(mv) },
            Event::ClockInvalid,
            Event::Asked { who, task: Task::ALL[task], outcome },
            Event::Changed { by, change },
            Event::Changed { by, change },
            Event::Fault { fault: faults[fault] },
        ];
        all[which]
    })
}

pub(crate) fn entries() -> impl Strategy<Value = Vec<Entry>> {
    let at = proptest::option::of(any::<u32>().prop_map(Utc::from_secs));
    let item = prop_oneof![
        8 => (at, events()).prop_map(|(at, event)| Ok(Record { at, event })),
        1 => (1..9_u32, 0..9_u32).prop_map(Err),
    ];
    proptest::collection::vec(item, 0..30).prop_map(|items| {
        let mut next = 1;
        let mut entry = |item: Result<Record, (u32, u32)>| match item {
            Ok(record) => {
                next += 1;
                Entry::Record(Seq(next - 1), record)
            }
            Err((count, lost)) => {
                let from = Seq(next);
                next += count;
                Entry::Gap(Gap { from, to: Seq(next - 1), lost: lost.min(count) })
            }
        };
        items.into_iter().map(&mut entry).collect()
    })
}
