//! What comes after a blow: boots, each of which may be cut itself.

use emulated_board::trace::What;

use super::blow::{Wreck, any_wreck, wrecks};
use super::coverage::count;
use super::judge::Violation;
use super::rehearsal::State;
use crate::memory::{Flash, Lasting};
use crate::rig::{Covered, Dice};
use crate::world::{Fitted, Happening, Keeping, Mains, World};

/// Boots after a cut: an unstable cell can pass one look.
const BOOTS: usize = 3;

/// How cuts follow one another.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Cuts {
    /// One.
    One,
    /// A second one at every step of the first boot after it.
    Two,
    /// And at some step of the boot after that a third one.
    Three,
}

/// What is judged, and with what.
pub struct Recovery<'r> {
    /// After how many writes somebody must look.
    pub look_after: u32,
    /// Seeds for each class of a second cut.
    pub seeds: u64,
    /// What was done is counted here.
    pub covered: &'r mut Covered,
}

/// A violation, and the way that led to it, the last cut last.
pub struct Found {
    /// What was violated.
    pub violation: Violation,
    /// What was done, in words.
    pub way: Vec<String>,
}

impl Found {
    pub(super) fn new(violation: Violation) -> Self {
        Self { violation, way: Vec::new() }
    }

    /// Says what was done before.
    pub(super) fn after(mut self, what: String) -> Self {
        self.way.insert(0, what);
        self
    }
}

impl From<Violation> for Found {
    fn from(violation: Violation) -> Self {
        Self::new(violation)
    }
}

impl Recovery<'_> {
    /// Boots a fresh lock on the wreck, three times, and judges it.
    ///
    /// # Errors
    /// What was violated.
    pub fn boots<M, B, const W: usize, const P: usize>(
        &mut self,
        wreck: &Wreck<W, P>,
    ) -> Result<(), Found>
    where
        M: Lasting<Flash = Flash<W, P>>,
        B: Fitted,
    {
        let (mut world, mut judge) = (self.world::<M, B, W, P>(wreck), wreck.state.judge.clone());
        world.keep(Keeping::Happenings, self.look_after);
        self.covered.add("images booted", 1);
        for boot in 1..=BOOTS {
            world.restore_power();
            let mut seen = world.take_journal();
            world.cut_power();
            seen.append(&mut world.take_journal());
            for happening in &seen {
                count(happening, self.covered);
                judge.see(happening).map_err(|violation| {
                    let mut found = Found::new(violation);
                    found.way.extend(seen.iter().filter_map(told));
                    found.after(format!("boot {boot}"))
                })?;
            }
        }
        Ok(())
    }

    /// The same with a second cut at every step of the first boot, and a third
    /// one at some step of the boot after that.
    ///
    /// # Errors
    /// What was violated.
    pub fn cut_again<M, B, const W: usize, const P: usize>(
        &mut self,
        wreck: &Wreck<W, P>,
        cuts: Cuts,
        dice: &mut Dice,
    ) -> Result<(), Found>
    where
        M: Lasting<Flash = Flash<W, P>>,
        B: Fitted,
    {
        if cuts == Cuts::One {
            return Ok(());
        }
        let mut world = self.world::<M, B, W, P>(wreck);
        world.keep(Keeping::Steps, self.look_after);
        world.restore_power();
        let journal = world.take_journal();
        let mut state = State { place: 0, ..wreck.state.clone() };
        for place in 0..journal.len() {
            let Some(Happening::Step { deed, .. }) = journal.get(place) else { continue };
            state.roll(&journal, place)?;
            let seeds = (0..self.seeds).map(|_| dice.roll()).collect::<Vec<_>>();
            for again in wrecks(&state, &journal, seeds.iter().copied())? {
                self.covered.add("second cuts", 1);
                let say = || {
                    format!("cut again within step {place} of the boot, {deed:?}: {}", again.how)
                };
                self.boots::<M, B, W, P>(&again).map_err(|found| found.after(say()))?;
                if cuts == Cuts::Three {
                    self.cut_somewhere::<M, B, W, P>(&again, dice)
                        .map_err(|found| found.after(say()))?;
                }
            }
        }
        Ok(())
    }

    /// A cut at some step of the boot.
    fn cut_somewhere<M, B, const W: usize, const P: usize>(
        &mut self,
        wreck: &Wreck<W, P>,
        dice: &mut Dice,
    ) -> Result<(), Found>
    where
        M: Lasting<Flash = Flash<W, P>>,
        B: Fitted,
    {
        let mut world = self.world::<M, B, W, P>(wreck);
        world.keep(Keeping::Steps, self.look_after);
        world.restore_power();
        let journal = world.take_journal();
        let steps: Vec<usize> = (0..journal.len())
            .filter(|place| matches!(journal.get(*place), Some(Happening::Step { .. })))
            .collect();
        let Some(place) = dice.pick(&steps) else { return Ok(()) };
        let mut state = State { place: 0, ..wreck.state.clone() };
        state.roll(&journal, *place)?;
        if let Some(again) = any_wreck(&state, &journal, dice)? {
            self.covered.add("third cuts", 1);
            let say = || format!("cut within step {place} of the boot after that: {}", again.how);
            self.boots::<M, B, W, P>(&again).map_err(|found| found.after(say()))?;
        }
        Ok(())
    }

    /// The world round a wreck.
    pub(super) fn world<M, B, const W: usize, const P: usize>(
        &self,
        wreck: &Wreck<W, P>,
    ) -> World<M, B>
    where
        M: Lasting<Flash = Flash<W, P>>,
        B: Fitted,
    {
        World::staged(Flash::new(wreck.state.cells.clone(), Mains::new()), &wreck.scene)
    }
}

/// A happening in words, for the way to a violation.
pub(super) fn told(happening: &Happening) -> Option<String> {
    match happening {
        Happening::Line(line) => {
            let seconds = line.uptime.as_millis() / 1_000;
            Some(match &line.what {
                What::Told(told) => format!("{seconds} s: told {told:?}"),
                What::Did(effect) => format!("{seconds} s: did {effect:?}"),
                What::Wrote(write, durable) => format!("{seconds} s: wrote {write:?}: {durable:?}"),
                What::Tended(durable) => format!("{seconds} s: tended: {durable:?}"),
                what @ (What::PowerOn | What::PowerCut) => format!("{seconds} s: {what:?}"),
            })
        }
        Happening::Boot(look, steps) => {
            Some(format!("in {steps} steps the boot found {}", listed(look)))
        }
        Happening::Look(look) => Some(format!("a look found {}", listed(look))),
        Happening::Edited { record, durable, .. } => {
            Some(format!("changed the settings, {}: {durable:?}", record.event.kind()))
        }
        Happening::Rest { steps } => Some(format!("rested after {steps} steps")),
        Happening::Spoilt(spoilt) => Some(format!("the flash was spoilt: {spoilt:?}")),
        Happening::Restless(restless) => Some(restless.to_string()),
        Happening::Step { .. } => None,
    }
}

/// The newest entries of a list, in words.
fn listed(look: &crate::memory::Look) -> String {
    use crate::memory::Entry;
    let newest = look.list.iter().rev().take(6).rev().map(|entry| match entry {
        Entry::Record(number, record) => format!("{number} {}", record.event.kind()),
        Entry::Gap { from, to, lost } => format!("{from} to {to}: {lost} lost"),
    });
    let settings = if look.settings.is_ok() { "settings" } else { "no settings" };
    format!("{settings}, records: {}", newest.collect::<Vec<_>>().join(", "))
}
