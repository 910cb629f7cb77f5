//! The stretches of time in which a holder may open.

use lock_core::decide::{Conditions, by_time};
use lock_core::rules::ends::Ends;
use lock_core::rules::opening_time::HORIZON_DATES;
use lock_core::time::{DAY_SECONDS, Seconds, Utc};
use lock_core::timetable::Follows;

use super::Range;
use crate::site::{Person, Site};

/// How far the judge's "not within the horizon" can be trusted: one day less,
/// as the horizon's first date is partly over, and one for clock changes.
pub(super) const HORIZON: Seconds = Seconds::new((HORIZON_DATES as u32 - 2) * DAY_SECONDS);

/// A maximal stretch in which opening is permitted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Stretch {
    /// The first instant.
    pub from: Utc,
    /// The first instant that is no longer in it.
    pub to: Utc,
}

impl Stretch {
    /// How long it is.
    #[must_use]
    pub const fn length(self) -> Seconds {
        self.to.since(self.from)
    }

    /// Whether the two share an instant.
    #[must_use]
    pub fn meets(self, other: Self) -> bool {
        self.from < other.to && other.from < self.to
    }
}

/// When a holder who follows `follows` may be released within `range`, as far
/// as time is concerned: delay, penalty, hold-shut, inhibit and supply are not
/// counted in.
///
/// The judge is asked, told until when its answer holds, and asked again then.
#[must_use]
pub fn openings(site: &Site, follows: Follows, range: Range) -> Vec<Stretch> {
    let mut stretches: Vec<Stretch> = Vec::new();
    let mut at = range.from;
    while at < range.to {
        let (open, until) = answer(site, follows, at);
        let to = until.min(range.to);
        if open {
            match stretches.last_mut() {
                Some(last) if last.to == at => last.to = to,
                _ => stretches.push(Stretch { from: at, to }),
            }
        }
        at = to;
    }
    stretches
}

/// When each holder may be released within `range`, in the order of the file;
/// never, for those who may not open.
///
/// Holders of the same timetable share its openings, so each is asked once.
#[must_use]
pub fn everybody(site: &Site, range: Range) -> Vec<(&Person, Vec<Stretch>)> {
    let mut known: Vec<(Follows, Vec<Stretch>)> = Vec::new();
    let mut lists = Vec::with_capacity(site.holders.len());
    for person in &site.holders {
        if !person.may_open() {
            lists.push((person, Vec::new()));
            continue;
        }
        let found = known.iter().position(|(follows, _)| *follows == person.follows);
        let at = found.unwrap_or_else(|| {
            known.push((person.follows, openings(site, person.follows, range)));
            known.len() - 1
        });
        let stretches = known.get(at).map(|(_, stretches)| stretches.clone());
        lists.push((person, stretches.unwrap_or_default()));
    }
    lists
}

/// The judge's answer at one instant.
#[derive(Clone, Copy)]
pub(super) struct Permit {
    /// Whether a release would be permitted.
    pub(super) open: bool,
    /// When a permit ends.
    pub(super) ends: Ends,
    /// The first instant at which the answer is another one, if it comes within
    /// the horizon.
    pub(super) turns: Option<Utc>,
}

/// What the judge says at `at`, with nothing but time to stand against it.
pub(super) fn permit(site: &Site, follows: Follows, at: Utc) -> Permit {
    let conditions = Conditions::unhindered(at);
    let Ok(decided) = by_time(follows, &conditions, &site.zone, &mut &site.calendar) else {
        unreachable!("a calendar in memory can be read");
    };
    match decided {
        Ok(ends) => Permit { open: true, ends, turns: ends.instant() },
        // Nothing but time stands against it.
        Err(refused) => Permit { open: false, ends: Ends::At(at), turns: refused.until },
    }
}

/// Whether the judge would permit a release at `at`, and until when that stays.
fn answer(site: &Site, follows: Follows, at: Utc) -> (bool, Utc) {
    let Permit { open, ends, turns } = permit(site, follows, at);
    let until = if ends == Ends::Never { Utc::MAX } else { at.after(HORIZON) };
    (open, turns.unwrap_or(until))
}
