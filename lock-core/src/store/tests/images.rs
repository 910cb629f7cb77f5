//! R7: whatever lies in flash, a mount returns, what it lists rises, and a
//! write that it reports as durable is there after the next boot.
//!
//! Images are random, or a used lock's with pieces flipped, copied, erased,
//! zeroed or filled at random and given a right check value.

use std::sync::OnceLock;

use emulated_board::flash::Chip;
use emulated_board::fuse::Fuse;

use super::super::bytes::seal;
use super::super::tally_slot::CHECKPOINT;
use super::super::{FlashStore, Layout, SLOT};
use super::model::listed;
use super::*;
use crate::audit::Seq;
use crate::port::Reads;
use crate::rules::Days;

/// A small generator, so that a failing image is one number: xorshift64 of
/// Marsaglia's "Xorshift RNGs".
struct Dice(u64);

impl Dice {
    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn below(&mut self, n: usize) -> usize {
        usize::try_from(self.next() % u64::try_from(n).unwrap()).unwrap()
    }

    fn fill(&mut self, bytes: &mut [u8]) {
        for chunk in bytes.chunks_mut(8) {
            chunk.copy_from_slice(&self.next().to_le_bytes()[..chunk.len()]);
        }
    }
}

/// A lock in its middle age.
fn used_image(layout: Layout) -> Flash<4, 256> {
    static IMAGE: OnceLock<Chip<4, 256, Vec<u8>>> = OnceLock::new();
    let make = || {
        let mut store = formatted::<4, 256>(layout);
        for n in 0..60u8 {
            let who = number(n);
            let at = Some(Utc::from_secs(u32::from(n)));
            let people = People { first: who, second: None };
            let outcome = Outcome::Plain;
            for event in [Event::WrongCode { who }, Event::Released { people, outcome }] {
                assert!(put(&mut store, &Write::Record(Record { at, event })).is_ok());
            }
            assert!(put(&mut store, &Write::Tally(Tally::Counted(who))).is_ok());
        }
        store.into_flash().into_chip()
    };
    RamFlash::new(IMAGE.get_or_init(make).clone(), Fuse::new())
}

/// Spoils a piece of `image`.
fn spoil(image: &mut [u8], dice: &mut Dice) {
    let slots = image.len() / SLOT;
    let at = dice.below(slots) * SLOT;
    let page = at / 256 * 256;
    match dice.below(7) {
        0 => image[at + dice.below(SLOT)] ^= 1 << dice.below(8),
        1 => {
            let from = dice.below(slots) * SLOT;
            image.copy_within(from..from + SLOT, at);
        }
        2 => image[page..page + 256].fill(0xFF),
        3 => image[at..at + SLOT].fill(0),
        4 => {
            let from = dice.below(slots / 8) * 256;
            image.copy_within(from..from + 256, page);
        }
        5 => {
            // A checkpoint of anything at all.
            let mut block = [0; CHECKPOINT];
            block.copy_from_slice(&image[page..page + CHECKPOINT]);
            let end = 13 + dice.below(100);
            dice.fill(&mut block[1..end]);
            seal(&mut block);
            image[page..page + CHECKPOINT].copy_from_slice(&block);
        }
        _ => {
            let mut slot = [0; SLOT];
            slot.copy_from_slice(&image[at..at + SLOT]);
            let from = dice.below(28);
            dice.fill(&mut slot[from..28]);
            slot[0] = u8::try_from(dice.below(256)).unwrap();
            seal(&mut slot);
            image[at..at + SLOT].copy_from_slice(&slot);
        }
    }
}

fn boots(flash: Flash<4, 256>, layout: Layout) -> Result<(), TestCaseError> {
    let (mut store, _) = FlashStore::mount(flash, layout);
    let list = listed(&mut store);
    prop_assert!(list.windows(2).all(|pair| pair[0].0 < pair[1].0));
    for n in 0..100 {
        let _ = store.holder(number(n));
    }
    for id in TimetableId::ALL {
        let _ = store.day(id, Date::from_days(20_000));
    }
    let written = Record { at: None, event: Event::Opened };
    let mut durable = put(&mut store, &Write::Record(written)).is_ok();
    for event in [Event::WrongCode { who: number(4) }, Event::Forced] {
        let again = put(&mut store, &Write::Record(Record { at: None, event })).is_ok();
        durable = durable && again;
    }
    let _ = store.write(&Write::Tally(Tally::Served));
    let (mut store, _) = FlashStore::mount(store.into_flash(), layout);
    if durable {
        let list = listed(&mut store);
        let kinds: Vec<_> = list.iter().rev().take(3).map(|(_, r)| r.event.kind()).collect();
        prop_assert_eq!(kinds, ["forced", "wrong-code", "opened"]);
        let newest = list.last().map_or(Seq(0), |(seq, _)| *seq);
        prop_assert_eq!(store.newest().map(|(seq, _)| seq), Some(newest));
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(10_000))]

    #[test]
    fn every_image_boots(seed in 1..u64::MAX) {
        let layout = Layout::smallest(256).unwrap();
        let mut dice = Dice(seed);
        let mut flash = erased::<4, 256>(layout);
        dice.fill(flash.content_mut());
        let (mut store, found) = FlashStore::mount(flash, layout);
        prop_assert_eq!(found.known.err(), Some(Fault::Settings));
        prop_assert!(listed(&mut store).is_empty());
        boots(store.into_flash(), layout)?;
    }

    #[test]
    fn every_spoiled_image_boots(seed in 1..u64::MAX) {
        let layout = Layout::smallest(256).unwrap();
        let mut dice = Dice(seed);
        let mut flash = used_image(layout);
        for _ in 0..=dice.below(8) {
            spoil(flash.content_mut(), &mut dice);
        }
        boots(flash, layout)?;
    }
}
