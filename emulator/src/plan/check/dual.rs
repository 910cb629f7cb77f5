//! One person alone where two are needed.

use lock_core::policy::Control;
use lock_core::timetable::{Follows, TimetableId};

use super::{Outlook, date_text};
use crate::document::Place;
use crate::plan::{Finding, Severity, Stretch};
use crate::site::LockPlan;

pub(super) fn check(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    let openers: Vec<_> = outlook.openers().collect();
    let locks = outlook.site.locks.iter().filter(|lock| lock.policy.control == Control::Dual);
    for lock in locks {
        if openers.len() < 2 {
            findings.push(Finding::new(
                Severity::Error,
                lock.place,
                format!("The lock {} needs two people, and fewer than two may open.", lock.id),
                "Add a holder who may open, or take dual_control out.",
            ));
            continue;
        }
        for (row, person) in openers.iter().enumerate() {
            let own = outlook.openings_of(person.follows);
            let others = openers.iter().enumerate().filter(|(other, _)| *other != row);
            let mut theirs = others.flat_map(|(_, other)| outlook.openings_of(other.follows));
            // Nobody without an opening is reported twice.
            if own.is_empty() || theirs.any(|their| own.iter().any(|own| own.meets(their))) {
                continue;
            }
            findings.push(Finding::new(
                Severity::Error,
                person.place,
                format!(
                    "{} is alone: the lock {} needs two people, and nobody else may open at \
                     these times within the coming year.",
                    person.called(),
                    lock.id,
                ),
                "Let somebody else follow the same timetable, or windows that overlap.",
            ));
        }
        for (id, place) in outlook.defined() {
            findings.extend(alone_now_and_then(outlook, lock, id, place));
        }
    }
}

/// Stretches of a timetable in which its one follower finds nobody else. Where
/// that is so the whole year, it was said of the follower.
fn alone_now_and_then(
    outlook: &Outlook<'_>,
    lock: &LockPlan,
    id: TimetableId,
    place: Place,
) -> Option<Finding> {
    let (own, others): (Vec<_>, Vec<_>) =
        outlook.openers().partition(|person| person.follows == Follows::Timetable(id));
    let [only] = own.as_slice() else { return None };
    let stretches = outlook.openings_of(only.follows);
    let theirs: Vec<Stretch> =
        others.iter().flat_map(|other| outlook.openings_of(other.follows)).collect();
    let met = stretches.iter().any(|own| theirs.iter().any(|their| own.meets(*their)));
    let lonely: Vec<Stretch> =
        stretches.iter().filter_map(|own| first_alone(*own, &theirs)).collect();
    let first = lonely.first().filter(|_| met)?;
    let local = outlook.site.zone.local(first.from);
    let (hour, minute, _) = local.hms();
    Some(Finding::new(
        Severity::Warning,
        place,
        format!(
            "{} is alone in {} of {} openings of {}, first on {} at {hour:02}:{minute:02}: the \
             lock {} needs two people.",
            only.called(),
            lonely.len(),
            stretches.len(),
            outlook.called(id),
            date_text(local.date),
            lock.id,
        ),
        "Give the timetable to a second holder, or let windows of two timetables overlap.",
    ))
}

/// The first part of `own` that none of `theirs` covers.
fn first_alone(own: Stretch, theirs: &[Stretch]) -> Option<Stretch> {
    let mut at = own.from;
    while let Some(their) = theirs.iter().find(|their| their.from <= at && at < their.to) {
        at = their.to;
    }
    let to = theirs.iter().map(|their| their.from).filter(|from| *from > at).min();
    (at < own.to).then(|| Stretch { from: at, to: to.unwrap_or(own.to).min(own.to) })
}
