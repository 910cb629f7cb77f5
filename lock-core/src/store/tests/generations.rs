//! What says which page of the tally is in force, and what no page can have:
//! whatever a lock comes through, or somebody puts into its flash, a lock that
//! booted well does not lose its settings later. Sources: invariants 7 and 12
//! of the fault model, R2 and R7.

use super::super::bytes::seal;
use super::super::tally_slot::CHECKPOINT;
use super::super::{FlashStore, Layout, SLOT};
use super::*;
use crate::settings::Edit;

const PAGE: usize = 256;

/// Where a region of the smallest layout begins, in pages.
const BANK_1: u32 = 27;
const TALLY: u32 = 54;
const OPENINGS: u32 = 56;

fn smallest() -> Layout {
    Layout::smallest(PAGE).unwrap()
}

fn opened() -> Write {
    Write::Record(Record { at: None, event: Event::Opened })
}

fn counted() -> Write {
    Write::Tally(Tally::Counted(number(5)))
}

/// Changes `N` bytes of the flash and gives them their check value again.
fn forge<const N: usize>(
    flash: &mut Flash<4, PAGE>,
    page: u32,
    slot: usize,
    change: impl FnOnce(&mut [u8; N]),
) {
    let at = usize::try_from(page).unwrap() * PAGE + slot * SLOT;
    let block = flash.content_mut()[at..].first_chunk_mut::<N>().unwrap();
    change(block);
    seal(block);
}

/// Boots so often, with a try counted each time or without; whether each boot
/// found the settings.
fn boots(mut flash: Flash<4, PAGE>, times: u32, counts: bool) -> Vec<bool> {
    let mut found_them = vec![];
    for _ in 0..times {
        let (mut store, found) = FlashStore::mount(flash, smallest());
        found_them.push(found.known.is_ok());
        if counts {
            let _refused_without_a_tally = put(&mut store, &counted());
        }
        flash = store.into_flash();
    }
    found_them
}

fn all_the_same(found: &[bool]) -> bool {
    found.iter().all(|each| Some(each) == found.first())
}

/// Every second boot begins a page of the tally here: were it not said again
/// which page is in force, the newest record would seem to be ahead of it
/// after 256 boots that came to nothing else.
#[test]
fn boots_without_end_keep_the_settings() {
    let mut store = formatted::<4, PAGE>(smallest());
    assert!(put(&mut store, &opened()).is_ok());
    let found = boots(store.into_flash(), 600, false);
    assert_eq!(found.iter().position(|found| !found), None);
}

/// The same where the power goes at the same step of each of these boots.
#[test]
fn boots_that_are_cut_without_end_keep_the_settings() {
    let mut store = formatted::<4, PAGE>(smallest());
    assert!(put(&mut store, &opened()).is_ok());
    let used = store.into_flash();
    for step in 0..60 {
        let mut flash = used.clone();
        for _ in 0..600 {
            flash.power_cycle();
            flash.cut_after(step);
            let (store, _) = FlashStore::mount(flash, smallest());
            flash = store.into_flash();
        }
        flash.power_cycle();
        let (_, found) = FlashStore::mount(flash, smallest());
        assert!(found.known.is_ok(), "{step}");
    }
}

/// The same where the power goes each time as late as can be without a record
/// written again: no page of the tally is begun before.
#[test]
fn boots_that_are_cut_before_they_say_it_keep_the_settings() {
    let mut store = formatted::<4, PAGE>(smallest());
    assert!(put(&mut store, &opened()).is_ok());
    let mut flash = store.into_flash();
    let rings = usize::try_from(OPENINGS).unwrap() * PAGE;
    for _ in 0..300 {
        let cut = |step| {
            let mut cut = flash.clone();
            cut.power_cycle();
            cut.cut_after(step);
            FlashStore::mount(cut, smallest()).0.into_flash()
        };
        let unsaid = |after: &Flash<4, PAGE>| after.content()[rings..] == flash.content()[rings..];
        flash = (0..70).rev().map(cut).find(unsaid).unwrap();
    }
    flash.power_cycle();
    let (_, found) = FlashStore::mount(flash, smallest());
    assert!(found.known.is_ok());
}

/// Whatever the newest record says of the tally: the first boot says so or
/// none does.
#[test]
fn what_a_record_says_of_the_tally_holds_or_is_refused_at_once() {
    let mut store = formatted::<4, PAGE>(smallest());
    assert!(put(&mut store, &opened()).is_ok());
    let flash = store.into_flash();
    let mut good = 0;
    for byte in 0..=255 {
        let mut flash = flash.clone();
        forge::<SLOT>(&mut flash, OPENINGS, 0, |slot| slot[7] = byte);
        let found = boots(flash, 9, true);
        assert!(all_the_same(&found), "{byte}: {found:?}");
        good += u32::from(found[0]);
    }
    assert_eq!(good, 129, "half of them are behind");
}

/// The same for the record of a change that waits in a settings bank.
#[test]
fn nor_does_a_change_say_it_of_a_tally_that_is_none() {
    let mut store = formatted::<4, PAGE>(smallest());
    let record = Record { at: None, event: Event::Opened };
    assert!(store.edit(&Edit::Policy(Policy::DEFAULT, None), &record).is_ok());
    let mut flash = store.into_flash();
    // As if the power had gone before the record came into the ring.
    let ring = usize::try_from(OPENINGS).unwrap() * PAGE;
    flash.content_mut()[ring..ring + PAGE].fill(0xFF);
    for byte in 0..=255 {
        let mut flash = flash.clone();
        forge::<SLOT>(&mut flash, BANK_1, 3, |slot| slot[7] = byte);
        let found = boots(flash, 9, true);
        assert_eq!(found, [true; 9], "{byte}");
    }
}

/// No flash lives long enough for such a generation, and none could follow the
/// last one.
const IMPOSSIBLE: [u32; 4] = [u32::MAX, u32::MAX - 1, u32::MAX - 2, u32::MAX / 2];

#[test]
fn a_page_of_the_tally_that_cannot_be_is_refused_at_once() {
    let mut store = formatted::<4, PAGE>(smallest());
    assert!(put(&mut store, &opened()).is_ok());
    let flash = store.into_flash();
    for generation in IMPOSSIBLE {
        let mut flash = flash.clone();
        let bytes = generation.to_le_bytes();
        forge::<SLOT>(&mut flash, OPENINGS, 0, |slot| slot[7] = bytes[0]);
        forge::<CHECKPOINT>(&mut flash, TALLY, 0, |block| block[4..8].copy_from_slice(&bytes));
        assert_eq!(boots(flash, 9, true), [false; 9], "{generation}");
    }
}

#[test]
fn what_is_written_behind_a_page_that_cannot_be_is_listed() {
    let mut store = formatted::<4, PAGE>(smallest());
    assert!(put(&mut store, &opened()).is_ok());
    let flash = store.into_flash();
    let first = usize::try_from(OPENINGS).unwrap() * PAGE;
    let record = *flash.content()[first..].first_chunk::<SLOT>().unwrap();
    for generation in IMPOSSIBLE {
        let mut flash = flash.clone();
        // Pages and generations go up together, from the first page and 1.
        forge::<SLOT>(&mut flash, OPENINGS + (generation - 1) % 3, 0, |slot| {
            *slot = record;
            slot[24..28].copy_from_slice(&generation.to_le_bytes());
        });
        let mut newest = None;
        for _ in 0..60 {
            let (mut store, found) = FlashStore::mount(flash, smallest());
            assert!(found.known.is_ok(), "{generation}");
            assert!(newest.is_none() || store.newest() == newest, "{generation}");
            assert!(put(&mut store, &opened()).is_ok(), "{generation}");
            newest = store.newest();
            flash = store.into_flash();
        }
    }
}
