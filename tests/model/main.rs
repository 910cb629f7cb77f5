//! A reference model, written from the contract by other hands than the lock,
//! and the lock held against it.

mod adapter;
mod compare;
mod duress;
mod generator;
mod promises;
mod reference;
mod seeds;
mod self_check;
mod walk;
