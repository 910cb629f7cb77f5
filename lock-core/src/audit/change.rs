//! What people, or a time that came, changed in a lock.

use serde::{Deserialize, Serialize};

use crate::holder::Number;
use crate::role::Role;
use crate::time::Utc;
use crate::timetable::Follows;

use super::record::Seq;

/// A change of the settings, the clock, or what lies outside of openings.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Change {
    /// The first warden was enrolled: the lock is in use.
    Commissioned(Number),
    /// Somebody was enrolled.
    Enrolled(Number, Role),
    /// Somebody changed their own code.
    CodeChanged(Number),
    /// Somebody has another role.
    RoleChanged(Number, Role),
    /// Somebody follows another timetable.
    TimetableChosen(Number, Follows),
    /// Somebody was suspended.
    Suspended(Number),
    /// Somebody was restored.
    Restored(Number),
    /// Somebody was removed.
    Removed(Number),
    /// The clock was corrected by that many seconds, within the limits.
    ClockCorrected(i32),
    /// The clock was set by two people; the time that was believed before.
    ClockSet(Option<Utc>),
    /// A value of the policy: its place in [`crate::policy::KEYS`], and the value
    /// in the unit of the policy table; people, and 0 or 1 for duress codes.
    PolicySet(u8, u32),
    /// A new pairing key, of that generation.
    Paired(u32),
    /// A timetable file of that version is in force.
    FileLoaded(u32),
    /// A timetable file of that version waits for the next opening window.
    FileWaits(u32),
    /// The audit up to that record was collected.
    Collected(Seq),
    /// The alarm line was tried.
    AlarmTested,
    /// A reset without a warden's code began.
    ResetBegun,
    /// It was given up: the bolt was thrown, or the switch turned back.
    ResetCancelled,
    /// Everybody and everything but the audit was forgotten.
    Reset,
    /// Privileged people of a stuck lock asked for a way out (R11).
    WayOutBegun,
    /// It was ended: by another privileged person, or since the lock is not stuck.
    WayOutEnded,
    /// Its time has come: the lock is being set up.
    WayOut,
}

impl Change {
    /// The kind of the record, as drills and reports name it.
    #[must_use]
    pub const fn kind(self) -> &'static str {
        match self {
            Self::Commissioned(_) => "commissioned",
            Self::Enrolled(..) => "enrolled",
            Self::CodeChanged(_) => "code-changed",
            Self::RoleChanged(..) => "role-changed",
            Self::TimetableChosen(..) => "timetable-chosen",
            Self::Suspended(_) => "suspended",
            Self::Restored(_) => "restored",
            Self::Removed(_) => "removed",
            Self::ClockCorrected(_) => "clock-corrected",
            Self::ClockSet(_) => "clock-set",
            Self::PolicySet(..) => "policy-set",
            Self::Paired(_) => "paired",
            Self::FileLoaded(_) => "file-loaded",
            Self::FileWaits(_) => "file-waits",
            Self::Collected(_) => "audit-collected",
            Self::AlarmTested => "alarm-tested",
            Self::ResetBegun => "reset-begun",
            Self::ResetCancelled => "reset-cancelled",
            Self::Reset => "reset",
            Self::WayOutBegun => "way-out-begun",
            Self::WayOutEnded => "way-out-ended",
            Self::WayOut => "way-out",
        }
    }
}
