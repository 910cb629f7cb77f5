//! The key that lock and laptop share, from which all keys of what travels
//! between them are derived.

use serde::{Deserialize, Serialize};
use zeroize::{Zeroize, ZeroizeOnDrop};

/// A lock's number, 1 to 65,535: what files name it by.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(try_from = "u16", into = "u16")]
pub struct LockNumber(u16);

impl LockNumber {
    /// The number `n`, or `None` for 0.
    #[must_use]
    pub const fn new(n: u16) -> Option<Self> {
        if n > 0 { Some(Self(n)) } else { None }
    }

    /// The number itself.
    #[must_use]
    pub const fn get(self) -> u16 {
        self.0
    }
}

/// 0 arrived where a lock's number belongs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NotALock;

impl core::fmt::Display for NotALock {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("locks are numbered from 1 to 65535")
    }
}

impl TryFrom<u16> for LockNumber {
    type Error = NotALock;

    fn try_from(n: u16) -> Result<Self, NotALock> {
        Self::new(n).ok_or(NotALock)
    }
}

impl From<LockNumber> for u16 {
    fn from(n: LockNumber) -> Self {
        n.0
    }
}

/// One generation of the pairing key. A new generation retires the old one.
///
/// No `Debug`: it is a secret. Wiped when dropped.
#[derive(Zeroize, ZeroizeOnDrop)]
pub struct Pairing {
    #[zeroize(skip)]
    lock: LockNumber,
    generation: u32,
    key: [u8; Self::LEN],
}

impl Pairing {
    /// Bytes of the key.
    pub const LEN: usize = 32;

    /// Generation `generation` of the key of that lock; the bytes must be random and known
    /// to nobody but lock and laptop.
    #[must_use]
    pub const fn new(lock: LockNumber, generation: u32, key: [u8; Self::LEN]) -> Self {
        Self { lock, generation, key }
    }

    /// The lock's number.
    #[must_use]
    pub const fn lock(&self) -> LockNumber {
        self.lock
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
