//! What a step gives out besides writes: drive, sound and the setting of the clock chip.
//! One of each at most: the last word counts.

use crate::port::{Drive, Effect, Sound};
use crate::time::Utc;

/// The region of what the step gives out.
#[derive(Default)]
pub(super) struct Out {
    drive: Option<Drive>,
    sound: Option<Sound>,
    /// To what the clock chip is to be set in this turn.
    clock: Option<Utc>,
}

impl Out {
    pub(super) const fn drive(&mut self, drive: Drive) {
        self.drive = Some(drive);
    }

    pub(super) const fn sound(&mut self, sound: Sound) {
        self.sound = Some(sound);
    }

    pub(super) const fn is_silent(&self) -> bool {
        self.sound.is_none()
    }

    pub(super) const fn set_clock(&mut self, utc: Utc) {
        self.clock = Some(utc);
    }

    /// To what the clock is being set.
    pub(super) const fn clock(&self) -> Option<Utc> {
        self.clock
    }

    pub(super) fn take_clock(&mut self) -> Option<Effect> {
        self.clock.take().map(Effect::SetClock)
    }

    pub(super) fn take_drive(&mut self) -> Option<Effect> {
        self.drive.take().map(Effect::Drive)
    }

    pub(super) fn take_sound(&mut self) -> Option<Effect> {
        self.sound.take().map(Effect::Sound)
    }
}
