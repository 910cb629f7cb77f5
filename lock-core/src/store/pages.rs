//! Flash as the store sees it: blocks of bytes at an address, read, programmed
//! and read back, and whole pages erased and looked at.

use embedded_storage::nor_flash::NorFlash;

use super::bytes::is_blank;
use super::layout::{Region, SLOT, SLOT_BYTES, slots_a_page};
use crate::port::StoreFault;

/// A flash, and the arithmetic of its pages.
pub(super) struct Pages<F>(pub(super) F);

/// Whether the page that is used next is blank already.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Ahead {
    /// It is.
    Blank,
    /// It is to be erased, at the next write that is no release.
    Due,
}

/// A slot of a region: its page, counted from the start of the region, and its
/// number in that page.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Place {
    pub(super) page: u32,
    pub(super) slot: u32,
}

impl Place {
    /// The first slot of `page`.
    pub(super) const fn start_of(page: u32) -> Self {
        Self { page, slot: 0 }
    }

    /// The next slot of the same page, or one past it.
    pub(super) const fn next(self) -> Self {
        Self { slot: self.slot.saturating_add(1), ..self }
    }
}

impl<F: NorFlash> Pages<F> {
    /// Slots of a page. A flash whose pages or words do not suit the store
    /// does not compile.
    pub(super) const SLOTS: u32 = {
        assert!(
            matches!(F::WRITE_SIZE, 1 | 2 | 4 | 8 | 16 | 32),
            "a word of this flash is no divisor of a slot"
        );
        assert!(
            matches!(F::READ_SIZE, 1 | 2 | 4 | 8 | 16 | 32),
            "what this flash reads at once is no divisor of a slot"
        );
        let Some(slots) = slots_a_page(F::ERASE_SIZE) else {
            panic!("pages of this flash are no power of two from 256 to 4,096 bytes");
        };
        slots
    };

    const PAGE_BYTES: u32 = Self::SLOTS.saturating_mul(SLOT_BYTES);

    fn page_address(region: Region, page: u32) -> u32 {
        region.first.saturating_add(page).saturating_mul(Self::PAGE_BYTES)
    }

    fn address(region: Region, place: Place) -> u32 {
        let offset = place.slot.saturating_mul(SLOT_BYTES);
        Self::page_address(region, place.page).saturating_add(offset)
    }

    /// The `N` bytes at `place`: several slots, if `N` says so.
    pub(super) fn read<const N: usize>(
        &mut self,
        region: Region,
        place: Place,
    ) -> Result<[u8; N], StoreFault> {
        let mut block = [0; N];
        self.read_into(region, place, &mut block)?;
        Ok(block)
    }

    /// The same, where the caller wipes what was read.
    pub(super) fn read_into<const N: usize>(
        &mut self,
        region: Region,
        place: Place,
        block: &mut [u8; N],
    ) -> Result<(), StoreFault> {
        self.0.read(Self::address(region, place), block).map_err(|_| StoreFault)
    }

    /// Programs `block` at `place`, in rising order, and reads it back into
    /// `seen`, which the caller wipes if the block is secret.
    pub(super) fn program<const N: usize>(
        &mut self,
        region: Region,
        place: Place,
        block: &[u8; N],
        seen: &mut [u8; N],
    ) -> Result<(), StoreFault> {
        self.0.write(Self::address(region, place), block).map_err(|_| StoreFault)?;
        self.read_into(region, place, seen)?;
        if seen == block { Ok(()) } else { Err(StoreFault) }
    }

    /// Erases `page` and looks whether it is blank.
    pub(super) fn erase(&mut self, region: Region, page: u32) -> Result<(), StoreFault> {
        let from = Self::page_address(region, page);
        let to = from.saturating_add(Self::PAGE_BYTES);
        self.0.erase(from, to).map_err(|_| StoreFault)?;
        if self.is_blank(region, page)? { Ok(()) } else { Err(StoreFault) }
    }

    /// Whether every byte of `page` reads erased.
    pub(super) fn is_blank(&mut self, region: Region, page: u32) -> Result<bool, StoreFault> {
        let mut place = Place::start_of(page);
        while place.slot < Self::SLOTS {
            if !is_blank(&self.read::<SLOT>(region, place)?) {
                return Ok(false);
            }
            place = place.next();
        }
        Ok(true)
    }

    /// Erases `page` unless it is blank.
    pub(super) fn make_blank(&mut self, region: Region, page: u32) -> Result<(), StoreFault> {
        if self.is_blank(region, page)? { Ok(()) } else { self.erase(region, page) }
    }

    /// One past the last slot of `page` that is not blank; a slot that cannot
    /// be read is not blank.
    pub(super) fn used(&mut self, region: Region, page: u32) -> Place {
        let mut place = Place::start_of(page);
        let mut used = place;
        while place.slot < Self::SLOTS {
            let blank = self.read::<SLOT>(region, place).is_ok_and(|slot| is_blank(&slot));
            place = place.next();
            if !blank {
                used = place;
            }
        }
        used
    }

    /// Erases every page of `region`.
    pub(super) fn erase_all(&mut self, region: Region) -> Result<(), StoreFault> {
        let mut page = 0;
        while page < region.pages {
            self.erase(region, page)?;
            page = page.saturating_add(1);
        }
        Ok(())
    }
}
