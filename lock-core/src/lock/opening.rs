//! From a right code to what it gets: the request, the second person, the
//! delay, the claim, the release; and the hold-shut.

use super::access::{self, Access, Moment};
use super::errand::After;
use super::machine::Machine;
use super::pair::{Pair, PairFor};
use crate::audit::{CancelReason, Event, Outcome, People, Refusal};
use crate::holder::{HolderRow, Number};
use crate::policy::Control;
use crate::port::{Bolt, Fault, Reads, Sound, Tally};
use crate::role::Right;
use crate::rules::admission::{self, Admission, Bar, Conditions, Ends};
use crate::rules::limit::{Stood, WayIn};
use crate::rules::{Unreadable, delay, hold_shut, supply};
use crate::screen::Screen;
use crate::task::Task;
use crate::time::Utc;

/// What a right code gets.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Answer {
    /// A refusal, until then where that is known.
    Refuse(Refusal, Option<Utc>),
    /// The first of two: the second may come.
    First(PairFor),
    /// A time delay.
    Wait(People, Ends),
    /// The release.
    Release(People, Ends),
    /// The status.
    Status {
        /// Records that no reader has.
        uncollected: u32,
    },
    /// The dialogue of that task.
    Begin(Task),
}

/// Permitted so far, or refused.
pub(super) type Weighed<T> = Result<T, (Refusal, Option<Utc>)>;

impl Machine {
    pub(super) fn weigh_opening(
        &self,
        (number, row): (Number, &HolderRow),
        stood: Stood,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Answer, Unreadable> {
        if let Err(why) = self.standing(row, stood, Right::Open, at) {
            return Ok(Answer::Refuse(why, None));
        }
        if matches!(self.access, Access::Released(_) | Access::Open(_)) {
            return Ok(Answer::Refuse(Refusal::AlreadyOpen, None));
        }
        let ends = match self.permitted(row, stood, at, reads)? {
            Ok(ends) => ends,
            Err((why, until)) => return Ok(Answer::Refuse(why, until)),
        };
        match self.access {
            Access::Secured | Access::Blocked(_) => {
                let step = (PairFor::Request, self.control(at));
                let complete = self.complete(number, ends, step, at, reads)?;
                Ok(self.request(complete, at))
            }
            Access::Waiting(_) => Ok(Answer::Refuse(Refusal::Waiting, None)),
            Access::Claimable(claim) if !claim.people.include(number) => {
                Ok(Answer::Refuse(Refusal::OtherPerson, None))
            }
            Access::Claimable(claim) => {
                let step = (PairFor::Claim, claim.control());
                Ok(match self.complete(number, ends, step, at, reads)? {
                    Complete::No(answer) => answer,
                    Complete::Yes(people, ends) => Answer::Release(people, ends),
                })
            }
            Access::Released(_) | Access::Open(_) => Ok(Answer::Refuse(Refusal::AlreadyOpen, None)),
        }
    }

    fn request(&self, complete: Complete, at: Moment) -> Answer {
        match complete {
            Complete::No(answer) => answer,
            Complete::Yes(people, ends) if self.delay(at).get() == 0 => {
                Answer::Release(people, ends)
            }
            Complete::Yes(people, ends) => {
                if delay::fits(self.delay(at), at.utc, ends) {
                    Answer::Wait(people, ends)
                } else {
                    Answer::Refuse(Refusal::Late, None)
                }
            }
        }
    }

    /// Whether this holder may be released now, from role to window.
    pub(super) fn permitted(
        &self,
        row: &HolderRow,
        stood: Stood,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Weighed<Ends>, Unreadable> {
        if let Err(why) = self.standing(row, stood, Right::Open, at) {
            return Ok(Err((why, None)));
        }
        if let Some(pending) = self.waits(row, at) {
            let from = self.guard.shift().utc(pending.from);
            return Ok(Err((Refusal::Closed, at.utc.map(|_| from))));
        }
        let conditions = self.conditions(at);
        Ok(match admission::admit(row.follows, &conditions, &self.zone, reads)? {
            Admission::Granted(ends) => Ok(ends),
            Admission::Refused(Bar::Inhibit) => Err((Refusal::Inhibit, None)),
            Admission::Refused(Bar::HeldShut(until)) => {
                Err((Refusal::HeldShut, at.utc.map(|_| until)))
            }
            Admission::Refused(Bar::Supply) => Err((Refusal::Supply, None)),
            Admission::Refused(Bar::Clock) => Err((Refusal::Clock, None)),
            Admission::Refused(Bar::Settling(until)) => Err((Refusal::Settling, Some(until))),
            Admission::Refused(Bar::Closed(opens)) => Err((Refusal::Closed, opens)),
        })
    }

    /// The same of somebody else than who typed, by their row as it is now.
    pub(super) fn permitted_anew(
        &self,
        who: Number,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Weighed<Ends>, Unreadable> {
        match reads.holder(who)? {
            Some(row) => {
                let stood = self.guard.next_try(who, self.way_in(), at.uptime);
                self.permitted(&row, stood, at, reads)
            }
            None => Ok(Err((Refusal::Right, None))),
        }
    }

    /// Whether a drawn bolt lets a barred warden in.
    pub(super) fn way_in(&self) -> WayIn {
        match self.contacts.bolt {
            Bolt::Drawn => WayIn::Yes,
            Bolt::Thrown => WayIn::No,
        }
    }

    /// What bears on every opening at this moment.
    pub(super) fn conditions(&self, at: Moment) -> Conditions {
        Conditions {
            inhibit: self.contacts.inhibit,
            held_until: self.guard.held_until().map(|until| self.guard.shift().utc(until)),
            supply: self.supply,
            utc: at.utc,
            settles: self.settled_at(at),
        }
    }

    /// Whether the people are complete with this permitted holder.
    fn complete(
        &self,
        number: Number,
        ends: Ends,
        (step, control): (PairFor, Control),
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Complete, Unreadable> {
        if control == Control::Single {
            return Ok(Complete::Yes(People { first: number, second: None }, ends));
        }
        let Some(first) = self.pair.first() else {
            return Ok(Complete::No(Answer::First(step)));
        };
        if first == number {
            return Ok(Complete::No(Answer::Refuse(Refusal::SamePerson, None)));
        }
        // The first was permitted a while ago; much can have changed since.
        Ok(match self.permitted_anew(first, at, reads)? {
            Ok(first_ends) => {
                let people = People { first, second: Some(number) };
                Complete::Yes(people, ends.earlier(first_ends))
            }
            Err(_) => Complete::No(Answer::Refuse(Refusal::FirstRefused, None)),
        })
    }

    /// Until when a hold-shut would last that a holder of that row sets now.
    pub(super) fn hold_end(
        &self,
        row: &HolderRow,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Option<Utc>, Unreadable> {
        let Some(now) = at.utc else { return Ok(None) };
        let end = hold_shut::end(row.follows, now, &self.zone, reads)?;
        let running = self.guard.held_until().map(|until| self.guard.shift().utc(until));
        Ok(end.map(|end| running.map_or(end, |running| running.max(end))))
    }

    /// Sets a hold-shut: nobody opens before it ends, and whatever is under way is over.
    pub(super) fn hold_shut(&mut self, who: Number, until: Utc, at: Moment) {
        self.notify(Screen::HoldSet { until: self.stamp(until) }, at);
        let steady = self.guard.shift().steady(until);
        self.tally(Tally::HeldShut(steady), After::Nothing, at);
        let after = After::Say(Sound::Accepted, Outcome::Plain);
        self.record(at, Event::HeldShut { who, until }, after);
        self.access_event(access::Event::Cancel(CancelReason::HeldShut), at);
    }

    /// Carries an answer out: its record first, the rest once that is durable.
    // Not inlined: its stack is not there for what comes before or after it.
    #[inline(never)]
    pub(super) fn carry_out(&mut self, answer: Answer, who: Number, outcome: Outcome, at: Moment) {
        match answer {
            Answer::Refuse(why, until) => {
                if why == Refusal::FirstRefused {
                    self.pair = Pair::Nobody;
                }
                return self.refuse((why, until), who, outcome, at);
            }
            Answer::First(step) => {
                let until = at.uptime.after(self.policy.dual_limit);
                self.pair = Pair::First { number: who, until, step, outcome };
                let after = After::Say(Sound::Key, outcome);
                self.couriers.first_came();
                self.record(at, Event::FirstOfTwo { who, outcome }, after);
            }
            Answer::Wait(people, ends) => {
                let outcome = self.pair.joined(outcome);
                self.pair = Pair::Nobody;
                let after = After::BeginWait(people, ends, outcome);
                self.record_spending(people, at, Event::DelayStarted { people, outcome }, after);
            }
            Answer::Release(people, ends) => {
                let outcome = self.pair.joined(outcome);
                self.pair = Pair::Nobody;
                let after = After::Tell(outcome);
                self.record_spending(people, at, Event::Released { people, outcome }, after);
                // A drive that browns out must not leave a right code among the wrong ones.
                let after = After::Release(people, ends, outcome);
                return self.tally(Tally::Cleared(who), after, at);
            }
            Answer::Status { uncollected } => {
                let now = at.utc.map(|utc| self.stamp(utc));
                let supply = self.measured.map(|mv| supply::charge(&self.policy, self.supply, mv));
                self.notify(Screen::Status { supply, now, uncollected }, at);
                let after = After::Say(Sound::Accepted, outcome);
                self.record(at, Event::Status { who, outcome }, after);
            }
            // Begun where the settings can be read.
            Answer::Begin(_) => return self.out_of_order(Fault::Bug),
        }
        self.tally(Tally::Cleared(who), After::Nothing, at);
    }
}

/// Whether the people of an opening are complete.
enum Complete {
    /// They are: these, until their permit ends.
    Yes(People, Ends),
    /// Not yet, or never: this instead.
    No(Answer),
}
