//! After a durable change: the people of what is under way are decided anew (R3).

use super::bolt::{self, Access, Moment};
use super::step::{Look, Machine};
use crate::audit::{CancelReason, People};
use crate::decide::Hours;
use crate::policy::Control;
use crate::port::Reads;
use crate::rules::Unreadable;
use crate::rules::ends::Ends;
use crate::time::Seconds;

impl Machine {
    pub(super) fn decide_anew(
        &mut self,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        if self.anew.people == Look::No {
            return Ok(());
        }
        self.anew.people = Look::No;
        match self.access {
            Access::Waiting(mut waiting) => {
                match self.delayed_anew(waiting.people, waiting.delay, at, reads)? {
                    Some(ends) => {
                        waiting.ends = ends;
                        self.access = Access::Waiting(waiting);
                    }
                    None => self.cancel_as_changed(at),
                }
            }
            Access::Claimable(mut claim) => {
                match self.delayed_anew(claim.people, claim.delay, at, reads)? {
                    Some(ends) => {
                        claim.ends = ends;
                        self.access = Access::Claimable(claim);
                    }
                    None => self.cancel_as_changed(at),
                }
            }
            Access::Released(mut released) | Access::Blocked(mut released) => {
                released.ends = self.ends_anew(Some(released.people), released.ends, at, reads)?;
                self.access = if matches!(self.access, Access::Blocked(_)) {
                    Access::Blocked(released)
                } else {
                    Access::Released(released)
                };
            }
            Access::Open(mut open) => {
                open.ends = self.ends_anew(open.people, open.ends, at, reads)?;
                self.access = Access::Open(open);
            }
            Access::Secured => {}
        }
        // A permit may be over by now.
        self.access_event(bolt::Event::Time, at);
        Ok(())
    }

    fn cancel_as_changed(&mut self, at: Moment) {
        self.access_event(bolt::Event::Cancel(CancelReason::Changed), at);
    }

    /// When the permit of a wait ends now; `None` if there is none any more.
    fn delayed_anew(
        &self,
        people: People,
        delay: Seconds,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Option<Ends>, Unreadable> {
        let too_few = people.second.is_none() && self.control(at) == Control::Dual;
        if too_few || self.delay(at) > delay {
            return Ok(None);
        }
        let mut ends = Ends::Never;
        for who in [Some(people.first), people.second].into_iter().flatten() {
            match self.permitted_anew(who, at, reads)? {
                Some(own) => ends = ends.earlier(own),
                None => return Ok(None),
            }
        }
        Ok(Some(ends))
    }

    /// When the permit of people who opened ends now.
    fn ends_anew(
        &self,
        people: Option<People>,
        before: Ends,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Ends, Unreadable> {
        let (Some(people), Some(now), None) = (people, at.utc, self.settles) else {
            return Ok(before);
        };
        let mut ends = Ends::Never;
        for who in [Some(people.first), people.second].into_iter().flatten() {
            let row = reads.holder(who)?;
            let waits = row.as_ref().is_some_and(|row| self.waits(row, at).is_some());
            let own = match row {
                None => before,
                Some(_) if waits => Ends::At(now),
                Some(row) => {
                    let hours = Hours::at(row.follows, Some(now), &self.zone, reads)?;
                    hours.ends().unwrap_or(Ends::At(now))
                }
            };
            ends = ends.earlier(own);
        }
        Ok(ends)
    }
}
