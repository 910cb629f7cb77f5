//! A try: keys become an attempt, the attempt is counted, then judged (R2, R5).

use super::alarm::AlarmLine;
use super::bolt::{self, Boltwork, Moment};
use super::couriers::one_time_verdict;
use super::in_force::InForce;
use super::keypad::{Attempt, Did, Purpose, Session};
use super::opening::Answer;
use super::step::Machine;
use super::writes::Continuation;
use crate::audit::{CancelReason, Event, Outcome, Refusal};
use crate::code::{self, Claim, Code, Kept, LockKey, Salt, Verdict};
use crate::decide::{self, Refused, Who};
use crate::dialog::Dialogue;
use crate::holder::{Claimed, HolderRow, Number};
use crate::keys::Key;
use crate::policy::DuressCodes;
use crate::port::{Fault, Reads, Sound, Tally};
use crate::rules::Unreadable;
use crate::rules::limit::Stood;
use crate::screen::{Screen, Topic};
use crate::task::Task;

impl Machine {
    pub(super) fn key_pressed(&mut self, key: Key, at: Moment, reads: &mut impl Reads) {
        if matches!(self.keypad.session(), Session::Form(_)) {
            self.display.hush();
            return self.dialogue_key(key, at, reads);
        }
        let begins_anew =
            self.service.fault() == Some(Fault::Blank) || self.writes.kept().is_erased();
        if begins_anew && key == Key::Ok {
            // Only somebody at an open safe reaches the switch (R7).
            if self.bolt.is_in_service() {
                self.begin_alone(Topic::FirstWarden, at, reads);
            }
            return;
        }
        if !self.service.is_over() {
            return;
        }
        if self.counts.penalty_until().is_some() {
            self.key_in_penalty(key, at, reads);
            return;
        }
        // What is swallowed changes nothing, what is said included.
        if !(matches!(self.keypad.session(), Session::Over(_)) && matches!(key, Key::Digit(_))) {
            self.display.hush();
        }
        match self.keypad.on_key(key, at.uptime) {
            Did::Nothing => {}
            Did::Something => self.out.sound(Sound::Key),
            Did::TooShort => {
                self.out.sound(Sound::Key);
                self.notify(Screen::TooShort, at);
            }
            Did::TooLong => {
                self.out.sound(Sound::Key);
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
        if matches!(self.keypad.session(), Session::Rest) && key == Key::Ok {
            return;
        }
        if self.keypad.on_key(key, at.uptime) != Did::Try {
            return;
        }
        let looks = self.counts.look();
        let Some(attempt) = self.keypad.attempt().filter(|_| looks) else {
            return self.keypad.rest();
        };
        let who = attempt.number;
        let judged = verdict(attempt, (&self.in_force, &self.bolt, &mut self.alarm), at, reads);
        self.keypad.rest();
        match judged {
            Ok((verdict, claimed)) => {
                let outcome = match verdict {
                    Verdict::Right | Verdict::Wrong => Outcome::Plain,
                    Verdict::Duress => Outcome::Duress,
                };
                let why = Refusal::Penalty;
                self.record(at, Event::Refused { who, why, outcome }, Continuation::Tell(outcome));
                let stood = self.counts.next_try(who, self.bolt.way_in(), at.uptime);
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
        let way_in = self.bolt.way_in();
        let Some(attempt) = self.keypad.attempt() else { return };
        let number = attempt.number;
        attempt.stood = self.counts.try_on(number, way_in, at.uptime);
        self.tally(Tally::Counted(number), Continuation::Judge, at);
    }

    /// Judges the counted try.
    #[inline(never)] // own frame
    pub(super) fn judge(&mut self, at: Moment, reads: &mut impl Reads) {
        let Some(attempt) = self.keypad.attempt() else {
            return self.out_of_order(Fault::Bug);
        };
        // It stays where it is meanwhile: the stack has no room for both.
        let regions = (&self.in_force, &self.bolt, &mut self.alarm);
        let judged = match verdict(attempt, regions, at, reads) {
            Ok(judged) => self.judged(judged, at, reads),
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
        (verdict, claimed): (Verdict, Claimed),
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        let (attempt, dialogue) = match self.keypad.take() {
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
        if row.role.is_privileged() && decide::able(row, attempt.stood).is_ok() {
            let until = at.uptime.after(self.in_force.policy().dual_limit);
            self.counts.vouch(attempt.number, until);
        }
        let led = self.given_right(&attempt, dialogue, (row, outcome), at, reads);
        if decide::able(row, attempt.stood).is_ok() {
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
            return self.second_came(dialogue, (attempt, row), outcome, at, reads);
        }
        match self.answer(attempt, row, at, reads)? {
            Answer::Begin(task) => self.begin(task, attempt.number, outcome, at, reads),
            answer @ (Answer::Opening(_) | Answer::Refuse(_) | Answer::Status { .. }) => {
                self.carry_out(answer, (attempt.number, attempt.spends), outcome, at);
                Ok(())
            }
        }
    }

    #[inline(never)] // own frame
    fn wrong(&mut self, attempt: &Attempt, row: Option<&HolderRow>, at: Moment) {
        let who = attempt.number;
        let after = Continuation::Say(Sound::Refused, Outcome::Plain);
        self.record(at, Event::WrongCode { who }, after);
        let left = self.counts.left(self.in_force.policy());
        // Past a number's limit the screen does not tell whose it is.
        let notice = if attempt.stood == Stood::Below {
            Screen::WrongCode { left }
        } else {
            Screen::Refused { why: Refusal::Barred, until: None }
        };
        self.penalty_or(notice, at);
        let stood = self.counts.next_try(who, self.bolt.way_in(), at.uptime);
        let barred = row.is_some_and(|row| stood.bars(row.role));
        if barred && self.people_include(who) {
            self.bolt_event(bolt::Event::Cancel(CancelReason::Barred), at);
        }
    }

    fn people_include(&self, who: Number) -> bool {
        self.bolt.access().delayed().is_some_and(|(people, _)| people.include(who))
    }

    /// Starts a penalty if the lock's count has reached the limit; else says
    /// `notice`.
    fn penalty_or(&mut self, notice: Screen, at: Moment) {
        if self.counts.left(self.in_force.policy()) == 0 {
            self.start_penalty(at);
        } else {
            self.notify(notice, at);
        }
    }

    pub(super) fn start_penalty(&mut self, at: Moment) {
        let lasts = self.counts.start_penalty(self.in_force.policy(), at.uptime);
        self.keypad.rest();
        self.display.hush();
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
        let stood = attempt.stood;
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

/// Judges a code by what is kept of the enrolled one.
#[inline(never)] // own frame
pub(super) fn judge_code(
    key: &LockKey,
    number: Number,
    (kept, code): (Kept<'_>, &Code),
    reads: &mut impl Reads,
) -> Result<Verdict, Unreadable> {
    let digest = |salt: &Salt, code: &Code| reads.digest(key, Claim { salt, number, code });
    code::judge_by(digest, kept, code)
}

/// The verdict and the row. The same work whatever comes of it, and whether
/// anybody has the number (R5).
// Whoever counts instructions up to the verdict finds it by name.
#[inline(never)] // own frame
fn verdict(
    attempt: &mut Attempt,
    (in_force, bolt, alarm): (&InForce, &Boltwork, &mut AlarmLine),
    at: Moment,
    reads: &mut impl Reads,
) -> Result<(Verdict, Claimed), Unreadable> {
    let number = attempt.number;
    let claimed = reads.claimed(number)?;
    let kept = claimed.kept();
    let verdict = judge_code(in_force.key(), number, (kept, &attempt.code), reads)?;
    let one_time = one_time_verdict(attempt, &claimed, bolt.began_with(number), reads)?;
    let verdict = one_time.unwrap_or(verdict);
    let policy = in_force.policy();
    alarm.judged(at.uptime.after(policy.alarm_hold));
    let verdict = match (verdict, policy.duress) {
        (Verdict::Duress, DuressCodes::Off) => Verdict::Wrong,
        (verdict, DuressCodes::Off | DuressCodes::On) => verdict,
    };
    Ok((verdict, claimed))
}
