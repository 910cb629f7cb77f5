//! A chip that outlives its process: its content, and the bits that read
//! either way, as bytes.
//!
//! ```text
//! bytes   content    as many as the chip has
//! then, if any bit is weak:
//!         mask       as many again: which bits are weak
//!         state      WEAK_STATE bytes, numbers little-endian
//!                    0..8 noise, 8..16 reads that met a weak bit,
//!                    16 whether bits sleep, 17..21 from, 21..25 to,
//!                    25 returns of the power until they wake,
//!                    26 whether reads wake them, 27..35 after how many
//! ```
//!
//! Wear, stuck bits and limits are not in it: whoever sets them sets them anew.

use super::chip::Chip;
use super::weak::{Asleep, Weak};

/// Bytes of what decides how weak bits read.
pub const WEAK_STATE: usize = 35;

impl<const WORD: usize, const PAGE: usize, B> Chip<WORD, PAGE, B>
where
    B: AsRef<[u8]> + AsMut<[u8]> + Clone,
{
    /// What decides how weak bits read; `None` if none is weak.
    #[must_use]
    pub fn weak_state(&self) -> Option<[u8; WEAK_STATE]> {
        self.weak.as_ref().map(Weak::to_bytes)
    }

    /// The same with the bits of `mask` weak, as [`Chip::weak_mask`] and
    /// [`Chip::weak_state`] told it. `None` if the two do not belong together,
    /// or not to this chip.
    #[must_use]
    pub fn with_weak(mut self, mask: B, state: &[u8; WEAK_STATE]) -> Option<Self> {
        let fits = mask.as_ref().len() == self.cells.as_ref().len();
        self.weak = Some(Weak::from_bytes(mask, state).filter(|_| fits)?);
        Some(self)
    }
}

impl<B: AsRef<[u8]> + AsMut<[u8]>> Weak<B> {
    fn to_bytes(&self) -> [u8; WEAK_STATE] {
        let mut bytes = [0; WEAK_STATE];
        let mut at = 0;
        let mut put = |field: &[u8]| {
            for (to, from) in bytes.iter_mut().skip(at).zip(field) {
                *to = *from;
            }
            at += field.len();
        };
        let place = |byte: usize| u32::try_from(byte).unwrap_or(u32::MAX).to_le_bytes();
        put(&self.noise.to_le_bytes());
        put(&self.reads.to_le_bytes());
        put(&[self.asleep.is_some().into()]);
        if let Some(asleep) = self.asleep {
            put(&place(asleep.from));
            put(&place(asleep.to));
            put(&[asleep.returns, asleep.reads.is_some().into()]);
            put(&asleep.reads.unwrap_or_default().to_le_bytes());
        }
        bytes
    }

    fn from_bytes(mask: B, bytes: &[u8; WEAK_STATE]) -> Option<Self> {
        let (noise, rest) = bytes.split_first_chunk()?;
        let (reads, rest) = rest.split_first_chunk()?;
        let (sleeps, rest) = rest.split_first()?;
        let (from, rest) = rest.split_first_chunk()?;
        let (to, rest) = rest.split_first_chunk()?;
        let (returns, rest) = rest.split_first()?;
        let (counted, rest) = rest.split_first()?;
        let (left, _) = rest.split_first_chunk()?;
        let asleep = Asleep {
            from: usize::try_from(u32::from_le_bytes(*from)).ok()?,
            to: usize::try_from(u32::from_le_bytes(*to)).ok()?,
            returns: *returns,
            reads: (*counted == 1).then_some(u64::from_le_bytes(*left)),
        };
        let bits = mask.as_ref().iter().map(|byte| byte.count_ones()).sum();
        Some(Self {
            mask,
            bits,
            noise: u64::from_le_bytes(*noise),
            reads: u64::from_le_bytes(*reads),
            asleep: (*sleeps == 1).then_some(asleep),
        })
    }
}

#[cfg(test)]
mod tests {
    use std::vec;
    use std::vec::Vec;

    use super::*;
    use crate::fuse::{Act, Class};

    type Small = Chip<8, 256, Vec<u8>>;

    /// Chips torn in every way are the same chips when their bytes are read back,
    /// now and for every read that follows.
    #[test]
    fn a_chip_reads_the_same_after_a_way_through_a_file() {
        let mut weak = 0;
        for class in Class::ALL {
            for seed in 0..64 {
                let mut chip = Small::erased(vec![0; 512]);
                let word = [0x35; 8];
                chip.complete(&Act::Program { address: 256, word: &word }).unwrap();
                chip.tear(&Act::Program { address: 264, word: &word }, class, seed).unwrap();
                chip.tear(&Act::Erase { page: 1 }, class, seed).unwrap();
                let mut back = Small::with_content(chip.content().to_vec());
                if let (Some(mask), Some(state)) = (chip.weak_mask(), chip.weak_state()) {
                    weak += 1;
                    back = back.with_weak(mask.to_vec(), &state).unwrap();
                }
                for _ in 0..20 {
                    assert!(back.same_cells(&chip), "{class:?} {seed}");
                    let (mut seen, mut expected) = ([0; 32], [0; 32]);
                    back.read(250, &mut seen).unwrap();
                    chip.read(250, &mut expected).unwrap();
                    assert_eq!(seen, expected);
                    chip.power_up();
                    back.power_up();
                }
            }
        }
        assert!(weak > 100, "{weak} chips with weak bits");
    }

    #[test]
    fn a_mask_of_another_size_is_refused() {
        let chip = Small::erased(vec![0; 512]);
        assert!(chip.with_weak(vec![0; 256], &[0; WEAK_STATE]).is_none());
    }
}
