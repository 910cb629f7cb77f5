//! The part of the emulator that also runs without `std`.
#![no_std]
#![forbid(unsafe_code)]

#[cfg(test)]
extern crate std;

pub mod clock;
pub mod conformance;
pub mod flash;
pub mod fuse;
pub mod splitmix;
pub mod trace;

pub use flash::RamFlash;
