//! The digits typed so far: two for the number, then the code.

use zeroize::Zeroize;

use super::{Code, MAX_DIGITS};
use crate::holder::Number;
use crate::keys::Digit;

/// Digits of the number that precedes a code.
const NUMBER_DIGITS: usize = 2;

/// What has been typed. Wiped when cleared and when dropped.
///
/// ```text
/// typed   1 2 7 3 9 2 0 4
///         └─┘ └─────────┘
///      number  code
/// ```
#[derive(Zeroize)]
pub struct Entry {
    /// Digit values, 0 to 9, first typed first; zeros behind the last.
    digits: [u8; Entry::CAPACITY],
    /// How many were typed.
    len: u8,
}

silent!(Entry);
wiped!(Entry);

impl Entry {
    /// Most digits that an entry holds: a number and the longest code.
    pub const CAPACITY: usize = NUMBER_DIGITS + MAX_DIGITS;

    /// An entry without digits.
    #[must_use]
    pub const fn new() -> Self {
        Self { digits: [0; Self::CAPACITY], len: 0 }
    }

    /// Takes one more digit in.
    ///
    /// # Errors
    /// [`EntryFull`] if [`Entry::CAPACITY`] digits stand there; the entry is
    /// unchanged.
    pub fn push(&mut self, digit: Digit) -> Result<(), EntryFull> {
        let slot = self.digits.get_mut(usize::from(self.len));
        *slot.ok_or(EntryFull)? = digit.get();
        self.len = self.len.saturating_add(1);
        Ok(())
    }

    /// How many digits stand there, 0 to [`Entry::CAPACITY`].
    #[must_use]
    pub fn len(&self) -> usize {
        usize::from(self.len)
    }

    /// Whether no digit stands there.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.len == 0
    }

    /// The first digit: the tens of the number, which is no secret.
    #[must_use]
    pub fn tens(&self) -> Option<Digit> {
        self.typed().first().and_then(|d| Digit::new(*d))
    }

    /// The number, once two digits stand there.
    #[must_use]
    pub fn number(&self) -> Option<Number> {
        let &[tens, units, ..] = self.typed() else {
            return None;
        };
        Number::new(tens.wrapping_mul(10).wrapping_add(units))
    }

    /// The code behind the number; `None` unless 2 + 6 to 2 + 8 digits stand
    /// there.
    #[must_use]
    pub fn code(&self) -> Option<Code> {
        let code = self.typed().get(NUMBER_DIGITS..)?;
        Code::collect(code.len(), code.iter().copied())
    }

    /// All digits as a code, where a code is asked for without a number (a new
    /// code, say); `None` unless 6 to 8 digits stand there.
    #[must_use]
    pub fn code_alone(&self) -> Option<Code> {
        let code = self.typed();
        Code::collect(code.len(), code.iter().copied())
    }

    /// All digits as one decimal number: for what is no secret.
    #[must_use]
    pub fn value(&self) -> u32 {
        let digits = self.typed().iter().take(9);
        digits.fold(0, |value: u32, d| value.saturating_mul(10).saturating_add(u32::from(*d)))
    }

    /// The digit values, 0 to 9: for groups of a pairing code.
    #[must_use]
    pub fn digits(&self) -> &[u8] {
        self.typed()
    }

    /// Wipes every digit.
    pub fn clear(&mut self) {
        self.zeroize();
    }

    fn typed(&self) -> &[u8] {
        self.digits.get(..self.len()).unwrap_or_default()
    }
}

impl Default for Entry {
    fn default() -> Self {
        Self::new()
    }
}

/// The entry holds [`Entry::CAPACITY`] digits already.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct EntryFull;

#[cfg(test)]
mod tests {
    use super::*;

    fn typed(digits: &str) -> Entry {
        let mut entry = Entry::new();
        for b in digits.bytes() {
            assert_eq!(entry.push(Digit::new(b.wrapping_sub(b'0')).unwrap()), Ok(()));
        }
        entry
    }

    /// For every length and a few contents: what the entry says follows from
    /// the typed string alone.
    #[test]
    fn number_and_code_are_read_by_length() {
        for all in ["0000000000", "9981234567", "1273920465"] {
            for len in 0..=all.len() {
                let text = &all[..len];
                let entry = typed(text);
                assert_eq!(entry.len(), len);
                assert_eq!(entry.is_empty(), len == 0);
                let number = (len >= 2).then(|| text[..2].parse::<u8>().unwrap());
                assert_eq!(entry.number().map(Number::get), number);
                let code = (len >= 8).then(|| Code::parse(&text[2..]).unwrap());
                assert!(entry.code() == code);
                let alone = (6..=8).contains(&len).then(|| Code::parse(text).unwrap());
                assert!(entry.code_alone() == alone);
            }
        }
    }

    #[test]
    fn an_eleventh_digit_changes_nothing() {
        let mut entry = typed("1212345678");
        assert_eq!(entry.push(Digit::new(9).unwrap()), Err(EntryFull));
        assert_eq!(entry.len(), Entry::CAPACITY);
        assert!(entry.code() == Code::parse("12345678"));
    }

    #[test]
    fn a_cleared_entry_keeps_no_digit() {
        let mut entry = typed("9998765432");
        entry.clear();
        assert_eq!(entry.digits, [0; Entry::CAPACITY]);
        assert_eq!(entry.len, 0);
        assert!(entry.number().is_none() && entry.code().is_none());
        assert_eq!(entry.push(Digit::new(4).unwrap()), Ok(()));
        assert_eq!(entry.len(), 1);
    }
}
