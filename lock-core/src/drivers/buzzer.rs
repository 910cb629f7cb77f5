//! Sounds on a pin: a buzzer that sounds while its pin is high.
//!
//! Nothing waits for a sound: [`Buzzer::play`] begins it, [`Buzzer::poll`] goes on
//! with it and says when to call it next. The sound of a duress code is that of any
//! other code (R4): there is no sound that knows of it.

use embedded_hal::digital::OutputPin;

use crate::port::Sound;
use crate::time::Uptime;

/// Milliseconds on, off, on, off … Ours.
#[must_use]
pub const fn pattern(sound: Sound) -> &'static [u16] {
    match sound {
        Sound::Key => &[15],
        Sound::Accepted => &[80],
        Sound::Refused => &[40, 60, 40, 60, 40],
        Sound::Warning => &[80, 120, 250],
    }
}

/// A buzzer. A pin that fails makes no sound, and nothing else fails with it.
pub struct Buzzer<P> {
    pin: P,
    /// What is left of the sound that is being made, and when its next part begins.
    playing: Option<(&'static [u16], Level, Uptime)>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Level {
    On,
    Off,
}

impl<P: OutputPin> Buzzer<P> {
    /// A silent buzzer on `pin`.
    pub const fn new(pin: P) -> Self {
        Self { pin, playing: None }
    }

    /// Begins a sound, in the place of any that is being made.
    pub fn play(&mut self, sound: Sound, now: Uptime) {
        self.playing = Some((pattern(sound), Level::On, now));
        let _ = self.poll(now);
    }

    /// Goes on with the sound; when to call this again, if it is not over.
    pub fn poll(&mut self, now: Uptime) -> Option<Uptime> {
        loop {
            let (left, level, begins) = self.playing?;
            if now < begins {
                return Some(begins);
            }
            let Some((length, rest)) = left.split_first() else {
                self.playing = None;
                let _ = self.pin.set_low();
                return None;
            };
            let (next, set) = match level {
                Level::On => (Level::Off, self.pin.set_high()),
                Level::Off => (Level::On, self.pin.set_low()),
            };
            let _ = set;
            let ends = begins.as_millis().saturating_add(u64::from(*length));
            self.playing = Some((rest, next, Uptime::from_millis(ends)));
        }
    }
}
