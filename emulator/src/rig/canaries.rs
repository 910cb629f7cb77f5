//! Bugs on purpose, hunted by the rigs: only in a build with `--cfg canary`.
//!
//! A rig that has never found anything proves nothing. Each bug of
//! [`lock_core::canary`] is switched on in turn, and the hunts are run in order
//! until one fails. Without a bug, none of them may.

use std::num::NonZeroUsize;
use std::time::{Duration, Instant};

use lock_core::canary::{Bug, choose};

use super::campaign::First;
use super::{Cases, Failure, Plan, Shard, run};

/// A rig, and how many of its cases are run.
pub struct Hunt<'c> {
    /// The rig's name, and its options.
    pub name: &'static str,
    /// Its cases.
    pub cases: &'c dyn Cases,
    /// How many of them.
    pub most: u64,
}

/// What came of the hunts for one bug.
pub struct Catch {
    /// The bug; `None`: there was none.
    pub bug: Option<Bug>,
    /// The hunt that found it, and what that found.
    pub by: Option<(&'static str, u64, Failure)>,
    /// How long it took.
    pub took: Duration,
}

impl Catch {
    /// Whether it came as it must.
    #[must_use]
    pub const fn is_as_it_must_be(&self) -> bool {
        self.bug.is_some() == self.by.is_some()
    }
}

/// Hunts for one bug, or for none.
///
/// The bug is chosen for the whole process: one hunt at a time.
#[must_use]
pub fn hunt(bug: Option<Bug>, hunts: &[Hunt<'_>], seed: u64, jobs: NonZeroUsize) -> Catch {
    choose(bug);
    let started = Instant::now();
    let plan = Plan { seed, budget: None, shard: Shard::WHOLE, jobs };
    let by = hunts.iter().find_map(|hunt| {
        // A few cases at a time: most bugs show in the first.
        let all = hunt.cases.count().map_or(hunt.most, |count| count.min(hunt.most));
        let mut most = u64::try_from(jobs.get()).unwrap_or(1).min(all);
        loop {
            let report = run(&plan, &First { of: hunt.cases, most }, &|_| ());
            if let Some((case, failure)) = report.failures.into_iter().next() {
                return Some((hunt.name, case, failure));
            }
            if most >= all {
                return None;
            }
            most = most.saturating_mul(8).min(all);
        }
    });
    choose(None);
    Catch { bug, by, took: started.elapsed() }
}
