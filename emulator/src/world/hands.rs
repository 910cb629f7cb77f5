//! What people and their surroundings do to a lock: at this moment, and the lock
//! does all it has to do about it before anything else happens.

use emulated_board::conformance::{What as Cued, Wired};
use emulated_board::fuse::Power as _;
use lock_core::keys::Key;
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Door, Inhibit, Switch};

use super::{Blocked, Fitted, Power, Rest, SimulatedClock, World};
use crate::memory::Lasting;

impl<M: Lasting, B: Fitted> World<M, B> {
    /// A finger presses a key.
    pub fn press(&mut self, key: Key) {
        self.run_until(self.clock.now());
        self.record(Cued::Key(key));
        if let Power::On(_, inbox) = &self.power {
            inbox.press(key);
            self.settle();
        }
    }

    /// A hand draws or throws the bolt.
    ///
    /// # Errors
    /// [`Blocked`] if the blocker stands in the way of drawing it.
    pub fn move_bolt(&mut self, to: Bolt) -> Result<(), Blocked> {
        self.run_until(self.clock.now());
        self.around.move_bolt(to)?;
        self.record(Cued::Wire(Wired::Bolt, to == Bolt::Drawn));
        self.settle();
        Ok(())
    }

    /// The bolt is drawn by force, past a blocker that stands in its way.
    pub fn force_bolt(&mut self) {
        self.run_until(self.clock.now());
        self.record(Cued::Wire(Wired::Bolt, true));
        self.around.force_bolt();
        self.settle();
    }

    /// A hand opens or closes the door.
    pub fn move_door(&mut self, to: Door) {
        self.run_until(self.clock.now());
        self.record(Cued::Wire(Wired::Door, to == Door::Open));
        self.around.move_door(to);
        self.settle();
    }

    /// The building's intruder alarm is set or cleared.
    pub fn inhibit(&mut self, to: Inhibit) {
        self.run_until(self.clock.now());
        self.record(Cued::Wire(Wired::Inhibit, to == Inhibit::Set));
        self.around.inhibit(to);
        self.settle();
    }

    /// A hand turns the service switch inside the door.
    pub fn switch(&mut self, to: Switch) {
        self.run_until(self.clock.now());
        self.record(Cued::Wire(Wired::Switch, to == Switch::On));
        self.around.switch(to);
        self.settle();
    }

    /// The supply, measured under load, is now this.
    pub fn supply(&mut self, to: Millivolts) {
        self.run_until(self.clock.now());
        self.record(Cued::Supply(to));
        self.around.supply(to);
        if let Power::On(_, inbox) = &self.power {
            inbox.measured(to);
        }
        self.settle();
    }

    /// The clock chip loses what it knew.
    pub fn lose_clock(&mut self) {
        self.set_clock(Cued::Clock(None), SimulatedClock::lose);
    }

    /// The clock chip jumps by so many seconds.
    pub fn shift_clock(&mut self, seconds: i64) {
        self.set_clock(Cued::Clock(Some(seconds)), |clock| clock.shift(seconds));
    }

    fn set_clock(&mut self, cued: Cued<'_>, set: impl FnOnce(&SimulatedClock)) {
        self.run_until(self.clock.now());
        let scene = self.around.scene();
        self.record(cued);
        let reaches = self.mains.clock();
        self.record_deeds();
        self.note_steps(&scene);
        if reaches {
            set(&self.clock);
        }
        if !self.mains.is_on() {
            self.power_went();
        }
        self.nudge();
    }

    pub(super) fn nudge(&mut self) {
        if self.restless.is_none()
            && let Power::On(device, _) = &mut self.power
        {
            device.nudge();
            self.turns.begin();
        }
        self.rest = Rest::Stirred;
        self.settle();
    }
}
