//! Being set up, and the way out of a lock that nobody can open (R11).

use super::bolt::Moment;
use super::step::Machine;
use super::writes::Continuation;
use crate::audit::{Change, Event, Outcome, People};
use crate::holder::{HolderRow, Number};
use crate::port::{Now, Reads, Sound, Tally};
use crate::rules::Unreadable;
use crate::rules::way_out::{self, Future, Trusted};
use crate::screen::{Form, Screen};
use crate::tally::SetUp;
use crate::time::{Seconds, Utc};

/// So long after two privileged people, or the only one, asked for a way out the lock
/// is being set up. Ours: longer than a weekend.
pub const TAKES: Seconds = Seconds::from_hours(72);

/// The same after one of several asked alone. Ours: longer than a colleague is away
/// without a word.
pub const ALONE_TAKES: Seconds = Seconds::from_hours(14 * 24);

/// How long a way out takes for these people. The only privileged person of a lock asks
/// as two people, of whom they are both.
pub(super) const fn length(people: People) -> Seconds {
    match people.second {
        Some(_) => TAKES,
        None => ALONE_TAKES,
    }
}

impl Machine {
    /// Whether what widens opening applies at once, and a drawn bolt is not needed.
    pub(super) fn is_being_set_up(&self) -> bool {
        self.service.in_use() && self.counts.set_up() == SetUp::Going
    }

    /// Whether the bolt is drawn, or need not be while the lock is being set up.
    pub(super) fn bolt_is_given(&self) -> bool {
        self.bolt.is_drawn() || self.is_being_set_up()
    }

    /// What the people of the lock can come to with the settings that `reads` has.
    pub(super) fn future(
        &self,
        policy: &crate::policy::Policy,
        at: Moment,
        reads: &mut dyn Reads,
    ) -> Result<Future, Unreadable> {
        let barred = |number| self.counts.is_at_limit(number);
        way_out::future(policy, self.today(at), self.in_force.zone(), (reads, &barred))
    }

    /// What the people of the lock can come to at `now`, with the settings that
    /// `reads` has and the policy that was set last (R11).
    ///
    /// # Errors
    /// [`Unreadable`] if the settings cannot be read.
    pub fn future_with(&self, now: Now, reads: &mut dyn Reads) -> Result<Future, Unreadable> {
        self.future(self.in_force.policy(), self.moment_of(now), reads)
    }

    /// The time, or what is nearest to it.
    pub(super) fn today(&self, at: Moment) -> (Utc, Trusted) {
        match at.utc {
            Some(utc) => (utc, Trusted::Yes),
            None => {
                let steady = at.steady.map(|steady| self.counts.shift().utc(steady));
                (steady.unwrap_or(self.clock.built()), Trusted::OnceSet)
            }
        }
    }

    /// Being set up is over for good once somebody could open.
    pub(super) fn look_at_set_up(
        &mut self,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        if !self.service.is_over() || !self.anew.take_future() {
            return Ok(());
        }
        if self.is_being_set_up()
            && self.future(self.in_force.policy(), at, reads)? == Future::Openable
        {
            self.tally(Tally::SetUp, Continuation::Nothing, at);
        }
        Ok(())
    }

    /// Privileged people ask for a way out.
    pub(super) fn begin_way_out(&mut self, people: People, at: Moment) {
        let by =
            Some(People { second: people.second.filter(|two| *two != people.first), ..people });
        let change = Change::WayOutBegun;
        self.record(at, Event::Changed { by, change }, Continuation::Nothing);
        self.tally(Tally::WayOut(people), Continuation::Say(Sound::Accepted, Outcome::Plain), at);
        self.countdowns.begin_way_out(people, at.uptime);
        self.notify(Screen::Form(Form::Done { change, from: None }), at);
    }

    /// A right or duress code was given: another privileged person ends a way out.
    pub(super) fn end_way_out_for(&mut self, who: Number, row: &HolderRow, at: Moment) {
        let asked = self.counts.way_out();
        if row.role.is_privileged() && asked.is_some_and(|people| !people.include(who)) {
            self.end_way_out(Some(People { first: who, second: None }), at);
        }
    }

    fn end_way_out(&mut self, by: Option<People>, at: Moment) {
        self.countdowns.end_way_out();
        let change = Change::WayOutEnded;
        // First it is over for good: a cut between the two must not leave a way out that
        // runs on although the audit says that it was ended.
        self.tally(Tally::WayOutOver, Continuation::Nothing, at);
        self.record(at, Event::Changed { by, change }, Continuation::Nothing);
    }

    /// The time of a way out has come: the lock is being set up, if it is stuck still.
    pub(super) fn look_at_way_out(
        &mut self,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        if self.countdowns.way_out().is_none_or(|due| at.uptime < due) || !self.is_idle() {
            return Ok(());
        }
        if self.future(self.in_force.policy(), at, reads)? == Future::Stuck {
            self.countdowns.end_way_out();
            let change = Change::WayOut;
            self.record(at, Event::Changed { by: None, change }, Continuation::Nothing);
            self.tally(Tally::SettingUp, Continuation::Nothing, at);
        } else {
            self.end_way_out(None, at);
        }
        Ok(())
    }
}
