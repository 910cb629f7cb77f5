//! Randomness, drawn from what a board gave once at power-up.
//!
//! The machine has no source of its own (R10): it draws salts and keys from a
//! seed, each under a number that is never used again.

use zeroize::{Zeroize, ZeroizeOnDrop};

use crate::code::{Salt, mac};

/// What a board gave, and how often it was drawn from.
///
/// No `Debug`: keys are drawn from it. Wiped when dropped.
#[derive(Zeroize, ZeroizeOnDrop)]
pub struct Seed {
    bytes: [u8; Self::LEN],
    drawn: u32,
}

impl Seed {
    /// Bytes of a seed.
    pub const LEN: usize = 32;

    /// A seed of these bytes: random, and new at each power-up.
    #[must_use]
    pub const fn new(bytes: [u8; Self::LEN]) -> Self {
        Self { bytes, drawn: 0 }
    }

    /// The next 32 bytes (HMAC-SHA-256 of the count under the seed).
    pub fn draw(&mut self) -> [u8; 32] {
        self.drawn = self.drawn.saturating_add(1);
        mac(&self.bytes, &[b"draw", &self.drawn.to_le_bytes()])
    }

    /// The first 16 of the next bytes: a salt.
    pub fn salt(&mut self) -> Salt {
        let drawn = self.draw();
        Salt::from_bytes(drawn.first_chunk().copied().unwrap_or_default())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_is_drawn_twice_and_the_same_seed_gives_the_same() {
        let drawn = |first| {
            let mut seed = Seed::new([first; Seed::LEN]);
            std::array::from_fn::<_, 50, _>(|_| seed.draw())
        };
        let mut all = std::vec::Vec::from(drawn(1));
        all.extend(drawn(2));
        assert_eq!(all.iter().collect::<std::collections::BTreeSet<_>>().len(), 100);
        assert_eq!(drawn(1), drawn(1));
    }
}
