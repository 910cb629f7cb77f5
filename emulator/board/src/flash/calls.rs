//! The calls that a flash was asked for, as they show from outside it.

use heapless::Vec;

/// Operations that a trace keeps; later ones are counted only.
pub const TRACE: usize = 128;

/// What was asked of a flash.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum OpKind {
    /// Reading.
    Read,
    /// Programming.
    Program,
    /// Erasing.
    Erase,
}

/// One call, as it shows from outside the flash.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Op {
    /// What was asked.
    pub kind: OpKind,
    /// The first byte.
    pub address: u32,
    /// How many bytes.
    pub length: u32,
}

/// The calls since a trace was begun.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Trace {
    /// The first [`TRACE`] of them, in order.
    pub ops: Vec<Op, TRACE>,
    /// How many came after those.
    pub more: u32,
}

impl Trace {
    pub(super) fn note(&mut self, kind: OpKind, address: u32, length: usize) {
        let length = u32::try_from(length).unwrap_or(u32::MAX);
        if self.ops.push(Op { kind, address, length }).is_err() {
            self.more = self.more.saturating_add(1);
        }
    }
}
