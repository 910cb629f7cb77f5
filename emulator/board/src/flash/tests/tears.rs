//! What a torn step leaves, bit by bit, against the table at the head of the
//! flash module. The judge reads the chip; it shares no code with it.

use std::vec;
use std::vec::Vec;

use proptest::collection::vec as list;
use proptest::prelude::*;
use proptest::sample::select;

use super::looks::{Cells, Seen, done, look, look_later};
use super::*;
use crate::fuse::Class;

/// What happened to a chip before: words programmed, and one step torn.
#[derive(Clone, Debug)]
struct Past {
    words: Vec<(usize, [u8; 32])>,
    torn: Option<(bool, usize, [u8; 32], Class, u64)>,
}

/// Often the same one.
fn any_place() -> impl Strategy<Value = usize> {
    prop_oneof![0..512usize, Just(3)]
}

fn any_past() -> impl Strategy<Value = Past> {
    let word = || (0..512usize, any::<[u8; 32]>());
    let weakens = select(&[Class::Unstable, Class::LooksDone][..]);
    let torn = (any::<bool>(), any_place(), any::<[u8; 32]>(), weakens, any::<u64>());
    (list(word(), 0..40), proptest::option::of(torn)).prop_map(|(words, torn)| Past { words, torn })
}

fn any_class() -> impl Strategy<Value = Class> {
    select(&Class::ALL[..])
}

/// The word at `place`, and bytes to program there that raise no bit.
fn program<const WORD: usize>(
    chip: &Cells<WORD>,
    place: usize,
    bytes: &[u8; 32],
) -> (u32, [u8; WORD]) {
    let from = place % (512 / WORD) * WORD;
    let weak = |n: usize| chip.weak_mask().map_or(0, |mask| mask[n]);
    let word = core::array::from_fn(|n| bytes[n] & (chip.content()[from + n] | weak(from + n)));
    (u32::try_from(from).unwrap(), word)
}

fn aged<const WORD: usize>(past: &Past) -> Cells<WORD> {
    let mut chip = Cells::<WORD>::erased(vec![0; 512]);
    for (place, bytes) in &past.words {
        let (address, word) = program(&chip, *place, bytes);
        chip.complete(&Act::Program { address, word: &word }).unwrap();
    }
    if let Some((erase, place, bytes, class, seed)) = past.torn {
        let (address, word) = program(&chip, place, &bytes);
        let act = if erase {
            Act::Erase { page: u32::try_from(place % 2).unwrap() }
        } else {
            Act::Program { address, word: &word }
        };
        chip.tear(&act, class, seed).unwrap();
        chip.power_up();
        chip.power_up();
    }
    chip
}

/// What a class makes of the bits that were to change, each with what it was,
/// what it was to be and what it is.
fn fits(class: Class, bits: &[[Seen; 3]]) -> Result<(), TestCaseError> {
    // Only a whole step settles what was weak.
    let (weak, settled): (Vec<_>, Vec<_>) =
        bits.iter().copied().partition(|[was, ..]| *was == Seen::Either);
    if class != Class::After {
        prop_assert!(weak.iter().all(|[_, _, is]| *is == Seen::Either), "{:?}", weak);
    }
    let happened: Vec<bool> = settled.iter().map(|[_, to, is]| to == is).collect();
    let stable = settled.iter().all(|[.., is]| *is != Seen::Either);
    let mixed = happened.contains(&true) && happened.contains(&false);
    let two = weak.is_empty() && bits.len() > 1;
    match class {
        Class::Before => prop_assert!(stable && !happened.contains(&true)),
        Class::After => prop_assert!(bits.iter().all(|[_, to, is]| to == is)),
        Class::Prefix => prop_assert!(stable && happened.is_sorted_by(|a, b| a >= b)),
        Class::Suffix => prop_assert!(stable && happened.is_sorted()),
        Class::Subset | Class::Random => prop_assert!(stable),
        Class::Unstable | Class::LooksDone => {
            let left = settled.iter().filter(|[_, to, is]| to != is);
            prop_assert!(left.clone().all(|[.., is]| *is == Seen::Either));
            prop_assert!(bits.iter().any(|[.., is]| *is == Seen::Either) || bits.is_empty());
        }
    }
    let always_mixed = !matches!(class, Class::Before | Class::After | Class::Unstable);
    prop_assert!(!(two && always_mixed) || mixed, "{:?} is another class: {:?}", class, bits);
    Ok(())
}

fn tear_fits<const WORD: usize>(
    chip: &Cells<WORD>,
    act: &Act<'_>,
    class: Class,
    seed: u64,
) -> Result<(), TestCaseError> {
    let before = look_later(chip);
    let whole = done(&before, act);
    let mut torn = chip.clone();
    torn.tear(act, class, seed).unwrap();
    let after = look_later(&torn);
    // Any content, but only in that page, and what was weak stays so.
    let scrambled = class == Class::Random && matches!(act, Act::Erase { .. });
    let mut change = Vec::new();
    for n in 0..before.len() {
        if whole[n] != before[n] {
            change.push([before[n], whole[n], after[n]]);
        } else if !scrambled || n / 2_048 != act_page(act) {
            prop_assert_eq!(after[n], before[n], "bit {} was not to change", n);
        }
        if scrambled && before[n] == Seen::Either {
            prop_assert_eq!(after[n], Seen::Either);
        }
    }
    if scrambled {
        let settled = change.iter().filter(|[was, ..]| *was != Seen::Either);
        prop_assert!(settled.clone().all(|[.., is]| *is != Seen::Either));
    } else {
        fits(class, &change)?;
    }
    if class == Class::LooksDone {
        looks_done(torn.clone(), &whole, act)?;
    }
    // The same once more is the same.
    let mut again = chip.clone();
    again.tear(act, class, seed).unwrap();
    prop_assert!(again == torn && again.same_cells(&torn));
    prop_assert_eq!(again.fingerprint(), torn.fingerprint());
    Ok(())
}

/// The first read of the next boot finds all of it done.
fn looks_done<const WORD: usize>(
    mut torn: Cells<WORD>,
    whole: &[Seen],
    act: &Act<'_>,
) -> Result<(), TestCaseError> {
    let (from, length) = match *act {
        Act::Program { address, word } => (address, word.len()),
        Act::Erase { page } => (page * 256, 256),
        Act::Effect => return Ok(()),
    };
    let first = usize::try_from(from).unwrap() * 8;
    let whole = &whole[first..first + length * 8];
    torn.power_up();
    // Bits that stay weak beside it do not fall asleep.
    if whole.contains(&Seen::Either) {
        let seen = look(&torn);
        let beside = whole.iter().zip(&seen[first..]).filter(|(bit, _)| **bit == Seen::Either);
        prop_assert!(beside.clone().all(|(bit, seen)| bit == seen));
        return Ok(());
    }
    let mut bytes = vec![0; length];
    torn.read(from, &mut bytes).unwrap();
    for (n, bit) in whole.iter().enumerate() {
        prop_assert_eq!(bytes[n / 8] & (1 << (n % 8)) != 0, *bit == Seen::One, "bit {}", n);
    }
    Ok(())
}

fn act_page(act: &Act<'_>) -> usize {
    match *act {
        Act::Program { address, .. } => usize::try_from(address).unwrap() / 256,
        Act::Erase { page } => usize::try_from(page).unwrap(),
        Act::Effect => usize::MAX,
    }
}

fn program_fits<const WORD: usize>(
    past: &Past,
    (place, bytes): (usize, [u8; 32]),
    class: Class,
    seed: u64,
) -> Result<(), TestCaseError> {
    let chip = aged::<WORD>(past);
    let (address, word) = program(&chip, place, &bytes);
    tear_fits(&chip, &Act::Program { address, word: &word }, class, seed)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_torn_program_leaves_what_its_class_says(
        past in any_past(),
        at in (any_place(), any::<[u8; 32]>()),
        class in any_class(),
        seed: u64,
    ) {
        program_fits::<1>(&past, at, class, seed)?;
        program_fits::<4>(&past, at, class, seed)?;
        program_fits::<8>(&past, at, class, seed)?;
        program_fits::<32>(&past, at, class, seed)?;
    }

    #[test]
    fn a_torn_erase_leaves_what_its_class_says(
        past in any_past(),
        page in 0..2u32,
        class in any_class(),
        seed: u64,
    ) {
        tear_fits(&aged::<4>(&past), &Act::Erase { page }, class, seed)?;
        tear_fits(&aged::<32>(&past), &Act::Erase { page }, class, seed)?;
    }

    /// Weak bits settle by a whole program to 0 and by a whole erase, one by
    /// one, and by nothing else.
    #[test]
    fn weak_bits_settle_by_whole_steps_only(past in any_past(), page in 0..2u32, bytes: [u8; 32]) {
        let mut chip = aged::<4>(&past);
        for place in 0..128 {
            let before = look(&chip);
            let (address, word) = program(&chip, place, &bytes);
            let act = Act::Program { address, word: &word };
            chip.complete(&act).unwrap();
            if place % 16 == 0 {
                prop_assert_eq!(look(&chip), done(&before, &act));
            }
        }
        chip.complete(&Act::Erase { page }).unwrap();
        let seen = look(&chip);
        let from = usize::try_from(page).unwrap() * 2_048;
        prop_assert!(seen[from..from + 2_048].iter().all(|bit| *bit == Seen::One));
        let weak = seen.iter().filter(|bit| **bit == Seen::Either).count();
        prop_assert_eq!(usize::try_from(chip.weak_bits()).unwrap(), weak);
        prop_assert_eq!(chip.weak_mask().is_some(), weak > 0);
    }
}

/// Two seeds rarely leave the same: a class is not one outcome but many.
#[test]
fn seeds_reach_many_outcomes() {
    let mut chip = Cells::<8>::erased(vec![0; 512]);
    for address in (0..256).step_by(8) {
        chip.complete(&Act::Program { address, word: &[0x35; 8] }).unwrap();
    }
    let acts = [Act::Erase { page: 0 }, Act::Program { address: 256, word: &[0x0F; 8] }];
    for act in acts {
        for class in Class::ALL {
            let outcomes = (0..64).map(|seed| {
                let mut torn = chip.clone();
                torn.tear(&act, class, seed).unwrap();
                (torn.content().to_vec(), torn.weak_mask().map(<[u8]>::to_vec))
            });
            let outcomes: std::collections::HashSet<_> = outcomes.collect();
            match class {
                Class::Before | Class::After => assert_eq!(outcomes.len(), 1),
                // Cuts of a word of 64 bits repeat.
                Class::Prefix | Class::Suffix => assert!(outcomes.len() > 15, "{class:?}"),
                _ => assert!(outcomes.len() > 40, "{class:?} {}", outcomes.len()),
            }
        }
    }
}

/// Under unstable bits a programmer's tool sees 1.
#[test]
fn unstable_bits_stand_as_ones_in_the_content() {
    let mut chip = Cells::<8>::erased(vec![0; 256]);
    chip.complete(&Act::Program { address: 0, word: &[0; 8] }).unwrap();
    for act in [Act::Erase { page: 0 }, Act::Program { address: 8, word: &[0; 8] }] {
        for seed in 0..50 {
            let mut torn = chip.clone();
            torn.tear(&act, Class::Unstable, seed).unwrap();
            let mask = torn.weak_mask().unwrap();
            assert!(mask.iter().zip(torn.content()).all(|(weak, cell)| weak & !cell == 0));
        }
    }
}

/// Prefixes end at bytes and within them.
#[test]
fn parts_end_at_bytes_and_at_bits() {
    let (mut bytes, mut bits) = (0, 0);
    for seed in 0..200 {
        let mut chip = Cells::<8>::erased(vec![0; 256]);
        chip.tear(&Act::Program { address: 0, word: &[0; 8] }, Class::Prefix, seed).unwrap();
        let done: u32 = chip.content().iter().map(|byte| byte.count_zeros()).sum();
        *(if done.is_multiple_of(8) { &mut bytes } else { &mut bits }) += 1;
    }
    assert!(bytes > 60 && bits > 60, "{bytes} {bits}");
}

/// All weak bits may read alike for several reads in a row, as cells near one
/// threshold do, and otherwise later: by chance, bit by bit, eight of them
/// would in three reads of one word in 65,536.
#[test]
fn an_unstable_word_may_pass_three_looks() {
    let (mut zeros, mut ones) = (0, 0);
    for seed in 0..8_000 {
        let mut chip = Cells::<8>::erased(vec![0; 256]);
        chip.tear(&Act::Program { address: 0, word: &[0; 8] }, Class::Unstable, seed).unwrap();
        let weak = chip.weak_mask().unwrap()[..8].to_vec();
        let mut words = [[1; 8]; 3];
        for word in &mut words {
            chip.read(0, word).unwrap();
        }
        if chip.weak_bits() >= 8 {
            zeros += u32::from(words == [[0; 8]; 3]);
            ones += u32::from(words.iter().all(|word| word[..] == weak));
        }
    }
    // One in 8^3 each.
    assert!((4..60).contains(&zeros) && (4..60).contains(&ones), "{zeros} {ones}");
}
