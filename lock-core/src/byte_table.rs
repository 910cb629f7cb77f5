//! Fixed byte tables: writing and reading fields one behind the other, little
//! endian, and the check value of flash and of frames.

use crc::{CRC_32_ISO_HDLC, Crc};

/// What erased flash reads, and what a field reads that is not used.
pub(crate) const ERASED: u8 = 0xFF;

/// With a table a byte is a look-up. A lock does without: the table is a kilobyte
/// of flash, and saves it a twelfth of an opening.
#[cfg(not(target_os = "none"))]
type Method = crc::Table<1>;
#[cfg(target_os = "none")]
type Method = crc::NoTable;

static CRC: Crc<u32, Method> = Crc::<u32, Method>::new(&CRC_32_ISO_HDLC);

/// The CRC-32/ISO-HDLC of `bytes`, the one of Ethernet and zip.
pub(crate) fn crc32(bytes: &[u8]) -> u32 {
    CRC.checksum(bytes)
}

/// Writes fields one behind the other. Ask it at the end whether they fitted:
/// bytes for which there is no room are left out.
pub(crate) struct Put<'a> {
    room: core::slice::IterMut<'a, u8>,
    fits: bool,
}

impl<'a> Put<'a> {
    pub(crate) fn into(block: &'a mut [u8]) -> Self {
        Self { room: block.iter_mut(), fits: true }
    }

    /// Whether nothing was left out.
    pub(crate) const fn fits(&self) -> bool {
        self.fits
    }

    #[cfg_attr(target_os = "none", inline(never))] // one copy
    pub(crate) fn bytes(&mut self, bytes: &[u8]) {
        self.fits &= bytes.len() <= self.room.len();
        // The bytes first: the pair is taken from them, so that no place of
        // the block is used up once they end.
        for (from, to) in bytes.iter().zip(&mut self.room) {
            *to = *from;
        }
    }

    #[cfg_attr(target_os = "none", inline(never))] // one copy
    pub(crate) fn u8(&mut self, value: u8) {
        self.bytes(&[value]);
    }

    #[cfg_attr(target_os = "none", inline(never))] // one copy
    pub(crate) fn u16(&mut self, value: u16) {
        self.bytes(&value.to_le_bytes());
    }

    #[cfg_attr(target_os = "none", inline(never))] // one copy
    pub(crate) fn u32(&mut self, value: u32) {
        self.bytes(&value.to_le_bytes());
    }
}

/// A table of `N` bytes, zero where no field lies. A field that does not fit fails every
/// test that writes one: its size is a constant, so it never fits or always does.
pub(crate) fn table<const N: usize>(fields: impl FnOnce(&mut Put<'_>)) -> [u8; N] {
    let mut bytes = [0; N];
    let mut put = Put::into(&mut bytes);
    fields(&mut put);
    debug_assert!(put.fits(), "these fields take more than {N} bytes");
    bytes
}

/// Reads fields one behind the other. Past the end everything reads erased.
pub(crate) struct Take<'a>(core::slice::Iter<'a, u8>);

impl<'a> Take<'a> {
    pub(crate) fn from(block: &'a [u8]) -> Self {
        Self(block.iter())
    }

    /// The next bytes, as many as there is room for.
    #[cfg_attr(target_os = "none", inline(never))] // one copy
    pub(crate) fn bytes(&mut self, bytes: &mut [u8]) {
        for byte in bytes {
            *byte = self.0.next().copied().unwrap_or(ERASED);
        }
    }

    pub(crate) fn array<const N: usize>(&mut self) -> [u8; N] {
        let mut bytes = [0; N];
        self.bytes(&mut bytes);
        bytes
    }

    #[cfg_attr(target_os = "none", inline(never))] // one copy
    pub(crate) fn u8(&mut self) -> u8 {
        let [byte] = self.array();
        byte
    }

    #[cfg_attr(target_os = "none", inline(never))] // one copy
    pub(crate) fn u16(&mut self) -> u16 {
        u16::from_le_bytes(self.array())
    }

    #[cfg_attr(target_os = "none", inline(never))] // one copy
    pub(crate) fn u32(&mut self) -> u32 {
        u32::from_le_bytes(self.array())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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

    #[test]
    #[should_panic(expected = "more than 5 bytes")]
    fn a_table_that_is_too_small_fails() {
        let _: [u8; 5] = table(|put| {
            put.u32(1);
            put.u16(2);
        });
    }

    #[test]
    fn what_does_not_fit_is_said() {
        let mut block = [ERASED; 5];
        let mut put = Put::into(&mut block);
        put.u32(1);
        assert!(put.fits());
        put.u8(2);
        assert!(put.fits());
        put.bytes(&[]);
        assert!(put.fits());
        put.u8(3);
        assert!(!put.fits());
        put.bytes(&[]);
        assert!(!put.fits());
        assert_eq!(block, [1, 0, 0, 0, 2]);
        let mut put = Put::into(&mut block[..3]);
        put.u32(u32::MAX);
        assert!(!put.fits());
    }
}
