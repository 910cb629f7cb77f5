//! The audit: what the lock writes down about what happened.

mod change;
mod entry;
mod record;
mod record_bytes;

pub use change::Change;
pub use entry::{Entry, Gap};
pub use record::{CancelReason, Event, Outcome, People, Record, Refusal, Ring, Seq};
pub(crate) use record_bytes::Fields;
