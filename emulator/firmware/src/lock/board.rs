//! The board as the lock sees it.

use core::cell::{Cell, RefCell};
use core::convert::Infallible;

use critical_section::Mutex;
use embedded_hal::digital::{ErrorType, InputPin, OutputPin};
use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::draw::{self, Frame};
use lock_core::drivers::{Active, AlarmPins, Contact, DrivePin};
use lock_core::keys::{Key, KeyQueue};
use lock_core::policy::Millivolts;
use lock_core::port::{Alarm, Bolt, Chip, Contacts, Door, Drive, Inhibit, Now, Sound, Switch};
use lock_core::screen::Screen;
use lock_core::seed::Seed;
use lock_core::time::{Uptime, Utc};

use crate::registers;

/// Keys that the keypad's interrupt saw.
static KEYS: KeyQueue = KeyQueue::new();

/// The picture; the display takes it from there.
static FRAME: Mutex<RefCell<Frame>> = Mutex::new(RefCell::new(Frame::new()));

/// Ticks of the timer in a millisecond.
const TICKS: u32 = 25_000;

/// Registers of the board's own.
const CLOCK: usize = 0;
const CLOCK_VALID: usize = 1;
const GENERATOR: usize = 2;
const SUPPLY: usize = 3;
const SOUNDER: usize = 4;
const DISPLAY: usize = 5;

/// Milliseconds after which a contact that bounces is looked at again.
const SETTLING: u64 = 5;

/// The keys that were down at the last interrupt, a bit each.
static DOWN: Mutex<Cell<u32>> = Mutex::new(Cell::new(0));

/// The keypad's interrupt calls it.
#[cortex_m_rt::exception]
fn SysTick() {
    let down = registers::own(6);
    let before = critical_section::with(|held| DOWN.borrow(held).replace(down));
    for (row, keys) in (0_u32..).zip(Key::LAYOUT) {
        for (place, key) in (0_u32..).zip(keys) {
            if down & !before & 1_u32.checked_shl(row * 3 + place).unwrap_or(0) != 0 {
                let _ = KEYS.push(key);
            }
        }
    }
}

/// A pin, by its number.
struct Pin(u8);

impl ErrorType for Pin {
    type Error = Infallible;
}

impl InputPin for Pin {
    fn is_high(&mut self) -> Result<bool, Infallible> {
        Ok(registers::level(self.0))
    }

    fn is_low(&mut self) -> Result<bool, Infallible> {
        Ok(!registers::level(self.0))
    }
}

impl OutputPin for Pin {
    fn set_low(&mut self) -> Result<(), Infallible> {
        registers::set(self.0, false);
        Ok(())
    }

    fn set_high(&mut self) -> Result<(), Infallible> {
        registers::set(self.0, true);
        Ok(())
    }
}

/// The board.
pub struct Desk {
    bolt: Contact<Pin>,
    door: Contact<Pin>,
    inhibit: Contact<Pin>,
    switch: Contact<Pin>,
    drive: DrivePin<Pin>,
    alarm: AlarmPins<Pin, Pin>,
    ticks: u32,
    millis: u64,
}

impl Desk {
    pub const fn new() -> Self {
        Self {
            bolt: Contact::new(Pin(0), Active::High),
            door: Contact::new(Pin(1), Active::High),
            inhibit: Contact::new(Pin(2), Active::Low),
            switch: Contact::new(Pin(3), Active::High),
            drive: DrivePin::new(Pin(4)),
            alarm: AlarmPins::new(Pin(5), Pin(6)),
            ticks: 0,
            millis: 0,
        }
    }

    /// An interrupt is to wake the lock at that moment, or before.
    pub fn wake_at(&mut self, wake: Option<Uptime>) {
        let contacts = [&self.bolt, &self.door, &self.inhibit, &self.switch];
        let settling = contacts.into_iter().any(Contact::is_settling);
        let now = self.now().uptime.as_millis();
        let sleep = wake.map_or(u64::MAX, |wake| wake.as_millis().saturating_sub(now));
        let sleep = if settling { sleep.min(SETTLING) } else { sleep };
        // Whoever wakes too early goes to sleep again.
        registers::wake_after(u32::try_from(sleep).unwrap_or(u32::MAX).saturating_mul(TICKS));
    }
}

impl Board for Desk {
    fn now(&mut self) -> Now {
        let ticks = registers::timer();
        let passed = self.ticks.wrapping_sub(ticks) / TICKS;
        self.ticks = self.ticks.wrapping_sub(passed.wrapping_mul(TICKS));
        self.millis = self.millis.saturating_add(passed.into());
        let chip = match registers::own(CLOCK_VALID) {
            0 => Chip::Lost,
            _ => Chip::At(Utc::from_secs(registers::own(CLOCK))),
        };
        Now { uptime: Uptime::from_millis(self.millis), chip }
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
        let now = self.now().uptime;
        if let Some(up) = self.bolt.steady(now) {
            return Some(Noticed::Bolt(bolt(up)));
        }
        if let Some(up) = self.door.steady(now) {
            return Some(Noticed::Door(door(up)));
        }
        if let Some(up) = self.inhibit.steady(now) {
            return Some(Noticed::Inhibit(inhibit(up)));
        }
        if let Some(up) = self.switch.steady(now) {
            return Some(Noticed::Switch(switch(up)));
        }
        let [low, high, ready, _] = registers::own(SUPPLY).to_le_bytes();
        if ready != 0 {
            return Some(Noticed::Supply(Millivolts::new(u16::from_le_bytes([low, high]))));
        }
        KEYS.take().map(Noticed::Key)
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        self.drive.drive(to)
    }

    fn signal(&mut self, level: Alarm) {
        self.alarm.signal(level);
    }

    fn sound(&mut self, sound: Sound) {
        registers::set_own(
            SOUNDER,
            match sound {
                Sound::Key => 1,
                Sound::Accepted => 2,
                Sound::Refused => 3,
                Sound::Warning => 4,
            },
        );
    }

    fn set_clock(&mut self, utc: Utc) {
        registers::set_own(CLOCK, utc.as_secs());
    }

    fn seed(&mut self) -> Seed {
        let mut bytes = [0; Seed::LEN];
        for byte in &mut bytes {
            *byte = registers::own(GENERATOR).to_le_bytes()[0];
        }
        Seed::new(bytes)
    }

    fn show(&mut self, screen: &Screen) {
        critical_section::with(|held| {
            let Ok(mut frame) = FRAME.borrow(held).try_borrow_mut() else { return };
            let Ok(()) = draw::screen(screen, &mut *frame);
            for byte in frame.bytes() {
                registers::set_own(DISPLAY, (*byte).into());
            }
        });
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
