//! What the laptop counts, so that nothing is sealed or handed out twice.
//!
//! # Invariants
//! - A lock's versions rise, whatever key they are sealed under: the lock takes no
//!   older file than the one in force, and no nonce comes twice.
//! - No code of a courier is handed out twice under one key. Counters go on over a
//!   new key, as the lock's own do.

use std::collections::BTreeMap;

use lock_core::code::one_time::{self, Digits};
use lock_core::holder::Number;
use lock_core::link::Version;
use lock_core::pairing::LockNumber;
use lock_core::time::Utc;
use zeroize::{Zeroize as _, Zeroizing};

use super::Keyring;
use super::ledger::{Fate, Issued, OUTSTANDING};

/// Where a courier's codes are.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Courier {
    /// Of the key that the last code came from.
    pub(super) generation: u32,
    /// The counter to go on with.
    pub(super) next: u32,
}

/// The counters of all locks.
#[derive(Default)]
pub(super) struct Counters {
    /// The last version that was sealed.
    versions: BTreeMap<LockNumber, u32>,
    couriers: BTreeMap<(LockNumber, Number), Courier>,
}

impl Counters {
    pub(super) fn versions(&self) -> impl Iterator<Item = (LockNumber, u32)> + '_ {
        self.versions.iter().map(|(lock, last)| (*lock, *last))
    }

    pub(super) fn couriers(&self) -> impl Iterator<Item = (LockNumber, Number, Courier)> + '_ {
        self.couriers.iter().map(|((lock, number), courier)| (*lock, *number, *courier))
    }

    /// Takes over what a file says; `None` if it says it twice.
    pub(super) fn put_version(&mut self, lock: LockNumber, last: u32) -> Option<()> {
        self.versions.insert(lock, last).is_none().then_some(())
    }

    /// Takes over what a file says; `None` if it says it twice.
    pub(super) fn put_courier(
        &mut self,
        lock: LockNumber,
        number: Number,
        courier: Courier,
    ) -> Option<()> {
        self.couriers.insert((lock, number), courier).is_none().then_some(())
    }

    /// A lock took that version: whether this is news.
    pub(super) fn heard_version(&mut self, lock: LockNumber, version: u32) -> bool {
        if self.versions.get(&lock).is_some_and(|last| *last >= version) || version == 0 {
            return false;
        }
        self.versions.insert(lock, version);
        true
    }
}

/// Why no version can be given out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoVersion {
    /// The keyring holds no key that the lock is known to have.
    NoKey,
    /// All were used.
    Spent,
}

/// Why no code can be given out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum NoCode {
    /// The keyring holds no key that the lock is known to have.
    NoKey,
    /// All were used.
    Spent,
    /// As many are out as may be.
    Outstanding,
    /// Counting from 0 again would hand out codes that were handed out before.
    Again,
}

/// A one-time code for a courier. No `Debug`: it is a code.
pub struct CourierCode {
    /// The generation of the key that it comes from.
    pub generation: u32,
    /// Its counter.
    pub counter: u32,
    /// Its digits, first digit first. Wiped when dropped.
    pub digits: Zeroizing<Vec<u8>>,
}

lock_core::silent!(CourierCode);

impl Keyring {
    /// The version of the next timetable file for a lock, higher than all before it
    /// and than `after`. Save the keyring before anything is sealed under it.
    ///
    /// # Errors
    /// [`NoVersion`]; nothing is counted then.
    pub fn next_version(&mut self, lock: LockNumber, after: u32) -> Result<Version, NoVersion> {
        self.sealing(lock).ok_or(NoVersion::NoKey)?;
        let last = self.counters.versions.entry(lock).or_default();
        *last = after.max(*last).checked_add(1).ok_or(NoVersion::Spent)?;
        Ok(Version(*last))
    }

    /// The next one-time code of a courier; `anew` if the lock was reset since the
    /// last one, and so counts from 0: enrolling a number again does not do that.
    /// It is in the ledger from then on, as given out at `now`. Save the keyring before
    /// anybody is told the code.
    ///
    /// # Errors
    /// [`NoCode`]; nothing is counted then.
    pub fn next_code(
        &mut self,
        lock: LockNumber,
        number: Number,
        anew: bool,
        now: Utc,
    ) -> Result<CourierCode, NoCode> {
        let pairing = self.sealing(lock).ok_or(NoCode::NoKey)?;
        let generation = pairing.generation();
        let before = self.counters.couriers.get(&(lock, number)).copied();
        let from = match before {
            None => 0,
            Some(before) if anew && before.generation == generation => return Err(NoCode::Again),
            Some(_) if anew => 0,
            Some(before) => before.next,
        };
        if !anew && self.ledger.outstanding(lock, number) >= OUTSTANDING {
            return Err(NoCode::Outstanding);
        }
        let key = pairing.courier(number.get());
        let counter = one_time::next_usable(&key, from, Digits::COURIER).ok_or(NoCode::Spent)?;
        let next = counter.checked_add(1).ok_or(NoCode::Spent)?;
        let mut issued = one_time::issue(&key, counter, Digits::COURIER);
        let code = CourierCode { generation, counter, digits: Zeroizing::new(issued.to_vec()) };
        issued.as_mut_slice().zeroize();
        self.counters.couriers.insert((lock, number), Courier { generation, next });
        if anew {
            self.ledger.pass_all(lock, number);
        }
        self.ledger.give(lock, number, Issued { generation, counter, at: now, fate: Fate::Out });
        Ok(code)
    }
}
