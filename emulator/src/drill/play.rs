//! The run of a drill, step by step.

use emulated_board::trace::{Line, What};
use lock_core::port::Write;

use super::{Act, ClockChip, Drill, Failure, Hand, Power, Step};
use crate::world::World;
use lock_core::store::FormatError;

/// A drill under way.
pub struct Play<'d> {
    drill: &'d Drill,
    world: World,
    next: usize,
    trace: Vec<Line>,
    /// Kinds recorded since the last `expect` that named them.
    audit: Vec<String>,
    failures: Vec<Failure>,
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

impl<'d> Play<'d> {
    /// A freshly commissioned lock at the drill's start.
    ///
    /// # Errors
    /// If the site's settings cannot be stored.
    pub fn start(drill: &'d Drill) -> Result<Self, FormatError> {
        let lock = drill.site.lock(&drill.lock).ok_or(FormatError::Layout)?;
        let settings = drill.site.settings(lock, DEMO_KEY);
        let mut world = World::commission(&settings, drill.start)?;
        // The commissioning boot is no part of the story.
        let trace = world.take_trace();
        Ok(Self { drill, world, next: 0, trace, audit: Vec::new(), failures: Vec::new() })
    }

    /// A lock that has been through something already goes on, from the drill's
    /// start.
    #[must_use]
    pub fn go_on(drill: &'d Drill, mut world: World) -> Self {
        world.run_until(u64::from(drill.start.as_secs()) * 1_000);
        let trace = world.take_trace();
        Self { drill, world, next: 0, trace, audit: Vec::new(), failures: Vec::new() }
    }

    /// Gives the world back.
    #[must_use]
    pub fn into_world(self) -> World {
        self.world
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
            self.act(act);
        }
        self.collect();
        if let Some(expect) = &step.expect {
            for (key, expected, seen) in expect.misses(&self.world, &self.audit) {
                let (step, line) = (self.next, step.place.line);
                self.failures.push(Failure { step, line, key, expected, seen });
            }
            if expect.audit.is_some() {
                self.audit.clear();
            }
        }
        Some(step)
    }

    fn act(&mut self, act: &Act) {
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
            Act::Clock(ClockChip::Lost) => world.lose_clock(),
            Act::Clock(ClockChip::Jumps(by)) => world.shift_clock(*by),
        }
    }

    fn collect(&mut self) {
        for line in self.world.take_trace() {
            if let What::Wrote(Write::Record(record), _) = line.what {
                self.audit.push(record.event.kind().to_owned());
            }
            self.trace.push(line);
        }
    }

    /// The world, to look at.
    pub const fn world(&self) -> &World {
        &self.world
    }

    /// The world, to list its audit.
    pub const fn world_mut(&mut self) -> &mut World {
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
        Played { failures: self.failures, trace: self.trace }
    }
}
