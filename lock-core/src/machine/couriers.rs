//! One-time codes at the keypad: a courier's code opens once.
//!
//! The code is used up by the record of the opening, or of its delay, in one change
//! of the settings (R6), and both codes of two couriers together. After that it is good
//! for one thing only, the claim of the very opening that it began. As the first of two
//! it is not used up: nobody may have come.

use super::bolt::Moment;
use super::keypad::Attempt;
use super::step::Machine;
use super::writes::Continuation;
use crate::audit::{Event, People, Record};
use crate::code::Verdict;
use crate::code::one_time::{self, CourierKey, Digits};
use crate::holder::{Claimed, Number};
use crate::port::{Reads, Write};
use crate::role::Role;
use crate::rules::Unreadable;
use crate::settings::Edit;

/// Couriers among the people of one opening.
const COURIERS: usize = 2;

/// What couriers' codes are under way.
#[derive(Clone, Copy, Default)]
pub(super) struct Couriers {
    /// The counter that a courier has once the code that was just judged is used up.
    judged: Option<(Number, u32)>,
    /// The same of the first of two, who waits for the second.
    first: Option<(Number, u32)>,
    /// Counters whose codes began an opening that is to be claimed.
    claims: [Option<(Number, u32)>; COURIERS],
}

impl Couriers {
    fn began_with(&self, number: Number) -> Option<u32> {
        let mut claims = self.claims.iter().flatten();
        claims.find(|(who, _)| *who == number).map(|(_, counter)| *counter)
    }

    /// The code that was just judged made somebody the first of two.
    pub(super) fn first_came(&mut self) {
        self.first = self.judged.take();
    }
}

impl Machine {
    /// What the code is as a one-time code; `None` if its number is no
    /// courier's. The same work for everybody (R5).
    #[inline(never)] // own frame
    pub(super) fn one_time_verdict(
        &mut self,
        attempt: &Attempt,
        claimed: &Claimed,
        reads: &mut impl Reads,
    ) -> Result<Option<Verdict>, Unreadable> {
        self.couriers.judged = None;
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
                self.couriers.judged = Some((number, next));
                verdict
            }
        }))
    }

    /// The counter whose code began the opening that waits for `number`.
    fn claims(&self, number: Number) -> Option<u32> {
        let (people, _) = self.access.delayed()?;
        if people.include(number) { self.couriers.began_with(number) } else { None }
    }

    /// Puts the record of an opening by `people`, or of its delay, on its way to the
    /// store; couriers' codes that made it are used up with it.
    pub(super) fn record_spending(
        &mut self,
        people: People,
        at: Moment,
        event: Event,
        after: Continuation,
    ) {
        let Couriers { judged, first, .. } = core::mem::take(&mut self.couriers);
        let theirs = |spent: &(Number, u32)| people.include(spent.0);
        // Of one courier the code that was typed last counts.
        let other = |spent: &(Number, u32)| judged.is_none_or(|(who, _)| who != spent.0);
        let spent = [first.filter(theirs).filter(other), judged.filter(theirs)];
        if spent == [None, None] {
            return self.record(at, event, after);
        }
        let began = |(number, next): (Number, u32)| (number, next.saturating_sub(1));
        self.couriers.claims = spent.map(|spent| spent.map(began));
        self.ready = Some(Edit::Spend(spent));
        self.send(Write::Edit(Record { at: at.utc, event }), after);
    }
}
