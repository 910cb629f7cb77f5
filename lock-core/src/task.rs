//! The tasks of the list: what a person may ask the lock for besides an
//! opening.

use serde::{Deserialize, Serialize};

use crate::role::Right;

/// What a person asks for from the list.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Task {
    /// Lock now until the next window starts.
    HoldShut,
    /// Read the status.
    Status,
    /// Change one's own code.
    ChangeCode,
    /// Enrol somebody under a free number.
    Enrol,
    /// Suspend a holder.
    Suspend,
    /// Restore a suspended holder.
    Restore,
    /// Remove a holder.
    Remove,
    /// Give a holder another role.
    ChangeRole,
    /// Choose the timetable that a holder follows.
    ChooseTimetable,
    /// See which numbers are taken.
    Numbers,
    /// Load a timetable file, collect the audit.
    Files,
    /// Set the clock.
    SetClock,
    /// Set a value of the policy.
    SetPolicy,
    /// Try the alarm line.
    TestAlarm,
    /// Make a new pairing key.
    Pair,
    /// Forget everybody and everything but the audit.
    Reset,
    /// Ask for a way out of a lock that nobody can open (R11).
    WayOut,
}

/// Tasks on one page of the list: one less than a screen has lines.
pub const TASKS_A_PAGE: usize = 3;

/// Pages of the list.
pub const PAGES: usize = 6;

/// One page of the list, in the order of the keys from 1.
pub type Page = [Option<Task>; TASKS_A_PAGE];

impl Task {
    /// The list, a page a row: what is done daily comes first.
    pub const LIST: [Page; PAGES] = [
        [Some(Self::HoldShut), Some(Self::Status), Some(Self::ChangeCode)],
        [Some(Self::Enrol), Some(Self::Suspend), Some(Self::Restore)],
        [Some(Self::Remove), Some(Self::ChangeRole), Some(Self::ChooseTimetable)],
        [Some(Self::Numbers), Some(Self::Files), Some(Self::SetClock)],
        [Some(Self::SetPolicy), Some(Self::TestAlarm), Some(Self::Pair)],
        [Some(Self::Reset), Some(Self::WayOut), None],
    ];

    /// Every task, in the order of the list and as numbered in the flash layout.
    pub const ALL: [Self; 17] = [
        Self::HoldShut,
        Self::Status,
        Self::ChangeCode,
        Self::Enrol,
        Self::Suspend,
        Self::Restore,
        Self::Remove,
        Self::ChangeRole,
        Self::ChooseTimetable,
        Self::Numbers,
        Self::Files,
        Self::SetClock,
        Self::SetPolicy,
        Self::TestAlarm,
        Self::Pair,
        Self::Reset,
        Self::WayOut,
    ];

    /// The right that it takes.
    #[must_use]
    pub const fn right(self) -> Right {
        match self {
            Self::HoldShut => Right::HoldShut,
            Self::Status => Right::ReadStatus,
            Self::ChangeCode => Right::ChangeOwnCode,
            Self::Enrol | Self::Restore | Self::ChooseTimetable => Right::Enrol,
            Self::ChangeRole => Right::GiveRole,
            Self::Suspend => Right::Suspend,
            Self::Remove => Right::Remove,
            Self::Numbers => Right::SeeNumbers,
            Self::Files => Right::CarryFiles,
            Self::SetClock => Right::SetClock,
            Self::SetPolicy => Right::SetPolicy,
            Self::TestAlarm => Right::TestAlarm,
            Self::Pair => Right::Pair,
            Self::Reset => Right::Reset,
            Self::WayOut => Right::WayOut,
        }
    }

    /// The task's name, as records and drills spell it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::HoldShut => "hold-shut",
            Self::Status => "status",
            Self::ChangeCode => "change-code",
            Self::Enrol => "enrol",
            Self::Suspend => "suspend",
            Self::Restore => "restore",
            Self::Remove => "remove",
            Self::ChangeRole => "change-role",
            Self::ChooseTimetable => "choose-timetable",
            Self::Numbers => "numbers",
            Self::Files => "files",
            Self::SetClock => "set-clock",
            Self::SetPolicy => "set-policy",
            Self::TestAlarm => "test-alarm",
            Self::Pair => "pair",
            Self::Reset => "reset",
            Self::WayOut => "way-out",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_list_holds_every_task_once_in_order() {
        let listed = Task::LIST.as_flattened().iter().flatten();
        assert!(listed.eq(Task::ALL.iter()));
    }
}
