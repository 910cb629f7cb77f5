//! Dual control: whether the first of two people waits for the second.
//!
//! Such a wait ends when a second one is permitted, or the first is refused by then
//! (`opening`); when `dual_limit` is over (`timers`); when two people set the clock (`clock`);
//! when the bolt is drawn, or what the two wait for cannot be any more ([`Pair::look_at`]);
//! when the lock asks for service (`step`); and with a boot. The second person of a dialogue
//! is another one: see `two_people` and `form_flow`.

use super::bolt::Access;
use crate::audit::Outcome;
use crate::holder::Number;
use crate::time::Uptime;

/// The region of the pair.
pub(super) struct Pair(Option<First>);

/// Somebody who waits for a second person.
pub(super) struct First {
    pub(super) number: Number,
    /// Until when; exclusive.
    pub(super) until: Uptime,
    pub(super) wanted: Wanted,
    /// With which code.
    pub(super) outcome: Outcome,
    /// The counter of a courier once that code is used up. It is not before the second
    /// one came: nobody may come.
    pub(super) spends: Option<u32>,
}

/// What two people are about to do together.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Wanted {
    /// Request an opening.
    Request,
    /// Claim one after its delay.
    Claim,
}

impl Pair {
    pub(super) const NOBODY: Self = Self(None);

    /// A first person came.
    pub(super) const fn begin(&mut self, first: First) {
        self.0 = Some(first);
    }

    /// Nobody waits any more; who did.
    pub(super) const fn end(&mut self) -> Option<First> {
        self.0.take()
    }

    /// A first of two does not outlive what they came for.
    pub(super) fn look_at(&mut self, access: &Access) {
        self.0.take_if(|first| match (first.wanted, access) {
            (Wanted::Request, Access::Secured | Access::Blocked(_))
            | (Wanted::Claim, Access::Claimable(_)) => false,
            (Wanted::Request | Wanted::Claim, _) => true,
        });
    }

    /// Who waits, and until when.
    pub(super) fn first(&self) -> Option<(Number, Uptime)> {
        self.0.as_ref().map(|first| (first.number, first.until))
    }
}
