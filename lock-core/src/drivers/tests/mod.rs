//! Drivers on simulated pins and buses.

mod clock_chip;
mod contact;
mod keypad;
mod lines;
mod motor;

use core::cell::Cell;
use core::convert::Infallible;
use std::rc::Rc;

use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{ErrorType, InputPin, OutputPin};

/// A wire; clones are the same one.
#[derive(Clone, Default)]
struct Wire(Rc<Cell<bool>>);

impl ErrorType for Wire {
    type Error = Infallible;
}

impl OutputPin for Wire {
    fn set_low(&mut self) -> Result<(), Infallible> {
        self.0.set(false);
        Ok(())
    }

    fn set_high(&mut self) -> Result<(), Infallible> {
        self.0.set(true);
        Ok(())
    }
}

impl InputPin for Wire {
    fn is_high(&mut self) -> Result<bool, Infallible> {
        Ok(self.0.get())
    }

    fn is_low(&mut self) -> Result<bool, Infallible> {
        Ok(!self.0.get())
    }
}
