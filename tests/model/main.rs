//! A reference model, written from the contract by other hands than the lock,
//! and the lock held against it.

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
