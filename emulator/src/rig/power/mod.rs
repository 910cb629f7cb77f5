//! The rig for power cuts and other faults of the flash.
//!
//! | module | concept |
//! | --- | --- |
//! | [`judge`] | what must hold, judged from outside the lock |

pub mod judge;

pub use judge::{Invariant, Judge, Terms, Violation};
