//! From a right code to what it gets: the request, the second person, the
//! delay, the claim, the release; and the hold-shut.

use super::bolt::{self, Access, Moment};
use super::pair::{self, Wanted};
use super::step::Machine;
use super::writes::Continuation;
use crate::audit::{CancelReason, Event, Outcome, Refusal};
use crate::decide::{self, Conditions, Decision, Facts, First, Refused, Sink, Stage, Who};
use crate::holder::{HolderRow, Number};
use crate::port::{Fault, Now, Reads, Sound, Tally};
use crate::rules::ends::Ends;
use crate::rules::{Unreadable, hold_shut};
use crate::screen::Screen;
use crate::task::Task;
use crate::time::Utc;

/// What a right code gets, whatever it was entered for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Answer {
    /// What was decided about an opening.
    Opening(Decision),
    /// A refusal of something else.
    Refuse(Refusal),
    /// The status.
    Status {
        /// Records that no reader has.
        uncollected: u32,
    },
    /// The dialogue of that task.
    Begin(Task),
}

impl Machine {
    /// What the lock knows when it decides.
    pub(super) fn facts(&self, at: Moment) -> Facts<'_> {
        let stage = match self.bolt.access() {
            Access::Secured | Access::Blocked(_) => Stage::Secured,
            Access::Waiting(waiting) => Stage::Waiting(waiting.people, waiting.ready),
            Access::Claimable(claim) => Stage::Claimable(claim.people, claim.until),
            Access::Released(_) | Access::Open(_) => Stage::Free,
        };
        let first = self.pair.first().map(|(number, until)| {
            let stood = self.counts.next_try(number, self.bolt.way_in(), at.uptime);
            First { number, until, stood }
        });
        Facts {
            service: self.service.fault(),
            penalty: self.counts.penalty_until(),
            conditions: self.conditions(at),
            shift: self.counts.shift(),
            steady: at.steady,
            brought: self.counts.brought(),
            delay: self.delay(at),
            control: self.control(at),
            deputies: self.deputies(at),
            stage,
            first,
            zone: self.in_force.zone(),
        }
    }

    /// Until when somebody may open who is not at the keypad now, by their row as it is
    /// now.
    pub(super) fn permitted_anew(
        &self,
        who: Number,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Option<Ends>, Unreadable> {
        let Some(row) = reads.holder(who)? else { return Ok(None) };
        let stood = self.counts.next_try(who, self.bolt.way_in(), at.uptime);
        let who = Who { number: who, row: &row, stood };
        Ok(decide::permit(&self.facts(at), who, reads)?.ok())
    }

    /// What a right code of holder `number` would meet at `now`, with every clause into
    /// `sink`; `None` if nobody is enrolled there. For couriers: any code that is still
    /// good. Nothing is counted and nothing changes.
    ///
    /// Timers that are due must have run: ask a lock at rest.
    ///
    /// # Errors
    /// [`Unreadable`] if the settings cannot be read.
    pub fn decide<S: Sink>(
        &self,
        number: Number,
        now: Now,
        reads: &mut impl Reads,
        sink: &mut S,
    ) -> Result<Option<Decision>, Unreadable> {
        let at = self.moment_of(now);
        let Some(row) = reads.holder(number)? else { return Ok(None) };
        let stood = self.counts.next_try(number, self.bolt.way_in(), at.uptime);
        let who = Who { number, row: &row, stood };
        decide::decide(&self.facts(at), who, reads, sink).map(Some)
    }

    /// What bears on every opening at this moment.
    pub(super) fn conditions(&self, at: Moment) -> Conditions {
        Conditions {
            inhibit: self.bolt.contacts().inhibit,
            held_until: self.counts.held_until().map(|until| self.counts.shift().utc(until)),
            supply: self.supply.level(),
            utc: at.utc,
            settles: self.clock.settled_at(at),
        }
    }

    /// Until when a hold-shut would last that a holder of that row sets now.
    pub(super) fn hold_end(
        &self,
        row: &HolderRow,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Option<Utc>, Unreadable> {
        let Some(now) = at.utc else { return Ok(None) };
        let end = hold_shut::end(row.follows, now, self.in_force.zone(), reads)?;
        let running = self.counts.held_until().map(|until| self.counts.shift().utc(until));
        Ok(end.map(|end| running.map_or(end, |running| running.max(end))))
    }

    /// Sets a hold-shut: nobody opens before it ends, and whatever is under way is over.
    pub(super) fn hold_shut(&mut self, who: Number, until: Utc, at: Moment) {
        self.notify(Screen::HoldSet { until: self.stamp(until) }, at);
        let steady = self.counts.shift().steady(until);
        self.tally(Tally::HeldShut(steady), Continuation::Nothing, at);
        let after = Continuation::Say(Sound::Accepted, Outcome::Plain);
        self.record(at, Event::HeldShut { who, until }, after);
        self.bolt_event(bolt::Event::Cancel(CancelReason::HeldShut), at);
    }

    /// Carries an answer out: its record first, the rest once that is durable.
    #[inline(never)] // own frame
    pub(super) fn carry_out(
        &mut self,
        answer: Answer,
        (who, spends): (Number, Option<u32>),
        outcome: Outcome,
        at: Moment,
    ) {
        match answer {
            Answer::Opening(decision) => return self.open(decision, (who, spends), outcome, at),
            Answer::Refuse(why) => return self.refuse(Refused::because(why), who, outcome, at),
            Answer::Status { uncollected } => {
                let now = at.utc.map(|utc| self.stamp(utc));
                let supply = self.supply.charge(self.in_force.policy());
                self.notify(Screen::Status { supply, now, uncollected }, at);
                let after = Continuation::Say(Sound::Accepted, outcome);
                self.record(at, Event::Status { who, outcome }, after);
            }
            // Begun where the settings can be read.
            Answer::Begin(_) => return self.out_of_order(Fault::Bug),
        }
        self.tally(Tally::Cleared(who), Continuation::Nothing, at);
    }

    /// Carries out what was decided about an opening.
    #[inline(never)] // own frame
    fn open(
        &mut self,
        decision: Decision,
        (who, spends): (Number, Option<u32>),
        outcome: Outcome,
        at: Moment,
    ) {
        match decision {
            // No code is taken that could be judged.
            Decision::Service(_) => {}
            Decision::Refuse(refused) => {
                if refused.why == Refusal::FirstRefused {
                    self.pair.end();
                }
                self.refuse(refused, who, outcome, at);
            }
            Decision::First => {
                let until = at.uptime.after(self.in_force.policy().dual_limit);
                let wanted = if matches!(self.bolt.access(), Access::Claimable(_)) {
                    Wanted::Claim
                } else {
                    Wanted::Request
                };
                self.pair.begin(pair::First { number: who, until, wanted, outcome, spends });
                let after = Continuation::Say(Sound::Key, outcome);
                self.record(at, Event::FirstOfTwo { who, outcome }, after);
                self.tally(Tally::Cleared(who), Continuation::Nothing, at);
            }
            Decision::Wait(people, ends) | Decision::Release(people, ends) => {
                let first = self.pair.end();
                // Duress if either of the two people is under it.
                let outcome = match &first {
                    Some(pair::First { outcome: Outcome::Duress, .. }) => Outcome::Duress,
                    Some(pair::First { outcome: Outcome::Plain, .. }) | None => outcome,
                };
                let code = |number, spends: Option<u32>| spends.map(|next| (number, next));
                // Who came first may not be needed any more.
                let theirs =
                    |first: &pair::First| first.number != who && people.include(first.number);
                let before = first.filter(theirs).and_then(|f| code(f.number, f.spends));
                let spent = [before, code(who, spends)];
                let waits = matches!(decision, Decision::Wait(..));
                // A drive that browns out must not leave a right code among the wrong ones.
                let (event, recorded, cleared) = if waits {
                    let begins = Continuation::BeginWait(people, ends, outcome);
                    (Event::DelayStarted { people, outcome }, begins, Continuation::Nothing)
                } else {
                    let releases = Continuation::Release(people, ends, outcome);
                    (Event::Released { people, outcome }, Continuation::Tell(outcome), releases)
                };
                self.record_spending(spent, at, event, recorded);
                self.tally(Tally::Cleared(who), cleared, at);
            }
        }
    }
}
