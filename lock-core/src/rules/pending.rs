//! Whether what was made to wait holds by now (R3): the one answer for a row, a
//! stricter policy and the page that explains them.

use crate::time::Steady;

/// Whether an instant in steady time has come; never, while no time is known.
#[inline(never)] // one copy
#[must_use]
pub fn has_come(from: Steady, now: Option<Steady>) -> bool {
    now.is_some_and(|now| now >= from)
}

/// Whether a change that was made at `made` to wait until `from` holds: its time has
/// come, or the lock was opened since, last at `brought`.
#[must_use]
pub fn holds(made: Steady, from: Steady, now: Option<Steady>, brought: Option<Steady>) -> bool {
    has_come(from, now) || brought.is_some_and(|brought| made < brought)
}
