//! The lock's side of the emulated board, while it has power: the drivers at its
//! ends of the wires, and what waits for it to be noticed.

use std::cell::Cell;
use std::rc::Rc;

use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::drivers::{Active, AlarmPins, Contact, DrivePin};
use lock_core::keys::{Key, KeyQueue};
use lock_core::policy::Millivolts;
use lock_core::port::{Alarm, Contacts, Drive, Effect, Now, Sound};
use lock_core::screen::Screen;
use lock_core::seed::Seed;
use lock_core::time::Utc;

use super::Wire;
use super::around::{Around, bolt, door, inhibit, switch};

/// The board as a lock sees it. It is made when power comes and gone when it goes.
pub struct Bench {
    around: Around,
    inbox: Inbox,
    bolt: Contact<Wire>,
    door: Contact<Wire>,
    inhibit: Contact<Wire>,
    switch: Contact<Wire>,
    drive: DrivePin<Wire>,
    alarm: AlarmPins<Wire, Wire>,
}

/// What waits for the lock to be noticed: keys, and a measurement. The hands' end of it
/// is there for as long as the lock has power.
#[derive(Clone)]
pub(super) struct Inbox(Rc<Waiting>);

struct Waiting {
    keys: KeyQueue,
    measured: Cell<Option<Millivolts>>,
}

impl Bench {
    /// Power comes, and the supply is measured: the lock's side of what is `around`
    /// it, and the hands' end of what waits to be noticed.
    pub(super) fn powered(around: &Around) -> (Self, Inbox) {
        let parts = around.parts();
        let waiting =
            Waiting { keys: KeyQueue::new(), measured: Cell::new(Some(parts.supply.get())) };
        let inbox = Inbox(Rc::new(waiting));
        let contact = |wire: &Wire| Contact::new(wire.clone(), Active::High);
        let bench = Self {
            around: around.clone(),
            inbox: inbox.clone(),
            bolt: contact(&parts.bolt),
            door: contact(&parts.door),
            inhibit: contact(&parts.inhibit),
            switch: contact(&parts.switch),
            drive: DrivePin::new(parts.blocker.clone()),
            alarm: AlarmPins::new(parts.duress.clone(), parts.tamper.clone()),
        };
        (bench, inbox)
    }
}

impl Inbox {
    /// A finger presses a key; a full queue loses it, as the real one does.
    pub(super) fn press(&self, key: Key) {
        let _ = self.0.keys.push(key);
    }

    /// The supply is measured.
    pub(super) fn measured(&self, supply: Millivolts) {
        self.0.measured.set(Some(supply));
    }
}

impl Board for Bench {
    fn now(&mut self) -> Now {
        self.around.parts().clock.reading()
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
        emulated_board::BUILT
    }

    fn notice(&mut self) -> Option<Noticed> {
        let contact = self.bolt.changed().map(|up| Noticed::Bolt(bolt(up)));
        let contact = contact.or_else(|| self.door.changed().map(|up| Noticed::Door(door(up))));
        let contact =
            contact.or_else(|| self.inhibit.changed().map(|up| Noticed::Inhibit(inhibit(up))));
        let contact =
            contact.or_else(|| self.switch.changed().map(|up| Noticed::Switch(switch(up))));
        contact
            .or_else(|| self.inbox.0.measured.take().map(Noticed::Supply))
            .or_else(|| self.inbox.0.keys.take().map(Noticed::Key))
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        if self.around.reaches(Effect::Drive(to)) { self.drive.drive(to) } else { Ok(()) }
    }

    fn signal(&mut self, level: Alarm) {
        if self.around.reaches(Effect::Alarm(level)) {
            self.alarm.signal(level);
        }
    }

    fn sound(&mut self, sound: Sound) {
        if self.around.reaches(Effect::Sound(sound)) {
            self.around.parts().heard.borrow_mut().push(sound);
        }
    }

    fn set_clock(&mut self, utc: Utc) {
        if self.around.reaches(Effect::SetClock(utc)) {
            self.around.parts().clock.set_to(utc);
        }
    }

    /// The same world gives the same: a stand-in for a real generator.
    fn seed(&mut self) -> Seed {
        Seed::new(self.around.generated())
    }

    fn show(&mut self, screen: &Screen) {
        if self.around.reaches(Effect::Show(*screen)) {
            self.around.parts().screen.set(Some(*screen));
        }
    }
}
