//! Codes: what is typed, what is kept of it, what is refused, and duress.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | [`Code`]: six to eight digits |
//! | `entry.rs` | [`Entry`]: the digits typed so far |
//! | `digest.rs` | [`Digest`]: the keyed, salted trace that is kept instead of a code |
//! | `duress.rs` | [`judge`]: right, duress or wrong, with equal work |
//! | `one_time.rs` | [`one_time`]: codes of couriers, each good once |
//! | `guessable.rs` | [`guessable`] and [`refused`]: codes that nobody may choose |
//!
//! # Invariants
//! - A code is nowhere stored, shown or logged (rule R5): neither [`Code`] nor
//!   [`Entry`] has a `Debug`, neither can be copied, and both are wiped when
//!   they go out of use. What a move leaves behind on the stack is beyond a
//!   type's reach; callers hand codes on by reference.
//! - Codes are compared in constant time.
//! - A code belongs to a number, and codes of different numbers are never
//!   compared: that would tell a holder what others chose.

mod digest;
mod duress;
mod entry;
mod guessable;
pub mod one_time;

use subtle::{Choice, ConstantTimeEq};
use zeroize::Zeroize;

use crate::keys::Digit;

pub use digest::{Digest, LockKey, Salt, digest, mac};
pub use duress::{Kept, Verdict, duress_variant, judge};
pub use entry::{Entry, EntryFull};
pub use guessable::{Guessable, Refused, guessable, refused};
pub use one_time::CourierKey;

/// Fewest digits of a code.
///
/// NIST SP 800-63B-4 (initial public draft, 5.2.11) asks for six characters
/// or more of an activation secret.
pub const MIN_DIGITS: usize = 6;

/// Most digits of a code (our choice: what a person still remembers without
/// writing it down).
pub const MAX_DIGITS: usize = 8;

/// A code of [`MIN_DIGITS`] to [`MAX_DIGITS`] digits. Wiped when dropped.
///
/// Leading zeros count: 012345 is a code of six digits and differs from every
/// code of another length. `==` takes the same time wherever two codes differ.
#[derive(Zeroize)]
pub struct Code {
    /// Digit values, 0 to 9, first typed first; zeros behind the last.
    digits: [u8; MAX_DIGITS],
    /// How many of them count.
    len: u8,
}

silent!(Code);
wiped!(Code);

impl Code {
    /// The code of these digits, or `None` unless there are [`MIN_DIGITS`] to
    /// [`MAX_DIGITS`] of them.
    #[must_use]
    pub fn from_digits(digits: &[Digit]) -> Option<Self> {
        Self::collect(digits.len(), digits.iter().map(|d| d.get()))
    }

    /// The code written as ASCII digits and nothing else, or `None`. For the
    /// laptop, where demonstration codes stand in a file.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        if !text.bytes().all(|b| b.is_ascii_digit()) {
            return None;
        }
        Self::collect(text.len(), text.bytes().map(|b| b.wrapping_sub(b'0')))
    }

    /// How many digits the code has, [`MIN_DIGITS`] to [`MAX_DIGITS`].
    #[must_use]
    #[expect(clippy::len_without_is_empty, reason = "a code is never empty")]
    pub fn len(&self) -> usize {
        usize::from(self.len)
    }

    /// The digit values, 0 to 9.
    fn values(&self) -> &[u8] {
        self.digits.get(..self.len()).unwrap_or_default()
    }

    /// The same code with another last digit, computed from the present one.
    fn with_last(&self, change: impl Fn(u8) -> u8) -> Self {
        let mut other = Self { digits: self.digits, len: self.len };
        let last = other.len().saturating_sub(1);
        if let Some(digit) = other.digits.get_mut(last) {
            *digit = change(*digit);
        }
        other
    }

    /// A code of `len` values that are known to be digits.
    fn collect(len: usize, values: impl Iterator<Item = u8>) -> Option<Self> {
        if !(MIN_DIGITS..=MAX_DIGITS).contains(&len) {
            return None;
        }
        let mut code = Self { digits: [0; MAX_DIGITS], len: u8::try_from(len).ok()? };
        for (slot, value) in code.digits.iter_mut().zip(values) {
            *slot = value;
        }
        Some(code)
    }
}

impl ConstantTimeEq for Code {
    fn ct_eq(&self, other: &Self) -> Choice {
        self.digits.ct_eq(&other.digits) & self.len.ct_eq(&other.len)
    }
}

impl PartialEq for Code {
    fn eq(&self, other: &Self) -> bool {
        self.ct_eq(other).into()
    }
}

impl Eq for Code {}

#[cfg(test)]
mod tests;
