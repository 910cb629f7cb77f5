//! A flash that was never formatted gets its first warden, and the power goes
//! again and again meanwhile: what is left is a blank lock, in which that can
//! be begun anew, or one with its warden.

use emulated_board::flash::{Limits, PerWord, RamFlash};
use emulated_board::fuse::{Class, Cut, Fuse};
use lock_core::audit::{Change, Event, Record, Seq};
use lock_core::holder::Number;
use lock_core::policy::Policy;
use lock_core::port::{Fault, Reads, Store, Tally, Write};
use lock_core::recovered::Recovered;
use lock_core::role::Role;
use lock_core::store::{FlashStore, Layout};
use lock_core::tally::TallyState;
use lock_core::time::Zone;

use super::chip::{self, Cells, Size};
use super::life;
use crate::rig::{Covered, Dice, Failure};

/// Lives begun in one case.
const LIVES: u64 = 24;
/// Cuts of the power in one such life, at most.
const CUTS: u64 = 4;
/// The change of `life::edit` that commissions.
const COMMISSION: u32 = 5;

type Flash<'f, const WORD: usize, const PAGE: usize> = RamFlash<WORD, PAGE, Vec<u8>, &'f Fuse>;

/// Whether a lock has anybody enrolled.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum State {
    Blank,
    Commissioned,
}

/// Begins some lives in words of `WORD` bytes and pages of `PAGE`.
pub(super) fn sweep<const WORD: usize, const PAGE: usize>(
    dice: &mut Dice,
    covered: &mut Covered,
) -> Result<(), Failure> {
    let layout = chip::layout(PAGE, Size::Smallest);
    for _ in 0..LIVES {
        let mut cuts = Vec::new();
        begin::<WORD, PAGE>(dice, layout, &mut cuts, covered).map_err(|what| {
            let mut events = vec![format!("an erased flash, words of {WORD}, pages of {PAGE}")];
            events.extend(cuts.iter().map(|cut| format!("a first warden, {cut:?}")));
            Failure { what, repeat: String::new(), events }
        })?;
    }
    Ok(())
}

fn begin<const WORD: usize, const PAGE: usize>(
    dice: &mut Dice,
    layout: Layout,
    cuts: &mut Vec<Cut>,
    covered: &mut Covered,
) -> Result<(), String> {
    let mut cells = erased::<WORD, PAGE>(layout);
    let steps = steps_of_commissioning(&cells, layout)?;
    // Near the end it is decided what counts.
    let last_slots = 12 * 32 / u64::try_from(WORD).unwrap_or(1);
    let mut state = State::Blank;
    for _ in 0..=dice.below(CUTS) {
        let after = if dice.below(2) == 0 {
            dice.below(steps)
        } else {
            steps.saturating_sub(1 + dice.below(last_slots))
        };
        let class = dice.pick(&Class::ALL).copied().unwrap_or(Class::Subset);
        let cut = Cut { after, class, seed: dice.roll() };
        cuts.push(cut);
        covered.add("commissionings cut", 1);
        cells = cut_short(cells, layout, cut);
        (cells, state) = boots(cells, layout)?;
        if state == State::Commissioned {
            break;
        }
    }
    goes_on(cells, layout, state)
}

fn erased<const WORD: usize, const PAGE: usize>(layout: Layout) -> Cells<WORD, PAGE> {
    let bytes = layout.bytes(PAGE).and_then(|bytes| usize::try_from(bytes).ok()).unwrap_or(0);
    let limits = Limits { programs: PerWord::Once, endurance: None };
    Cells::<WORD, PAGE>::erased(vec![0; bytes]).with_limits(limits)
}

fn record() -> Record {
    let change = Change::Commissioned(FIRST);
    Record { at: None, event: Event::Changed { by: None, change } }
}

const FIRST: Number = match Number::new(1) {
    Some(number) => number,
    None => panic!("1 is a number"),
};

/// Mounts, and does what every lock does at a boot. One that is out of order
/// may have no room for it.
fn power_up<'f, const WORD: usize, const PAGE: usize>(
    cells: Cells<WORD, PAGE>,
    layout: Layout,
    fuse: &'f Fuse,
) -> (FlashStore<Flash<'f, WORD, PAGE>>, Recovered) {
    let (mut store, found) = FlashStore::mount(RamFlash::new(cells, fuse), layout);
    let _ =
        store.write(&Write::Record(Record { at: None, event: Event::PoweredUp { unrecorded: 0 } }));
    let _ = store.tend();
    (store, found)
}

fn steps_of_commissioning<const WORD: usize, const PAGE: usize>(
    cells: &Cells<WORD, PAGE>,
    layout: Layout,
) -> Result<u64, String> {
    let fuse = Fuse::new();
    let (mut store, _) = power_up(cells.clone(), layout, &fuse);
    let before = fuse.steps();
    store
        .edit(&life::edit(COMMISSION), &record())
        .map_err(|_| "R7: an erased flash takes no first warden.".to_string())?;
    Ok(fuse.steps() - before)
}

fn cut_short<const WORD: usize, const PAGE: usize>(
    cells: Cells<WORD, PAGE>,
    layout: Layout,
    cut: Cut,
) -> Cells<WORD, PAGE> {
    let fuse = Fuse::new();
    let (mut store, _) = power_up(cells, layout, &fuse);
    fuse.arm(cut);
    let _ = store.edit(&life::edit(COMMISSION), &record());
    store.into_flash().into_chip()
}

/// Three boots that agree on what the lock is.
fn boots<const WORD: usize, const PAGE: usize>(
    cells: Cells<WORD, PAGE>,
    layout: Layout,
) -> Result<(Cells<WORD, PAGE>, State), String> {
    let mut cells = cells;
    let mut was = None;
    for _ in 0..3 {
        let fuse = Fuse::new();
        fuse.power_cycle();
        let (store, found) = power_up(cells, layout, &fuse);
        let state = match found.known {
            Ok(known) if known.enrolled > 0 => State::Commissioned,
            Ok(_) | Err(Fault::Blank) => State::Blank,
            Err(fault) => return Err(format!("R7: a lock without a life says {fault:?}.")),
        };
        if was.is_some_and(|was| was != state) {
            return Err(format!("Invariant 2: the lock was {was:?} and is {state:?}."));
        }
        was = Some(state);
        cells = store.into_flash().into_chip();
    }
    Ok((cells, was.unwrap_or(State::Blank)))
}

/// The lock gets its warden if it has none, and lives on.
fn goes_on<const WORD: usize, const PAGE: usize>(
    cells: Cells<WORD, PAGE>,
    layout: Layout,
    state: State,
) -> Result<(), String> {
    let fuse = Fuse::new();
    fuse.power_cycle();
    let (mut store, _) = power_up(cells, layout, &fuse);
    if state == State::Blank {
        store
            .edit(&life::edit(COMMISSION), &record())
            .map_err(|_| "R7: a blank lock takes no first warden.".to_string())?;
    }
    for write in
        [Write::Tally(Tally::Served), Write::Record(Record { at: None, event: Event::Opened })]
    {
        store.write(&write).map_err(|_| "Invariant 3: a write failed afterwards.".to_string())?;
        let _ = store.tend();
    }
    let (mut store, found) = FlashStore::mount(store.into_flash(), layout);
    let known = found.known.as_ref().map_err(|fault| format!("Invariant 3: {fault:?}."))?;
    let first = store.holder(FIRST).ok().flatten();
    let whole = known.enrolled == 1
        && first.is_some_and(|row| row.role == Role::Warden && row.counter == COMMISSION)
        && known.policy == Policy::DEFAULT
        && Zone::parse("UTC0").is_ok_and(|zone| zone == known.zone)
        && *known.key.as_bytes() == life::key(COMMISSION)
        && found.tally == TallyState::NEW;
    if !whole {
        return Err("R6: the first warden's lock is not as from the factory.".into());
    }
    let records: Vec<Record> = store
        .records(Seq(0))
        .filter_map(|entry| entry.record())
        .map(|(_, record)| record)
        .collect();
    if records.iter().filter(|listed| **listed == record()).count() != 1 {
        return Err(format!("R7: the first warden's record is not listed once: {records:?}."));
    }
    if !store.into_flash().into_chip().violations().is_none() {
        return Err("Invariant 13: a word was programmed twice, or a bit raised.".into());
    }
    Ok(())
}
