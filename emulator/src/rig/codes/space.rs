//! The codes that somebody may have, counted one by one.

use lock_core::code::{Code, refused};
use lock_core::policy::DuressCodes;

/// All codes of some length, and which of them nobody may choose.
///
/// A code is a number here: 000042 is 42.
pub struct Space {
    digits: usize,
    /// A bit for each code, set if the lock would take it as a new code.
    usable: Vec<u64>,
    count: u64,
}

/// Codes of a block that is judged in one go.
const BLOCK: u32 = 64;

impl Space {
    /// Asks the lock's own rule about each code of `digits` digits, in as many
    /// threads as there are processors.
    #[must_use]
    pub fn counted(digits: u8) -> Self {
        let digits = usize::from(digits);
        let size = size(digits);
        let mut usable = vec![0_u64; usize::try_from(size.div_ceil(BLOCK)).unwrap_or_default()];
        let jobs = std::thread::available_parallelism().map_or(1, usize::from);
        let share = usable.len().div_ceil(jobs);
        std::thread::scope(|scope| {
            for (job, part) in usable.chunks_mut(share).enumerate() {
                scope.spawn(move || {
                    let first = u32::try_from(job * share).unwrap_or(u32::MAX);
                    for (block, bits) in (first..).zip(part) {
                        *bits = judged(digits, block, size);
                    }
                });
            }
        });
        let count = usable.iter().map(|bits| u64::from(bits.count_ones())).sum();
        Self { digits, usable, count }
    }

    /// How many codes there are.
    #[must_use]
    pub fn size(&self) -> u32 {
        size(self.digits)
    }

    /// How many of them the lock would take as a new code.
    #[must_use]
    pub const fn count(&self) -> u64 {
        self.count
    }

    /// How many digits they have.
    #[must_use]
    pub const fn digits(&self) -> usize {
        self.digits
    }

    /// Whether the lock would take this one as a new code.
    #[must_use]
    pub fn is_usable(&self, code: u32) -> bool {
        let block = usize::try_from(code / BLOCK).ok().and_then(|block| self.usable.get(block));
        block.is_some_and(|bits| bits >> (code % BLOCK) & 1 == 1)
    }

    /// The codes that a holder may have and that `typed` would open: `typed`
    /// itself, and the one whose duress variant it is.
    pub fn opened_by(&self, typed: u32, duress: DuressCodes) -> impl Iterator<Item = u32> + '_ {
        let as_duress = (duress == DuressCodes::On).then(|| lowered(typed));
        [Some(typed), as_duress].into_iter().flatten().filter(|code| self.is_usable(*code))
    }

    /// A code as it is typed.
    #[must_use]
    pub fn text(&self, code: u32) -> String {
        text(self.digits, code)
    }
}

fn size(digits: usize) -> u32 {
    10_u32.pow(u32::try_from(digits).unwrap_or_default())
}

fn text(digits: usize, code: u32) -> String {
    format!("{code:0digits$}")
}

fn judged(digits: usize, block: u32, size: u32) -> u64 {
    (0..BLOCK)
        .filter(|bit| {
            let code = block * BLOCK + bit;
            // A number of digits that no code has leaves nothing usable.
            code < size
                && Code::parse(&text(digits, code)).is_some_and(|code| refused(&code).is_none())
        })
        .fold(0, |bits, bit| bits | 1 << bit)
}

/// The code whose duress variant is `code`: its last digit minus one, modulo
/// ten.
#[must_use]
pub const fn lowered(code: u32) -> u32 {
    code - code % 10 + (code % 10 + 9) % 10
}

/// The duress variant of `code`: its last digit plus one, modulo ten.
#[must_use]
pub const fn raised(code: u32) -> u32 {
    code - code % 10 + (code % 10 + 1) % 10
}

#[cfg(test)]
mod tests {
    use lock_core::code::duress_variant;

    use super::*;

    /// Every code that somebody may have is opened by itself and by its variant,
    /// and by nothing else: counted from the other end.
    #[test]
    fn each_usable_code_is_opened_by_two_entries() {
        let space = Space::counted(6);
        for (duress, each) in [(DuressCodes::On, 2), (DuressCodes::Off, 1)] {
            let mut entries = vec![0_u8; 1_000_000];
            for typed in 0..space.size() {
                for opened in space.opened_by(typed, duress) {
                    assert!(typed == opened || typed == raised(opened));
                    entries[usize::try_from(opened).unwrap()] += 1;
                }
            }
            let opened = entries.iter().filter(|times| **times == each).count();
            assert_eq!(u64::try_from(opened).unwrap(), space.count());
            assert!(entries.iter().all(|times| *times == 0 || *times == each));
        }
    }

    /// Raised is what the lock takes for the variant, and lowered undoes it.
    #[test]
    fn the_variant_is_the_lock_s() {
        for code in (0..1_000_000).step_by(7) {
            assert_eq!(lowered(raised(code)), code);
            let variant = duress_variant(&Code::parse(&text(6, code)).unwrap());
            assert!(variant == Code::parse(&text(6, raised(code))).unwrap());
        }
    }
}
