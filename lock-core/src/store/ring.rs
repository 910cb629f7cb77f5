//! One ring of records: slots filled one behind the other, page after page,
//! the oldest page erased for the newest.
//!
//! ```text
//! page  0          1          2          3
//!       nnnnnnnn   nnn.....   ........   oooooooo     o oldest, n newest, . blank
//! gen.  5          6 ^head    (7)        4
//! ```
//!
//! Once a page is begun, the page after it is due to be erased; until then it
//! still lists its records. A push never erases.
//!
//! # After a boot
//! The newest slot may have been cut short and read well all the same, and
//! slots behind it may hold pieces that read well tomorrow. So the boot writes
//! the newest record *again*, with the same numbers, behind everything that was
//! touched, and only then does anybody act on it: from there on S7 leaves its original and
//! all torn slots between the two out of the list, whatever they read.
//!
//! A slot that was touched and holds no record may have held one that was
//! listed once (its cells have failed since), so its number is not given again:
//! the list then says that a number is missing.
//!
//! The page behind the newest is erased at every boot, since the power may have
//! gone while it was erased and it may only look blank. A page whose first slot
//! holds nothing is such a page too.

use embedded_storage::nor_flash::NorFlash;

use super::layout::{LAST_GENERATION, Region, SLOT, next_generation};
use super::pages::{Ahead, Pages, Place, Sight};
use super::record_slot::{self, Kept};
use super::tally_slot::Fill;
use super::walk::Walk;
use crate::audit::{self, Record, Seq};
use crate::port::StoreFault;

/// Where a ring stands.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Ring {
    pub(super) region: Region,
    /// Which records belong here; others are none.
    pub(super) which: audit::Ring,
    /// The next slot to be programmed, or one past the end of its page.
    pub(super) head: Place,
    /// The generation of that page.
    pub(super) generation: u32,
    ahead: Ahead,
    newest: Option<Kept>,
    /// The highest number in the newest page, whether it counts or not.
    highest: Seq,
    /// Numbers that may have been given behind the newest record.
    doubtful: u32,
    /// Whether something torn lies behind the newest record.
    torn: Torn,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Torn {
    No,
    Yes,
}

/// Where the tally stands when a boot copies records.
#[derive(Clone, Copy)]
pub(super) struct TallyStands {
    /// The low byte of the generation of its page.
    pub(super) tally: u8,
    /// How far that is filled, unless the tally is lost.
    pub(super) fill: Option<Fill>,
}

impl TallyStands {
    /// Whether a record that is not the newest is there to the end: it is an
    /// original, behind which a newer one was begun, or the tally was written
    /// to behind the copy.
    fn proves(self, kept: &Kept) -> bool {
        let behind = |copied| kept.tally == self.tally && self.fill > Some(copied);
        kept.copied.is_none_or(behind)
    }
}

impl Ring {
    /// The ring in a region whose pages are erased.
    pub(super) const fn empty(region: Region, which: audit::Ring) -> Self {
        Self {
            region,
            which,
            head: Place::start_of(0),
            generation: 1,
            ahead: Ahead::Blank,
            newest: None,
            highest: Seq(0),
            doubtful: 0,
            torn: Torn::No,
        }
    }

    /// Finds where the ring in `region` stands. Reads every page's first slot
    /// and the newest page.
    pub(super) fn scan<F: NorFlash>(
        pages: &mut Pages<F>,
        region: Region,
        which: audit::Ring,
    ) -> Result<Self, StoreFault> {
        let blank = Self { ahead: Ahead::Due, ..Self::empty(region, which) };
        let mut ring = blank;
        // A page whose only record read well once and then no more is none.
        let mut below = u32::MAX;
        loop {
            let mut newest: Option<(u32, u32)> = None;
            for page in 0..region.pages {
                let found = ring.generation_of(pages, page)?.filter(|found| *found < below);
                newest = newest.max(found.map(|found| (found, page)));
            }
            let Some((generation, page)) = newest else { return Ok(blank) };
            ring = Self { generation, ..blank };
            ring.scan_newest(pages, page)?;
            if ring.newest.is_some() {
                return Ok(ring);
            }
            below = generation;
        }
    }

    /// The generation of a page: that of its first record.
    fn generation_of<F: NorFlash>(
        &self,
        pages: &mut Pages<F>,
        page: u32,
    ) -> Result<Option<u32>, StoreFault> {
        let (mut place, mut slot) = (Place::start_of(page), [0; SLOT]);
        while place.slot < Pages::<F>::SLOTS {
            match pages.look(self.region, place, &mut slot)? {
                Sight::Blank => return Ok(None),
                Sight::Whole => {
                    let kept = self.decode(&slot);
                    if let Some(kept) = kept.filter(|kept| self.is_of(page, kept.generation)) {
                        return Ok(Some(kept.generation));
                    }
                }
                Sight::Torn => {}
            }
            place = place.next();
        }
        Ok(None)
    }

    /// Whether a page can have that generation: pages and generations go up
    /// together, from the first page and 1.
    fn is_of(&self, page: u32, generation: u32) -> bool {
        let round = generation.checked_sub(1).and_then(|n| n.checked_rem(self.region.pages));
        round == Some(page) && generation <= LAST_GENERATION
    }

    fn decode(&self, slot: &[u8; SLOT]) -> Option<Kept> {
        record_slot::decode(slot).filter(|kept| kept.record.event.ring() == self.which)
    }

    fn scan_newest<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        page: u32,
    ) -> Result<(), StoreFault> {
        let (mut place, mut slot) = (Place::start_of(page), [0; SLOT]);
        self.head = place;
        while place.slot < Pages::<F>::SLOTS {
            match pages.look(self.region, place, &mut slot)? {
                // What stands alone behind blank slots nobody wrote: a cell has
                // failed, and a push passes it over.
                Sight::Blank => {}
                Sight::Torn if self.head != place => {}
                Sight::Whole => match self.decode(&slot) {
                    Some(kept) if kept.generation == self.generation => {
                        let again = self.newest.is_some_and(|newest| newest.seq == kept.seq);
                        if !again {
                            self.doubtful = 0;
                        }
                        self.newest = Some(kept);
                        self.highest = self.highest.max(kept.seq);
                        self.torn = Torn::No;
                        self.head = place.next();
                    }
                    Some(_) | None => {}
                },
                Sight::Torn => self.doubt(place),
            }
            place = place.next();
        }
        // The slot that is written next must be blank beyond doubt.
        while self.head.slot < Pages::<F>::SLOTS && pages.touched(self.region, self.head)? {
            self.doubt(self.head);
        }
        // The next page may have been begun and its first record torn.
        let begun = Place::start_of(self.region.after(page));
        if self.head.slot >= Pages::<F>::SLOTS
            && pages.look(self.region, begun, &mut slot)? == Sight::Torn
        {
            self.doubtful = self.doubtful.saturating_add(1);
        }
        Ok(())
    }

    fn doubt(&mut self, place: Place) {
        self.doubtful = self.doubtful.saturating_add(1);
        self.torn = Torn::Yes;
        self.head = place.next();
    }

    /// The newest record.
    pub(super) fn newest(&self) -> Option<(Seq, Record)> {
        self.newest.map(|newest| (newest.seq, newest.record))
    }

    /// The newest record's slot.
    pub(super) const fn newest_kept(&self) -> Option<Kept> {
        self.newest
    }

    /// The highest number that it has, and how many may have been given behind
    /// that.
    pub(super) const fn numbers(&self) -> (Seq, u32) {
        (self.highest, self.doubtful)
    }

    /// Makes what the scan found hold for good. `doubted`: the newest record
    /// may be the write that the last power cut fell into. `stands`: what its
    /// copy says of the tally.
    pub(super) fn settle<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        doubted: bool,
        stands: TallyStands,
    ) -> Result<(), StoreFault> {
        match self.newest {
            None => {
                // Nothing but perhaps a torn first record.
                pages.erase(self.region, 0)?;
                *self = Self { ahead: Ahead::Due, ..Self::empty(self.region, self.which) };
            }
            Some(newest) if doubted || self.torn == Torn::Yes || !stands.proves(&newest) => {
                if self.head.slot >= Pages::<F>::SLOTS {
                    self.tend(pages)?;
                }
                let TallyStands { tally, fill } = stands;
                let copied = Some(fill.unwrap_or(Fill::UNKNOWN));
                self.push(pages, &Kept { tally, copied, ..newest })?;
                self.torn = Torn::No;
            }
            Some(_) => {}
        }
        Ok(())
    }

    /// The ordinal of the next record; `None` once all are used up.
    pub(super) fn next_ordinal(&self) -> Option<u32> {
        let last = self.newest.map_or(0, |newest| newest.ordinal);
        last.checked_add(self.doubtful)?.checked_add(1)
    }

    /// Whether a push would find room.
    pub(super) fn has_room<F: NorFlash>(&self) -> bool {
        self.head.slot < Pages::<F>::SLOTS || self.ahead == Ahead::Blank
    }

    /// Makes a record durable in the next free slot, which becomes the newest.
    /// Its generation is that of the page it comes to.
    pub(super) fn push<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        kept: &Kept,
    ) -> Result<(), StoreFault> {
        let place = loop {
            if self.head.slot >= Pages::<F>::SLOTS {
                if !self.has_room::<F>() {
                    return Err(StoreFault);
                }
                let generation = next_generation(self.generation).ok_or(StoreFault)?;
                self.head = Place::start_of(self.region.after(self.head.page));
                self.generation = generation;
                self.ahead = Ahead::Due;
            }
            let place = self.head;
            self.head = place.next();
            if pages.is_free(self.region, place)? {
                break place;
            }
        };
        let kept = Kept { generation: self.generation, ..*kept };
        pages.program(self.region, place, &record_slot::encode(&kept)?)?;
        if self.newest.is_none_or(|newest| newest.seq != kept.seq) {
            self.doubtful = 0;
        }
        self.newest = Some(kept);
        self.highest = self.highest.max(kept.seq);
        Ok(())
    }

    /// Whether the page that is due to be erased has a record from `saved` on,
    /// before `newest`.
    pub(super) fn would_lose<F: NorFlash>(
        &self,
        pages: &mut Pages<F>,
        saved: Seq,
        newest: Seq,
    ) -> Result<bool, StoreFault> {
        let (mut place, mut slot) = (Place::start_of(self.region.after(self.head.page)), [0; SLOT]);
        while self.is_due() && place.slot < Pages::<F>::SLOTS {
            if pages.look(self.region, place, &mut slot)? == Sight::Whole
                && self.decode(&slot).is_some_and(|kept| saved <= kept.seq && kept.seq < newest)
            {
                return Ok(true);
            }
            place = place.next();
        }
        Ok(false)
    }

    /// Erases the next page if that is due.
    pub(super) fn tend<F: NorFlash>(&mut self, pages: &mut Pages<F>) -> Result<(), StoreFault> {
        if self.ahead == Ahead::Due {
            pages.erase(self.region, self.region.after(self.head.page))?;
            self.ahead = Ahead::Blank;
        }
        Ok(())
    }

    /// Whether the next page is due to be erased.
    pub(super) const fn is_due(&self) -> bool {
        matches!(self.ahead, Ahead::Due)
    }

    /// A walk over the ring's records, the oldest first, from some record on
    /// that is not after `from`.
    pub(super) fn walk<F: NorFlash>(&self, pages: &mut Pages<F>, from: Seq) -> Walk {
        Walk::over(self, pages, from)
    }
}
