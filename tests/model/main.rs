//! A reference model, written from the contract by other hands than the lock,
//! and the lock held against it.
//!
//! `adapter.rs` alone tells both apart; `duress.rs` and `promises.rs` look at the lock
//! by itself, through it.

mod adapter;
mod compare;
mod deeds;
mod dice;
mod duress;
mod foretold;
mod generator;
mod leads;
mod office;
mod promises;
mod reach;
mod reference;
mod seeds;
mod self_check;
mod walk;
mod way_back;
