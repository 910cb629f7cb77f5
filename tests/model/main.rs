//! A reference model, written from the contract by other hands than the lock,
//! and the lock held against it.
//!
//! `adapter.rs` alone speaks of `lock-core`; `duress.rs` and `promises.rs` are taken
//! in again with it.

mod adapter;
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
