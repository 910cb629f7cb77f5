//! What no extract tells of: locks of the site file without one, and locks whose
//! newest one is old. Deleting all extracts of a lock leaves no gap between them.

use std::collections::{BTreeMap, BTreeSet};

use lock_core::time::{DAY_SECONDS, Date, Utc, Zone};
use serde_json::{Value, json};

use super::{Found, is_broken};
use crate::audit::names::rfc3339;
use crate::audit::reading::FileNote;
use crate::audit::report::several;
use crate::plan::first_instant;

/// For how long a lock may go without an extract, and when that is asked.
#[derive(Clone, Copy)]
pub(super) struct Overdue {
    pub(super) days: u32,
    pub(super) now: Utc,
}

impl Overdue {
    /// As of the start of `date`; as of now without one.
    pub(super) fn of(days: u32, date: Option<Date>, found: &Found) -> Self {
        let now = u32::try_from(jiff::Timestamp::now().as_second()).unwrap_or(u32::MAX);
        let zone = found.sites.first().map_or(Zone::UTC, |site| site.zone);
        let now = date.and_then(|date| first_instant(&zone, date)).unwrap_or(Utc::from_secs(now));
        Self { days, now }
    }
}

/// When the newest whole extract of each lock was made.
#[derive(Default)]
pub(super) struct Newest(BTreeMap<u32, Option<Utc>>);

impl Newest {
    pub(super) fn add(&mut self, lock: u32, notes: &[FileNote]) {
        // By the lock's own counting: an extract that was made without a clock has no time.
        let age =
            |note: &&FileNote| (note.header.newest, note.header.generation, note.header.number);
        let whole = notes.iter().filter(|note| !is_broken(note));
        if let Some(newest) = whole.max_by_key(age) {
            self.0.insert(lock, newest.header.made);
        }
    }
}

/// What is absent.
#[derive(Default)]
pub(super) struct Absent {
    /// Locks of the site file of which there is no whole extract.
    missing: Vec<u32>,
    /// Locks whose newest extract is too old, when it was made, and how many days ago;
    /// `None` if it was made without a valid clock.
    overdue: Vec<(u32, Option<(Utc, u32)>)>,
    days: u32,
}

impl Absent {
    pub(super) fn of(found: &Found, newest: &Newest, overdue: Option<Overdue>) -> Self {
        let planned: BTreeSet<u32> =
            found.sites.iter().flat_map(|site| &site.locks).map(|lock| lock.number).collect();
        let missing = planned.into_iter().filter(|lock| !newest.0.contains_key(lock)).collect();
        let Some(Overdue { days, now }) = overdue else {
            return Self { missing, ..Self::default() };
        };
        let age = |made: Utc| (made, now.since(made).get() / DAY_SECONDS);
        let overdue = newest.0.iter().map(|(lock, made)| (*lock, made.map(age)));
        let overdue = overdue.filter(|(_, age)| age.is_none_or(|(_, old)| old >= days)).collect();
        Self { missing, overdue, days }
    }

    pub(super) const fn is_empty(&self) -> bool {
        self.missing.is_empty() && self.overdue.is_empty()
    }

    /// A line each.
    pub(super) fn lines(&self, found: &Found) -> Vec<String> {
        let missing = self.missing.iter().map(|lock| {
            let named = found.names_of(*lock).lock(*lock);
            format!("  ABSENT  {named}: no whole extract of it is here.")
        });
        let overdue = self.overdue.iter().map(|(lock, age)| {
            let names = found.names_of(*lock);
            let lock = names.lock(*lock);
            match age {
                Some((made, old)) => format!(
                    "  OVERDUE {lock}: its newest extract was made {}, {} ago.",
                    names.moment(Some(*made)),
                    days(*old),
                ),
                None => format!(
                    "  OVERDUE {lock}: how old its newest extract is cannot be told: it was made \
                     without a valid clock."
                ),
            }
        });
        missing.chain(overdue).collect()
    }

    /// The end of the last line: `; 1 lock without an extract, 2 overdue (35 days)`.
    pub(super) fn summary(&self) -> String {
        let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        let mut parts = Vec::new();
        if !self.missing.is_empty() {
            let locks = several(count(self.missing.len()), "lock");
            parts.push(format!("{locks} without a whole extract"));
        }
        if !self.overdue.is_empty() {
            parts.push(format!("{} overdue ({})", self.overdue.len(), days(self.days)));
        }
        if parts.is_empty() { String::new() } else { format!("; {}", parts.join(", ")) }
    }

    /// The same for programs.
    pub(super) fn json(&self, found: &Found) -> (Value, Value) {
        let id = |lock: u32| found.names_of(lock).plan(lock).map(|plan| plan.id.clone());
        let missing = self.missing.iter().map(|lock| json!({ "lock": lock, "id": id(*lock) }));
        let overdue = self.overdue.iter().map(|(lock, age)| {
            let made = age.map(|(made, _)| rfc3339(found.names_of(*lock).zone(), made));
            json!({
                "lock": lock, "id": id(*lock), "newest_made": made, "days": age.map(|(_, old)| old),
            })
        });
        (missing.collect(), overdue.collect())
    }
}

fn days(count: u32) -> String {
    format!("{count} day{}", if count == 1 { "" } else { "s" })
}
