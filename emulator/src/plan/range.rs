//! The instants between two dates on the wall.

use lock_core::time::{Date, Instants, Seconds, Utc, Zone};

/// Instants from `from`, inclusive, to `to`, exclusive.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Range {
    /// The first instant.
    pub from: Utc,
    /// The first instant that is no longer in it.
    pub to: Utc,
}

impl Range {
    /// From the start of `from` to the start of `to`; `None` where the clock of
    /// a lock does not reach.
    #[must_use]
    pub fn between(zone: &Zone, from: Date, to: Date) -> Option<Self> {
        Some(Self { from: first_instant(zone, from)?, to: first_instant(zone, to)? })
    }
}

/// The earliest instant whose local date is `date`: 00:00, its first occurrence
/// if a clock change repeats it, and the change itself if it skips 00:00.
#[must_use]
pub fn first_instant(zone: &Zone, date: Date) -> Option<Utc> {
    match zone.instants(date, 0) {
        Instants::One(at) | Instants::Two(at, _) => Some(at),
        Instants::None => {
            let noon_before = date.prev().map(|before| zone.instants(before, 43_200));
            let mut at = match noon_before {
                Some(Instants::One(at) | Instants::Two(at, _)) => at,
                Some(Instants::None) | None => return None,
            };
            while zone.local(at).date < date {
                at =
                    zone.next_change(at).filter(|next| next.since(at) < Seconds::from_hours(48))?;
            }
            Some(at)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Zones that change at midnight (rules of IANA 2026), every date of ten
    /// years: the second before shows an earlier date, and no earlier second of
    /// the two days around shows this one.
    #[test]
    fn it_is_the_earliest_instant_of_its_date() {
        for rule in [
            "<-04>4<-03>,M9.1.6/24,M4.1.6/24", // Santiago: 00:00 skipped
            "EET-2EEST,M4.5.5/0,M10.5.4/24",   // Cairo: 00:00 skipped
            "CST5CDT,M3.2.0/0,M11.1.0/1",      // Havana: 00:00 skipped, and repeated
            "<-02>2<-01>,M3.5.0/-1,M10.5.0/0", // Nuuk: by day before, 23:00 repeated
            "GMT0IST,M3.5.0/1,M10.5.0",
            "<+14>-14",
        ] {
            let zone = Zone::parse(rule).unwrap();
            let mut date = Date::from_ymd(2026, 1, 1).unwrap();
            while date.year() < 2036 {
                let at = first_instant(&zone, date).unwrap();
                assert_eq!(zone.local(at).date, date, "{rule}");
                for earlier in (0..2 * 96).map(|quarter| at.as_secs() - 1 - quarter * 900) {
                    assert!(zone.local(Utc::from_secs(earlier)).date < date, "{rule} {date:?}");
                }
                date = date.next().unwrap();
            }
        }
    }
}
