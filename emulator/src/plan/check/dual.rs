//! One person alone where two are needed.

use lock_core::policy::Control;

use super::Outlook;
use crate::plan::{Finding, Severity};

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
    }
}
