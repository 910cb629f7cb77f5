//! Randomness, drawn from what a board gave once at power-up.
//!
//! The machine has no source of its own (R10): it draws salts and keys from a
//! seed, each under a number that is never used again.

use rand_core::TryCryptoRng;
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

silent!(Seed);

impl Seed {
    /// Bytes of a seed.
    pub const LEN: usize = 32;

    /// A seed of these bytes: random, and new at each power-up.
    #[must_use]
    pub const fn new(bytes: [u8; Self::LEN]) -> Self {
        Self { bytes, drawn: 0 }
    }

    /// A seed from a board's generator, one that is fit for keys.
    ///
    /// # Errors
    /// The generator's own.
    pub fn from_rng<R: TryCryptoRng>(rng: &mut R) -> Result<Self, R::Error> {
        let mut bytes = [0; Self::LEN];
        rng.try_fill_bytes(&mut bytes)?;
        let seed = Self::new(bytes);
        bytes.zeroize();
        Ok(seed)
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

    /// A generator that gives this byte, or fails.
    struct Generator(Option<u8>);

    impl rand_core::TryRng for Generator {
        type Error = core::fmt::Error;

        fn try_next_u32(&mut self) -> Result<u32, core::fmt::Error> {
            Err(core::fmt::Error)
        }

        fn try_next_u64(&mut self) -> Result<u64, core::fmt::Error> {
            Err(core::fmt::Error)
        }

        fn try_fill_bytes(&mut self, room: &mut [u8]) -> Result<(), core::fmt::Error> {
            self.0.map(|byte| room.fill(byte)).ok_or(core::fmt::Error)
        }
    }

    impl TryCryptoRng for Generator {}

    #[test]
    fn a_boards_generator_gives_it_or_fails() {
        let mut seed = Seed::from_rng(&mut Generator(Some(7))).map_err(|_| "failed").unwrap();
        assert_eq!(seed.draw(), Seed::new([7; Seed::LEN]).draw());
        assert!(Seed::from_rng(&mut Generator(None)).is_err());
    }

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
