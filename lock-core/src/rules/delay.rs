//! Whether a time delay fits into what is left of a permit (R3).

use crate::rules::ends::Ends;
use crate::time::{Seconds, Utc};

/// Whether a wait of `delay` from `now` is over before the permit ends.
///
/// A wait that ends exactly with the window could never be claimed: refused.
/// Without a valid clock only a permit that needs none is left to ask.
#[must_use]
pub fn fits(delay: Seconds, now: Option<Utc>, ends: Ends) -> bool {
    match (ends, now) {
        (Ends::Never | Ends::Beyond, _) => true,
        (Ends::At(end), Some(now)) => now.checked_add(delay).is_some_and(|ready| ready < end),
        (Ends::At(_), None) => false,
    }
}
