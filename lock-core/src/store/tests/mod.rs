//! Tests of the store, from outside and in its byte tables.
//!
//! The judge of what a store must hold is [`model`], which keeps plain lists
//! and shares no code with the store.

mod agree;
mod cuts;
mod durable;
mod edits;
mod error_correction;
mod fickle;
mod file_cuts;
mod files;
mod generations;
mod golden;
mod golden_image;
mod images;
mod looks;
mod model;
mod round_trip;
mod spoiled;
mod wear;

use std::vec;
use std::vec::Vec;

use embedded_storage::nor_flash::NorFlash;
use emulated_board::RamFlash;
use proptest::collection::vec as list;
use proptest::option::of as maybe;
use proptest::prelude::*;
use proptest::sample::select;

use super::{FlashStore, Layout};
use crate::audit::{CancelReason, Change, Event, Outcome, People, Record, Refusal, Seq};
use crate::code::{Digest, LockKey, Salt};
use crate::holder::{HolderRow, Number, Opens, Pending, Standing};
use crate::pairing::{LockNumber, Pairing};
use crate::policy::{Control, Deputies, KEYS, Millivolts, Policy, TABLE};
use crate::port::{Fault, Store, StoreFault, Tally, Write};
use crate::role::Role;
use crate::rules::supply::Level;
use crate::settings::Settings;
use crate::task::Task;
use crate::time::{Date, Minute, Seconds, Shift, Steady, Utc};
use crate::timetable::{
    Calendar, Closure, Follows, Special, TimetableId, Timetables, Week, Window, Windows,
};

type Flash<const WORD: usize, const PAGE: usize> = RamFlash<WORD, PAGE, Vec<u8>>;

/// A flash that the layout fills exactly.
fn erased<const WORD: usize, const PAGE: usize>(layout: Layout) -> Flash<WORD, PAGE> {
    let bytes = usize::try_from(layout.bytes(PAGE).unwrap()).unwrap();
    RamFlash::erased(vec![0; bytes])
}

fn formatted<const WORD: usize, const PAGE: usize>(
    layout: Layout,
) -> FlashStore<Flash<WORD, PAGE>> {
    FlashStore::format(erased(layout), layout, &plain_settings()).ok().unwrap()
}

/// One write of a lock's day: what is due is done before the next one.
fn put<F: NorFlash>(store: &mut FlashStore<F>, write: &Write) -> Result<(), StoreFault> {
    let written = store.write(write);
    let _tried_again_later = store.tend();
    written
}

fn number(n: u8) -> Number {
    Number::new(n).unwrap()
}

/// Settings with one holder and everything else as it comes.
fn plain_settings() -> Settings {
    let mut holders = [const { None }; Number::COUNT];
    holders[1] = Some(HolderRow {
        role: Role::Warden,
        opens: Opens::Yes,
        standing: Standing::Active,
        follows: Follows::Timetable(TimetableId::A),
        salt: Salt::from_bytes([0x11; Salt::LEN]),
        digest: Digest::from_bytes([0x22; Digest::LEN]),
        pending: None,
        counter: 0x0102_0304,
    });
    Settings {
        policy: Policy::DEFAULT,
        zone: heapless::String::try_from("GMT0IST,M3.5.0/1,M10.5.0").unwrap(),
        key: LockKey::from_bytes([0x33; LockKey::LEN]),
        pairing: None,
        holders,
        calendar: Calendar::default(),
    }
}

fn any_number() -> impl Strategy<Value = Number> {
    (0..100u8).prop_map(number)
}

fn any_outcome() -> impl Strategy<Value = Outcome> {
    select(&[Outcome::Plain, Outcome::Duress][..])
}

fn any_people() -> impl Strategy<Value = People> {
    (any_number(), maybe(any_number())).prop_map(|(first, second)| People { first, second })
}

fn any_utc() -> impl Strategy<Value = Utc> {
    prop_oneof![9 => any::<u32>(), 1 => Just(u32::MAX)].prop_map(Utc::from_secs)
}

fn any_steady() -> impl Strategy<Value = Steady> {
    any_utc().prop_map(|utc| Steady::from_secs(utc.as_secs()))
}

fn any_shift() -> impl Strategy<Value = Shift> {
    prop_oneof![8 => any::<i32>(), 1 => Just(i32::MIN), 1 => Just(-1)].prop_map(Shift::from_secs)
}

/// Seconds of something that may be unknown: all ones say that it is.
fn any_known() -> impl Strategy<Value = u32> {
    0..u32::MAX
}

fn maybe_seconds() -> impl Strategy<Value = Option<Seconds>> {
    maybe(any_known()).prop_map(|known| known.map(Seconds::new))
}

fn any_seconds() -> impl Strategy<Value = Seconds> {
    any::<u32>().prop_map(Seconds::new)
}

const CANCELS: [CancelReason; 7] = [
    CancelReason::WindowEnd,
    CancelReason::Inhibit,
    CancelReason::HeldShut,
    CancelReason::Forced,
    CancelReason::Barred,
    CancelReason::Clock,
    CancelReason::Changed,
];

/// Every variant of [`Event`]; the match below fails to compile when one is
/// added.
fn any_event() -> impl Strategy<Value = Event> {
    const fn every_variant_is_listed(event: &Event) {
        match event {
            Event::PoweredUp { .. }
            | Event::FoundThrown { .. }
            | Event::Released { .. }
            | Event::Opened
            | Event::Secured { .. }
            | Event::NotDrawn
            | Event::LeftOpen
            | Event::Forced
            | Event::DelayStarted { .. }
            | Event::Lapsed
            | Event::Cancelled { .. }
            | Event::FirstOfTwo { .. }
            | Event::WrongCode { .. }
            | Event::Refused { .. }
            | Event::Penalty { .. }
            | Event::HeldShut { .. }
            | Event::Status { .. }
            | Event::Supply { .. }
            | Event::ClockInvalid
            | Event::Asked { .. }
            | Event::Changed { .. }
            | Event::Fault { .. } => {}
        }
    }
    every_variant_is_listed(&Event::Opened);
    let faults =
        [Fault::Blank, Fault::Settings, Fault::Store, Fault::Drive, Fault::Bug, Fault::Layout];
    let bare = [
        Event::Opened,
        Event::NotDrawn,
        Event::LeftOpen,
        Event::Forced,
        Event::Lapsed,
        Event::ClockInvalid,
    ];
    let levels = [Level::Spent, Level::Low, Level::Good];
    prop_oneof![
        4 => select(bare.to_vec()),
        1 => any::<u32>().prop_map(|unrecorded| Event::PoweredUp { unrecorded }),
        1 => maybe_seconds().prop_map(|open_for| Event::FoundThrown { open_for }),
        2 => (any_people(), any_outcome())
            .prop_map(|(people, outcome)| Event::Released { people, outcome }),
        1 => any_seconds().prop_map(|open_for| Event::Secured { open_for }),
        1 => (any_people(), any_outcome())
            .prop_map(|(people, outcome)| Event::DelayStarted { people, outcome }),
        1 => select(&CANCELS[..]).prop_map(|why| Event::Cancelled { why }),
        1 => (any_number(), any_outcome())
            .prop_map(|(who, outcome)| Event::FirstOfTwo { who, outcome }),
        2 => any_number().prop_map(|who| Event::WrongCode { who }),
        2 => (any_number(), select(&Refusal::ALL[..]), any_outcome())
            .prop_map(|(who, why, outcome)| Event::Refused { who, why, outcome }),
        1 => any_seconds().prop_map(|lasts| Event::Penalty { lasts }),
        1 => (any_number(), any_utc()).prop_map(|(who, until)| Event::HeldShut { who, until }),
        1 => (any_number(), any_outcome()).prop_map(|(who, outcome)| Event::Status { who, outcome }),
        1 => (select(levels.to_vec()), any::<u16>()).prop_map(|(level, mv)| {
            Event::Supply { level, measured: Millivolts::new(mv) }
        }),
        1 => select(faults.to_vec()).prop_map(|fault| Event::Fault { fault }),
        1 => (any_number(), select(&Task::ALL[..]), any_outcome())
            .prop_map(|(who, task, outcome)| Event::Asked { who, task, outcome }),
        2 => (maybe(any_people()), any_change())
            .prop_map(|(by, change)| Event::Changed { by, change }),
    ]
}

/// Every variant of [`Change`], held to it as that of [`Event`] is.
fn any_change() -> impl Strategy<Value = Change> {
    const fn every_variant_is_listed(change: &Change) {
        match change {
            Change::Commissioned(_)
            | Change::Enrolled(..)
            | Change::CodeChanged(_)
            | Change::RoleChanged(..)
            | Change::TimetableChosen(..)
            | Change::Suspended(_)
            | Change::Restored(_)
            | Change::Removed(_)
            | Change::ClockCorrected(_)
            | Change::ClockSet(_)
            | Change::PolicySet(..)
            | Change::Paired(_)
            | Change::FileLoaded(_)
            | Change::FileWaits(_)
            | Change::Collected(_)
            | Change::AlarmTested
            | Change::ResetBegun
            | Change::ResetCancelled
            | Change::Reset
            | Change::WayOutBegun
            | Change::WayOutEnded
            | Change::WayOut => {}
        }
    }
    every_variant_is_listed(&Change::Reset);
    let bare = [
        Change::AlarmTested,
        Change::ResetBegun,
        Change::ResetCancelled,
        Change::Reset,
        Change::WayOutBegun,
        Change::WayOutEnded,
        Change::WayOut,
    ];
    let of_one = [
        Change::Commissioned,
        Change::CodeChanged,
        Change::Suspended,
        Change::Restored,
        Change::Removed,
    ];
    let of_value = [Change::Paired, Change::FileLoaded, Change::FileWaits];
    let keys = 0..u8::try_from(KEYS.len()).unwrap();
    prop_oneof![
        select(bare.to_vec()),
        (any_number(), select(of_one.to_vec())).prop_map(|(who, change)| change(who)),
        (any::<u32>(), select(of_value.to_vec())).prop_map(|(value, change)| change(value)),
        any::<u32>().prop_map(|seq| Change::Collected(Seq(seq))),
        (any_number(), select(&Role::ALL[..])).prop_map(|(n, role)| Change::Enrolled(n, role)),
        (any_number(), select(&Role::ALL[..])).prop_map(|(n, role)| Change::RoleChanged(n, role)),
        (any_number(), any_follows()).prop_map(|(n, follows)| Change::TimetableChosen(n, follows)),
        any::<i32>().prop_map(Change::ClockCorrected),
        maybe(any_known()).prop_map(|at| Change::ClockSet(at.map(Utc::from_secs))),
        (keys, any::<u32>()).prop_map(|(key, value)| Change::PolicySet(key, value)),
    ]
}

fn any_follows() -> impl Strategy<Value = Follows> {
    select(&Follows::ALL[..])
}

/// The same record under that outcome, if it has one.
fn under(mut record: Record, outcome: Outcome) -> Record {
    if let Event::Released { outcome: o, .. }
    | Event::DelayStarted { outcome: o, .. }
    | Event::FirstOfTwo { outcome: o, .. }
    | Event::Refused { outcome: o, .. }
    | Event::Status { outcome: o, .. }
    | Event::Asked { outcome: o, .. } = &mut record.event
    {
        *o = outcome;
    }
    record
}

fn any_record() -> impl Strategy<Value = Record> {
    (maybe(any_utc()), any_event()).prop_map(|(at, event)| Record { at, event })
}

/// Few numbers, so that counts add up.
fn any_tally() -> impl Strategy<Value = Tally> {
    let few = || (0..4u8).prop_map(|n| number(n.saturating_mul(33)));
    prop_oneof![
        6 => few().prop_map(Tally::Counted),
        2 => few().prop_map(Tally::Cleared),
        1 => Just(Tally::Penalty),
        1 => Just(Tally::Served),
        2 => few().prop_map(Tally::Faded),
        1 => Just(Tally::Eased),
        1 => any_steady().prop_map(Tally::HeldShut),
        1 => maybe(any_known()).prop_map(|at| Tally::ClockDoubt(at.map(Steady::from_secs))),
        1 => (any_seconds(), any_shift()).prop_map(|(by, shift)| Tally::Corrected { by, shift }),
        1 => Just(Tally::CorrectionsOver),
        1 => any_shift().prop_map(Tally::ClockSet),
        1 => Just(Tally::Settled),
        1 => any::<u32>().prop_map(|seq| Tally::Collected(Seq(seq))),
        1 => any_steady().prop_map(Tally::Brought),
        1 => select(&[Tally::SettingUp, Tally::SetUp, Tally::PoweredUp, Tally::WayOutOver][..]),
        1 => any_people().prop_map(Tally::WayOut),
    ]
}

fn any_write() -> impl Strategy<Value = Write> {
    prop_oneof![any_tally().prop_map(Write::Tally), any_record().prop_map(Write::Record)]
}

fn any_window() -> impl Strategy<Value = Window> {
    (0..1_440u16, 0..=1_440u16).prop_filter_map("a window has a length", |(from, to)| {
        Window::new(Minute::new(from)?, Minute::new(to)?)
    })
}

fn any_windows() -> impl Strategy<Value = Windows> {
    list(any_window(), 0..=5).prop_map(|windows| windows.into_iter().collect())
}

fn any_date() -> impl Strategy<Value = Date> {
    // Close together, so that closures and special days are met.
    (20_000..20_100u16).prop_map(Date::from_days)
}

fn any_timetables() -> impl Strategy<Value = Timetables> {
    any::<u8>().prop_map(Timetables::from_bits)
}

fn any_calendar() -> impl Strategy<Value = Calendar> {
    let closure = || {
        (any_date(), 0..4u16, any_timetables()).prop_map(|(from, more, timetables)| Closure {
            from,
            to: from.checked_add(more).unwrap(),
            timetables,
        })
    };
    let special = || {
        (any_date(), any_timetables(), any_windows())
            .prop_map(|(date, timetables, windows)| Special { date, timetables, windows })
    };
    let weeks = list(any_windows(), 56).prop_map(|days| {
        let mut days = days.into_iter();
        let mut week = || -> Week { core::array::from_fn(|_| days.next().unwrap()) };
        core::array::from_fn(|_| week())
    });
    // Often as many as fit, or a whole row of four.
    let closures = prop_oneof![list(closure(), 0..=8), list(closure(), 64)];
    let specials = prop_oneof![list(special(), 0..=8), list(special(), 32)];
    (weeks, closures, specials).prop_map(|(weeks, closures, specials)| Calendar {
        weeks,
        closures: closures.into_iter().collect(),
        specials: specials.into_iter().collect(),
    })
}

/// What a holder's row is made of: neither rows nor settings have `Debug`.
type HolderParts = (Role, [bool; 2], Follows, [[u8; 16]; 2], Option<Pending>);

fn any_holder() -> impl Strategy<Value = HolderParts> {
    (
        select(&Role::ALL[..]),
        any::<[bool; 2]>(),
        any_follows(),
        any::<[[u8; 16]; 2]>(),
        maybe(any_pending()),
    )
}

fn any_pending() -> impl Strategy<Value = Pending> {
    (any_steady(), any_steady(), maybe(any_follows())).prop_map(|(made, from, held)| Pending {
        made,
        from,
        held,
    })
}

fn holder_of((role, [opens, active], follows, [salt, digest], pending): HolderParts) -> HolderRow {
    HolderRow {
        role,
        opens: if opens { Opens::Yes } else { Opens::No },
        standing: if active { Standing::Active } else { Standing::Suspended },
        follows,
        salt: Salt::from_bytes(salt),
        digest: Digest::from_bytes(digest),
        pending,
        counter: u32::from(salt[0]) << 8,
    }
}

/// Values within the bounds of the table, and of one another.
fn any_policy() -> impl Strategy<Value = Policy> {
    TABLE.map(|row| row.least..=row.most).prop_map(|mut values| {
        loop {
            match Policy::from_values(&values) {
                Ok(policy) => return policy,
                Err(out) => {
                    let value = &mut values[usize::from(out.key)];
                    *value = (*value).clamp(out.least, out.most);
                }
            }
        }
    })
}

/// Zone rules by hand, in the forms that POSIX and RFC 9636 allow.
const ZONES: [&str; 6] = [
    "UTC0",
    "GMT0IST,M3.5.0/1,M10.5.0",
    "CET-1CEST,M3.5.0,M10.5.0/3",
    "<+0545>-5:45",
    "<-02>2<-01>,M3.5.0/-1,M10.5.0/0",
    "<+1030>-10:30<+11>-11,M10.1.0,M4.1.0",
];

/// What settings are made of.
type Parts = (Policy, &'static str, [u8; 32], Vec<Option<HolderParts>>, Calendar);

fn any_settings() -> impl Strategy<Value = Parts> {
    let rows = list(maybe(any_holder()), 99);
    (any_policy(), select(&ZONES[..]), any::<[u8; 32]>(), rows, any_calendar())
}

fn settings_of((policy, zone, key, rows, calendar): Parts) -> Settings {
    let mut holders = [const { None }; Number::COUNT];
    for (to, row) in holders[1..].iter_mut().zip(rows) {
        *to = row.map(holder_of);
    }
    let zone = heapless::String::try_from(zone).unwrap();
    let pairing = (key[0] & 1 == 1)
        .then(|| Pairing::new(LockNumber::new(1_001).unwrap(), u32::from(key[1]), key));
    Settings { policy, zone, key: LockKey::from_bytes(key), pairing, holders, calendar }
}
