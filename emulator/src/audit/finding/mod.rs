//! What in an audit somebody should look into, each with its record.
//!
//! | file | looks at |
//! | --- | --- |
//! | `people.rs` | who opened when, against the site file; what stayed open |
//! | `tries.rs` | wrong codes and penalties |
//! | `device.rs` | power, supply, clock, faults, what is missing |

mod device;
mod people;
mod tries;

pub use device::{CELL_END, CELLS};

use lock_core::audit::Seq;
use lock_core::time::Seconds;

use super::ledger::Ledger;
use super::names::Names;
use super::opening::Mark;

/// Something to look into.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Finding {
    /// Its kind, for programs.
    pub kind: &'static str,
    /// The record that shows it; of a gap, its first number.
    pub mark: Mark,
    /// What it is, in a sentence.
    pub what: String,
}

/// What counts as worth a look, where the records do not say it themselves.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Limits {
    /// An opening longer than this is called out.
    pub open: Seconds,
}

impl Default for Limits {
    /// An hour. Ours: a till that is emptied is open for minutes.
    fn default() -> Self {
        Self { open: Seconds::from_hours(1) }
    }
}

/// Everything in `ledger` that somebody should look into, in the order of the
/// records. Nothing in it tells a duress code from a plain one.
#[must_use]
pub fn findings(ledger: &Ledger, names: &Names<'_>, limits: Limits) -> Vec<Finding> {
    let mut found = Vec::new();
    people::look(ledger, names, limits, &mut found);
    tries::look(ledger, names, &mut found);
    device::look(ledger, names, &mut found);
    found.sort_by_key(|finding| finding.mark.seq);
    found
}

const fn finding(kind: &'static str, mark: Mark, what: String) -> Finding {
    Finding { kind, mark, what }
}

/// A mark for something that is known by its number only.
const fn unmarked(seq: Seq) -> Mark {
    Mark { seq, at: None }
}
