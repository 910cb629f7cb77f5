//! Reading a POSIX TZ string.
//!
//! ```text
//! zone   = name offset [ name [ offset ] "," switch "," switch ]
//! name   = 3*30 ALPHA / "<" 3*30( ALPHA / DIGIT / "+" / "-" ) ">"
//! offset = [ "+" / "-" ] 1*2 DIGIT [ ":" 2 DIGIT [ ":" 2 DIGIT ] ]    hours 0 to 24, west positive
//! switch = day [ "/" time ]                                           02:00 where it is left out
//! day    = "M" 1*2 DIGIT "." DIGIT "." DIGIT / "J" 1*3 DIGIT / 1*3 DIGIT
//! time   = [ "+" / "-" ] 1*3 DIGIT [ ":" 2 DIGIT [ ":" 2 DIGIT ] ]    hours 0 to 167
//! ```

use core::fmt;
use core::ops::RangeInclusive;

use super::{Daylight, Switch, YearDay, Zone};
use crate::time::Offset;

/// Letters a name has at least (POSIX).
const NAME_MIN: usize = 3;
/// Letters a name may have; POSIX leaves it open and IANA uses up to five.
const NAME_MAX: usize = 30;
/// Most hours of an offset (POSIX).
const OFFSET_HOURS: u32 = 24;
/// Most hours of a switch's time, a week less one (RFC 9636).
const TIME_HOURS: u32 = 167;
/// The time of a switch that names none, 02:00 (POSIX).
const DEFAULT_TIME: i32 = 7_200;
/// What daylight saving adds where the rule does not say, one hour (POSIX).
const DEFAULT_SAVING: i32 = 3_600;

/// Why a string is no zone rule.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct ZoneError {
    /// Bytes before the place where the rule goes wrong. All before it is
    /// ASCII, so it counts characters too.
    pub at: usize,
    /// What is wrong there.
    pub kind: ZoneErrorKind,
}

/// What is wrong with a zone rule at a place in it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum ZoneErrorKind {
    /// No name of three or more letters.
    Name,
    /// A name of more than 30 letters.
    NameTooLong,
    /// A name opened with `<` and not closed.
    NameNotClosed,
    /// No number of hours, or more than 24.
    OffsetHours,
    /// Daylight saving is named, and no comma starts its two switches.
    NoSwitches,
    /// The first switch is not followed by a comma and a second.
    OneSwitch,
    /// No day: neither `M`, nor `J`, nor a number.
    Day,
    /// No month, or none from 1 to 12.
    Month,
    /// No week, or none from 1 to 5.
    Week,
    /// No weekday, or none from 0 (Sunday) to 6.
    Weekday,
    /// After `J`: no day, or none from 1 to 365.
    CommonDay,
    /// No day from 0 to 365.
    OrdinalDay,
    /// No dot between month, week and weekday.
    Dot,
    /// No number of hours, or more than 167.
    TimeHours,
    /// Minutes or seconds are not two digits up to 59.
    Sixty,
    /// The rule is complete, and something follows it.
    Trailing,
}

impl fmt::Display for ZoneErrorKind {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Name => "expected a name: three letters or more, or <...>",
            Self::NameTooLong => "a name has 30 letters at most",
            Self::NameNotClosed => {
                "expected the > that closes the name, after letters, digits, + and -"
            }
            Self::OffsetHours => "expected an offset: 0 to 24 hours, west positive",
            Self::NoSwitches => {
                "daylight saving is named, so a comma and the days it starts and ends must follow"
            }
            Self::OneSwitch => "expected a comma and the day daylight saving ends",
            Self::Day => "expected a day: Mm.w.d, Jn or n",
            Self::Month => "expected a month from 1 to 12",
            Self::Week => "expected a week from 1 to 5 (the last)",
            Self::Weekday => "expected a weekday from 0 (Sunday) to 6",
            Self::CommonDay => "expected a day from 1 to 365",
            Self::OrdinalDay => "expected a day from 0 to 365",
            Self::Dot => "expected a dot",
            Self::TimeHours => "expected a time: -167 to 167 hours",
            Self::Sixty => "expected two digits from 00 to 59",
            Self::Trailing => "the rule is complete before this",
        })
    }
}

impl fmt::Display for ZoneError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "character {}: {}", self.at.saturating_add(1), self.kind)
    }
}

impl core::error::Error for ZoneError {}

/// Reads a whole rule.
pub(super) fn zone(text: &[u8]) -> Result<Zone, ZoneError> {
    let mut rest = Cursor { text, at: 0 };
    rest.name()?;
    let standard = rest.offset()?;
    let daylight = match rest.peek() {
        Some(b'<' | b'a'..=b'z' | b'A'..=b'Z') => Some(rest.daylight(standard)?),
        Some(_) | None => None,
    };
    if rest.peek().is_some() {
        return Err(rest.error(ZoneErrorKind::Trailing));
    }
    Ok(Zone { standard, daylight })
}

/// What is still to be read.
struct Cursor<'a> {
    text: &'a [u8],
    at: usize,
}

impl Cursor<'_> {
    fn peek(&self) -> Option<u8> {
        self.text.get(self.at).copied()
    }

    fn skip(&mut self) {
        self.at = self.at.saturating_add(1);
    }

    /// Takes the byte if it is the next one.
    fn takes(&mut self, wanted: u8) -> bool {
        let found = self.peek() == Some(wanted);
        if found {
            self.skip();
        }
        found
    }

    fn error(&self, kind: ZoneErrorKind) -> ZoneError {
        ZoneError { at: self.at, kind }
    }

    fn name(&mut self) -> Result<(), ZoneError> {
        let opening = self.at;
        let quoted = self.takes(b'<');
        let start = self.at;
        while self.peek().is_some_and(|byte| {
            byte.is_ascii_alphabetic()
                || (quoted && (byte.is_ascii_digit() || byte == b'+' || byte == b'-'))
        }) {
            self.skip();
        }
        let length = self.at.saturating_sub(start);
        if quoted && !self.takes(b'>') {
            return Err(self.error(ZoneErrorKind::NameNotClosed));
        }
        let kind = match length {
            0..NAME_MIN => ZoneErrorKind::Name,
            NAME_MIN..=NAME_MAX => return Ok(()),
            _ => ZoneErrorKind::NameTooLong,
        };
        Err(ZoneError { at: opening, kind })
    }

    fn offset(&mut self) -> Result<Offset, ZoneError> {
        let start = self.at;
        let west = self.clock(2, OFFSET_HOURS, ZoneErrorKind::OffsetHours)?;
        Offset::from_secs(west.saturating_neg())
            .ok_or(ZoneError { at: start, kind: ZoneErrorKind::OffsetHours })
    }

    /// Name, offset and switches of daylight saving.
    fn daylight(&mut self, standard: Offset) -> Result<Daylight, ZoneError> {
        self.name()?;
        let offset = match self.peek() {
            Some(b'+' | b'-' | b'0'..=b'9') => self.offset()?,
            Some(_) | None => Offset::from_secs(standard.as_secs().saturating_add(DEFAULT_SAVING))
                .ok_or(self.error(ZoneErrorKind::OffsetHours))?,
        };
        if !self.takes(b',') {
            return Err(self.error(ZoneErrorKind::NoSwitches));
        }
        let starts = self.switch()?;
        if !self.takes(b',') {
            return Err(self.error(ZoneErrorKind::OneSwitch));
        }
        let ends = self.switch()?;
        Ok(Daylight { offset, starts, ends })
    }

    fn switch(&mut self) -> Result<Switch, ZoneError> {
        let day = self.day()?;
        let time = if self.takes(b'/') {
            self.clock(3, TIME_HOURS, ZoneErrorKind::TimeHours)?
        } else {
            DEFAULT_TIME
        };
        Ok(Switch { day, time })
    }

    fn day(&mut self) -> Result<YearDay, ZoneError> {
        match self.peek() {
            Some(b'M') => {
                self.skip();
                let month = self.small(2, 1..=12, ZoneErrorKind::Month)?;
                self.dot()?;
                let week = self.small(1, 1..=5, ZoneErrorKind::Week)?;
                self.dot()?;
                let weekday = self.small(1, 0..=6, ZoneErrorKind::Weekday)?;
                Ok(YearDay::Nth { month, week, weekday })
            }
            Some(b'J') => {
                self.skip();
                self.number(3, 1..=365, ZoneErrorKind::CommonDay).map(YearDay::Common)
            }
            Some(b'0'..=b'9') => {
                self.number(3, 0..=365, ZoneErrorKind::OrdinalDay).map(YearDay::Ordinal)
            }
            Some(_) | None => Err(self.error(ZoneErrorKind::Day)),
        }
    }

    fn dot(&mut self) -> Result<(), ZoneError> {
        if self.takes(b'.') { Ok(()) } else { Err(self.error(ZoneErrorKind::Dot)) }
    }

    /// `[+-]h[:mm[:ss]]` in seconds, with a bound on digits and hours.
    fn clock(&mut self, digits: u8, hours: u32, kind: ZoneErrorKind) -> Result<i32, ZoneError> {
        let negative = self.takes(b'-');
        if !negative {
            self.takes(b'+');
        }
        let start = self.at;
        let mut seconds = self
            .digits(digits)
            .filter(|&n| n <= hours)
            .ok_or(ZoneError { at: start, kind })?
            .saturating_mul(3_600);
        for unit in [60, 1] {
            if !self.takes(b':') {
                break;
            }
            seconds = seconds.saturating_add(self.sixty()?.saturating_mul(unit));
        }
        let seconds = seconds.cast_signed();
        Ok(if negative { seconds.saturating_neg() } else { seconds })
    }

    /// Two digits, 00 to 59.
    fn sixty(&mut self) -> Result<u32, ZoneError> {
        let start = self.at;
        let value = self.digits(2).filter(|&n| n < 60 && self.at.saturating_sub(start) == 2);
        value.ok_or(ZoneError { at: start, kind: ZoneErrorKind::Sixty })
    }

    fn number(
        &mut self,
        digits: u8,
        range: RangeInclusive<u16>,
        kind: ZoneErrorKind,
    ) -> Result<u16, ZoneError> {
        let start = self.at;
        self.digits(digits)
            .and_then(|n| u16::try_from(n).ok())
            .filter(|n| range.contains(n))
            .ok_or(ZoneError { at: start, kind })
    }

    fn small(
        &mut self,
        digits: u8,
        range: RangeInclusive<u8>,
        kind: ZoneErrorKind,
    ) -> Result<u8, ZoneError> {
        let start = self.at;
        self.digits(digits)
            .and_then(|n| u8::try_from(n).ok())
            .filter(|n| range.contains(n))
            .ok_or(ZoneError { at: start, kind })
    }

    /// Takes up to `most` digits, three at the outside; `None` if there is none.
    fn digits(&mut self, most: u8) -> Option<u32> {
        let mut value = None;
        for _ in 0..most {
            let Some(byte @ b'0'..=b'9') = self.peek() else {
                break;
            };
            let digit = u32::from(byte.wrapping_sub(b'0'));
            value = Some(value.unwrap_or(0_u32).saturating_mul(10).saturating_add(digit));
            self.skip();
        }
        value
    }
}
