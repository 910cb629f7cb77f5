//! From a confirmed dialogue to a change that is made durable (R6), at once or
//! from the next opening window on (R3).

use super::bolt::Moment;
use super::from_when::Applies;
use super::keypad::Session;
use super::step::Machine;
use super::two_people::may_open;
use super::writes::Continuation;
use super::writes::Kept;
use crate::audit::{Change, Event, Outcome, People};
use crate::code::{Claim, Code, Digest, LockKey};
use crate::dialog::{Dialogue, Draft, Stage};
use crate::holder::{HolderRow, Number, Opens, Pending, Standing};
use crate::policy::{Control, Stricter};
use crate::port::{Fault, Reads, Sound, Tally, Write};
use crate::role::Role;
use crate::rules::Unreadable;
use crate::screen::{Form, Gist, Screen, Topic, Trouble};
use crate::settings::Edit;
use crate::tally::SetUp;
use crate::task::Task;
use crate::time::Steady;
use crate::timetable::Follows;

/// A change that may be made.
pub(super) struct Proposal {
    pub(super) edit: Edit,
    pub(super) change: Change,
    /// From when on it opens, if not at once.
    pub(super) from: Option<Steady>,
    /// Whose failures end, since they have a new code.
    pub(super) renews: Option<Number>,
}

impl Proposal {
    pub(super) const fn at_once(edit: Edit, change: Change) -> Self {
        Self { edit, change, from: None, renews: None }
    }
}

/// A change, or why not.
pub(super) type Proposed = Result<Proposal, Trouble>;

/// What somebody's openings follow; `None` for somebody who may not open.
type Held = Option<Follows>;

impl Machine {
    /// Proposes what a dialogue was led for: what hinders it, or what it comes to if
    /// it is a change of the settings.
    #[inline(never)] // own frame
    pub(super) fn propose_confirmed(
        &mut self,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Option<Proposed>, Unreadable> {
        let Some(dialogue) = self.keypad.take_form() else { return Ok(None) };
        let mut proposed = match self.hindered(&dialogue, at) {
            Ok(()) => self.propose(&dialogue, at, reads)?,
            Err(trouble) => Some(Err(trouble)),
        };
        if let (Some(Ok(made)), Some(code)) = (&mut proposed, &dialogue.draft.code) {
            self.digest_into(&mut made.edit, code, reads)?;
        }
        self.keypad.keep(dialogue);
        Ok(proposed)
    }

    /// Whoever was given a new code: its digest, under a new salt.
    #[inline(never)] // own frame
    fn digest_into(
        &mut self,
        edit: &mut Edit,
        code: &Code,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        let salt = self.seed.salt();
        let (key, number, row) = match edit {
            Edit::Commission(key, number, row) => (&*key, *number, row),
            Edit::Holder(number, Some(row)) => (self.in_force.key(), *number, row),
            Edit::Holder(_, None)
            | Edit::Policy(..)
            | Edit::Pairing(_)
            | Edit::Spend(_)
            | Edit::Adopt(_)
            | Edit::Wait(..)
            | Edit::Reset(_) => return Ok(()),
        };
        row.digest = reads.digest(key, Claim { salt: &salt, number, code })?;
        row.salt = salt;
        Ok(())
    }

    /// Does what a dialogue was led for, as it was proposed.
    #[inline(never)] // own frame
    pub(super) fn do_it(
        &mut self,
        proposed: Option<Proposed>,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        let Some(dialogue) = self.keypad.form() else { return Ok(()) };
        let (topic, by) = (dialogue.topic, dialogue.people());
        let done = match (proposed, topic) {
            (Some(Err(trouble)), _) => Err(trouble),
            (Some(Ok(made)), Topic::Task(task)) => return self.change(made, task, at, reads),
            (Some(Ok(made)), Topic::FirstWarden | Topic::SlowReset) => {
                self.send_made(made, by, at);
                Ok(())
            }
            (None, Topic::SlowReset) => {
                self.begin_slow_reset(at);
                Ok(())
            }
            (None, Topic::Task(Task::SetClock)) => self.clock_confirmed(at),
            (None, Topic::Task(Task::HoldShut)) => return self.hold_confirmed(at, reads),
            (None, Topic::Task(Task::WayOut)) => self.way_out_confirmed(by, at, reads)?,
            (None, Topic::Task(Task::TestAlarm)) => {
                let change = Change::AlarmTested;
                self.record(at, Event::Changed { by, change }, Continuation::TestAlarm);
                self.notify(Screen::Form(Form::Done { change, from: None }), at);
                Ok(())
            }
            (None, Topic::Task(Task::Reset)) => {
                self.reset(by, at);
                Ok(())
            }
            // They are proposed, or carried out elsewhere and never confirmed.
            (None, Topic::FirstWarden | Topic::Task(_)) => {
                self.out_of_order(Fault::Bug);
                Ok(())
            }
        };
        match done {
            Ok(()) => self.keypad.rest(),
            Err(trouble) => self.refuse_form(trouble),
        }
        Ok(())
    }

    /// Makes a change of the settings, unless it would leave the lock stuck (R11).
    fn change(
        &mut self,
        made: Proposal,
        task: Task,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        let Session::Form(dialogue) = self.keypad.session() else { return Ok(()) };
        let by = dialogue.people();
        if !dialogue.warned && self.leaves_stuck(&made, dialogue, at, reads)? {
            // Somebody who is suspended by mistake can be restored.
            if !self.bolt.is_drawn() && task != Task::Suspend {
                self.refuse_form(Trouble::Stuck);
            } else if let Some(dialogue) = self.keypad.form() {
                dialogue.warned = true;
                dialogue.turn_to(Stage::Confirm(Gist::Stuck));
            }
            return Ok(());
        }
        self.keypad.rest();
        self.send_made(made, by, at);
        Ok(())
    }

    /// What a change of the settings comes to; `None` if it is none.
    #[inline(never)] // own frame
    fn propose(
        &mut self,
        dialogue: &Dialogue,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Option<Proposed>, Unreadable> {
        let draft = &dialogue.draft;
        let task = match dialogue.topic {
            Topic::FirstWarden => return Ok(Some(self.first_warden(draft))),
            Topic::SlowReset => return Ok(None),
            Topic::Task(task) => task,
        };
        Ok(Some(match task {
            Task::ChangeCode => Self::change_code(dialogue.people(), reads)?,
            Task::Enrol => self.enrol(draft, at, reads)?,
            Task::Suspend => self.suspend(draft, reads)?,
            Task::Restore => self.restore(draft, at, reads)?,
            Task::Remove => match draft.number {
                Some(number) => {
                    Ok(Proposal::at_once(Edit::Holder(number, None), Change::Removed(number)))
                }
                None => Err(Trouble::Free),
            },
            Task::ChangeRole | Task::ChooseTimetable => self.change_row(task, draft, at, reads)?,
            Task::SetPolicy => self.set_policy(draft, at, reads)?,
            Task::Pair => match draft.pairing.pairing() {
                Ok(pairing) => {
                    let change = Change::Paired(pairing.generation());
                    Ok(Proposal::at_once(Edit::Pairing(pairing), change))
                }
                Err(_) => Err(Trouble::Group),
            },
            Task::Files => self.load_file(dialogue, at, reads)?,
            Task::HoldShut
            | Task::Status
            | Task::Numbers
            | Task::SetClock
            | Task::TestAlarm
            | Task::Reset
            | Task::WayOut => return Ok(None),
        }))
    }

    /// Puts a change on its way to the store, with its record and its notice.
    #[inline(never)] // own frame
    fn send_made(&mut self, made: Proposal, by: Option<People>, at: Moment) {
        let Proposal { edit, change, from, renews } = made;
        if from.is_some() {
            self.anew.waits(at.steady);
        }
        let begins_anew = matches!(edit, Edit::Commission(..));
        let from = from.map(|from| self.stamp(self.counts.shift().utc(from)));
        self.send_edit(edit, by, change, at);
        self.notify(Screen::Form(Form::Done { change, from }), at);
        if let Some(number) = renews {
            self.tally(Tally::Cleared(number), Continuation::Nothing, at);
        }
        // The tally that it begins knows nothing of the clock.
        if begins_anew && self.writes.kept() != Kept::Ours && self.clock.is_invalid() {
            self.tally(Tally::ClockDoubt(at.steady), Continuation::Nothing, at);
        }
        if begins_anew && self.counts.set_up() == SetUp::Done {
            self.tally(Tally::SettingUp, Continuation::Nothing, at);
        }
    }

    fn send_edit(&mut self, edit: Edit, by: Option<People>, change: Change, at: Moment) {
        // One change at a time: its record must not come to stand for another one.
        if self.writes.edit().is_some() {
            return self.out_of_order(Fault::Bug);
        }
        self.writes.prepare(edit);
        let record = crate::audit::Record { at: at.utc, event: Event::Changed { by, change } };
        // What time brings about is not said to anybody.
        let unasked = by.is_none() && change == Change::Reset;
        let then = if unasked { Continuation::Adopted } else { Continuation::Edited };
        self.send(Write::Edit(record), then);
    }

    fn first_warden(&mut self, draft: &Draft) -> Proposed {
        let Some(number) = draft.number else { return Err(Trouble::Free) };
        let key = LockKey::from_bytes(self.seed.draw());
        let row = self.row_of((Role::Warden, Opens::No, Follows::Always), None);
        let made =
            Proposal::at_once(Edit::Commission(key, number, row), Change::Commissioned(number));
        Ok(Proposal { renews: Some(number), ..made })
    }

    fn change_code(by: Option<People>, reads: &mut impl Reads) -> Result<Proposed, Unreadable> {
        let Some(People { first: who, .. }) = by else { return Ok(Err(Trouble::Free)) };
        let Some(row) = reads.holder(who)? else { return Ok(Err(Trouble::Free)) };
        Ok(Ok(Proposal::at_once(Edit::Holder(who, Some(row)), Change::CodeChanged(who))))
    }

    fn enrol(
        &mut self,
        draft: &Draft,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Proposed, Unreadable> {
        let Some(number) = draft.number else { return Ok(Err(Trouble::Free)) };
        let wanted = draft.row_wanted();
        let (role, opens, follows) = wanted;
        let follows_then = may_open(role, opens).then_some(follows);
        let pending = match self.pending(None, follows_then, at, reads)? {
            Ok(pending) => pending,
            Err(trouble) => return Ok(Err(trouble)),
        };
        let row = self.row_of(wanted, pending);
        let from = pending.map(|pending| pending.from);
        let (edit, change) = (Edit::Holder(number, Some(row)), Change::Enrolled(number, role));
        Ok(Ok(Proposal { edit, change, from, renews: Some(number) }))
    }

    /// The row of somebody new, whose code, if they chose one, comes later: nobody knows
    /// one that leaves this digest. A courier's stays so: theirs are one-time codes.
    fn row_of(
        &mut self,
        (role, opens, follows): (Role, Opens, Follows),
        pending: Option<Pending>,
    ) -> HolderRow {
        let salt = self.seed.salt();
        let digest = Digest::from_bytes(*self.seed.salt().as_bytes());
        let standing = Standing::Active;
        HolderRow { role, opens, standing, follows, salt, digest, pending, counter: 0 }
    }

    fn suspend(&mut self, draft: &Draft, reads: &mut impl Reads) -> Result<Proposed, Unreadable> {
        let Some(number) = draft.number else { return Ok(Err(Trouble::Free)) };
        let Some(mut row) = reads.holder(number)? else { return Ok(Err(Trouble::Free)) };
        row.standing = Standing::Suspended;
        // Behind a suspension nothing held.
        row.pending = None;
        Ok(Ok(Proposal::at_once(Edit::Holder(number, Some(row)), Change::Suspended(number))))
    }

    /// Restoring somebody widens as enrolling does.
    fn restore(
        &mut self,
        draft: &Draft,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Proposed, Unreadable> {
        let Some(number) = draft.number else { return Ok(Err(Trouble::Free)) };
        let Some(mut row) = reads.holder(number)? else { return Ok(Err(Trouble::Free)) };
        row.standing = Standing::Active;
        let follows = row.may_open().then_some(row.follows);
        row.pending = match self.pending(None, follows, at, reads)? {
            Ok(pending) => pending,
            Err(trouble) => return Ok(Err(trouble)),
        };
        let renews = self.counts.is_at_limit(number).then_some(number);
        let from = row.pending.map(|pending| pending.from);
        let edit = Edit::Holder(number, Some(row));
        Ok(Ok(Proposal { edit, change: Change::Restored(number), from, renews }))
    }

    /// Another role, or another timetable.
    fn change_row(
        &mut self,
        task: Task,
        draft: &Draft,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Proposed, Unreadable> {
        let Some(number) = draft.number else { return Ok(Err(Trouble::Free)) };
        let Some(mut row) = reads.holder(number)? else { return Ok(Err(Trouble::Free)) };
        let held = match self.waits(&row, at) {
            Some(pending) => pending.held,
            None if row.standing == Standing::Suspended => None,
            None => row.may_open().then_some(row.follows),
        };
        let (role, opens, follows) = draft.row_wanted();
        let change = if task == Task::ChangeRole {
            (row.role, row.opens) = (role, opens);
            Change::RoleChanged(number, role)
        } else {
            Change::TimetableChosen(number, follows)
        };
        row.follows = follows;
        let then = row.may_open().then_some(follows);
        row.pending = match row.standing {
            // Restoring them widens, and this does not.
            Standing::Suspended => None,
            Standing::Active => match self.pending(held, then, at, reads)? {
                Ok(pending) => pending,
                Err(trouble) => return Ok(Err(trouble)),
            },
        };
        let from = row.pending.map(|pending| pending.from);
        Ok(Ok(Proposal { edit: Edit::Holder(number, Some(row)), change, from, renews: None }))
    }

    /// What a row waits for that followed `held` before and follows `then` from now on;
    /// or why it cannot be.
    fn pending(
        &self,
        held: Held,
        then: Held,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Result<Option<Pending>, Trouble>, Unreadable> {
        let affected = match (held, then) {
            // What narrows opening, or leaves it as it was, waits for nothing.
            (_, None) | (Some(Follows::Always), Some(_)) => return Ok(Ok(None)),
            (Some(before), Some(now)) if before == now => return Ok(Ok(None)),
            // From the timetable that was followed to none: at its next window.
            (Some(before), Some(Follows::Always)) => before,
            (_, Some(now)) => now,
        };
        let applies = self.widened(affected, at, reads)?;
        Ok(match (applies, at.steady) {
            (Applies::Now, _) => Ok(None),
            (Applies::From(from), Some(made)) => Ok(Some(Pending { made, from, held })),
            (Applies::Never, _) | (Applies::From(_), None) => Err(self.no_start(at)),
        })
    }

    fn clock_confirmed(&mut self, at: Moment) -> Result<(), Trouble> {
        let Session::Form(dialogue) = self.keypad.session() else { return Ok(()) };
        let by = dialogue.people();
        let target = self.target(&dialogue.draft)?;
        let how = self.correction(target, at)?;
        // It has become more than one person may do while they hesitated.
        if how.needs().is_some() && dialogue.draft.second.is_none() {
            return Err(Trouble::OutOfBounds);
        }
        self.set_clock((target, how), by, at);
        Ok(())
    }

    /// Nobody can undo a hold-shut: one that would end at another time than the page says
    /// is asked about anew.
    fn hold_confirmed(&mut self, at: Moment, reads: &mut impl Reads) -> Result<(), Unreadable> {
        let Session::Form(Dialogue { who: Some(who), .. }) = *self.keypad.session() else {
            return Ok(());
        };
        let until = match reads.holder(who)? {
            Some(row) => self.hold_end(&row, at, reads)?,
            None => None,
        };
        let Some(until) = until else {
            self.refuse_form(Trouble::NoWindow);
            return Ok(());
        };
        let gist = Gist::Hold(self.stamp(until));
        let Some(dialogue) = self.keypad.form() else { return Ok(()) };
        if matches!(dialogue.stage, Stage::Confirm(said) if said == gist) {
            self.keypad.rest();
            self.hold_shut(who, until, at);
        } else {
            dialogue.turn_to(Stage::Confirm(gist));
        }
        Ok(())
    }

    fn set_policy(
        &mut self,
        draft: &Draft,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Proposed, Unreadable> {
        let (Some(key), Some(value)) = (draft.key, draft.value) else {
            return Ok(Err(Trouble::OutOfBounds));
        };
        let Some(new) = self.in_force.policy().with(key, value) else {
            return Ok(Err(Trouble::OutOfBounds));
        };
        let (delay, control, deputies) = (self.delay(at), self.control(at), self.deputies(at));
        let single = control == Control::Dual && new.control == Control::Single;
        // What this change itself widens; what waits already may be wider still.
        let shorter = new.delay < delay && new.delay != self.in_force.policy().delay;
        let fewer = single && new.control != self.in_force.policy().control;
        let more = new.deputies > deputies && new.deputies != self.in_force.policy().deputies;
        let running = self.stricter_now(at);
        let (mut from, mut stricter) = (None, running);
        if new.delay >= delay && !single && new.deputies <= deputies {
            // What held is back, or more than that.
            stricter = None;
        } else if shorter || fewer || more {
            match (self.widened_for_all(at, reads)?, at.steady) {
                (Applies::Now, _) => {
                    stricter = running.map(|old| Stricter {
                        delay: if shorter { new.delay } else { old.delay },
                        control: if fewer { new.control } else { old.control },
                        deputies: if more { new.deputies } else { old.deputies },
                        ..old
                    });
                }
                (Applies::From(start), Some(made)) => {
                    let until = running.map_or(start, |old| old.until.max(start));
                    stricter = Some(Stricter { until, made, delay, control, deputies });
                    from = Some(until);
                }
                (Applies::Never, _) | (Applies::From(_), None) => {
                    return Ok(Err(self.no_start(at)));
                }
            }
        }
        let (edit, change) = (Edit::Policy(new, stricter), Change::PolicySet(key, value));
        Ok(Ok(Proposal { edit, change, from, renews: None }))
    }

    fn begin_slow_reset(&mut self, at: Moment) {
        self.countdowns.begin_reset(at.uptime);
        let change = Change::ResetBegun;
        let after = Continuation::Say(Sound::Accepted, Outcome::Plain);
        self.record(at, Event::Changed { by: None, change }, after);
        self.notify(Screen::Form(Form::Done { change, from: None }), at);
    }

    /// The bolt was thrown or the switch turned back: nobody meant it.
    pub(super) fn look_at_reset(&mut self, at: Moment) {
        let Some(due) = self.countdowns.reset() else { return };
        if !self.bolt.is_in_service() {
            self.countdowns.end_reset();
            let change = Change::ResetCancelled;
            self.record(at, Event::Changed { by: None, change }, Continuation::Nothing);
        } else if at.uptime >= due && self.is_idle() {
            // A code that is being judged, and a change under way, came first.
            self.reset(None, at);
        }
    }

    fn reset(&mut self, by: Option<People>, at: Moment) {
        let key = LockKey::from_bytes(self.seed.draw());
        self.countdowns.end_reset();
        self.send_edit(Edit::Reset(key), by, Change::Reset, at);
        self.notify(Screen::Form(Form::Done { change: Change::Reset, from: None }), at);
        self.tally(Tally::SettingUp, Continuation::Nothing, at);
        self.countdowns.end_way_out();
    }

    /// A change is durable: what the machine keeps of the settings follows it.
    pub(super) fn edited(&mut self, reads: &mut impl Reads) {
        self.anew.settings();
        match self.writes.take_edit() {
            Some(Edit::Commission(key, _, _)) => {
                self.in_force.begin_anew(key);
                self.service.end();
                if self.writes.kept() != Kept::Ours {
                    // What was recorded before is erased.
                    self.writes.begun();
                    self.supply.forget_record();
                }
                self.bolt.is_opened_by_hand();
            }
            Some(Edit::Reset(key)) => {
                self.in_force.begin_anew(key);
                self.bolt.is_opened_by_hand();
                self.out_of_order(Fault::Blank);
            }
            Some(Edit::Policy(policy, stricter)) => self.in_force.set_policy(policy, stricter),
            // A new pairing key retires a file that was sealed under the old one.
            Some(Edit::Adopt(_) | Edit::Wait(..) | Edit::Pairing(_)) => {
                if self.in_force.read_file_anew(reads) == Err(Unreadable) {
                    self.out_of_order(Fault::Settings);
                }
            }
            Some(Edit::Holder(..) | Edit::Spend(_)) => {}
            None => self.out_of_order(Fault::Bug),
        }
    }
}
