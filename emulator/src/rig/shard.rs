//! A share of the cases, so that several machines divide them without overlap.

use std::fmt;
use std::str::FromStr;

/// Share `index` of `of`: the cases whose number leaves `index` when divided by
/// `of`.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Shard {
    index: u64,
    of: u64,
}

/// Not a share.
#[derive(Clone, Copy, PartialEq, Eq, Debug, thiserror::Error)]
#[error("a shard is written I/N, from 0/N to N-1/N: \"0/4\" is the first of four")]
pub struct NoShard;

impl Shard {
    /// All cases.
    pub const WHOLE: Self = Self { index: 0, of: 1 };

    /// Share `index` of `of`; the first is 0.
    ///
    /// # Errors
    /// [`NoShard`] if there is no such share.
    pub const fn new(index: u64, of: u64) -> Result<Self, NoShard> {
        if index < of { Ok(Self { index, of }) } else { Err(NoShard) }
    }

    /// The `place`th case of this share, from 0; `None` beyond the last number.
    #[must_use]
    pub fn case(self, place: u64) -> Option<u64> {
        place.checked_mul(self.of)?.checked_add(self.index)
    }

    /// How many of the first `count` cases are in this share.
    #[must_use]
    pub const fn part_of(self, count: u64) -> u64 {
        count.saturating_sub(self.index).div_ceil(self.of)
    }
}

impl fmt::Display for Shard {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}/{}", self.index, self.of)
    }
}

impl FromStr for Shard {
    type Err = NoShard;

    fn from_str(text: &str) -> Result<Self, NoShard> {
        let (index, of) = text.split_once('/').ok_or(NoShard)?;
        let whole = |digits: &str| {
            let plain = digits.bytes().all(|b| b.is_ascii_digit());
            digits.parse().ok().filter(|_| plain).ok_or(NoShard)
        };
        Self::new(whole(index)?, whole(of)?)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn shares_are_disjoint_and_together_everything() {
        for of in 1..9 {
            for count in 0..40 {
                let mut seen = vec![0; usize::try_from(count).unwrap()];
                for index in 0..of {
                    let shard = Shard::new(index, of).unwrap();
                    let mine = shard.part_of(count);
                    for place in 0..mine {
                        seen[usize::try_from(shard.case(place).unwrap()).unwrap()] += 1;
                    }
                    assert!(shard.case(mine).unwrap() >= count);
                }
                assert!(seen.iter().all(|times| *times == 1), "{count} cases in {of} shares");
            }
        }
    }

    #[test]
    fn what_is_written_reads_back_and_nothing_else_does() {
        for text in ["0/1", "0/4", "3/4", "18446744073709551614/18446744073709551615"] {
            assert_eq!(text.parse::<Shard>().unwrap().to_string(), text);
        }
        for text in ["", "1", "1/", "/1", "4/4", "0/0", "-1/4", "+1/4", "1/4/2", " 1/4", "1/x"] {
            assert_eq!(text.parse::<Shard>(), Err(NoShard), "{text}");
        }
    }

    #[test]
    fn the_last_numbers_do_not_overflow() {
        let last = Shard::new(u64::MAX - 1, u64::MAX).unwrap();
        assert_eq!((last.case(0), last.case(1)), (Some(u64::MAX - 1), None));
        assert_eq!((last.part_of(u64::MAX), last.part_of(0)), (1, 0));
    }
}
