//! Which of a lock's keys the lock has, as far as the laptop knows.
//!
//! A key that was made is not yet a key that a lock got: the paper may be lost, the typing
//! given up. Nothing is sealed under it, and no code comes from it, before somebody says
//! that the lock has it, or an extract under it proves that.

use lock_core::pairing::{LockNumber, Pairing};

use super::Keyring;

/// What is known of a key.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Standing {
    /// The lock has it.
    Confirmed,
    /// It was made; whether the lock has it, nobody has said.
    Unconfirmed,
    /// It was given up: it opens what was sealed under it, and makes nothing.
    Retired,
}

impl Standing {
    /// Its word, for people and programs.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Confirmed => "confirmed",
            Self::Unconfirmed => "unconfirmed",
            Self::Retired => "retired",
        }
    }
}

/// Why a key cannot be confirmed or dropped.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoSuchKey {
    /// There is none of that lock and generation.
    None,
    /// There is none of that lock that waits to be confirmed.
    NothingWaits,
    /// It was given up, or retired with a copy of the keyring.
    Retired,
    /// The lock has it: it can only be replaced by a newer one.
    Confirmed,
    /// The lock has a newer one.
    Older,
}

impl Keyring {
    /// The key that things are sealed under for a lock, and codes come from: the newest
    /// that the lock is known to have.
    #[must_use]
    pub fn sealing(&self, lock: LockNumber) -> Option<&Pairing> {
        let confirmed = self.keys.iter().filter(|key| key.standing == Standing::Confirmed);
        confirmed.map(|key| &key.pairing).rfind(|pairing| pairing.lock() == lock)
    }

    /// What is known of a key; `None` if there is no such key.
    #[must_use]
    pub fn standing(&self, lock: LockNumber, generation: u32) -> Option<Standing> {
        let place = self.place(lock, generation).ok()?;
        self.keys.get(place).map(|key| key.standing)
    }

    /// The newest key of a lock that waits to be confirmed, and is newer than what things
    /// are sealed under.
    #[must_use]
    pub fn waiting(&self, lock: LockNumber) -> Option<u32> {
        let newest = self
            .keys
            .iter()
            .rfind(|key| key.pairing.lock() == lock && key.standing == Standing::Unconfirmed)?;
        let generation = newest.pairing.generation();
        let older = self.sealing(lock).is_some_and(|key| key.generation() > generation);
        (!older).then_some(generation)
    }

    /// The lock has that key; without a generation, the newest that waits. Which it is.
    ///
    /// # Errors
    /// [`NoSuchKey`].
    pub fn confirm(&mut self, lock: LockNumber, generation: Option<u32>) -> Result<u32, NoSuchKey> {
        let generation = generation.or(self.waiting(lock)).ok_or(NoSuchKey::NothingWaits)?;
        let newer = self.sealing(lock).is_some_and(|key| key.generation() > generation);
        let key = self.key_mut(lock, generation).ok_or(NoSuchKey::None)?;
        if newer {
            return Err(NoSuchKey::Older);
        }
        if key.standing == Standing::Retired {
            return Err(NoSuchKey::Retired);
        }
        key.standing = Standing::Confirmed;
        Ok(generation)
    }

    /// The lock never got that key; without a generation, the newest that waits. It is
    /// kept, retired: its generation is not given to another key.
    ///
    /// # Errors
    /// [`NoSuchKey`].
    pub fn give_up(&mut self, lock: LockNumber, generation: Option<u32>) -> Result<u32, NoSuchKey> {
        let generation = generation.or(self.waiting(lock)).ok_or(NoSuchKey::NothingWaits)?;
        let key = self.key_mut(lock, generation).ok_or(NoSuchKey::None)?;
        if key.standing == Standing::Confirmed {
            return Err(NoSuchKey::Confirmed);
        }
        key.standing = Standing::Retired;
        Ok(generation)
    }

    /// This file goes on, though it is not the one that was written last. If the other
    /// may still count, every key is retired: nothing can be made twice under a new one.
    pub fn adopt(&mut self, other: Other) {
        self.copied = false;
        if other == Other::MayCount {
            for key in &mut self.keys {
                key.standing = Standing::Retired;
            }
        }
    }
}

/// What became of the keyring that this one is a copy of.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Other {
    /// It is no more, and nothing was made with it since the copy.
    Gone,
    /// Something was made with it, or may be.
    MayCount,
}
