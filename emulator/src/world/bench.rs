//! The emulated board: pins, keys, display, sounder, and the mechanics of bolt
//! and blocker.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::drivers::{Active, AlarmPins, Contact, DrivePin};
use lock_core::keys::{Key, KeyQueue};
use lock_core::policy::Millivolts;
use lock_core::port::{Alarm, Bolt, Contacts, Door, Drive, Effect, Inhibit, Now, Sound, Switch};
use lock_core::screen::Screen;
use lock_core::seed::Seed;
use lock_core::time::Utc;

use super::{Blocked, Mains, Scene, SimulatedClock, Wire};

/// The emulated board. Clones are the same board, seen from the lock's side
/// and from the hands' side.
#[derive(Clone)]
pub struct Bench(Rc<Parts>);

struct Parts {
    clock: SimulatedClock,
    mains: Mains,
    keys: KeyQueue,
    // The hands' ends of the wires. Up: drawn, open, set, free, raised.
    bolt: Wire,
    door: Wire,
    inhibit: Wire,
    switch: Wire,
    blocker: Wire,
    duress: Wire,
    tamper: Wire,
    supply: Cell<Millivolts>,
    /// A measurement that the lock has not been given yet.
    measured: Cell<Option<Millivolts>>,
    screen: Cell<Option<Screen>>,
    heard: RefCell<Heard>,
    /// Effects that reached the world and nobody has asked for yet.
    done: RefCell<Vec<Effect>>,
    lock_side: RefCell<LockSide>,
}

/// The sounds made since somebody last listened.
pub type Heard = Vec<Sound>;

/// The drivers at the lock's ends of the wires.
struct LockSide {
    bolt: Contact<Wire>,
    door: Contact<Wire>,
    inhibit: Contact<Wire>,
    switch: Contact<Wire>,
    drive: DrivePin<Wire>,
    alarm: AlarmPins<Wire, Wire>,
}

/// Four fresh LR6 cells (from memory: 1.56 to 1.65 V each, open circuit).
const FRESH: Millivolts = Millivolts::new(6_300);

impl Bench {
    /// A board with the bolt thrown and blocked, the door closed, the inhibit
    /// input clear and fresh cells.
    pub fn new(clock: SimulatedClock, mains: Mains) -> Self {
        let [bolt, door, inhibit, switch, blocker, duress, tamper] =
            std::array::from_fn(|_| Wire::default());
        let lock_side = LockSide {
            bolt: Contact::new(bolt.clone(), Active::High),
            door: Contact::new(door.clone(), Active::High),
            inhibit: Contact::new(inhibit.clone(), Active::High),
            switch: Contact::new(switch.clone(), Active::High),
            drive: DrivePin::new(blocker.clone()),
            alarm: AlarmPins::new(duress.clone(), tamper.clone()),
        };
        Self(Rc::new(Parts {
            clock,
            mains,
            keys: KeyQueue::new(),
            bolt,
            door,
            inhibit,
            switch,
            blocker,
            duress,
            tamper,
            supply: Cell::new(FRESH),
            measured: Cell::new(None),
            screen: Cell::new(None),
            heard: RefCell::default(),
            done: RefCell::default(),
            lock_side: RefCell::new(lock_side),
        }))
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
    fn reaches(&self, effect: Effect) -> bool {
        let reaches = self.0.mains.effect(effect);
        if reaches {
            self.0.done.borrow_mut().push(effect);
        }
        reaches
    }

    /// Power comes: the supply is measured.
    pub fn power_up(&self) {
        self.0.measured.set(Some(self.0.supply.get()));
    }

    /// Power goes: keys that waited are gone and nobody holds the alarm line.
    pub fn power_down(&self) {
        while self.0.keys.take().is_some() {}
        self.0.duress.set(false);
        self.0.tamper.set(false);
        self.0.measured.set(None);
    }

    /// A finger presses a key; a full queue loses it, as the real one does.
    pub fn press(&self, key: Key) {
        let _ = self.0.keys.push(key);
    }

    /// A hand draws or throws the bolt.
    ///
    /// # Errors
    /// [`Blocked`] if it is thrown and the blocker stands in its way.
    pub fn move_bolt(&self, to: Bolt) -> Result<(), Blocked> {
        if to == Bolt::Drawn && !self.0.bolt.is_up() && !self.0.blocker.is_up() {
            return Err(Blocked);
        }
        self.0.bolt.set(to == Bolt::Drawn);
        Ok(())
    }

    /// The bolt is drawn, whatever stands in its way.
    pub fn force_bolt(&self) {
        self.0.bolt.set(true);
    }

    /// A hand opens or closes the door.
    pub fn move_door(&self, to: Door) {
        self.0.door.set(to == Door::Open);
    }

    /// The inhibit input.
    pub fn inhibit(&self, to: Inhibit) {
        self.0.inhibit.set(to == Inhibit::Set);
    }

    /// The service switch inside the door.
    pub fn switch(&self, to: Switch) {
        self.0.switch.set(to == Switch::On);
    }

    /// The supply is this, and is measured.
    pub fn supply(&self, to: Millivolts) {
        self.0.supply.set(to);
        self.0.measured.set(Some(to));
    }

    /// What the display shows; it keeps its picture without power.
    pub fn screen(&self) -> Option<Screen> {
        self.0.screen.get()
    }

    /// The alarm line's level, as it arrives elsewhere.
    pub fn alarm(&self) -> Alarm {
        match (self.0.duress.is_up(), self.0.tamper.is_up()) {
            (true, _) => Alarm::Duress,
            (false, true) => Alarm::Tamper,
            (false, false) => Alarm::Quiet,
        }
    }

    /// Where the bolt is.
    pub fn bolt(&self) -> Bolt {
        if self.0.bolt.is_up() { Bolt::Drawn } else { Bolt::Thrown }
    }

    /// The sounds since the last call.
    pub fn listen(&self) -> Heard {
        self.0.heard.take()
    }
}

impl Board for Bench {
    fn now(&mut self) -> Now {
        self.0.clock.reading()
    }

    fn contacts(&mut self) -> Contacts {
        let mut side = self.0.lock_side.borrow_mut();
        Contacts {
            bolt: bolt(side.bolt.read()),
            door: door(side.door.read()),
            inhibit: inhibit(side.inhibit.read()),
            switch: switch(side.switch.read()),
        }
    }

    fn built(&self) -> Utc {
        emulated_board::BUILT
    }

    fn notice(&mut self) -> Option<Noticed> {
        let mut side = self.0.lock_side.borrow_mut();
        let contact = side.bolt.changed().map(|up| Noticed::Bolt(bolt(up)));
        let contact = contact.or_else(|| side.door.changed().map(|up| Noticed::Door(door(up))));
        let contact =
            contact.or_else(|| side.inhibit.changed().map(|up| Noticed::Inhibit(inhibit(up))));
        let contact =
            contact.or_else(|| side.switch.changed().map(|up| Noticed::Switch(switch(up))));
        contact
            .or_else(|| self.0.measured.take().map(Noticed::Supply))
            .or_else(|| self.0.keys.take().map(Noticed::Key))
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        if self.reaches(Effect::Drive(to)) {
            self.0.lock_side.borrow_mut().drive.drive(to)
        } else {
            Ok(())
        }
    }

    fn signal(&mut self, level: Alarm) {
        if self.reaches(Effect::Alarm(level)) {
            self.0.lock_side.borrow_mut().alarm.signal(level);
        }
    }

    fn sound(&mut self, sound: Sound) {
        if self.reaches(Effect::Sound(sound)) {
            self.0.heard.borrow_mut().push(sound);
        }
    }

    fn set_clock(&mut self, utc: Utc) {
        if self.reaches(Effect::SetClock(utc)) {
            self.0.clock.set_to(utc);
        }
    }

    /// The same world gives the same: a stand-in for a real generator.
    fn seed(&mut self) -> Seed {
        Seed::new(self.generated())
    }

    fn show(&mut self, screen: &Screen) {
        if self.reaches(Effect::Show(*screen)) {
            self.0.screen.set(Some(*screen));
        }
    }
}

fn bolt(up: bool) -> Bolt {
    if up { Bolt::Drawn } else { Bolt::Thrown }
}

fn door(up: bool) -> Door {
    if up { Door::Open } else { Door::Closed }
}

fn switch(up: bool) -> Switch {
    if up { Switch::On } else { Switch::Off }
}

fn inhibit(up: bool) -> Inhibit {
    if up { Inhibit::Set } else { Inhibit::Clear }
}
