//! The rig: many cases of one kind, each judged by what must always hold.
//!
//! | module | concept |
//! | --- | --- |
//! | [`campaign`] | numbered cases, spread over threads and shards |
//! | [`shard`] | which of the cases run here |
//! | [`dice`] | random numbers that are the same everywhere |
//! | [`mod@shrink`] | the fewest events that still fail |
//! | [`report`] | what came of it, for people and for programs |
//! | [`power`] | power cuts and other faults of the flash |
//! | [`junit`] | the same for a CI server |
//! | [`codes`] | bad codes: guessers at the keypad |
//! | [`store`] | the store alone: power cuts and flipped bits |
//!
//! Case *n* of a seed is the same case on every machine, in every shard and with
//! any number of threads; so one number repeats a failure.

pub mod campaign;
pub mod codes;
pub mod dice;
pub mod junit;
pub mod power;
pub mod report;
pub mod shard;
pub mod shrink;
pub mod store;

pub use campaign::{Cases, Covered, Failure, Plan, Progress, Report, run, run_one};
pub use dice::Dice;
pub use shard::Shard;
pub use shrink::shrink;
