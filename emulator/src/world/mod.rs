//! The world round one lock: simulated time, hands, wires, power.
//!
//! Nothing ticks. The world jumps to the lock's next wake-up or to the next
//! thing a hand does, whichever comes first.

mod bench;
mod clock;
mod wire;

pub use bench::{Bench, Heard};
pub use clock::{Millis, SimulatedClock};
pub use wire::Wire;

use emulated_board::trace::{Durable, Line, Told, What};
use lock_core::device::{Device, Progress};
use lock_core::keys::Key;
use lock_core::lock::access::Access;
use lock_core::policy::Millivolts;
use lock_core::port::{Alarm, Bolt, Door, Inhibit};
use lock_core::screen::Screen;
use lock_core::time::Utc;

use lock_core::store::FormatError;

use crate::memory::{self, Memory};

/// More than any moment takes: a full queue of keys, each a try with its
/// writes and effects.
const MOST_TURNS: u32 = 10_000;

/// One lock and what is round it.
pub struct World {
    clock: SimulatedClock,
    bench: Bench,
    power: Power,
    trace: Vec<Line>,
}

/// Whether the lock has power; its flash outlives it.
enum Power {
    On(Box<Device<Bench, Memory>>),
    Off(Box<Memory>),
    /// Between the two, within one call.
    Changing,
}

impl World {
    /// A lock that was commissioned with `settings`, powered up at `start` with
    /// the bolt thrown and a fresh battery.
    ///
    /// # Errors
    /// If the settings cannot be stored.
    pub fn commission(
        settings: &lock_core::settings::Settings,
        start: Utc,
    ) -> Result<Self, FormatError> {
        let memory = memory::commission(settings)?;
        let clock = SimulatedClock::starting(start);
        let bench = Bench::new(clock.clone());
        let mut world =
            Self { clock, bench, power: Power::Off(Box::new(memory)), trace: Vec::new() };
        world.restore_power();
        Ok(world)
    }

    /// Power comes: the lock boots from its flash.
    pub fn restore_power(&mut self) {
        self.power = match std::mem::replace(&mut self.power, Power::Changing) {
            Power::Off(memory) => {
                self.clock.boot();
                self.note(What::PowerOn);
                self.bench.power_up();
                let (memory, found) = memory::mount(*memory);
                Power::On(Box::new(Device::power_up(self.bench.clone(), memory, found)))
            }
            unchanged => unchanged,
        };
        self.settle();
    }

    /// Power goes: nothing of the lock is left but its flash.
    pub fn cut_power(&mut self) {
        self.power = match std::mem::replace(&mut self.power, Power::Changing) {
            Power::On(device) => {
                self.note(What::PowerCut);
                let (_, memory) = device.power_down();
                self.bench.power_down();
                Power::Off(Box::new(memory))
            }
            unchanged => unchanged,
        };
    }

    /// Whether the lock has power.
    pub fn has_power(&self) -> bool {
        matches!(self.power, Power::On(_))
    }

    /// A finger presses a key.
    pub fn press(&mut self, key: Key) {
        self.run_until(self.clock.now());
        if self.has_power() {
            self.bench.press(key);
            self.settle();
        }
    }

    /// A hand draws or throws the bolt.
    ///
    /// # Errors
    /// [`Blocked`] if the blocker stands in the way of drawing it.
    pub fn move_bolt(&mut self, to: Bolt) -> Result<(), Blocked> {
        self.run_until(self.clock.now());
        self.bench.move_bolt(to)?;
        self.settle();
        Ok(())
    }

    /// The bolt is drawn by force, past a blocker that stands in its way.
    pub fn force_bolt(&mut self) {
        self.run_until(self.clock.now());
        self.bench.force_bolt();
        self.settle();
    }

    /// A hand opens or closes the door.
    pub fn move_door(&mut self, to: Door) {
        self.run_until(self.clock.now());
        self.bench.move_door(to);
        self.settle();
    }

    /// The building's intruder alarm is set or cleared.
    pub fn inhibit(&mut self, to: Inhibit) {
        self.run_until(self.clock.now());
        self.bench.inhibit(to);
        self.settle();
    }

    /// The supply, measured under load, is now this.
    pub fn supply(&mut self, to: Millivolts) {
        self.run_until(self.clock.now());
        self.bench.supply(to);
        self.settle();
    }

    /// The clock chip loses what it knew.
    pub fn lose_clock(&mut self) {
        self.run_until(self.clock.now());
        self.clock.lose();
        self.nudge();
    }

    /// The clock chip jumps by so many seconds.
    pub fn shift_clock(&mut self, seconds: i64) {
        self.run_until(self.clock.now());
        self.clock.shift(seconds);
        self.nudge();
    }

    fn nudge(&mut self) {
        if let Power::On(device) = &mut self.power {
            device.nudge();
        }
        self.settle();
    }

    /// Time passes until `moment`; the lock wakes whenever it asked to.
    pub fn run_until(&mut self, moment: Millis) {
        while let Some(wake) = self.settle()
            && wake <= moment
        {
            self.clock.jump_to(wake);
        }
        self.clock.jump_to(moment);
        self.settle();
    }

    /// The true time, which a hand on the wall would know.
    pub fn now(&self) -> Millis {
        self.clock.now()
    }

    /// True UTC, in whole seconds.
    pub fn utc(&self) -> Utc {
        self.clock.true_utc()
    }

    /// Lets the lock do all it has to do at this moment; its next wake-up.
    ///
    /// # Panics
    /// If it never comes to rest: a mistake in the core that must be seen, not
    /// waited for.
    fn settle(&mut self) -> Option<Millis> {
        for _ in 0..MOST_TURNS {
            let Power::On(device) = &mut self.power else { return None };
            let progress = device.advance();
            match progress {
                Progress::Did(effect) => self.note(What::Did(effect)),
                Progress::Wrote(write, result) => {
                    self.note(What::Wrote(write, Durable::from(result)));
                }
                Progress::Tended(result) => self.note(What::Tended(Durable::from(result))),
                Progress::Took(input) => {
                    if let Some(told) = Told::of(&input) {
                        self.note(What::Told(told));
                    }
                }
                Progress::Asleep(wake) => return wake.map(|wake| self.clock.when(wake)),
            }
        }
        panic!("the lock does not come to rest at {} ms", self.clock.now());
    }

    fn note(&mut self, what: What) {
        let now = self.clock.reading();
        self.trace.push(Line { uptime: now.uptime, chip: now.chip, what });
    }

    /// The trace since the last call.
    pub fn take_trace(&mut self) -> Vec<Line> {
        std::mem::take(&mut self.trace)
    }

    /// When the lock will wake, if nothing happens before.
    pub fn next_wake(&mut self) -> Option<Millis> {
        self.settle()
    }

    /// What the display shows; it keeps its picture without power.
    pub fn screen(&self) -> Option<Screen> {
        self.bench.screen()
    }

    /// The alarm line, as the guard room sees it.
    pub fn alarm(&self) -> Alarm {
        self.bench.alarm()
    }

    /// The bolt.
    pub fn bolt(&self) -> Bolt {
        self.bench.bolt()
    }

    /// What the bolt may do, by the name of its state; `None` without power.
    pub fn access(&self) -> Option<&'static str> {
        match &self.power {
            Power::On(device) => Some(device.machine().access().name()),
            Power::Off(_) | Power::Changing => None,
        }
    }

    /// What the bolt may do.
    pub fn access_state(&self) -> Option<&Access> {
        match &self.power {
            Power::On(device) => Some(device.machine().access()),
            Power::Off(_) | Power::Changing => None,
        }
    }

    /// Whether a penalty is running.
    pub fn in_penalty(&self) -> bool {
        match &self.power {
            Power::On(device) => device.machine().penalty_until().is_some(),
            Power::Off(_) | Power::Changing => false,
        }
    }

    /// The lock's flash and what is in it.
    pub fn memory(&mut self) -> Option<&mut Memory> {
        match &mut self.power {
            Power::On(device) => Some(device.store_mut()),
            Power::Off(memory) => Some(memory),
            Power::Changing => None,
        }
    }
}

/// The blocker stands in the way of the bolt.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Blocked;
