//! What a right code of one holder would meet at this moment, rule by rule.
//!
//! For whoever explains a lock: a trainer's page, a service laptop. It asks the
//! same functions as a code at the keypad, counts nothing and changes nothing.

use super::access::{Access, Moment};
use super::machine::Machine;
use crate::audit::{People, Refusal};
use crate::holder::{HolderRow, Number};
use crate::policy::Control;
use crate::port::{Fault, Now, Reads};
use crate::rules::admission::{self, Admission, Bar, Conditions, Ends};
use crate::rules::{Unreadable, delay};
use crate::time::{Seconds, Uptime, Utc};

/// What stands for and against an opening by one holder.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Outlook {
    /// The lock takes no codes at all until it is serviced.
    pub service: Option<Fault>,
    /// No code is taken until then.
    pub penalty: Option<Uptime>,
    /// [`Refusal::Barred`], [`Refusal::Suspended`] or [`Refusal::Right`], if one
    /// of them speaks against the holder.
    pub standing: Result<(), Refusal>,
    /// Whether the bolt is released or drawn already.
    pub already_open: bool,
    /// A change that gives this holder more time waits until then.
    pub deferred: Option<Utc>,
    /// What bears on everybody.
    pub conditions: Conditions,
    /// Whether the time is right, everything else aside; `None` if the holder
    /// follows a timetable and the clock is invalid.
    pub hours: Option<Admission>,
    /// A delay that runs, with its end, or one that is over and may be claimed,
    /// with the end of the claim.
    pub under_way: Option<(Delayed, People, Uptime)>,
    /// The delay before an opening; zero for none.
    pub delay: Seconds,
    /// Whether a delay begun now could be claimed before the time is over.
    pub delay_fits: bool,
    /// How many people it takes.
    pub control: Control,
    /// The first of two, who waits for the second until then.
    pub first: Option<(Number, Uptime)>,
    /// What a right code would be refused for; `None`: it opens, begins the
    /// delay, or counts as the first of two.
    pub refusal: Option<Refusal>,
}

/// How far a delay is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Delayed {
    /// It runs.
    Waiting,
    /// It is over and may be claimed.
    Claimable,
}

impl Machine {
    /// What a right code of holder `number` would meet at `now`; `None` if
    /// nobody is enrolled there. For couriers: any code that is still good.
    ///
    /// Timers that are due must have run: ask a lock at rest.
    ///
    /// # Errors
    /// [`Unreadable`] if the settings cannot be read.
    pub fn outlook(
        &self,
        number: Number,
        now: Now,
        reads: &mut impl Reads,
    ) -> Result<Option<Outlook>, Unreadable> {
        let at = Moment { uptime: now.uptime, utc: self.clock.utc(now) };
        let Some(row) = reads.holder(number)? else { return Ok(None) };
        let stood = self.guard.next_try(number, at.uptime);
        let standing = Self::standing(&row, stood, crate::role::Right::Open);
        let permitted = self.permitted(&row, stood, at, reads)?;
        let hours = self.hours(&row, at, reads)?;
        let ends = permitted.unwrap_or(Ends::Never);
        let mut outlook = Outlook {
            service: self.service,
            penalty: self.guard.penalty_until(),
            standing,
            already_open: matches!(self.access, Access::Released(_) | Access::Open(_)),
            deferred: row.opens_from.filter(|from| !self.applies(*from, at)),
            conditions: self.conditions(at),
            hours,
            under_way: match &self.access {
                Access::Waiting(waiting) => Some((Delayed::Waiting, waiting.people, waiting.ready)),
                Access::Claimable(claim) => Some((Delayed::Claimable, claim.people, claim.until)),
                Access::Secured | Access::Released(_) | Access::Open(_) => None,
            },
            delay: self.delay(at),
            delay_fits: delay::fits(self.delay(at), at.utc, ends),
            control: self.control(at),
            first: self.pair.first().zip(self.pair.until()),
            refusal: None,
        };
        outlook.refusal = match (standing, permitted) {
            _ if outlook.penalty.is_some() => Some(Refusal::Penalty),
            (Err(why), _) => Some(why),
            _ if outlook.already_open => Some(Refusal::AlreadyOpen),
            (Ok(()), Err((why, _))) => Some(why),
            (Ok(()), Ok(_)) => outlook.in_sequence(number),
        };
        Ok(Some(outlook))
    }

    fn hours(
        &self,
        row: &HolderRow,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Option<Admission>, Unreadable> {
        let utc = at.utc.unwrap_or(Utc::from_secs(0));
        let conditions = Conditions { utc: at.utc, ..Conditions::unhindered(utc) };
        let answer = admission::admit(row.follows, &conditions, &self.zone, reads)?;
        Ok((answer != Admission::Refused(Bar::Clock)).then_some(answer))
    }
}

impl Outlook {
    /// What speaks against somebody who is permitted, in the order of things: a
    /// delay under way, the other of two people, a delay that would not fit.
    fn in_sequence(&self, number: Number) -> Option<Refusal> {
        match self.under_way {
            Some((Delayed::Waiting, ..)) => return Some(Refusal::Waiting),
            Some((Delayed::Claimable, people, _)) if !people.include(number) => {
                return Some(Refusal::OtherPerson);
            }
            Some((Delayed::Claimable, ..)) | None => {}
        }
        match (self.control, self.first) {
            (Control::Dual, None) => return None,
            (Control::Dual, Some((first, _))) if first == number => {
                return Some(Refusal::SamePerson);
            }
            (Control::Dual, Some(_)) | (Control::Single, _) => {}
        }
        let begins = self.under_way.is_none() && self.delay.get() > 0;
        (begins && !self.delay_fits).then_some(Refusal::Late)
    }
}
