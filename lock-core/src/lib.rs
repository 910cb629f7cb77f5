//! Decisions of an electronic time lock.
#![no_std]
#[cfg(test)]
extern crate std;

pub mod code;
pub mod holder;
pub mod keys;
pub mod time;
