//! The keyring: the pairing keys of a site's locks, in one file, sealed by a
//! passphrase. Without it nothing that a lock hands out can be read.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | [`Keyring`]: keys by lock and generation |
//! | `counters.rs` | versions of timetable files and codes of couriers: none twice |
//! | `file.rs` | the file, and what a passphrase becomes |
//! | `place.rs` | where the file is, and who else may come near it |
//! | `fault.rs` | why one cannot be used |

mod counters;
mod fault;
mod file;
mod place;

use lock_core::pairing::{LockNumber, Pairing};

pub use counters::{CourierCode, NoCode, NoVersion};
pub use fault::KeyringFault;
pub use file::{COST, Cost, Passphrase, stretched};
pub use place::Held;

use crate::audit::sealed::Keys;

/// Pairing keys. Retired generations are kept: what was sealed under them is
/// still to be read.
///
/// No `Debug`: it holds keys, which are wiped when it is dropped.
#[derive(Default)]
pub struct Keyring {
    /// By lock, then generation.
    pairings: Vec<Pairing>,
    counters: counters::Counters,
}

lock_core::silent!(Keyring);

/// There is a key of that lock and generation already.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Taken;

impl Keyring {
    /// Adds a key.
    ///
    /// # Errors
    /// [`Taken`] if there is one of that lock and generation.
    pub fn add(&mut self, pairing: Pairing) -> Result<(), Taken> {
        match self.place(pairing.lock(), pairing.generation()) {
            Ok(_) => Err(Taken),
            Err(place) => {
                self.pairings.insert(place, pairing);
                Ok(())
            }
        }
    }

    /// Every lock and generation, in order.
    pub fn names(&self) -> impl Iterator<Item = (LockNumber, u32)> + '_ {
        self.pairings.iter().map(|pairing| (pairing.lock(), pairing.generation()))
    }

    /// The newest generation of a lock's key.
    #[must_use]
    pub fn newest(&self, lock: LockNumber) -> Option<&Pairing> {
        self.pairings.iter().rfind(|pairing| pairing.lock() == lock)
    }

    fn place(&self, lock: LockNumber, generation: u32) -> Result<usize, usize> {
        let name = |pairing: &Pairing| (pairing.lock(), pairing.generation());
        self.pairings.binary_search_by_key(&(lock, generation), name)
    }
}

impl Keys for Keyring {
    fn pairing(&self, lock: LockNumber, generation: u32) -> Option<&Pairing> {
        let place = self.place(lock, generation).ok()?;
        self.pairings.get(place)
    }
}
