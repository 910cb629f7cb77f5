//! The run of a drill, step by step.

use std::sync::Arc;

use emulated_board::trace::Line;
use lock_core::holder::Number;
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::policy::Policy;
use lock_core::settings::Settings;
use lock_core::store::FormatError;
use lock_core::timetable::Calendar;

use super::laptop::Laptop;
use super::listed::Listed;
use super::{Act, Check, ClockChip, Drill, Failure, Fall, Fresh, Hand, Power, Step};
use crate::memory::{self, Flash, Lasting, Memory, Room};
use crate::world::{
    Ambush, Awaited, Bench, Fitted, Mains, Order, Recording, SimulatedClock, World,
};

/// A drill under way.
pub struct Play<'d, M: Lasting = Memory, B = Bench> {
    drill: &'d Drill,
    world: World<M, B>,
    next: usize,
    pub(super) trace: Vec<Line>,
    /// The records that were there at the last `expect` that named them, and those that
    /// were there at the start.
    pub(super) listed: Listed,
    before: Listed,
    /// What came of the last thing that went over the link.
    link: String,
    laptop: Laptop,
    failures: Vec<Failure>,
    /// What the last step expected, and what was seen.
    checked: Vec<Check>,
}

/// What came of a drill.
pub struct Played {
    /// All that was not as expected.
    pub failures: Vec<Failure>,
    /// Everything the lock was told and did.
    pub trace: Vec<Line>,
    /// The kinds of the records that are durable at the end, but for those from before
    /// the drill.
    pub audit: Vec<&'static str>,
}

/// The key under which emulated locks keep their digests. Of no use anywhere
/// else: a real lock draws its own.
const DEMO_KEY: [u8; 32] = *b"emulated locks only: no real key";

/// The pairing key of emulated locks. Of no use anywhere else.
const DEMO_PAIRING: [u8; 32] = *b"emulated pairing: no real key!!!";

/// The pairing key that the emulated lock of that number has. Of no use anywhere else.
#[must_use]
pub const fn demo_pairing(lock: LockNumber) -> Pairing {
    Pairing::new(lock, 1, DEMO_PAIRING)
}

impl Drill {
    /// The settings of its lock, under the key of emulated locks.
    ///
    /// # Errors
    /// If the site has no such lock.
    pub fn settings(&self) -> Result<Settings, FormatError> {
        let lock = self.site.lock(&self.lock).ok_or(FormatError::Layout)?;
        let mut settings = self.site.settings(lock, DEMO_KEY);
        settings.pairing = self.pairing();
        if self.fresh != Fresh::No {
            settings.policy = Policy::DEFAULT;
            settings.holders = [const { None }; Number::COUNT];
            settings.calendar = Calendar::default();
            settings.pairing = None;
        }
        Ok(settings)
    }

    /// The flash of its lock before the first boot.
    ///
    /// # Errors
    /// [`FormatError`] if its settings cannot be stored.
    pub fn flash<const W: usize, const P: usize>(
        &self,
        room: Room,
    ) -> Result<Flash<W, P>, FormatError> {
        match self.fresh {
            Fresh::Erased => memory::erased(room, Mains::new()),
            Fresh::No | Fresh::Factory => memory::commission(&self.settings()?, room, Mains::new()),
        }
    }

    /// The pairing key of its lock: its own, or that of the demonstration, which is
    /// of no use anywhere else.
    #[must_use]
    pub fn pairing(&self) -> Option<Pairing> {
        if let Some(own) = &self.paired {
            return Some(Pairing::new(own.lock(), own.generation(), *own.key()));
        }
        let number = self.site.lock(&self.lock)?.number;
        let number = LockNumber::new(u16::try_from(number).ok()?)?;
        Some(demo_pairing(number))
    }
}

impl<'d> Play<'d> {
    /// A freshly commissioned lock at the drill's start.
    ///
    /// # Errors
    /// If the site's settings cannot be stored.
    pub fn start(drill: &'d Drill) -> Result<Self, FormatError> {
        let clock = SimulatedClock::starting(drill.start);
        let mut world = World::around(drill.flash(Room::Full)?, clock);
        world.restore_power();
        // The commissioning boot is no part of the story.
        Ok(Self::at(drill, world, 0))
    }

    /// The same, recorded from the very first boot on.
    ///
    /// # Errors
    /// If the site's settings cannot be stored.
    pub fn recorded(drill: &'d Drill) -> Result<Self, FormatError> {
        let clock = SimulatedClock::starting(drill.start);
        let mut world = World::around(drill.flash(Room::Full)?, clock);
        world.begin_recording();
        world.restore_power();
        Ok(Self::at(drill, world, 0))
    }

    /// Plays what is left; the recording, if there is one.
    #[must_use]
    pub fn finish_recorded(mut self) -> (Played, Option<Recording>) {
        while self.step().is_some() {}
        self.missed_cut();
        let recording = self.world.end_recording();
        (self.played_out(), recording)
    }

    /// A lock that has been through something already goes on, from the drill's
    /// start.
    #[must_use]
    pub fn go_on(drill: &'d Drill, mut world: World) -> Self {
        world.run_until(u64::from(drill.start.as_secs()) * 1_000);
        Self::at(drill, world, 0)
    }
}

impl<'d, M: Lasting, B: Fitted> Play<'d, M, B> {
    /// A lock goes on with the step that has that many before it.
    #[must_use]
    pub fn at(drill: &'d Drill, mut world: World<M, B>, next: usize) -> Self {
        world.watch();
        let (trace, failures, checked) = (world.take_trace(), Vec::new(), Vec::new());
        let steps = drill.steps.get(..next).unwrap_or_default();
        let laptop = Laptop::after(steps, drill.pairing().as_ref());
        let (listed, before) = (Listed::now(&mut world), Listed::now(&mut world));
        let link = String::new();
        Self { drill, world, next, trace, listed, before, link, laptop, failures, checked }
    }

    /// Gives the world back.
    #[must_use]
    pub fn into_world(self) -> World<M, B> {
        self.world
    }

    /// How many steps were played.
    #[must_use]
    pub const fn played(&self) -> usize {
        self.next
    }

    /// The drill that is played.
    #[must_use]
    pub const fn drill(&self) -> &'d Drill {
        self.drill
    }

    /// Plays the next step; `None` when there is none left, or the lock does not come to
    /// rest any more.
    pub fn step(&mut self) -> Option<&'d Step> {
        let step = self.act_next()?;
        self.checked.clear();
        if let Some(restless) = self.world.restless() {
            let (expected, seen) = (restless.expected(), restless.seen().to_owned());
            self.checked.push(Check { key: "rest", expected, seen, met: false });
        }
        if let Some(expect) = &step.expect {
            let audit = expect.audit.as_ref().map(|_| {
                let (kinds, listed) = self.listed.since(&mut self.world);
                self.listed = listed;
                kinds
            });
            let audit = audit.unwrap_or_default();
            self.checked.extend(expect.checks(&self.world, (&audit, &self.link)));
        }
        for Check { key, expected, seen, .. } in self.checked.iter().filter(|c| !c.met) {
            let (step, line) = (self.next, step.place.line);
            let (expected, seen) = (expected.clone(), seen.clone());
            self.failures.push(Failure { step, line, key, expected, seen });
        }
        Some(step)
    }

    /// Does what the next step does, whatever it expects.
    pub fn act_next(&mut self) -> Option<&'d Step> {
        if self.world.restless().is_some() {
            return None;
        }
        let step = self.drill.steps.get(self.next)?;
        self.next += 1;
        if let Some(act) = &step.act {
            // A cut that is ordered without power falls within the boot to come.
            let boots = matches!(act, Act::Power(Power::Restore)) && !self.world.has_power();
            if matches!(act, Act::Power(_) | Act::Cut(..)) && !boots {
                self.missed_cut();
            }
            self.act(act);
        }
        self.collect();
        Some(step)
    }

    /// Does something that is not in the script.
    pub fn perform(&mut self, act: &Act) {
        self.act(act);
        self.collect();
    }

    /// What the last step expected, and what was seen of it.
    #[must_use]
    pub fn checked(&self) -> &[Check] {
        &self.checked
    }

    /// Notes what came of something that went over the link.
    pub fn carried(&mut self, link: String) {
        self.link = link;
        self.collect();
    }

    /// What came of the last thing that went over the link.
    #[must_use]
    pub fn link(&self) -> &str {
        &self.link
    }

    /// The extracts that were collected onto the stick, by name.
    #[must_use]
    pub fn extracts(&self) -> &[(String, Vec<u8>)] {
        self.laptop.extracts()
    }

    /// How many lines it has been told and done so far.
    #[must_use]
    pub fn trace_length(&self) -> usize {
        self.trace.len()
    }

    /// Forgets what the lock was told and did so far: a lock that is played with
    /// for hours would fill the memory.
    pub fn forget_trace(&mut self) {
        self.trace.clear();
    }

    /// A cut that was ordered and has not come: a drill that shows less than it
    /// says has failed.
    fn missed_cut(&mut self) {
        if self.world.cut_is_due() {
            let last = self.drill.steps.get(self.next.saturating_sub(1));
            let line = last.map_or(1, |step| step.place.line);
            let (expected, seen) = ("the power to end before this", "it has not");
            let (expected, seen) = (expected.to_owned(), seen.to_owned());
            self.failures.push(Failure { step: self.next, line, key: "cut", expected, seen });
        }
    }

    fn order(&mut self, (fall, cut): (Fall, emulated_board::fuse::Cut)) {
        let awaited = match fall {
            Fall::Step => return self.world.order(Order::Cut(cut)),
            Fall::Drive => Awaited::Drive,
            Fall::Record => {
                let (from, to) = self.world.flash().map_or((0, 0), M::rings);
                Awaited::Flash { from, to }
            }
        };
        self.world.order(Order::Ambush(Ambush { at: awaited, cut }));
    }

    fn act(&mut self, act: &Act) {
        if let Act::Cut(fall, cut) = act {
            return self.order((*fall, *cut));
        }
        let world = &mut self.world;
        match act {
            Act::Keys(keys, pace) => {
                for (place, key) in keys.iter().enumerate() {
                    if place > 0 && *pace > 0 {
                        world.run_until(world.now() + u64::from(*pace) * 1_000);
                    }
                    world.press(*key);
                }
            }
            Act::Wait(seconds) => world.run_until(world.now() + u64::from(*seconds) * 1_000),
            Act::Until(moment) => world.run_until(u64::from(moment.as_secs()) * 1_000),
            // A blocked bolt stays where it is; `expect` sees it.
            Act::Bolt(Hand::Turn(to)) => drop(world.move_bolt(*to)),
            Act::Bolt(Hand::Force) => world.force_bolt(),
            Act::Door(to) => world.move_door(*to),
            Act::Power(Power::Cut) => world.cut_power(),
            Act::Power(Power::Restore) => world.restore_power(),
            Act::Supply(to) => world.supply(*to),
            Act::Inhibit(to) => world.inhibit(*to),
            Act::Switch(to) => world.switch(*to),
            Act::Clock(ClockChip::Lost) => world.lose_clock(),
            Act::Clock(ClockChip::Jumps(by)) => world.shift_clock(*by),
            Act::Courier(code) => {
                let pairing = self.drill.pairing();
                for key in self.laptop.code(pairing.as_ref(), *code) {
                    world.press(key);
                }
            }
            Act::Stick(_, stick) => self.laptop.plug(Arc::clone(stick)),
            Act::LoadNewest => {
                self.link = match self.drill.pairing() {
                    Some(pairing) => self.laptop.load_newest(world, &pairing),
                    None => "no key".to_owned(),
                };
            }
            Act::Load(site) => {
                self.link = match self.drill.pairing() {
                    Some(pairing) => self.laptop.load(world, site, &pairing),
                    None => "no key".to_owned(),
                };
            }
            Act::Collect(scope, since) => {
                self.link = match self.drill.pairing() {
                    Some(pairing) => self.laptop.collect(world, *scope, *since, &pairing),
                    None => "no key".to_owned(),
                };
            }
            Act::Cut(..) => {}
        }
    }

    fn collect(&mut self) {
        self.trace.append(&mut self.world.take_trace());
    }

    /// The world, to look at.
    pub const fn world(&self) -> &World<M, B> {
        &self.world
    }

    /// The world, to list its audit.
    pub const fn world_mut(&mut self) -> &mut World<M, B> {
        &mut self.world
    }

    /// What was not as expected so far.
    pub fn failures(&self) -> &[Failure] {
        &self.failures
    }

    /// Plays what is left.
    #[must_use]
    pub fn finish(mut self) -> Played {
        while self.step().is_some() {}
        self.missed_cut();
        self.played_out()
    }

    fn played_out(mut self) -> Played {
        let (audit, _) = self.before.since(&mut self.world);
        Played { failures: self.failures, trace: self.trace, audit }
    }
}
