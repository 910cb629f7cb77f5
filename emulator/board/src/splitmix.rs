//! Numbers that a seed decides.
//!
//! SplitMix64: G. Steele, D. Lea and C. Flood, *Fast Splittable Pseudorandom
//! Number Generators*, OOPSLA 2014, in the form of S. Vigna's public-domain
//! `splitmix64.c`. It serves to reach many states of a fault, never to keep
//! a secret.

/// The step between two states: 2^64 over the golden ratio, made odd.
const GAMMA: u64 = 0x9E37_79B9_7F4A_7C15;

/// A stream of numbers.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct SplitMix(u64);

impl SplitMix {
    /// The stream of `seed`.
    #[must_use]
    pub const fn new(seed: u64) -> Self {
        Self(seed)
    }

    /// The next number of the stream.
    pub const fn draw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(GAMMA);
        mix(self.0)
    }

    /// The next number, brought into `0..n`; 0 if `n` is.
    pub const fn below(&mut self, n: u64) -> u64 {
        // The upper half of a product of 64 by 64 bits is below `n`.
        ((self.draw() as u128 * n as u128) >> 64) as u64
    }

    /// The number at `index` of the stream of `seed`, without those before.
    #[must_use]
    pub const fn at(seed: u64, index: u64) -> u64 {
        mix(seed.wrapping_add(GAMMA.wrapping_mul(index.wrapping_add(1))))
    }
}

/// Spreads every bit of `z` over all of them.
const fn mix(z: u64) -> u64 {
    let z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    let z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// Values of the published generator, from memory: the first numbers of
/// seed 0 and of seed 1234567.
#[cfg(test)]
mod tests {
    use super::SplitMix;

    #[test]
    fn draws_what_the_published_generator_draws() {
        let mut zero = SplitMix::new(0);
        assert_eq!(zero.draw(), 0xE220_A839_7B1D_CDAF);
        assert_eq!(zero.draw(), 0x6E78_9E6A_A1B9_65F4);
        let mut other = SplitMix::new(1_234_567);
        let known = [6_457_827_717_110_365_317, 3_203_168_211_198_807_973];
        for (index, known) in known.into_iter().enumerate() {
            assert_eq!(other.draw(), known);
            assert_eq!(SplitMix::at(1_234_567, index as u64), known);
        }
    }

    #[test]
    fn brings_numbers_into_a_range_and_reaches_all_of_it() {
        let mut draws = SplitMix::new(7);
        let mut met = [0; 5];
        for _ in 0..1_000 {
            met[usize::try_from(draws.below(5)).unwrap()] += 1;
        }
        assert!(met.iter().all(|&n| n > 100), "{met:?}");
        assert_eq!(draws.below(0), 0);
    }
}
