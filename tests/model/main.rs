//! A reference model, written from the contract by other hands than the lock.

mod generator;
mod reference;
mod self_check;
mod walk;
