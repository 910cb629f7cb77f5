//! Local time, by jiff's own reading of the POSIX TZ rule.

use jiff::civil::DateTime;
use jiff::tz::TimeZone;
use jiff::{Timestamp, tz::Offset};

#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Zone(TimeZone);

impl Zone {
    pub(crate) fn new(posix: &str) -> Self {
        Self(TimeZone::posix(posix).expect("a POSIX TZ rule"))
    }

    pub(crate) fn local(&self, utc: i64) -> DateTime {
        self.0.to_datetime(moment(utc))
    }

    /// Every instant at which the clocks of the zone read `wall`: none in a
    /// skipped hour, two in a repeated one.
    pub(crate) fn instants(&self, wall: DateTime) -> Vec<i64> {
        let mut found: Vec<i64> = self
            .offsets_near(wall)
            .into_iter()
            .filter_map(|offset| offset.to_timestamp(wall).ok())
            .map(Timestamp::as_second)
            .filter(|utc| self.local(*utc) == wall)
            .collect();
        found.sort_unstable();
        found.dedup();
        found
    }

    /// The instants of clock changes in `(from, to]`.
    pub(crate) fn changes(&self, from: i64, to: i64) -> Vec<i64> {
        self.0
            .following(moment(from))
            .map(|change| change.timestamp().as_second())
            .take_while(|utc| *utc <= to)
            .collect()
    }

    /// The offset from UTC in seconds at that instant.
    pub(crate) fn offset(&self, utc: i64) -> i64 {
        i64::from(self.0.to_offset(moment(utc)).seconds())
    }

    /// The offsets in force a day either side of the wall time.
    fn offsets_near(&self, wall: DateTime) -> Vec<Offset> {
        let middle = Offset::UTC.to_timestamp(wall).expect("in range").as_second();
        [middle - 86_400, middle + 86_400]
            .into_iter()
            .map(|utc| self.0.to_offset(moment(utc)))
            .collect()
    }

    /// "2027-03-01T08:30", as a person reads it on the screen.
    pub(crate) fn text(&self, utc: i64) -> String {
        self.local(utc).strftime("%Y-%m-%dT%H:%M").to_string()
    }
}

fn moment(utc: i64) -> Timestamp {
    Timestamp::from_second(utc).expect("a moment jiff knows")
}
