//! The one judge: may this holder be released now? Yes, or why not and until
//! when (R3).
//!
//! The lock at the door asks it at the request and again at the claim; the
//! planner asks it for every instant it promises.

use serde::{Deserialize, Serialize};

use crate::port::Inhibit;
use crate::rules::opening_time::{self, OpeningTime};
use crate::rules::supply::Level;
use crate::rules::{Days, Unreadable};
use crate::time::{Utc, Zone};
use crate::timetable::Follows;

/// What bears on every opening, whoever asks.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Conditions {
    /// The inhibit input.
    pub inhibit: Inhibit,
    /// The end of a hold-shut that is in force.
    pub held_until: Option<Utc>,
    /// The supply.
    pub supply: Level,
    /// The time; `None` while the clock is invalid.
    pub utc: Option<Utc>,
    /// Until when a clock that two people set settles; `None` if it does not.
    pub settles: Option<Utc>,
}

impl Conditions {
    /// Nothing stands against an opening at `utc`: what a plan assumes.
    #[must_use]
    pub const fn unhindered(utc: Utc) -> Self {
        Self {
            inhibit: Inhibit::Clear,
            held_until: None,
            supply: Level::Good,
            utc: Some(utc),
            settles: None,
        }
    }
}

/// When a permit ends.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Ends {
    /// Never: the holder follows no timetable, and needs no clock.
    Never,
    /// At that instant, exclusive.
    At(Utc),
    /// Later than the horizon of [`opening_time::HORIZON_DATES`].
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

/// The judge's answer.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Admission {
    /// This holder may be released now.
    Granted(Ends),
    /// Not now.
    Refused(Bar),
}

/// What stands against an opening, in the order in which it is asked.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Bar {
    /// The building's intruder alarm is set, or its line is broken.
    Inhibit,
    /// A hold-shut is in force until then.
    HeldShut(Utc),
    /// The supply could not finish an opening (R8).
    Supply,
    /// The clock is invalid, and this holder follows a timetable.
    Clock,
    /// The clock was set and settles until then, and this holder follows a
    /// timetable.
    Settling(Utc),
    /// Outside the windows; open again then, if within the horizon.
    Closed(Option<Utc>),
}

/// Whether a holder who follows `follows` may be released under `conditions`.
///
/// # Errors
/// [`Unreadable`] if the timetable cannot be read.
pub fn admit(
    follows: Follows,
    conditions: &Conditions,
    zone: &Zone,
    days: &mut impl Days,
) -> Result<Admission, Unreadable> {
    if conditions.inhibit == Inhibit::Set {
        return Ok(Admission::Refused(Bar::Inhibit));
    }
    if let Some(until) = conditions.held_until {
        return Ok(Admission::Refused(Bar::HeldShut(until)));
    }
    if conditions.supply == Level::Spent {
        return Ok(Admission::Refused(Bar::Supply));
    }
    let id = match follows {
        Follows::Always => return Ok(Admission::Granted(Ends::Never)),
        Follows::Timetable(id) => id,
    };
    let Some(utc) = conditions.utc else {
        return Ok(Admission::Refused(Bar::Clock));
    };
    if let Some(until) = conditions.settles {
        return Ok(Admission::Refused(Bar::Settling(until)));
    }
    Ok(match opening_time::at(days, zone, id, utc)? {
        OpeningTime::Within { until: Some(end) } => Admission::Granted(Ends::At(end)),
        OpeningTime::Within { until: None } => Admission::Granted(Ends::Beyond),
        OpeningTime::Outside { opens } => Admission::Refused(Bar::Closed(opens)),
    })
}
