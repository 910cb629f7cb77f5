//! Conformance: what a lock was told, played again on any board, must give
//! what it gave, byte for byte.
//!
//! A recording is four files. `emulator drill --record FOLDER` writes them:
//!
//! | file | what is in it |
//! | --- | --- |
//! | `NAME.flash` | the flash before the first boot, as [`crate::flash`] saves it |
//! | `NAME.told` | what the lock is told, and when: [`Cue`]s, one behind the other |
//! | `NAME.did` | what it did: [`Did`]s, one behind the other |
//! | `NAME.end` | the flash at the end |
//!
//! | file of this module | concept |
//! | --- | --- |
//! | `cue.rs` | [`Cue`]: a key, a contact, a frame, power; its bytes |
//! | `did.rs` | [`Did`]: an effect, a word of flash, a reply; its bytes |
//! | `bench.rs` | the board that cues act on |
//! | `noted.rs` | a flash whose writes are told |
//! | `life.rs` | from a boot to the end of the power |
//!
//! A *life* is what lies between power coming and power going. Nothing of a lock
//! outlives it but the flash, so each life is best played by a process, or a
//! chip, of its own: `life` N of `NAME.told` begins at its N-th
//! [`What::PowerOn`].
//!
//! All numbers are little-endian and of fixed width: a format that a page
//! describes and any board can write.
//!
//! # Power
//! Where the power ended within a step, the cue of that life's boot says so: after
//! how many steps, and how the next one is torn. A step is a word programmed, a
//! page erased, an effect, or a setting of the clock chip from outside. So a cut
//! falls at the same place on every board, with no clock involved.
//!
//! # Secrets
//! A recording holds the keys that were typed, as the drill that it was made of
//! does. Record drills, never a lock in use.

mod bench;
mod cue;
mod did;
mod life;
mod noted;

pub use cue::{CUE, Cue, Malformed, Start, What, Wired};
pub use did::{DID, Did, Mark, Sink, Teller};
pub use life::{Ended, Source, Wrong, life, seek};
