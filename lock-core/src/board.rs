//! What a board provides: the traits that a port to new hardware implements, and a
//! board without hardware.

mod bench;

pub use bench::{Bench, NotTaken};

use crate::keys::Key;
use crate::policy::Millivolts;
use crate::port::{Alarm, Bolt, Contacts, Door, Drive, Inhibit, Input, Now, Sound, Switch};
use crate::screen::Screen;
use crate::seed::Seed;
use crate::time::Utc;

/// What a board noticed.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Noticed {
    /// A key, from the [queue](crate::keys::KeyQueue).
    Key(Key),
    /// The bolt moved.
    Bolt(Bolt),
    /// The door moved.
    Door(Door),
    /// The supply was measured under load.
    Supply(Millivolts),
    /// The inhibit input changed.
    Inhibit(Inhibit),
    /// The service switch was turned.
    Switch(Switch),
}

silent!(Noticed);

impl From<Noticed> for Input {
    fn from(noticed: Noticed) -> Self {
        match noticed {
            Noticed::Key(key) => Self::Key(key),
            Noticed::Bolt(bolt) => Self::Bolt(bolt),
            Noticed::Door(door) => Self::Door(door),
            Noticed::Supply(measured) => Self::Supply(measured),
            Noticed::Inhibit(inhibit) => Self::Inhibit(inhibit),
            Noticed::Switch(switch) => Self::Switch(switch),
        }
    }
}

/// The drive did not reach where it was sent.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct DriveFault;

/// A board: clock, contacts, keys, drive, alarm line, sounder and display.
pub trait Board {
    /// The moment: uptime, and what the clock chip reads.
    fn now(&mut self) -> Now;

    /// What the contacts report at this moment; asked once, at boot.
    fn contacts(&mut self) -> Contacts;

    /// The oldest thing that the board noticed and did not hand out yet.
    fn notice(&mut self) -> Option<Noticed>;

    /// Moves the blocker. Blocks until it is there.
    ///
    /// # Errors
    /// [`DriveFault`] if it did not get there.
    fn drive(&mut self, to: Drive) -> Result<(), DriveFault>;

    /// Sets the alarm line, and keeps it there.
    fn signal(&mut self, level: Alarm);

    /// Makes a sound.
    fn sound(&mut self, sound: Sound);

    /// Sets the clock chip. A chip that did not take it reads what it likes: the
    /// lock compares it with uptime and stops believing it.
    fn set_clock(&mut self, utc: Utc);

    /// When the firmware was built: a constant of the port. The lock takes no time before
    /// that for the truth, nor one more than 30 years later.
    fn built(&self) -> Utc;

    /// Randomness, new at each power-up; asked once, at boot. From a generator
    /// that is fit for keys: [`Seed::from_rng`] takes any of `rand_core`.
    fn seed(&mut self) -> Seed;

    /// Shows a screen: [`crate::draw`] makes its pixels.
    fn show(&mut self, screen: &Screen);
}
