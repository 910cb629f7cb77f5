//! What is typed or chosen in a field of a dialogue: taken, or refused for what it is.

use super::attempt::judge_code;
use super::bolt::Moment;
use super::from_when::Applies;
use super::step::Machine;
use crate::code::{self, Entry, Refused, Verdict};
use crate::dialog::{Dialogue, Draft, Failed, Found, Twice, Which};
use crate::holder::{HolderRow, Number, Standing};
use crate::pairing_code::PairingCode;
use crate::policy::{KEYS, Policy, bounds};
use crate::port::Reads;
use crate::role::Role;
use crate::rules::Unreadable;
use crate::screen::{Field, Topic, Trouble, policy_scale};
use crate::task::Task;
use crate::time::{Date, Instants, Minute, Utc};
use crate::timetable::{Follows, TimetableId};

/// What was given is taken, or why not.
pub(super) type Taken = Result<(), Trouble>;

/// Keys of the policy on one page.
pub(super) const KEYS_A_PAGE: u8 = 3;

impl Machine {
    /// Takes what was typed into a field, if it can be.
    pub(super) fn given(
        &mut self,
        dialogue: &mut Dialogue,
        field: Field,
        entry: &Entry,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Taken, Unreadable> {
        Ok(match field {
            Field::Number => return self.number_given(dialogue, entry, reads),
            Field::NewCode => return self.code_given(dialogue, entry, reads),
            Field::Again => {
                let again = entry.code_alone();
                if again.is_some() && again == dialogue.draft.code {
                    dialogue.draft.twice = Twice::Yes;
                    Ok(())
                } else {
                    dialogue.draft.code = None;
                    Err(Trouble::Differ)
                }
            }
            Field::Date => self.date_given(dialogue, entry),
            Field::Time => self.time_given(dialogue, entry, at),
            Field::Value { key } => {
                value_given(self.in_force.policy(), dialogue, key, entry.value())
            }
            Field::Group { index } => return group_given(dialogue, index, entry, reads),
            Field::Role | Field::Opens | Field::Timetable | Field::Which | Field::Key { .. } => {
                Err(Trouble::NoChoice)
            }
        })
    }

    #[inline(never)] // own frame
    fn number_given(
        &mut self,
        dialogue: &mut Dialogue,
        entry: &Entry,
        reads: &mut impl Reads,
    ) -> Result<Taken, Unreadable> {
        let number = match entry.number() {
            Some(number) if entry.len() == 2 && number.get() > 0 => number,
            Some(_) | None => return Ok(Err(Trouble::NoChoice)),
        };
        // Nobody is enrolled yet, and there may be nothing to read.
        if dialogue.topic == Topic::FirstWarden {
            dialogue.draft.number = Some(number);
            return Ok(Ok(()));
        }
        let row = reads.holder(number)?;
        let new = dialogue.topic == Topic::Task(Task::Enrol);
        let row = match (row, new) {
            (None, true) => {
                dialogue.draft.number = Some(number);
                return Ok(Ok(()));
            }
            (Some(_), true) => return Ok(Err(Trouble::Taken)),
            (None, false) => return Ok(Err(Trouble::Free)),
            (Some(row), false) => row,
        };
        let led_by = match dialogue.who {
            Some(who) => reads.holder(who)?.map(|row| row.role),
            None => None,
        };
        let failed = if self.counts.is_at_limit(number) { Failed::TooOften } else { Failed::No };
        if let Err(trouble) = may_touch(dialogue, led_by, (number, failed), &row) {
            return Ok(Err(trouble));
        }
        let draft = &mut dialogue.draft;
        draft.number = Some(number);
        draft.found = Some(Found {
            role: row.role,
            opens: row.opens,
            standing: row.standing,
            follows: row.follows,
            failed,
        });
        Ok(Ok(()))
    }

    #[inline(never)] // own frame
    fn code_given(
        &mut self,
        dialogue: &mut Dialogue,
        entry: &Entry,
        reads: &mut impl Reads,
    ) -> Result<Taken, Unreadable> {
        let digits = self.in_force.policy().code_digits;
        let code = match entry.code_alone() {
            Some(code) if code.len() == usize::from(digits) => code,
            Some(_) | None => return Ok(Err(Trouble::CodeLength(digits))),
        };
        match code::refused(&code) {
            Some(Refused::Itself(why)) => return Ok(Err(Trouble::Guessable(why))),
            Some(Refused::Variant) => return Ok(Err(Trouble::VariantGuessable)),
            None => {}
        }
        if let (Topic::Task(Task::ChangeCode), Some(who)) = (dialogue.topic, dialogue.who) {
            let claimed = reads.claimed(who)?;
            // Of holders' codes only one's own is ever compared (R5). Nor may the present
            // code become the duress variant of the new one: habit would type it.
            for typed in [&code, &code::duress_variant(&code)] {
                if judge_code(self.in_force.key(), who, (claimed.kept(), typed), reads)?
                    != Verdict::Wrong
                {
                    return Ok(Err(Trouble::Unchanged));
                }
            }
        }
        dialogue.draft.code = Some(code);
        Ok(Ok(()))
    }

    fn date_given(&self, dialogue: &mut Dialogue, entry: &Entry) -> Taken {
        let typed = entry.value();
        let (day, month, year) = (typed / 1_000_000, typed / 10_000 % 100, typed % 10_000);
        let (Ok(day), Ok(month), Ok(year)) =
            (u8::try_from(day), u8::try_from(month), u16::try_from(year))
        else {
            return Err(Trouble::NoDate);
        };
        let date = Date::from_ymd(year, month, day).filter(|_| entry.len() == 8);
        dialogue.draft.date = Some(date.ok_or(Trouble::NoDate)?);
        Ok(())
    }

    #[inline(never)] // own frame
    fn time_given(&self, dialogue: &mut Dialogue, entry: &Entry, at: Moment) -> Taken {
        let typed = entry.value();
        let (Ok(hour), Ok(minute)) = (u8::try_from(typed / 100), u8::try_from(typed % 100)) else {
            return Err(Trouble::NoTime);
        };
        let minute = Minute::from_hm(hour, minute).filter(|m| entry.len() == 4 && m.get() < 1_440);
        let draft = &mut dialogue.draft;
        draft.minute = Some(minute.ok_or(Trouble::NoTime)?);
        draft.which = match self.instants(draft) {
            Instants::Two(..) => None,
            Instants::None | Instants::One(_) => Some(Which::Only),
        };
        let judged = self.target(draft).and_then(|target| self.correction(target, at));
        if judged.is_err() {
            dialogue.draft.minute = None;
        }
        judged.map(|_| ())
    }

    /// The instant that a date and a time name; of two, the one that is meant.
    pub(super) fn target(&self, draft: &Draft) -> Result<Utc, Trouble> {
        match self.instants(draft) {
            Instants::None => Err(Trouble::NoTime),
            Instants::One(utc) => Ok(utc),
            Instants::Two(first, second) => {
                Ok(if draft.which == Some(Which::Second) { second } else { first })
            }
        }
    }

    fn instants(&self, draft: &Draft) -> Instants {
        match (draft.date, draft.minute) {
            (Some(date), Some(minute)) => self.in_force.zone().instants(date, minute.seconds()),
            (Some(_) | None, _) => Instants::None,
        }
    }

    /// Makes a numbered choice, if there is such a one.
    #[inline(never)] // own frame
    pub(super) fn chosen(
        &self,
        dialogue: &mut Dialogue,
        field: Field,
        choice: u8,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Taken, Unreadable> {
        if field == Field::Timetable {
            return self.timetable_chosen(dialogue, choice, at, reads);
        }
        let enrolled_by = match (field, dialogue.who) {
            (Field::Role, Some(who)) => reads.holder(who)?.map(|row| row.role),
            _ => None,
        };
        chosen(dialogue, field, (choice, enrolled_by), reads)
    }

    /// A timetable that starts no window ahead would let nobody in.
    fn timetable_chosen(
        &self,
        dialogue: &mut Dialogue,
        choice: u8,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Taken, Unreadable> {
        let index = usize::from(choice).checked_sub(1);
        let draft = &mut dialogue.draft;
        let courier = draft.role.or(draft.found.map(|found| found.role)) == Some(Role::Courier);
        let follows = match index.and_then(|index| TimetableId::ALL.get(index)) {
            Some(id) => Follows::Timetable(*id),
            // A courier's codes are bound to a timetable.
            None if index == Some(TimetableId::ALL.len()) && !courier => Follows::Always,
            None => return Ok(Err(Trouble::NoChoice)),
        };
        if let Follows::Timetable(id) = follows
            && at.utc.is_some()
            && self.clock.settles().is_none()
            && self.at_or_by_hand(None) == Applies::Never
            && self.next_start(id, at, reads)?.is_none()
        {
            return Ok(Err(Trouble::NoWindow));
        }
        draft.follows = Some(follows);
        Ok(Ok(()))
    }
}

/// Whether whoever leads the dialogue may do that to `row`.
fn may_touch(
    dialogue: &Dialogue,
    led_by: Option<Role>,
    (number, failed): (Number, Failed),
    row: &HolderRow,
) -> Taken {
    let Topic::Task(task) = dialogue.topic else { return Err(Trouble::NotYours) };
    if led_by != Some(Role::Warden) && row.role != Role::Keyholder {
        return Err(Trouble::NotYours);
    }
    let oneself = dialogue.who == Some(number);
    match (task, row.standing) {
        (Task::Suspend | Task::Remove | Task::ChangeRole, _) if oneself => Err(Trouble::Yourself),
        (Task::Restore, Standing::Active) if failed == Failed::No => Err(Trouble::Already),
        (Task::Suspend, Standing::Suspended) => Err(Trouble::Already),
        (Task::ChooseTimetable, _) if row.role == Role::Steward => Err(Trouble::NeverOpens),
        (Task::ChangeRole, _) if row.role == Role::Courier => Err(Trouble::Courier),
        _ => Ok(()),
    }
}

/// Makes a numbered choice, if there is such a one; who leads the dialogue to enrol
/// somebody is of that role.
fn chosen(
    dialogue: &mut Dialogue,
    field: Field,
    (choice, led_by): (u8, Option<Role>),
    reads: &mut impl Reads,
) -> Result<Taken, Unreadable> {
    let index = usize::from(choice).checked_sub(1);
    let draft = &mut dialogue.draft;
    Ok(match field {
        Field::Role => match index.and_then(|index| Role::ALL.get(index)) {
            Some(role) if led_by != Some(Role::Warden) && *role != Role::Keyholder => {
                Err(Trouble::NotYours)
            }
            Some(Role::Courier) if dialogue.topic != Topic::Task(Task::Enrol) => {
                Err(Trouble::Courier)
            }
            Some(Role::Courier) if reads.pairing()?.is_none() => Err(Trouble::NotPaired),
            Some(role) => {
                draft.role = Some(*role);
                Ok(())
            }
            None => Err(Trouble::NoChoice),
        },
        Field::Opens => {
            draft.opens = match choice {
                1 => Some(crate::holder::Opens::Yes),
                2 => Some(crate::holder::Opens::No),
                _ => return Ok(Err(Trouble::NoChoice)),
            };
            Ok(())
        }
        Field::Which => {
            draft.which = match choice {
                1 => Some(Which::First),
                2 => Some(Which::Second),
                _ => return Ok(Err(Trouble::NoChoice)),
            };
            Ok(())
        }
        Field::Key { page } => {
            let place = page.saturating_mul(KEYS_A_PAGE).saturating_add(choice.saturating_sub(1));
            if (1..=KEYS_A_PAGE).contains(&choice) && usize::from(place) < KEYS.len() {
                draft.key = Some(place);
                Ok(())
            } else {
                Err(Trouble::NoChoice)
            }
        }
        Field::Number
        | Field::NewCode
        | Field::Again
        | Field::Timetable
        | Field::Date
        | Field::Time
        | Field::Value { .. }
        | Field::Group { .. } => Err(Trouble::NoChoice),
    })
}

fn value_given(policy: &Policy, dialogue: &mut Dialogue, key: u8, typed: u32) -> Taken {
    let value = typed.saturating_mul(policy_scale(key));
    if policy.value(key) == Some(value) {
        return Err(Trouble::Already);
    }
    if policy.with(key, value).is_none() {
        let within = bounds(key).is_some_and(|(least, most)| (least..=most).contains(&value));
        return Err(if within { Trouble::AgainstAnother } else { Trouble::OutOfBounds });
    }
    dialogue.draft.value = Some(value);
    Ok(())
}

fn group_given(
    dialogue: &mut Dialogue,
    index: u8,
    entry: &Entry,
    reads: &mut impl Reads,
) -> Result<Taken, Unreadable> {
    let draft = &mut dialogue.draft;
    if draft.pairing.take(usize::from(index), entry.digits()).is_err() {
        return Ok(Err(Trouble::Group));
    }
    draft.groups = index.saturating_add(1);
    if usize::from(draft.groups) < PairingCode::GROUPS {
        return Ok(Ok(()));
    }
    let Ok(new) = draft.pairing.pairing() else {
        draft.groups = 0;
        return Ok(Err(Trouble::Group));
    };
    let old = reads.pairing()?;
    let trouble = if old.is_some_and(|old| new.lock() != old.lock()) {
        Trouble::OtherLock
    } else if new.generation() <= reads.last_generation()? {
        Trouble::OldKey
    } else {
        return Ok(Ok(()));
    };
    draft.groups = 0;
    Ok(Err(trouble))
}
