//! The rig for power cuts and other faults of the flash.
//!
//! | module | concept |
//! | --- | --- |
//! | [`judge`] | what must hold, judged from outside the lock |
//! | [`ground`] | a commissioned lock, and what it promises |
//! | [`rehearsal`] | a drill played once, its flash rolled to any step |
//! | [`blow`] | an end of the power within a step, in every way |
//! | [`recovery`] | the boots after it, each of which may be cut itself |
//! | [`sweep`] | drills, cut at every step |
//! | [`story`] | what happens to a lock, event by event |
//! | [`generator`] | random stories |
//! | `typist` | what people type into a dialogue |
//! | [`soak`] | months of random use, with all the faults that there are |
//! | [`stories`] | random stories as cases, cut down to the events that matter |

pub mod blow;
#[cfg(test)]
mod broken;
mod coverage;
pub mod generator;
pub mod ground;
pub mod judge;
pub mod recovery;
pub mod rehearsal;
pub mod soak;
pub mod stories;
pub mod story;
pub mod sweep;
mod typist;

pub use ground::Ground;
pub use judge::{Invariant, Judge, Terms, Violation};
pub use recovery::Cuts;
pub use rehearsal::{Rehearsal, State};
pub use soak::Soak;
pub use stories::Stories;
pub use sweep::Sweep;
