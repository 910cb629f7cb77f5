//! Numbers that look random and are always the same for the same seed.

/// SplitMix64 (Steele, Lea and Flood, 2014).
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// Below `most`, which is not nought.
    pub(crate) fn below(&mut self, most: usize) -> usize {
        let most = u64::try_from(most.max(1)).expect("small");
        usize::try_from(self.next() % most).expect("below")
    }

    pub(crate) fn up_to(&mut self, most: u64) -> u64 {
        self.next() % (most + 1)
    }

    pub(crate) fn one_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }

    pub(crate) fn of<T: Copy>(&mut self, list: &[T]) -> Option<T> {
        if list.is_empty() { None } else { Some(list[self.below(list.len())]) }
    }

    /// A code of so many digits, no two neighbours alike or next to each other:
    /// nothing that a list of easy codes would hold.
    pub(crate) fn code(&mut self, digits: usize) -> String {
        let mut code: Vec<u8> = Vec::new();
        while code.len() < digits {
            let digit = u8::try_from(self.below(10)).expect("a digit");
            let near = code.last().is_some_and(|last| last.abs_diff(digit) <= 1);
            let often = code.iter().filter(|earlier| **earlier == digit).count();
            // The last digit's variant must not make it easy either.
            if !near && often < 1 {
                code.push(digit);
            }
        }
        code.iter().map(|digit| char::from(b'0' + digit)).collect()
    }
}
