//! The alarm line on two pins, so that duress is told from tampering.

use embedded_hal::digital::{OutputPin, PinState};

use crate::port::Alarm;

/// Two output pins: one is high for duress, one for tampering.
pub struct AlarmPins<D, T> {
    duress: D,
    tamper: T,
}

impl<D: OutputPin, T: OutputPin> AlarmPins<D, T> {
    /// A line on these pins.
    pub const fn new(duress: D, tamper: T) -> Self {
        Self { duress, tamper }
    }

    /// Sets the line. A pin that cannot be set is left: the other one and the
    /// record remain.
    pub fn signal(&mut self, level: Alarm) {
        let (duress, tamper) = match level {
            Alarm::Quiet => (PinState::Low, PinState::Low),
            Alarm::Tamper => (PinState::Low, PinState::High),
            Alarm::Duress => (PinState::High, PinState::Low),
        };
        let _ = self.duress.set_state(duress);
        let _ = self.tamper.set_state(tamper);
    }
}
