//! The keyring: the pairing keys of a site's locks, in one file, sealed by a
//! passphrase. Without it nothing that a lock hands out can be read.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | [`Keyring`]: keys by lock and generation |
//! | `standing.rs` | which of the keys a lock has, as far as the laptop knows |
//! | `counters.rs` | versions of timetable files and codes of couriers: none twice |
//! | `ledger.rs` | the codes that were given out, and what became of them |
//! | `heard.rs` | what extracts tell of all this |
//! | `strength.rs` | which passphrases are refused |
//! | `file.rs` | the file, and what a passphrase becomes |
//! | `mark.rs` | what tells the file that was written last from a copy of it |
//! | `place.rs` | where the file is, and who else may come near it |
//! | `fault.rs` | why one cannot be used |

mod counters;
mod fault;
mod file;
mod heard;
mod ledger;
mod mark;
mod place;
mod standing;
pub mod strength;

use lock_core::pairing::{LockNumber, Pairing};

pub use counters::{CourierCode, NoCode, NoVersion};
pub use fault::KeyringFault;
pub use file::{COST, Cost, Passphrase, stretched};
pub use heard::{Heard, News};
pub use ledger::{Fate, Issued, OUTSTANDING, Settled, Use};
pub use place::Held;
pub use standing::{NoSuchKey, Other, Standing};

use crate::audit::sealed::Keys;

/// Pairing keys. Retired generations are kept: what was sealed under them is
/// still to be read.
///
/// No `Debug`: it holds keys, which are wiped when it is dropped.
#[derive(Default)]
pub struct Keyring {
    /// By lock, then generation.
    keys: Vec<Key>,
    counters: counters::Counters,
    ledger: ledger::Ledger,
    /// Whether the file it was read from is not the one that was written last.
    copied: bool,
}

lock_core::silent!(Keyring);

/// A key, and whether its lock has it. No `Debug`: it is a key.
struct Key {
    pairing: Pairing,
    standing: Standing,
}

lock_core::silent!(Key);

/// There is a key of that lock and generation already.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Taken;

impl Keyring {
    /// Adds a key that the lock has.
    ///
    /// # Errors
    /// [`Taken`] if there is one of that lock and generation.
    pub fn add(&mut self, pairing: Pairing) -> Result<(), Taken> {
        self.put(pairing, Standing::Confirmed)
    }

    /// Adds a key that the lock is still to get.
    ///
    /// # Errors
    /// [`Taken`] if there is one of that lock and generation.
    pub fn add_unconfirmed(&mut self, pairing: Pairing) -> Result<(), Taken> {
        self.put(pairing, Standing::Unconfirmed)
    }

    fn put(&mut self, pairing: Pairing, standing: Standing) -> Result<(), Taken> {
        match self.place(pairing.lock(), pairing.generation()) {
            Ok(_) => Err(Taken),
            Err(place) => {
                self.keys.insert(place, Key { pairing, standing });
                Ok(())
            }
        }
    }

    /// Every lock and generation, in order.
    pub fn names(&self) -> impl Iterator<Item = (LockNumber, u32)> + '_ {
        self.standings().map(|(lock, generation, _)| (lock, generation))
    }

    /// The same, and whether the lock has it.
    pub fn standings(&self) -> impl Iterator<Item = (LockNumber, u32, Standing)> + '_ {
        let name = |key: &Key| (key.pairing.lock(), key.pairing.generation(), key.standing);
        self.keys.iter().map(name)
    }

    /// The newest generation of a lock's key, whether the lock has it or not.
    #[must_use]
    pub fn newest(&self, lock: LockNumber) -> Option<u32> {
        self.names().filter(|(of, _)| *of == lock).map(|(_, generation)| generation).last()
    }

    /// Whether the file it was read from is a copy, or an older state that was put back:
    /// not the one that was written last.
    #[must_use]
    pub const fn is_copied(&self) -> bool {
        self.copied
    }

    fn place(&self, lock: LockNumber, generation: u32) -> Result<usize, usize> {
        let name = |key: &Key| (key.pairing.lock(), key.pairing.generation());
        self.keys.binary_search_by_key(&(lock, generation), name)
    }

    fn key_mut(&mut self, lock: LockNumber, generation: u32) -> Option<&mut Key> {
        let place = self.place(lock, generation).ok()?;
        self.keys.get_mut(place)
    }
}

impl Keys for Keyring {
    fn pairing(&self, lock: LockNumber, generation: u32) -> Option<&Pairing> {
        let place = self.place(lock, generation).ok()?;
        self.keys.get(place).map(|key| &key.pairing)
    }
}
