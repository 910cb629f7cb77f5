//! The clock chip's registers against jiff: what is set is the civil time of that
//! instant in UTC, each part in binary coded decimals, and what is read is the instant
//! of that civil time. Source: jiff 1.0; the places of the registers are those that
//! `drivers/clock_chip.rs` states from memory, so this checks the calendar and the
//! digits in them, not a chip.

use embedded_hal::i2c::{ErrorKind, ErrorType, I2c, Operation};
use jiff::tz::TimeZone;
use jiff::{Timestamp, civil};
use lock_core::drivers::{ADDRESS, ClockChip};
use lock_core::port::Chip;
use lock_core::time::Utc;
use proptest::prelude::*;

/// Nothing but registers.
#[derive(Default)]
struct Registers([u8; 16]);

impl ErrorType for Registers {
    type Error = ErrorKind;
}

impl I2c for Registers {
    fn transaction(&mut self, address: u8, all: &mut [Operation<'_>]) -> Result<(), ErrorKind> {
        assert_eq!(address, ADDRESS);
        let mut at = 0;
        for operation in all {
            match operation {
                Operation::Write(bytes) => {
                    at = usize::from(bytes[0]);
                    self.0[at..at + bytes.len() - 1].copy_from_slice(&bytes[1..]);
                }
                Operation::Read(room) => room.copy_from_slice(&self.0[at..at + room.len()]),
            }
        }
        Ok(())
    }
}

/// 2000-01-01 and 2100-01-01, midnight UTC: the years of the chip.
const YEARS: std::ops::Range<u32> = 946_684_800..4_102_444_800;

fn civil_of(at: u32) -> civil::DateTime {
    TimeZone::UTC.to_datetime(Timestamp::from_second(at.into()).unwrap())
}

fn midnight(date: civil::Date) -> Timestamp {
    TimeZone::UTC.to_timestamp(date.at(0, 0, 0, 0)).unwrap()
}

/// The registers from seconds to year of a civil time, as decimal digits.
fn expected(time: civil::DateTime) -> [u8; 7] {
    let digits = |number: i8| u8::from_str_radix(&format!("{number:02}"), 16).unwrap();
    [
        digits(time.second()),
        digits(time.minute()),
        digits(time.hour()),
        digits(time.day()),
        u8::try_from(time.weekday().to_sunday_zero_offset()).unwrap(),
        digits(time.month()),
        digits(i8::try_from(time.year() - 2_000).unwrap()),
    ]
}

fn round_trip(at: u32) {
    let mut chip = ClockChip::new(Registers::default());
    chip.set(Utc::from_secs(at)).expect("it answers");
    let time = civil_of(at);
    assert_eq!(chip.bus_mut().0[2..9], expected(time), "{time}");
    assert_eq!(chip.read(), Chip::At(Utc::from_secs(at)), "{time}");
}

/// The first and the last second of every day of the chip's hundred years.
#[test]
fn every_day_of_the_chip_is_that_of_the_calendar() {
    for midnight in YEARS.step_by(86_400) {
        round_trip(midnight);
        round_trip(midnight + 86_399);
    }
}

/// Every day, month and year that two digits can write: the chip is believed if there
/// is such a date, and then it is that one.
#[test]
fn dates_that_jiff_does_not_know_are_lost() {
    let digits = |number: u8| (number / 10) << 4 | (number % 10);
    let mut known = 0;
    for (year, month) in (0..100_u8).flat_map(|year| (0..20_u8).map(move |month| (year, month))) {
        for day in 0..40_u8 {
            let mut registers = Registers::default();
            registers.0[2..9].copy_from_slice(&[
                0,
                0,
                0,
                digits(day),
                0,
                digits(month),
                digits(year),
            ]);
            let (y, m, d) = (2_000 + i16::from(year), month.cast_signed(), day.cast_signed());
            let date = civil::Date::new(y, m, d).ok();
            let said = date.map_or(Chip::Lost, |date| {
                known += 1;
                let at = midnight(date).as_second();
                Chip::At(Utc::from_secs(u32::try_from(at).unwrap()))
            });
            assert_eq!(ClockChip::new(registers).read(), said, "{y}-{m}-{d}");
        }
    }
    // A hundred years, 25 of them leap years.
    assert_eq!(known, 36_525);
}

proptest! {
    #[test]
    fn any_second_of_the_chip_is_that_of_the_calendar(at in YEARS) {
        round_trip(at);
    }
}
