//! What a lock says of an opening that somebody might ask for now: its decision and
//! every clause of it.

use lock_core::decide::{Clause, Decision, Hours, Sink, Stage};
use lock_core::time::{Seconds, Uptime, Utc};

/// A decision, and why.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Decided {
    /// What a right code would get.
    pub decision: Decision,
    /// Each clause, in the order in which the lock asks them.
    pub clauses: Vec<Clause>,
}

impl Decided {
    /// Until when a penalty runs.
    #[must_use]
    pub fn penalty(&self) -> Option<Uptime> {
        self.find(|clause| match clause {
            Clause::Penalty(until) => until,
            _ => None,
        })
    }

    /// Where now stands in what the holder follows.
    #[must_use]
    pub fn hours(&self) -> Option<Hours> {
        self.find(|clause| match clause {
            Clause::Hours(hours) => Some(hours),
            _ => None,
        })
    }

    /// How far an opening is.
    #[must_use]
    pub fn stage(&self) -> Option<Stage> {
        self.find(|clause| match clause {
            Clause::Stage(stage, _) => Some(stage),
            _ => None,
        })
    }

    /// The delay in force.
    #[must_use]
    pub fn delay(&self) -> Seconds {
        let delay = self.find(|clause| match clause {
            Clause::Delay(delay, _) => Some(delay),
            _ => None,
        });
        delay.unwrap_or(Seconds::ZERO)
    }

    /// Until when the lock is held shut, and until when its clock settles.
    #[must_use]
    pub fn closed_for_all(&self) -> [Option<Utc>; 2] {
        let held = self.find(|clause| match clause {
            Clause::HeldShut(until) => until,
            _ => None,
        });
        let settles = self.find(|clause| match clause {
            Clause::Clock { settles, .. } => settles,
            _ => None,
        });
        [held, settles]
    }

    fn find<T>(&self, what: impl FnMut(Clause) -> Option<T>) -> Option<T> {
        self.clauses.iter().copied().find_map(what)
    }
}

/// Takes every clause.
pub(super) struct Clauses(pub(super) Vec<Clause>);

impl Sink for Clauses {
    const WHOLE: bool = true;

    fn take(&mut self, clause: Clause) {
        self.0.push(clause);
    }
}
