//! A store without flash: for examples, tests and the first bring-up of a board.

use embedded_storage::nor_flash::{
    ErrorType, NorFlash, NorFlashErrorKind, ReadNorFlash, check_erase, check_read, check_write,
};
use zeroize::Zeroize;

use super::{FlashStore, Layout};
use crate::code::KeyInFlash;

/// The store of a board, on [memory](Ram) instead of flash.
///
/// It is the same code, and so it refuses, counts and lists as the one on a board does.
/// But its memory forgets when the power goes, and everything that the lock promises about
/// a cut of the power (R1, R2, R6 and R7, and the times of R3) holds no longer than that:
/// such a lock must never hold a door shut.
pub type RamStore<K = KeyInFlash> = FlashStore<Ram, K>;

/// Memory that takes what NOR flash takes: a page is erased whole, a word is programmed
/// once after that, and whatever is asked otherwise is refused and does nothing.
///
/// It never wears out and no power cut tears it. About 32 KB: on a microcontroller, build
/// the store where it stays ([`FlashStore::at_rest`]).
///
/// No `Debug`: digests of codes and the lock's key are in it. Wiped when dropped.
pub struct Ram([u8; Ram::BYTES]);

silent!(Ram);

impl Ram {
    /// Bytes of a page, which is what is erased at once.
    pub const PAGE: usize = 512;

    /// Bytes of a word, which is what is programmed at once.
    pub const WORD: usize = 4;

    /// The smallest layout for such pages. The newest [`Layout::openings_kept`] and
    /// [`Layout::refusals_kept`] records are listed: 17 of each.
    pub const LAYOUT: Layout = match Layout::smallest(Self::PAGE) {
        Some(layout) => layout,
        None => panic!("pages of 512 bytes have a layout"),
    };

    /// Bytes of all pages.
    pub const BYTES: usize = 32_256;

    /// As flash comes from the factory: every byte is erased.
    #[must_use]
    pub const fn blank() -> Self {
        Self([ERASED; Self::BYTES])
    }

    fn bytes(&mut self, from: u32, length: usize) -> Result<&mut [u8], NorFlashErrorKind> {
        let from = usize::try_from(from).map_err(|_| NorFlashErrorKind::OutOfBounds)?;
        let to = from.checked_add(length).ok_or(NorFlashErrorKind::OutOfBounds)?;
        self.0.get_mut(from..to).ok_or(NorFlashErrorKind::OutOfBounds)
    }
}

/// What an erased byte reads.
const ERASED: u8 = 0xFF;

impl Zeroize for Ram {
    fn zeroize(&mut self) {
        self.0.zeroize();
    }
}

wiped!(Ram);

impl ErrorType for Ram {
    type Error = NorFlashErrorKind;
}

impl ReadNorFlash for Ram {
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), NorFlashErrorKind> {
        check_read(self, offset, bytes.len())?;
        let from = self.bytes(offset, bytes.len())?;
        for (to, from) in bytes.iter_mut().zip(from) {
            *to = *from;
        }
        Ok(())
    }

    fn capacity(&self) -> usize {
        Self::BYTES
    }
}

impl NorFlash for Ram {
    const WRITE_SIZE: usize = Self::WORD;
    const ERASE_SIZE: usize = Self::PAGE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), NorFlashErrorKind> {
        check_erase(self, from, to)?;
        let length = usize::try_from(to.saturating_sub(from));
        let length = length.map_err(|_| NorFlashErrorKind::OutOfBounds)?;
        self.bytes(from, length)?.fill(ERASED);
        Ok(())
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), NorFlashErrorKind> {
        check_write(self, offset, bytes.len())?;
        let to = self.bytes(offset, bytes.len())?;
        if to.iter().any(|byte| *byte != ERASED) {
            return Err(NorFlashErrorKind::Other);
        }
        for (to, from) in to.iter_mut().zip(bytes) {
            *to = *from;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use emulated_board::flash::{Chip, Limits, PerWord, RamFlash};
    use emulated_board::fuse::Fuse;
    use std::vec;
    use std::vec::Vec;

    use proptest::collection::vec as list;
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn it_is_as_large_as_the_smallest_layout() {
        assert_eq!(Ram::LAYOUT.bytes(Ram::PAGE), u32::try_from(Ram::BYTES).ok());
        assert_eq!(Ram::LAYOUT.openings_kept(Ram::PAGE), 17);
        assert_eq!(Ram::LAYOUT.refusals_kept(Ram::PAGE), 17);
    }

    fn any_call() -> impl Strategy<Value = (bool, u32, Vec<u8>)> {
        let near = |unit: usize, most: usize| {
            let unit = u32::try_from(unit).unwrap();
            (0..u32::try_from(most).unwrap(), any::<bool>())
                .prop_map(move |(n, off)| n * unit + u32::from(off))
        };
        let bytes = list(prop_oneof![Just(ERASED), any::<u8>()], 0..12);
        prop_oneof![
            4 => (near(4, 16), bytes.clone()).prop_map(|(at, bytes)| (true, at, bytes)),
            1 => (near(512, 65), bytes.clone()).prop_map(|(at, bytes)| (true, at, bytes)),
            1 => (near(512, 65), bytes).prop_map(|(at, bytes)| (false, at, bytes)),
        ]
    }

    proptest! {
        /// What the emulator's flash takes and refuses this does, and both read alike. Words
        /// of ones are left out: they leave a word blank here, and programmed there.
        #[test]
        fn it_takes_what_flash_takes(calls in list(any_call(), 1..40)) {
            let limits = Limits { programs: PerWord::Once, ..Limits::default() };
            let chip = Chip::<{ Ram::WORD }, { Ram::PAGE }, _>::erased(vec![0; Ram::BYTES]);
            let mut flash = RamFlash::new(chip.with_limits(limits), Fuse::new());
            let mut ram = Ram::blank();
            for (programs, at, bytes) in calls {
                let blank = bytes.chunks(Ram::WORD).any(|word| word == [ERASED; Ram::WORD]);
                if programs && blank {
                    continue;
                }
                let (one, other) = if programs {
                    (ram.write(at, &bytes).is_ok(), flash.write(at, &bytes).is_ok())
                } else {
                    let to = at.saturating_add(512);
                    (ram.erase(at, to).is_ok(), flash.erase(at, to).is_ok())
                };
                prop_assert_eq!(one, other, "{} {} {:?}", programs, at, bytes);
                prop_assert_eq!(&ram.0[..], flash.content());
            }
        }
    }
}
