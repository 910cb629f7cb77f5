//! One life of a lock: from a boot to the end of the power, or of the recording.

use embedded_storage::nor_flash::NorFlash;
use lock_core::device::{Device, Progress};
use lock_core::draw::Frame;
use lock_core::link::frame::PAYLOAD;
use lock_core::store::{FlashStore, Layout};

use super::bench::{Around, Bench};
use super::cue::{Cue, Malformed, Start, What, Wired};
use super::did::{Did, Mark, Sink, Teller};
use super::noted::Noted;
use crate::clock::{Clocked, Millis};
use crate::fuse::{Act, Fuse, Power as _};

/// More than any moment takes: a full queue of keys, each a try with its
/// writes and effects.
const MOST_TURNS: u32 = 10_000;

/// Where cues come from.
pub trait Source {
    /// Fills `to` with the next bytes; whether there were that many.
    fn fill(&mut self, to: &mut [u8]) -> bool;
}

/// How a life ended.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Ended {
    /// The power went; another life follows, or none.
    Power,
    /// The recording is over.
    Over,
}

/// Why a life cannot be played as it was recorded.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Wrong {
    /// The recording cannot be read.
    Malformed,
    /// There is no such life in it.
    NoSuchLife,
    /// The power went before it was to go.
    EndedEarly,
    /// The power was to go within a step, and has not.
    OutlivedCut,
    /// The lock never comes to rest.
    Restless,
}

impl From<Malformed> for Wrong {
    fn from(Malformed: Malformed) -> Self {
        Self::Malformed
    }
}

/// Reads cues up to the beginning of life number `life`, from 0.
///
/// # Errors
/// [`Wrong::Malformed`] and [`Wrong::NoSuchLife`].
pub fn seek(told: &mut impl Source, life: u32) -> Result<(Millis, Start), Wrong> {
    let mut room = [0; PAYLOAD];
    let mut left = life;
    loop {
        let cue = Cue::read(&mut |to| told.fill(to), &mut room)?;
        match (cue.what, left) {
            (What::PowerOn(start), 0) => return Ok((cue.at, start)),
            (What::PowerOn(_), _) => left = left.saturating_sub(1),
            (What::End, _) => return Err(Wrong::NoSuchLife),
            _ => {}
        }
    }
}

/// Plays the life that began with `start`: a lock boots on `flash` and is told
/// what follows in `told`; what it does goes to `teller`.
///
/// The power is `power`, new and on; a flash that can be torn hangs on it too.
/// Pictures are drawn in `frame`; without one nothing is drawn, and every screen is
/// told as 0.
///
/// # Errors
/// [`Wrong`] if the life does not end where it is recorded to end.
// Not inlined: its stack is what is measured.
#[inline(never)]
pub fn life<F: NorFlash, K: Sink>(
    (at, start): (Millis, &Start),
    told: &mut impl Source,
    (flash, layout): (F, Layout),
    power: &Fuse,
    teller: &Teller<K>,
    frame: Option<&mut Frame>,
) -> Result<Ended, Wrong> {
    if let Some(cut) = start.cut {
        power.arm(cut);
    }
    let clock = Clocked { now: at, booted: at, ahead: start.ahead };
    let around = Around::new(start, clock);
    let noted = Noted { flash, power, clock: &around.clock, teller };
    teller.tell(clock.reading().uptime, Did::PowerOn);
    let bench = Bench::new(&around, power, teller, frame);
    let mut life = Life {
        lock: Device::without_power(bench, || FlashStore::at_rest(noted, layout)),
        lives: true,
        around: &around,
        power,
        teller,
        rest: Rest::Stirred,
    };
    life.boot();
    life.settle()?;
    let mut room = [0; PAYLOAD];
    loop {
        let cue = Cue::read(&mut |to| told.fill(to), &mut room)?;
        life.run_until(cue.at)?;
        match (cue.what, life.lives) {
            (What::Gone, false) => return Ok(Ended::Power),
            (What::Gone, true) => return Err(Wrong::OutlivedCut),
            (_, false) => return Err(Wrong::EndedEarly),
            (What::PowerOn(_), true) => return Err(Wrong::Malformed),
            (What::End, true) => return Ok(Ended::Over),
            (What::Pulled, true) => {
                life.tell(Did::PowerGone);
                return Ok(Ended::Power);
            }
            (what, true) => life.take(what)?,
        }
    }
}

/// Whether the lock has done anything since it last came to rest.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Rest {
    Still,
    Stirred,
}

type Lock<'a, F, K> = Device<Bench<'a, K>, FlashStore<Noted<'a, F, K>>>;

/// A lock and what is round it.
struct Life<'a, F, K> {
    lock: Lock<'a, F, K>,
    lives: bool,
    around: &'a Around,
    power: &'a Fuse,
    teller: &'a Teller<K>,
    rest: Rest,
}

impl<F: NorFlash, K: Sink> Life<'_, F, K> {
    fn tell(&self, did: Did<'_>) {
        self.teller.tell(self.around.clock.get().reading().uptime, did);
    }

    fn time(&self, change: impl FnOnce(&mut Clocked)) {
        let mut clock = self.around.clock.get();
        change(&mut clock);
        self.around.clock.set(clock);
    }

    #[inline(never)]
    fn boot(&mut self) {
        let found = self.lock.store_mut().remount();
        if self.survives() {
            self.lock.boot(found);
        }
    }

    /// Whether the lock still has power; if not, nobody asks it anything again.
    fn survives(&mut self) -> bool {
        if self.lives && !self.power.is_on() {
            self.tell(Did::PowerGone);
            self.lives = false;
        }
        self.lives
    }

    /// Lets the lock do all it has to do at this moment; its next wake-up.
    fn settle(&mut self) -> Result<Option<Millis>, Wrong> {
        for _ in 0..MOST_TURNS {
            if !self.lives {
                return Ok(None);
            }
            if let Progress::Asleep(wake) = self.lock.advance() {
                if self.rest == Rest::Stirred {
                    self.tell(Did::Asleep(wake));
                }
                self.rest = Rest::Still;
                return Ok(wake.map(|wake| self.around.clock.get().when(wake)));
            }
            self.rest = Rest::Stirred;
            self.survives();
        }
        Err(Wrong::Restless)
    }

    /// Time passes until `moment`; the lock wakes whenever it asked to.
    fn run_until(&mut self, moment: Millis) -> Result<(), Wrong> {
        while let Some(wake) = self.settle()?
            && wake <= moment
        {
            self.time(|clock| clock.jump_to(wake));
        }
        self.time(|clock| clock.jump_to(moment));
        self.settle()?;
        Ok(())
    }

    /// The lock is told something, and does all it has to do about it.
    fn take(&mut self, what: What<'_>) -> Result<(), Wrong> {
        self.teller.sink().mark(Mark::Told);
        match what {
            What::Key(key) => {
                // A full queue loses a key, as the real one does.
                let _ = self.around.keys.push(key);
            }
            What::Wire(which, up) => {
                let wires = Wired::ALL.iter().zip(&self.around.wires);
                for (_, wire) in wires.filter(|(other, _)| **other == which) {
                    wire.set(up);
                }
            }
            What::Supply(measured) => self.around.measured.set(Some(measured)),
            What::Clock(by) => {
                let reaches = self.power.step(Act::Effect).reaches_the_world();
                if reaches {
                    self.time(|clock| match by {
                        Some(by) => clock.shift(by),
                        None => clock.lose(),
                    });
                }
                if self.survives() {
                    self.lock.nudge();
                }
                self.rest = Rest::Stirred;
            }
            What::Link(payload) => self.serve(payload),
            What::PowerOn(_) | What::Rest | What::Pulled | What::Gone | What::End => {}
        }
        self.settle()?;
        Ok(())
    }

    fn serve(&mut self, payload: &[u8]) {
        if !self.lives {
            return;
        }
        let reply = self.lock.serve(payload);
        let reply = reply.map(heapless::Vec::<u8, PAYLOAD>::from_slice).and_then(Result::ok);
        if self.survives() {
            self.tell(Did::Reply(reply.as_deref()));
            self.rest = Rest::Stirred;
        }
    }
}
