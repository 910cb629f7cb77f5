//! What makes two chips alike, and that a fingerprint agrees with it.

use std::collections::HashMap;
use std::vec;

use super::looks::Cells;
use super::*;
use crate::fuse::Class;

/// Each single flip, and many torn steps: fingerprints are equal exactly where
/// chips are alike.
#[test]
fn fingerprints_agree_with_cells() {
    let limits = Limits { programs: PerWord::Twice, endurance: None };
    let mut chip = Cells::<8>::erased(vec![0; 512]).with_limits(limits);
    for address in (0..128).step_by(8) {
        chip.complete(&Act::Program { address, word: &[0x5A; 8] }).unwrap();
    }
    let mut chips = vec![chip.clone()];
    for bit in 0..512 * 8_u32 {
        let mut flipped = chip.clone();
        flipped.flip_bit(bit / 8, u8::try_from(bit % 8).unwrap()).unwrap();
        chips.push(flipped);
    }
    for class in Class::ALL {
        for seed in 0..200 {
            for act in [Act::Erase { page: 0 }, Act::Program { address: 256, word: &[1; 8] }] {
                let mut torn = chip.clone();
                torn.tear(&act, class, seed).unwrap();
                chips.push(torn.clone());
                torn.power_up();
                torn.read(0, &mut [0; 512]).unwrap();
                chips.push(torn);
            }
        }
    }
    let mut kinds: HashMap<u64, &Cells<8>> = HashMap::new();
    for chip in &chips {
        let other = *kinds.entry(chip.fingerprint()).or_insert(chip);
        assert!(chip.same_cells(other), "{chip:?} {other:?}");
    }
    // A snapshot into memory that held another is that snapshot.
    let mut scratch = chip.clone();
    for chip in &chips {
        scratch.clone_from(chip);
        assert_eq!(scratch, *chip);
    }
    let all: std::vec::Vec<_> = kinds.values().collect();
    for (n, one) in all.iter().enumerate() {
        assert!(all[..n].iter().all(|other| !one.same_cells(other)), "{one:?}");
    }
    assert!(all.len() > 4_097 + 1_000, "{}", all.len());
}

/// Wear tells chips apart where it has consequences.
#[test]
fn wear_counts_if_it_is_limited() {
    for endurance in [None, Some(Endurance { erases: 9, then: Worn::Fails })] {
        let limits = Limits { programs: PerWord::Unlimited, endurance };
        let fresh = Cells::<8>::erased(vec![0; 512]).with_limits(limits);
        let mut worn = fresh.clone();
        worn.complete(&Act::Erase { page: 1 }).unwrap();
        assert_ne!(worn, fresh);
        assert_eq!(worn.same_cells(&fresh), endurance.is_none());
        assert_eq!(worn.fingerprint() == fresh.fingerprint(), endurance.is_none());
    }
}

fn ones_and_stuck_bits_tell_apart<const WORD: usize>() {
    let limits = Limits { programs: PerWord::Once, endurance: None };
    let fresh = Cells::<WORD>::erased(vec![0; 256]).with_limits(limits);
    let mut programmed = fresh.clone();
    programmed.complete(&Act::Program { address: 32, word: &[0xFF; WORD] }).unwrap();
    let mut stuck = fresh.clone();
    stuck.stick_bit(0, 0, StuckAt::One).unwrap();
    for other in [programmed, stuck] {
        assert_eq!(other.content(), fresh.content());
        assert!(!other.same_cells(&fresh));
        assert_ne!(other.fingerprint(), fresh.fingerprint());
    }
}

/// A program of nothing but ones, a stuck bit: seen in what comes after only.
#[test]
fn what_shows_later_only_tells_chips_apart() {
    ones_and_stuck_bits_tell_apart::<1>();
    ones_and_stuck_bits_tell_apart::<8>();
    ones_and_stuck_bits_tell_apart::<32>();
}
