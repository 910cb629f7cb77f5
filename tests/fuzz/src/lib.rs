//! What the fuzzer tries: whole images of flash, lives of a store with power
//! cuts and flipped bits, and lives of a whole lock.
//!
//! | module | concept |
//! | --- | --- |
//! | [`image`] | any content of the flash: boot, list, read, write, boot again, run a lock |
//! | [`sequence`] | asks, cuts and flips in any order, judged by the rig's judge |
//! | [`lock`] | keys, contacts, time, supply, cuts, in any order, through a whole lock |
//! | [`link`] | what arrives from outside: frames, and files behind a seal that holds |
//! | [`asks`] | what is asked of a store, from bytes |
//! | [`list`] | what a store lists, and what it was promised to |
//! | [`bench`] | the plainest board there can be |
//! | [`boot`] | how many steps a boot may take |
//! | [`seeds`] | inputs to begin with |
//!
//! A target panics if something does not hold; the message begins with the
//! number of the invariant (`docs/power-loss.md`) or of the rule (R1 to R10).
//! Only public calls are used, and nothing of the store's inside is known but
//! where blocks lie, from `docs/flash-layout.md`.

pub mod asks;
pub mod bench;
pub mod boot;
pub mod image;
pub mod link;
pub mod list;
pub mod lock;
pub mod seeds;
pub mod sequence;
pub mod text;
