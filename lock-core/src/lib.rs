//! Decisions of an electronic time lock.
#![no_std]
#![cfg_attr(
    test,
    allow(clippy::arithmetic_side_effects, clippy::as_conversions, reason = "a test may panic")
)]
#[cfg(test)]
extern crate std;

pub mod audit;
pub mod board;
pub mod code;
pub mod device;
pub mod draw;
pub mod drivers;
pub mod holder;
pub mod keys;
pub mod lock;
pub mod policy;
pub mod port;
pub mod recovered;
pub mod role;
pub mod rules;
pub mod screen;
pub mod settings;
pub mod store;
pub mod tally;
pub mod time;
pub mod timetable;
pub mod words;
