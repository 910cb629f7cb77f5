//! What is asked of a store, from bytes.

use arbitrary::{Result, Unstructured};
use embedded_storage::nor_flash::NorFlash;
use emulator::rig::store::life::{self, Ask};
use lock_core::audit::{CancelReason, Change, Event, Outcome, People, Record, Refusal, Seq};
use lock_core::holder::Number;
use lock_core::policy::Millivolts;
use lock_core::port::{Fault, Store, StoreFault, Tally, Write};
use lock_core::rules::supply::Level;
use lock_core::store::FlashStore;
use lock_core::task::Task;
use lock_core::time::{Seconds, Shift, Steady, Utc};

/// Has the store do it, without letting it rest afterwards.
///
/// # Errors
/// [`StoreFault`] as the store says.
pub fn put<F: NorFlash>(
    store: &mut FlashStore<F>,
    ask: &Ask,
) -> core::result::Result<(), StoreFault> {
    match ask {
        Ask::Write(write) => store.write(write),
        Ask::Edit(n, record) => store.edit(&life::edit(*n), record),
        Ask::File(n, record) => life::file(store, *n, record),
        Ask::Boot => Ok(()),
    }
}

/// The record that becomes durable with it, if any.
#[must_use]
pub const fn record_of(ask: &Ask) -> Option<Record> {
    match ask {
        Ask::Write(Write::Record(record) | Write::Edit(record))
        | Ask::Edit(_, record)
        | Ask::File(_, record) => Some(*record),
        Ask::Write(Write::Tally(_)) | Ask::Boot => None,
    }
}

/// Something to ask, never a boot: one byte says what, the next ones which.
///
/// # Errors
/// When the bytes are used up.
pub fn ask(u: &mut Unstructured<'_>) -> Result<Ask> {
    Ok(match u.arbitrary::<u8>()? {
        0..=111 => Ask::Write(Write::Tally(tally(u)?)),
        112..=239 => Ask::Write(Write::Record(record(u)?)),
        240.. => Ask::Edit(1 + u32::from(u.arbitrary::<u8>()?), record(u)?),
    })
}

fn tally(u: &mut Unstructured<'_>) -> Result<Tally> {
    let [what, which]: [u8; 2] = u.arbitrary()?;
    let number = number(which);
    Ok(match what % 24 {
        0..=5 => Tally::Counted(number),
        6 => Tally::Cleared(number),
        7 => Tally::Penalty,
        8 => Tally::Served,
        9 => Tally::Faded(number),
        10 => Tally::HeldShut(steady(which)),
        11 => Tally::Corrected { by: Seconds::new(which.into()), shift: shift(which) },
        12 => Tally::CorrectionsOver,
        13 => Tally::ClockSet(shift(which)),
        14 => Tally::Settled,
        15 => Tally::Collected(Seq(which.into())),
        16 => Tally::Eased,
        17 => Tally::Brought(steady(which)),
        18 => Tally::SettingUp,
        19 => Tally::SetUp,
        20 => Tally::PoweredUp,
        21 => Tally::WayOut(People { first: number, second: None }),
        22 => Tally::WayOutOver,
        _ => Tally::ClockDoubt((which > 9).then(|| steady(which))),
    })
}

fn steady(which: u8) -> Steady {
    Steady::from_secs(moment(which).as_secs())
}

fn shift(which: u8) -> Shift {
    Shift::from_secs(i32::from(which.cast_signed()) * 1_000)
}

fn record(u: &mut Unstructured<'_>) -> Result<Record> {
    let [what, which, when]: [u8; 3] = u.arbitrary()?;
    let at = (when > 0).then(|| moment(when));
    Ok(Record { at, event: event(what, which) })
}

/// One of every kind of record.
fn event(what: u8, which: u8) -> Event {
    let who = number(which);
    let outcome = if which & 0x80 == 0 { Outcome::Plain } else { Outcome::Duress };
    let second = (which & 0x40 != 0).then_some(number(which >> 2));
    let people = People { first: who, second };
    let value = u32::from(which);
    match what % 22 {
        0 => Event::PoweredUp { unrecorded: value },
        1 => Event::Released { people, outcome },
        2 => Event::Opened,
        3 => Event::Secured { open_for: Seconds::new(value) },
        4 => Event::NotDrawn,
        5 => Event::LeftOpen,
        6 => Event::Forced,
        7 => Event::DelayStarted { people, outcome },
        8 => Event::Lapsed,
        9 => Event::Cancelled { why: CancelReason::Inhibit },
        10 => Event::FirstOfTwo { who, outcome },
        11 => Event::HeldShut { who, until: moment(which) },
        12 => Event::Status { who, outcome },
        13 => Event::Supply { level: Level::Low, measured: Millivolts::new(4_000) },
        14 => Event::ClockInvalid,
        15 => Event::Fault { fault: Fault::Drive },
        16 => Event::WrongCode { who },
        17 => Event::Refused { who, why: Refusal::Closed, outcome },
        18 => {
            let task = Task::ALL.iter().cycle().nth(which.into()).copied();
            Event::Asked { who, task: task.unwrap_or(Task::Status), outcome }
        }
        19 => Event::Changed { by: Some(people), change: Change::PolicySet(which % 13, value) },
        20 => Event::Changed { by: None, change: Change::FileLoaded(value) },
        _ => Event::Penalty { lasts: Seconds::new(value) },
    }
}

/// Few of them, so that counts add up.
fn number(which: u8) -> Number {
    Number::new(which & 3).unwrap_or(ANYBODY)
}

const ANYBODY: Number = match Number::new(1) {
    Some(number) => number,
    None => panic!("1 is a number"),
};

fn moment(when: u8) -> Utc {
    Utc::from_secs(1_800_000_000 + u32::from(when) * 1_000)
}
