//! Until when a hold-shut lasts: an early closing that nobody can undo.

use crate::rules::{Days, Unreadable, opening_time};
use crate::time::{Seconds, Utc, Zone};
use crate::timetable::{Follows, TimetableId};

/// The longest that a hold-shut may reach ahead: 31 days. Ours: longer than any
/// holiday, and no mistake shuts a safe for a season.
pub const MOST_AHEAD: Seconds = Seconds::from_hours(31 * 24);

/// Until when a hold-shut set at `now` lasts: the next start of a window of the
/// holder's timetable (for `always`: of any timetable). `None` if there is
/// none within [`MOST_AHEAD`]: then it is refused.
///
/// # Errors
/// [`Unreadable`] if a timetable cannot be read.
pub fn end(
    follows: Follows,
    now: Utc,
    zone: &Zone,
    days: &mut impl Days,
) -> Result<Option<Utc>, Unreadable> {
    let mut earliest: Option<Utc> = None;
    for id in TimetableId::ALL {
        let concerned = match follows {
            Follows::Always => true,
            Follows::Timetable(own) => own == id,
        };
        if !concerned {
            continue;
        }
        if let Some(start) = opening_time::next_start(days, zone, id, now)? {
            earliest = Some(earliest.map_or(start, |e| e.min(start)));
        }
    }
    Ok(earliest.filter(|end| end.since(now) <= MOST_AHEAD))
}
