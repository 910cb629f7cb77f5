//! The audit: what the lock writes down about what happened.

mod entry;
mod record;

pub use entry::{Entry, Gap};
pub use record::{CancelReason, Event, Outcome, People, Record, Refusal, Ring, Seq};
