//! The check value at the end of what lies in flash, which also mends one
//! flipped bit.
//!
//! Everything in flash is little-endian. A block of any kind ends with the
//! CRC-32/ISO-HDLC of all bytes before it (the one of Ethernet and zip). What
//! no field uses reads [`ERASED`].
//!
//! A check value that tells any four flipped bits from none also tells which
//! one was flipped. That holds for blocks of 32 bytes (whose check value tells
//! five) and 64 (four); in those of 192 and 288 bytes, where it tells three, two
//! flips are still never taken for one. The tests below try every pair and triple.

use crc::CRC_32_ISO_HDLC;

use super::layout::SLOT;
use crate::byte_table::crc32;
use crate::port::StoreFault;

pub(super) use crate::byte_table::{ERASED, Put, Take};

/// The check value of `bytes`.
fn check_value(bytes: &[u8]) -> [u8; 4] {
    crc32(bytes).to_le_bytes()
}

/// Puts fields into `block`, which is erased otherwise, and seals it.
///
/// # Errors
/// [`StoreFault`] if they leave no room for the check value: a table that
/// overflows is never written, let alone read back as something else.
pub(super) fn fill(block: &mut [u8], fields: impl FnOnce(&mut Put<'_>)) -> Result<(), StoreFault> {
    let (body, _) = block.split_last_chunk_mut::<4>().ok_or(StoreFault)?;
    let mut put = Put::into(body);
    fields(&mut put);
    if !put.fits() {
        return Err(StoreFault);
    }
    seal(block);
    Ok(())
}

/// Puts the check value into the last four bytes.
pub(super) fn seal(block: &mut [u8]) {
    if let Some((body, check)) = block.split_last_chunk_mut::<4>() {
        *check = check_value(body);
    }
}

#[cfg(test)]
/// Whether the last four bytes are the check value of the rest.
pub(super) fn is_sealed(block: &[u8]) -> bool {
    block.split_last_chunk::<4>().is_some_and(|(body, check)| *check == check_value(body))
}

/// Makes `block` what was sealed, if no bit or one bit of it is flipped.
/// Whether it now is a sealed block; otherwise it is left as it was.
pub(super) fn mend(block: &mut [u8]) -> bool {
    let Some((body, check)) = block.split_last_chunk_mut::<4>() else { return false };
    let stored = u32::from_le_bytes(*check);
    let wrong = u32::from_le_bytes(check_value(body)) ^ stored;
    if wrong == 0 {
        return true;
    }
    if wrong.is_power_of_two() {
        *check = (stored ^ wrong).to_le_bytes();
        return true;
    }
    // What a flip of the last bit does to the check value, then of the bit
    // before it, and so on: the register of the CRC, run on zeros.
    let mut trace = POLYNOMIAL;
    for byte in body.iter_mut().rev() {
        for bit in (0..8u32).rev() {
            if trace == wrong {
                *byte ^= 1u8.unbounded_shl(bit);
                return true;
            }
            trace = (trace >> 1) ^ if trace & 1 == 0 { 0 } else { POLYNOMIAL };
        }
    }
    false
}

/// The generator polynomial of the CRC, lowest power in the highest bit, as
/// the algorithm's reflected form has it.
const POLYNOMIAL: u32 = CRC_32_ISO_HDLC.poly.reverse_bits();

/// Whether nothing was ever programmed in a block of whole slots.
pub(super) fn is_blank(block: &[u8]) -> bool {
    let (slots, _) = block.as_chunks();
    slots.iter().all(|slot| *slot == [ERASED; SLOT])
}

/// The catalogue of parametrised CRC algorithms: CRC-32/ISO-HDLC of the digits
/// 1 to 9 is 0xCBF43926.
#[cfg(test)]
mod tests {
    use std::collections::HashSet;
    use std::vec::Vec;

    use super::*;

    #[test]
    fn the_check_value_is_that_of_the_catalogue() {
        assert_eq!(check_value(b"123456789"), 0xCBF4_3926_u32.to_le_bytes());
    }

    #[test]
    fn fields_that_reach_into_the_check_value_are_refused() {
        for (length, fits) in [(0, true), (27, true), (28, true), (29, false), (40, false)] {
            let mut block = [ERASED; 32];
            let filled = fill(&mut block, |put| put.bytes(&[7; 40][..length]));
            assert_eq!((filled.is_ok(), is_sealed(&block)), (fits, fits), "{length}");
        }
    }

    #[test]
    fn neither_erased_nor_zeroed_blocks_are_sealed() {
        assert!(!is_sealed(&[0xFF; 32]) && !is_sealed(&[0; 32]));
        assert!(!is_sealed(&[0xFF; 64]) && !is_sealed(&[0; 64]));
        assert!(!is_sealed(&[0xFF; 192]) && !is_sealed(&[0; 192]));
    }

    /// A sealed block of nothing in particular.
    fn sealed<const N: usize>() -> [u8; N] {
        let mut block = core::array::from_fn(|at| u8::try_from(at * 37 % 251).unwrap());
        seal(&mut block);
        block
    }

    fn flip<const N: usize>(block: &mut [u8; N], bit: usize) {
        block[bit / 8] ^= 1 << (bit % 8);
    }

    fn every_flip_is_mended<const N: usize>() {
        for bit in 0..N * 8 {
            let mut block = sealed::<N>();
            flip(&mut block, bit);
            assert!(mend(&mut block), "{bit}");
            assert!(block == sealed(), "{bit}");
        }
    }

    #[test]
    fn any_one_flip_is_mended() {
        every_flip_is_mended::<32>();
        every_flip_is_mended::<64>();
        every_flip_is_mended::<192>();
        every_flip_is_mended::<288>();
    }

    /// What each single flip does to the check value.
    fn traces<const N: usize>() -> Vec<u32> {
        let sum = |block: &[u8; N]| {
            let (body, check) = block.split_last_chunk::<4>().unwrap();
            u32::from_le_bytes(check_value(body)) ^ u32::from_le_bytes(*check)
        };
        let trace = |bit| {
            let mut block = sealed::<N>();
            flip(&mut block, bit);
            sum(&block)
        };
        (0..N * 8).map(trace).collect()
    }

    /// Two flips leave no trace of one flip, so they are never "mended"; the
    /// CRC is linear, so what is shown for one block holds for all.
    fn no_pair_looks_like_one<const N: usize>() {
        let traces = traces::<N>();
        let ones: HashSet<u32> = traces.iter().copied().collect();
        assert_eq!(ones.len(), N * 8);
        for (n, one) in traces.iter().enumerate() {
            for other in &traces[n + 1..] {
                assert!(!ones.contains(&(one ^ other)) && one ^ other != 0);
            }
        }
    }

    #[test]
    fn two_flips_are_never_taken_for_one() {
        no_pair_looks_like_one::<32>();
        no_pair_looks_like_one::<64>();
        no_pair_looks_like_one::<192>();
        no_pair_looks_like_one::<288>();
    }

    #[test]
    fn nor_are_three_in_a_slot_or_a_row() {
        for traces in [traces::<32>(), traces::<64>()] {
            let ones: HashSet<u32> = traces.iter().copied().collect();
            for (a, one) in traces.iter().enumerate() {
                for (b, two) in traces.iter().enumerate().skip(a + 1) {
                    for three in &traces[b + 1..] {
                        assert!(!ones.contains(&(one ^ two ^ three)));
                    }
                }
            }
        }
    }

    #[test]
    fn what_is_not_mended_is_left_alone() {
        let mut block = sealed::<32>();
        flip(&mut block, 3);
        flip(&mut block, 77);
        let before = block;
        assert!(!mend(&mut block));
        assert_eq!(block, before);
    }
}
