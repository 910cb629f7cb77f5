//! Flash as the store sees it: blocks of bytes at an address, looked at,
//! programmed and read back, and whole pages erased.
//!
//! # What a power cut leaves
//! A block whose programming was cut may read differently from one look to the
//! next, or read well today and not tomorrow. So a block is believed only if
//! [`LOOKS`] looks agree, and what was written last before a boot is written
//! anew by the boot, behind it, before anybody acts on it (`ring.rs`,
//! `tally_log.rs`).
//!
//! *Touched stays touched.* Every block's first word has eight or more bits to
//! clear. A cut that leaves none of them settled leaves a word that may read
//! blank at one look; it does not at [`PROOFS`] looks in a row. So "is there
//! anything at all?" has the same answer at every boot, and stands where a
//! second, deciding write would stand otherwise.

use embedded_storage::nor_flash::NorFlash;
use zeroize::Zeroize;

use super::bytes::{is_blank, mend};
use super::layout::{Region, SLOT, SLOT_BYTES, slots_a_page};
use crate::port::StoreFault;

/// How many looks at a block must agree.
const LOOKS: u32 = 3;

/// How many looks must find nothing before a block counts as blank where it
/// matters. If one look in eight shows a torn word blank, 2⁻⁴⁸ of them pass.
const PROOFS: u32 = 16;

/// How often a read that fails is tried again: a line may be disturbed.
const RETRIES: u32 = 3;

/// A flash, and the arithmetic of its pages.
pub(super) struct Pages<F>(pub(super) F);

/// What a look at a block finds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Sight {
    /// Nothing was ever programmed there.
    Blank,
    /// A sealed block, one flipped bit mended.
    Whole,
    /// Anything else: torn, unstable or spoiled.
    Torn,
}

/// Whether the page that is used next is blank already.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Ahead {
    /// It was erased since the boot, to the end.
    Blank,
    /// It is to be erased when nobody waits.
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

    /// The bytes at `place`, several slots if `block` is that long. The caller
    /// wipes what is secret.
    pub(super) fn read(
        &mut self,
        region: Region,
        place: Place,
        block: &mut [u8],
    ) -> Result<(), StoreFault> {
        let address = Self::address(region, place);
        for _ in 0..RETRIES {
            if self.0.read(address, block).is_ok() {
                return Ok(());
            }
        }
        self.0.read(address, block).map_err(|_| StoreFault)
    }

    /// What is there, after [`LOOKS`] looks. What was read stands in `block`.
    pub(super) fn look(
        &mut self,
        region: Region,
        place: Place,
        block: &mut [u8],
    ) -> Result<Sight, StoreFault> {
        self.read(region, place, block)?;
        for _ in 1..LOOKS {
            if !self.reads(region, place, block)? {
                return Ok(Sight::Torn);
            }
        }
        Ok(if is_blank(block) {
            Sight::Blank
        } else if mend(block) {
            Sight::Whole
        } else {
            Sight::Torn
        })
    }

    /// Whether one more look finds `block` there. Slot by slot, so that nothing
    /// is in memory twice.
    fn reads(&mut self, region: Region, at: Place, block: &[u8]) -> Result<bool, StoreFault> {
        let (slots, _) = block.as_chunks::<SLOT>();
        let (mut seen, mut place) = ([0; SLOT], at);
        let mut same = true;
        for slot in slots {
            self.read(region, place, &mut seen)?;
            same = same && seen == *slot;
            place = place.next();
        }
        seen.zeroize();
        Ok(same)
    }

    /// Whether there is anything at all, after [`PROOFS`] looks.
    pub(super) fn touched(&mut self, region: Region, place: Place) -> Result<bool, StoreFault> {
        let mut slot = [0; SLOT];
        let mut blank = true;
        for _ in 0..PROOFS {
            self.read(region, place, &mut slot)?;
            blank = blank && is_blank(&slot);
        }
        slot.zeroize();
        Ok(!blank)
    }

    /// Whether a slot of a page that was erased is still blank: a cell may have
    /// failed since.
    pub(super) fn is_free(&mut self, region: Region, place: Place) -> Result<bool, StoreFault> {
        let mut slot = [0; SLOT];
        self.read(region, place, &mut slot)?;
        Ok(is_blank(&slot))
    }

    /// Programs `block`, which is whole slots, at `place`, in rising order, and
    /// reads it back twice.
    pub(super) fn program(
        &mut self,
        region: Region,
        place: Place,
        block: &[u8],
    ) -> Result<(), StoreFault> {
        self.0.write(Self::address(region, place), block).map_err(|_| StoreFault)?;
        for _ in 0..2 {
            if !self.reads(region, place, block)? {
                return Err(StoreFault);
            }
        }
        Ok(())
    }

    /// Erases `page` and looks whether it is blank.
    pub(super) fn erase(&mut self, region: Region, page: u32) -> Result<(), StoreFault> {
        let from = Self::page_address(region, page);
        let to = from.saturating_add(Self::PAGE_BYTES);
        self.0.erase(from, to).map_err(|_| StoreFault)?;
        if self.is_blank(region, page)? { Ok(()) } else { Err(StoreFault) }
    }

    /// Whether every byte of `page` reads erased, at one look.
    pub(super) fn is_blank(&mut self, region: Region, page: u32) -> Result<bool, StoreFault> {
        let mut slot = [0; SLOT];
        let mut place = Place::start_of(page);
        let mut blank = true;
        while blank && place.slot < Self::SLOTS {
            self.read(region, place, &mut slot)?;
            blank = is_blank(&slot);
            place = place.next();
        }
        // It may have been part of a key.
        slot.zeroize();
        Ok(blank)
    }

    /// Whether every page of `region` reads erased, each at one look.
    pub(super) fn is_erased(&mut self, region: Region) -> Result<bool, StoreFault> {
        for page in 0..region.pages {
            if !self.is_blank(region, page)? {
                return Ok(false);
            }
        }
        Ok(true)
    }

    /// Erases every page of `region`, the first one first.
    pub(super) fn erase_all(&mut self, region: Region) -> Result<(), StoreFault> {
        for page in 0..region.pages {
            self.erase(region, page)?;
        }
        Ok(())
    }
}
