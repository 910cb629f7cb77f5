//! The world round one lock: simulated time, hands, wires, power.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | [`World`]: one lock, its flash, and what happens to them |
//! | `hands.rs` | what people and their surroundings do to it |
//! | `clock.rs` | true time, uptime, and a clock chip that may be wrong |
//! | `around.rs` | what is round the lock: wires, display, bolt and blocker |
//! | `bench.rs` | the lock's side of the board, while it has power |
//! | `rest.rs` | whether it comes to rest |
//! | `wire.rs` | a wire between a hand's end and the lock's |
//! | `mains.rs` | the board's power, and where it ends |
//! | `journal.rs` | what happened, for whoever judges it |
//! | `recording.rs` | what the lock was told and did, to be played again elsewhere |
//!
//! Nothing ticks. The world jumps to the lock's next wake-up or to the next
//! thing a hand does, whichever comes first.
//!
//! When the power ends within a step, nothing that the lock still does reaches
//! the world, and nothing of the lock is left but its flash: the next boot
//! mounts it afresh. What has power is in `Power::On`, so that without it there is
//! nothing that could remember: no key, no measurement, no level of a wire.

mod around;
mod bench;
mod cable;
mod clock;
mod decided;
mod hands;
mod journal;
mod mains;
mod recording;
mod rest;
mod wire;

use around::Around;
pub use around::Heard;
pub use bench::Bench;
use bench::Inbox;
pub use clock::SimulatedClock;
use decided::Clauses;
pub use decided::Decided;
pub use journal::{Happening, Keeping, Scene, Spoilt};
pub use mains::{Ambush, Awaited, Deed, Mains};
pub use recording::Recording;
use rest::Turns;
pub use rest::{MOST_TURNS, MOST_WAKES, Restless};
pub use wire::Wire;

pub use emulated_board::clock::{Clocked, Millis};
use emulated_board::conformance::{Did, What as Cued};
use emulated_board::fuse::{Cut, Power as _};
use emulated_board::trace::{Durable, Line, Told, What};
use lock_core::audit::Record;
use lock_core::board::Board;
use lock_core::decide::{Clause, Decision};
use lock_core::device::{Device, Progress};
use lock_core::holder::Number;
use lock_core::machine::bolt::Access;
use lock_core::port::{Alarm, Bolt, Drive, Effect, Fault, Input, Write};
use lock_core::rules::Unreadable;
use lock_core::screen::Screen;
use lock_core::settings::Edit;
use lock_core::store::FormatError;
use lock_core::time::{Uptime, Utc};

use crate::memory::{self, Lasting, Memory, Print, Room};
use recording::Recorder;

/// One lock and what is round it: its store, and the board as it sees it.
pub struct World<M: Lasting = Memory, B = Bench> {
    clock: SimulatedClock,
    around: Around,
    mains: Mains,
    power: Power<M, B>,
    /// The end of the power that was ordered while there was none.
    ordered: Option<Order>,
    /// The steps at the last boot.
    booted: u64,
    trace: Vec<Line>,
    keeping: Keeping,
    journal: Vec<Happening>,
    /// Writes since the last look, and how many of them ask for one.
    unseen: u32,
    look_after: u32,
    rest: Rest,
    turns: Turns,
    restless: Option<Restless>,
    /// Whether somebody asks whether the lock came to rest.
    watched: bool,
    recorder: Option<Recorder>,
}

/// Whether the lock has power; its flash outlives it, and nothing else.
enum Power<M: Lasting, B> {
    /// The lock, and what waits for it to be noticed.
    On(Box<Device<B, M>>, Inbox),
    Off(Box<M::Flash>),
    /// Between the two, within one call.
    Changing,
}

/// Whether the lock has done anything since it last came to rest.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Rest {
    Still,
    Stirred,
}

/// An end of the power that somebody orders.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Order {
    /// At that step from now on, or from the boot on if there is no power.
    Cut(Cut),
    /// Once something happens.
    Ambush(Ambush),
}

/// A board as a lock sees it, made of the emulated one.
pub trait Fitted: Board {
    /// The lock's side of `bench`.
    fn fit(bench: Bench) -> Self;
}

impl Fitted for Bench {
    fn fit(bench: Bench) -> Self {
        bench
    }
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
        let flash = memory::commission(settings, Room::Full, Mains::new())?;
        let mut world = Self::around(flash, SimulatedClock::starting(start));
        world.restore_power();
        Ok(world)
    }
}

impl<M: Lasting, B: Fitted> World<M, B> {
    /// The world round a flash, not yet powered up, with the bolt thrown and a
    /// fresh battery.
    pub fn around(flash: M::Flash, clock: SimulatedClock) -> Self {
        let mains = M::mains(&flash);
        Self {
            around: Around::new(clock.clone(), mains.clone()),
            clock,
            mains,
            power: Power::Off(Box::new(flash)),
            ordered: None,
            booted: 0,
            trace: Vec::new(),
            keeping: Keeping::Lines,
            journal: Vec::new(),
            unseen: 0,
            look_after: u32::MAX,
            rest: Rest::Still,
            turns: Turns::default(),
            restless: None,
            watched: false,
            recorder: None,
        }
    }

    /// The same with everything where `scene` has it.
    pub fn staged(flash: M::Flash, scene: &Scene) -> Self {
        let world = Self::around(flash, SimulatedClock::set(scene.clock));
        world.around.set(scene);
        world
    }

    /// What happens from now on is written down, that much of it, with a look
    /// after so many writes and after each release.
    pub fn keep(&mut self, keeping: Keeping, look_after: u32) {
        self.keeping = keeping;
        self.look_after = look_after;
        if keeping == Keeping::Steps {
            self.mains.write_down();
        }
    }

    /// What happened since the last call, as far as it is kept.
    pub fn take_journal(&mut self) -> Vec<Happening> {
        std::mem::take(&mut self.journal)
    }

    /// The power will end as ordered, instead of any end ordered before.
    pub fn order(&mut self, order: Order) {
        if self.has_power() {
            self.obey(order);
        } else {
            self.ordered = Some(order);
        }
    }

    fn obey(&self, order: Order) {
        match order {
            Order::Cut(cut) => self.mains.arm(cut),
            Order::Ambush(ambush) => self.mains.lie_in_wait(ambush),
        }
    }

    /// Whether an end of the power was ordered that has not come yet.
    pub fn cut_is_due(&self) -> bool {
        self.ordered.is_some() || self.mains.cut_is_due()
    }

    /// Power comes: the lock boots from its flash.
    pub fn restore_power(&mut self) {
        self.power = match std::mem::replace(&mut self.power, Power::Changing) {
            Power::Off(flash) => self.boot(*flash),
            unchanged => unchanged,
        };
        self.settle();
    }

    fn boot(&mut self, flash: M::Flash) -> Power<M, B> {
        // A flash that was just made has had no power before.
        if !self.mains.is_on() {
            self.mains.restore();
        }
        if let Some(order) = self.ordered.take() {
            self.obey(order);
        }
        self.booted = self.mains.steps();
        self.clock.boot();
        self.note(What::PowerOn);
        let scene = self.around.scene();
        self.record_boot();
        let (mut memory, found) = M::mount(flash);
        self.record_deeds();
        self.note_steps(&scene);
        if !self.mains.is_on() {
            self.record_end();
            self.note(What::PowerCut);
            return Power::Off(Box::new(memory.into_flash()));
        }
        if self.keeping >= Keeping::Happenings {
            self.unseen = 0;
            let steps = self.mains.steps().saturating_sub(self.booted);
            self.journal.push(Happening::Boot(Box::new(memory.found(&found)), steps));
        }
        self.rest = Rest::Stirred;
        self.turns.begin();
        let (bench, inbox) = Bench::powered(&self.around);
        Power::On(Box::new(Device::power_up(B::fit(bench), memory, found)), inbox)
    }

    /// The battery is pulled: nothing of the lock is left but its flash.
    pub fn cut_power(&mut self) {
        self.record(Cued::Pulled);
        self.mains.cut();
        self.power_went();
    }

    fn power_went(&mut self) {
        self.power = match std::mem::replace(&mut self.power, Power::Changing) {
            Power::On(device, _) => {
                self.record_end();
                self.note(What::PowerCut);
                let (_, memory) = device.power_down();
                self.around.power_down();
                self.restless = None;
                Power::Off(Box::new(memory.into_flash()))
            }
            unchanged => unchanged,
        };
    }

    /// Whether the lock has power.
    pub fn has_power(&self) -> bool {
        matches!(self.power, Power::On(..))
    }

    /// Time passes until `moment`; the lock wakes whenever it asked to.
    pub fn run_until(&mut self, moment: Millis) {
        if moment > self.clock.now() {
            self.record_until(moment);
        }
        while let Some(wake) = self.settle()
            && wake <= moment
        {
            self.clock.jump_to(wake);
            if let Err(restless) = self.turns.wake(self.clock.now()) {
                self.does_not_rest(restless);
            }
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

    /// Lets the lock do all it has to do at this moment; its next wake-up. One that does
    /// not come to rest does nothing more.
    fn settle(&mut self) -> Option<Millis> {
        // What the change that the lock holds ready will make of the settings.
        let mut after = None;
        while self.restless.is_none() {
            let scene = (self.keeping == Keeping::Steps).then(|| self.around.scene());
            let Power::On(device, _) = &mut self.power else { return None };
            if self.keeping >= Keeping::Happenings {
                let (machine, store) = device.machine_and_store();
                after =
                    machine.edit().and_then(|edit| after.or_else(|| M::after(store.flash(), edit)));
            }
            let progress = device.advance();
            self.record_deeds();
            if let Some(scene) = scene {
                self.note_steps(&scene);
            }
            // What reached the world, not what the lock says it did.
            let done = self.around.take_done();
            for effect in &done {
                self.note(What::Did(*effect));
            }
            let turn = self.progressed(progress, &mut after);
            if let Progress::Asleep(wake) = progress {
                return wake.map(|wake| self.clock.when(wake));
            }
            self.rest = Rest::Stirred;
            if !self.mains.is_on() {
                self.power_went();
            } else if done.contains(&Effect::Drive(Drive::Free)) {
                self.look();
            }
            if let Err(restless) = turn {
                self.does_not_rest(restless);
            }
        }
        None
    }

    /// Notes what the lock did, and counts the turn, if it was one.
    fn progressed(
        &mut self,
        progress: Progress,
        after: &mut Option<Print>,
    ) -> Result<(), Restless> {
        let durable = |on: bool, result| if on { Durable::from(result) } else { Durable::Unknown };
        let on = self.mains.is_on();
        match progress {
            Progress::Did(_) => {}
            Progress::Wrote(write, result) => {
                let durable = durable(on, result);
                self.unseen = self.unseen.saturating_add(1);
                match write {
                    Write::Edit(record) => self.note_edit(record, durable, after.take()),
                    Write::Tally(_) | Write::Record(_) => self.note(What::Wrote(write, durable)),
                }
                return self.turns.took(&Input::Stored(result));
            }
            Progress::Tended(result) => self.note(What::Tended(durable(on, result))),
            Progress::Took(input) => {
                if let Some(told) = Told::of(&input) {
                    self.note(What::Told(told));
                }
                return self.turns.took(&input);
            }
            Progress::Asleep(wake) => {
                if self.rest == Rest::Stirred {
                    self.record_did(Did::Asleep(wake));
                }
                self.note_rest();
            }
        }
        Ok(())
    }

    /// A change of the settings, with what they are after it.
    fn note_edit(&mut self, record: Record, durable: Durable, after: Option<Print>) {
        let line = self.line(What::Wrote(Write::Edit(record), durable));
        self.trace.push(line);
        if self.keeping >= Keeping::Happenings {
            self.journal.push(Happening::Edited { line, record, durable, after });
        }
    }

    fn line(&self, what: What) -> Line {
        let now = self.clock.reading();
        Line { uptime: now.uptime, chip: now.chip, what }
    }

    fn note(&mut self, what: What) {
        let line = self.line(what);
        self.trace.push(line);
        if self.keeping >= Keeping::Happenings {
            self.journal.push(Happening::Line(line));
        }
    }

    /// Writes the steps down that were begun since the last call, with how
    /// everything was before them.
    fn note_steps(&mut self, scene: &Scene) {
        if self.keeping == Keeping::Steps {
            let deeds = self.mains.take_deeds().into_iter();
            self.journal.extend(deeds.map(|(deed, power)| {
                let scene = Box::new(*scene);
                Happening::Step { deed, power, scene }
            }));
        }
    }

    fn note_rest(&mut self) {
        if self.rest == Rest::Stirred && self.keeping >= Keeping::Happenings {
            let steps = self.mains.steps().saturating_sub(self.booted);
            self.journal.push(Happening::Rest { steps });
            if self.unseen >= self.look_after {
                self.look();
            }
        }
        self.rest = Rest::Still;
    }

    /// Writes down what a boot at this moment would find, if happenings are
    /// kept.
    pub fn look(&mut self) {
        if self.keeping >= Keeping::Happenings
            && let Some(look) = self.flash().map(M::look)
        {
            self.unseen = 0;
            self.journal.push(Happening::Look(Box::new(look)));
        }
    }

    /// The lock's flash, with or without power.
    pub fn flash(&mut self) -> Option<&M::Flash> {
        match &mut self.power {
            Power::On(device, _) => Some(device.store_mut().flash()),
            Power::Off(flash) => Some(flash),
            Power::Changing => None,
        }
    }

    /// Somebody changes the settings behind the machine's back. Whether the
    /// store says that it is done.
    pub fn edit(&mut self, edit: &Edit, record: &Record) -> bool {
        self.run_until(self.clock.now());
        let scene = self.around.scene();
        let Power::On(device, _) = &mut self.power else { return false };
        let after = M::after(device.store_mut().flash(), edit);
        let result = device.store_mut().edit(edit, record);
        self.note_steps(&scene);
        let on = self.mains.is_on();
        let durable = if on { Durable::from(result) } else { Durable::Unknown };
        self.note_edit(*record, durable, after);
        if on {
            self.unseen = self.unseen.saturating_add(1);
            self.nudge();
        } else {
            self.power_went();
        }
        on && result.is_ok()
    }

    /// Something is done to the flash from outside.
    pub fn spoil(&mut self, spoil: impl FnOnce(&mut M::Flash) -> Spoilt) {
        let spoilt = match &mut self.power {
            Power::On(device, _) => spoil(device.store_mut().flash_mut()),
            Power::Off(flash) => spoil(flash),
            Power::Changing => return,
        };
        if self.keeping >= Keeping::Happenings {
            self.journal.push(Happening::Spoilt(spoilt));
        }
    }

    /// The same without the world round it.
    pub fn into_flash(self) -> Option<M::Flash> {
        match self.power {
            Power::On(device, _) => Some(device.power_down().1.into_flash()),
            Power::Off(flash) => Some(*flash),
            Power::Changing => None,
        }
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
        self.around.screen()
    }

    /// The alarm line, as the guard room sees it.
    pub fn alarm(&self) -> Alarm {
        self.around.alarm()
    }

    /// The bolt.
    pub fn bolt(&self) -> Bolt {
        self.around.bolt()
    }

    /// What the bolt may do, by the name of its state; `None` without power.
    pub fn access(&self) -> Option<&'static str> {
        match &self.power {
            Power::On(device, _) => Some(device.machine().access().name()),
            Power::Off(_) | Power::Changing => None,
        }
    }

    /// What the bolt may do.
    pub fn access_state(&self) -> Option<&Access> {
        match &self.power {
            Power::On(device, _) => Some(device.machine().access()),
            Power::Off(_) | Power::Changing => None,
        }
    }

    /// What a right code of `number` would meet now, and why; `None` without power, or if
    /// nobody is enrolled there. Settings that cannot be read put the lock in service.
    pub fn decide(&mut self, number: Number) -> Option<Decided> {
        let now = self.clock.reading();
        let Power::On(device, _) = &mut self.power else { return None };
        let (machine, store) = device.machine_and_store();
        let mut clauses = Clauses(Vec::new());
        let decision = machine.decide(number, now, store, &mut clauses);
        let decision = decision.unwrap_or_else(|Unreadable| {
            let fault = Fault::Settings;
            clauses.0 = vec![Clause::Service(Some(fault))];
            Some(Decision::Service(fault))
        })?;
        Some(Decided { decision, clauses: clauses.0 })
    }

    /// Where everything round the lock is.
    pub fn scene(&self) -> Scene {
        self.around.scene()
    }

    /// The sounds since the last call.
    pub fn listen(&self) -> Heard {
        self.around.listen()
    }

    /// The true time at which uptime will be `uptime`.
    pub fn when(&self, uptime: Uptime) -> Millis {
        self.clock.when(uptime)
    }

    /// The time that the lock believes; `None` without power, or if it believes
    /// none.
    pub fn believed(&self) -> Option<Utc> {
        match &self.power {
            Power::On(device, _) => device.machine().believed_utc(self.clock.reading()),
            Power::Off(_) | Power::Changing => None,
        }
    }

    /// Whether a penalty is running.
    pub fn in_penalty(&self) -> bool {
        match &self.power {
            Power::On(device, _) => device.machine().penalty_until().is_some(),
            Power::Off(_) | Power::Changing => false,
        }
    }

    /// The store of a lock that has power.
    pub fn memory(&mut self) -> Option<&mut M> {
        match &mut self.power {
            Power::On(device, _) => Some(device.store_mut()),
            Power::Off(_) | Power::Changing => None,
        }
    }
}

/// The blocker stands in the way of the bolt.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Blocked;
