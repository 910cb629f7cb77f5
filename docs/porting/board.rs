//! A whole board, from the drivers of lock-core: what a port writes.
//!
//! Put your chip's pins, bus, timer and display in where `Parts` has its type
//! parameters. `docs/porting.md` goes through it line by line.

use core::convert::Infallible;

use embedded_graphics::draw_target::DrawTarget;
use embedded_graphics::pixelcolor::BinaryColor;
use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{InputPin, OutputPin};
use embedded_hal::i2c::I2c;
use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::draw;
use lock_core::drivers::{AlarmPins, Buzzer, ClockChip, Contact, Divider, Matrix, MotorDrive};
use lock_core::keys::KeyQueue;
use lock_core::policy::Millivolts;
use lock_core::port::{Alarm, Bolt, Contacts, Door, Drive, Inhibit, Now, Sound, Switch};
use lock_core::screen::Screen;
use lock_core::seed::Seed;
use lock_core::time::{Uptime, Utc};
use rand_core::TryCryptoRng;

/// What the drivers leave to the chip: a timer that never jumps, the converter at the
/// divider, and, for the display, handing its picture over.
pub trait Chip {
    /// Milliseconds since the boot.
    fn millis(&self) -> u64;
    /// What the converter reads under load, if a measurement is due.
    fn reading(&mut self) -> Option<u16>;
    /// The display takes the picture over: slow, on e-paper.
    fn refresh(&mut self);
}

/// The parts of a board. `O` is an output pin, `I` an input pin.
pub struct Parts<O, I, B, D, C, G, T> {
    pub chip: C,
    pub keypad: Matrix<O, I>,
    pub keys: &'static KeyQueue,
    pub bolt: Contact<I>,
    pub door: Contact<I>,
    pub inhibit: Contact<I>,
    pub switch: Contact<I>,
    pub drive: MotorDrive<O, O, I, I, D>,
    pub alarm: AlarmPins<O, O>,
    pub buzzer: Buzzer<O>,
    pub divider: Divider,
    pub clock: ClockChip<B>,
    pub delay: D,
    pub random: G,
    pub picture: T,
}

impl<O, I, B, D, C, G, T> Parts<O, I, B, D, C, G, T>
where
    O: OutputPin,
    I: InputPin,
    B: I2c,
    D: DelayNs,
    C: Chip,
    G: TryCryptoRng,
    T: DrawTarget<Color = BinaryColor, Error = Infallible>,
{
    /// Every 5 ms while anybody types or a sound is made: from the main loop, or from
    /// the timer's interrupt if keypad and buzzer live there.
    pub fn tick(&mut self) {
        if let Some(key) = self.keypad.scan(&mut self.delay) {
            // A full queue loses the key, as if the finger had slipped.
            let _ = self.keys.push(key);
        }
        let now = Uptime::from_millis(self.chip.millis());
        let _ = self.buzzer.poll(now);
    }

    fn supply(&mut self) -> Option<Millivolts> {
        self.chip.reading().map(|reading| self.divider.supply(reading))
    }
}

impl<O, I, B, D, C, G, T> Board for Parts<O, I, B, D, C, G, T>
where
    O: OutputPin,
    I: InputPin,
    B: I2c,
    D: DelayNs,
    C: Chip,
    G: TryCryptoRng,
    T: DrawTarget<Color = BinaryColor, Error = Infallible>,
{
    fn now(&mut self) -> Now {
        Now { uptime: Uptime::from_millis(self.chip.millis()), chip: self.clock.read() }
    }

    // A contact is active on its safe side: drawn, open, set. The service switch is the
    // other way round: a broken line is off.
    fn contacts(&mut self) -> Contacts {
        Contacts {
            bolt: bolt(self.bolt.read()),
            door: door(self.door.read()),
            inhibit: inhibit(self.inhibit.read()),
            switch: switch(self.switch.read()),
        }
    }

    fn notice(&mut self) -> Option<Noticed> {
        let contact = self.bolt.changed().map(|active| Noticed::Bolt(bolt(active)));
        contact
            .or_else(|| self.door.changed().map(|active| Noticed::Door(door(active))))
            .or_else(|| self.inhibit.changed().map(|active| Noticed::Inhibit(inhibit(active))))
            .or_else(|| self.switch.changed().map(|active| Noticed::Switch(switch(active))))
            .or_else(|| self.supply().map(Noticed::Supply))
            .or_else(|| self.keys.take().map(Noticed::Key))
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        self.drive.drive(to)
    }

    fn signal(&mut self, level: Alarm) {
        self.alarm.signal(level);
    }

    fn sound(&mut self, sound: Sound) {
        self.buzzer.play(sound, Uptime::from_millis(self.chip.millis()));
    }

    fn set_clock(&mut self, utc: Utc) {
        // A chip that did not take it reads as lost: the lock sees that itself.
        let _ = self.clock.set(utc);
    }

    fn seed(&mut self) -> Seed {
        match Seed::from_rng(&mut self.random) {
            Ok(seed) => seed,
            // Salts and keys would be known: better no lock. The watchdog boots again.
            Err(_) => loop {
                self.delay.delay_ms(1_000);
            },
        }
    }

    fn show(&mut self, screen: &Screen) {
        match draw::screen(screen, &mut self.picture) {
            Ok(()) => self.chip.refresh(),
            Err(never) => match never {},
        }
    }
}

fn bolt(active: bool) -> Bolt {
    if active { Bolt::Drawn } else { Bolt::Thrown }
}

fn door(active: bool) -> Door {
    if active { Door::Open } else { Door::Closed }
}

fn inhibit(active: bool) -> Inhibit {
    if active { Inhibit::Set } else { Inhibit::Clear }
}

fn switch(active: bool) -> Switch {
    if active { Switch::On } else { Switch::Off }
}
