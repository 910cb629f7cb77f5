//! Where the lock key does its work: beside the settings, or in a part of the board
//! that never gives its key out.
//!
//! [`KeyInFlash`] is the default: the key is the 32 bytes that the settings hold. A port
//! with a secure element or a fused key store implements [`Keeper`] instead, and a dump
//! of the flash then judges no code. What an element must do, and what it does not
//! defend, stands in `docs/porting.md` and `docs/threats.md`.

use super::Code;
use super::digest::{LockKey, Message, Salt, mac};
use crate::holder::Number;

/// The part that keeps the key did not answer. The lock treats it as settings that
/// cannot be read: service, and nothing opens.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct KeeperFault;

/// Whatever keeps the key under which codes are digested, and uses it.
pub trait Keeper {
    /// HMAC-SHA-256 of `message`, under a key that is bound to `kept`.
    ///
    /// `kept` is drawn anew when the lock is commissioned and at each reset, and lies in
    /// the flash. A keeper with a key of its own puts `kept` in front of the message (its
    /// length never changes), so that digests from before a reset are void. The same
    /// arguments must give the same result for as long as the lock lives, and the time it
    /// takes must not depend on `message` (R5).
    ///
    /// It is asked twice for each try, and once or twice when a code is set.
    ///
    /// # Errors
    /// [`KeeperFault`] if there is no answer, or one that cannot be believed.
    fn mac(&mut self, kept: &LockKey, message: &Message) -> Result<[u8; 32], KeeperFault>;
}

/// The default: the key is what the settings hold, and the processor uses it.
#[derive(Clone, Copy, Default)]
pub struct KeyInFlash;

impl Keeper for KeyInFlash {
    fn mac(&mut self, kept: &LockKey, message: &Message) -> Result<[u8; 32], KeeperFault> {
        Ok(mac(kept.as_bytes(), &[message.as_bytes()]))
    }
}

/// Whom a digest is of: what [`Reads::digest`](crate::port::Reads::digest) is asked.
#[derive(Clone, Copy)]
pub struct Claim<'c> {
    /// Drawn when the code was set.
    pub salt: &'c Salt,
    /// The number it belongs to.
    pub number: Number,
    /// The code.
    pub code: &'c Code,
}

silent!(Claim<'_>);
