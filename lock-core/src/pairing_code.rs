//! The pairing code: a new pairing key on paper, from the laptop to the keypad.
//!
//! ```text
//! 8 groups of 6 digits: 5 that count, and a check digit
//!
//! 01001 4  00183 7  20459 1  …
//! └───┘    └─┘└────────────── 32 secret digits
//! lock     generation
//! ```
//!
//! The check digit is Damm's (H. M. Damm, 2004): it tells every single wrong
//! digit and every swap of neighbours, so a slip is asked for again at once.
//! 32 random digits are 106 bits, too many to try: the key is one HMAC of them,
//! without stretching.

use zeroize::Zeroize;

use crate::code::mac;
use crate::pairing::{LockNumber, Pairing};

/// Digits of a group that count.
const DATA: usize = 5;
/// Digits of a group, its check digit included.
pub const GROUP_DIGITS: usize = DATA.saturating_add(1);
/// The last generation that a pairing code can name.
pub const LAST_GENERATION: u32 = 999;
/// Secret digits of a pairing code.
pub const SECRET_DIGITS: usize = 32;

const LOCK_DIGITS: usize = 5;
const GENERATION_DIGITS: usize = 3;
const LABEL: &[u8] = b"pairing key v1";

/// A pairing code, whole or in the making. No `Debug`: it is a key. Wiped when
/// dropped.
#[derive(Zeroize)]
pub struct PairingCode {
    digits: [u8; Self::DIGITS],
}

silent!(PairingCode);
wiped!(PairingCode);

/// Why a group cannot be taken.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct WrongGroup;

/// Why a code makes no key: it names no lock or no generation.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NoKey;

impl Default for PairingCode {
    fn default() -> Self {
        Self { digits: [0; Self::DIGITS] }
    }
}

impl PairingCode {
    /// Groups of a pairing code.
    pub const GROUPS: usize = 8;
    /// Digits that count, over all groups.
    pub const DIGITS: usize = Self::GROUPS.saturating_mul(DATA);

    /// The code of a new key: `None` if there is no such generation or a secret
    /// digit is none. The secret must be random and known to nobody.
    #[must_use]
    pub fn new(lock: LockNumber, generation: u32, secret: &[u8; SECRET_DIGITS]) -> Option<Self> {
        if !(1..=LAST_GENERATION).contains(&generation) || secret.iter().any(|d| *d > 9) {
            return None;
        }
        let mut code = Self::default();
        let (head, tail) = code.digits.split_at_mut(LOCK_DIGITS.saturating_add(GENERATION_DIGITS));
        let (lock_digits, generation_digits) = head.split_at_mut(LOCK_DIGITS);
        put_decimal(u32::from(lock.get()), lock_digits);
        put_decimal(generation, generation_digits);
        tail.copy_from_slice(secret);
        Some(code)
    }

    /// Takes group `index`, from 0, as typed.
    ///
    /// # Errors
    /// [`WrongGroup`] if there is no such group, or its check digit is wrong;
    /// nothing is changed.
    pub fn take(&mut self, index: usize, typed: &[u8]) -> Result<(), WrongGroup> {
        if typed.len() != GROUP_DIGITS || damm(typed) != Some(0) {
            return Err(WrongGroup);
        }
        let (groups, _) = self.digits.as_chunks_mut::<DATA>();
        let group = groups.get_mut(index).ok_or(WrongGroup)?;
        for (digit, typed) in group.iter_mut().zip(typed) {
            *digit = *typed;
        }
        Ok(())
    }

    /// The groups with their check digits, for paper.
    pub fn groups(&self) -> impl Iterator<Item = [u8; GROUP_DIGITS]> + '_ {
        self.digits.as_chunks::<DATA>().0.iter().map(|data| {
            let mut group = [0; GROUP_DIGITS];
            for (digit, data) in group.iter_mut().zip(data) {
                *digit = *data;
            }
            if let Some(check) = group.last_mut() {
                *check = damm(data).unwrap_or(0);
            }
            group
        })
    }

    /// The pairing key.
    ///
    /// # Errors
    /// [`NoKey`] if the digits name no lock or no generation.
    pub fn pairing(&self) -> Result<Pairing, NoKey> {
        let (head, secret) = self.digits.split_at(LOCK_DIGITS.saturating_add(GENERATION_DIGITS));
        let (lock, generation) = head.split_at(LOCK_DIGITS);
        let lock = u16::try_from(decimal(lock)).ok().and_then(LockNumber::new).ok_or(NoKey)?;
        let generation = decimal(generation);
        if generation == 0 {
            return Err(NoKey);
        }
        let (lock_bytes, generation_bytes) = (lock.get().to_le_bytes(), generation.to_le_bytes());
        let key = mac(secret, &[LABEL, &lock_bytes, &generation_bytes]);
        Ok(Pairing::new(lock, generation, key))
    }
}

fn decimal(digits: &[u8]) -> u32 {
    digits.iter().fold(0, |n: u32, d| n.saturating_mul(10).saturating_add(u32::from(*d)))
}

fn put_decimal(mut value: u32, digits: &mut [u8]) {
    for digit in digits.iter_mut().rev() {
        *digit = u8::try_from(value % 10).unwrap_or(0);
        value /= 10;
    }
}

/// Damm's table: a totally anti-symmetric quasigroup of order ten.
const TABLE: [[u8; 10]; 10] = [
    [0, 3, 1, 7, 5, 9, 8, 6, 4, 2],
    [7, 0, 9, 2, 1, 5, 4, 8, 6, 3],
    [4, 2, 0, 6, 8, 7, 1, 3, 5, 9],
    [1, 7, 5, 0, 9, 8, 3, 4, 2, 6],
    [6, 1, 2, 3, 0, 4, 5, 9, 7, 8],
    [3, 6, 7, 4, 2, 0, 9, 5, 8, 1],
    [5, 8, 6, 9, 7, 2, 0, 1, 3, 4],
    [8, 9, 4, 5, 3, 6, 2, 0, 1, 7],
    [9, 4, 3, 8, 6, 1, 7, 2, 0, 5],
    [2, 5, 8, 1, 4, 3, 6, 7, 9, 0],
];

/// The check digit of `digits`; 0 if the last of them is theirs. `None` if one
/// is no digit.
fn damm(digits: &[u8]) -> Option<u8> {
    digits.iter().try_fold(0_u8, |interim, digit| {
        TABLE.get(usize::from(interim))?.get(usize::from(*digit)).copied()
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// The worked example of the published description: 572 has check digit 4
    /// (from memory).
    #[test]
    fn the_check_digit_is_that_of_the_worked_example() {
        assert_eq!(damm(&[5, 7, 2]), Some(4));
        assert_eq!(damm(&[5, 7, 2, 4]), Some(0));
    }

    /// What the check digit is for, for every group of three digits and its own.
    #[test]
    fn every_wrong_digit_and_every_swap_of_neighbours_is_told() {
        for n in 0..1_000_u32 {
            let mut group = [0, 0, 0, 0];
            put_decimal(n, &mut group[..3]);
            group[3] = damm(&group[..3]).unwrap();
            assert_eq!(damm(&group), Some(0));
            for at in 0..4 {
                for digit in (0..10).filter(|digit| *digit != group[at]) {
                    let mut wrong = group;
                    wrong[at] = digit;
                    assert_ne!(damm(&wrong), Some(0), "{group:?} {wrong:?}");
                }
            }
            for at in (0..3).filter(|at| group[*at] != group[at + 1]) {
                let mut wrong = group;
                wrong.swap(at, at + 1);
                assert_ne!(damm(&wrong), Some(0), "{group:?} {wrong:?}");
            }
        }
    }

    proptest! {
        #[test]
        fn what_is_typed_from_paper_is_the_key(
            lock in 1..=u16::MAX,
            generation in 1..=LAST_GENERATION,
            secret in proptest::array::uniform32(0_u8..10),
        ) {
            let lock = LockNumber::new(lock).unwrap();
            let printed = PairingCode::new(lock, generation, &secret).unwrap();
            let mut typed = PairingCode::default();
            for (index, group) in printed.groups().enumerate() {
                prop_assert_eq!(typed.take(index, &group), Ok(()));
            }
            let (a, b) = (printed.pairing().unwrap(), typed.pairing().unwrap());
            prop_assert_eq!((a.lock(), a.generation()), (lock, generation));
            prop_assert_eq!((b.lock(), b.generation()), (lock, generation));
            prop_assert_eq!(a.key(), b.key());
        }
    }

    #[test]
    fn what_is_no_group_changes_nothing() {
        let mut code = PairingCode::default();
        for typed in [&[0; 5][..], &[0; 7], &[0, 0, 0, 0, 0, 1], &[10, 0, 0, 0, 0, 0], &[]] {
            assert_eq!(code.take(0, typed), Err(WrongGroup));
        }
        assert_eq!(code.take(8, &[0; 6]), Err(WrongGroup));
        assert_eq!(code.pairing().err(), Some(NoKey));
    }
}
