//! Opening times for a calendar program: an iCalendar (RFC 5545).
//!
//! Times are written in UTC, so that the reader needs no time zone of ours; a
//! calendar program shows them on its own clock. An opening keeps its UID
//! however often the file is written, so that importing it again changes the
//! entry and doubles none.

use icalendar::{Calendar, Component, Event, EventLike};
use lock_core::time::{Utc, Zone};

use super::Stretch;
use crate::site::Site;

/// The name of this software in the files it writes.
const PRODUCT: &str = "-//time-lock software//plan calendar//EN";

/// One opening of a calendar.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Entry {
    /// Whose opening, in letters, digits and hyphens: a part of its UID.
    pub whose: String,
    /// What the calendar shows.
    pub summary: String,
    /// The lock's id.
    pub lock: String,
    /// When.
    pub stretch: Stretch,
}

impl Entry {
    /// The same for the same opening of the same site, lock and holder.
    #[must_use]
    pub fn uid(&self, site: &Site) -> String {
        let place: String = site
            .name
            .chars()
            .map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' })
            .collect();
        format!("{}-{}-{}@{place}", stamp(self.stretch.from), self.whose, self.lock)
    }
}

/// The entries as an iCalendar that was written at `written`.
#[must_use]
pub fn calendar(site: &Site, entries: &[Entry], written: Utc) -> String {
    let mut calendar = Calendar::empty();
    calendar.append_property(("VERSION", "2.0"));
    calendar.append_property(("PRODID", PRODUCT));
    calendar.append_property(("CALSCALE", "GREGORIAN"));
    calendar.name(&format!("Openings, {}", site.name));
    for entry in entries {
        let mut event = Event::with_uid(&entry.uid(site));
        event.add_property("DTSTAMP", stamp(written));
        event.add_property("DTSTART", stamp(entry.stretch.from));
        event.add_property("DTEND", stamp(entry.stretch.to));
        // Nobody is busy because a lock may be opened.
        event.add_property("TRANSP", "TRANSPARENT");
        event.summary(&entry.summary);
        event.location(&format!("{}, lock {}", site.name, entry.lock));
        calendar.push(event.done());
    }
    calendar.done().to_string()
}

/// `20270301T083000Z`.
fn stamp(at: Utc) -> String {
    let local = Zone::UTC.local(at);
    let ((year, month, day), (hour, minute, second)) = (local.date.ymd(), local.hms());
    format!("{year:04}{month:02}{day:02}T{hour:02}{minute:02}{second:02}Z")
}
