//! One-time codes at the keypad: a courier's code opens once.
//!
//! The code is used up by the record of the opening, or of its delay, in one change
//! of the settings (R6), and both codes of two couriers together. After that it is good
//! for one thing only, the claim of the very opening that it began. As the first of two
//! it is not used up: nobody may have come.

use super::bolt::{Began, Moment, Spent};
use super::keypad::Attempt;
use super::step::Machine;
use super::writes::Continuation;
use crate::audit::{Event, Record};
use crate::code::Verdict;
use crate::code::one_time::{self, CourierKey, Digits};
use crate::holder::{Claimed, Number};
use crate::port::{Reads, Write};
use crate::role::Role;
use crate::rules::Unreadable;
use crate::settings::Edit;

/// What the code is as a one-time code; `None` if its number is no courier's. The same
/// work for everybody (R5). `claims` is the counter whose code began the opening that waits
/// for that number.
#[inline(never)] // own frame
pub(super) fn one_time_verdict(
    attempt: &mut Attempt,
    claimed: &Claimed,
    claims: Option<u32>,
    reads: &mut impl Reads,
) -> Result<Option<Verdict>, Unreadable> {
    let pairing = reads.pairing()?;
    let key = pairing.as_ref().map_or(CourierKey::from_bytes([0; CourierKey::LEN]), |key| {
        key.courier(attempt.number.get())
    });
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
            attempt.spends = Some(next);
            verdict
        }
    }))
}

impl Machine {
    /// Puts the record of an opening, or of its delay, on its way to the store; couriers'
    /// codes that made it are used up with it.
    pub(super) fn record_spending(
        &mut self,
        spent: Spent,
        at: Moment,
        event: Event,
        then: Continuation,
    ) {
        if spent == [None, None] {
            return self.record(at, event, then);
        }
        self.writes.prepare(Edit::Spend(spent));
        self.send(Write::Edit(Record { at: at.utc, event }), then);
    }
}

/// Which counters began an opening whose codes were used up.
pub(super) fn began(edit: Option<&Edit>) -> Began {
    let counter = |(number, next): (Number, u32)| (number, next.saturating_sub(1));
    match edit {
        Some(Edit::Spend(spent)) => spent.map(|code| code.map(counter)),
        Some(
            Edit::Holder(..)
            | Edit::Policy(..)
            | Edit::Pairing(_)
            | Edit::Commission(..)
            | Edit::Reset(_)
            | Edit::Adopt(_)
            | Edit::Wait(..),
        )
        | None => [None, None],
    }
}
