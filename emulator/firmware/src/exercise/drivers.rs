//! Drivers, on pins and a bus that answer anything or fail.

use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{ErrorKind as PinFault, ErrorType, InputPin, OutputPin};
use embedded_hal::i2c::{ErrorKind as BusFault, ErrorType as BusError, I2c, Operation};
use lock_core::drivers::{
    Active, AlarmPins, Buzzer, ClockChip, Contact, Divider, DrivePin, LineSeen, Matrix, MotorDrive,
    Resistance, nominal,
};
use lock_core::policy::Millivolts;
use lock_core::port::{Alarm, Chip, Drive, Sound};
use lock_core::time::{Uptime, Utc};

use crate::outside;

struct Pin;

impl ErrorType for Pin {
    type Error = PinFault;
}

impl InputPin for Pin {
    fn is_high(&mut self) -> Result<bool, PinFault> {
        match outside::byte() {
            0 => Ok(false),
            1 => Ok(true),
            _ => Err(PinFault::Other),
        }
    }

    fn is_low(&mut self) -> Result<bool, PinFault> {
        self.is_high().map(|high| !high)
    }
}

impl OutputPin for Pin {
    fn set_low(&mut self) -> Result<(), PinFault> {
        outside::put(b'l');
        self.is_high().map(|_| ())
    }

    fn set_high(&mut self) -> Result<(), PinFault> {
        outside::put(b'h');
        self.is_high().map(|_| ())
    }
}

struct Bus;

impl BusError for Bus {
    type Error = BusFault;
}

impl I2c for Bus {
    fn transaction(&mut self, _: u8, all: &mut [Operation<'_>]) -> Result<(), BusFault> {
        for operation in all {
            match operation {
                Operation::Read(room) => room.fill_with(outside::byte),
                Operation::Write(bytes) => outside::put_all(bytes),
            }
        }
        if outside::byte() == 0 { Ok(()) } else { Err(BusFault::Bus) }
    }
}

struct Passing;

impl DelayNs for Passing {
    fn delay_ns(&mut self, nanos: u32) {
        outside::put(nanos);
    }
}

fn uptime() -> Uptime {
    Uptime::from_millis(u64::from_le_bytes(outside::bytes()))
}

fn active() -> Active {
    if outside::byte() == 0 { Active::Low } else { Active::High }
}

#[inline(never)]
pub fn keypad() {
    let mut matrix = Matrix::new([Pin, Pin, Pin, Pin], [Pin, Pin, Pin]);
    while outside::byte() != 0 {
        outside::put(u8::from(matrix.scan(&mut Passing).is_some()));
        if matrix.is_idle() {
            matrix.rest();
        }
    }
}

#[inline(never)]
pub fn contacts() {
    let mut contact = Contact::new(Pin, active());
    while outside::byte() != 0 {
        for told in [Some(contact.read()), contact.changed(), contact.steady(uptime())] {
            outside::put(told.map_or(2, u8::from));
        }
        outside::put(u8::from(contact.is_settling()));
    }
}

#[inline(never)]
pub fn drives() {
    let within = u16::from_le_bytes(outside::bytes());
    let mut motor = MotorDrive::new((Pin, Pin), (Pin, Pin), active(), within);
    let mut pin = DrivePin::new(Pin);
    for to in [Drive::Free, Drive::Block] {
        outside::put(u8::from(motor.drive(to, &mut Passing).is_ok()));
        outside::put(u8::from(pin.drive(to).is_ok()));
    }
}

#[inline(never)]
pub fn sounds() {
    let mut buzzer = Buzzer::new(Pin);
    while let Some(sound) = outside::any::<Sound>() {
        buzzer.play(sound, uptime());
        outside::keep(&buzzer.poll(uptime()));
    }
}

#[inline(never)]
pub fn lines() {
    let mut pins = AlarmPins::new(Pin, Pin);
    while let Some(level) = outside::any::<Alarm>() {
        pins.signal(level);
        outside::put(nominal(level).0);
        let seen = LineSeen::judge(Resistance(u32::from_le_bytes(outside::bytes())));
        outside::put(u8::from(seen == LineSeen::Level(level)));
    }
}

#[inline(never)]
pub fn measurements() {
    let divider = Divider {
        upper: u32::from_le_bytes(outside::bytes()),
        lower: u32::from_le_bytes(outside::bytes()),
        reference: Millivolts::new(u16::from_le_bytes(outside::bytes())),
        full_scale: u16::from_le_bytes(outside::bytes()),
    };
    outside::put(divider.supply(u16::from_le_bytes(outside::bytes())).get());
}

#[inline(never)]
pub fn clock_chip() {
    let mut chip = ClockChip::new(Bus);
    let utc = Utc::from_secs(u32::from_le_bytes(outside::bytes()));
    outside::put(u8::from(chip.set(utc).is_ok()));
    match chip.read() {
        Chip::At(utc) => outside::put(utc.as_secs()),
        Chip::Lost => outside::put(0_u8),
    }
}
