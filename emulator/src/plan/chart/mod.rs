//! Weeks as a chart: a row a date, a lane a timetable, 24 hours on the wall.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | [`Chart`]: what is on it |
//! | `layout.rs` | where that stands, as shapes |
//! | `svg.rs`, `raster.rs` | the shapes as SVG and as PNG |
//! | `terminal.rs` | the chart in blocks |
//!
//! The openings are the judge's. A lane shows wall time, so an hour that the
//! clock repeats is drawn once though it passes twice, and one that it skips
//! stays empty; the date says so.

mod layout;
mod raster;
mod svg;
mod terminal;

pub use raster::png;
pub use svg::svg;
pub use terminal::terminal;

use lock_core::time::{DAY_SECONDS, Date, Seconds, Utc, Weekday, Zone};
use lock_core::timetable::{Closure, Follows, Special, TimetableId};

use super::{Change, Range, Stretch, change_on, openings};
use crate::site::{LockPlan, Site};

/// Most weeks of a chart: more would be too long to look at.
pub const WEEKS_MOST: u16 = 60;

/// Weeks of a site.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Chart {
    /// What it is of.
    pub title: String,
    /// The lock's delay and claim, if a lock was named, and the zone.
    pub subtitle: String,
    /// The timetables and what they are called, a lane each.
    pub timetables: Vec<(TimetableId, String)>,
    /// The dates, in order.
    pub rows: Vec<Row>,
}

/// One date.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Row {
    /// The date.
    pub date: Date,
    /// One for each timetable of the chart.
    pub lanes: Vec<Lane>,
    /// The clock change of that date, on the wall.
    pub change: Option<Shift>,
    /// What is to be said of the date.
    pub notes: Vec<String>,
}

/// One date of one timetable.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Lane {
    /// What is open, in the order of time.
    pub spans: Vec<Span>,
    /// What the date is.
    pub kind: Kind,
}

/// What a date is to a timetable.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kind {
    /// A weekday.
    Plain,
    /// A special day.
    Special,
    /// A closure.
    Closed,
}

/// A stretch that is open, within one date and without a clock change.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Span {
    /// Its first second on the wall.
    pub from: u32,
    /// The second on the wall at which it is over, up to 86,400.
    pub to: u32,
    /// The same in instants.
    pub stretch: Stretch,
}

/// A clock change as the wall shows it: the seconds of the date that are
/// skipped, or that come twice.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Shift {
    /// Whether the clock goes forward.
    pub forward: bool,
    /// The first second.
    pub from: u32,
    /// The second at which it is over, up to 86,400.
    pub to: u32,
}

impl Chart {
    /// The weeks of `site` from the Monday on or before `from`; `None` where the
    /// clock of a lock does not reach.
    ///
    /// Every timetable that the file defines has a lane. A lock is only named:
    /// all locks of a site follow the same timetables.
    #[must_use]
    pub fn of(site: &Site, lock: Option<&LockPlan>, from: Date, weeks: u16) -> Option<Self> {
        let first = monday(from)?;
        let end = first.checked_add(weeks.min(WEEKS_MOST) * 7)?;
        let range = Range::between(&site.zone, first, end)?;
        let named = site.timetables.iter().flatten();
        let timetables: Vec<_> =
            named.map(|timetable| (timetable.id, timetable.name.clone())).collect();
        let pieces: Vec<Vec<(Date, Span)>> = timetables
            .iter()
            .map(|(id, _)| openings(site, Follows::Timetable(*id), range))
            .map(|stretches| stretches.into_iter().flat_map(|s| split(&site.zone, s)).collect())
            .collect();
        let dates = std::iter::successors(Some(first), |date| date.next().filter(|d| *d < end));
        let rows = dates.map(|date| row(site, date, &timetables, &pieces)).collect();
        let title = match lock {
            Some(lock) => format!("{}, lock {}", site.name, lock.id),
            None => site.name.clone(),
        };
        Some(Self { title, subtitle: subtitle(site, lock), timetables, rows })
    }
}

fn monday(date: Date) -> Option<Date> {
    let back = u16::try_from(date.weekday().index()).ok()?;
    date.checked_sub(back).filter(|first| first.weekday() == Weekday::Mon)
}

fn subtitle(site: &Site, lock: Option<&LockPlan>) -> String {
    let zone = format!("Time on the wall in {}", site.zone_name);
    let Some(lock) = lock else { return zone };
    let minutes = |length: Seconds| length.get().div_ceil(60);
    match minutes(lock.policy.delay) {
        0 => zone,
        delay => {
            let claim = minutes(lock.policy.claim);
            format!("{zone}. Delay {delay} min, then {claim} min to claim, within a window")
        }
    }
}

/// A stretch in parts that each lie within one date and one offset.
pub(crate) fn split(zone: &Zone, stretch: Stretch) -> Vec<(Date, Span)> {
    let mut parts = Vec::new();
    let mut at = stretch.from;
    while at < stretch.to {
        let local = zone.local(at);
        let midnight = at.after(Seconds::new(DAY_SECONDS - local.second));
        let change = zone.next_change(at).unwrap_or(Utc::MAX);
        let to = stretch.to.min(midnight).min(change);
        let end = local.second + to.since(at).get();
        let stretch = Stretch { from: at, to };
        parts.push((local.date, Span { from: local.second, to: end, stretch }));
        at = to;
    }
    parts
}

fn row(
    site: &Site,
    date: Date,
    timetables: &[(TimetableId, String)],
    pieces: &[Vec<(Date, Span)>],
) -> Row {
    let lanes = timetables.iter().zip(pieces).map(|((id, _), pieces)| Lane {
        spans: pieces.iter().filter(|(day, _)| *day == date).map(|(_, span)| *span).collect(),
        kind: kind(site, *id, date),
    });
    let change = change_on(site, date);
    let change = change.and_then(|change| shift(&site.zone, date, change));
    let mut notes = Vec::new();
    notes.extend(change.map(Shift::note));
    for (closure, why) in site.calendar.closures.iter().zip(&site.places.closure_reasons) {
        if closure.from <= date && date <= closure.to {
            notes.push(note("closed", timetables, |id| closure.timetables.has(id), why.as_deref()));
        }
    }
    for (special, why) in site.calendar.specials.iter().zip(&site.places.special_reasons) {
        if special.date == date {
            let named = |id| special.timetables.has(id);
            notes.push(note("special day", timetables, named, why.as_deref()));
        }
    }
    Row { date, lanes: lanes.collect(), change, notes }
}

fn kind(site: &Site, id: TimetableId, date: Date) -> Kind {
    let closed = |c: &Closure| c.timetables.has(id) && c.from <= date && date <= c.to;
    let special = |s: &Special| s.timetables.has(id) && s.date == date;
    if site.calendar.closures.iter().any(closed) {
        Kind::Closed
    } else if site.calendar.specials.iter().any(special) {
        Kind::Special
    } else {
        Kind::Plain
    }
}

/// `A: special day, Christmas Eve`; the letters only where not all are meant.
fn note(
    what: &str,
    timetables: &[(TimetableId, String)],
    named: impl Fn(TimetableId) -> bool,
    why: Option<&str>,
) -> String {
    let letters: Vec<String> = timetables
        .iter()
        .filter(|(id, _)| named(*id))
        .map(|(id, _)| id.letter().to_string())
        .collect();
    let mut note = String::new();
    if letters.len() < timetables.len() {
        note = format!("{}: ", letters.join(", "));
    }
    note.push_str(what);
    if let Some(why) = why {
        note = format!("{note}, {why}");
    }
    note
}

/// What the wall skips or repeats of a date.
fn shift(zone: &Zone, date: Date, change: Change) -> Option<Shift> {
    let before = Utc::from_secs(change.at.as_secs().saturating_sub(1));
    let day = i64::from(date.days()) * i64::from(DAY_SECONDS);
    let wall = |offset: i32| i64::from(change.at.as_secs()) + i64::from(offset) - day;
    let (old, new) = (wall(zone.offset(before).as_secs()), wall(zone.offset(change.at).as_secs()));
    let clip = |second: i64| u32::try_from(second.clamp(0, i64::from(DAY_SECONDS))).unwrap_or(0);
    let (from, to) = (clip(old.min(new)), clip(old.max(new)));
    (from < to).then_some(Shift { forward: new > old, from, to })
}

impl Shift {
    fn note(self) -> String {
        let (from, to) = (clock(self.from), clock(self.to));
        if self.forward {
            format!("the clock skips {from} to {to}")
        } else {
            format!("the clock repeats {from} to {to}")
        }
    }
}

/// `08:30`, up to `24:00`.
#[must_use]
pub fn clock(second: u32) -> String {
    let base = format!("{:02}:{:02}", second / 3_600, second / 60 % 60);
    if second.is_multiple_of(60) { base } else { format!("{base}:{:02}", second % 60) }
}

/// `Mon 2027-03-15`.
fn day_text(date: Date) -> String {
    let (year, month, day) = date.ymd();
    let name = match date.weekday() {
        Weekday::Mon => "Mon",
        Weekday::Tue => "Tue",
        Weekday::Wed => "Wed",
        Weekday::Thu => "Thu",
        Weekday::Fri => "Fri",
        Weekday::Sat => "Sat",
        Weekday::Sun => "Sun",
    };
    format!("{name} {year}-{month:02}-{day:02}")
}
