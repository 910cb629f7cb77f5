//! Drivers that work on any board with `embedded-hal` 1.0 pins and buses.
//!
//! | file | what it drives |
//! | --- | --- |
//! | `matrix.rs` | a keypad of 4 rows and 3 columns: bounces and ghost keys give no key |
//! | `contact.rs` | a contact on an input pin: bolt, door, inhibit, service switch; bounces are one change |
//! | `drive_pin.rs` | a blocker on one pin: high frees |
//! | `motor_drive.rs` | a blocker on a motor with two directions and two end switches |
//! | `alarm_pins.rs` | the alarm line on two pins |
//! | `alarm_line.rs` | what the far end of a supervised line makes of its resistance |
//! | `buzzer.rs` | sounds on a pin, without waiting for them |
//! | `divider.rs` | the supply through a divider and a converter |
//! | `clock_chip.rs` | a real-time clock on I²C, with its validity flag |
//!
//! `docs/porting.md` puts them together to a board.

mod alarm_line;
mod alarm_pins;
mod buzzer;
mod clock_chip;
mod contact;
mod divider;
mod drive_pin;
mod matrix;
mod motor_drive;

pub use alarm_line::{ALARMED, END_OF_LINE, LineSeen, POWERED, Resistance, TAMPERED, nominal};
pub use alarm_pins::AlarmPins;
pub use buzzer::{Buzzer, pattern};
pub use clock_chip::{ADDRESS, ClockChip, NotSet};
pub use contact::{Active, Contact, STEADY_MILLIS};
pub use divider::Divider;
pub use drive_pin::DrivePin;
pub use matrix::{COLUMNS, Matrix, ROWS, SETTLED};
pub use motor_drive::{MotorDrive, POLL_MILLIS};

#[cfg(test)]
mod tests;
