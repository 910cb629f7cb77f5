//! A contact on an input pin: bolt, door or inhibit.

use embedded_hal::digital::InputPin;

/// Which level of the pin means that the contact is active.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Active {
    /// A high level.
    High,
    /// A low level: with a pull-up, a broken line reads inactive.
    Low,
}

/// A contact that remembers how it last read, so that changes are told once.
///
/// A pin that cannot be read counts as active. Wire it so that *active* is the
/// safe side: inhibit set, bolt drawn, door open.
pub struct Contact<P> {
    pin: P,
    active: Active,
    last: Option<bool>,
}

impl<P: InputPin> Contact<P> {
    /// A contact on `pin`, never read yet.
    pub const fn new(pin: P, active: Active) -> Self {
        Self { pin, active, last: None }
    }

    /// Whether the contact is active now; what it read is remembered.
    pub fn read(&mut self) -> bool {
        let high = match self.active {
            Active::High => self.pin.is_high(),
            Active::Low => self.pin.is_low(),
        };
        let now = high.unwrap_or(true);
        self.last = Some(now);
        now
    }

    /// The new reading, if it differs from the last one.
    pub fn changed(&mut self) -> Option<bool> {
        let before = self.last;
        let now = self.read();
        (before != Some(now)).then_some(now)
    }
}
