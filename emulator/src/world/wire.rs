//! A wire between the hands' side of the emulated board and the lock's: a pin
//! at both ends.

use std::cell::Cell;
use std::convert::Infallible;
use std::rc::Rc;

use embedded_hal::digital::{ErrorType, InputPin, OutputPin};

/// One wire, high or low. Clones are its other ends.
#[derive(Clone, Default)]
pub struct Wire(Rc<Cell<bool>>);

impl Wire {
    /// Its level.
    pub fn is_up(&self) -> bool {
        self.0.get()
    }

    /// Sets its level.
    pub fn set(&self, up: bool) {
        self.0.set(up);
    }
}

impl ErrorType for Wire {
    type Error = Infallible;
}

impl InputPin for Wire {
    fn is_high(&mut self) -> Result<bool, Infallible> {
        Ok(self.is_up())
    }

    fn is_low(&mut self) -> Result<bool, Infallible> {
        Ok(!self.is_up())
    }
}

impl OutputPin for Wire {
    fn set_low(&mut self) -> Result<(), Infallible> {
        self.set(false);
        Ok(())
    }

    fn set_high(&mut self) -> Result<(), Infallible> {
        self.set(true);
        Ok(())
    }
}
