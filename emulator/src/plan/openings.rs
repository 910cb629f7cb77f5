//! The stretches of time in which a holder may open.

use lock_core::rules::admission::{Admission, Bar, Conditions, Ends, admit};
use lock_core::rules::opening_time::HORIZON_DATES;
use lock_core::time::{DAY_SECONDS, Seconds, Utc};
use lock_core::timetable::Follows;

use super::Range;
use crate::site::Site;

/// How far the judge's "not within the horizon" can be trusted: one day less,
/// as the horizon's first date is partly over, and one for clock changes.
const HORIZON: Seconds = Seconds::new((HORIZON_DATES as u32 - 2) * DAY_SECONDS);

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

/// Whether the judge would permit a release at `at`, and until when that stays.
fn answer(site: &Site, follows: Follows, at: Utc) -> (bool, Utc) {
    let conditions = Conditions::unhindered(at);
    let Ok(admission) = admit(follows, &conditions, &site.zone, &mut &site.calendar) else {
        unreachable!("a calendar in memory can be read");
    };
    match admission {
        Admission::Granted(Ends::Never) => (true, Utc::MAX),
        Admission::Granted(Ends::At(end)) => (true, end),
        Admission::Granted(Ends::Beyond) => (true, at.after(HORIZON)),
        Admission::Refused(Bar::Closed(Some(opens))) => (false, opens),
        Admission::Refused(Bar::Closed(None)) => (false, at.after(HORIZON)),
        Admission::Refused(Bar::Inhibit | Bar::HeldShut(_) | Bar::Supply | Bar::Clock) => {
            unreachable!("nothing hinders a plan")
        }
    }
}
