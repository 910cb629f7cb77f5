//! Any content of the flash (R7): a store takes it up, lists, reads, writes and
//! takes it up again; then a lock runs on it.
//!
//! No code is right: nobody knows one for what these images hold.

mod content;
mod counts;

use arbitrary::Unstructured;
use emulated_board::flash::{Chip, Limits, PerWord, RamFlash};
use emulated_board::fuse::Fuse;
use emulator::rig::store::chip;
use emulator::rig::store::life::{self, Ask};
use lock_core::audit::{Record, Ring, Seq};
use lock_core::board::Noticed;
use lock_core::device::{Device, Progress};
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::policy::Policy;
use lock_core::port::{Bolt, Contacts, Drive, Effect, Fault, Reads, Store, Write};
use lock_core::recovered::Recovered;
use lock_core::rules::Days;
use lock_core::screen::Screen;
use lock_core::store::{FlashStore, Layout};
use lock_core::tally::TallyState;
use lock_core::time::Date;
use lock_core::timetable::TimetableId;

pub use self::content::{Base, Seal, content, patch};
use self::counts::Counts;
use crate::asks;
use crate::bench::{Bench, Outside, SHUT};
use crate::boot;
use crate::list::{self, Promised};

/// The geometry: the smallest flash that a store fits.
pub const WORD: usize = 4;
/// See [`WORD`].
pub const PAGE: usize = 256;

type Cells = Chip<WORD, PAGE, Vec<u8>>;
type Flash<'f> = RamFlash<WORD, PAGE, Vec<u8>, &'f Fuse>;

/// The layout.
///
/// # Panics
/// Never: a store takes such pages.
#[must_use]
pub fn layout() -> Layout {
    Layout::smallest(PAGE).expect("a store takes pages of 256 bytes")
}

/// Bytes of the whole flash.
#[must_use]
pub fn bytes() -> usize {
    layout().bytes(PAGE).and_then(|bytes| usize::try_from(bytes).ok()).unwrap_or_default()
}

/// Asks of one input, at most.
const ASKS: usize = 8;
/// Keys of one input, at most.
const KEYS: usize = 48;

/// One input.
///
/// # Panics
/// If anything does not hold.
pub fn run(input: &[u8]) {
    let mut u = Unstructured::new(input);
    let content = content(&mut u);
    let limits = Limits { programs: PerWord::Once, endurance: None };
    let chip = Cells::with_content(content).with_limits(limits);
    let count = usize::from(u.arbitrary::<u8>().unwrap_or(0)) % (ASKS + 1);
    let asks: Vec<Ask> = (0..count).map_while(|_| asks::ask(&mut u).ok()).collect();
    let (chip, found) = store(chip, &asks);
    lock(chip, &found, &mut u);
}

/// A boot: no more steps than are promised, and none that the flash cannot do.
fn power_up<'f>(chip: Cells, fuse: &'f Fuse) -> (FlashStore<Flash<'f>>, Recovered) {
    fuse.power_cycle();
    let before = fuse.steps();
    let (mut store, found) = FlashStore::mount(RamFlash::new(chip, fuse), layout());
    boot::took(fuse.steps() - before, layout(), WORD);
    sound(&mut store);
    if let Ok(known) = &found.known {
        assert_eq!(known.policy.check(), Ok(()), "Invariant 12: a policy out of bounds");
    }
    let tally = &found.tally;
    assert!(tally.totals.iter().all(|total| *total <= 100), "Invariant 12: counts that cannot be");
    (store, found)
}

fn sound(store: &mut FlashStore<Flash<'_>>) {
    let violations = store.flash_mut().chip().violations();
    assert!(violations.is_none(), "Invariant 13: {violations:?}");
}

fn unplug(store: FlashStore<Flash<'_>>) -> Cells {
    store.into_flash().into_chip()
}

/// The store alone: what a boot found holds at the next ones, and what was
/// reported durable does.
fn store(chip: Cells, asks: &[Ask]) -> (Cells, Recovered) {
    let fuse = Fuse::new();
    let before = chip.content().to_vec();
    let (mut store, found) = power_up(chip, &fuse);
    if matches!(found.known, Err(Fault::Blank)) {
        assert!(before == store.flash_mut().content(), "R7: a blank flash was written to");
    }
    let first = list::of(&mut store);
    read_all(&mut store);
    let (mut store, again) = power_up(unplug(store), &fuse);
    stays(&found, &again);
    kept(&first, &list::of(&mut store));
    let mut promised = Promised::default();
    let mut counts = Counts::of_boot(&again);
    let mut edit = None;
    let mut unread = again.known.is_err();
    for ask in asks {
        // What no boot can read goes with the first settings, counts and records too.
        let commissions = matches!(ask, Ask::Edit(n, _) if n % 6 == COMMISSIONS);
        let begins_anew = commissions && !reads_whole(&mut store);
        let done = asks::put(&mut store, ask);
        // A change may have mended on flash what this boot could not read, and goes by
        // still; no lock in service makes one.
        let may_begin = commissions && unread;
        let mut begun = || list::of(&mut store).first().is_some_and(|(seq, _)| seq.0 == 1);
        if done.is_ok() && (begins_anew || may_begin && begun()) {
            promised.forget();
            counts = Counts::of(&TallyState::NEW);
            unread = false;
        }
        let record = asks::record_of(ask);
        match (done, record) {
            (Ok(()), Some(record)) => promised.durable(record),
            (Err(_), Some(record)) => promised.failed(record.event.ring()),
            (_, None) => {}
        }
        match ask {
            Ask::Write(Write::Tally(tally)) => counts.asked(*tally, done),
            Ask::Edit(n, _) => edit = done.is_ok().then_some(*n),
            Ask::Write(Write::Record(_) | Write::Edit(_)) | Ask::File(..) | Ask::Boot => {}
        }
        // What is not done stays due.
        let _ = store.tend();
        sound(&mut store);
    }
    if let Some((_, newest)) = store.newest()
        && asks.last().and_then(asks::record_of).is_some_and(|last| last == newest)
    {
        let listed = list::of(&mut store);
        assert!(
            listed.last().map(|(_, record)| *record) == Some(newest),
            "Invariant 8: the newest record is not the last one listed"
        );
    }
    promised.spend();
    let (mut store, then) = power_up(unplug(store), &fuse);
    promised.are_in(&list::of(&mut store));
    assert!(again.known.is_err() || then.known.is_ok(), "Invariant 7: settings were lost");
    if then.known.is_ok() {
        counts.are_those_of(&then.tally);
    }
    if let Some(n) = edit {
        edited(n, &mut store, &then);
    }
    (unplug(store), then)
}

/// Whether a boot at this moment would find settings.
fn reads_whole(store: &mut FlashStore<Flash<'_>>) -> bool {
    let fuse = Fuse::new();
    let (_, found) = power_up(store.flash_mut().chip().clone(), &fuse);
    found.known.is_ok()
}

/// All that can be read; whatever comes of it.
fn read_all(store: &mut FlashStore<Flash<'_>>) {
    for n in (0..).map_while(Number::new) {
        let _ = store.holder(n);
    }
    for id in TimetableId::ALL {
        for date in [0, 20_000, 21_000, u16::MAX].map(Date::from_days) {
            let _ = store.day(id, date);
        }
    }
    let _ = store.pairing();
}

/// Nothing was asked between two boots.
fn stays(first: &Recovered, second: &Recovered) {
    let policies = [first, second].map(|found| found.known.as_ref().map(|known| known.policy));
    let [before, after] = policies;
    assert!(before.ok() == after.ok(), "Invariant 7: settings came or went between two boots");
    assert!(first.tally == second.tally, "Invariant 4: counts changed between two boots");
}

/// The same for what is concluded from records. A first boot on a spoiled image
/// may conclude something from a page that it then erases, for want of a record
/// in its first slot: so this is asked of later boots. Without a tally nothing
/// keeps what overwritten records said, and the lock asks for service.
fn concludes(first: &Recovered, second: &Recovered) {
    if first.known.is_err() {
        return;
    }
    let facts = [first, second].map(|f| (f.floor, f.newest_outcome, f.last_word));
    assert!(facts[0] == facts[1], "Invariant 1: {:?}, then {:?}", facts[0], facts[1]);
}

/// No number carries two contents, and the newest of each ring stays.
fn kept(before: &[(Seq, Record)], after: &[(Seq, Record)]) {
    for (seq, record) in before {
        if let Some((_, other)) = after.iter().find(|(other, _)| other == seq) {
            assert!(other == record, "Invariant 8: number {} carries two contents", seq.0);
        }
    }
    for ring in [Ring::Openings, Ring::Refusals] {
        let newest = |all: &[(Seq, Record)]| {
            all.iter().rev().find(|(_, record)| record.event.ring() == ring).copied()
        };
        let (was, is) = (newest(before), newest(after));
        assert!(was == is, "Invariant 1: the newest was {was:?} and is {is:?}");
    }
}

/// Which of `life::edit` commissions.
const COMMISSIONS: u32 = 5;

fn edited(n: u32, store: &mut FlashStore<Flash<'_>>, found: &Recovered) {
    let policy = found.known.as_ref().map(|known| u32::from(known.policy.wrong_codes));
    let holds = match n % 6 {
        // A row of the image may have used up more one-time codes already.
        0 => Number::new(1)
            .and_then(|one| store.holder(one).ok().flatten())
            .is_some_and(|row| row.counter >= n && row.digest == chip::holder(1, n).digest),
        // Where another row of the image cannot be read, none is in force.
        1 => policy.is_err() || policy == Ok(3 + n % 8),
        2 => store.pairing().is_ok_and(|key| key.is_some_and(|key| key.generation() == n)),
        // A special day or a closure of the image may stand above a day's.
        3 => true,
        everything => found.known.as_ref().map_or(true, |known| {
            known.enrolled == u8::from(everything == COMMISSIONS)
                && known.policy == Policy::DEFAULT
                && *known.key.as_bytes() == life::key(n)
        }),
    };
    assert!(holds, "Invariant 7: change {n} was reported durable and does not hold");
}

/// A lock runs on it: secured, working or asking for service; it frees nothing.
fn lock(chip: Cells, before: &Recovered, u: &mut Unstructured<'_>) {
    let ajar = u.arbitrary::<u8>().unwrap_or(0) & 1 == 1;
    let contacts = if ajar { Contacts { bolt: Bolt::Drawn, ..SHUT } } else { SHUT };
    let outside = Outside::at(1_803_891_600);
    outside.contacts.set(contacts);
    let (store, found) = power_up(chip, &outside.fuse);
    stays(before, &found);
    concludes(before, &found);
    let usable = found.known.is_ok();
    let mut device = Device::power_up(Bench(&outside), store, found);
    settle(&mut device, &outside, usable);
    let keys = u.bytes(u.len().min(KEYS)).unwrap_or_default();
    let typed = if keys.is_empty() { &[0, 1, 1, 3, 5, 7, 9, 2, 11, 13] } else { keys };
    for key in typed {
        outside.noticed.borrow_mut().extend(key_of(*key).map(Noticed::Key));
        settle(&mut device, &outside, usable);
    }
    outside.noticed.borrow_mut().push_back(Noticed::Bolt(Bolt::Thrown));
    settle(&mut device, &outside, usable);
    assert_eq!(device.machine().access().name(), "secured", "R9: not secured once shut");
    sound(device.store_mut());
}

/// The key of a byte.
#[must_use]
pub fn key_of(byte: u8) -> Option<Key> {
    match byte % 12 {
        10 => Some(Key::Back),
        11 => Some(Key::Ok),
        digit => Digit::new(digit).map(Key::Digit),
    }
}

/// Turns that one thing takes, at most.
const TURNS: usize = 1_000;

fn settle<'o>(
    device: &mut Device<Bench<'o>, FlashStore<Flash<'o>>>,
    outside: &'o Outside,
    usable: bool,
) {
    for _ in 0..TURNS {
        let asleep = matches!(device.advance(), Progress::Asleep(_));
        for effect in outside.done.take() {
            assert!(effect != Effect::Drive(Drive::Free), "Invariant 12: the bolt was freed");
            if let Effect::Show(screen) = effect
                && !usable
            {
                assert!(
                    matches!(screen, Screen::Service(_)),
                    "Invariant 12: without settings it shows {screen:?}"
                );
            }
        }
        if asleep {
            let access = device.machine().access().name();
            assert!(
                access == "secured" || access == "open",
                "Invariant 12: the lock is {access} without a code"
            );
            return;
        }
    }
    panic!("Invariant 3: the lock does not come to rest");
}
