//! Writes that the lock has decided on, in order, and what follows each.
//!
//! A turn hands out one write; the next step brings its result, and only then
//! happens what must follow it.

use super::clock::Setting;
use crate::audit::{Outcome, People};
use crate::port::{Sound, Write};
use crate::rules::ends::Ends;

/// Writes that can be outstanding at once. One input causes at most eight: a
/// boot that finds the lock forced, its clock lost and a penalty due.
pub(super) const OUTSTANDING: usize = 12;

/// What follows a write that became durable.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Continuation {
    /// Nothing.
    Nothing,
    /// The counted try is judged (R2).
    Judge,
    /// The alarm, if it was duress (R4).
    Tell(Outcome),
    /// What came of a try is heard; the alarm, if it was duress.
    Say(Sound, Outcome),
    /// A delay starts; the alarm, if it was duress.
    BeginWait(People, Ends, Outcome),
    /// A change of the settings applies.
    Edited,
    /// A file that waited is in force; nobody is there to hear of it.
    Adopted,
    /// The clock is set.
    SetClock(Setting),
    /// The clock is believed again: what came of it is heard.
    Believed,
    /// The alarm line is tried.
    TestAlarm,
    /// The drive frees the bolt (R1); the alarm, if it was duress.
    Release(People, Ends, Outcome),
}

impl Continuation {
    /// The outcome that the alarm line must be told, whatever became of the
    /// write.
    pub(super) const fn outcome(&self) -> Outcome {
        match self {
            Self::Nothing
            | Self::Judge
            | Self::Edited
            | Self::Adopted
            | Self::SetClock(_)
            | Self::Believed
            | Self::TestAlarm => Outcome::Plain,
            Self::Tell(outcome)
            | Self::Say(_, outcome)
            | Self::BeginWait(_, _, outcome)
            | Self::Release(_, _, outcome) => *outcome,
        }
    }
}

/// One write and what follows it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct PendingWrite {
    pub(super) write: Write,
    pub(super) after: Continuation,
}

/// The writes still to be handed out.
pub(super) type PendingWrites = heapless::Deque<PendingWrite, OUTSTANDING>;
