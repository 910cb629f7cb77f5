//! What the lock was told and what it did, to be played again on any board: see
//! `emulated_board::conformance`.

use emulated_board::conformance::{CUE, Cue, Did, Sink, Start, Teller, What as Cued};
use emulated_board::flash::Chip;
use emulated_board::fuse::Cut;
use lock_core::port::{Bolt, Door, Effect, Inhibit, Switch};

use super::{Deed, Fitted, Millis, Power, World};
use crate::memory::{Cells, Lasting};

/// A recording: what its four files hold.
#[derive(Clone, PartialEq, Eq)]
pub struct Recording {
    /// The flash before the first boot.
    pub flash: Vec<u8>,
    /// What the lock was told.
    pub told: Vec<u8>,
    /// What it did.
    pub did: Vec<u8>,
    /// The flash at the end.
    pub end: Vec<u8>,
}

/// A recording under way.
pub(super) struct Recorder {
    flash: Vec<u8>,
    told: Vec<u8>,
    did: Teller<Bytes>,
    /// Where the cue of the life's boot begins.
    life: usize,
}

/// Everything, one behind the other.
#[derive(Default)]
struct Bytes(std::cell::RefCell<Vec<u8>>);

impl Sink for Bytes {
    fn take(&self, item: &[u8]) {
        self.0.borrow_mut().extend_from_slice(item);
    }
}

impl Recording {
    /// The flash of an image: before the first boot, or at the end. `None` if
    /// the image is not of a flash of that many bytes.
    #[must_use]
    pub fn cells(image: &[u8], capacity: usize) -> Option<Cells> {
        let (content, rest) = image.split_at_checked(capacity)?;
        let chip = Chip::with_content(content.to_vec());
        if rest.is_empty() {
            return Some(chip);
        }
        let (mask, state) = rest.split_at_checked(capacity)?;
        chip.with_weak(mask.to_vec(), state.try_into().ok()?)
    }

    /// The image of a flash.
    #[must_use]
    pub fn image(chip: &Cells) -> Vec<u8> {
        let mut bytes = chip.content().to_vec();
        if let (Some(mask), Some(state)) = (chip.weak_mask(), chip.weak_state()) {
            bytes.extend_from_slice(mask);
            bytes.extend_from_slice(&state);
        }
        bytes
    }
}

impl World {
    /// What happens from now on is recorded. Only a lock without power can be:
    /// whoever plays it begins with a boot.
    pub fn begin_recording(&mut self) {
        if let Power::Off(flash) = &self.power {
            self.mains.write_down();
            self.recorder = Some(Recorder {
                flash: Recording::image(flash.chip()),
                told: Vec::new(),
                did: Teller::new(Bytes::default()),
                life: 0,
            });
        }
    }

    /// Ends the recording; `None` if none was begun.
    pub fn end_recording(&mut self) -> Option<Recording> {
        self.cue(self.clock.now(), Cued::End);
        let Recorder { flash, told, did, .. } = self.recorder.take()?;
        let end = self.flash().map(|flash| Recording::image(flash.chip()))?;
        Some(Recording { flash, told, did: did.into_sink().0.into_inner(), end })
    }
}

impl<M: Lasting, B: Fitted> World<M, B> {
    fn cue(&mut self, at: Millis, what: Cued<'_>) {
        if let Some(recorder) = &mut self.recorder {
            recorder.told.extend_from_slice(Cue { at, what }.encode(&mut [0; CUE]));
        }
    }

    /// The lock is told something. Without power nobody hears it.
    pub(super) fn record(&mut self, what: Cued<'_>) {
        if self.has_power() {
            self.cue(self.clock.now(), what);
        }
    }

    /// Time passes.
    pub(super) fn record_until(&mut self, moment: Millis) {
        if self.has_power() {
            self.cue(moment, Cued::Rest);
        }
    }

    /// The lock did something.
    pub(super) fn record_did(&self, did: Did<'_>) {
        if let Some(recorder) = &self.recorder {
            recorder.did.tell(self.clock.reading().uptime, did);
        }
    }

    /// Power comes.
    pub(super) fn record_boot(&mut self) {
        let Some(recorder) = &mut self.recorder else { return };
        recorder.life = recorder.told.len();
        let scene = self.around.scene();
        let start = Start {
            ahead: scene.clock.ahead,
            wires: [
                scene.bolt == Bolt::Drawn,
                scene.door == Door::Open,
                scene.inhibit == Inhibit::Set,
                scene.switch == Switch::On,
            ],
            supply: scene.supply,
            seed: self.around.generated(),
            cut: None,
        };
        self.cue(self.clock.now(), Cued::PowerOn(start));
        self.record_did(Did::PowerOn);
    }

    /// The steps that were begun since the last call.
    pub(super) fn record_deeds(&mut self) {
        if self.recorder.is_none() {
            return;
        }
        for (deed, step) in self.mains.take_deeds() {
            match &deed {
                Deed::Program { address, word } => {
                    self.record_did(Did::Program { address: *address, word });
                }
                Deed::Erase { page } => self.record_did(Did::Erase { page: *page }),
                Deed::Effect(effect) if step.reaches_the_world() => {
                    self.record_did(match effect {
                        Effect::Show(screen) => Did::screen(screen),
                        effect => Did::Effect(*effect),
                    });
                }
                Deed::Effect(_) | Deed::Clock => {}
            }
        }
    }

    /// The power has gone. If it went within a step, the boot's cue gets to know
    /// of which.
    pub(super) fn record_end(&mut self) {
        self.record_did(Did::PowerGone);
        let steps = self.mains.steps().saturating_sub(self.booted);
        let torn = self.mains.take_torn();
        let now = self.clock.now();
        let Some(recorder) = &mut self.recorder else { return };
        if let (Some((class, seed)), Some(after)) = (torn, steps.checked_sub(1)) {
            let place = recorder.life + Cue::CUT.start..recorder.life + Cue::CUT.end;
            if let Some(cut) = recorder.told.get_mut(place) {
                cut.copy_from_slice(&Cue::cut(Some(Cut { after, class, seed })));
            }
            self.cue(now, Cued::Gone);
        }
    }
}
