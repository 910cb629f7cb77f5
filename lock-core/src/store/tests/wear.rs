//! How often pages are erased: what `docs/power-loss.md` computes for twenty
//! years of openings is what a store does.

use super::super::Layout;
use super::*;

/// Tally entries and records that an opening writes: counted, cleared; released,
/// opened, secured.
const ENTRIES: u32 = 2;
const RECORDS: u32 = 3;

fn open_and_close(store: &mut FlashStore<impl NorFlash>, at: u32) {
    let (who, at) = (number(7), Some(Utc::from_secs(at)));
    let people = People { first: who, second: None };
    let record = |event| Write::Record(Record { at, event });
    let (released, opened) = (Event::Released { people, outcome: Outcome::Plain }, Event::Opened);
    let secured = Event::Secured { open_for: Seconds::new(60) };
    for write in [
        Write::Tally(Tally::Counted(who)),
        record(released),
        Write::Tally(Tally::Cleared(who)),
        record(opened),
        record(secured),
    ] {
        assert_eq!(put(store, &write), Ok(()));
    }
}

/// Erases of each page of a region by `openings`, as computed: one for each
/// page that was begun.
fn computed(slots_used: u32, slots_a_page: u32, pages: u32) -> u32 {
    slots_used / slots_a_page / pages
}

fn wears_as_computed<const WORD: usize, const PAGE: usize>() {
    let layout = Layout::for_pages_of(PAGE).unwrap();
    let mut store = formatted::<WORD, PAGE>(layout);
    let before = store.flash_mut().erases().to_vec();
    let openings = 12_000;
    for n in 0..openings {
        open_and_close(&mut store, n);
    }
    let flash = store.into_flash();
    let worn: Vec<u32> = flash.erases().iter().zip(&before).map(|(now, then)| now - then).collect();
    let slots = u32::try_from(PAGE / 32).unwrap();
    let tally = usize::try_from(2 * layout.bank_pages).unwrap();
    let ring = tally + usize::try_from(layout.tally_pages).unwrap();
    let end = ring + usize::try_from(layout.openings_pages).unwrap();
    for (pages, expected) in [
        (&worn[..tally], 0),
        (&worn[tally..ring], computed(openings * ENTRIES, slots - 6, layout.tally_pages)),
        (&worn[ring..end], computed(openings * RECORDS, slots, layout.openings_pages)),
    ] {
        for erases in pages {
            assert!(erases.abs_diff(expected) <= 1, "{PAGE}: {erases} erases, not {expected}");
        }
    }
}

#[test]
fn pages_are_erased_as_often_as_computed() {
    wears_as_computed::<8, 256>();
    wears_as_computed::<8, 512>();
    wears_as_computed::<8, 1_024>();
    wears_as_computed::<8, 2_048>();
    wears_as_computed::<32, 4_096>();
}

/// Openings a day that flash of 10,000 cycles lasts for twenty years, as the
/// document says.
#[test]
fn the_table_of_the_document_is_right() {
    let a_day = |page: usize| {
        let layout = Layout::for_pages_of(page).unwrap();
        let slots = u64::try_from(page / 32).unwrap();
        let tally = 10_000 * u64::from(layout.tally_pages) * (slots - 6) / u64::from(ENTRIES);
        let ring = 10_000 * u64::from(layout.openings_pages) * slots / u64::from(RECORDS);
        tally.min(ring) / (20 * 365 + 5)
    };
    assert_eq!([256, 512, 1_024, 2_048, 4_096].map(a_day), [43, 54, 71, 158, 334]);
}
