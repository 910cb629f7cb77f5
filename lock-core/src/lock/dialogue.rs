//! Leading a dialogue: what the settings say to what it is given.
//!
//! The dialogue itself knows keys and pauses ([`crate::dialog`]); here it is
//! begun, checked field by field, and carried on once a second person is there.

use super::access::Moment;
use super::change::Applies;
use super::errand::After;
use super::machine::Machine;
use super::session::{Attempt, Purpose, Session};
use crate::audit::{Event, Outcome, Refusal};
use crate::code::{self, Entry, Refused, Verdict};
use crate::dialog::{Alone, Dialogue, Did, Draft, Failed, Found, Next, Stage, Twice, Which};
use crate::holder::{HolderRow, Number, Standing};
use crate::keys::Key;
use crate::pairing_code::PairingCode;
use crate::policy::{KEYS, Policy};
use crate::port::{Bolt, Fault, Reads, Sound, Switch, Tally};
use crate::role::Role;
use crate::rules::Unreadable;
use crate::screen::{Field, Gist, ROWS_A_PAGE, Row, Topic, Trouble, Whom, policy_scale};
use crate::task::Task;
use crate::time::{Date, Instants, Minute, Utc};
use crate::timetable::{Follows, TimetableId};

/// What was given is taken, or why not.
type Taken = Result<(), Trouble>;

/// Keys of the policy on one page.
const KEYS_A_PAGE: u8 = 3;

impl Machine {
    /// Begins the dialogue of a task for somebody who has just shown who they
    /// are.
    // Not inlined: its stack is not there for what comes before or after it.
    #[inline(never)]
    pub(super) fn begin(
        &mut self,
        task: Task,
        who: Number,
        outcome: Outcome,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        let dialogue = Dialogue::new(Topic::Task(task), Some(who), at.uptime);
        self.record(at, Event::Asked { who, task, outcome }, After::Say(Sound::Key, outcome));
        self.tally(Tally::Cleared(who), After::Nothing, at);
        self.lead(dialogue, at, reads)
    }

    /// Begins a dialogue that nobody is asked for a code for.
    pub(super) fn begin_alone(&mut self, topic: Topic, at: Moment, reads: &mut impl Reads) {
        self.sound(Sound::Key);
        let led = self.lead(Dialogue::new(topic, None, at.uptime), at, reads);
        if led == Err(Unreadable) {
            self.out_of_order(Fault::Settings);
        }
    }

    /// Goes on to what the dialogue does next.
    fn lead(
        &mut self,
        mut dialogue: Dialogue,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        match dialogue.topic {
            Topic::Task(Task::Numbers) => {
                dialogue.turn_to(Stage::Numbers(rows_from(1, reads)?));
            }
            Topic::Task(Task::Files) => {
                dialogue.turn_to(Stage::Files);
                dialogue.until = at.uptime.after(super::carry::SESSION);
            }
            Topic::Task(_) | Topic::FirstWarden | Topic::SlowReset => {
                let next = dialogue.draft.next(dialogue.topic);
                // Who is to come is asked for once all else is known; a pairing code is
                // not typed in vain.
                let pairs = dialogue.topic == Topic::Task(Task::Pair);
                let next = if matches!(next, Next::Ask(_)) && !pairs {
                    next
                } else {
                    dialogue.draft.needs = self.second_person(&dialogue, at, reads)?;
                    dialogue.draft.next(dialogue.topic)
                };
                match next {
                    Next::Ask(field) => dialogue.ask(field),
                    Next::Second(whom) => dialogue.turn_to(Stage::Second(whom, Entry::new())),
                    Next::Confirm => {
                        dialogue.turn_to(Stage::Confirm(self.gist(&dialogue, at, reads)?));
                        dialogue.trouble = self.hindered(&dialogue, at).err();
                    }
                }
            }
        }
        self.session = Session::Form(dialogue);
        Ok(())
    }

    /// A key while a dialogue is under way.
    // Not inlined: its stack is not there for what comes before or after it.
    #[inline(never)]
    pub(super) fn dialogue_key(&mut self, key: Key, at: Moment, reads: &mut impl Reads) {
        let session = core::mem::replace(&mut self.session, Session::Rest);
        let Session::Form(mut dialogue) = session else {
            self.session = session;
            return;
        };
        let led = match dialogue.on_key(key, at.uptime) {
            Did::Nothing => {
                self.session = Session::Form(dialogue);
                return;
            }
            Did::Something => {
                self.session = Session::Form(dialogue);
                Ok(())
            }
            Did::Left => Ok(()),
            Did::Given(field, entry) => {
                let taken = self.given(&mut dialogue, field, &entry, at, reads);
                self.taken(dialogue, field, taken, at, reads)
            }
            Did::Chosen(field, choice) => {
                let taken = self.chosen(&mut dialogue, field, choice, at, reads);
                self.taken(dialogue, field, taken, at, reads)
            }
            Did::More => self.more(dialogue, reads),
            Did::Try(number, code) => {
                // Silent until its record is written, as every try is.
                let attempt = Attempt { purpose: Purpose::Second, number, code };
                self.session = Session::Second(attempt, dialogue);
                return self.count(at);
            }
            Did::Alone => {
                dialogue.draft.alone = Alone::Yes;
                self.lead(dialogue, at, reads)
            }
            Did::Confirmed => match self.hindered(&dialogue, at) {
                Ok(()) => {
                    let led = self.do_it(dialogue, at, reads);
                    // What was done is heard once it is durable.
                    if !matches!(self.session, Session::Form(_)) && led.is_ok() {
                        return;
                    }
                    led
                }
                Err(trouble) => {
                    self.refuse_field(dialogue, trouble);
                    Ok(())
                }
            },
        };
        if self.sounds_nothing() {
            self.sound(Sound::Key);
        }
        if led == Err(Unreadable) {
            self.out_of_order(Fault::Settings);
        }
    }

    fn taken(
        &mut self,
        mut dialogue: Dialogue,
        field: Field,
        taken: Result<Taken, Unreadable>,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        match taken? {
            Ok(()) => self.lead(dialogue, at, reads),
            Err(trouble) => {
                // What differs the second time may have been mistyped the first.
                let field = if trouble == Trouble::Differ { Field::NewCode } else { field };
                dialogue.ask(field);
                self.refuse_field(dialogue, trouble);
                Ok(())
            }
        }
    }

    pub(super) fn refuse_field(&mut self, mut dialogue: Dialogue, trouble: Trouble) {
        dialogue.trouble = Some(trouble);
        self.session = Session::Form(dialogue);
        self.sound(Sound::Refused);
    }

    fn more(&mut self, mut dialogue: Dialogue, reads: &mut impl Reads) -> Result<(), Unreadable> {
        match &dialogue.stage {
            Stage::Numbers(rows) => {
                let last = rows.iter().flatten().last();
                let from = last.map_or(1, |row| row.number.get().saturating_add(1));
                dialogue.turn_to(Stage::Numbers(rows_from(from, reads)?));
            }
            Stage::Ask(Field::Key { page }, _) => {
                let pages = KEYS.len().div_ceil(usize::from(KEYS_A_PAGE));
                let next = page.saturating_add(1);
                let page = if usize::from(next) < pages { next } else { 0 };
                dialogue.ask(Field::Key { page });
            }
            Stage::Ask(..) | Stage::Second(..) | Stage::Confirm(_) | Stage::Files => {}
        }
        self.session = Session::Form(dialogue);
        Ok(())
    }

    /// The second person's code was right: the dialogue goes on with them, or
    /// is over.
    // Not inlined: its stack is not there for what comes before or after it.
    #[inline(never)]
    pub(super) fn second_came(
        &mut self,
        mut dialogue: Dialogue,
        (who, row): (Number, &HolderRow),
        outcome: Outcome,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        let right = match dialogue.draft.needs {
            // Whom it is about does not agree for two.
            Some(Whom::Privileged) if dialogue.draft.number == Some(who) => Err(Refusal::Right),
            Some(needed) if needed.admits(row.role) => Ok(()),
            Some(_) | None => Err(Refusal::Right),
        };
        let same = if dialogue.who == Some(who) { Err(Refusal::SamePerson) } else { Ok(()) };
        let (Topic::Task(task), Ok(())) =
            (dialogue.topic, Self::able(row, self.stood).and(same).and(right))
        else {
            let why = Self::able(row, self.stood).and(same).and(right);
            self.refuse((why.err().unwrap_or(Refusal::Right), None), who, outcome, at);
            return Ok(());
        };
        dialogue.draft.second = Some(who);
        self.record(at, Event::Asked { who, task, outcome }, After::Say(Sound::Key, outcome));
        self.tally(Tally::Cleared(who), After::Nothing, at);
        self.lead(dialogue, at, reads)
    }

    /// What stands against doing it at this moment.
    fn hindered(&self, dialogue: &Dialogue, at: Moment) -> Taken {
        let bolt = match self.contacts.bolt {
            Bolt::Drawn => Ok(()),
            Bolt::Thrown => Err(Trouble::DrawBolt),
        };
        let switch = match self.contacts.switch {
            Switch::On => Ok(()),
            Switch::Off => Err(Trouble::SwitchOn),
        };
        match dialogue.topic {
            Topic::FirstWarden | Topic::SlowReset | Topic::Task(Task::Reset) => bolt.and(switch),
            Topic::Task(Task::Pair) if self.bolt_is_given() => Ok(()),
            Topic::Task(Task::Pair | Task::TestAlarm) => bolt,
            Topic::Task(_) => self.one_alone(dialogue, at),
        }
    }

    /// What is about to be done.
    fn gist(
        &self,
        dialogue: &Dialogue,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Gist, Unreadable> {
        let draft = &dialogue.draft;
        Ok(match (dialogue.topic, draft.number) {
            (Topic::FirstWarden, _) if self.kept.is_erased() => Gist::Erase,
            (Topic::Task(Task::HoldShut), _) => {
                let row = match dialogue.who {
                    Some(who) => reads.holder(who)?,
                    None => None,
                };
                let until = match row {
                    Some(row) => self.hold_end(&row, at, reads)?,
                    None => None,
                };
                until.map_or(Gist::Plain, |until| Gist::Hold(self.stamp(until)))
            }
            (Topic::Task(Task::Enrol | Task::ChangeRole), Some(number)) => {
                let (role, opens, follows) = draft.row_wanted();
                Gist::Row { number, role, opens, follows }
            }
            (Topic::Task(Task::ChooseTimetable), Some(number)) => {
                Gist::Follows(number, draft.follows.unwrap_or(Follows::Always))
            }
            (Topic::Task(Task::SetClock), _) => match self.target(draft) {
                Ok(utc) => Gist::Clock(self.stamp(utc)),
                Err(_) => Gist::Plain,
            },
            (Topic::Task(Task::SetPolicy), _) => match (draft.key, draft.value) {
                (Some(key), Some(value)) => {
                    // The divisor is a constant of the table.
                    let typed = value.checked_div(policy_scale(key)).unwrap_or(value);
                    Gist::Value { key, value: typed }
                }
                (Some(_) | None, None) | (None, Some(_)) => Gist::Plain,
            },
            (Topic::Task(_) | Topic::FirstWarden | Topic::SlowReset, Some(number)) => {
                Gist::Holder(number)
            }
            (Topic::Task(_) | Topic::FirstWarden | Topic::SlowReset, None) => Gist::Plain,
        })
    }

    /// Takes what was typed into a field, if it can be.
    fn given(
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
            Field::Value { key } => value_given(&self.policy, dialogue, key, entry.value()),
            Field::Group { index } => return group_given(dialogue, index, entry, reads),
            Field::Role | Field::Opens | Field::Timetable | Field::Which | Field::Key { .. } => {
                Err(Trouble::NoChoice)
            }
        })
    }

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
        let failed = if self.guard.is_at_limit(number) { Failed::TooOften } else { Failed::No };
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

    fn code_given(
        &mut self,
        dialogue: &mut Dialogue,
        entry: &Entry,
        reads: &mut impl Reads,
    ) -> Result<Taken, Unreadable> {
        let digits = self.policy.code_digits;
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
                if code::judge(&self.key, who, claimed.kept(), typed) != Verdict::Wrong {
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
            (Some(date), Some(minute)) => self.zone.instants(date, minute.seconds()),
            (Some(_) | None, _) => Instants::None,
        }
    }

    /// Makes a numbered choice, if there is such a one.
    fn chosen(
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
            && self.settles.is_none()
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
        (Task::ChooseTimetable, _) if row.role == Role::Steward => Err(Trouble::NotYours),
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
    policy.with(key, value).ok_or(Trouble::OutOfBounds)?;
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
    let ours = old.is_none_or(|old| new.lock() == old.lock());
    if !ours || new.generation() <= reads.last_generation()? {
        draft.groups = 0;
        return Ok(Err(Trouble::OldKey));
    }
    Ok(Ok(()))
}

/// The next few holders from number `from` on; from the first again behind the
/// last.
fn rows_from(from: u8, reads: &mut impl Reads) -> Result<[Option<Row>; ROWS_A_PAGE], Unreadable> {
    let mut rows = [None; ROWS_A_PAGE];
    let mut free = rows.iter_mut();
    let mut found = false;
    for number in (from..=99).filter_map(Number::new) {
        let Some(row) = reads.holder(number)? else { continue };
        let suspended = row.standing == Standing::Suspended;
        let Some(place) = free.next() else { break };
        *place = Some(Row { number, role: row.role, suspended });
        found = true;
    }
    // Behind the last it begins anew; somebody is enrolled, or nobody would ask.
    if found || from == 1 { Ok(rows) } else { rows_from(1, reads) }
}
