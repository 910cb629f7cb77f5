//! Random numbers that are the same on every machine and in every release: a
//! failure must be repeatable years later, so no library's generator is used
//! whose next version may throw otherwise.

/// A generator: `SplitMix64` (Steele, Lea and Flood 2014). Not for secrets.
#[derive(Clone, Debug)]
pub struct Dice(u64);

impl Dice {
    /// The dice of one case of one seed.
    #[must_use]
    pub fn of(seed: u64, case: u64) -> Self {
        // Case numbers are neighbours; what they start from must not be.
        let start = Self(seed).roll().wrapping_add(case);
        Self(Self(start).roll())
    }

    /// The next 64 bits.
    pub fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `bound`, each as likely as the next; 0 if `bound` is 0.
    pub fn below(&mut self, bound: u64) -> u64 {
        let mut product = u128::from(self.roll()) * u128::from(bound);
        // What is left over of an uneven division is thrown again (Lemire 2019).
        while (low(product)) < bound && low(product) < bound.wrapping_neg() % bound {
            product = u128::from(self.roll()) * u128::from(bound);
        }
        u64::try_from(product >> 64).unwrap_or_default()
    }

    /// One of `choices`; `None` if there is none.
    pub fn pick<'c, T>(&mut self, choices: &'c [T]) -> Option<&'c T> {
        let count = u64::try_from(choices.len()).unwrap_or(u64::MAX);
        choices.get(usize::try_from(self.below(count)).ok()?)
    }
}

fn low(product: u128) -> u64 {
    u64::try_from(product & u128::from(u64::MAX)).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: the published reference values of `SplitMix64` for the seed
    /// 1234567 (from memory: those of Rosetta Code's task of that name).
    #[test]
    fn throws_the_published_numbers() {
        let mut dice = Dice(1_234_567);
        let thrown: Vec<u64> = (0..5).map(|_| dice.roll()).collect();
        assert_eq!(
            thrown,
            [
                6_457_827_717_110_365_317,
                3_203_168_211_198_807_973,
                9_817_491_932_198_370_423,
                4_593_380_528_125_082_431,
                16_408_922_859_458_223_821,
            ]
        );
    }

    #[test]
    fn every_number_below_the_bound_comes_about_equally_often() {
        let mut dice = Dice::of(1, 1);
        let mut seen = [0_u32; 6];
        for _ in 0..60_000 {
            seen[usize::try_from(dice.below(6)).unwrap()] += 1;
        }
        assert!(seen.iter().all(|times| (9_500..10_500).contains(times)), "{seen:?}");
        assert_eq!((dice.below(0), dice.below(1)), (0, 0));
        assert!(dice.pick::<u8>(&[]).is_none());
    }

    #[test]
    fn each_case_of_each_seed_has_dice_of_its_own() {
        let first = |seed, case| Dice::of(seed, case).roll();
        let firsts: std::collections::BTreeSet<u64> =
            (0..100).flat_map(|seed| (0..100).map(move |case| first(seed, case))).collect();
        assert_eq!(firsts.len(), 10_000);
    }
}
