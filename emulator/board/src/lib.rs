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

use lock_core::time::Utc;

/// When the firmware of emulated locks was built: 2024-01-01 00:00:00 UTC. Ours: before
/// all drills and lessons, and early enough for the published examples of the tests.
pub const BUILT: Utc = Utc::from_secs(1_704_067_200);
