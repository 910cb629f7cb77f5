//! A whole board, from the drivers of lock-core: what a port writes.
//!
//! Put your chip's pins, bus, timer and display in where `Parts` has its type
//! parameters. `docs/porting.md` goes through it line by line.

use core::cell::Cell;
use core::convert::Infallible;

use critical_section::Mutex;
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

/// What the drivers leave to the chip: a timer that never jumps nor sleeps, the converter
/// at the divider, and, for the display, handing its picture over.
pub trait Chip {
    /// Milliseconds since the boot.
    fn millis(&self) -> u64;
    /// What the converter reads under load, once after each measurement.
    fn reading(&mut self) -> Option<u16>;
    /// The display begins to take the picture over: slow, on e-paper.
    fn refresh(&mut self);
}

/// A sound on its way from the main loop to the timer's interrupt.
pub type SoundSlot = Mutex<Cell<Option<Sound>>>;

/// What a person feels at once: the timer's interrupt has it, since a picture takes
/// longer to draw than a finger stays on a key.
pub struct Front<O, I, D> {
    pub keypad: Matrix<O, I>,
    pub keys: &'static KeyQueue,
    pub buzzer: Buzzer<O>,
    pub sound: &'static SoundSlot,
    pub delay: D,
}

impl<O: OutputPin, I: InputPin, D: DelayNs> Front<O, I, D> {
    /// Every 5 ms. Without a finger and a sound it is false: the timer may stop until a
    /// key or a contact makes an edge.
    pub fn tick(&mut self, now: Uptime) -> bool {
        if let Some(key) = self.keypad.scan(&mut self.delay) {
            // A full queue loses the key, as if the finger had slipped.
            let _ = self.keys.push(key);
        }
        if let Some(sound) = critical_section::with(|held| self.sound.borrow(held).take()) {
            self.buzzer.play(sound, now);
        }
        let sounds = self.buzzer.poll(now).is_some();
        if self.keypad.is_idle() {
            self.keypad.rest();
        }
        sounds || !self.keypad.is_idle()
    }
}

/// The other parts of a board. `O` is an output pin, `I` an input pin.
pub struct Parts<O, I, B, D, C, G, T: 'static> {
    pub chip: C,
    pub keys: &'static KeyQueue,
    pub sound: &'static SoundSlot,
    pub bolt: Contact<I>,
    pub door: Contact<I>,
    pub inhibit: Contact<I>,
    pub switch: Contact<I>,
    pub drive: MotorDrive<O, O, I, I>,
    pub alarm: AlarmPins<O, O>,
    pub divider: Divider,
    pub clock: ClockChip<B>,
    pub delay: D,
    pub random: G,
    pub picture: &'static mut T,
}

impl<O, I, B, D, C, G, T> Parts<O, I, B, D, C, G, T>
where
    O: OutputPin,
    I: InputPin,
    C: Chip,
{
    /// Whether the timer has to run: a contact moves and is to be asked again, or a sound
    /// waits for its tick.
    pub fn needs_ticks(&self) -> bool {
        let contacts = [&self.bolt, &self.door, &self.inhibit, &self.switch];
        contacts.into_iter().any(Contact::is_settling)
            || critical_section::with(|held| self.sound.borrow(held).get().is_some())
    }

    fn uptime(&self) -> Uptime {
        Uptime::from_millis(self.chip.millis())
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
        Now { uptime: self.uptime(), chip: self.clock.read() }
    }

    // A contact is active on its safe side: drawn, open, set, off.
    fn contacts(&mut self) -> Contacts {
        Contacts {
            bolt: bolt(self.bolt.read()),
            door: door(self.door.read()),
            inhibit: inhibit(self.inhibit.read()),
            switch: switch(self.switch.read()),
        }
    }

    fn built(&self) -> Utc {
        // 2026-11-30 00:00:00: have the build set it.
        Utc::from_secs(1_795_996_800)
    }

    fn notice(&mut self) -> Option<Noticed> {
        let now = self.uptime();
        let contact = self.bolt.steady(now).map(|active| Noticed::Bolt(bolt(active)));
        contact
            .or_else(|| self.door.steady(now).map(|active| Noticed::Door(door(active))))
            .or_else(|| self.inhibit.steady(now).map(|active| Noticed::Inhibit(inhibit(active))))
            .or_else(|| self.switch.steady(now).map(|active| Noticed::Switch(switch(active))))
            .or_else(|| self.supply().map(Noticed::Supply))
            .or_else(|| self.keys.take().map(Noticed::Key))
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        self.drive.drive(to, &mut self.delay)
    }

    fn signal(&mut self, level: Alarm) {
        self.alarm.signal(level);
    }

    fn sound(&mut self, sound: Sound) {
        critical_section::with(|held| self.sound.borrow(held).set(Some(sound)));
    }

    fn set_clock(&mut self, utc: Utc) {
        // A chip that did not take it is found out: the lock compares it with uptime.
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
        match draw::screen(screen, self.picture) {
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
    if active { Switch::Off } else { Switch::On }
}
