//! A blocker driven by one pin: high frees the bolt, low blocks it.

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
