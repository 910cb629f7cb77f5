//! Checks of a site: what was written correctly and yet will not work out.
//!
//! | file | subject |
//! | --- | --- |
//! | `people.rs` | who can never open, who always can, too few wardens |
//! | `dual.rs` | one person alone where two are needed |
//! | `delay.rs` | waits that fit in no window |
//! | `guessing.rs` | the chance of a guess, and the class that was asked for |
//! | `clock_change.rs` | windows in a skipped or repeated hour |
//! | `calendar.rs` | timetables, closures and special days without effect |

mod calendar;
mod clock_change;
mod delay;
mod dual;
mod guessing;
mod people;

pub use guessing::usable_codes;

use lock_core::time::{Date, Utc};
use lock_core::timetable::{Follows, TIMETABLES, TimetableId};

use super::{Finding, Range, Stretch, first_instant, openings};
use crate::document::Place;
use crate::site::{Person, Site};

/// Days that a check of opening times looks ahead: a year.
const YEAR_DAYS: u16 = 366;
/// Days that a check of clock changes looks ahead: two years.
const CHANGES_DAYS: u16 = 731;

/// What the checks look at: a site, and the time ahead of a date.
struct Outlook<'s> {
    site: &'s Site,
    from: Date,
    year: Range,
    /// The coming year's openings of each timetable.
    openings: [Vec<Stretch>; TIMETABLES],
}

/// Checks `site` as seen on the date `from`. The findings, worst first, then in
/// the order of the file.
///
/// Nothing is found past the years that a lock's clock can tell.
#[must_use]
pub fn check(site: &Site, from: Date) -> Vec<Finding> {
    let outlook = Outlook::new(site, from);
    let mut findings = Vec::new();
    people::check(&outlook, &mut findings);
    dual::check(&outlook, &mut findings);
    guessing::check(&outlook, &mut findings);
    delay::check(&outlook, &mut findings);
    clock_change::check(&outlook, &mut findings);
    calendar::check(&outlook, &mut findings);
    findings.sort_by_key(|finding| (std::cmp::Reverse(finding.severity), finding.place));
    findings
}

impl<'s> Outlook<'s> {
    fn new(site: &'s Site, from: Date) -> Self {
        let start = first_instant(&site.zone, from).unwrap_or(Utc::MAX);
        let year = Range { from: start, to: start_of(site, from, YEAR_DAYS) };
        let openings = TimetableId::ALL.map(|id| openings(site, Follows::Timetable(id), year));
        Self { site, from, year, openings }
    }

    /// Everybody who may open.
    fn openers(&self) -> impl Iterator<Item = &'s Person> {
        self.site.holders.iter().filter(|person| person.may_open())
    }

    /// The coming year's openings of a holder.
    fn openings_of(&self, follows: Follows) -> Vec<Stretch> {
        match follows {
            Follows::Always => vec![Stretch { from: self.year.from, to: self.year.to }],
            Follows::Timetable(id) => self.openings.get(id.index()).cloned().unwrap_or_default(),
        }
    }

    /// The timetables that the file defines, with their places.
    fn defined(&self) -> impl Iterator<Item = (TimetableId, Place)> {
        let places = self.site.places.timetables;
        TimetableId::ALL.into_iter().zip(places).filter_map(|(id, place)| Some((id, place?)))
    }

    /// Whether somebody who may open follows timetable `id`.
    fn is_used(&self, id: TimetableId) -> bool {
        self.openers().any(|person| person.follows == Follows::Timetable(id))
    }

    /// A timetable's letter and name, for sentences.
    fn called(&self, id: TimetableId) -> String {
        match self.site.timetables.get(id.index()) {
            Some(Some(timetable)) => format!("Timetable {} ({})", id.letter(), timetable.name),
            Some(None) | None => format!("Timetable {}", id.letter()),
        }
    }
}

fn start_of(site: &Site, from: Date, days: u16) -> Utc {
    let to = from.checked_add(days);
    to.and_then(|to| first_instant(&site.zone, to)).unwrap_or(Utc::MAX)
}

/// A date as the site file spells it.
fn date_text(date: Date) -> String {
    let (year, month, day) = date.ymd();
    format!("{year}-{month:02}-{day:02}")
}
