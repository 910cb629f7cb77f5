//! Files and cuts of the power. Source: R6, and section 12 of the contract: *the older
//! file counts until the newer one does, whole*.
//!
//! A life with files is played to every cut point in every way that a step can be torn,
//! and boots twice; then, of some, with a second cut in the first of these boots.

use emulated_board::fuse::{Class, Cut};

use super::super::{FlashStore, Layout};
use super::files::{
    boot, edit, file, in_force, loaded, monday, next_key, paired, pairing, sealed, stage, until,
};
use super::*;
use crate::port::Reads;
use crate::rules::Days;
use crate::settings::{Edit, FileState};
use crate::time::Zone;
use crate::timetable::Day;

const WORD: usize = 32;
const PAGE: usize = 256;

/// Words as large as they can be: the fewest cuts that are all of them.
type Coarse = FlashStore<Flash<WORD, PAGE>>;

/// What a lock asks of its store around files.
enum Step {
    Stage(u8, Vec<u8>),
    Open,
    Edit(Edit),
    Rest,
}

fn take(store: &mut Coarse, step: &Step) -> Result<(), StoreFault> {
    match step {
        Step::Stage(index, piece) => store.stage(*index, piece),
        Step::Open => store.staged().map(|_| ()).map_err(|_| StoreFault),
        Step::Edit(edit) => store.edit(edit, &loaded(9)),
        Step::Rest => store.tend().map(|_| ()),
    }
}

/// A file that opens Monday of A at that hour.
fn from(hour: u16) -> crate::link::timetable_file::TimetableFile {
    let mut file = file(9);
    let minute = |m| Minute::new(m).unwrap();
    let window = Window::new(minute(hour * 60), minute(1_080));
    file.calendar.weeks[0][0] = window.into_iter().collect();
    file
}

/// What is asked in one go, between two boots: staged pieces outlive none.
fn life() -> Vec<Vec<Step>> {
    let staged = |version: u32, edits: Vec<Edit>| {
        let hour = 9 + u16::try_from(version % 3).unwrap();
        let pieces = sealed(&pairing(), version, &from(hour));
        let steps = (0..).zip(pieces).map(|(index, piece)| Step::Stage(index, piece));
        let edits = edits.into_iter().flat_map(|edit| [Step::Edit(edit), Step::Rest]);
        steps.chain([Step::Open, Step::Rest]).chain(edits).collect::<Vec<_>>()
    };
    let alone = |edit| vec![Step::Edit(edit), Step::Rest];
    let warden = || plain_settings().holders[1].clone().unwrap();
    vec![
        staged(2, vec![Edit::Wait(2, until())]),
        alone(Edit::Holder(number(7), Some(warden()))),
        // Nobody accepts it.
        staged(3, vec![]),
        // It takes the place of the one that waits.
        staged(4, vec![Edit::Wait(4, until())]),
        // The older one falls due while the newer one is on the screen.
        staged(5, vec![Edit::Adopt(4), Edit::Wait(5, until())]),
        // It is nowhere wider.
        staged(6, vec![Edit::Adopt(6)]),
        staged(7, vec![Edit::Wait(7, until())]),
        alone(Edit::Adopt(7)),
        staged(8, vec![Edit::Wait(8, until()), Edit::Pairing(next_key())]),
        alone(Edit::Reset(LockKey::from_bytes([9; 32]))),
        alone(Edit::Commission(LockKey::from_bytes([8; 32]), number(1), warden())),
    ]
}

/// Everything that files change, and the rows beside it.
type Seen = (FileState, [Day; 2], [Zone; 2], Option<u32>, u32, u8, Option<Seq>);

fn seen(store: &mut Coarse) -> Seen {
    let (id, date) = (TimetableId::A, monday());
    (
        store.file_state().unwrap(),
        [store.day(id, date).unwrap(), store.day_to_come(id, date).unwrap()],
        [store.zone().unwrap(), store.zone_to_come().unwrap()],
        store.pairing().ok().unwrap().map(|pairing| pairing.generation()),
        store.last_generation().unwrap(),
        store.enrolled().unwrap(),
        store.newest().map(|(seq, _)| seq),
    )
}

/// What a go does, uncut: what is seen before it and after each step, and how many words
/// and pages had been begun by then.
fn told(flash: &Flash<WORD, PAGE>, layout: Layout, go: &[Step]) -> (Vec<(u64, Seen)>, Coarse) {
    let (mut store, _) = FlashStore::mount(flash.clone(), layout);
    let from = store.flash_mut().steps();
    let mut told = vec![(0, seen(&mut store))];
    for step in go {
        assert_eq!(take(&mut store, step), Ok(()));
        told.push((store.flash_mut().steps() - from, seen(&mut store)));
    }
    (told, store)
}

/// Plays a go until it is cut short.
fn cut_short(flash: &Flash<WORD, PAGE>, layout: Layout, go: &[Step], cut: Cut) -> Coarse {
    let (mut store, _) = FlashStore::mount(flash.clone(), layout);
    store.flash_mut().power().arm(cut);
    let done = go.iter().try_for_each(|step| take(&mut store, step));
    assert_eq!(done, Err(StoreFault), "{cut:?}");
    store
}

/// Two boots find the same, and one of those two.
fn boots(torn: Coarse, around: [&Seen; 2]) -> (Coarse, FileState) {
    let bound = u64::from(torn.layout.boot_steps(WORD));
    let mut store = torn;
    let mut once = None;
    for _ in 0..2 {
        let from = store.flash_mut().steps();
        let (mut booted, found) = boot(store);
        assert!(booted.flash_mut().steps() - from <= bound);
        let now = seen(&mut booted);
        assert!(around.contains(&&now), "{now:?}, not one of {around:?}");
        assert_eq!(found.known.ok().unwrap().file, now.0);
        assert!(once.is_none_or(|once| once == now), "boots do not agree");
        once = Some(now);
        store = booted;
    }
    let state = once.unwrap().0;
    (store, state)
}

/// Another file can come, whatever lies there, unless nobody has a key.
fn goes_on(mut store: Coarse) {
    let Some(pairing) = store.pairing().ok().flatten() else { return };
    assert!(store.tend().is_ok());
    assert_eq!(stage(&mut store, &sealed(&pairing, 9, &file(1))), Ok(()));
    assert_eq!(edit(&mut store, &Edit::Adopt(9)), Ok(()));
    assert_eq!(store.file_state(), Ok(in_force(9)));
}

/// Cuts every go at every step, torn in that way. How many cuts that were.
fn cut_everywhere(class: Class) -> u64 {
    let layout = Layout::smallest(PAGE).unwrap();
    let mut flash = paired::<WORD, PAGE>(layout).into_flash();
    let mut cuts = 0;
    for go in life() {
        let (told, whole) = told(&flash, layout, &go);
        let count = told.last().unwrap().0;
        for after in 0..count {
            let cut = Cut { after, class, seed: cuts };
            let torn = cut_short(&flash, layout, &go, cut);
            let at = told.iter().position(|(steps, _)| *steps > after).unwrap();
            let around = [&told[at - 1].1, &told[at].1];
            if cuts % 11 == 3 {
                // The power ends again while the lock boots.
                let mut flash = torn.into_flash();
                flash.power_cycle();
                let again =
                    Cut { after: cuts % 7, class: Class::ALL[cut_class(cuts)], seed: !cuts };
                flash.power().arm(again);
                boots(FlashStore::mount(flash, layout).0, around);
            } else {
                let (store, _) = boots(torn, around);
                if cuts % 11 == 5 {
                    goes_on(store);
                }
            }
            cuts += 1;
        }
        flash = whole.into_flash();
        flash.power_cycle();
    }
    cuts
}

fn cut_class(cuts: u64) -> usize {
    usize::try_from(cuts / 11 % 8).unwrap()
}

macro_rules! at_any_step {
    ($($name:ident: $class:ident)+) => {
        $(#[test]
        fn $name() {
            let cuts = cut_everywhere(Class::$class);
            assert!(cuts > 3_000, "{cuts}");
        })+
    };
}

at_any_step! {
    a_cut_before_any_step_leaves_a_file_as_it_was_or_as_it_will_be: Before
    so_does_one_after_it: After
    so_does_one_that_leaves_its_front: Prefix
    so_does_one_that_leaves_its_back: Suffix
    so_does_one_that_leaves_some_bits: Subset
    so_does_one_that_leaves_anything: Random
    so_does_one_that_leaves_unstable_bits: Unstable
    so_does_one_that_looks_done: LooksDone
}
