//! Windows in the hour that a clock change skips or repeats.
//!
//! Membership by wall clock settles what happens; this says it beforehand. A
//! window that vanishes whole is a warning, the rest are notes.

use lock_core::time::{DAY_SECONDS, Date, Utc};
use lock_core::timetable::{Day, TimetableId, Window, Windows};

use super::{CHANGES_DAYS, Outlook, date_text, start_of};
use crate::document::Place;
use crate::plan::{Finding, Severity};
use crate::site::{WindowDay, window_text};

/// A clock change as the wall shows it, in seconds since 1970-01-01 on the wall.
#[derive(Clone, Copy)]
struct Change {
    kind: Kind,
    from: i64,
    to: i64,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Skipped,
    Repeated,
}

/// A window of one date that a change touches.
struct Touched {
    id: TimetableId,
    date: Date,
    window: Window,
    change: Change,
}

pub(super) fn check(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    let mut rows: Vec<(Place, Touched)> = Vec::new();
    for change in changes(outlook) {
        for (id, fallback) in outlook.defined() {
            for (date, window) in windows_touched(outlook, id, change) {
                let touched = Touched { id, date, window, change };
                rows.push((place_of(outlook, &touched).unwrap_or(fallback), touched));
            }
        }
    }
    // One finding a window and kind, with all its dates.
    while let Some((place, first)) = rows.first() {
        let (place, kind, id) = (*place, first.change.kind, first.id);
        let same =
            |row: &(Place, Touched)| row.0 == place && row.1.change.kind == kind && row.1.id == id;
        let (group, rest): (Vec<_>, Vec<_>) = rows.into_iter().partition(same);
        let group: Vec<Touched> = group.into_iter().map(|(_, touched)| touched).collect();
        findings.push(finding(&outlook.called(id), place, kind, &group));
        rows = rest;
    }
}

fn finding(timetable: &str, place: Place, kind: Kind, group: &[Touched]) -> Finding {
    let dates: Vec<String> = group.iter().map(|touched| date_text(touched.date)).collect();
    let dates = dates.join(" and ");
    let window = group.first().map_or(String::new(), |touched| window_text(touched.window));
    match kind {
        Kind::Skipped if group.iter().any(Touched::vanishes) => Finding::new(
            Severity::Warning,
            place,
            format!(
                "{timetable}: the window {window} does not happen on {dates}, when the \
                 clock goes forward over it."
            ),
            "If somebody must open on these dates, add a special day with another window.",
        ),
        Kind::Skipped => Finding::new(
            Severity::Note,
            place,
            format!(
                "{timetable}: the window {window} of {dates} is shorter, because the clock goes \
                 forward during it."
            ),
            "Nothing, unless somebody needs the time that is lost.",
        ),
        Kind::Repeated => Finding::new(
            Severity::Note,
            place,
            format!(
                "{timetable}: the window {window} of {dates} lies in the time that the clock \
                 repeats, and is open both times."
            ),
            "Nothing, unless the longer opening must not be; then add a special day.",
        ),
    }
}

impl Touched {
    /// Whether nothing of the window is left.
    fn vanishes(&self) -> bool {
        let (from, to) = on_the_wall(self.date, self.window);
        self.change.from <= from && to <= self.change.to
    }
}

/// The clock changes of the coming two years.
fn changes(outlook: &Outlook<'_>) -> Vec<Change> {
    let zone = &outlook.site.zone;
    let end = start_of(outlook.site, outlook.from, CHANGES_DAYS);
    let next = |at: &Utc| zone.next_change(*at).filter(|change| *change < end);
    std::iter::successors(next(&outlook.year.from), next)
        .map(|at| {
            let before = Utc::from_secs(at.as_secs().saturating_sub(1));
            let wall = |offset: i32| i64::from(at.as_secs()) + i64::from(offset);
            let old = wall(zone.offset(before).as_secs());
            let new = wall(zone.offset(at).as_secs());
            let kind = if new > old { Kind::Skipped } else { Kind::Repeated };
            Change { kind, from: old.min(new), to: old.max(new) }
        })
        .collect()
}

/// Windows of the dates around `change` that share wall time with it. What runs
/// into a closure ends with its date.
fn windows_touched(outlook: &Outlook<'_>, id: TimetableId, change: Change) -> Vec<(Date, Window)> {
    let calendar = &outlook.site.calendar;
    let day = |date: Date| match calendar.day(id, date) {
        Day::Closed => None,
        Day::Windows(windows) => Some(windows),
    };
    let first = change.from.div_euclid(i64::from(DAY_SECONDS)) - 1;
    let last = change.to.div_euclid(i64::from(DAY_SECONDS));
    let dates = (first..=last).filter_map(|day| u16::try_from(day).ok()).map(Date::from_days);
    let mut touched = Vec::new();
    for date in dates {
        let next_is_closed = date.next().is_some_and(|next| day(next).is_none());
        let midnight = (i64::from(date.days()) + 1) * i64::from(DAY_SECONDS);
        for window in day(date).unwrap_or_else(Windows::new) {
            let (from, mut to) = on_the_wall(date, window);
            if next_is_closed {
                to = to.min(midnight);
            }
            if from < change.to && change.from < to {
                touched.push((date, window));
            }
        }
    }
    touched
}

fn on_the_wall(date: Date, window: Window) -> (i64, i64) {
    let midnight = i64::from(date.days()) * i64::from(DAY_SECONDS);
    let at = |minute: u16| midnight + i64::from(minute) * 60;
    (at(window.from().get()), at(window.end()))
}

/// Where the window of that date is written.
fn place_of(outlook: &Outlook<'_>, touched: &Touched) -> Option<Place> {
    let weekday = touched.date.weekday().index();
    let places = outlook.site.places.windows.iter();
    let mut own = places.filter(|row| row.id == touched.id && row.window == touched.window);
    let special = own.clone().find(|row| row.day == WindowDay::Special(touched.date));
    special.or_else(|| own.find(|row| row.day == WindowDay::Weekday(weekday))).map(|row| row.place)
}
