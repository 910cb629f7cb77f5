//! A contact on an input pin: bolt, door, inhibit or service switch.

use embedded_hal::digital::InputPin;

use crate::time::Uptime;

/// How long a contact reads the same before its change counts. Ours: longer than
/// switches and reeds bounce (from memory: 1 to 10 ms).
pub const STEADY_MILLIS: u8 = 20;

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
/// safe side: inhibit set, bolt drawn, door open, service switch off.
pub struct Contact<P> {
    pin: P,
    active: Active,
    last: Option<bool>,
    /// Since when it has read otherwise: the low half of the uptime in milliseconds.
    since: Option<u32>,
}

impl<P: InputPin> Contact<P> {
    /// A contact on `pin`, never read yet.
    pub const fn new(pin: P, active: Active) -> Self {
        Self { pin, active, last: None, since: None }
    }

    /// Whether the contact is active now; what it read is remembered.
    pub fn read(&mut self) -> bool {
        let now = self.level();
        self.last = Some(now);
        self.since = None;
        now
    }

    /// The new reading, if it differs from the last one, bounces and all: for a
    /// contact that cannot bounce, as a simulated one, or one behind a filter.
    pub fn changed(&mut self) -> Option<bool> {
        let before = self.last;
        let now = self.read();
        (before != Some(now)).then_some(now)
    }

    /// The new reading, once it differed from the last one for [`STEADY_MILLIS`]. A bolt
    /// whose bounces were told would be drawn, thrown and, without a release, drawn
    /// again: an alarm.
    ///
    /// While [`Contact::is_settling`], ask again within a few milliseconds.
    pub fn steady(&mut self, now: Uptime) -> Option<bool> {
        let level = self.level();
        if self.last == Some(level) {
            self.since = None;
            return None;
        }
        let [a, b, c, d, ..] = now.as_millis().to_le_bytes();
        let now = u32::from_le_bytes([a, b, c, d]);
        let since = *self.since.get_or_insert(now);
        if now.wrapping_sub(since) < STEADY_MILLIS.into() {
            return None;
        }
        self.last = Some(level);
        self.since = None;
        Some(level)
    }

    /// Whether it reads otherwise than it did, for too short a time to count.
    #[must_use]
    pub const fn is_settling(&self) -> bool {
        self.since.is_some()
    }

    fn level(&mut self) -> bool {
        let high = match self.active {
            Active::High => self.pin.is_high(),
            Active::Low => self.pin.is_low(),
        };
        high.unwrap_or(true)
    }
}
