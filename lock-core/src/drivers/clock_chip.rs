//! A real-time clock on I²C with a flag that says whether its time can be believed:
//! the register layout that a widespread family of chips shares (address 0x51, seconds
//! at register 2; from memory).
//!
//! ```text
//! 0  control   bit 5: stopped
//! 2  seconds   BCD 0-59; bit 7: the voltage was too low since it was set
//! 3  minutes   BCD 0-59
//! 4  hours     BCD 0-23
//! 5  day       BCD 1-31
//! 6  weekday   0-6, Sunday 0; not relied upon
//! 7  month     BCD 1-12; bit 7: century, not used
//! 8  year      BCD 0-99, of 2000
//! ```
//!
//! The chip keeps UTC: a lock's time never jumps with the seasons. A time that cannot
//! be, a chip that does not answer and a chip that is stopped read as lost, never as
//! some time. A call that fails is made again before that, since a lock that has lost its
//! time opens for few until two people have set it.

use embedded_hal::i2c::I2c;

use crate::port::Chip;
use crate::time::{DAY_SECONDS, Date, Utc, Weekday};

/// The chip's address, seven bits.
pub const ADDRESS: u8 = 0x51;

/// How often a call is made that the bus does not carry out. Ours: a disturbance is over by
/// then, and a chip that is not there costs little time.
const TRIES: u8 = 3;

const CONTROL: u8 = 0;
const STOPPED: u8 = 0b0010_0000;
const SECONDS: u8 = 2;
const LOW_VOLTAGE: u8 = 0b1000_0000;
const CENTURY: u16 = 2_000;

/// A clock chip. Hand it the bus, or a share of one.
pub struct ClockChip<I> {
    bus: I,
}

/// The chip was not set: it did not answer, or its years do not reach there.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NotSet;

impl<I: I2c> ClockChip<I> {
    /// The chip on `bus`.
    pub const fn new(bus: I) -> Self {
        Self { bus }
    }

    /// The bus, for the other chips on it.
    pub const fn bus_mut(&mut self) -> &mut I {
        &mut self.bus
    }

    /// What the chip says: its time, or that it has lost it.
    pub fn read(&mut self) -> Chip {
        let (mut control, mut registers) = ([0; 1], [0; 7]);
        let asked = self.tried(|bus| bus.write_read(ADDRESS, &[CONTROL], &mut control));
        // In one go: the chip holds its registers meanwhile, so that no carry comes
        // in between.
        let asked = asked
            .and_then(|()| self.tried(|bus| bus.write_read(ADDRESS, &[SECONDS], &mut registers)));
        let [control] = control;
        if asked.is_err() || control & STOPPED != 0 {
            return Chip::Lost;
        }
        time(registers).map_or(Chip::Lost, Chip::At)
    }

    /// Sets the chip, and clears its flag. It stands still meanwhile, so that no
    /// second passes within; if the bus fails in between it stays stopped, and reads
    /// as lost. A chip that could not be reached at all goes on as it was.
    ///
    /// # Errors
    /// [`NotSet`].
    pub fn set(&mut self, utc: Utc) -> Result<(), NotSet> {
        let [second, minute, hour, day, weekday, month, year] = registers(utc).ok_or(NotSet)?;
        let registers = [SECONDS, second, minute, hour, day, weekday, month, year];
        for bytes in [&[CONTROL, STOPPED][..], &registers, &[CONTROL, 0]] {
            self.tried(|bus| bus.write(ADDRESS, bytes)).map_err(|_| NotSet)?;
        }
        Ok(())
    }

    /// What a call comes to, made again if the bus did not carry it out. All calls are such
    /// that twice is as good as once.
    fn tried(
        &mut self,
        mut call: impl FnMut(&mut I) -> Result<(), I::Error>,
    ) -> Result<(), I::Error> {
        let mut result = call(&mut self.bus);
        for _ in 1..TRIES {
            if result.is_ok() {
                break;
            }
            result = call(&mut self.bus);
        }
        result
    }
}

/// The time of the registers; `None` if it cannot be one, or is not to be believed.
fn time(registers: [u8; 7]) -> Option<Utc> {
    let [second, minute, hour, day, _, month, year] = registers;
    if second & LOW_VOLTAGE != 0 {
        return None;
    }
    // Bits that mean nothing may read as anything.
    let (second, minute) = (binary(second & 0x7F, 59)?, binary(minute & 0x7F, 59)?);
    let (hour, day) = (binary(hour & 0x3F, 23)?, binary(day & 0x3F, 31)?);
    let (month, year) = (binary(month & 0x1F, 12)?, binary(year, 99)?);
    let date = Date::from_ymd(CENTURY.checked_add(u16::from(year))?, month, day)?;
    let of_day = u32::from(hour)
        .checked_mul(60)?
        .checked_add(u32::from(minute))?
        .checked_mul(60)?
        .checked_add(u32::from(second))?;
    let days = u32::from(date.days()).checked_mul(DAY_SECONDS)?;
    Some(Utc::from_secs(days.checked_add(of_day)?))
}

/// The registers of a time; `None` outside the chip's years.
fn registers(utc: Utc) -> Option<[u8; 7]> {
    let seconds = utc.as_secs();
    let days = u16::try_from(seconds.checked_div(DAY_SECONDS)?).ok()?;
    let date = Date::from_days(days);
    let (year, month, day) = date.ymd();
    let year = u8::try_from(year.checked_sub(CENTURY)?).ok().filter(|year| *year <= 99)?;
    let of_day = seconds.checked_rem(DAY_SECONDS)?;
    let part = |length: u32, of: u32| {
        let part = of_day.checked_div(length)?.checked_rem(of)?;
        u8::try_from(part).ok()
    };
    let weekday = match date.weekday() {
        Weekday::Sun => 0,
        Weekday::Mon => 1,
        Weekday::Tue => 2,
        Weekday::Wed => 3,
        Weekday::Thu => 4,
        Weekday::Fri => 5,
        Weekday::Sat => 6,
    };
    Some([
        bcd(part(1, 60)?),
        bcd(part(60, 60)?),
        bcd(part(3_600, 24)?),
        bcd(day),
        weekday,
        bcd(month),
        bcd(year),
    ])
}

/// A number up to `most` from two decimal digits in four bits each.
fn binary(bcd: u8, most: u8) -> Option<u8> {
    let (tens, ones) = (bcd.wrapping_shr(4), bcd & 0x0F);
    if tens > 9 || ones > 9 {
        return None;
    }
    let number = tens.checked_mul(10)?.checked_add(ones)?;
    (number <= most).then_some(number)
}

/// The other way round, for numbers up to 99.
fn bcd(number: u8) -> u8 {
    let tens = number.checked_div(10).unwrap_or(0);
    let ones = number.saturating_sub(tens.saturating_mul(10));
    tens.wrapping_shl(4) | ones
}
