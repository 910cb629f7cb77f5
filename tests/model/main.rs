//! A reference model, written from the contract by other hands than the lock,
//! and the lock held against it.
//!
//! `adapter.rs`, `duress.rs` and `promises.rs` speak of `lock-core` and are taken in
//! again with the core that follows the contract: `compare::OtherLock` is what the
//! adapter has to give.

mod compare;
mod deeds;
mod dice;
mod generator;
mod leads;
mod office;
mod reach;
mod reference;
mod seeds;
mod self_check;
mod walk;
mod way_back;
