//! Where what lies: regions of whole pages, one behind the other.
//!
//! ```text
//! page 0   settings bank 0   bank_pages
//!          settings bank 1   bank_pages
//!          tally             tally_pages
//!          openings ring     openings_pages
//!          refusals ring     refusals_pages
//!          staging           staging_pages
//!          calendars 0 to 2  calendar_pages each
//! ```

use super::rows::{BANK_SLOTS, CALENDAR_SLOTS, CALENDARS};
use super::staging::STAGING_SLOTS;

/// Bytes of a slot: a record, a tally entry, a short row of the settings.
pub const SLOT: usize = 32;
/// The same, for addresses.
pub(super) const SLOT_BYTES: u32 = 32;

/// Records of openings and changes that [`Layout::for_pages_of`] keeps at the
/// least, at any moment.
pub const OPENINGS_KEPT: u32 = 1_000;

/// Records of refusals that it keeps at the least.
pub const REFUSALS_KEPT: u32 = 256;

/// How many pages each region has.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Layout {
    /// Pages of one settings bank; there are two banks.
    pub bank_pages: u32,
    /// Pages of the tally: two at least.
    pub tally_pages: u32,
    /// Pages of the ring of openings and changes: three at least.
    pub openings_pages: u32,
    /// Pages of the ring of refusals: three at least.
    pub refusals_pages: u32,
    /// Pages in which a sealed timetable file is put together.
    pub staging_pages: u32,
    /// Pages of one calendar; there is room for three.
    pub calendar_pages: u32,
}

impl Layout {
    /// The layout of a lock with pages of `page` bytes (a power of two, 256 to
    /// 4,096; otherwise `None`): [`OPENINGS_KEPT`] and [`REFUSALS_KEPT`]
    /// records, and a tally whose pages see fewer than 2,000 erases a year of
    /// busy use (60,000 entries; flash is rated for 10,000 erases or more).
    /// With pages of up to 2 KiB both rings together take 48 KiB at most.
    #[must_use]
    pub const fn for_pages_of(page: usize) -> Option<Self> {
        let Some(slots) = slots_a_page(page) else { return None };
        Some(Self {
            bank_pages: bank_pages(slots),
            tally_pages: match slots {
                ..=8 => 32,
                9..=16 => 8,
                _ => 4,
            },
            openings_pages: ring_pages(OPENINGS_KEPT, slots),
            refusals_pages: ring_pages(REFUSALS_KEPT, slots),
            staging_pages: divided_up(STAGING_SLOTS, slots),
            calendar_pages: divided_up(CALENDAR_SLOTS, slots),
        })
    }

    /// The smallest layout for pages of `page` bytes, for tests that turn
    /// every region over many times.
    #[must_use]
    pub const fn smallest(page: usize) -> Option<Self> {
        let Some(slots) = slots_a_page(page) else { return None };
        Some(Self {
            bank_pages: bank_pages(slots),
            tally_pages: 2,
            openings_pages: 3,
            refusals_pages: 3,
            staging_pages: divided_up(STAGING_SLOTS, slots),
            calendar_pages: divided_up(CALENDAR_SLOTS, slots),
        })
    }

    /// Pages of the whole store.
    #[must_use]
    pub const fn pages(&self) -> u32 {
        let behind = self.calendar(CALENDARS);
        behind.first
    }

    /// Bytes of the whole store with pages of `page` bytes; `None` for a size
    /// of page that no store takes.
    #[must_use]
    pub const fn bytes(&self, page: usize) -> Option<u32> {
        let Some(slots) = slots_a_page(page) else { return None };
        self.pages().checked_mul(slots.saturating_mul(SLOT_BYTES))
    }

    /// The most steps that a mount takes, words of `word` bytes programmed and
    /// pages erased: a slot in each ring, one for the record of a change, an
    /// entry of the tally, and twice a checkpoint with its entry; two pages in
    /// each ring, three of the tally, and the bank that is not in force.
    #[must_use]
    pub const fn boot_steps(&self, word: usize) -> u32 {
        let words_a_slot = match SLOT.checked_div(word) {
            Some(words) => words,
            None => SLOT,
        };
        let mut steps = self.bank_pages.saturating_add(7);
        let mut word = 0;
        while word < words_a_slot {
            steps = steps.saturating_add(18);
            word = word.saturating_add(1);
        }
        steps
    }

    /// Whether each region has the pages it needs, and a flash of `capacity`
    /// bytes in pages of `page` bytes has them all.
    #[must_use]
    pub fn fits(&self, page: usize, capacity: usize) -> bool {
        let Some(slots) = slots_a_page(page) else { return false };
        let capacity = u32::try_from(capacity).unwrap_or(u32::MAX);
        self.bank_pages >= bank_pages(slots)
            && self.tally_pages >= 2
            && self.openings_pages >= 3
            && self.refusals_pages >= 3
            && self.staging_pages >= divided_up(STAGING_SLOTS, slots)
            && self.calendar_pages >= divided_up(CALENDAR_SLOTS, slots)
            && self.bytes(page).is_some_and(|bytes| bytes <= capacity)
    }

    /// Records of openings and changes that are kept at the least while no
    /// power cut tears one: in the worst moment one page is erased and the
    /// newest has one record.
    #[must_use]
    pub const fn openings_kept(&self, page: usize) -> u32 {
        kept(self.openings_pages, page)
    }

    /// Records of refusals that are kept at the least; as above.
    #[must_use]
    pub const fn refusals_kept(&self, page: usize) -> u32 {
        kept(self.refusals_pages, page)
    }

    pub(super) const fn bank(&self, which: Which) -> Region {
        let first = match which {
            Which::First => 0,
            Which::Second => self.bank_pages,
        };
        Region { first, pages: self.bank_pages }
    }

    pub(super) const fn tally(&self) -> Region {
        Region { first: self.bank(Which::Second).end(), pages: self.tally_pages }
    }

    pub(super) const fn openings(&self) -> Region {
        Region { first: self.tally().end(), pages: self.openings_pages }
    }

    pub(super) const fn refusals(&self) -> Region {
        Region { first: self.openings().end(), pages: self.refusals_pages }
    }

    pub(super) const fn staging(&self) -> Region {
        Region { first: self.refusals().end(), pages: self.staging_pages }
    }

    /// A region for a calendar, by its number below [`CALENDARS`].
    pub(super) const fn calendar(&self, region: u8) -> Region {
        let mut first = self.staging().end();
        let mut before = 0;
        while before < region {
            first = first.saturating_add(self.calendar_pages);
            before = before.saturating_add(1);
        }
        Region { first, pages: self.calendar_pages }
    }
}

/// The last generation that a page of a ring or of the tally can have. Flash
/// wears out long before; what says otherwise was not written by a lock.
pub(super) const LAST_GENERATION: u32 = 1_000_000_000;

/// The generation after that one.
pub(super) const fn next_generation(generation: u32) -> Option<u32> {
    if generation < LAST_GENERATION { generation.checked_add(1) } else { None }
}

/// One of the two settings banks.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Which {
    First,
    Second,
}

/// A run of pages, counted from the start of the flash.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Region {
    pub(super) first: u32,
    pub(super) pages: u32,
}

impl Region {
    /// The page behind its last one.
    pub(super) const fn end(self) -> u32 {
        self.first.saturating_add(self.pages)
    }

    /// The page after `page`, the first after the last. Pages count from the
    /// start of the region.
    pub(super) const fn after(self, page: u32) -> u32 {
        let next = page.saturating_add(1);
        if next < self.pages { next } else { 0 }
    }
}

/// Slots of a page of `page` bytes; `None` for sizes that no store takes.
pub(super) const fn slots_a_page(page: usize) -> Option<u32> {
    match page {
        256 => Some(8),
        512 => Some(16),
        1_024 => Some(32),
        2_048 => Some(64),
        4_096 => Some(128),
        _ => None,
    }
}

const fn kept(pages: u32, page: usize) -> u32 {
    let slots = match slots_a_page(page) {
        Some(slots) => slots,
        None => 0,
    };
    pages.saturating_sub(2).saturating_mul(slots).saturating_add(1)
}

const fn bank_pages(slots: u32) -> u32 {
    divided_up(BANK_SLOTS, slots)
}

/// The pages of a ring that keeps `kept` records at the least.
const fn ring_pages(kept: u32, slots: u32) -> u32 {
    divided_up(kept.saturating_sub(1), slots).saturating_add(2)
}

/// The quotient, rounded up; slots a page are never zero.
const fn divided_up(of: u32, by: u32) -> u32 {
    match of.saturating_add(by).saturating_sub(1).checked_div(by) {
        Some(quotient) => quotient,
        None => 0,
    }
}

/// Sizes by hand; 1,000 records in 48 KiB is ours.
#[cfg(test)]
mod tests {
    use super::*;

    const PAGES: [usize; 5] = [256, 512, 1_024, 2_048, 4_096];

    #[test]
    fn a_thousand_records_fit_48_kib() {
        for page in PAGES {
            let layout = Layout::for_pages_of(page).unwrap();
            assert!(layout.openings_kept(page) >= 1_000, "{page}");
            assert!(layout.refusals_kept(page) >= 256, "{page}");
            let both = usize::try_from(layout.openings_pages + layout.refusals_pages).unwrap();
            let allowed = if page == 4_096 { 56 } else { 48 };
            assert!(both * page <= allowed * 1_024, "{page}");
        }
        let layout = Layout::for_pages_of(2_048).unwrap();
        let counts = (layout.bank_pages, layout.tally_pages);
        assert_eq!(counts, (4, 4));
        assert_eq!((layout.openings_pages, layout.refusals_pages), (18, 6));
        assert_eq!((layout.staging_pages, layout.calendar_pages), (2, 2));
        assert_eq!(layout.bytes(2_048), Some(44 * 2_048));
        // As docs/flash-layout.md says.
        assert_eq!(layout.boot_steps(8), 72 + 11);
    }

    #[test]
    fn regions_follow_one_another_and_fit_exactly() {
        for page in PAGES {
            for layout in [Layout::for_pages_of(page), Layout::smallest(page)] {
                let layout = layout.unwrap();
                let mut end = 0;
                for region in [
                    layout.bank(Which::First),
                    layout.bank(Which::Second),
                    layout.tally(),
                    layout.openings(),
                    layout.refusals(),
                    layout.staging(),
                    layout.calendar(0),
                    layout.calendar(1),
                    layout.calendar(2),
                ] {
                    assert_eq!(region.first, end);
                    end = region.end();
                }
                let bytes = usize::try_from(layout.bytes(page).unwrap()).unwrap();
                assert!(layout.fits(page, bytes));
                assert!(!layout.fits(page, bytes - 1));
            }
        }
    }

    #[test]
    fn a_layout_that_cannot_work_does_not_fit() {
        let good = Layout::smallest(256).unwrap();
        let plenty = 1 << 20;
        assert!(good.fits(256, plenty));
        assert!(!Layout { bank_pages: 26, ..good }.fits(256, plenty));
        assert!(!Layout { staging_pages: 11, ..good }.fits(256, plenty));
        assert!(!Layout { calendar_pages: 13, ..good }.fits(256, plenty));
        assert!(!Layout { tally_pages: 1, ..good }.fits(256, plenty));
        assert!(!Layout { openings_pages: 2, ..good }.fits(256, plenty));
        assert!(!Layout { refusals_pages: 2, ..good }.fits(256, plenty));
        assert!(!Layout { refusals_pages: u32::MAX, ..good }.fits(256, usize::MAX));
        assert!(!good.fits(300, plenty) && Layout::for_pages_of(128).is_none());
    }
}
