//! The tally: entries one behind the other, and at the head of each page a
//! checkpoint of all that came before it.
//!
//! An entry that finds its page full becomes part of the next page's
//! checkpoint. The checkpoint with the highest generation counts; until its
//! last word is programmed it is none, and the page before it stands.

use embedded_storage::nor_flash::NorFlash;

use super::layout::{Layout, Region, SLOT};
use super::pages::{Ahead, Pages, Place};
use super::tally_slot::{self, CHECKPOINT, CHECKPOINT_SLOTS, Generation};
use crate::port::{StoreFault, Tally};
use crate::tally::TallyState;

/// Where the tally stands, and what it adds up to.
pub(super) struct TallyLog {
    region: Region,
    generation: Generation,
    state: TallyState,
    /// The next slot to be programmed, or one past the end of its page.
    head: Place,
    ahead: Ahead,
}

impl TallyLog {
    /// Begins a tally in an erased region.
    pub(super) fn commission<F: NorFlash>(
        pages: &mut Pages<F>,
        layout: &Layout,
    ) -> Result<Self, StoreFault> {
        let mut log = Self {
            region: layout.tally(),
            generation: Generation(0),
            state: TallyState::NEW,
            head: Place::start_of(0),
            ahead: Ahead::Blank,
        };
        log.begin_page(pages, 0, TallyState::NEW)?;
        log.ahead = Ahead::Blank;
        Ok(log)
    }

    /// Finds the tally, or `None` if no checkpoint of it can be read.
    pub(super) fn scan<F: NorFlash>(pages: &mut Pages<F>, layout: &Layout) -> Option<Self> {
        let region = layout.tally();
        let mut found: Option<(Generation, TallyState, u32)> = None;
        for page in 0..region.pages {
            let block = pages.read::<CHECKPOINT>(region, Place::start_of(page));
            let checkpoint = block.ok().and_then(|block| tally_slot::decode_checkpoint(&block));
            if let Some((generation, state)) = checkpoint
                && found.as_ref().is_none_or(|(newest, _, _)| *newest < generation)
            {
                found = Some((generation, state, page));
            }
        }
        let (generation, mut state, page) = found?;
        let mut place = Place { page, slot: CHECKPOINT_SLOTS };
        while place.slot < Pages::<F>::SLOTS {
            let slot = pages.read::<SLOT>(region, place);
            if let Some(entry) = slot.ok().and_then(|slot| tally_slot::decode(generation, &slot)) {
                state.apply(entry);
            }
            place = place.next();
        }
        let ahead = match pages.is_blank(region, region.after(page)) {
            Ok(true) => Ahead::Blank,
            Ok(false) | Err(_) => Ahead::Due,
        };
        Some(Self { region, generation, state, head: pages.used(region, page), ahead })
    }

    /// What the tally adds up to.
    pub(super) const fn state(&self) -> &TallyState {
        &self.state
    }

    /// Makes `entry` durable.
    pub(super) fn push<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        entry: Tally,
    ) -> Result<(), StoreFault> {
        if self.head.slot >= Pages::<F>::SLOTS {
            let mut state = self.state.clone();
            state.apply(entry);
            self.erase_ahead(pages)?;
            return self.begin_page(pages, self.region.after(self.head.page), state);
        }
        let place = self.head;
        self.head = place.next();
        let slot = tally_slot::encode(self.generation, entry);
        pages.program(self.region, place, &slot, &mut [0; SLOT])?;
        self.state.apply(entry);
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

    fn begin_page<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        page: u32,
        state: TallyState,
    ) -> Result<(), StoreFault> {
        let generation = Generation(self.generation.0.checked_add(1).ok_or(StoreFault)?);
        let block = tally_slot::encode_checkpoint(generation, &state);
        pages.program(self.region, Place::start_of(page), &block, &mut [0; CHECKPOINT])?;
        self.generation = generation;
        self.state = state;
        self.head = Place { page, slot: CHECKPOINT_SLOTS };
        self.ahead = Ahead::Due;
        Ok(())
    }
}
