//! Decisions of an electronic time lock.
#![no_std]
#![cfg_attr(
    test,
    allow(clippy::arithmetic_side_effects, clippy::as_conversions, reason = "a test may panic")
)]
#[cfg(test)]
extern crate std;

pub mod audit;
pub mod code;
pub mod draw;
pub mod holder;
pub mod keys;
pub mod policy;
pub mod port;
pub mod role;
pub mod rules;
pub mod screen;
pub mod settings;
pub mod time;
pub mod timetable;
pub mod words;
