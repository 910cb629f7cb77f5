//! Where a sealed timetable file is put together, until it is opened.
//!
//! A piece of the file is a block of nine slots; pieces lie one behind the other
//! through the region's pages.
//! `docs/flash-layout.md` has the table.
//!
//! **Nothing here outlives the power:** pieces count while the lock runs that staged
//! them, and hold nothing. What a file says holds by the rows that are made of it
//! (`calendar.rs`).

use embedded_storage::nor_flash::NorFlash;

use super::bytes::fill;
use super::layout::Region;
use super::pages::{Ahead, Pages, Place, Sight};
use crate::byte_table::{ERASED, Take};
use crate::link::timetable_file::CHUNKS_MOST;
use crate::port::StoreFault;
use crate::seal::CHUNK;

/// Pieces of a file: its header and its chunks.
pub(super) const PIECES: u8 = 10;
/// Bytes of a piece.
pub(super) const PIECE: usize = 288;
const PIECE_SLOTS: u32 = 9;
/// Slots of the region.
pub(super) const STAGING_SLOTS: u32 = 90;

const _: () = assert!(PIECE == 9 * super::layout::SLOT, "a piece is whole slots");
const _: () = assert!(CHUNKS_MOST == 9, "every chunk is a piece");
const _: () = assert!(CHUNK == 256, "a chunk fits a piece");
const _: () = assert!(STAGING_SLOTS == 10 * PIECE_SLOTS, "every piece has a place");

const KIND: u8 = 142;

/// The staging region, and what in it counts.
pub(super) struct Staging {
    region: Region,
    /// How many pieces, from the first on; `None`: nothing was begun.
    staged: Option<u8>,
    ahead: Ahead,
}

impl Staging {
    /// A region in which nothing counts.
    pub(super) const fn nothing(region: Region) -> Self {
        Self { region, staged: None, ahead: Ahead::Due }
    }

    /// Nothing counts any more.
    pub(super) fn forget(&mut self) {
        if self.staged.take().is_some() {
            self.ahead = Ahead::Due;
        }
    }

    /// Begins anew. The pages are erased whatever they read: the power may have
    /// gone while they were.
    #[inline(never)] // own frame
    pub(super) fn begin<F: NorFlash>(&mut self, pages: &mut Pages<F>) -> Result<(), StoreFault> {
        self.staged = None;
        self.ahead = Ahead::Due;
        pages.erase_all(self.region)?;
        self.staged = Some(0);
        Ok(())
    }

    /// Makes the next piece durable. After a failure the file has to begin
    /// anew.
    #[inline(never)] // own frame
    pub(super) fn push<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        index: u8,
        bytes: &[u8],
    ) -> Result<(), StoreFault> {
        let is_next = self.staged == Some(index) && index < PIECES;
        let length = u16::try_from(bytes.len()).map_err(|_| StoreFault)?;
        if !is_next || !(1..=CHUNK).contains(&bytes.len()) {
            return Err(StoreFault);
        }
        self.forget();
        let mut block = [ERASED; PIECE];
        fill(&mut block, |put| {
            put.u8(KIND);
            put.u8(index);
            put.u16(length);
            put.bytes(bytes);
        })?;
        pages.program(self.region, place(index), &block)?;
        self.staged = Some(index.saturating_add(1));
        Ok(())
    }

    /// A piece that counts: how long it is.
    pub(super) fn read<F: NorFlash>(
        &self,
        pages: &mut Pages<F>,
        index: u8,
        bytes: &mut [u8; CHUNK],
    ) -> Option<usize> {
        self.staged.filter(|count| index < *count)?;
        let mut block = [0; PIECE];
        if pages.look(self.region, place(index), &mut block) != Ok(Sight::Whole) {
            return None;
        }
        let mut take = Take::from(&block);
        let name = (take.u8(), take.u8());
        let length = usize::from(take.u16());
        if name != (KIND, index) || length > CHUNK {
            return None;
        }
        take.bytes(bytes);
        Some(length)
    }

    /// Whether pages in which nothing counts are due to be erased.
    pub(super) const fn is_due(&self) -> bool {
        self.staged.is_none() && matches!(self.ahead, Ahead::Due)
    }

    /// Erases the region if that is due and anything is in it.
    pub(super) fn tend<F: NorFlash>(&mut self, pages: &mut Pages<F>) -> Result<(), StoreFault> {
        if self.is_due() {
            if !pages.is_erased(self.region)? {
                pages.erase_all(self.region)?;
            }
            self.ahead = Ahead::Blank;
        }
        Ok(())
    }
}

/// Pieces count on through the region's pages.
fn place(index: u8) -> Place {
    Place { page: 0, slot: u32::from(index).saturating_mul(PIECE_SLOTS) }
}
