//! The rig for power cuts and other faults of the flash.
//!
//! | module | concept |
//! | --- | --- |
//! | [`judge`] | what must hold, judged from outside the lock |
//! | [`ground`] | a commissioned lock, and what it promises |
//! | [`rehearsal`] | a drill played once, its flash rolled to any step |

pub mod ground;
pub mod judge;
pub mod rehearsal;

pub use ground::Ground;
pub use judge::{Invariant, Judge, Terms, Violation};
pub use rehearsal::{Rehearsal, State};
