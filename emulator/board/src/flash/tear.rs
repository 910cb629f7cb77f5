//! Which of the bits that were to change a torn step reaches.
//!
//! A torn step is judged by its *change*: the bits that it was to change, one
//! mask a byte; class and seed decide the rest.

use core::ops::Range;

use crate::fuse::Class;
use crate::splitmix::SplitMix;

/// Bytes that a choice may take or leave as a whole, besides words: a record
/// of 32 bytes, whatever the word.
const BLOCK: usize = 32;

/// What a torn step does to the bits of `change`: it pulls some to what they
/// were to be, and weakens some. Returned are the bytes that it wholly
/// reached, whether they were to change or not.
///
/// | class | pulled | weakened |
/// | --- | --- | --- |
/// | prefix, suffix | those before, or from, a cut | none |
/// | subset, random | any | none |
/// | unstable | any, but not all | the others |
/// | looks done | all | any, but not none |
///
/// Where two bits or more were to change, *any* is neither all nor, except of
/// *unstable*, none: that would be another class.
pub(super) fn outcome(
    change: &[u8],
    pulled: &mut [u8],
    weakened: &mut [u8],
    class: Class,
    seed: u64,
    word: usize,
) -> Range<usize> {
    let all = 0..change.len();
    // Classes differ under the same seed.
    let draws = &mut SplitMix::new(SplitMix::at(seed, class as u64));
    match class {
        Class::Before => return 0..0,
        Class::After => copy(change, pulled),
        Class::Prefix => {
            let cut = cut(change, draws);
            keep(change, pulled, |index| before(cut, index));
            return 0..cut / 8;
        }
        Class::Suffix => {
            let cut = cut(change, draws);
            keep(change, pulled, |index| !before(cut, index));
            return cut.div_ceil(8)..change.len();
        }
        Class::Subset | Class::Random => {
            spread(change, pulled, draws, word);
            not_none(change, pulled, draws);
            not_all(change, pulled, draws);
        }
        Class::Unstable => {
            spread(change, pulled, draws, word);
            if count(pulled) == count(change) {
                flip(change, pulled, draws.below(count(change).into()));
            }
            for ((to, change), pulled) in weakened.iter_mut().zip(change).zip(pulled) {
                *to = change & !*pulled;
            }
        }
        Class::LooksDone => {
            copy(change, pulled);
            spread(change, weakened, draws, word);
            if count(weakened) == 0 {
                flip(change, weakened, draws.below(count(change).into()));
            }
            not_all(change, weakened, draws);
        }
    }
    all
}

/// Of each byte of `change` the bits that `mask` has for its index.
fn keep(change: &[u8], chosen: &mut [u8], mask: impl Fn(usize) -> u8) {
    for (index, (to, from)) in chosen.iter_mut().zip(change).enumerate() {
        *to = from & mask(index);
    }
}

/// Takes a bit in where none was chosen of two or more.
fn not_none(change: &[u8], chosen: &mut [u8], draws: &mut SplitMix) {
    if count(change) > 1 && count(chosen) == 0 {
        flip(change, chosen, draws.below(count(change).into()));
    }
}

/// Leaves a bit out where all were chosen of two or more.
fn not_all(change: &[u8], chosen: &mut [u8], draws: &mut SplitMix) {
    if count(change) > 1 && count(chosen) == count(change) {
        flip(change, chosen, draws.below(count(change).into()));
    }
}

fn count(masks: &[u8]) -> u32 {
    masks.iter().map(|mask| mask.count_ones()).sum()
}

/// Where a prefix ends, in bits from the start, lowest bit of a byte first: at
/// a byte or anywhere, always between the first and the last bit that was to
/// change, so that something happens and something does not.
fn cut(change: &[u8], draws: &mut SplitMix) -> usize {
    let by_byte = draws.draw() & 1 == 0;
    let Some(front) = change.iter().position(|mask| *mask != 0) else { return 0 };
    let Some(back) = change.iter().rposition(|mask| *mask != 0) else { return 0 };
    if by_byte && back > front {
        return front.saturating_add(1).saturating_add(draw(draws, back - front)).saturating_mul(8);
    }
    let bit = |byte: usize, bit: u32| byte.saturating_mul(8).saturating_add(bit as usize);
    let mask = |byte: usize| change.get(byte).copied().unwrap_or_default();
    let first = bit(front, mask(front).trailing_zeros());
    let last = bit(back, 7_u32.saturating_sub(mask(back).leading_zeros()));
    if first == last {
        // One bit: it happens or not.
        return first.saturating_add(draw(draws, 2));
    }
    first.saturating_add(1).saturating_add(draw(draws, last - first))
}

fn draw(draws: &mut SplitMix, below: usize) -> usize {
    draws.below(below as u64) as usize
}

/// The bits of the byte at `index` that lie before bit `cut`.
fn before(cut: usize, index: usize) -> u8 {
    match cut.saturating_sub(index.saturating_mul(8)) {
        0 => 0,
        bits @ 1..8 => (1_u8 << bits) - 1,
        _ => 0xFF,
    }
}

/// Any of the bits: few, half or most of them, bit by bit or in bytes, words
/// or blocks.
pub(super) fn spread(change: &[u8], chosen: &mut [u8], draws: &mut SplitMix, word: usize) {
    let grain = [0, 1, word.max(1), BLOCK].get(draw(draws, 4)).copied().unwrap_or_default();
    let eighths = [1, 4, 7].get(draw(draws, 3)).copied().unwrap_or_default();
    let seed = draws.draw();
    for (index, (to, from)) in chosen.iter_mut().zip(change).enumerate() {
        let at = |group: usize| SplitMix::at(seed, group as u64);
        let taken = match index.checked_div(grain) {
            None => some_bits(at(index), eighths),
            Some(group) if at(group) & 7 < eighths => 0xFF,
            Some(_) => 0,
        };
        *to = from & taken;
    }
}

/// Each bit with a chance of that many eighths: one, four or seven.
fn some_bits(draw: u64, eighths: u64) -> u8 {
    let [a, b, c, ..] = draw.to_le_bytes();
    match eighths {
        1 => a & b & c,
        7 => a | b | c,
        _ => a,
    }
}

/// Takes the bit number `rank` of `change` in, or out.
fn flip(change: &[u8], chosen: &mut [u8], mut rank: u64) {
    for (to, from) in chosen.iter_mut().zip(change) {
        for bit in 0..8 {
            let bit = from & (1 << bit);
            if bit == 0 {
                continue;
            }
            if rank == 0 {
                *to ^= bit;
                return;
            }
            rank = rank.saturating_sub(1);
        }
    }
}

/// Copies what there is room for: unlike `copy_from_slice`, without a panic path.
pub(super) fn copy(from: &[u8], to: &mut [u8]) {
    if let Some(to) = to.get_mut(..from.len()) {
        to.copy_from_slice(from);
    }
}
