//! The clock chip, on a mock bus and on a simulated chip.

use std::vec;
use std::vec::Vec;

use embedded_hal::i2c::{ErrorKind, ErrorType as BusError, I2c, Operation};
use embedded_hal_mock::eh1::i2c::{Mock, Transaction};
use proptest::prelude::*;

use crate::drivers::{ADDRESS, ClockChip, NotSet};
use crate::port::Chip;
use crate::time::{Date, Utc};

/// 2027-03-01 08:45:30 UTC, as the registers hold it.
const MONDAY: [u8; 7] = [0x30, 0x45, 0x08, 0x01, 1, 0x03, 0x27];

fn monday() -> Utc {
    let days = u32::from(Date::from_ymd(2027, 3, 1).unwrap().days());
    Utc::from_secs(days * 86_400 + 8 * 3_600 + 45 * 60 + 30)
}

fn reading(control: u8, registers: [u8; 7]) -> Chip {
    let mut bus = Mock::new(&[
        Transaction::write_read(ADDRESS, vec![0], vec![control]),
        Transaction::write_read(ADDRESS, vec![2], registers.to_vec()),
    ]);
    let read = ClockChip::new(bus.clone()).read();
    bus.done();
    read
}

#[test]
fn it_reads_and_is_set() {
    assert_eq!(reading(0, MONDAY), Chip::At(monday()));
    let mut bus = Mock::new(&[
        Transaction::write(ADDRESS, vec![0, 0x20]),
        Transaction::write(ADDRESS, [&[2][..], &MONDAY].concat()),
        Transaction::write(ADDRESS, vec![0, 0]),
    ]);
    assert_eq!(ClockChip::new(bus.clone()).set(monday()), Ok(()));
    bus.done();
}

#[test]
fn what_cannot_be_believed_is_lost() {
    let with = |at: usize, value: u8| {
        let mut registers = MONDAY;
        registers[at] = value;
        registers
    };
    assert_eq!(reading(0, with(0, 0x30 | 0x80)), Chip::Lost, "its flag is up");
    assert_eq!(reading(0x20, MONDAY), Chip::Lost, "it is stopped");
    let never = [
        (0, 0x60),
        (0, 0x3A),
        (1, 0x60),
        (1, 0x0F),
        (2, 0x24),
        (2, 0x1A),
        (3, 0x00),
        (3, 0x32),
        (5, 0x00),
        (5, 0x13),
        (6, 0xA0),
        (6, 0x0B),
    ];
    for (at, value) in never {
        assert_eq!(reading(0, with(at, value)), Chip::Lost, "register {} of {value:#x}", at + 2);
    }
    // 29 February of a year without one.
    assert_eq!(reading(0, [0, 0, 0, 0x29, 1, 0x02, 0x27]), Chip::Lost);
    // Bits that mean nothing may read as anything.
    let noise = [0x30, 0x45 | 0x80, 0x08 | 0xC0, 0x01 | 0xC0, 0xFF, 0x03 | 0xE0, 0x27];
    assert_eq!(reading(0, noise), Chip::At(monday()));
}

/// A chip with 16 registers; it answers `calls` times and then no more, and not in
/// those of its `noise` that are set, a bit a call.
struct Simulated {
    registers: [u8; 16],
    calls: usize,
    noise: u64,
}

impl BusError for Simulated {
    type Error = ErrorKind;
}

impl I2c for Simulated {
    fn transaction(&mut self, address: u8, all: &mut [Operation<'_>]) -> Result<(), ErrorKind> {
        let disturbed = self.noise & 1 != 0;
        self.noise >>= 1;
        if disturbed {
            return Err(ErrorKind::Bus);
        }
        self.calls = self.calls.checked_sub(1).ok_or(ErrorKind::Other)?;
        assert_eq!(address, ADDRESS);
        let mut at = 0;
        for operation in all {
            match operation {
                Operation::Write(bytes) => {
                    at = usize::from(bytes[0]);
                    for (register, byte) in (at..).zip(&bytes[1..]) {
                        self.registers[register] = *byte;
                    }
                }
                Operation::Read(room) => {
                    let from = at;
                    for (register, byte) in (from..).zip(room.iter_mut()) {
                        *byte = self.registers[register];
                    }
                }
            }
        }
        Ok(())
    }
}

fn simulated(calls: usize) -> ClockChip<Simulated> {
    // As it comes up: the flag is up.
    let mut registers = [0; 16];
    registers[2] = 0x80;
    ClockChip::new(Simulated { registers, calls, noise: 0 })
}

/// Whatever fails on the bus, and wherever: the chip reads as set, or as lost.
#[test]
fn a_bus_that_fails_leaves_no_wrong_time() {
    for calls in 0..3 {
        let mut chip = simulated(calls);
        assert_eq!(chip.set(monday()), Err(NotSet));
        chip.bus_mut().calls = 2;
        assert_eq!(chip.read(), Chip::Lost, "after {calls} calls");
    }
    for calls in 0..2 {
        let mut chip = simulated(3);
        chip.set(monday()).unwrap();
        chip.bus_mut().calls = calls;
        assert_eq!(chip.read(), Chip::Lost);
    }
}

/// A call that fails now and then is no lost time: a lock that believed so would open
/// for nobody until two people have set it. Every pattern of failures, of which never
/// three follow one another.
#[test]
fn a_disturbed_bus_is_asked_again() {
    for noise in 0..1_u64 << 12 {
        if (0..12).any(|bit| noise >> bit & 0b111 == 0b111) {
            continue;
        }
        let mut chip = simulated(1_000);
        chip.bus_mut().noise = noise;
        assert_eq!(chip.set(monday()), Ok(()), "{noise:b}");
        chip.bus_mut().noise = noise;
        assert_eq!(chip.read(), Chip::At(monday()), "{noise:b}");
    }
    let mut chip = simulated(1_000);
    chip.set(monday()).unwrap();
    chip.bus_mut().noise = 0b111;
    assert_eq!(chip.read(), Chip::Lost, "it is not asked for ever");
    assert_eq!(chip.read(), Chip::At(monday()));
}

/// A bus that fails before anything is written leaves the chip as it was: running, at its
/// old time. The lock finds that out, since it compares the chip with uptime.
#[test]
fn a_chip_that_could_not_be_reached_goes_on() {
    let mut chip = simulated(3);
    chip.set(monday()).unwrap();
    assert_eq!(chip.set(Utc::from_secs(monday().as_secs() + 3_600)), Err(NotSet));
    chip.bus_mut().calls = 2;
    assert_eq!(chip.read(), Chip::At(monday()));
}

#[test]
fn the_years_of_the_chip() {
    let second =
        |year, month, day| u32::from(Date::from_ymd(year, month, day).unwrap().days()) * 86_400;
    for (at, takes) in [
        (second(2000, 1, 1) - 1, false),
        (second(2000, 1, 1), true),
        (second(2100, 1, 1) - 1, true),
        (second(2100, 1, 1), false),
        (0, false),
        (u32::MAX, false),
    ] {
        let mut chip = simulated(10);
        assert_eq!(chip.set(Utc::from_secs(at)).is_ok(), takes);
        let expected = if takes { Chip::At(Utc::from_secs(at)) } else { Chip::Lost };
        assert_eq!(chip.read(), expected);
    }
}

proptest! {
    /// Set and read again; a day's rollover in between is the chip's business.
    #[test]
    fn what_is_set_is_read(at in 946_684_800_u32..4_102_444_800) {
        let mut chip = simulated(5);
        chip.set(Utc::from_secs(at)).unwrap();
        prop_assert_eq!(chip.read(), Chip::At(Utc::from_secs(at)));
    }

    /// No registers make it panic, and what it believes it would write just so.
    #[test]
    fn any_registers_are_a_time_or_lost(registers: [u8; 7]) {
        if let Chip::At(utc) = reading(0, registers) {
            let mut chip = simulated(3);
            chip.set(utc).unwrap();
            let masks = [0x7F, 0x7F, 0x3F, 0x3F, 0, 0x1F, 0xFF];
            let masked = |from: &[u8]| -> Vec<u8> {
                from.iter().zip(masks).map(|(byte, mask)| byte & mask).collect()
            };
            prop_assert_eq!(masked(&registers), masked(&chip.bus_mut().registers[2..9]));
        }
    }
}
