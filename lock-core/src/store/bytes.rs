//! Fixed byte tables: writing and reading fields one behind the other, and the
//! check value at the end.
//!
//! Everything in flash is little-endian. A block of any kind ends with the
//! CRC-32/ISO-HDLC of all bytes before it (the one of Ethernet and zip). What
//! no field uses reads [`ERASED`].

use crc::{CRC_32_ISO_HDLC, Crc, Table};

/// What erased flash reads.
pub(super) const ERASED: u8 = 0xFF;

/// One table of 1 KB: a byte a look-up.
static CRC: Crc<u32, Table<1>> = Crc::<u32, Table<1>>::new(&CRC_32_ISO_HDLC);

/// The check value of `bytes`.
fn check_value(bytes: &[u8]) -> [u8; 4] {
    CRC.checksum(bytes).to_le_bytes()
}

/// Puts the check value into the last four bytes.
pub(super) fn seal<const N: usize>(block: &mut [u8; N]) {
    if let Some((body, check)) = block.split_last_chunk_mut::<4>() {
        *check = check_value(body);
    }
}

/// Whether the last four bytes are the check value of the rest.
pub(super) fn is_sealed<const N: usize>(block: &[u8; N]) -> bool {
    block.split_last_chunk::<4>().is_some_and(|(body, check)| *check == check_value(body))
}

/// Whether nothing was ever programmed there.
pub(super) fn is_blank<const N: usize>(block: &[u8; N]) -> bool {
    *block == [ERASED; N]
}

/// Writes fields one behind the other. What does not fit is left out; every
/// table has a test that its fields do.
pub(super) struct Put<'a>(core::slice::IterMut<'a, u8>);

impl<'a> Put<'a> {
    pub(super) fn into(block: &'a mut [u8]) -> Self {
        Self(block.iter_mut())
    }

    pub(super) fn bytes(&mut self, bytes: &[u8]) {
        // The bytes first: the pair is taken from them, so that no place of
        // the block is used up once they end.
        for (from, to) in bytes.iter().zip(&mut self.0) {
            *to = *from;
        }
    }

    pub(super) fn u8(&mut self, value: u8) {
        self.bytes(&[value]);
    }

    pub(super) fn u16(&mut self, value: u16) {
        self.bytes(&value.to_le_bytes());
    }

    pub(super) fn u32(&mut self, value: u32) {
        self.bytes(&value.to_le_bytes());
    }
}

/// Reads fields one behind the other. Past the end everything reads erased.
pub(super) struct Take<'a>(core::slice::Iter<'a, u8>);

impl<'a> Take<'a> {
    pub(super) fn from(block: &'a [u8]) -> Self {
        Self(block.iter())
    }

    pub(super) fn u8(&mut self) -> u8 {
        self.0.next().copied().unwrap_or(ERASED)
    }

    pub(super) fn array<const N: usize>(&mut self) -> [u8; N] {
        core::array::from_fn(|_| self.u8())
    }

    pub(super) fn u16(&mut self) -> u16 {
        u16::from_le_bytes(self.array())
    }

    pub(super) fn u32(&mut self) -> u32 {
        u32::from_le_bytes(self.array())
    }
}

/// The catalogue of parametrised CRC algorithms: CRC-32/ISO-HDLC of the digits
/// 1 to 9 is 0xCBF43926.
#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_check_value_is_that_of_the_catalogue() {
        assert_eq!(check_value(b"123456789"), 0xCBF4_3926_u32.to_le_bytes());
    }

    #[test]
    fn neither_erased_nor_zeroed_blocks_are_sealed() {
        assert!(!is_sealed(&[0xFF; 32]) && !is_sealed(&[0; 32]));
        assert!(!is_sealed(&[0xFF; 64]) && !is_sealed(&[0; 64]));
        assert!(!is_sealed(&[0xFF; 192]) && !is_sealed(&[0; 192]));
    }

    #[test]
    fn every_flipped_bit_of_a_sealed_block_is_seen() {
        let mut block = [0x5A; 32];
        seal(&mut block);
        assert!(is_sealed(&block));
        for bit in 0..256 {
            let mut flipped = block;
            flipped[bit / 8] ^= 1 << (bit % 8);
            assert!(!is_sealed(&flipped), "bit {bit}");
        }
    }

    #[test]
    fn fields_follow_one_another() {
        let mut block = [ERASED; 9];
        let mut put = Put::into(&mut block);
        put.u8(1);
        put.u16(0x0203);
        put.bytes(&[4]);
        put.u32(0x0506_0708);
        assert_eq!(block, [1, 3, 2, 4, 8, 7, 6, 5, 0xFF]);
        let mut take = Take::from(&block);
        assert_eq!((take.u8(), take.u16(), take.array()), (1, 0x0203, [4]));
        assert_eq!((take.u32(), take.u16()), (0x0506_0708, 0xFFFF));
    }
}
