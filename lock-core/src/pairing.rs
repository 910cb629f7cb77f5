//! The key that lock and laptop share, from which all keys of what travels
//! between them are derived.

use zeroize::{Zeroize, ZeroizeOnDrop};

/// One generation of the pairing key. A new generation retires the old one.
///
/// No `Debug`: it is a secret. Wiped when dropped.
#[derive(Zeroize, ZeroizeOnDrop)]
pub struct Pairing {
    generation: u32,
    key: [u8; Self::LEN],
}

impl Pairing {
    /// Bytes of the key.
    pub const LEN: usize = 32;

    /// Generation `generation` of the key; the bytes must be random and known
    /// to nobody but lock and laptop.
    #[must_use]
    pub const fn new(generation: u32, key: [u8; Self::LEN]) -> Self {
        Self { generation, key }
    }

    /// Which generation it is.
    #[must_use]
    pub const fn generation(&self) -> u32 {
        self.generation
    }

    /// The key, for the store and for deriving keys.
    #[must_use]
    pub const fn key(&self) -> &[u8; Self::LEN] {
        &self.key
    }
}
