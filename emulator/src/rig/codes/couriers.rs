//! A courier's codes, as the laptop knows them: which come next, and which entries could
//! ever be right.

use lock_core::code::one_time::{CourierKey, Digits, issue, next_usable};

use super::space::raised;

/// Counters whose codes no guesser tries: one used every hour of a year, and those that
/// the lock looks ahead.
const COUNTERS: u32 = 9_000;

/// One courier's codes. No `Debug`: they are codes.
pub struct Courier {
    key: CourierKey,
    /// Codes and variants of the first counters, in order.
    right: Vec<u32>,
}

lock_core::silent!(Courier);

impl Courier {
    /// The courier whose codes come from that key.
    #[must_use]
    pub fn new(key: CourierKey) -> Self {
        let codes = (0..COUNTERS).map(|counter| value(&key, counter));
        let mut right: Vec<u32> = codes.flat_map(|code| [code, raised(code)]).collect();
        right.sort_unstable();
        right.dedup();
        Self { key, right }
    }

    /// The first counter from `counter` on that is used, and its code.
    #[must_use]
    pub fn next(&self, counter: u32) -> Option<(u32, u32)> {
        let used = next_usable(&self.key, counter, Digits::COURIER)?;
        Some((used, value(&self.key, used)))
    }

    /// Whether that entry is right at one of the first counters.
    #[must_use]
    pub fn may_be_right(&self, code: u32) -> bool {
        self.right.binary_search(&code).is_ok()
    }
}

fn value(key: &CourierKey, counter: u32) -> u32 {
    let digits = issue(key, counter, Digits::COURIER);
    digits.iter().fold(0, |value, digit| value * 10 + u32::from(*digit))
}
