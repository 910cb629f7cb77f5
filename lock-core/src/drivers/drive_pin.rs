//! A blocker driven by one pin: high frees the bolt, low blocks it.
//!
//! The pin stays high for as long as the lock is open, and the call returns at once. So it
//! is for something that takes a level, stays where it is without current and is quick, or
//! whose board waits after the call: a servo, a small driver of its own. A solenoid that is
//! held would empty a battery, and a blocker that can jam needs end switches:
//! [`MotorDrive`](super::MotorDrive).

use embedded_hal::digital::OutputPin;

use crate::board::DriveFault;
use crate::port::Drive;

/// The blocker on an output pin.
pub struct DrivePin<P> {
    pin: P,
}

impl<P: OutputPin> DrivePin<P> {
    /// A blocker on `pin`, wherever it stands now.
    pub const fn new(pin: P) -> Self {
        Self { pin }
    }

    /// Moves the blocker.
    ///
    /// # Errors
    /// [`DriveFault`] if the pin cannot be set.
    pub fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        match to {
            Drive::Free => self.pin.set_high(),
            Drive::Block => self.pin.set_low(),
        }
        .map_err(|_| DriveFault)
    }
}
