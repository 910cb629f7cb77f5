//! Mutants: bugs on purpose, each of which a check must find.
//!
//! A check that has never failed proves nothing. The bugs stand in
//! `tests/mutants.toml` as text that takes the place of text of the lock, so that
//! nothing of them is in the lock itself. All are woven into one copy of it, which
//! is built once; one at a time is chosen while it runs.
//!
//! | module | concept |
//! | --- | --- |
//! | [`table`] | the bugs, read whole or refused |
//! | [`weave`] | their texts in the place of the lock's |
//! | [`copy`] | the folder with the woven lock |

#![forbid(unsafe_code)]

pub mod copy;
pub mod table;
pub mod weave;

pub use table::{Check, Mutant, Place, Rig, Table, Wrong};

/// The table, from the root of the repository.
pub const TABLE: &str = "tests/mutants.toml";
