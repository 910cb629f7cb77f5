//! The part of the emulator that also runs without `std`.
#![no_std]
#![forbid(unsafe_code)]

pub mod flash;

pub use flash::RamFlash;
pub mod trace;
