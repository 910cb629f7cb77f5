//! The run of a drill, step by step.

use std::sync::Arc;

use emulated_board::trace::{Durable, Line, What};
use lock_core::audit::Record;
use lock_core::holder::Number;
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::policy::Policy;
use lock_core::port::Write;
use lock_core::settings::Settings;
use lock_core::store::FormatError;
use lock_core::timetable::Calendar;

use super::laptop::Laptop;
use super::{Act, Check, ClockChip, Drill, Failure, Fall, Hand, Power, Step};
use crate::memory::{self, Entry, Lasting, Memory, Room};
use crate::world::{
    Ambush, Awaited, Bench, Fitted, Mains, Order, Recording, SimulatedClock, World,
};

/// A drill under way.
pub struct Play<'d, M: Lasting = Memory, B = Bench> {
    drill: &'d Drill,
    world: World<M, B>,
    next: usize,
    trace: Vec<Line>,
    /// Kinds recorded since the last `expect` that named them.
    audit: Vec<String>,
    /// The record within which the power went, until a boot tells whether it
    /// is there.
    torn: Option<(Record, usize)>,
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
        if self.fresh {
            settings.policy = Policy::DEFAULT;
            settings.holders = [const { None }; Number::COUNT];
            settings.calendar = Calendar::default();
            settings.pairing = None;
        }
        Ok(settings)
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
        let world = World::commission(&drill.settings()?, drill.start)?;
        // The commissioning boot is no part of the story.
        Ok(Self::at(drill, world, 0))
    }

    /// The same, recorded from the very first boot on.
    ///
    /// # Errors
    /// If the site's settings cannot be stored.
    pub fn recorded(drill: &'d Drill) -> Result<Self, FormatError> {
        let flash = memory::commission(&drill.settings()?, Room::Full, Mains::new())?;
        let mut world = World::around(flash, SimulatedClock::starting(drill.start));
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
        (Played { failures: self.failures, trace: self.trace }, recording)
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
        let trace = world.take_trace();
        let (audit, torn, failures) = (Vec::new(), None, Vec::new());
        let before = drill.steps.get(..next).unwrap_or_default();
        let (link, laptop) = (String::new(), Laptop::after(before));
        let checked = Vec::new();
        Self { drill, world, next, trace, audit, torn, link, laptop, failures, checked }
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

    /// Plays the next step; `None` when there is none left.
    pub fn step(&mut self) -> Option<&'d Step> {
        let step = self.drill.steps.get(self.next)?;
        self.next += 1;
        if let Some(act) = &step.act {
            if matches!(act, Act::Power(_) | Act::Cut(..)) {
                self.missed_cut();
            }
            self.act(act);
        }
        self.collect();
        self.checked.clear();
        if let Some(expect) = &step.expect {
            self.checked = expect.checks(&self.world, (&self.audit, &self.link));
            for Check { key, expected, seen, .. } in self.checked.iter().filter(|c| !c.met) {
                let (step, line) = (self.next, step.place.line);
                let (expected, seen) = (expected.clone(), seen.clone());
                self.failures.push(Failure { step, line, key, expected, seen });
            }
            if expect.audit.is_some() {
                self.audit.clear();
                self.torn = self.torn.map(|(record, _)| (record, 0));
            }
        }
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
            Act::Courier(number) => {
                let pairing = self.drill.pairing();
                for key in self.laptop.code(pairing.as_ref(), *number) {
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
        for line in self.world.take_trace() {
            match line.what {
                What::Wrote(
                    Write::Record(record) | Write::Edit(record),
                    Durable::Yes | Durable::No,
                ) => {
                    self.audit.push(record.event.kind().to_owned());
                }
                What::Wrote(Write::Record(record) | Write::Edit(record), Durable::Unknown) => {
                    self.torn = Some((record, self.audit.len()));
                }
                What::Wrote(Write::Tally(_), _)
                | What::Told(_)
                | What::Did(_)
                | What::Tended(_)
                | What::PowerOn
                | What::PowerCut => {}
            }
            self.trace.push(line);
        }
        if self.world.has_power() {
            self.resolve();
        }
    }

    /// Whether the record within which the power went is in the audit: it is if
    /// the audit lists one more like it than were written.
    fn resolve(&mut self) {
        let Some((torn, place)) = self.torn.take() else { return };
        let is_it = |line: &&Line| {
            matches!(
                line.what,
                What::Wrote(Write::Record(r) | Write::Edit(r), Durable::Yes) if r == torn
            )
        };
        let written = self.trace.iter().filter(is_it).count();
        let list = self.world.flash().map(|flash| M::look(flash).list).unwrap_or_default();
        let alike = |entry: &&Entry| matches!(entry, Entry::Record(_, record) if *record == torn);
        if list.iter().filter(alike).count() > written {
            let place = place.min(self.audit.len());
            self.audit.insert(place, torn.event.kind().to_owned());
        }
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
        Played { failures: self.failures, trace: self.trace }
    }
}
