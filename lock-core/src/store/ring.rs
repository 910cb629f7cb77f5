//! One ring of records: slots filled one behind the other, page after page,
//! the oldest page erased for the newest.
//!
//! ```text
//! page  0          1          2          3
//!       nnnnnnnn   nnn.....   ........   oooooooo     o oldest, n newest, . blank
//!                     ^head   ^erased ahead
//! ```
//!
//! Once a page is begun, the page after it is due to be erased; until then it
//! still lists its records.

use embedded_storage::nor_flash::NorFlash;

use super::layout::{Region, SLOT};
use super::pages::{Ahead, Pages, Place};
use super::record_slot;
use crate::audit::{self, Record, Seq};
use crate::port::StoreFault;

/// Where a ring stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Ring {
    region: Region,
    /// Which records belong here; others are none.
    which: audit::Ring,
    /// The next slot to be programmed, or one past the end of its page.
    head: Place,
    newest: Option<(Seq, Place)>,
    ahead: Ahead,
}

impl Ring {
    /// The ring in a region whose pages are erased.
    pub(super) const fn empty(region: Region, which: audit::Ring) -> Self {
        Self { region, which, head: Place::start_of(0), newest: None, ahead: Ahead::Blank }
    }

    /// Finds where the ring in `region` stands, and shows each of its records
    /// to `see`, in no order.
    pub(super) fn scan<F: NorFlash>(
        pages: &mut Pages<F>,
        region: Region,
        which: audit::Ring,
        mut see: impl FnMut(Seq, &Record),
    ) -> Self {
        let mut ring = Self::empty(region, which);
        let mut slots = Cursor::over(region, 0);
        while let Some((place, seq, record)) = slots.next(pages, which) {
            see(seq, &record);
            if ring.newest.is_none_or(|(newest, _)| newest < seq) {
                ring.newest = Some((seq, place));
            }
        }
        let page = ring.newest.map_or(0, |(_, place)| place.page);
        ring.head = pages.used(region, page);
        if pages.is_blank(region, region.after(page)) != Ok(true) {
            ring.ahead = Ahead::Due;
        }
        ring
    }

    /// The number of the newest record.
    pub(super) fn newest(&self) -> Option<Seq> {
        self.newest.map(|(seq, _)| seq)
    }

    /// The newest record.
    pub(super) fn newest_record<F: NorFlash>(&self, pages: &mut Pages<F>) -> Option<(Seq, Record)> {
        let (_, place) = self.newest?;
        let slot = pages.read::<SLOT>(self.region, place).ok()?;
        record_slot::decode(&slot)
    }

    /// Makes a record durable. It erases only if [`Ring::erase_ahead`] had no
    /// turn since the page was begun, or failed.
    pub(super) fn push<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        seq: Seq,
        record: &Record,
    ) -> Result<(), StoreFault> {
        if self.head.slot >= Pages::<F>::SLOTS {
            self.erase_ahead(pages)?;
            self.head = Place::start_of(self.region.after(self.head.page));
            self.ahead = Ahead::Due;
        }
        let place = self.head;
        self.head = place.next();
        pages.program(self.region, place, &record_slot::encode(seq, record), &mut [0; SLOT])?;
        self.newest = Some((seq, place));
        Ok(())
    }

    /// Erases the next page if that is due.
    pub(super) fn erase_ahead<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
    ) -> Result<(), StoreFault> {
        if self.ahead == Ahead::Due {
            pages.make_blank(self.region, self.region.after(self.head.page))?;
            self.ahead = Ahead::Blank;
        }
        Ok(())
    }

    /// A walk over the ring's records, the oldest first, from some record on
    /// that is not after `from`.
    pub(super) fn walk<F: NorFlash>(&self, pages: &mut Pages<F>, from: Seq) -> Walk {
        let mut page = self.region.after(self.head.page);
        let mut slots = Cursor::over(self.region, page);
        // Whole pages before `from` are skipped.
        for passed in 1..self.region.pages {
            page = self.region.after(page);
            let first = pages.read::<SLOT>(self.region, Place::start_of(page));
            let first = first.ok().and_then(|slot| record_slot::decode(&slot));
            if first.is_some_and(|(seq, _)| seq <= from) {
                let pages_left = self.region.pages.saturating_sub(passed);
                slots = Cursor { place: Place::start_of(page), pages_left, ..slots };
            }
        }
        Walk { which: self.which, slots }
    }
}

/// A walk over the records of a ring.
pub(super) struct Walk {
    which: audit::Ring,
    slots: Cursor,
}

impl Walk {
    /// The next record, or `None` at the end.
    pub(super) fn next<F: NorFlash>(&mut self, pages: &mut Pages<F>) -> Option<(Seq, Record)> {
        self.slots.next(pages, self.which).map(|(_, seq, record)| (seq, record))
    }
}

/// A walk over the slots of a region, round and round until every page was
/// passed once.
struct Cursor {
    region: Region,
    place: Place,
    pages_left: u32,
}

impl Cursor {
    const fn over(region: Region, page: u32) -> Self {
        Self { region, place: Place::start_of(page), pages_left: region.pages }
    }

    /// The next slot that holds a record of that ring.
    fn next<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        which: audit::Ring,
    ) -> Option<(Place, Seq, Record)> {
        while self.pages_left > 0 {
            let place = self.place;
            if place.slot >= Pages::<F>::SLOTS {
                self.place = Place::start_of(self.region.after(place.page));
                self.pages_left = self.pages_left.saturating_sub(1);
                continue;
            }
            self.place = place.next();
            let slot = pages.read::<SLOT>(self.region, place);
            match slot.ok().and_then(|slot| record_slot::decode(&slot)) {
                Some((seq, record)) if record.event.ring() == which => {
                    return Some((place, seq, record));
                }
                Some(_) | None => {}
            }
        }
        None
    }
}
