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

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use serde::Deserialize;
    use serde::de::IntoDeserializer;
    use serde::de::value::{Error, SeqDeserializer};

    use super::*;

    fn some_bytes() -> impl Strategy<Value = [u8; Zone::BYTES]> {
        let offset = prop_oneof![-93_700_i32..=93_700, any::<i32>()];
        let time = prop_oneof![-605_000_i32..=605_000, any::<i32>()];
        let day = (0_u8..=4, 0_u8..=14, 0_u8..=7, 0_u8..=8).prop_map(<[u8; 4]>::from);
        let switch = (day, time);
        (offset.clone(), offset, switch.clone(), switch).prop_map(|(one, two, from, to)| {
            let mut bytes = [0; Zone::BYTES];
            let fields = [
                one.to_le_bytes(),
                two.to_le_bytes(),
                from.0,
                from.1.to_le_bytes(),
                to.0,
                to.1.to_le_bytes(),
            ];
            bytes.copy_from_slice(fields.as_flattened());
            bytes
        })
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(20_000))]

        /// Whatever is read is written back byte for byte, by serde too.
        #[test]
        fn each_zone_has_one_form(bytes in some_bytes()) {
            let items = bytes.into_iter();
            let by_serde = Zone::deserialize(SeqDeserializer::<_, Error>::new(items)).ok();
            let zone = Zone::from_bytes(&bytes).ok();
            prop_assert_eq!(zone, by_serde);
            if let Some(zone) = zone {
                prop_assert_eq!(zone.to_bytes(), bytes);
            }
        }
    }

    #[test]
    fn a_known_rule_lies_as_the_table_says() {
        let zone = Zone::parse("EST5EDT,M3.2.0,J307/26:00:01").unwrap();
        let bytes = [
            0xB0, 0xB9, 0xFF, 0xFF, 0xC0, 0xC7, 0xFF, 0xFF, 1, 3, 2, 0, 0x20, 0x1C, 0, 0, 2, 0x33,
            1, 0, 0xA1, 0x6D, 1, 0,
        ];
        assert_eq!(zone.to_bytes(), bytes);
        assert_eq!(Zone::UTC.to_bytes(), [0; Zone::BYTES]);
    }

    /// Each field just inside its bounds, and just outside.
    #[test]
    fn bounds_are_kept() {
        let good = Zone::parse("AAA0BBB,M3.2.0,M11.1.0").unwrap().to_bytes();
        let limit = 93_599_i32.to_le_bytes();
        let time = 604_799_i32.to_le_bytes();
        let fields: [(usize, [u8; 4], bool); 16] = [
            (0, limit, true),
            (0, 93_600_i32.to_le_bytes(), false),
            (4, (-93_599_i32).to_le_bytes(), true),
            (4, (-93_600_i32).to_le_bytes(), false),
            (8, [1, 12, 5, 6], true),
            (8, [1, 13, 5, 6], false),
            (8, [1, 12, 6, 6], false),
            (8, [1, 12, 5, 7], false),
            (8, [2, 0, 0, 0], false),
            (8, [2, 0x6D, 1, 0], true),
            (8, [2, 0x6E, 1, 0], false),
            (16, [3, 0x6D, 1, 0], true),
            (16, [3, 0x6D, 1, 1], false),
            (16, [0, 0, 0, 0], false),
            (12, time, true),
            (20, 604_800_i32.to_le_bytes(), false),
        ];
        for (at, field, fits) in fields {
            let mut bytes = good;
            bytes[at..at.saturating_add(4)].copy_from_slice(&field);
            assert_eq!(Zone::from_bytes(&bytes).is_ok(), fits, "{at}: {field:?}");
        }
        assert_eq!(Zone::from_bytes(&[0xFF; Zone::BYTES]), Err(NotAZone));
    }

    #[test]
    fn other_numbers_out_of_range_are_refused_by_serde() {
        use crate::time::{Minute, Offset};
        let minute = |m: u16| Minute::deserialize(IntoDeserializer::<Error>::into_deserializer(m));
        assert_eq!(minute(1_440), Ok(Minute::END));
        assert!(minute(1_441).is_err());
        let offset = |s: i32| Offset::deserialize(IntoDeserializer::<Error>::into_deserializer(s));
        assert!(offset(93_599).is_ok());
        assert!(offset(93_600).is_err());
    }
}
