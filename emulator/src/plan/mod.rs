//! Planning: when may who open, and what in a site file will not work out.
//!
//! | file | concept |
//! | --- | --- |
//! | `openings.rs` | the stretches in which a holder may open |
//! | `range.rs` | the instants between two dates |
//! | `why.rs` | one instant, explained |
//! | `chart/` | weeks, drawn |
//! | `holidays.rs` | closures from a calendar of holidays |
//! | `calendar.rs` | opening times for a calendar program |
//! | `supply.rs` | how long a battery lasts |
//! | `costs.rs` | what the things that a lock does cost on a board |
//! | `finding.rs` | what `plan check` finds: severity, place, remedy |
//! | `check/` | the checks, a subject a file |
//!
//! Everything asks `lock_core::decide`, the one decision that the lock at
//! the door asks too: what is promised here is what the door does.

mod calendar;
pub mod chart;
pub mod check;
pub mod costs;
mod finding;
pub mod holidays;
mod openings;
mod range;
pub mod supply;
mod why;

pub use calendar::{Entry, calendar};
pub use finding::{Finding, Severity};
pub use openings::{Stretch, everybody, openings};
pub use range::{Range, first_instant};
pub use why::{Change, Reason, Told, Why, change_on, why};
