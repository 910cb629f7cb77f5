//! A flash whose writes are told as they are begun.

use core::cell::Cell;

use embedded_storage::nor_flash::{
    ErrorType, NorFlash, NorFlashError, NorFlashErrorKind, ReadNorFlash,
};

use super::did::{Did, Sink, Teller};
use crate::clock::Clocked;
use crate::fuse::{Fuse, Power as _};

/// The flash `F`, which hangs on `power`.
pub(super) struct Noted<'a, F, K> {
    pub(super) flash: F,
    pub(super) power: &'a Fuse,
    pub(super) clock: &'a Cell<Clocked>,
    pub(super) teller: &'a Teller<K>,
}

/// What went wrong in a flash.
#[derive(Debug)]
pub(super) struct Failed(NorFlashErrorKind);

impl NorFlashError for Failed {
    fn kind(&self) -> NorFlashErrorKind {
        self.0
    }
}

fn failed(error: impl NorFlashError) -> Failed {
    Failed(error.kind())
}

impl<F, K: Sink> Noted<'_, F, K> {
    /// Nothing of a lock without power reaches the world.
    fn tell(&self, did: Did<'_>) {
        if self.power.is_on() {
            self.teller.tell(self.clock.get().reading().uptime, did);
        }
    }
}

impl<F, K> ErrorType for Noted<'_, F, K> {
    type Error = Failed;
}

impl<F: NorFlash, K> ReadNorFlash for Noted<'_, F, K> {
    const READ_SIZE: usize = F::READ_SIZE;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), Failed> {
        self.flash.read(offset, bytes).map_err(failed)
    }

    fn capacity(&self) -> usize {
        self.flash.capacity()
    }
}

impl<F: NorFlash, K: Sink> NorFlash for Noted<'_, F, K> {
    const WRITE_SIZE: usize = F::WRITE_SIZE;
    const ERASE_SIZE: usize = F::ERASE_SIZE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), Failed> {
        let size = u32::try_from(F::ERASE_SIZE).unwrap_or(u32::MAX).max(1);
        let mut at = from;
        while at < to {
            self.tell(Did::Erase { page: at / size });
            let next = at.saturating_add(size);
            self.flash.erase(at, next).map_err(failed)?;
            at = next;
        }
        Ok(())
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), Failed> {
        let mut address = offset;
        for word in bytes.chunks(F::WRITE_SIZE.max(1)) {
            self.tell(Did::Program { address, word });
            self.flash.write(address, word).map_err(failed)?;
            address = address.saturating_add(u32::try_from(word.len()).unwrap_or(u32::MAX));
        }
        Ok(())
    }
}
