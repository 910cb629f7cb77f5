//! A blocker on a motor: two pins for its directions, an end switch at each end.

use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{InputPin, OutputPin};

use crate::board::DriveFault;
use crate::drivers::Active;
use crate::port::Drive;

/// How often the end switch is asked while the motor runs, in milliseconds.
pub const POLL_MILLIS: u16 = 5;

/// A blocker that a motor moves. `free` and `block` run it one way and the other;
/// `at_free` and `at_block` are the switches at the ends.
///
/// The motor runs until the switch at its end says so, at most for the time that it
/// is given, and both pins are low whenever [`MotorDrive::drive`] returns. A pin that
/// cannot be read or set is a fault, and so are a motor that was told to stop and
/// whose pin did not take it, and two switches that both say that it is at their end.
pub struct MotorDrive<F, B, E, G> {
    free: F,
    block: B,
    at_free: E,
    at_block: G,
    active: Active,
    within_millis: u16,
}

impl<F, B, E, G> MotorDrive<F, B, E, G>
where
    F: OutputPin,
    B: OutputPin,
    E: InputPin,
    G: InputPin,
{
    /// A motor on the pins `motor` (frees, blocks) with the switches `ends` (free,
    /// blocked), which read `active` at their end; it gets there within that many
    /// milliseconds, of which there are at least [`POLL_MILLIS`], or not at all.
    pub fn new(motor: (F, B), ends: (E, G), active: Active, within_millis: u16) -> Self {
        let ((free, block), (at_free, at_block)) = (motor, ends);
        Self { free, block, at_free, at_block, active, within_millis }
    }

    /// Moves the blocker, unless it is there already. `delay` passes the time meanwhile.
    ///
    /// # Errors
    /// [`DriveFault`] if it does not get there in time, or a pin fails.
    pub fn drive(&mut self, to: Drive, delay: &mut impl DelayNs) -> Result<(), DriveFault> {
        // Never both directions at once, whatever the pins were before.
        self.stop()?;
        if self.is_at(to)? {
            return Ok(());
        }
        let started = match to {
            Drive::Free => self.free.set_high().map_err(|_| DriveFault),
            Drive::Block => self.block.set_high().map_err(|_| DriveFault),
        };
        let arrived = started.and_then(|()| self.runs(to, delay));
        // Stopped on every path, and that comes first.
        self.stop()?;
        arrived
    }

    fn runs(&mut self, to: Drive, delay: &mut impl DelayNs) -> Result<(), DriveFault> {
        let mut left = self.within_millis;
        loop {
            if self.is_at(to)? {
                return Ok(());
            }
            left = left.checked_sub(POLL_MILLIS).ok_or(DriveFault)?;
            delay.delay_ms(POLL_MILLIS.into());
        }
    }

    fn is_at(&mut self, end: Drive) -> Result<bool, DriveFault> {
        let at = |high: bool| high == (self.active == Active::High);
        let free = at(self.at_free.is_high().map_err(|_| DriveFault)?);
        let block = at(self.at_block.is_high().map_err(|_| DriveFault)?);
        match (end, free, block) {
            // One of them lies: nobody knows which.
            (_, true, true) => Err(DriveFault),
            (Drive::Free, here, _) | (Drive::Block, _, here) => Ok(here),
        }
    }

    /// Both pins, even if the first one fails.
    fn stop(&mut self) -> Result<(), DriveFault> {
        let (free, block) = (self.free.set_low(), self.block.set_low());
        if free.is_ok() && block.is_ok() { Ok(()) } else { Err(DriveFault) }
    }
}
