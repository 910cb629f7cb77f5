//! The audit: what the lock writes down about what happened.

mod record;

pub use record::{CancelReason, Event, Outcome, People, Record, Refusal, Ring, Seq};
