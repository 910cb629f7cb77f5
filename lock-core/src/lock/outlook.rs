//! What a right code of one holder would meet at this moment, rule by rule.
//!
//! For whoever explains a lock: a trainer's page, a service laptop. It asks the
//! same functions as a code at the keypad, counts nothing and changes nothing.

use super::access::{Access, Moment};
use super::machine::Machine;
use super::opening::Answer;
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
        let at = self.moment_of(now);
        let Some(row) = reads.holder(number)? else { return Ok(None) };
        let stood = self.guard.next_try(number, self.way_in(), at.uptime);
        let standing = self.standing(&row, stood, crate::role::Right::Open, at);
        let ends = self.permitted(&row, stood, at, reads)?.unwrap_or(Ends::Never);
        // The very decision that a right code meets at the keypad.
        let refusal = match self.weigh_opening((number, &row), stood, at, reads)? {
            _ if self.guard.penalty_until().is_some() => Some(Refusal::Penalty),
            Answer::Refuse(why, _) => Some(why),
            Answer::First(_)
            | Answer::Wait(..)
            | Answer::Release(..)
            | Answer::Status { .. }
            | Answer::Begin(_) => None,
        };
        Ok(Some(Outlook {
            service: self.service,
            penalty: self.guard.penalty_until(),
            standing,
            already_open: matches!(self.access, Access::Released(_) | Access::Open(_)),
            deferred: self.waits(&row, at).map(|pending| self.guard.shift().utc(pending.from)),
            conditions: self.conditions(at),
            hours: self.hours(&row, at, reads)?,
            under_way: match &self.access {
                Access::Waiting(waiting) => Some((Delayed::Waiting, waiting.people, waiting.ready)),
                Access::Claimable(claim) => Some((Delayed::Claimable, claim.people, claim.until)),
                Access::Secured | Access::Blocked(_) | Access::Released(_) | Access::Open(_) => {
                    None
                }
            },
            delay: self.delay(at),
            delay_fits: delay::fits(self.delay(at), at.utc, ends),
            control: if let Access::Claimable(claim) = &self.access {
                claim.control()
            } else {
                self.control(at)
            },
            first: self.pair.first().zip(self.pair.until()),
            refusal,
        }))
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
