//! Judging: a code waits until its try is counted (R2). No key is taken.

use crate::code::Code;
use crate::holder::Number;
use crate::task::Task;

/// What a code was entered for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Purpose {
    /// An opening.
    Open,
    /// A task of the list.
    Task(Task),
    /// To be the second person of a dialogue.
    Second,
}

/// A try: a number and a code, not judged yet. No `Debug`; the code is wiped
/// when it is dropped.
pub struct Attempt {
    /// What for.
    pub purpose: Purpose,
    /// On which number.
    pub number: Number,
    /// With which code.
    pub code: Code,
}

silent!(Attempt);
