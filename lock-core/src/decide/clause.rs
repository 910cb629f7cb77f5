//! One question of a decision, its answer, and what that refuses.

use crate::audit::Refusal;
use crate::holder::Number;
use crate::policy::Control;
use crate::port::{Fault, Inhibit};
use crate::rules::ends::Ends;
use crate::rules::opening_time::{self, OpeningTime};
use crate::rules::supply::Level;
use crate::rules::{Days, Unreadable};
use crate::time::{Seconds, Uptime, Utc, Zone};
use crate::timetable::Follows;

use super::facts::Stage;

/// A refusal, until then where that is known.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Refused {
    /// Why.
    pub why: Refusal,
    /// When that ends by itself.
    pub until: Option<Utc>,
}

impl Refused {
    /// Nobody can say until when.
    #[must_use]
    pub const fn because(why: Refusal) -> Self {
        Self { why, until: None }
    }
}

impl Refused {
    /// Without a clock nobody can say until when.
    pub(super) fn known_by(self, utc: Option<Utc>) -> Self {
        Self { until: self.until.filter(|_| utc.is_some()), ..self }
    }
}

/// Where an instant stands in what somebody follows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Hours {
    /// No timetable: at all times.
    Always,
    /// A timetable.
    Timetable(OpeningTime),
    /// A timetable, and the clock is invalid.
    Unknown,
}

impl Hours {
    /// Where `utc` stands in `follows`.
    ///
    /// # Errors
    /// [`Unreadable`] if the timetable cannot be read.
    pub fn at(
        follows: Follows,
        utc: Option<Utc>,
        zone: &Zone,
        days: &mut impl Days,
    ) -> Result<Self, Unreadable> {
        Ok(match (follows, utc) {
            (Follows::Always, _) => Self::Always,
            (Follows::Timetable(_), None) => Self::Unknown,
            (Follows::Timetable(id), Some(utc)) => {
                Self::Timetable(opening_time::at(days, zone, id, utc)?)
            }
        })
    }

    /// When a permit that is given now ends; `None` where none is given.
    #[must_use]
    pub const fn ends(self) -> Option<Ends> {
        match self {
            Self::Always => Some(Ends::Never),
            Self::Timetable(OpeningTime::Within { until: Some(end) }) => Some(Ends::At(end)),
            Self::Timetable(OpeningTime::Within { until: None }) => Some(Ends::Beyond),
            Self::Timetable(OpeningTime::Outside { .. }) | Self::Unknown => None,
        }
    }
}

/// One question of the decision, with its answer.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Clause {
    /// Whether the lock takes codes.
    Service(Option<Fault>),
    /// Whether a penalty runs.
    Penalty(Option<Uptime>),
    /// Whether this person may open at all: [`Refusal::Barred`],
    /// [`Refusal::Suspended`] or [`Refusal::Right`] if not.
    Person(Result<(), Refusal>),
    /// Whether the bolt is free or drawn already.
    Free(bool),
    /// Until when a change waits that gives this person more time.
    Change(Option<Utc>),
    /// The inhibit input.
    Inhibit(Inhibit),
    /// Until when the lock is held shut.
    HeldShut(Option<Utc>),
    /// The supply.
    Supply(Level),
    /// The clock.
    Clock {
        /// What it says; `None` while it is invalid.
        utc: Option<Utc>,
        /// Until when it settles.
        settles: Option<Utc>,
        /// Whether this person's hours depend on it.
        needed: bool,
    },
    /// The opening time.
    Hours(Hours),
    /// How far an opening is, and whether this person may go on with it.
    Stage(Stage, Result<(), Refusal>),
    /// How many people it takes, the first of two, and whether the two are complete.
    People {
        /// One or two.
        control: Control,
        /// Who waits for a second, and until when.
        first: Option<(Number, Uptime)>,
        /// Why these two are none.
        stands: Result<(), Refusal>,
    },
    /// The delay before an opening, and whether one that is begun now could be claimed.
    /// Of the first of two it is asked with their own permit, and refuses nothing yet: the
    /// two are asked together.
    Delay(Seconds, Result<(), Refusal>),
}

impl Clause {
    /// What it refuses.
    // Inlined where it is asked: for the lock itself each question is one comparison.
    #[inline(always)]
    pub(super) fn refused(self) -> Option<Refused> {
        let because = |why| Some(Refused::because(why));
        match self {
            Self::Penalty(Some(_)) => because(Refusal::Penalty),
            Self::Free(true) => because(Refusal::AlreadyOpen),
            Self::Change(Some(from)) => Some(Refused { why: Refusal::Closed, until: Some(from) }),
            Self::Inhibit(Inhibit::Set) => because(Refusal::Inhibit),
            Self::HeldShut(until @ Some(_)) => Some(Refused { why: Refusal::HeldShut, until }),
            Self::Supply(Level::Spent) => because(Refusal::Supply),
            Self::Clock { needed: true, utc: None, .. } => because(Refusal::Clock),
            Self::Clock { needed: true, settles: until @ Some(_), .. } => {
                Some(Refused { why: Refusal::Settling, until })
            }
            Self::Hours(Hours::Timetable(OpeningTime::Outside { opens: until })) => {
                Some(Refused { why: Refusal::Closed, until })
            }
            Self::Person(Err(why))
            | Self::Stage(_, Err(why))
            | Self::People { stands: Err(why), .. }
            | Self::Delay(_, Err(why)) => because(why),
            Self::Service(_)
            | Self::Penalty(None)
            | Self::Person(Ok(()))
            | Self::Free(false)
            | Self::Change(None)
            | Self::Inhibit(Inhibit::Clear)
            | Self::HeldShut(None)
            | Self::Supply(Level::Good | Level::Low)
            | Self::Clock { .. }
            | Self::Hours(_)
            | Self::Stage(_, Ok(()))
            | Self::People { stands: Ok(()), .. }
            | Self::Delay(_, Ok(())) => None,
        }
    }
}
