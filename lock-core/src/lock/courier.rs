//! One-time codes at the keypad: a courier's code opens once.
//!
//! The code is used up by the record of what it did, in one change of the
//! settings (R6); after that it is good for one thing only, the claim of the very
//! opening that it began.

use super::access::{Access, Moment};
use super::errand::After;
use super::machine::Machine;
use super::session::Attempt;
use crate::audit::{Event, Record};
use crate::code::Verdict;
use crate::code::one_time::{self, CourierKey, Digits};
use crate::holder::{Claimed, HolderRow, Number};
use crate::port::{Reads, Write};
use crate::role::Role;
use crate::rules::Unreadable;
use crate::settings::Edit;

/// Couriers among the people of one opening.
const COURIERS: usize = 2;

/// What couriers' codes are under way.
///
/// No `Debug`: it holds a row.
#[derive(Default)]
pub(super) struct Couriers {
    /// The row with the counter as it is to be once the code that was just
    /// judged is used up.
    spends: Option<(Number, HolderRow)>,
    /// Counters whose codes began an opening that is to be claimed.
    claims: heapless::Vec<(Number, u32), COURIERS>,
}

silent!(Couriers);

impl Couriers {
    fn began_with(&self, number: Number) -> Option<u32> {
        self.claims.iter().find(|(who, _)| *who == number).map(|(_, counter)| *counter)
    }

    fn note(&mut self, number: Number, counter: u32) {
        self.claims.retain(|(who, _)| *who != number);
        if self.claims.is_full() {
            self.claims.remove(0);
        }
        // There is room now.
        let _ = self.claims.push((number, counter));
    }
}

impl Machine {
    /// What the code is as a one-time code; `None` if its number is no
    /// courier's. The same work for everybody (R5).
    #[inline(never)]
    pub(super) fn one_time_verdict(
        &mut self,
        attempt: &Attempt,
        claimed: &Claimed,
        reads: &mut impl Reads,
    ) -> Result<Option<Verdict>, Unreadable> {
        self.couriers.spends = None;
        let number = attempt.number;
        let pairing = reads.pairing()?;
        let key = pairing
            .as_ref()
            .map_or(CourierKey::from_bytes([0; CourierKey::LEN]), |key| key.courier(number.get()));
        let claims = self.claims(number);
        let counter = claims.unwrap_or(claimed.row().counter);
        let (verdict, next) = one_time::judge(&key, counter, Digits::COURIER, &attempt.code);
        if !(claimed.is(Role::Courier) & pairing.is_some()) {
            return Ok(None);
        }
        Ok(Some(match (verdict, claims) {
            (Verdict::Wrong, _) => Verdict::Wrong,
            // An opening is claimed with the code that began it, and no other.
            (Verdict::Right | Verdict::Duress, Some(began)) => {
                if next == began.saturating_add(1) {
                    verdict
                } else {
                    Verdict::Wrong
                }
            }
            (Verdict::Right | Verdict::Duress, None) => {
                self.couriers.spends =
                    Some((number, HolderRow { counter: next, ..claimed.row().clone() }));
                verdict
            }
        }))
    }

    /// The counter whose code began the opening that waits for `number`.
    fn claims(&self, number: Number) -> Option<u32> {
        let people = match &self.access {
            Access::Waiting(waiting) => waiting.people,
            Access::Claimable(claim) => claim.people,
            Access::Secured | Access::Released(_) | Access::Open(_) => return None,
        };
        if people.include(number) { self.couriers.began_with(number) } else { None }
    }

    /// Puts a record on its way to the store; if a courier's code made it, the
    /// code is used up with it.
    pub(super) fn record_spending(&mut self, at: Moment, event: Event, after: After) {
        match self.couriers.spends.take() {
            None => self.record(at, event, after),
            Some((number, row)) => {
                self.couriers.note(number, row.counter.saturating_sub(1));
                self.ready = Some(Edit::Holder(number, Some(row)));
                self.floor = self.floor.max(at.utc);
                self.send(Write::Edit(Record { at: at.utc, event }), after);
            }
        }
    }
}
