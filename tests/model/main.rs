//! A reference model, written from the contract by other hands than the lock,
//! and the lock held against it.

mod adapter;
mod compare;
mod generator;
mod reference;
mod seeds;
mod self_check;
mod walk;
