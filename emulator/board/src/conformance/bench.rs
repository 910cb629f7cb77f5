//! The board that cues act on: pins, keys and a clock, with the core's drivers
//! at the lock's ends of the wires.

use core::cell::Cell;
use core::convert::Infallible;

use embedded_hal::digital::{ErrorType, InputPin, OutputPin};
use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::draw::{self, Frame};
use lock_core::drivers::{Active, AlarmPins, Contact, DrivePin};
use lock_core::keys::KeyQueue;
use lock_core::policy::Millivolts;
use lock_core::port::{Alarm, Bolt, Contacts, Door, Drive, Effect, Inhibit, Now, Sound, Switch};
use lock_core::screen::Screen;
use lock_core::seed::Seed;
use lock_core::time::Utc;

use super::cue::Start;
use super::did::{Did, Mark, Sink, Teller};
use crate::clock::Clocked;
use crate::fuse::{Act, Fuse, Power as _};

/// What is round a lock.
pub(super) struct Around {
    pub(super) clock: Cell<Clocked>,
    pub(super) keys: KeyQueue,
    /// The outside ends of the wires, in the order of `Wired::ALL`.
    pub(super) wires: [Cell<bool>; 4],
    /// The pins that the lock sets: blocker, duress, tamper.
    set: [Cell<bool>; 3],
    /// A measurement that the lock has not been given yet.
    pub(super) measured: Cell<Option<Millivolts>>,
    seed: [u8; Seed::LEN],
}

impl Around {
    /// As everything stands when power comes.
    pub(super) fn new(start: &Start, clock: Clocked) -> Self {
        Self {
            clock: Cell::new(clock),
            keys: KeyQueue::new(),
            wires: start.wires.map(Cell::new),
            set: [const { Cell::new(false) }; 3],
            measured: Cell::new(Some(start.supply)),
            seed: start.seed,
        }
    }
}

/// A pin at a wire.
struct Pin<'a>(&'a Cell<bool>);

impl ErrorType for Pin<'_> {
    type Error = Infallible;
}

impl InputPin for Pin<'_> {
    fn is_high(&mut self) -> Result<bool, Infallible> {
        Ok(self.0.get())
    }

    fn is_low(&mut self) -> Result<bool, Infallible> {
        Ok(!self.0.get())
    }
}

impl OutputPin for Pin<'_> {
    fn set_low(&mut self) -> Result<(), Infallible> {
        self.0.set(false);
        Ok(())
    }

    fn set_high(&mut self) -> Result<(), Infallible> {
        self.0.set(true);
        Ok(())
    }
}

/// The lock's side of it.
pub(super) struct Bench<'a, K> {
    around: &'a Around,
    power: &'a Fuse,
    teller: &'a Teller<K>,
    frame: Option<&'a mut Frame>,
    bolt: Contact<Pin<'a>>,
    door: Contact<Pin<'a>>,
    inhibit: Contact<Pin<'a>>,
    switch: Contact<Pin<'a>>,
    drive: DrivePin<Pin<'a>>,
    alarm: AlarmPins<Pin<'a>, Pin<'a>>,
}

impl<'a, K: Sink> Bench<'a, K> {
    pub(super) const fn new(
        around: &'a Around,
        power: &'a Fuse,
        teller: &'a Teller<K>,
        frame: Option<&'a mut Frame>,
    ) -> Self {
        let [bolt, door, inhibit, switch] = &around.wires;
        let [blocker, duress, tamper] = &around.set;
        Self {
            around,
            power,
            teller,
            frame,
            bolt: Contact::new(Pin(bolt), Active::High),
            door: Contact::new(Pin(door), Active::High),
            inhibit: Contact::new(Pin(inhibit), Active::High),
            switch: Contact::new(Pin(switch), Active::High),
            drive: DrivePin::new(Pin(blocker)),
            alarm: AlarmPins::new(Pin(duress), Pin(tamper)),
        }
    }

    fn tell(&self, did: Did<'_>) {
        self.teller.tell(self.around.clock.get().reading().uptime, did);
    }

    /// Takes the step of an effect; whether it reaches the world.
    fn reaches(&self) -> bool {
        self.power.step(Act::Effect).reaches_the_world()
    }
}

impl<K: Sink> Board for Bench<'_, K> {
    fn now(&mut self) -> Now {
        self.around.clock.get().reading()
    }

    fn contacts(&mut self) -> Contacts {
        Contacts {
            bolt: bolt(self.bolt.read()),
            door: door(self.door.read()),
            inhibit: inhibit(self.inhibit.read()),
            switch: switch(self.switch.read()),
        }
    }

    fn built(&self) -> Utc {
        crate::BUILT
    }

    fn notice(&mut self) -> Option<Noticed> {
        let contact = self.bolt.changed().map(|up| Noticed::Bolt(bolt(up)));
        let contact = contact.or_else(|| self.door.changed().map(|up| Noticed::Door(door(up))));
        let contact =
            contact.or_else(|| self.inhibit.changed().map(|up| Noticed::Inhibit(inhibit(up))));
        let contact =
            contact.or_else(|| self.switch.changed().map(|up| Noticed::Switch(switch(up))));
        contact
            .or_else(|| self.around.measured.take().map(Noticed::Supply))
            .or_else(|| self.around.keys.take().map(Noticed::Key))
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        if !self.reaches() {
            return Ok(());
        }
        self.teller.sink().mark(Mark::Driven);
        self.tell(Did::Effect(Effect::Drive(to)));
        self.drive.drive(to)
    }

    fn signal(&mut self, level: Alarm) {
        if self.reaches() {
            self.tell(Did::Effect(Effect::Alarm(level)));
            self.alarm.signal(level);
        }
    }

    fn sound(&mut self, sound: Sound) {
        if self.reaches() {
            self.tell(Did::Effect(Effect::Sound(sound)));
        }
    }

    fn set_clock(&mut self, utc: Utc) {
        if self.reaches() {
            self.tell(Did::Effect(Effect::SetClock(utc)));
            let mut clock = self.around.clock.get();
            clock.set_to(utc);
            self.around.clock.set(clock);
        }
    }

    fn seed(&mut self) -> Seed {
        Seed::new(self.around.seed)
    }

    fn show(&mut self, screen: &Screen) {
        if self.reaches() {
            let Some(frame) = &mut self.frame else { return self.tell(Did::Screen(0)) };
            self.teller.sink().mark(Mark::Drawing);
            let Ok(()) = draw::screen(screen, *frame);
            self.teller.sink().mark(Mark::Drawn);
            let picture = Did::picture(frame);
            self.tell(picture);
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
