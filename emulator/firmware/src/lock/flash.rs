//! Memory that stands in for flash: it clears bits and sets whole pages.

use core::cell::UnsafeCell;
use core::mem::MaybeUninit;
use core::ops::Range;

use embedded_storage::nor_flash::{
    ErrorType, NorFlash, NorFlashError, NorFlashErrorKind, ReadNorFlash,
};
use lock_core::store::Layout;

/// Word and page, as many small microcontrollers have them (from memory).
const WORD: usize = 8;
const PAGE: usize = 2_048;

/// A full store in such pages.
pub const LAYOUT: Layout = match Layout::for_pages_of(PAGE) {
    Some(layout) => layout,
    None => panic!("a store takes pages of 2 KiB"),
};
const BYTES: usize = LAYOUT.pages() as usize * PAGE;

struct Array(UnsafeCell<MaybeUninit<[u8; BYTES]>>);

// SAFETY: only `Flash` touches it, and there is one, on one core.
unsafe impl Sync for Array {}

// A reset leaves it as it was: it is flash.
#[unsafe(link_section = ".uninit.FLASH")]
static ARRAY: Array = Array(UnsafeCell::new(MaybeUninit::uninit()));

/// The flash; `new` is called once.
pub struct Flash(());

/// A call outside the array, or one that raises a bit.
#[derive(Clone, Copy, Debug)]
pub struct Refused;

impl NorFlashError for Refused {
    fn kind(&self) -> NorFlashErrorKind {
        NorFlashErrorKind::Other
    }
}

impl Flash {
    pub const fn new() -> Self {
        Self(())
    }

    fn bytes(&mut self, at: u32, length: usize) -> Result<&mut [u8], Refused> {
        // SAFETY: the only flash there is lends it out for as long as it is
        // borrowed itself. The memory is there, whatever is in it, and every
        // content of bytes is one.
        let array = unsafe { (*ARRAY.0.get()).assume_init_mut() };
        let from = usize::try_from(at).map_err(|_| Refused)?;
        let to = from.checked_add(length).ok_or(Refused)?;
        array.get_mut(Range { start: from, end: to }).ok_or(Refused)
    }
}

impl ErrorType for Flash {
    type Error = Refused;
}

impl ReadNorFlash for Flash {
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), Refused> {
        let from = self.bytes(offset, bytes.len())?;
        for (to, from) in bytes.iter_mut().zip(from) {
            *to = *from;
        }
        Ok(())
    }

    fn capacity(&self) -> usize {
        BYTES
    }
}

impl NorFlash for Flash {
    const WRITE_SIZE: usize = WORD;
    const ERASE_SIZE: usize = PAGE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), Refused> {
        let length = usize::try_from(to.saturating_sub(from)).map_err(|_| Refused)?;
        self.bytes(from, length)?.fill(0xFF);
        Ok(())
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), Refused> {
        let to = self.bytes(offset, bytes.len())?;
        for (to, from) in to.iter_mut().zip(bytes) {
            *to &= *from;
        }
        Ok(())
    }
}
