//! When a permit to open ends.

use serde::{Deserialize, Serialize};

use crate::time::Utc;

/// When a permit ends.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ends {
    /// Never: the holder follows no timetable, and needs no clock.
    Never,
    /// At that instant, exclusive.
    At(Utc),
    /// Later than the horizon of [`HORIZON_DATES`](super::opening_time::HORIZON_DATES).
    Beyond,
}

impl Ends {
    /// The earlier of two ends: a permit of two people.
    #[must_use]
    pub fn earlier(self, other: Self) -> Self {
        match (self, other) {
            (Self::At(a), Self::At(b)) => Self::At(a.min(b)),
            (Self::At(a), Self::Never | Self::Beyond)
            | (Self::Never | Self::Beyond, Self::At(a)) => Self::At(a),
            (Self::Never, Self::Never) => Self::Never,
            (Self::Beyond, Self::Never | Self::Beyond) | (Self::Never, Self::Beyond) => {
                Self::Beyond
            }
        }
    }

    /// Whether it has come at `utc`. An unknown time ends nothing.
    #[must_use]
    pub fn reached(self, utc: Option<Utc>) -> bool {
        match (self, utc) {
            (Self::At(end), Some(now)) => now >= end,
            (Self::At(_), None) | (Self::Never | Self::Beyond, _) => false,
        }
    }

    /// The instant, where it has one.
    #[must_use]
    pub const fn instant(self) -> Option<Utc> {
        match self {
            Self::At(end) => Some(end),
            Self::Never | Self::Beyond => None,
        }
    }
}
