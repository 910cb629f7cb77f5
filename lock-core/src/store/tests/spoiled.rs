//! Cells that fail at rest: one flipped bit changes nothing at all, two are
//! never passed over in silence. Source: invariant 12 of the fault model, and
//! R2, R6 and R7; `docs/power-loss.md` has the sweeps over every bit.

use super::super::bytes::seal;
use super::super::{Layout, SLOT};
use super::model::{listed, lost};
use super::*;
use crate::audit::{Ring, Seq};
use crate::recovered::Recovered;

/// A lock with something in every region, rings turned over.
fn used() -> (Flash<4, 256>, Layout) {
    let layout = Layout::smallest(256).unwrap();
    let mut store = formatted::<4, 256>(layout);
    for n in 0..40u8 {
        let (who, at) = (number(n), Some(Utc::from_secs(u32::from(n))));
        let event = Event::Released {
            people: People { first: who, second: None },
            outcome: Outcome::Duress,
        };
        for event in [Event::WrongCode { who }, event] {
            assert!(put(&mut store, &Write::Record(Record { at, event })).is_ok());
        }
        assert!(put(&mut store, &Write::Tally(Tally::Counted(who))).is_ok());
    }
    (store.into_flash(), layout)
}

type Seen = (Vec<(Seq, Record)>, u32, Recovered);

fn seen(flash: Flash<4, 256>, layout: Layout) -> Seen {
    let (mut store, found) = FlashStore::mount(flash, layout);
    (listed(&mut store), lost(&mut store), found)
}

#[test]
fn one_flipped_bit_changes_nothing() {
    let (flash, layout) = used();
    let (list, none, found) = seen(flash.clone(), layout);
    assert_eq!(none, 0);
    for bit in (0..flash.content().len() * 8).step_by(5) {
        let mut flash = flash.clone();
        flash.content_mut()[bit / 8] ^= 1 << (bit % 8);
        let (same, lost, again) = seen(flash, layout);
        assert!(again.known.is_ok(), "{bit}");
        assert_eq!((again.tally, again.floor), (found.tally.clone(), found.floor), "{bit}");
        assert_eq!(again.last_word, found.last_word, "{bit}");
        // A bit in the page behind the newest may look like a record that was
        // being written: one number may be missing, none of those listed.
        assert!(same == list && lost <= 1, "{bit}");
    }
}

/// Two flips in one record: it is missing, and said to be.
#[test]
fn a_record_that_cannot_be_read_leaves_a_gap() {
    let (flash, layout) = used();
    let (list, _, _) = seen(flash.clone(), layout);
    let openings = usize::try_from((2 * layout.bank_pages + layout.tally_pages) * 256).unwrap();
    let mut gaps = 0;
    for slot in 0..6 * 8 {
        let mut flash = flash.clone();
        flash.content_mut()[openings + slot * 32 + 9] ^= 0b101;
        let (left, lost, _) = seen(flash, layout);
        let missing: Vec<_> = list.iter().filter(|item| !left.contains(item)).collect();
        // A ring without its newest record has the one before it copied, for
        // which a page may have to be begun.
        let newest = |ring| list.iter().rev().find(|(_, r)| r.event.ring() == ring);
        let ends = [newest(Ring::Openings), newest(Ring::Refusals)];
        if missing.iter().any(|item| ends.contains(&Some(item))) {
            continue;
        }
        assert!(missing.len() <= 1);
        let Some((seq, record)) = missing.first() else { continue };
        // At either end of its ring it looks like one that was overwritten, or
        // not written yet.
        let other = left.iter().find(|(_, r)| r.event.ring() != record.event.ring());
        let oldest = other.map_or(Seq(0), |(seq, _)| *seq);
        let mut later =
            left.iter().filter(|(s, r)| s > seq && r.event.ring() == record.event.ring());
        // Nor is it told right before the oldest record of the other ring.
        if *seq < oldest && later.next().is_some_and(|(next, _)| *next > oldest) {
            continue;
        }
        let mut others = left.iter().filter(|(_, r)| r.event.ring() == record.event.ring());
        if others.clone().any(|(other, _)| other < seq) && others.any(|(other, _)| other > seq) {
            assert_eq!(lost, 1, "slot {slot}");
            gaps += 1;
        }
    }
    assert!(gaps > 10, "{gaps}");
}

/// A tally that is lost stays lost, also where an older page of it is whole:
/// what is written meanwhile does not make that one good.
#[test]
fn an_older_tally_does_not_come_back() {
    let layout = Layout { tally_pages: 4, ..Layout::smallest(512).unwrap() };
    let mut store = formatted::<4, 512>(layout);
    let who = number(5);
    let wrong = Write::Record(Record { at: None, event: Event::WrongCode { who } });
    for _ in 0..25 {
        assert!(put(&mut store, &Write::Tally(Tally::Counted(who))).is_ok());
    }
    assert!(put(&mut store, &wrong).is_ok());
    let mut flash = store.into_flash();
    // The page in force is the third one: its checkpoint has two flipped bits.
    let tally = usize::try_from(2 * layout.bank_pages).unwrap() * 512;
    flash.content_mut()[tally + 2 * 512 + 20] ^= 0b11;
    for _ in 0..4 {
        let (mut store, found) = FlashStore::mount(flash, layout);
        assert_eq!(found.known.err(), Some(Fault::Settings));
        let fault = Write::Record(Record { at: None, event: Event::PoweredUp { unrecorded: 0 } });
        assert!(put(&mut store, &fault).is_ok() && put(&mut store, &wrong).is_ok());
        flash = store.into_flash();
    }
}

/// A whole record in a page that cannot have its generation is none: whatever
/// somebody put there, what is reported durable afterwards is listed.
#[test]
fn a_record_in_a_page_of_another_generation_is_none() {
    let layout = Layout::smallest(256).unwrap();
    let mut store = formatted::<4, 256>(layout);
    let opened = Write::Record(Record { at: None, event: Event::Opened });
    for _ in 0..3 {
        assert!(put(&mut store, &opened).is_ok());
    }
    let mut flash = store.into_flash();
    let ring = usize::try_from(2 * layout.bank_pages + layout.tally_pages).unwrap() * 256;
    let mut slot = [0; SLOT];
    slot.copy_from_slice(&flash.content()[ring..ring + SLOT]);
    // The third page has the generations 3, 6, 9.
    slot[24..28].copy_from_slice(&2u32.to_le_bytes());
    seal(&mut slot);
    flash.content_mut()[ring + 512..ring + 512 + SLOT].copy_from_slice(&slot);
    let (mut store, _) = FlashStore::mount(flash, layout);
    let left_open = Record { at: None, event: Event::LeftOpen };
    assert!(put(&mut store, &Write::Record(left_open)).is_ok());
    let last = listed(&mut store).last().map(|(_, record)| *record);
    assert_eq!(
        (last, store.newest().map(|(_, record)| record)),
        (Some(left_open), Some(left_open))
    );
}

/// A page of the tally whose only entries are torn: the boot writes one that
/// changes nothing, and what is counted behind it follows on that one. So a
/// count that is lost later is missed.
#[test]
fn what_follows_on_torn_entries_is_missed_when_it_is_lost() {
    let layout = Layout::smallest(512).unwrap();
    let mut flash = formatted::<4, 512>(layout).into_flash();
    let entry = |slot| usize::try_from(2 * layout.bank_pages).unwrap() * 512 + slot * SLOT;
    // The first entry, right behind the checkpoint.
    flash.content_mut()[entry(6)] = 0;
    let (mut store, found) = FlashStore::mount(flash, layout);
    assert!(found.known.is_ok());
    for n in [7, 8] {
        assert!(put(&mut store, &Write::Tally(Tally::Counted(number(n)))).is_ok());
    }
    let mut flash = store.into_flash();
    let (_, found) = FlashStore::mount(flash.clone(), layout);
    assert_eq!((found.known.is_ok(), found.tally.lock_count()), (true, 2));
    // The boot's own entry lies in slot 7; two flips in the first count.
    flash.content_mut()[entry(8)] ^= 0b11;
    let (_, found) = FlashStore::mount(flash, layout);
    assert_eq!(found.known.err(), Some(Fault::Settings));
}

/// Two flips in the tally: never a count that is lower than it was, unless it
/// is the newest entry's, which a power cut might have torn as well.
#[test]
fn lost_counts_are_no_reason_to_begin_at_zero() {
    let (flash, layout) = used();
    let (_, _, found) = seen(flash.clone(), layout);
    let tally = usize::try_from(2 * layout.bank_pages * 256).unwrap();
    let mut lost = 0;
    for byte in 0..2 * 256 {
        let mut flash = flash.clone();
        flash.content_mut()[tally + byte] ^= 0b11;
        let (_, _, again) = seen(flash, layout);
        let below = found.tally.lock_count().saturating_sub(again.tally.lock_count());
        match again.known {
            Ok(_) => assert!(below <= 1, "{byte}"),
            Err(fault) => {
                assert_eq!(fault, Fault::Settings);
                lost += 1;
            }
        }
    }
    assert!(lost >= 192, "the checkpoint in force has 192 bytes: {lost}");
}
