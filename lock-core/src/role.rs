//! Roles and rights: one table says what each role may do.

use serde::{Deserialize, Serialize};

use crate::policy::Deputies;

/// What a holder is to the lock.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Role {
    /// Enrols, removes and re-roles everybody.
    Warden,
    /// Suspends, removes and enrols keyholders, as far as the policy says.
    Deputy,
    /// Opens, and changes their own code.
    Keyholder,
    /// Opens with one-time codes.
    Courier,
    /// Loads timetables, corrects the clock, collects audits; never opens.
    Steward,
}

impl Role {
    /// Every role, in the order of the table.
    pub const ALL: [Self; 5] =
        [Self::Warden, Self::Deputy, Self::Keyholder, Self::Courier, Self::Steward];

    /// Whether it is a warden's or a steward's: two such people can do what one may not.
    #[must_use]
    pub const fn is_privileged(self) -> bool {
        matches!(self, Self::Warden | Self::Steward)
    }

    /// The role's name as the site file and the screen spell it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Warden => "warden",
            Self::Deputy => "deputy",
            Self::Keyholder => "keyholder",
            Self::Courier => "courier",
            Self::Steward => "steward",
        }
    }
}

/// One thing a role may do.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Right {
    /// Have the lock released.
    Open,
    /// Set a hold-shut.
    HoldShut,
    /// Read the status screen.
    ReadStatus,
    /// Change one's own code.
    ChangeOwnCode,
    /// Enrol and restore holders, give them a timetable.
    Enrol,
    /// Give a holder another role.
    GiveRole,
    /// Suspend a keyholder.
    Suspend,
    /// Remove a keyholder.
    Remove,
    /// See which numbers are taken.
    SeeNumbers,
    /// Load a timetable file and collect the audit.
    CarryFiles,
    /// Correct the clock within limits.
    SetClock,
    /// Change policy values within their bounds.
    SetPolicy,
    /// Try the alarm line.
    TestAlarm,
    /// Make a new pairing key, as one of two.
    Pair,
    /// Reset the lock.
    Reset,
    /// Ask for a way out of a lock that nobody can open (R11).
    WayOut,
}

impl Right {
    /// Every right, in the order of the table.
    pub const ALL: [Self; 16] = [
        Self::Open,
        Self::HoldShut,
        Self::ReadStatus,
        Self::ChangeOwnCode,
        Self::Enrol,
        Self::GiveRole,
        Self::Suspend,
        Self::Remove,
        Self::SeeNumbers,
        Self::CarryFiles,
        Self::SetClock,
        Self::SetPolicy,
        Self::TestAlarm,
        Self::Pair,
        Self::Reset,
        Self::WayOut,
    ];
}

/// How a role has a right.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Grant {
    /// Never, whatever a row says.
    Never,
    /// If the holder's row says so.
    IfRowSays,
    /// If the policy lets deputies do that, or more.
    IfDeputies(Deputies),
    /// Always.
    Always,
}

/// The table of roles × rights.
///
/// A steward never opens: that whoever collects audits opens nothing is *common
/// practice*. The rest of the table is ours.
#[must_use]
pub const fn grant(role: Role, right: Right) -> Grant {
    use Grant::{Always, IfDeputies, IfRowSays, Never};
    // Columns: warden, deputy, keyholder, courier, steward.
    let row = match right {
        Right::Open => [IfRowSays, IfRowSays, Always, Always, Never],
        Right::HoldShut => [Always, Always, Always, Never, Never],
        Right::ReadStatus => [Always, Always, Always, Always, Always],
        Right::ChangeOwnCode => [Always, Always, Always, Never, Always],
        Right::Enrol => [Always, IfDeputies(Deputies::Enrol), Never, Never, Never],
        Right::GiveRole | Right::SetPolicy | Right::TestAlarm | Right::Reset => {
            [Always, Never, Never, Never, Never]
        }
        Right::Suspend => [Always, Always, Never, Never, Never],
        Right::Remove => [Always, IfDeputies(Deputies::Remove), Never, Never, Never],
        Right::SeeNumbers => [Always, Always, Never, Never, Never],
        Right::CarryFiles | Right::SetClock => [Never, Never, Never, Never, Always],
        Right::Pair | Right::WayOut => [Always, Never, Never, Never, Always],
    };
    let [warden, deputy, keyholder, courier, steward] = row;
    match role {
        Role::Warden => warden,
        Role::Deputy => deputy,
        Role::Keyholder => keyholder,
        Role::Courier => courier,
        Role::Steward => steward,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// R3: no row, file or mistake lets a steward open.
    #[test]
    fn a_steward_never_opens() {
        assert_eq!(grant(Role::Steward, Right::Open), Grant::Never);
    }

    #[test]
    fn a_deputy_has_no_more_than_the_policy_says_over_others() {
        let enrols = grant(Role::Deputy, Right::Enrol);
        assert_eq!(enrols, Grant::IfDeputies(Deputies::Enrol));
        for right in [Right::GiveRole, Right::SetPolicy, Right::SetClock, Right::CarryFiles] {
            assert_eq!(grant(Role::Deputy, right), Grant::Never);
        }
    }

    #[test]
    fn every_right_is_held_by_somebody() {
        for right in Right::ALL {
            assert!(Role::ALL.iter().any(|&role| grant(role, right) != Grant::Never));
        }
    }
}
