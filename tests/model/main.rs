//! A reference model, written from the contract by other hands than the lock,
//! and the lock held against it.

mod deeds;
mod office;
mod reference;
mod self_check;
mod walk;
