//! What is asked of a store, as random events.

use embedded_storage::nor_flash::NorFlash;
use lock_core::audit::{Change, Event, Outcome, People, Record, Refusal, Seq};
use lock_core::code::LockKey;
use lock_core::holder::{HolderRow, Number};
use lock_core::link::Version;
use lock_core::link::timetable_file::{Sealer, TimetableFile};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::policy::Policy;
use lock_core::port::{Reads, Store, StoreFault, Tally, Write};
use lock_core::role::Role;
use lock_core::seal::CHUNK;
use lock_core::settings::Edit;
use lock_core::store::FlashStore;
use lock_core::task::Task;
use lock_core::time::{Date, Minute, Seconds, Utc, Weekday};
use lock_core::timetable::{Calendar, Closure, TimetableId, Timetables, Window, Windows};

use super::chip;
use crate::rig::Dice;

/// One thing asked of a store.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Ask {
    /// A write.
    Write(Write),
    /// A change of the settings, the `n`th, beside its record.
    Edit(u32, Record),
    /// The file that waits is adopted; without one, that of version `n` is
    /// staged, and waits if `n` is even, or else is adopted. Nothing if the lock
    /// is not paired.
    File(u32, Record),
    /// The power goes and comes back.
    Boot,
}

/// A life of `length` events.
#[must_use]
pub fn random(dice: &mut Dice, length: u64) -> Vec<Ask> {
    random_after(dice, &[], length)
}

/// `length` more events of a life. Changes are numbered on: an older file than the
/// one in force would be refused.
#[must_use]
pub fn random_after(dice: &mut Dice, past: &[Ask], length: u64) -> Vec<Ask> {
    let numbers = past.iter().filter_map(|ask| match ask {
        Ask::Edit(n, _) | Ask::File(n, _) => Some(*n),
        Ask::Write(_) | Ask::Boot => None,
    });
    let mut edits = numbers.max().unwrap_or(0);
    (0..length)
        .map(|_| match dice.below(40) {
            0..=17 => Ask::Write(Write::Tally(tally(dice))),
            18..=27 => Ask::Write(Write::Record(record(dice, true))),
            28..=36 => Ask::Write(Write::Record(record(dice, false))),
            37 => {
                edits += 1;
                let record = record(dice, true);
                if dice.below(3) == 0 { Ask::File(edits, record) } else { Ask::Edit(edits, record) }
            }
            _ => Ask::Boot,
        })
        .collect()
}

fn number(dice: &mut Dice) -> Number {
    // Few of them, so that counts add up.
    u8::try_from(dice.below(4)).ok().and_then(Number::new).unwrap_or(ANYBODY)
}

const LOCK: LockNumber = match LockNumber::new(1_001) {
    Some(lock) => lock,
    None => unreachable!(),
};
const ANYBODY: Number = match Number::new(1) {
    Some(number) => number,
    None => panic!("1 is a number"),
};

fn moment(dice: &mut Dice) -> Utc {
    Utc::from_secs(1_800_000_000 + u32::try_from(dice.below(1_000_000)).unwrap_or(0))
}

fn tally(dice: &mut Dice) -> Tally {
    match dice.below(17) {
        0..=5 => Tally::Counted(number(dice)),
        6 => Tally::Cleared(number(dice)),
        7 => Tally::Penalty,
        8 => Tally::Served,
        9 => Tally::Faded,
        10 => Tally::HeldShut(moment(dice)),
        11 => Tally::Corrected(Seconds::new(u32::try_from(dice.below(300)).unwrap_or(0))),
        12 => Tally::CorrectionsOver,
        13 => Tally::ClockSet(moment(dice)),
        14 => Tally::Settled,
        15 => Tally::Collected(Seq(u32::try_from(dice.below(1_000)).unwrap_or(0))),
        _ => Tally::ClockDoubt,
    }
}

fn record(dice: &mut Dice, opening: bool) -> Record {
    let at = (dice.below(8) > 0).then(|| moment(dice));
    let outcome = if dice.below(3) == 0 { Outcome::Duress } else { Outcome::Plain };
    let who = number(dice);
    let event = match (opening, dice.below(7)) {
        (true, 0) => Event::PoweredUp,
        (true, 1) => Event::Opened,
        (true, 2) => Event::Secured { open_for: Seconds::new(7) },
        (true, 3) => Event::Status { who, outcome },
        (true, 4) => Event::Asked {
            who,
            task: dice.pick(&Task::ALL).copied().unwrap_or(Task::Files),
            outcome,
        },
        (true, 5) => Event::Changed {
            by: dice.pick(&[None, Some(People { first: who, second: None })]).copied().flatten(),
            change: Change::Suspended(who),
        },
        (true, _) => Event::Released { people: People { first: who, second: None }, outcome },
        (false, 0) => Event::Refused { who, why: Refusal::Closed, outcome },
        (false, 1) => Event::Penalty { lasts: Seconds::new(300) },
        (false, _) => Event::WrongCode { who },
    };
    Record { at, event }
}

/// The `n`th change: each kind of setting in turn, then everything at once.
#[must_use]
pub fn edit(n: u32) -> Edit {
    match n % 6 {
        0 => Edit::Holder(ANYBODY, Some(chip::holder(1, n))),
        1 => {
            let wrong_codes = u8::try_from(3 + n % 8).unwrap_or(3);
            Edit::Policy(Policy { wrong_codes, ..Policy::DEFAULT }, None)
        }
        2 => Edit::Pairing(Pairing::new(LOCK, n, [0x77; Pairing::LEN])),
        3 => Edit::Day(TimetableId::A, Weekday::Mon, windows(n)),
        4 => Edit::Reset(LockKey::from_bytes(key(n))),
        _ => {
            let warden = HolderRow { role: Role::Warden, ..chip::holder(1, n) };
            Edit::Commission(LockKey::from_bytes(key(n)), ANYBODY, warden)
        }
    }
}

/// The key of the digests that the `n`th change sets.
#[must_use]
pub fn key(n: u32) -> [u8; LockKey::LEN] {
    let [a, b, c, d] = n.to_le_bytes();
    core::array::from_fn(|at| [a, b, c, d].into_iter().cycle().nth(at).unwrap_or(0) ^ 0xA6)
}

/// The windows that the `n`th change sets.
#[must_use]
pub fn windows(n: u32) -> Windows {
    let from = u16::try_from(n % 1_000).ok().and_then(Minute::new);
    let window = from.and_then(|from| Window::new(from, Minute::END));
    window.into_iter().collect()
}

/// The zone of every file.
pub const FILE_ZONE: &str = "IST-1GMT0,M10.5.0,M3.5.0/1";

/// Until when file `n` waits.
#[must_use]
pub fn until(n: u32) -> Utc {
    Utc::from_secs(1_900_000_000_u32.saturating_add(n))
}

/// File `n`: a Monday of A, and closures enough for several chunks.
#[must_use]
pub fn of_file(n: u32) -> TimetableFile {
    let mut calendar = Calendar::default();
    if let Some(monday) = calendar.weeks.first_mut().and_then(|week| week.first_mut()) {
        *monday = windows(n.wrapping_mul(37));
    }
    for day in 0..64 {
        let date = Date::from_days(30_000 + 2 * day);
        let closure = Closure { from: date, to: date, timetables: Timetables::ALL };
        // There is room for 64.
        let _ = calendar.closures.push(closure);
    }
    TimetableFile { zone: heapless::String::try_from(FILE_ZONE).unwrap_or_default(), calendar }
}

/// Has a store do an [`Ask::File`].
///
/// # Errors
/// [`StoreFault`] as the store says.
pub fn file<F: NorFlash>(
    store: &mut FlashStore<F>,
    n: u32,
    record: &Record,
) -> Result<(), StoreFault> {
    if let Some(waiting) = store.file_state().map_err(|_| StoreFault)?.waits {
        return store.edit(&Edit::Adopt(waiting.version), record);
    }
    let Some(pairing) = store.pairing().map_err(|_| StoreFault)? else { return Ok(()) };
    let mut sealer = Sealer::new(&pairing, Version(n), &of_file(n)).map_err(|_| StoreFault)?;
    store.stage(0, sealer.header())?;
    let mut chunk = [0; CHUNK];
    let mut index = 1;
    while let Some(length) = sealer.chunk(&mut chunk) {
        store.stage(index, chunk.get(..length).unwrap_or(&chunk))?;
        index += 1;
    }
    let edit = if n.is_multiple_of(2) { Edit::Wait(n, until(n)) } else { Edit::Adopt(n) };
    store.edit(&edit, record)
}

/// Asks a store for it, and lets it rest afterwards.
///
/// # Errors
/// [`StoreFault`] as the store says.
pub fn ask<F: NorFlash>(store: &mut FlashStore<F>, ask: &Ask) -> Result<(), StoreFault> {
    match ask {
        Ask::Write(write) => store.write(write)?,
        Ask::Edit(n, record) => store.edit(&edit(*n), record)?,
        Ask::File(n, record) => file(store, *n, record)?,
        Ask::Boot => {}
    }
    store.tend().map(|_| ())
}

#[cfg(test)]
mod tests {
    use emulated_board::flash::RamFlash;
    use emulated_board::fuse::Fuse;
    use lock_core::store::FlashStore;

    use super::super::chip::Size;
    use super::*;

    const RECORD: Record = Record { at: None, event: Event::LeftOpen };

    /// `rig store --cuts 2 --seed 7004 --case 48`: the events that are swept were
    /// numbered from 1 again, so that a file came whose version a life before them
    /// had left behind; the lock refused it, as it must, and the rig called that a
    /// failure.
    #[test]
    fn changes_are_numbered_on_since_an_older_file_is_refused() {
        let past = [Ask::Edit(2, RECORD), Ask::File(7, RECORD)];
        let layout = chip::layout(1_024, Size::Smallest);
        let lived = || {
            let chip = chip::commissioned::<16, 1_024>(layout);
            let (mut store, _) = FlashStore::mount(RamFlash::new(chip, Fuse::new()), layout);
            for event in past {
                assert_eq!(ask(&mut store, &event), Ok(()));
            }
            store
        };
        for (n, taken) in [(1, Err(StoreFault)), (7, Err(StoreFault)), (9, Ok(()))] {
            assert_eq!(ask(&mut lived(), &Ask::File(n, RECORD)), taken, "{n}");
        }
        for case in 0..200 {
            let more = random_after(&mut Dice::of(1, case), &past, 40);
            let numbers: Vec<u32> = (more.iter())
                .filter_map(|ask| match ask {
                    Ask::Edit(n, _) | Ask::File(n, _) => Some(*n),
                    Ask::Write(_) | Ask::Boot => None,
                })
                .collect();
            let due: Vec<u32> = (8..).take(numbers.len()).collect();
            assert_eq!(numbers, due);
        }
    }
}
