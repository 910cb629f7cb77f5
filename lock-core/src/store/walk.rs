//! A walk over the records of a ring, the oldest first.
//!
//! It keeps to the rule of `ring.rs`: a slot counts only if its record's number
//! is below that of every slot behind it. Looking one record ahead is enough:
//! what a boot's copy takes out of the list lies right before it and has the
//! copy's number or the one behind that.

use embedded_storage::nor_flash::NorFlash;

use super::layout::{Region, SLOT};
use super::pages::{Pages, Place, Sight};
use super::record_slot::{self, Kept};
use super::ring::Ring;
use crate::audit::{self, Seq};

/// A walk over the records of a ring.
pub(super) struct Walk {
    region: Region,
    which: audit::Ring,
    place: Place,
    /// The generation of the page at `place`, if it was begun.
    generation: Option<u32>,
    pages_left: u32,
    /// Read, and not taken back by what came behind it so far.
    waiting: Option<Kept>,
    /// The number given last.
    given: Seq,
    /// Whether the ring has gone round, so that records were overwritten.
    round: bool,
}

impl Walk {
    /// A walk over `ring`: whole pages before number `from` are passed over.
    pub(super) fn over<F: NorFlash>(ring: &Ring, pages: &mut Pages<F>, from: Seq) -> Self {
        let region = ring.region;
        let behind = region.pages.saturating_sub(1);
        let mut walk = Self {
            region,
            which: ring.which,
            place: Place::start_of(region.after(ring.head.page)),
            generation: ring.generation.checked_sub(behind).filter(|found| *found > 0),
            pages_left: region.pages,
            waiting: None,
            given: Seq(0),
            round: ring.generation >= region.pages,
        };
        let mut ahead = walk.at_page();
        while ahead.pages_left > 1 {
            ahead.next_page();
            let first = ahead.look(pages, Place::start_of(ahead.place.page));
            if first.is_some_and(|kept| kept.seq <= from) {
                walk = ahead.at_page();
            }
        }
        walk
    }

    /// The same place, nothing read yet.
    const fn at_page(&self) -> Self {
        Self { waiting: None, place: Place::start_of(self.place.page), ..*self }
    }

    /// Whether the ring has gone round.
    pub(super) const fn has_gone_round(&self) -> bool {
        self.round
    }

    fn next_page(&mut self) {
        let was_begun = self.generation;
        self.place = Place::start_of(self.region.after(self.place.page));
        self.pages_left = self.pages_left.saturating_sub(1);
        // Pages before the first generation were never begun; the first one
        // lies at the start of the region.
        self.generation = match was_begun {
            Some(generation) => generation.checked_add(1),
            None if self.place.page == 0 => Some(1),
            None => None,
        };
    }

    /// The record at `place`, if it belongs there.
    fn look<F: NorFlash>(&self, pages: &mut Pages<F>, place: Place) -> Option<Kept> {
        let generation = self.generation?;
        let mut slot = [0; SLOT];
        if pages.look(self.region, place, &mut slot) != Ok(Sight::Whole) {
            return None;
        }
        record_slot::decode(&slot)
            .filter(|kept| kept.generation == generation && kept.record.event.ring() == self.which)
    }

    /// The next record, or `None` at the end.
    pub(super) fn next<F: NorFlash>(&mut self, pages: &mut Pages<F>) -> Option<Kept> {
        while self.pages_left > 0 {
            let place = self.place;
            if place.slot >= Pages::<F>::SLOTS {
                self.next_page();
                continue;
            }
            self.place = place.next();
            let Some(found) = self.look(pages, place) else { continue };
            if let Some(kept) = self.take(found) {
                return Some(kept);
            }
        }
        self.waiting.take()
    }

    /// Keeps `found` waiting; what waited is settled, or void.
    fn take(&mut self, found: Kept) -> Option<Kept> {
        let settled = self.waiting.take().filter(|waiting| waiting.seq < found.seq);
        self.given = settled.map_or(self.given, |kept| kept.seq);
        // A copy of what was given already is no news.
        self.waiting = Some(found).filter(|found| found.seq > self.given);
        settled
    }
}
