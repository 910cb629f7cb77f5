//! The clauses of a decision on their way to whoever wants to know, and where it stops.

use crate::rules::Unreadable;

use super::clause::{Clause, Refused};

/// Who wants to know why.
pub trait Sink {
    /// Whether the rest is asked for after a refusal too.
    const WHOLE: bool;

    /// Takes the next clause.
    fn take(&mut self, clause: Clause);
}

/// Nobody does: the lock itself, which stops at the first refusal.
impl Sink for () {
    const WHOLE: bool = false;

    fn take(&mut self, _: Clause) {}
}

/// Why a decision stops.
pub(super) enum Stop {
    Unreadable,
    Refused(Refused),
}

impl From<Unreadable> for Stop {
    fn from(_: Unreadable) -> Self {
        Self::Unreadable
    }
}

/// The clauses so far, and the first refusal among them.
pub(super) struct Trail<'s, S> {
    pub(super) sink: &'s mut S,
    refused: Option<Refused>,
}

impl<'s, S: Sink> Trail<'s, S> {
    pub(super) const fn to(sink: &'s mut S) -> Self {
        Self { sink, refused: None }
    }

    #[inline(always)]
    pub(super) fn ask(&mut self, clause: Clause) -> Result<(), Stop> {
        self.sink.take(clause);
        if let Some(refused) = clause.refused() {
            let first = *self.refused.get_or_insert(refused);
            if !S::WHOLE {
                return Err(Stop::Refused(first));
            }
        }
        Ok(())
    }

    /// What came of it: the first refusal outdoes whatever was found behind it.
    pub(super) fn settle<T>(
        self,
        found: Result<T, Stop>,
    ) -> Result<Result<T, Refused>, Unreadable> {
        match (self.refused, found) {
            (_, Err(Stop::Unreadable)) => Err(Unreadable),
            (Some(refused), _) | (None, Err(Stop::Refused(refused))) => Ok(Err(refused)),
            (None, Ok(found)) => Ok(Ok(found)),
        }
    }
}
