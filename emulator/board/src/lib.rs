//! The part of the emulator that also runs without `std`.
#![no_std]

pub mod flash;

pub use flash::RamFlash;
pub mod trace;
