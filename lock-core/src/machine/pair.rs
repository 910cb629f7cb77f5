//! Dual control: whether the first of two people waits for the second.

use crate::audit::Outcome;
use crate::holder::Number;
use crate::time::Uptime;

use super::bolt::Access;

/// The region of the pair.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Pair {
    /// Nobody waits.
    Nobody,
    /// This holder waits for a second.
    First {
        /// Who.
        number: Number,
        /// Until when; exclusive.
        until: Uptime,
        /// For what.
        step: PairFor,
        /// With which code.
        outcome: Outcome,
    },
}

/// What two people are about to do together.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum PairFor {
    /// Request an opening.
    Request,
    /// Claim one after its delay.
    Claim,
}

impl Pair {
    /// What remains of it once access stands there: a first of two does not
    /// outlive what they came for.
    pub(super) const fn under(self, access: &Access) -> Self {
        match (self, access) {
            (Self::First { step: PairFor::Request, .. }, Access::Secured | Access::Blocked(_))
            | (Self::First { step: PairFor::Claim, .. }, Access::Claimable(_)) => self,
            (Self::Nobody | Self::First { .. }, _) => Self::Nobody,
        }
    }

    /// Who waits.
    pub(super) const fn first(&self) -> Option<Number> {
        match self {
            Self::Nobody => None,
            Self::First { number, .. } => Some(*number),
        }
    }

    /// The outcome of what is done now with a code of `outcome`: duress if
    /// either of the two people is under it.
    pub(super) const fn joined(&self, outcome: Outcome) -> Outcome {
        match self {
            Self::First { outcome: Outcome::Duress, .. } => Outcome::Duress,
            Self::Nobody | Self::First { outcome: Outcome::Plain, .. } => outcome,
        }
    }

    /// When the wait is over.
    pub(super) const fn until(&self) -> Option<Uptime> {
        match self {
            Self::Nobody => None,
            Self::First { until, .. } => Some(*until),
        }
    }
}
