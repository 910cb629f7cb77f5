//! Writes that the lock has decided on, in order, and what follows each.
//!
//! A turn hands out one write; the next step brings its result, and only then
//! happens what must follow it.

use super::clock::Setting;
use crate::audit::{Outcome, People};
use crate::port::{Sound, Write};
use crate::rules::ends::Ends;
use crate::settings::Edit;

/// Writes that can be outstanding at once. One input causes at most eight: a
/// boot that finds the lock forced, its clock lost and a penalty due.
const OUTSTANDING: usize = 12;

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
    /// Behind the tally entry that clears the try: the drive frees the bolt (R1); the alarm,
    /// if it was duress.
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
    pub(super) then: Continuation,
}

/// What a boot found of settings, and so whether there is anything to write to.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Kept {
    /// A lock's, whoever is enrolled.
    Ours,
    /// None: the flash is as it came. Nothing can be kept before a first warden.
    Nothing,
    /// Those of another layout: nothing is touched before a first warden agreed.
    Others,
    /// What could not be read.
    Unread,
}

impl Kept {
    /// Whether a first warden erases what somebody may still want.
    pub(super) const fn is_erased(self) -> bool {
        matches!(self, Self::Others | Self::Unread)
    }
}

/// What became of a write that was sent.
pub(super) enum Sent {
    /// It is on its way.
    OnItsWay,
    /// There is nothing to write to.
    Nowhere,
    /// Too many are outstanding.
    TooMany,
}

/// The region of writes.
pub(super) struct Writes {
    /// Those still to be handed out.
    queue: heapless::Deque<PendingWrite, OUTSTANDING>,
    /// The one whose result is awaited.
    in_flight: Option<PendingWrite>,
    /// The change that is to be made durable with its record: the place of a
    /// [`Write::Edit`] in the queue is its token, so there is one at a time.
    edit: Option<Edit>,
    kept: Kept,
}

impl Writes {
    pub(super) const fn new(kept: Kept) -> Self {
        Self { queue: heapless::Deque::new(), in_flight: None, edit: None, kept }
    }

    /// What there is to write to.
    pub(super) const fn kept(&self) -> Kept {
        self.kept
    }

    /// A first warden's settings are durable.
    pub(super) const fn begun(&mut self) {
        self.kept = Kept::Ours;
    }

    /// Before a first warden agreed there may be nothing to write to.
    pub(super) const fn go_nowhere(&self) -> bool {
        matches!(self.kept, Kept::Nothing | Kept::Others) && self.edit.is_none()
    }

    /// Whether none is outstanding.
    pub(super) fn are_done(&self) -> bool {
        self.queue.is_empty() && self.in_flight.is_none()
    }

    /// The change that is to be made durable.
    pub(super) const fn edit(&self) -> Option<&Edit> {
        self.edit.as_ref()
    }

    /// Puts a change into its slot. Its record is to be sent next.
    pub(super) fn prepare(&mut self, edit: Edit) {
        self.edit = Some(edit);
    }

    /// Takes a durable change out of its slot.
    pub(super) const fn take_edit(&mut self) -> Option<Edit> {
        self.edit.take()
    }

    /// Puts a write behind those that are outstanding.
    pub(super) fn send(&mut self, write: Write, then: Continuation) -> Sent {
        if self.go_nowhere() {
            return Sent::Nowhere;
        }
        match self.queue.push_back(PendingWrite { write, then }) {
            Ok(()) => Sent::OnItsWay,
            Err(_) => Sent::TooMany,
        }
    }

    /// The next write to be handed out, unless the result of one is awaited.
    pub(super) fn hand_out(&mut self) -> Option<Write> {
        if self.in_flight.is_none() {
            self.in_flight = self.queue.pop_front();
            self.in_flight.map(|pending| pending.write)
        } else {
            None
        }
    }

    /// The write whose result has come.
    pub(super) const fn ended(&mut self) -> Option<PendingWrite> {
        self.in_flight.take()
    }

    /// Gives up one of the writes that are still to be handed out.
    pub(super) fn give_up(&mut self) -> Option<PendingWrite> {
        self.queue.pop_front()
    }
}
