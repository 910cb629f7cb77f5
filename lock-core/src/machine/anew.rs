//! After a durable change: the people of what is under way are decided anew (R3).

use super::bolt::{Access, Claimable, Event, Moment, Waiting};
use super::step::Machine;
use crate::audit::{CancelReason, People};
use crate::decide::Hours;
use crate::policy::Control;
use crate::port::Reads;
use crate::rules::Unreadable;
use crate::rules::ends::Ends;
use crate::time::{Seconds, Steady};

/// The region of what is to be looked at again at the end of a step.
pub(super) struct Anew {
    /// The people of what is under way: a change of the settings or the clock is
    /// durable.
    people: bool,
    /// Whether somebody could open by now, while the lock is being set up.
    future: bool,
    /// Something may wait: the first opening from that second on brings all of it
    /// forward. After a boot it may.
    may_wait: Option<Steady>,
}

impl Anew {
    pub(super) const AT_BOOT: Self =
        Self { people: true, future: true, may_wait: Some(Steady::from_secs(0)) };

    /// The settings are other ones.
    pub(super) const fn settings(&mut self) {
        self.people = true;
        self.future = true;
    }

    /// Time is told otherwise.
    pub(super) const fn time(&mut self) {
        self.people = true;
    }

    pub(super) const fn take_people(&mut self) -> bool {
        core::mem::replace(&mut self.people, false)
    }

    pub(super) const fn take_future(&mut self) -> bool {
        core::mem::replace(&mut self.future, false)
    }

    /// Something waits that was made at that moment. What is made in the second of an
    /// opening is not brought by that one.
    pub(super) fn waits(&mut self, made: Option<Steady>) {
        self.may_wait = made.map(|made| made.after(Seconds::new(1)));
    }

    /// The lock was opened then; whether something may have waited.
    pub(super) fn opened(&mut self, steady: Steady) -> bool {
        let waited = self.may_wait.is_some();
        self.may_wait.take_if(|from| steady >= *from);
        waited
    }
}

impl Machine {
    pub(super) fn decide_anew(
        &mut self,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        if !self.anew.take_people() {
            return Ok(());
        }
        let ends = match *self.bolt.access() {
            Access::Waiting(Waiting { people, delay, .. })
            | Access::Claimable(Claimable { people, delay, .. }) => {
                self.delayed_anew(people, delay, at, reads)?
            }
            Access::Released(released) | Access::Blocked(released) => {
                Some(self.ends_anew(Some(released.people), released.ends, at, reads)?)
            }
            Access::Open(open) => Some(self.ends_anew(open.people, open.ends, at, reads)?),
            Access::Secured => return Ok(()),
        };
        match ends {
            Some(ends) => self.bolt.set_ends(ends),
            None => self.bolt_event(Event::Cancel(CancelReason::Changed), at),
        }
        // A permit may be over by now.
        self.bolt_event(Event::Time, at);
        Ok(())
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
        let (Some(people), Some(now), None) = (people, at.utc, self.clock.settles()) else {
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
                    let hours = Hours::at(row.follows, Some(now), self.in_force.zone(), reads)?;
                    hours.ends().unwrap_or(Ends::At(now))
                }
            };
            ends = ends.earlier(own);
        }
        Ok(ends)
    }
}
