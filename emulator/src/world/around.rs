//! What is round a lock, with or without power: the outside ends of its wires,
//! bolt and blocker, the cells, and what those hear and see who stand before it.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use lock_core::policy::Millivolts;
use lock_core::port::{Alarm, Bolt, Door, Drive, Effect, Inhibit, Sound, Switch};
use lock_core::screen::Screen;
use lock_core::seed::Seed;

use super::{Blocked, Mains, Scene, SimulatedClock, Wire};

/// What is round a lock. Clones are the same place.
#[derive(Clone)]
pub(super) struct Around(Rc<Parts>);

pub(super) struct Parts {
    pub(super) clock: SimulatedClock,
    pub(super) mains: Mains,
    // Up: drawn, open, set, free, raised.
    pub(super) bolt: Wire,
    pub(super) door: Wire,
    pub(super) inhibit: Wire,
    pub(super) switch: Wire,
    pub(super) blocker: Wire,
    pub(super) duress: Wire,
    pub(super) tamper: Wire,
    pub(super) supply: Cell<Millivolts>,
    pub(super) screen: Cell<Option<Screen>>,
    pub(super) heard: RefCell<Heard>,
    /// Effects that reached the world and nobody has asked for yet.
    done: RefCell<Vec<Effect>>,
}

/// The sounds made since somebody last listened.
pub type Heard = Vec<Sound>;

/// Four fresh LR6 cells (from memory: 1.56 to 1.65 V each, open circuit).
const FRESH: Millivolts = Millivolts::new(6_300);

impl Around {
    /// The bolt thrown and blocked, the door closed, the inhibit input clear and
    /// fresh cells.
    pub(super) fn new(clock: SimulatedClock, mains: Mains) -> Self {
        let [bolt, door, inhibit, switch, blocker, duress, tamper] =
            std::array::from_fn(|_| Wire::default());
        Self(Rc::new(Parts {
            clock,
            mains,
            bolt,
            door,
            inhibit,
            switch,
            blocker,
            duress,
            tamper,
            supply: Cell::new(FRESH),
            screen: Cell::new(None),
            heard: RefCell::default(),
            done: RefCell::default(),
        }))
    }

    /// Its parts.
    pub(super) fn parts(&self) -> &Parts {
        &self.0
    }

    /// Everything is put where `scene` has it.
    pub(super) fn set(&self, scene: &Scene) {
        self.0.bolt.set(scene.bolt == Bolt::Drawn);
        self.0.door.set(scene.door == Door::Open);
        self.0.inhibit.set(scene.inhibit == Inhibit::Set);
        self.0.switch.set(scene.switch == Switch::On);
        self.0.blocker.set(scene.blocker == Drive::Free);
        self.0.supply.set(scene.supply);
        self.0.screen.set(scene.screen);
    }

    /// Where everything is.
    pub(super) fn scene(&self) -> Scene {
        let parts = &self.0;
        Scene {
            clock: parts.clock.reads(),
            bolt: bolt(parts.bolt.is_up()),
            door: door(parts.door.is_up()),
            inhibit: inhibit(parts.inhibit.is_up()),
            switch: switch(parts.switch.is_up()),
            blocker: if parts.blocker.is_up() { Drive::Free } else { Drive::Block },
            supply: parts.supply.get(),
            screen: parts.screen.get(),
        }
    }

    /// What the generator gives at this moment.
    pub(super) fn generated(&self) -> [u8; Seed::LEN] {
        let mut bytes = [0x5E; Seed::LEN];
        bytes[..8].copy_from_slice(&self.0.clock.now().to_le_bytes());
        bytes
    }

    /// The effects that reached the world since the last call.
    pub(super) fn take_done(&self) -> Vec<Effect> {
        self.0.done.take()
    }

    /// Takes the step of an effect; whether it reaches the world.
    pub(super) fn reaches(&self, effect: Effect) -> bool {
        let reaches = self.0.mains.effect(effect);
        if reaches {
            self.0.done.borrow_mut().push(effect);
        }
        reaches
    }

    /// Power goes: nobody holds the alarm line.
    pub(super) fn power_down(&self) {
        self.0.duress.set(false);
        self.0.tamper.set(false);
    }

    /// A hand draws or throws the bolt.
    ///
    /// # Errors
    /// [`Blocked`] if it is thrown and the blocker stands in its way.
    pub(super) fn move_bolt(&self, to: Bolt) -> Result<(), Blocked> {
        if to == Bolt::Drawn && !self.0.bolt.is_up() && !self.0.blocker.is_up() {
            return Err(Blocked);
        }
        self.0.bolt.set(to == Bolt::Drawn);
        Ok(())
    }

    /// The bolt is drawn, whatever stands in its way.
    pub(super) fn force_bolt(&self) {
        self.0.bolt.set(true);
    }

    /// A hand opens or closes the door.
    pub(super) fn move_door(&self, to: Door) {
        self.0.door.set(to == Door::Open);
    }

    /// The inhibit input.
    pub(super) fn inhibit(&self, to: Inhibit) {
        self.0.inhibit.set(to == Inhibit::Set);
    }

    /// The service switch inside the door.
    pub(super) fn switch(&self, to: Switch) {
        self.0.switch.set(to == Switch::On);
    }

    /// The cells give this under load.
    pub(super) fn supply(&self, to: Millivolts) {
        self.0.supply.set(to);
    }

    /// What the display shows; it keeps its picture without power.
    pub(super) fn screen(&self) -> Option<Screen> {
        self.0.screen.get()
    }

    /// The alarm line's level, as it arrives elsewhere.
    pub(super) fn alarm(&self) -> Alarm {
        match (self.0.duress.is_up(), self.0.tamper.is_up()) {
            (true, _) => Alarm::Duress,
            (false, true) => Alarm::Tamper,
            (false, false) => Alarm::Quiet,
        }
    }

    /// Where the bolt is.
    pub(super) fn bolt(&self) -> Bolt {
        bolt(self.0.bolt.is_up())
    }

    /// The sounds since the last call.
    pub(super) fn listen(&self) -> Heard {
        self.0.heard.take()
    }
}

pub(super) fn bolt(up: bool) -> Bolt {
    if up { Bolt::Drawn } else { Bolt::Thrown }
}

pub(super) fn door(up: bool) -> Door {
    if up { Door::Open } else { Door::Closed }
}

pub(super) fn switch(up: bool) -> Switch {
    if up { Switch::On } else { Switch::Off }
}

pub(super) fn inhibit(up: bool) -> Inhibit {
    if up { Inhibit::Set } else { Inhibit::Clear }
}
