//! A zone in 24 bytes, as it lies in flash and travels to the lock.
//!
//! ```text
//!  0  standard offset, seconds east of UTC, i32
//!  4  daylight-saving offset, i32; 0 without daylight saving
//!  8  start: kind, then three bytes by kind
//! 12  start: time, seconds, i32
//! 16  end: kind, then three bytes by kind
//! 20  end: time, seconds, i32
//!
//! kind 0  no daylight saving; everything after byte 4 is 0
//! kind 1  month 1-12, week 1-5, weekday 0-6 (0 = Sunday)
//! kind 2  day 1-365 without leap days, u16; 0
//! kind 3  day 0-365 with leap days, u16; 0
//! ```
//!
//! All numbers are little-endian. Every zone has exactly one such form, and
//! bytes that are none are refused; erased flash, all ones, is one of those.

use super::{Daylight, Offset, Switch, YearDay, Zone};

const NO_DAYLIGHT: u8 = 0;
const NTH: u8 = 1;
const COMMON: u8 = 2;
const ORDINAL: u8 = 3;
/// The largest time of a switch either way, 167:59:59 (RFC 9636).
const TIME_LIMIT: i32 = 604_799;

/// Bytes that are no zone arrived where one belongs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NotAZone;

impl core::fmt::Display for NotAZone {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("these bytes are no zone rule")
    }
}

impl core::error::Error for NotAZone {}

impl Zone {
    /// Bytes of a zone in flash.
    pub const BYTES: usize = 24;

    /// The zone as bytes; [`Zone::from_bytes`] reads them back.
    #[must_use]
    pub fn to_bytes(&self) -> [u8; Self::BYTES] {
        let none = ([NO_DAYLIGHT, 0, 0, 0], [0; 4]);
        let (offset, starts, ends) = match self.daylight {
            None => ([0; 4], none, none),
            Some(daylight) => (
                daylight.offset.as_secs().to_le_bytes(),
                daylight.starts.to_bytes(),
                daylight.ends.to_bytes(),
            ),
        };
        let fields =
            [self.standard.as_secs().to_le_bytes(), offset, starts.0, starts.1, ends.0, ends.1];
        let mut bytes = [0; Self::BYTES];
        for (to, from) in bytes.iter_mut().zip(fields.iter().flatten()) {
            *to = *from;
        }
        bytes
    }

    /// The zone of these bytes.
    ///
    /// # Errors
    ///
    /// [`NotAZone`] for anything that [`Zone::to_bytes`] does not make.
    pub fn from_bytes(bytes: &[u8; Self::BYTES]) -> Result<Self, NotAZone> {
        let [standard, offset, day_starts, time_starts, day_ends, time_ends] = words(bytes);
        let standard = offset_of(standard)?;
        if day_starts == [NO_DAYLIGHT, 0, 0, 0] {
            let rest = [offset, time_starts, day_ends, time_ends];
            return if rest.iter().flatten().all(|&byte| byte == 0) {
                Ok(Self { standard, daylight: None })
            } else {
                Err(NotAZone)
            };
        }
        Ok(Self {
            standard,
            daylight: Some(Daylight {
                offset: offset_of(offset)?,
                starts: Switch::from_bytes(day_starts, time_starts)?,
                ends: Switch::from_bytes(day_ends, time_ends)?,
            }),
        })
    }
}

impl TryFrom<[u8; Self::BYTES]> for Zone {
    type Error = NotAZone;

    fn try_from(bytes: [u8; Self::BYTES]) -> Result<Self, NotAZone> {
        Self::from_bytes(&bytes)
    }
}

impl From<Zone> for [u8; Zone::BYTES] {
    fn from(zone: Zone) -> Self {
        zone.to_bytes()
    }
}

impl Switch {
    fn to_bytes(self) -> ([u8; 4], [u8; 4]) {
        let counted = |kind, day: u16| {
            let [low, high] = day.to_le_bytes();
            [kind, low, high, 0]
        };
        let day = match self.day {
            YearDay::Nth { month, week, weekday } => [NTH, month, week, weekday],
            YearDay::Common(day) => counted(COMMON, day),
            YearDay::Ordinal(day) => counted(ORDINAL, day),
        };
        (day, self.time.to_le_bytes())
    }

    fn from_bytes(day: [u8; 4], time: [u8; 4]) -> Result<Self, NotAZone> {
        let time = i32::from_le_bytes(time);
        if !(-TIME_LIMIT..=TIME_LIMIT).contains(&time) {
            return Err(NotAZone);
        }
        let day = match day {
            [NTH, month @ 1..=12, week @ 1..=5, weekday @ 0..=6] => {
                YearDay::Nth { month, week, weekday }
            }
            [kind, low, high, 0] => match (kind, u16::from_le_bytes([low, high])) {
                (COMMON, day @ 1..=365) => YearDay::Common(day),
                (ORDINAL, day @ 0..=365) => YearDay::Ordinal(day),
                _ => return Err(NotAZone),
            },
            _ => return Err(NotAZone),
        };
        Ok(Self { day, time })
    }
}

fn offset_of(bytes: [u8; 4]) -> Result<Offset, NotAZone> {
    Offset::from_secs(i32::from_le_bytes(bytes)).ok_or(NotAZone)
}

/// The bytes in groups of four.
fn words(bytes: &[u8; Zone::BYTES]) -> [[u8; 4]; 6] {
    let mut words = [[0; 4]; 6];
    for (to, from) in words.iter_mut().flatten().zip(bytes) {
        *to = *from;
    }
    words
}
