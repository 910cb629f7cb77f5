//! Orders to a flash to misbehave: faults of the bus, and of a part that does
//! not do what it says.

use super::calls::OpKind;
use super::error::FlashError;

/// What is to go wrong.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Orders {
    reads: Due,
    programs: Due,
    erases: Due,
    writes: Writes,
}

/// Calls of one kind that are to fail: `count` of them, after `after` that
/// work.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Due {
    pub(super) after: u32,
    pub(super) count: u32,
}

/// How many of the coming programs and erases are to go wrong, and how.
#[derive(Clone, Copy, Debug, Default)]
pub(super) enum Writes {
    #[default]
    AsAsked,
    /// They fail and say so.
    Fail(u32),
    /// They do nothing and say that all is well.
    Lie(u32),
    /// They do as asked and say that they failed.
    Deny(u32),
}

/// What to do about a call.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Do {
    AsAsked,
    Nothing,
}

/// What to say of it.
type Say = Result<(), FlashError>;

impl Orders {
    pub(super) const fn fail(&mut self, kind: OpKind, due: Due) {
        *self.due(kind) = due;
    }

    pub(super) const fn writes(&mut self, writes: Writes) {
        self.writes = writes;
    }

    const fn due(&mut self, kind: OpKind) -> &mut Due {
        match kind {
            OpKind::Read => &mut self.reads,
            OpKind::Program => &mut self.programs,
            OpKind::Erase => &mut self.erases,
        }
    }

    /// What to do about this call, and what to say of it.
    pub(super) fn for_call(&mut self, kind: OpKind) -> (Do, Say) {
        if self.due(kind).is_now() {
            return (Do::Nothing, Err(FlashError::Ordered));
        }
        match kind {
            OpKind::Read => (Do::AsAsked, Ok(())),
            OpKind::Program | OpKind::Erase => self.for_write(),
        }
    }

    fn for_write(&mut self) -> (Do, Say) {
        let (left, order) = match &mut self.writes {
            Writes::AsAsked => return (Do::AsAsked, Ok(())),
            Writes::Fail(left) => (left, (Do::Nothing, Err(FlashError::Ordered))),
            Writes::Lie(left) => (left, (Do::Nothing, Ok(()))),
            Writes::Deny(left) => (left, (Do::AsAsked, Err(FlashError::Ordered))),
        };
        match left.checked_sub(1) {
            None => (Do::AsAsked, Ok(())),
            Some(rest) => {
                *left = rest;
                order
            }
        }
    }
}

impl Due {
    /// Whether the call that comes now fails.
    fn is_now(&mut self) -> bool {
        if self.count == 0 {
            return false;
        }
        match self.after.checked_sub(1) {
            Some(after) => {
                self.after = after;
                false
            }
            None => {
                self.count = self.count.saturating_sub(1);
                true
            }
        }
    }
}
