//! The alarm line on two pins, so that duress is told from tampering.

use embedded_hal::digital::{OutputPin, PinState};

use crate::port::Alarm;

/// How often a pin that fails is set: one behind a bus may fail for a moment. Ours.
const TRIES: u8 = 3;

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

    /// Sets the line. The lock says so once: a pin that fails is set again, up to
    /// three times in all, and then left; the other one and the record remain.
    pub fn signal(&mut self, level: Alarm) {
        let (duress, tamper) = match level {
            Alarm::Quiet => (PinState::Low, PinState::Low),
            Alarm::Tamper => (PinState::Low, PinState::High),
            Alarm::Duress => (PinState::High, PinState::Low),
        };
        set(&mut self.duress, duress);
        set(&mut self.tamper, tamper);
    }
}

fn set(pin: &mut impl OutputPin, state: PinState) {
    for _ in 0..TRIES {
        if pin.set_state(state).is_ok() {
            break;
        }
    }
}
