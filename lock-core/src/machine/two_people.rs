//! Two people are two: which changes take another privileged person, and what does
//! where there is none; and whether a change would leave the lock stuck (R11).

use super::bolt::Moment;
use super::changes::Proposal;
use super::step::Machine;
use crate::audit::People;
use crate::audit::Seq;
use crate::dialog::Dialogue;
use crate::holder::{HolderRow, Number, Opens};
use crate::pairing::Pairing;
use crate::policy::{Control, DUAL_CONTROL};
use crate::port::Reads;
use crate::role::{Grant, Right, Role, grant};
use crate::rules::way_out::{self, Future};
use crate::rules::{Days, Unreadable};
use crate::screen::{Topic, Trouble, Whom};
use crate::settings::Edit;
use crate::task::Task;
use crate::time::Date;
use crate::timetable::{Day, TimetableId};

/// Whether something takes another privileged person.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum TakesTwo {
    No,
    /// Another one, or where there is none the opened lock.
    OrOpened,
    /// Another one, if there is one.
    IfThere,
}

impl Machine {
    /// Which second person a dialogue takes at this moment.
    pub(super) fn second_person(
        &self,
        dialogue: &Dialogue,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Option<Whom>, Unreadable> {
        match dialogue.topic {
            Topic::Task(Task::SetClock) => {
                let target = self.target(&dialogue.draft);
                let how = target.and_then(|target| self.correction(target, at));
                Ok(how.ok().and_then(super::clock::Correction::needs))
            }
            Topic::Task(Task::Pair) => {
                let role = match dialogue.who {
                    Some(who) => reads.holder(who)?.map(|row| row.role),
                    None => None,
                };
                let steward = role == Some(Role::Steward);
                Ok(Some(if steward { Whom::Warden } else { Whom::Steward }))
            }
            Topic::Task(_) | Topic::FirstWarden | Topic::SlowReset => {
                let takes = self.takes_two(dialogue, at) != TakesTwo::No;
                Ok((takes && self.has_another(dialogue, reads)?).then_some(Whom::Privileged))
            }
        }
    }

    /// Whether what a dialogue is about takes two people.
    pub(super) fn takes_two(&self, dialogue: &Dialogue, at: Moment) -> TakesTwo {
        let draft = &dialogue.draft;
        let (role, opens, _) = draft.row_wanted();
        let (new, found) = match dialogue.topic {
            Topic::Task(Task::WayOut) => return TakesTwo::IfThere,
            Topic::Task(Task::SetPolicy) => {
                let single = draft.key == Some(DUAL_CONTROL) && draft.value == Some(1);
                return if single { TakesTwo::IfThere } else { TakesTwo::No };
            }
            Topic::Task(Task::Enrol) => (true, false),
            Topic::Task(Task::ChangeRole) => (true, true),
            Topic::Task(Task::Suspend | Task::Restore | Task::Remove) => (false, true),
            Topic::Task(_) | Topic::FirstWarden | Topic::SlowReset => return TakesTwo::No,
        };
        let found = draft.found.filter(|_| found);
        let privileged =
            (new && role.is_privileged()) || found.is_some_and(|found| found.role.is_privileged());
        let opener = (new && may_open(role, opens))
            || found.is_some_and(|found| may_open(found.role, found.opens));
        let dual =
            self.control(at) == Control::Dual && dialogue.topic != Topic::Task(Task::Suspend);
        if privileged || (opener && dual) { TakesTwo::OrOpened } else { TakesTwo::No }
    }

    /// Whether another privileged person is able: neither who asks nor whom it is about.
    fn has_another(&self, dialogue: &Dialogue, reads: &mut impl Reads) -> Result<bool, Unreadable> {
        let concerned = [dialogue.who, dialogue.draft.number];
        for number in (1..=99).filter_map(Number::new) {
            if concerned.contains(&Some(number)) {
                continue;
            }
            if let Some(row) = reads.holder(number)?
                && row.role.is_privileged()
                && way_out::is_able(&row, self.counts.is_at_limit(number))
            {
                return Ok(true);
            }
        }
        Ok(false)
    }

    /// What stands against a change that takes two people and has one: the lock must be
    /// opened, or being set up.
    pub(super) fn one_alone(&self, dialogue: &Dialogue, at: Moment) -> Result<(), Trouble> {
        let alone = dialogue.draft.second.is_none();
        let given = self.bolt.access().is_opened() || self.is_being_set_up();
        if alone && self.takes_two(dialogue, at) == TakesTwo::OrOpened && !given {
            Err(Trouble::OpenFirst)
        } else {
            Ok(())
        }
    }

    /// Whether a change would leave a lock stuck that is not.
    pub(super) fn leaves_stuck(
        &self,
        made: &Proposal,
        dialogue: &Dialogue,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<bool, Unreadable> {
        let after = match &made.edit {
            Edit::Holder(number, row) => self.future(
                self.in_force.policy(),
                at,
                &mut WithRow { reads, number: *number, row },
            )?,
            Edit::Policy(policy, _) => self.future(policy, at, reads)?,
            Edit::Adopt(_) | Edit::Wait(..) => match dialogue.offer {
                Some(offer) => offer.future,
                None => return Ok(false),
            },
            Edit::Spend(_) | Edit::Pairing(_) | Edit::Commission(..) | Edit::Reset(_) => {
                return Ok(false);
            }
        };
        Ok(after == Future::Stuck
            && self.future(self.in_force.policy(), at, reads)? != Future::Stuck)
    }

    /// Somebody confirmed that they want a way out.
    pub(super) fn way_out_confirmed(
        &mut self,
        by: Option<People>,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Result<(), Trouble>, Unreadable> {
        let Some(by) = by else { return Ok(Err(Trouble::Free)) };
        let runs = self.countdowns.way_out().is_some() || self.is_being_set_up();
        if runs {
            return Ok(Err(Trouble::Already));
        }
        if self.future(self.in_force.policy(), at, reads)? != Future::Stuck {
            return Ok(Err(Trouble::NotStuck));
        }
        // The only privileged person is both.
        let mut only = Dialogue::new(Topic::Task(Task::WayOut), Some(by.first), at.uptime);
        only.draft.number = by.second;
        let people = if by.second.is_none() && !self.has_another(&only, reads)? {
            People { second: Some(by.first), ..by }
        } else {
            by
        };
        self.begin_way_out(people, at);
        Ok(Ok(()))
    }
}

/// Whether a row of that role may open.
pub(super) const fn may_open(role: Role, opens: Opens) -> bool {
    match grant(role, Right::Open) {
        Grant::Never | Grant::IfDeputies(_) => false,
        Grant::IfRowSays => matches!(opens, Opens::Yes),
        Grant::Always => true,
    }
}

/// The settings as they would be with another row.
struct WithRow<'a> {
    reads: &'a mut dyn Reads,
    number: Number,
    row: &'a Option<HolderRow>,
}

impl Days for WithRow<'_> {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.reads.day(id, date)
    }
}

impl Reads for WithRow<'_> {
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        if n == self.number { Ok(self.row.clone()) } else { self.reads.holder(n) }
    }

    fn day_to_come(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.reads.day_to_come(id, date)
    }

    fn enrolled(&mut self) -> Result<u8, Unreadable> {
        self.reads.enrolled()
    }

    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable> {
        self.reads.pairing()
    }

    fn newest_seq(&mut self) -> Option<Seq> {
        self.reads.newest_seq()
    }
}
