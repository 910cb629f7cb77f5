//! Waits that fit in no window.

use lock_core::time::Seconds;

use super::Outlook;
use crate::plan::{Finding, Severity};
use crate::site::LockPlan;

pub(super) fn check(outlook: &Outlook<'_>, findings: &mut Vec<Finding>) {
    for lock in outlook.site.locks.iter().filter(|lock| lock.policy.delay > Seconds::ZERO) {
        for (id, _) in outlook.defined().filter(|(id, _)| outlook.is_used(*id)) {
            let stretches = outlook.openings.get(id.index()).into_iter().flatten();
            if let Some(longest) = stretches.map(|stretch| stretch.length()).max() {
                findings.extend(judge(lock, longest, &outlook.called(id)));
            }
        }
    }
}

/// A wait must be over before the window ends; the time to claim should fit too.
fn judge(lock: &LockPlan, longest: Seconds, timetable: &str) -> Option<Finding> {
    let delay = lock.policy.delay;
    let with_claim = delay.saturating_add(lock.policy.claim);
    let minutes = |length: Seconds| length.get().div_ceil(60);
    let (severity, what) = if longest <= delay {
        let what = format!(
            "{timetable} can never open the lock {}: its delay of {} min fits in no window, the \
             longest has {} min.",
            lock.id,
            minutes(delay),
            longest.get() / 60,
        );
        (Severity::Error, what)
    } else if longest < with_claim {
        let what = format!(
            "{timetable} has no window for the whole delay and claim of the lock {}: together \
             they take {} min, the longest window has {} min.",
            lock.id,
            minutes(with_claim),
            longest.get() / 60,
        );
        (Severity::Warning, what)
    } else {
        return None;
    };
    Some(Finding::new(severity, lock.place, what, "Shorten the delay, or lengthen a window."))
}
