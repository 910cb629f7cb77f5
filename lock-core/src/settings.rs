//! The settings of one lock, whole and in memory: what a store is formatted
//! with, and what a laptop prepares.
//!
//! A lock itself reads its settings row by row from its store; this form is
//! about 12 KB and meant for machines that have the room.

use crate::code::LockKey;
use crate::holder::{HolderRow, Number};
use crate::policy::Policy;
use crate::timetable::Calendar;

/// Bytes of the longest zone rule that a lock can keep. The longest rule of the
/// IANA database (2026) has 45.
pub const ZONE_TEXT: usize = 48;

/// Everything that commissioning a lock sets.
///
/// No `Debug`: it holds the lock's key and digests of codes.
pub struct Settings {
    /// The policy, within its bounds.
    pub policy: Policy,
    /// The zone rule, as a POSIX TZ string that [`crate::time::Zone::parse`]
    /// accepts.
    pub zone: heapless::String<ZONE_TEXT>,
    /// The key of the digests.
    pub key: LockKey,
    /// The rows of the enrolled, indexed by number; 00 stays empty.
    pub holders: [Option<HolderRow>; Number::COUNT],
    /// The timetables, closures and special days.
    pub calendar: Calendar,
}
