//! Drivers that work on any board with `embedded-hal` pins.

mod alarm_pins;
mod contact;
mod drive_pin;

pub use alarm_pins::AlarmPins;
pub use contact::{Active, Contact};
pub use drive_pin::DrivePin;
