//! From a confirmed dialogue to a change that is made durable (R6), at once or
//! from the next opening window on (R3).

use super::access::{self, Access, Moment};
use super::errand::After;
use super::machine::Machine;
use crate::audit::{CancelReason, Change, Event, Outcome, People};
use crate::code::{self, Code, LockKey};
use crate::dialog::{Dialogue, Draft};
use crate::holder::{HolderRow, Number, Opens, Standing};
use crate::policy::{Control, Policy, Stricter};
use crate::port::{Bolt, Fault, Reads, Sound, Write};
use crate::role::{Grant, Right, Role, grant};
use crate::rules::{Unreadable, opening_time};
use crate::screen::{Form, Screen, Topic, Trouble};
use crate::settings::Edit;
use crate::task::Task;
use crate::time::{Seconds, Utc};
use crate::timetable::{Follows, TimetableId};

/// A reset without a warden's code takes so long, with the bolt drawn (R7).
pub const SLOW_RESET: Seconds = Seconds::from_hours(24);

/// When something that widens opening applies.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Applies {
    /// At once.
    Now,
    /// From then on.
    From(Utc),
    /// Nobody can say: the bolt must be drawn.
    Never,
}

/// What came of it: done, or why not.
pub(super) type Made = Result<(), Trouble>;

impl Machine {
    /// Does what a dialogue was led for.
    pub(super) fn do_it(
        &mut self,
        dialogue: Dialogue,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        let made = match dialogue.topic {
            Topic::FirstWarden => Ok(self.first_warden(&dialogue.draft, at)),
            Topic::SlowReset => {
                self.begin_slow_reset(at);
                Ok(Ok(()))
            }
            Topic::Task(task) => self.change(task, &dialogue, at, reads),
        }?;
        if let Err(trouble) = made {
            self.refuse_field(dialogue, trouble);
        }
        Ok(())
    }

    fn change(
        &mut self,
        task: Task,
        dialogue: &Dialogue,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Made, Unreadable> {
        let (by, draft) = (dialogue.people(), &dialogue.draft);
        match task {
            Task::ChangeCode => self.change_code(draft, by, at, reads),
            Task::Enrol => self.enrol(draft, by, at, reads),
            Task::Suspend | Task::Restore => self.change_standing(task, draft, by, at, reads),
            Task::Remove => {
                let Some(number) = draft.number else { return Ok(Err(Trouble::Free)) };
                self.cancel_for(number, at);
                let edit = Edit::Holder(number, None);
                self.send_edit(edit, by, Change::Removed(number), None, at);
                Ok(Ok(()))
            }
            Task::ChangeRole | Task::ChooseTimetable => self.change_row(task, draft, by, at, reads),
            Task::SetClock => Ok(self.clock_confirmed(draft, by, at)),
            Task::SetPolicy => self.set_policy(draft, by, at, reads),
            Task::TestAlarm => {
                let after = After::TestAlarm;
                let change = Change::AlarmTested;
                self.record(at, Event::Changed { by, change }, after);
                self.notify(Screen::Form(Form::Done { change, from: None }), at);
                Ok(Ok(()))
            }
            Task::Pair => Ok(match draft.pairing.pairing() {
                Ok(pairing) => {
                    let change = Change::Paired(pairing.generation());
                    self.send_edit(Edit::Pairing(pairing), by, change, None, at);
                    Ok(())
                }
                Err(_) => Err(Trouble::Group),
            }),
            Task::Reset => {
                self.reset(by, at);
                Ok(Ok(()))
            }
            Task::Files => self.load_file(dialogue, by, at, reads),
            // They are carried out elsewhere and never confirmed.
            Task::HoldShut | Task::Status | Task::Numbers => {
                self.out_of_order(Fault::Bug);
                Ok(Ok(()))
            }
        }
    }

    /// Puts a change on its way to the store, with its record and its notice.
    pub(super) fn send_edit(
        &mut self,
        edit: Edit,
        by: Option<People>,
        change: Change,
        from: Option<Utc>,
        at: Moment,
    ) {
        self.ready = Some(edit);
        let record = crate::audit::Record { at: at.utc, event: Event::Changed { by, change } };
        if canary!(GrantedFirst) {
            self.sound(Sound::Accepted);
        }
        let in_memory_only = canary!(EditInMemory);
        let write = if in_memory_only { Write::Record(record) } else { Write::Edit(record) };
        self.send(write, After::Edited);
        let from = from.map(|from| self.stamp(from));
        self.notify(Screen::Form(Form::Done { change, from }), at);
    }

    fn first_warden(&mut self, draft: &Draft, at: Moment) -> Made {
        let (Some(number), Some(code)) = (draft.number, draft.code.as_ref()) else {
            return Err(Trouble::Free);
        };
        let key = LockKey::from_bytes(self.seed.draw());
        let row = row_of(
            (&key, self.seed.salt()),
            (number, code),
            (Role::Warden, Opens::No, Follows::Always),
            None,
        );
        let edit = Edit::Commission(key, number, row);
        self.send_edit(edit, None, Change::Commissioned(number), None, at);
        Ok(())
    }

    fn change_code(
        &mut self,
        draft: &Draft,
        by: Option<People>,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Made, Unreadable> {
        let (Some(people), Some(code)) = (by, draft.code.as_ref()) else {
            return Ok(Err(Trouble::Free));
        };
        let who = people.first;
        let Some(mut row) = reads.holder(who)? else { return Ok(Err(Trouble::Free)) };
        row.salt = self.seed.salt();
        row.digest = code::digest(&self.key, &row.salt, who, code);
        self.send_edit(Edit::Holder(who, Some(row)), by, Change::CodeChanged(who), None, at);
        Ok(Ok(()))
    }

    fn enrol(
        &mut self,
        draft: &Draft,
        by: Option<People>,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Made, Unreadable> {
        let Some(number) = draft.number else { return Ok(Err(Trouble::Free)) };
        let wanted = draft.row_wanted();
        let (role, opens, follows) = wanted;
        let from = if may_open(role, opens) {
            match self.widened(follows, at, reads)? {
                Applies::Now => None,
                Applies::From(from) => Some(from),
                Applies::Never => return Ok(Err(Trouble::DrawBolt)),
            }
        } else {
            None
        };
        // Nobody knows a courier's own code: theirs are one-time codes.
        let row = match &draft.code {
            Some(code) => {
                let salt = self.seed.salt();
                row_of((&self.key, salt), (number, code), wanted, from)
            }
            None => HolderRow {
                role,
                opens,
                standing: Standing::Active,
                follows,
                salt: self.seed.salt(),
                digest: code::Digest::from_bytes(*self.seed.salt().as_bytes()),
                opens_from: from,
                counter: 0,
            },
        };
        let change = Change::Enrolled(number, role);
        self.send_edit(Edit::Holder(number, Some(row)), by, change, from, at);
        Ok(Ok(()))
    }

    fn change_standing(
        &mut self,
        task: Task,
        draft: &Draft,
        by: Option<People>,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Made, Unreadable> {
        let Some(number) = draft.number else { return Ok(Err(Trouble::Free)) };
        let Some(mut row) = reads.holder(number)? else { return Ok(Err(Trouble::Free)) };
        let change = if task == Task::Suspend {
            row.standing = Standing::Suspended;
            self.cancel_for(number, at);
            Change::Suspended(number)
        } else {
            row.standing = Standing::Active;
            Change::Restored(number)
        };
        self.send_edit(Edit::Holder(number, Some(row)), by, change, None, at);
        Ok(Ok(()))
    }

    /// Another role, or another timetable.
    fn change_row(
        &mut self,
        task: Task,
        draft: &Draft,
        by: Option<People>,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Made, Unreadable> {
        let Some(number) = draft.number else { return Ok(Err(Trouble::Free)) };
        let Some(mut row) = reads.holder(number)? else { return Ok(Err(Trouble::Free)) };
        let (opened, followed) = (row.may(Right::Open), row.follows);
        let (role, opens, follows) = draft.row_wanted();
        let change = if task == Task::ChangeRole {
            (row.role, row.opens) = (role, opens);
            Change::RoleChanged(number, role)
        } else {
            Change::TimetableChosen(number, follows)
        };
        row.follows = follows;
        let widens = row.may(Right::Open)
            && (!opened || (follows != followed && followed != Follows::Always));
        if widens {
            // From the timetable that was followed to none: at its next window.
            let affected = match (opened, follows) {
                (true, Follows::Always) => followed,
                (true | false, _) => follows,
            };
            match self.widened(affected, at, reads)? {
                Applies::Now => row.opens_from = None,
                // What waits already waits no less.
                Applies::From(from) => row.opens_from = row.opens_from.max(Some(from)),
                Applies::Never => return Ok(Err(Trouble::DrawBolt)),
            }
        }
        self.cancel_for(number, at);
        let from = row.opens_from.filter(|from| !self.applies(*from, at));
        self.send_edit(Edit::Holder(number, Some(row)), by, change, from, at);
        Ok(Ok(()))
    }

    fn clock_confirmed(&mut self, draft: &Draft, by: Option<People>, at: Moment) -> Made {
        let target = self.target(draft)?;
        let how = self.correction(target, at)?;
        // It has become more than one person may do while they hesitated.
        if how.needs().is_some() && draft.second.is_none() {
            return Err(Trouble::OutOfBounds);
        }
        self.set_clock((target, how), by, at);
        Ok(())
    }

    fn set_policy(
        &mut self,
        draft: &Draft,
        by: Option<People>,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Made, Unreadable> {
        let (Some(key), Some(value)) = (draft.key, draft.value) else {
            return Ok(Err(Trouble::OutOfBounds));
        };
        let Some(new) = self.policy.with(key, value) else {
            return Ok(Err(Trouble::OutOfBounds));
        };
        let (delay, control) = (self.delay(at), self.control(at));
        let shorter = new.delay < self.policy.delay;
        let alone = (self.policy.control, new.control) == (Control::Dual, Control::Single);
        let (mut until, mut stricter) = (None, self.stricter);
        if shorter || alone {
            match self.widened_for_all(at, reads)? {
                Applies::Now => stricter = None,
                Applies::From(from) => {
                    let later = stricter.map_or(from, |old| old.until.max(from));
                    stricter = Some(Stricter { until: later, delay, control });
                    until = Some(later);
                }
                Applies::Never => return Ok(Err(Trouble::DrawBolt)),
            }
        }
        let change = Change::PolicySet(key, value);
        self.send_edit(Edit::Policy(new, stricter), by, change, until, at);
        Ok(Ok(()))
    }

    /// The delay that holds at this moment.
    pub(super) fn delay(&self, at: Moment) -> Seconds {
        let besides = self.stricter.filter(|stricter| !self.applies(stricter.until, at));
        besides.map_or(self.policy.delay, |besides| self.policy.delay.max(besides.delay))
    }

    /// How many people an opening takes at this moment.
    pub(super) fn control(&self, at: Moment) -> Control {
        let besides = self.stricter.filter(|stricter| !self.applies(stricter.until, at));
        match (self.policy.control, besides.map(|besides| besides.control)) {
            (Control::Dual, _) | (_, Some(Control::Dual)) => Control::Dual,
            (Control::Single, Some(Control::Single) | None) => Control::Single,
        }
    }

    /// When a row that widens what follows `follows` applies: at once with the
    /// bolt drawn, else at the next start of a window (for none: of any
    /// timetable).
    fn widened(
        &self,
        follows: Follows,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Applies, Unreadable> {
        let mut earliest: Option<Utc> = None;
        for id in TimetableId::ALL {
            let own = match follows {
                Follows::Always => true,
                Follows::Timetable(own) => own == id,
            };
            if own && let Some(start) = self.next_start(id, at, reads)? {
                earliest = Some(earliest.map_or(start, |e| e.min(start)));
            }
        }
        Ok(self.at_or_by_hand(earliest))
    }

    /// When a policy that widens opening for everybody applies: once every
    /// timetable that has a window ahead has begun one.
    fn widened_for_all(&self, at: Moment, reads: &mut impl Reads) -> Result<Applies, Unreadable> {
        let mut latest = None;
        for id in TimetableId::ALL {
            latest = latest.max(self.next_start(id, at, reads)?);
        }
        Ok(self.at_or_by_hand(latest))
    }

    pub(super) fn at_or_by_hand(&self, start: Option<Utc>) -> Applies {
        match (self.contacts.bolt, start) {
            (Bolt::Drawn, _) => Applies::Now,
            (Bolt::Thrown, Some(start)) => Applies::From(start),
            (Bolt::Thrown, None) => Applies::Never,
        }
    }

    pub(super) fn next_start(
        &self,
        id: TimetableId,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Option<Utc>, Unreadable> {
        // While a clock settles nobody can say when a window starts.
        match (at.utc, self.settles) {
            (Some(now), None) => opening_time::next_start(reads, &self.zone, id, now),
            (Some(_), Some(_)) | (None, _) => Ok(None),
        }
    }

    /// Ends a wait or claim of somebody who may not open any more.
    fn cancel_for(&mut self, number: Number, at: Moment) {
        let people = match &self.access {
            Access::Waiting(waiting) => waiting.people,
            Access::Claimable(claim) => claim.people,
            Access::Secured | Access::Released(_) | Access::Open(_) => return,
        };
        if people.include(number) {
            self.access_event(access::Event::Cancel(CancelReason::Barred), at);
        }
    }

    fn begin_slow_reset(&mut self, at: Moment) {
        self.reset_due = Some(at.uptime.after(SLOW_RESET));
        let change = Change::ResetBegun;
        let after = After::Say(Sound::Accepted, Outcome::Plain);
        self.record(at, Event::Changed { by: None, change }, after);
        self.notify(Screen::Form(Form::Done { change, from: None }), at);
    }

    /// The bolt was thrown or the switch turned back: nobody meant it.
    pub(super) fn look_at_reset(&mut self, at: Moment) {
        let held =
            self.contacts.bolt == Bolt::Drawn && self.contacts.switch == crate::port::Switch::On;
        if self.reset_due.is_some() && !held {
            self.reset_due = None;
            let change = Change::ResetCancelled;
            self.record(at, Event::Changed { by: None, change }, After::Nothing);
        }
        // A code that is being judged, and a change under way, come first.
        if self.is_idle() && self.reset_due.take_if(|due| at.uptime >= *due).is_some() {
            self.reset(None, at);
        }
    }

    fn reset(&mut self, by: Option<People>, at: Moment) {
        let key = LockKey::from_bytes(self.seed.draw());
        self.reset_due = None;
        self.send_edit(Edit::Reset(key), by, Change::Reset, None, at);
    }

    /// A change is durable: what the machine keeps of the settings follows it.
    pub(super) fn edited(&mut self, reads: &mut impl Reads) {
        match self.ready.take() {
            Some(Edit::Commission(key, _, _)) => {
                self.key = key;
                self.policy = Policy::DEFAULT;
                self.stricter = None;
                self.service = None;
            }
            Some(Edit::Reset(key)) => {
                self.key = key;
                self.policy = Policy::DEFAULT;
                self.stricter = None;
                self.out_of_order(Fault::Blank);
            }
            Some(Edit::Policy(policy, stricter)) => {
                self.policy = policy;
                self.stricter = stricter;
            }
            Some(Edit::Adopt(_) | Edit::Wait(..)) => self.read_file_anew(reads),
            Some(Edit::Holder(..) | Edit::Zone(_) | Edit::Pairing(_) | Edit::Day(..)) => {}
            None => self.out_of_order(Fault::Bug),
        }
    }
}

/// The row of somebody who chose `code`.
fn row_of(
    (key, salt): (&LockKey, code::Salt),
    (number, code): (Number, &Code),
    (role, opens, follows): (Role, Opens, Follows),
    opens_from: Option<Utc>,
) -> HolderRow {
    let digest = code::digest(key, &salt, number, code);
    let standing = Standing::Active;
    HolderRow { role, opens, standing, follows, salt, digest, opens_from, counter: 0 }
}

/// Whether a row of that role may open.
const fn may_open(role: Role, opens: Opens) -> bool {
    match grant(role, Right::Open) {
        Grant::Never => false,
        Grant::IfRowSays => matches!(opens, Opens::Yes),
        Grant::Always => true,
    }
}
