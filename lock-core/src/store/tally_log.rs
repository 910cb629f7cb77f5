//! The tally: entries one behind the other, and at the head of each page a
//! checkpoint of all that came before it.
//!
//! A page counts once its first entry is touched (S8). Until then the page before it stands,
//! which says the same. So a page never goes back on what it said, whatever power cuts fall
//! into its beginning.
//!
//! Within a page it is as in a ring (`ring.rs`): a boot writes the newest entry again (S7).
//! If an index is missing, the tally cannot be believed (S11).

use embedded_storage::nor_flash::NorFlash;

use super::layout::{Layout, Region, SLOT, next_generation};
use super::memo::Memo;
use super::pages::{Ahead, Pages, Place, Sight};
use super::tally_slot::{self, CHECKPOINT, CHECKPOINT_SLOTS, Checkpoint, Entry, Fill, Generation};
use crate::audit::Seq;
use crate::port::{StoreFault, Tally};
use crate::tally::{SetUp, TallyState};

/// Where the tally stands, and what it adds up to.
pub(super) struct TallyLog {
    region: Region,
    generation: Generation,
    state: TallyState,
    /// Records from here on are not in its checkpoint.
    saved: Seq,
    newest: Option<Entry>,
    /// The next slot to be programmed, or one past the end of its page.
    head: Place,
    ahead: Ahead,
}

impl TallyLog {
    /// Begins a tally in an erased region.
    pub(super) fn commission<F: NorFlash>(
        pages: &mut Pages<F>,
        layout: &Layout,
        set_up: SetUp,
    ) -> Result<Self, StoreFault> {
        let state = TallyState { set_up, ..TallyState::NEW };
        let mut log = Self::at(layout.tally(), Generation(1), state, Place::start_of(0));
        log.begin_page(pages, None, &Memo::NEW)?;
        log.ahead = Ahead::Blank;
        Ok(log)
    }

    fn at(region: Region, generation: Generation, state: TallyState, head: Place) -> Self {
        Self {
            region,
            generation,
            state,
            saved: Memo::NEW.next,
            newest: None,
            head,
            ahead: Ahead::Due,
        }
    }

    /// Finds the tally and puts it into `tally`; returns what its page knew of
    /// the audit. There is none if no page counts, or an entry is lost.
    pub(super) fn scan<F: NorFlash>(
        pages: &mut Pages<F>,
        layout: &Layout,
        tally: &mut Option<Self>,
    ) -> Result<Memo, StoreFault> {
        let found = Self::newest_page(pages, layout.tally(), tally).and_then(|memo| match tally {
            Some(log) => Ok(log.add_up(pages)?.then_some(memo)),
            None => Ok(None),
        });
        // Half of it is none.
        if !matches!(found, Ok(Some(_))) {
            *tally = None;
        }
        Ok(found?.unwrap_or(Memo::NEW))
    }

    /// The newest page that counts, none of its entries added up.
    #[inline(never)] // own frame
    fn newest_page<F: NorFlash>(
        pages: &mut Pages<F>,
        region: Region,
        newest: &mut Option<Self>,
    ) -> Result<Memo, StoreFault> {
        *newest = None;
        let mut known = Memo::NEW;
        for page in 0..region.pages {
            let Some(found) = Self::checkpoint(pages, region, page)? else { continue };
            if newest.as_ref().is_none_or(|other| other.generation < found.generation) {
                let Checkpoint { generation, state, memo } = found;
                let head = Place { page, slot: CHECKPOINT_SLOTS };
                *newest = Some(Self::at(region, generation, state, head));
                known = memo;
            }
        }
        if let Some(newest) = newest {
            newest.saved = known.next;
        }
        Ok(known)
    }

    /// Whether any page counts, whatever became of its entries.
    pub(super) fn ever_began<F: NorFlash>(
        pages: &mut Pages<F>,
        layout: &Layout,
    ) -> Result<bool, StoreFault> {
        let region = layout.tally();
        for page in 0..region.pages {
            if Self::checkpoint(pages, region, page)?.is_some() {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// The checkpoint of a page that counts.
    fn checkpoint<F: NorFlash>(
        pages: &mut Pages<F>,
        region: Region,
        page: u32,
    ) -> Result<Option<Checkpoint>, StoreFault> {
        if !pages.touched(region, Place { page, slot: CHECKPOINT_SLOTS })? {
            return Ok(None);
        }
        let mut block = [0; CHECKPOINT];
        let sight = pages.look(region, Place::start_of(page), &mut block)?;
        Ok(if sight == Sight::Whole { tally_slot::decode_checkpoint(&block) } else { None })
    }

    /// Applies the entries of the page; whether none is missing.
    #[inline(never)] // own frame
    fn add_up<F: NorFlash>(&mut self, pages: &mut Pages<F>) -> Result<bool, StoreFault> {
        let (mut place, mut slot) = (self.head, [0; SLOT]);
        // Read, and not taken back by what came behind it so far.
        let mut waiting: Option<Entry> = None;
        while place.slot < Pages::<F>::SLOTS {
            let sight = pages.look(self.region, place, &mut slot)?;
            place = place.next();
            let found = match sight {
                Sight::Blank => continue,
                Sight::Torn => None,
                Sight::Whole => tally_slot::decode(self.generation, &slot),
            };
            let Some(found) = found else {
                // What stands alone behind blank slots nobody wrote.
                if self.head.next() == place {
                    self.head = place;
                }
                continue;
            };
            self.head = place;
            let settled = waiting.filter(|waiting| waiting.index < found.index);
            if settled.is_some_and(|settled| !self.take(settled)) {
                return Ok(false);
            }
            // A copy of what was taken already goes without saying.
            let taken = self.newest.map(|newest| newest.index);
            waiting = Some(found).filter(|found| taken.is_none_or(|last| last < found.index));
        }
        // The slot that is written next must be blank beyond doubt.
        while self.head.slot < Pages::<F>::SLOTS && pages.touched(self.region, self.head)? {
            self.head = self.head.next();
        }
        Ok(waiting.is_none_or(|settled| self.take(settled)))
    }

    /// Takes the next entry of the page into account; whether it is the next.
    fn take(&mut self, entry: Entry) -> bool {
        let due = self.newest.map_or(0, |newest| newest.index.saturating_add(1));
        if entry.index != due {
            return false;
        }
        if let Some(tally) = entry.tally {
            self.state.apply(tally);
        }
        self.newest = Some(entry);
        true
    }

    /// What the tally adds up to.
    pub(super) const fn state(&self) -> &TallyState {
        &self.state
    }

    /// Records from here on are not in its checkpoint.
    pub(super) const fn saved(&self) -> Seq {
        self.saved
    }

    /// The generation of its page.
    pub(super) const fn generation(&self) -> Generation {
        self.generation
    }

    /// How far its page is filled. Whatever is written behind a boot's copies of
    /// records fills it further.
    pub(super) fn fill(&self) -> Option<Fill> {
        Fill::up_to(self.head.slot)
    }

    /// Whether a record says that a newer page counted once.
    pub(super) const fn is_behind(&self, record: u8) -> bool {
        let ahead = record.wrapping_sub(self.generation.low_byte());
        ahead != 0 && ahead < 128
    }

    /// Makes what a scan found hold for good.
    pub(super) fn settle<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        memo: &Memo,
    ) -> Result<(), StoreFault> {
        if self.head.slot < Pages::<F>::SLOTS {
            // Whatever was torn behind the newest entry is void with this.
            let again =
                self.newest.unwrap_or(Entry { generation: self.generation, index: 0, tally: None });
            self.program(pages, again)?;
            self.newest = Some(again);
            return Ok(());
        }
        self.turn(pages, memo)
    }

    /// Begins the next page, so that a checkpoint has the state and `memo`.
    pub(super) fn turn<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        memo: &Memo,
    ) -> Result<(), StoreFault> {
        self.tend(pages)?;
        self.begin_page(pages, None, memo)
    }

    /// Makes `tally` durable.
    pub(super) fn push<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        tally: Tally,
        memo: &Memo,
    ) -> Result<(), StoreFault> {
        if self.head.slot >= Pages::<F>::SLOTS {
            // Pages of 256 bytes take two entries, less than one input may
            // cause: there an entry may have to wait.
            self.tend(pages)?;
            return self.begin_page(pages, Some(tally), memo);
        }
        let index = match self.newest {
            None => 0,
            Some(newest) => newest.index.checked_add(1).ok_or(StoreFault)?,
        };
        let entry = Entry { generation: self.generation, index, tally: Some(tally) };
        self.program(pages, entry)?;
        self.take(entry);
        Ok(())
    }

    fn program<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        entry: Entry,
    ) -> Result<(), StoreFault> {
        let mut place = self.head;
        while !pages.is_free(self.region, place)? {
            place = place.next();
            if place.slot >= Pages::<F>::SLOTS {
                self.head = place;
                return Err(StoreFault);
            }
        }
        self.head = place.next();
        pages.program(self.region, place, &tally_slot::encode(&entry)?)
    }

    /// Begins a page: the first one, or the next.
    fn begin_page<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        tally: Option<Tally>,
        memo: &Memo,
    ) -> Result<(), StoreFault> {
        let (page, generation) = if self.head == Place::start_of(0) {
            (0, self.generation)
        } else {
            if self.ahead == Ahead::Due {
                return Err(StoreFault);
            }
            let generation = next_generation(self.generation.0).ok_or(StoreFault)?;
            (self.region.after(self.head.page), Generation(generation))
        };
        self.ahead = Ahead::Due;
        let block = tally_slot::encode_checkpoint(generation, &self.state, memo)?;
        pages.program(self.region, Place::start_of(page), &block)?;
        self.generation = generation;
        self.saved = memo.next;
        self.head = Place { page, slot: CHECKPOINT_SLOTS };
        let entry = Entry { generation, index: 0, tally };
        self.program(pages, entry)?;
        self.newest = None;
        self.take(entry);
        Ok(())
    }

    /// Whether the next page is due to be erased.
    pub(super) const fn is_due(&self) -> bool {
        matches!(self.ahead, Ahead::Due)
    }

    /// Erases the next page if that is due.
    pub(super) fn tend<F: NorFlash>(&mut self, pages: &mut Pages<F>) -> Result<(), StoreFault> {
        if self.ahead == Ahead::Due {
            pages.erase(self.region, self.region.after(self.head.page))?;
            self.ahead = Ahead::Blank;
        }
        Ok(())
    }
}
