//! What one boot has found and acted upon, every later boot finds: whatever was
//! torn before reads otherwise by then, and wherever the boots were cut.
//!
//! The first three tests are failures of `emulator rig store --cuts 2` (seeds 7011,
//! 7013 and 7004) in as few events as show them; the others go through every cut
//! of every boot, up to three in a row, at every fill of a ring's page.

use std::collections::HashSet;

use super::super::{FlashStore, Layout};
use super::fickle::Fickle;
use super::model::{Kept, Model, Says, listed};
use super::*;
use crate::audit::Seq;
use crate::settings::Edit;
use crate::tally::TallyState;

/// Listed records.
type List = Vec<(Seq, Record)>;

const OPENED: Write = Write::Record(Record { at: None, event: Event::Opened });
const SHUT: Write = Write::Record(Record { at: None, event: Event::NotDrawn });

const fn wrong(n: u8) -> Write {
    let Some(who) = Number::new(n) else { panic!("no number") };
    Write::Record(Record { at: None, event: Event::WrongCode { who } })
}

fn layout<const PAGE: usize>() -> Layout {
    Layout::smallest(PAGE).unwrap()
}

type Lock<const WORD: usize, const PAGE: usize> = FlashStore<Fickle<WORD, PAGE>>;

/// A lock that wrote all this, and rests.
fn lived<const WORD: usize, const PAGE: usize>(writes: &[Write]) -> Lock<WORD, PAGE> {
    let bytes = usize::try_from(layout::<PAGE>().bytes(PAGE).unwrap()).unwrap();
    let flash = Fickle::erased(bytes);
    let mut store = FlashStore::format(flash, layout::<PAGE>(), &plain_settings()).ok().unwrap();
    for write in writes {
        assert_eq!(put(&mut store, write), Ok(()));
    }
    store
}

/// The flash after the power ended within that step of a write.
fn torn<const WORD: usize, const PAGE: usize>(
    mut store: Lock<WORD, PAGE>,
    write: &Write,
    step: usize,
) -> Fickle<WORD, PAGE> {
    store.flash_mut().arm(step);
    assert_eq!(store.write(write), Err(StoreFault));
    store.into_flash()
}

/// A boot that is cut within that step.
fn cut_boot<const WORD: usize, const PAGE: usize>(
    mut flash: Fickle<WORD, PAGE>,
    step: usize,
) -> Fickle<WORD, PAGE> {
    flash.arm(step);
    let (store, _) = FlashStore::mount(flash, layout::<PAGE>());
    store.into_flash()
}

/// What a boot finds.
#[derive(Clone, PartialEq, Eq, Debug)]
struct Found {
    list: List,
    tally: TallyState,
    policy: Policy,
    says: Says,
}

fn boot<const WORD: usize, const PAGE: usize>(
    flash: Fickle<WORD, PAGE>,
) -> (Lock<WORD, PAGE>, Found) {
    let (mut store, found) = FlashStore::mount(flash, layout::<PAGE>());
    let policy = found.known.as_ref().map(|known| known.policy).expect("the settings are lost");
    let list = listed(&mut store);
    assert_eq!(store.newest(), list.last().copied(), "the newest record is the last one listed");
    let says = Says::of(&found);
    (store, Found { list, tally: found.tally, policy, says })
}

/// Three boots agree: two of them whole, of which the torn words read `first`,
/// then `then`, and one after a further record, which gets a number of its own.
fn agrees<const WORD: usize, const PAGE: usize>(
    flash: Fickle<WORD, PAGE>,
    [first, then]: [usize; 2],
) {
    let (store, before) = boot(flash.powered(first));
    let (mut store, after) = boot(store.into_flash().powered(then));
    assert_eq!(before, after);
    assert_eq!(put(&mut store, &OPENED), Ok(()));
    let (_, more) = boot(store.into_flash().powered(first));
    assert_eq!(more.list.len(), after.list.len() + 1);
    assert!(more.list.starts_with(&after.list));
}

/// `rig store --cuts 2 --seed 7011`: a record of the openings is torn in its check
/// value while the newest record before it is a refusal. The boot takes it for
/// torn, and is cut in the check value of the opening that it copies. The next one
/// took that copy for good, since the refusal is newer; the one after that listed
/// the torn record, and not as the newest.
#[test]
fn a_copy_that_was_cut_is_not_taken_for_good() {
    let store = lived::<4, 256>(&[SHUT, OPENED, SHUT, wrong(1)]);
    let flash = torn(store, &OPENED, 7);
    let flash = cut_boot(flash.powered(0b0), 7);
    agrees(flash, [0b10, 0b01]);
}

/// `rig store --cuts 2 --seed 7004`: the same in the ring of refusals, where the
/// number of the torn record came back with its content. The boot copies the
/// newest opening first.
#[test]
fn nor_is_one_in_the_ring_of_refusals() {
    let store = lived::<8, 512>(&[wrong(2), wrong(3), OPENED, SHUT]);
    let flash = torn(store, &wrong(1), 3);
    let flash = cut_boot(flash.powered(0b0), 4 + 3);
    agrees(flash, [0b10, 0b01]);
}

/// `rig store --cuts 2 --seed 7013`: and so where the boot is cut in the very last
/// word of the copy, which looks done to the next boot.
#[test]
fn nor_is_one_that_looks_done() {
    let store = lived::<4, 256>(&[wrong(1), OPENED]);
    let flash = torn(store, &wrong(9), 7);
    let flash = cut_boot(flash.powered(0b0), 8 + 7);
    agrees(flash, [0b10, 0b01]);
}

/// All cuts of all boots, to a depth.
struct Exploration<const WORD: usize, const PAGE: usize> {
    /// What was reported durable, and that with the write that was cut.
    may_be: [(Model, Policy); 2],
    seen: HashSet<(Fickle<WORD, PAGE>, Vec<u32>, [usize; 2])>,
}

impl<const WORD: usize, const PAGE: usize> Exploration<WORD, PAGE> {
    /// Boots in every way, cut at every step while `cuts` are left, and `whole`
    /// times more to the end: what the first of those found, all later ones do.
    fn explore(
        &mut self,
        flash: &Fickle<WORD, PAGE>,
        fixed: Option<&Found>,
        [cuts, whole]: [usize; 2],
    ) {
        let numbers = fixed.map_or_else(Vec::new, |found| numbers(&found.list));
        if !self.seen.insert((flash.clone(), numbers, [cuts, whole])) {
            return;
        }
        for way in 0..flash.ways() {
            let (store, found) = boot(flash.clone().powered(way));
            match fixed {
                Some(fixed) => assert_eq!(*fixed, found),
                None => assert!(self.may_be.iter().any(|of| found.is_of(of)), "{found:?}"),
            }
            let after = store.into_flash();
            let steps = if cuts > 0 { after.steps() } else { 0 };
            match whole.checked_sub(1) {
                Some(whole) => self.explore(&after, Some(&found), [cuts, whole]),
                None => goes_on(after, &found),
            }
            for step in 0..steps {
                let cut = cut_boot(flash.clone().powered(way), step);
                self.explore(&cut, fixed, [cuts - 1, whole]);
            }
        }
    }
}

impl Found {
    fn is_of(&self, (model, policy): &(Model, Policy)) -> bool {
        // Boots and cuts cost slots; few records are written, so that few are lost.
        let kept = Kept { openings: 3, refusals: 3 };
        model.lists(&self.list, kept).is_ok()
            && model.makes(&self.tally).is_ok()
            && model.concluded(&self.says).is_ok()
            && self.policy == *policy
    }
}

fn numbers(list: &List) -> Vec<u32> {
    list.iter().map(|(seq, _)| seq.0).collect()
}

/// What is written then gets numbers that nothing else had, and stays.
fn goes_on<const WORD: usize, const PAGE: usize>(flash: Fickle<WORD, PAGE>, found: &Found) {
    let (mut store, _) = boot(flash.powered(0));
    for write in [&wrong(7), &OPENED, &Write::Tally(Tally::Counted(number(7)))] {
        assert_eq!(put(&mut store, write), Ok(()));
    }
    let flash = store.into_flash();
    let last = numbers(&found.list).last().copied().unwrap_or(0);
    let mut seen: Option<Found> = None;
    for way in 0..flash.ways() {
        let (_, more) = boot(flash.clone().powered(way));
        let new: List = more.list.iter().copied().filter(|(seq, _)| seq.0 > last).collect();
        let old = &more.list[..more.list.len() - new.len()];
        assert!(found.list.ends_with(old), "{:?} {old:?}", found.list);
        assert_eq!(
            new.iter().map(|(_, r)| Write::Record(*r)).collect::<Vec<_>>(),
            [wrong(7), OPENED]
        );
        assert!(seen.replace(more.clone()).is_none_or(|seen| seen == more));
    }
}

/// What the power ends in.
#[derive(Clone, Copy)]
enum Flight {
    Write(Write),
    /// A change of the settings, in its last steps: before them nothing counts.
    Edit,
}

const CHANGED: Policy = Policy { wrong_codes: 9, ..Policy::DEFAULT };
const CHANGE: Record = Record { at: None, event: Event::LeftOpen };

impl Flight {
    fn take_off<const WORD: usize, const PAGE: usize>(
        self,
        store: &mut Lock<WORD, PAGE>,
    ) -> Result<(), StoreFault> {
        match self {
            Self::Write(write) => store.write(&write),
            Self::Edit => store.edit(&Edit::Policy(CHANGED, None), &CHANGE),
        }
    }

    fn lands(self, (model, policy): &mut (Model, Policy)) {
        match self {
            Self::Write(write) => model.write(&write),
            Self::Edit => {
                model.records.push(CHANGE);
                *policy = CHANGED;
            }
        }
    }
}

/// Each kind of write cut at each of its steps, and the rest after it, in a lock
/// whose rings and tally are filled to any place, with either ring's record the
/// newest; then the boots.
fn explore_all<const WORD: usize, const PAGE: usize>(
    fills: impl IntoIterator<Item = usize>,
    flights: &[Flight],
    depth: [usize; 2],
) -> usize {
    let mut states = 0;
    for fill in fills {
        for newest in [&[][..], &[wrong(5)], &[OPENED], &[wrong(5), SHUT], &[SHUT, wrong(5)]] {
            let mut writes = vec![SHUT; fill];
            writes.extend(vec![wrong(4); fill]);
            writes.extend_from_slice(newest);
            for flight in flights {
                states += explore_flight::<WORD, PAGE>(&writes, *flight, depth);
            }
        }
    }
    states
}

fn explore_flight<const WORD: usize, const PAGE: usize>(
    writes: &[Write],
    flight: Flight,
    depth: [usize; 2],
) -> usize {
    let mut before = (Model::default(), Policy::DEFAULT);
    writes.iter().for_each(|write| before.0.write(write));
    let mut after = before.clone();
    flight.lands(&mut after);
    let may_be = [before, after.clone()];
    let mut exploration = Exploration::<WORD, PAGE> { may_be, seen: HashSet::new() };
    let mut whole = lived::<WORD, PAGE>(writes);
    let begins = whole.flash_mut().steps();
    assert_eq!(flight.take_off(&mut whole), Ok(()));
    let last = whole.flash_mut().steps() - begins;
    for step in last.saturating_sub(8).. {
        let mut store = lived(writes);
        store.flash_mut().arm(step);
        if flight.take_off(&mut store).is_ok() {
            exploration.may_be = [after.clone(), after.clone()];
            if store.tend().is_ok() {
                break;
            }
        }
        exploration.explore(&store.into_flash(), None, depth);
    }
    exploration.seen.len()
}

const WRITES: [Flight; 3] =
    [Flight::Write(OPENED), Flight::Write(wrong(9)), Flight::Write(Write::Tally(Tally::Penalty))];

/// A second cut at every step of each boot. A page has eight slots, so that the
/// copies come to a page of their own now and then.
#[test]
fn boots_agree_after_two_cuts() {
    let states = explore_all::<32, 256>(0..10, &WRITES, [1, 1]);
    assert!(states > 9_000, "{states}");
    let states = explore_all::<32, 512>([0, 7, 14, 15, 16], &WRITES, [1, 1]);
    assert!(states > 4_000, "{states}");
    let states = explore_all::<32, 256>([7], &[Flight::Edit], [1, 1]);
    assert!(states > 8_000, "{states}");
}

/// And a third one at every step of each boot after that.
#[test]
fn boots_agree_after_three_cuts() {
    let states = explore_all::<32, 256>([7], &WRITES, [2, 1]);
    assert!(states > 12_000, "{states}");
}
