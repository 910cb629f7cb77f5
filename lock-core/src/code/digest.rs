//! What is kept of a code: a keyed and salted digest, never the code.
//!
//! HMAC-SHA-256 (RFC 2104, FIPS 180-4) under a key that belongs to this lock,
//! cut to its first 16 bytes; RFC 2104 section 5 asks for no less than half the
//! output. The message has the same length for every code:
//!
//! ```text
//! bytes   0..16       16..32  32      33      34..42
//!         label       salt    number  length  digits, zeros behind the last
//! ```
//!
//! The label sets these digests apart from whatever else a key of the lock may
//! authenticate; number and length make the encoding unambiguous, so that equal
//! codes of two holders, or 012345 and 0123450, have nothing in common. With 42
//! bytes the inner hash is two compressions and the outer one two, whatever the
//! code: equal work by construction.
//!
//! A six-digit code has twenty bits; no digest protects it from somebody who
//! holds the lock key. The key is therefore worth as much as all codes together
//! and stays in the lock; `keeper.rs` says where.

use hmac::{Hmac, KeyInit, Mac};
use sha2::{Digest as _, Sha256};
use subtle::{Choice, ConstantTimeEq};
use zeroize::{Zeroize, Zeroizing};

use super::{Code, MAX_DIGITS};
use crate::holder::Number;

/// Sets code digests apart from other uses of a key; its last byte is the
/// version of the encoding.
const LABEL: [u8; 16] = *b"code of a lock\0\x01";

/// Bytes of a SHA-256 block.
const BLOCK: usize = 64;

/// Bytes of padding that SHA-256 needs at least: a mark and the length.
const PADDING: usize = 9;

const MESSAGE: usize = LABEL.len() + Salt::LEN + 2 + MAX_DIGITS;
const _: () =
    assert!(MESSAGE + PADDING <= BLOCK, "a code's message fits one block beside the key's");

/// The secret key of this lock, under which codes are digested. Wiped when
/// dropped.
#[derive(Zeroize)]
pub struct LockKey([u8; Self::LEN]);

silent!(LockKey);
wiped!(LockKey);

impl LockKey {
    /// Bytes of a key.
    pub const LEN: usize = 32;

    /// The key of these bytes; they must be random and known to nobody else.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; Self::LEN]) -> Self {
        Self(bytes)
    }

    /// The bytes, for the store.
    #[must_use]
    pub const fn as_bytes(&self) -> &[u8; Self::LEN] {
        &self.0
    }
}

/// Random bytes drawn anew whenever a code is set, so that a code chosen twice
/// leaves two different digests. No secret.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Salt([u8; Self::LEN]);

impl Salt {
    /// Bytes of a salt.
    pub const LEN: usize = 16;

    /// The salt of these bytes.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; Self::LEN]) -> Self {
        Self(bytes)
    }

    /// The bytes, for the store.
    #[must_use]
    pub const fn as_bytes(&self) -> &[u8; Self::LEN] {
        &self.0
    }
}

/// What is kept of a code. `==` takes the same time wherever two differ.
#[derive(Clone, Copy)]
pub struct Digest([u8; Self::LEN]);

silent!(Digest);

impl Digest {
    /// Bytes of a digest: 128 of HMAC's 256 bits.
    pub const LEN: usize = 16;

    /// The digest of these bytes.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; Self::LEN]) -> Self {
        Self(bytes)
    }

    /// The first bytes of a message's authentication code.
    #[must_use]
    pub fn cut(mut whole: [u8; 32]) -> Self {
        let mut cut = [0; Self::LEN];
        for (to, from) in cut.iter_mut().zip(whole) {
            *to = from;
        }
        whole.zeroize();
        Self(cut)
    }

    /// The bytes, for the store.
    #[must_use]
    pub const fn as_bytes(&self) -> &[u8; Self::LEN] {
        &self.0
    }
}

impl ConstantTimeEq for Digest {
    fn ct_eq(&self, other: &Self) -> Choice {
        self.0.ct_eq(&other.0)
    }
}

impl PartialEq for Digest {
    fn eq(&self, other: &Self) -> bool {
        self.ct_eq(other).into()
    }
}

impl Eq for Digest {}

/// What is digested of a code: always of the same length. Wiped when dropped.
#[derive(Zeroize)]
pub struct Message([u8; MESSAGE]);

silent!(Message);
wiped!(Message);

impl Message {
    /// Bytes of a message.
    pub const LEN: usize = MESSAGE;

    /// What is digested of `code` as the code of `number`.
    #[must_use]
    pub fn of(salt: &Salt, number: Number, code: &Code) -> Self {
        let mut message = Self([0; MESSAGE]);
        let who = [number.get(), code.len];
        let bytes = LABEL.iter().chain(&salt.0).chain(&who).chain(&code.digits);
        for (to, from) in message.0.iter_mut().zip(bytes) {
            *to = *from;
        }
        message
    }

    /// The bytes, for whatever keeps the key.
    #[must_use]
    pub const fn as_bytes(&self) -> &[u8; MESSAGE] {
        &self.0
    }
}

/// The digest of `code` as the code of `number`, under a key that the processor holds.
#[must_use]
pub fn digest(key: &LockKey, salt: &Salt, number: Number, code: &Code) -> Digest {
    Digest::cut(mac(&key.0, &[&Message::of(salt, number, code).0]))
}

/// HMAC-SHA-256 of `parts`, one behind the other, under `key` of any length.
///
/// The parts are not set apart: whoever passes parts of changing length must
/// make them unambiguous.
#[must_use]
pub fn mac(key: &[u8], parts: &[&[u8]]) -> [u8; 32] {
    // RFC 2104 section 2: a key longer than a block is hashed first, a shorter
    // one filled with zeros. Done here, because the constructor that takes any
    // slice returns an error that cannot happen.
    let mut block = Zeroizing::new([0; BLOCK]);
    if key.len() > BLOCK {
        fill(block.as_mut(), &Sha256::digest(key));
    } else {
        fill(block.as_mut(), key);
    }
    let mut hmac = Hmac::<Sha256>::new((&*block).into());
    for part in parts {
        hmac.update(part);
    }
    hmac.finalize().into_bytes().into()
}

fn fill(block: &mut [u8], key: &[u8]) {
    for (to, from) in block.iter_mut().zip(key) {
        *to = *from;
    }
}
