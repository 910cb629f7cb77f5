//! A try: keys become an attempt, the attempt is counted, then judged (R2, R5).

use super::bolt::{self, Moment};
use super::keypad::{Attempt, Did, Purpose, Session};
use super::opening::Answer;
use super::step::Machine;
use super::writes::Continuation;
use crate::audit::{CancelReason, Event, Outcome, Refusal};
use crate::code::{self, Claim, Code, Kept, Salt, Verdict};
use crate::decide::{self, Refused, Who};
use crate::dialog::Dialogue;
use crate::holder::{Claimed, HolderRow, Number};
use crate::keys::Key;
use crate::policy::DuressCodes;
use crate::port::{Bolt, Fault, Reads, Sound, Switch, Tally};
use crate::rules::Unreadable;
use crate::rules::limit::Stood;
use crate::screen::{Screen, Topic};
use crate::task::Task;

impl Machine {
    pub(super) fn key_pressed(&mut self, key: Key, at: Moment, reads: &mut impl Reads) {
        if matches!(self.session, Session::Form(_)) {
            self.notice = None;
            return self.dialogue_key(key, at, reads);
        }
        let begins_anew = self.service == Some(Fault::Blank) || self.kept.is_erased();
        if begins_anew && key == Key::Ok {
            // Only somebody at an open safe reaches the switch (R7).
            if self.contacts.bolt == Bolt::Drawn && self.contacts.switch == Switch::On {
                self.begin_alone(Topic::FirstWarden, at, reads);
            }
            return;
        }
        if self.service.is_some() {
            return;
        }
        if self.counts.penalty_until().is_some() {
            self.key_in_penalty(key, at, reads);
            return;
        }
        // What is swallowed changes nothing, what is said included.
        if !(matches!(self.session, Session::Over(_)) && matches!(key, Key::Digit(_))) {
            self.notice = None;
        }
        match self.session.on_key(key, at.uptime) {
            Did::Nothing => {}
            Did::Something => self.sound(Sound::Key),
            Did::TooShort => {
                self.sound(Sound::Key);
                self.notify(Screen::TooShort, at);
            }
            Did::TooLong => {
                self.sound(Sound::Key);
                self.notify(Screen::TooLong, at);
            }
            Did::Try => self.count(at),
            Did::Nobody => self.begin_alone(Topic::SlowReset, at, reads),
        }
    }

    /// In a penalty keys show nothing. The first few entries are judged all the
    /// same, with equal work and equal writes, so that a duress code is heard.
    #[inline(never)] // own frame
    fn key_in_penalty(&mut self, key: Key, at: Moment, reads: &mut impl Reads) {
        if matches!(self.session, Session::Rest) && key == Key::Ok {
            return;
        }
        if self.session.on_key(key, at.uptime) != Did::Try {
            return;
        }
        let session = core::mem::replace(&mut self.session, Session::Rest);
        let Session::Judging(attempt) = session else { return };
        if !self.counts.look() {
            return;
        }
        match self.verdict(&attempt, at, reads) {
            Ok((verdict, claimed)) => {
                let outcome = match verdict {
                    Verdict::Right | Verdict::Wrong => Outcome::Plain,
                    Verdict::Duress => Outcome::Duress,
                };
                let (who, why) = (attempt.number, Refusal::Penalty);
                self.record(at, Event::Refused { who, why, outcome }, Continuation::Tell(outcome));
                let stood = self.counts.next_try(who, self.way_in(), at.uptime);
                if verdict != Verdict::Wrong
                    && let Some(row) = claimed.holder()
                    && decide::able(row, stood).is_ok()
                {
                    self.end_way_out_for(who, row, at);
                }
            }
            Err(Unreadable) => self.out_of_order(Fault::Settings),
        }
    }

    /// Counts the try; it is judged once the count is durable.
    pub(super) fn count(&mut self, at: Moment) {
        let number = match &self.session {
            Session::Judging(attempt) | Session::Second(attempt, _) => attempt.number,
            Session::Rest
            | Session::Entry(_)
            | Session::Over(_)
            | Session::List { .. }
            | Session::Who(..)
            | Session::Form(_) => return,
        };
        self.stood = self.counts.try_on(number, self.way_in(), at.uptime);
        self.tally(Tally::Counted(number), Continuation::Judge, at);
    }

    /// Judges the counted try.
    #[inline(never)] // own frame
    pub(super) fn judge(&mut self, at: Moment, reads: &mut impl Reads) {
        let session = core::mem::replace(&mut self.session, Session::Rest);
        let attempt = match &session {
            Session::Judging(attempt) | Session::Second(attempt, _) => attempt,
            Session::Rest
            | Session::Entry(_)
            | Session::Over(_)
            | Session::List { .. }
            | Session::Who(..)
            | Session::Form(_) => {
                self.session = session;
                return self.out_of_order(Fault::Bug);
            }
        };
        let judged = match self.verdict(attempt, at, reads) {
            Ok(verdict) => self.judged(session, verdict, at, reads),
            Err(Unreadable) => Err(Unreadable),
        };
        if judged == Err(Unreadable) {
            self.out_of_order(Fault::Settings);
        }
    }

    /// What follows from a verdict.
    #[inline(never)] // own frame
    fn judged(
        &mut self,
        session: Session,
        (verdict, claimed): (Verdict, Claimed),
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        let (attempt, dialogue) = match session {
            Session::Judging(attempt) => (attempt, None),
            Session::Second(attempt, dialogue) => (attempt, Some(dialogue)),
            Session::Rest
            | Session::Entry(_)
            | Session::Over(_)
            | Session::List { .. }
            | Session::Who(..)
            | Session::Form(_) => return Ok(()),
        };
        let outcome = match verdict {
            Verdict::Right => Outcome::Plain,
            Verdict::Duress => Outcome::Duress,
            Verdict::Wrong => {
                self.wrong(&attempt, claimed.holder(), at);
                return Ok(());
            }
        };
        let Some(row) = claimed.holder() else { return Ok(()) };
        if row.role.is_privileged() && decide::able(row, self.stood).is_ok() {
            let until = at.uptime.after(self.policy.dual_limit);
            self.counts.vouch(attempt.number, until);
        }
        let led = self.given_right(&attempt, dialogue, (row, outcome), at, reads);
        if decide::able(row, self.stood).is_ok() {
            self.end_way_out_for(attempt.number, row, at);
        }
        led
    }

    /// What a right or duress code gets.
    fn given_right(
        &mut self,
        attempt: &Attempt,
        dialogue: Option<Dialogue>,
        (row, outcome): (&HolderRow, Outcome),
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        if let Some(dialogue) = dialogue {
            return self.second_came(dialogue, (attempt.number, row), outcome, at, reads);
        }
        match self.answer(attempt, row, at, reads)? {
            Answer::Begin(task) => self.begin(task, attempt.number, outcome, at, reads),
            answer @ (Answer::Opening(_) | Answer::Refuse(_) | Answer::Status { .. }) => {
                self.carry_out(answer, attempt.number, outcome, at);
                Ok(())
            }
        }
    }

    /// Judges a code by what is kept of the enrolled one.
    #[inline(never)] // own frame
    pub(super) fn judge_code(
        &self,
        number: Number,
        kept: Kept<'_>,
        code: &Code,
        reads: &mut impl Reads,
    ) -> Result<Verdict, Unreadable> {
        let digest =
            |salt: &Salt, code: &Code| reads.digest(&self.key, Claim { salt, number, code });
        code::judge_by(digest, kept, code)
    }

    /// The verdict and the row. The same work whatever comes of it, and whether
    /// anybody has the number (R5).
    #[inline(never)] // own frame
    fn verdict(
        &mut self,
        attempt: &Attempt,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(Verdict, Claimed), Unreadable> {
        let claimed = reads.claimed(attempt.number)?;
        let verdict = self.judge_code(attempt.number, claimed.kept(), &attempt.code, reads)?;
        let one_time = self.one_time_verdict(attempt, &claimed, reads)?;
        let verdict = one_time.unwrap_or(verdict);
        self.alarm.judged(at.uptime.after(self.policy.alarm_hold));
        let verdict = match (verdict, self.policy.duress) {
            (Verdict::Duress, DuressCodes::Off) => Verdict::Wrong,
            (verdict, DuressCodes::Off | DuressCodes::On) => verdict,
        };
        Ok((verdict, claimed))
    }

    #[inline(never)] // own frame
    fn wrong(&mut self, attempt: &Attempt, row: Option<&HolderRow>, at: Moment) {
        let who = attempt.number;
        let after = Continuation::Say(Sound::Refused, Outcome::Plain);
        self.record(at, Event::WrongCode { who }, after);
        let left = self.counts.left(&self.policy);
        // Past a number's limit the screen does not tell whose it is.
        let notice = if self.stood == Stood::Below {
            Screen::WrongCode { left }
        } else {
            Screen::Refused { why: Refusal::Barred, until: None }
        };
        self.penalty_or(notice, at);
        let stood = self.counts.next_try(who, self.way_in(), at.uptime);
        let barred = row.is_some_and(|row| stood.bars(row.role));
        if barred && self.people_include(who) {
            self.access_event(bolt::Event::Cancel(CancelReason::Barred), at);
        }
    }

    fn people_include(&self, who: Number) -> bool {
        self.access.delayed().is_some_and(|(people, _)| people.include(who))
    }

    /// Starts a penalty if the lock's count has reached the limit; else says
    /// `notice`.
    fn penalty_or(&mut self, notice: Screen, at: Moment) {
        if self.counts.left(&self.policy) == 0 {
            self.start_penalty(at);
        } else {
            self.notify(notice, at);
        }
    }

    pub(super) fn start_penalty(&mut self, at: Moment) {
        let lasts = self.counts.start_penalty(&self.policy, at.uptime);
        self.session = Session::Rest;
        self.notice = None;
        self.tally(Tally::Penalty, Continuation::Nothing, at);
        self.record(at, Event::Penalty { lasts }, Continuation::Nothing);
    }

    /// A right code is refused.
    pub(super) fn refuse(
        &mut self,
        Refused { why, until }: Refused,
        who: Number,
        outcome: Outcome,
        at: Moment,
    ) {
        let after = Continuation::Say(Sound::Refused, outcome);
        self.record(at, Event::Refused { who, why, outcome }, after);
        let notice = Screen::Refused { why, until: until.map(|until| self.stamp(until)) };
        if why == Refusal::Barred {
            self.penalty_or(notice, at);
        } else {
            self.tally(Tally::Cleared(who), Continuation::Nothing, at);
            self.notify(notice, at);
        }
    }

    /// What a right code gets, from the purpose it was entered for.
    #[inline(never)] // own frame
    fn answer(
        &mut self,
        attempt: &Attempt,
        row: &HolderRow,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Answer, Unreadable> {
        let stood = self.stood;
        let task = match attempt.purpose {
            Purpose::Open => {
                let who = Who { number: attempt.number, row, stood };
                let decision = decide::decide(&self.facts(at), who, reads, &mut ())?;
                return Ok(Answer::Opening(decision));
            }
            Purpose::Task(task) => task,
            // Judged with its dialogue.
            Purpose::Second => return Ok(Answer::Refuse(Refusal::Right)),
        };
        let right = task.right();
        if let Err(why) = decide::entitled(row, stood, right, self.deputies(at)) {
            return Ok(Answer::Refuse(why));
        }
        Ok(if task == Task::Status {
            let newest = reads.newest_seq().map_or(0, |seq| seq.0);
            let uncollected = newest.saturating_sub(self.counts.collected().0);
            Answer::Status { uncollected }
        } else if task == Task::HoldShut && self.hold_end(row, at, reads)?.is_none() {
            Answer::Refuse(Refusal::Hold)
        } else {
            Answer::Begin(task)
        })
    }
}
