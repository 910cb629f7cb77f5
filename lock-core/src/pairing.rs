//! The key that lock and laptop share, from which all keys of what travels
//! between them are derived.
//!
//! A derived key is the beginning of the HMAC-SHA-256, under the pairing key, of
//!
//! ```text
//!  0  label       16 bytes: what the key is for, and the version of this table
//! 16  lock        u16
//! 18  generation  u32
//! 22  number      u8, of the courier; 0 in the keys of files
//! 23  salt        16 bytes, of an emulated lock's extract; of nothing else
//! ```
//!
//! Of a length that its label fixes, so no two purposes share a message; HMAC as a function that
//! derives keys is NIST SP 800-108, whose counter and length are fixed here,
//! because no key is longer than one output.

use serde::{Deserialize, Serialize};
use zeroize::{Zeroize, Zeroizing};

use crate::code::{self, CourierKey};
use crate::seal::SealKey;

/// Seals what the laptop sends to the lock.
const INBOUND: &[u8; 16] = b"laptop to lock\0\x01";
/// Seals what the lock hands out.
const OUTBOUND: &[u8; 16] = b"lock to laptop\0\x01";
/// One-time codes of a courier.
const COURIER: &[u8; 16] = b"courier codes\0\0\x01";
/// The pairing key of what an emulated lock leaves on a laptop.
const EMULATED: &[u8; 16] = b"emulated lock\0\0\x01";

/// Bytes of the salt of an emulated lock's extract.
pub const SALT: usize = 16;

/// A lock's number, 1 to 65,535: what files name it by.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(try_from = "u16", into = "u16")]
pub struct LockNumber(u16);

impl LockNumber {
    /// The first one.
    pub const FIRST: Self = Self(1);

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
#[derive(Zeroize)]
pub struct Pairing {
    #[zeroize(skip)]
    lock: LockNumber,
    generation: u32,
    key: [u8; Self::LEN],
}

silent!(Pairing);
wiped!(Pairing);

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

    /// The key of files for the lock.
    #[must_use]
    pub fn inbound(&self) -> SealKey {
        SealKey::from_bytes(*self.derived(INBOUND, 0, &[]))
    }

    /// The key of what is carried out of the lock.
    #[must_use]
    pub fn outbound(&self) -> SealKey {
        SealKey::from_bytes(*self.derived(OUTBOUND, 0, &[]))
    }

    /// The key of the one-time codes of the courier with that number.
    #[must_use]
    pub fn courier(&self, number: u8) -> CourierKey {
        CourierKey::from_bytes(*self.derived(COURIER, number, &[]))
    }

    /// The pairing of an emulated lock: what it collects is sealed under a key of its
    /// own, so that nobody takes it for what the real lock wrote. `salt` must be drawn
    /// anew for each extract.
    #[must_use]
    pub fn emulated(&self, salt: &[u8; SALT]) -> Self {
        Self { lock: self.lock, generation: self.generation, key: *self.derived(EMULATED, 0, salt) }
    }

    fn derived<const N: usize>(
        &self,
        label: &[u8; 16],
        number: u8,
        salt: &[u8],
    ) -> Zeroizing<[u8; N]> {
        const { assert!(N <= 32, "one output of HMAC-SHA-256") };
        let (lock, generation) = (self.lock.get().to_le_bytes(), self.generation.to_le_bytes());
        let whole = code::mac(&self.key, &[label, &lock, &generation, &[number], salt]);
        let whole = Zeroizing::new(whole);
        let mut key = Zeroizing::new([0; N]);
        for (to, from) in key.iter_mut().zip(whole.iter()) {
            *to = *from;
        }
        key
    }
}
