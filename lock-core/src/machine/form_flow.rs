//! Leading a dialogue: what the settings say to what it is given.
//!
//! The dialogue itself knows keys and pauses ([`crate::dialog`]); here it is
//! begun, checked field by field, and carried on once a second person is there.

use super::bolt::Moment;
use super::form_fields::{KEYS_A_PAGE, Taken};
use super::keypad::{Attempt, Purpose, Session};
use super::step::Machine;
use super::writes::Continuation;
use crate::audit::{Event, Outcome, Refusal};
use crate::code::Entry;
use crate::decide::{self, Refused};
use crate::dialog::{Alone, Dialogue, Did, Next, Stage};
use crate::holder::{HolderRow, Number, Standing};
use crate::keys::Key;
use crate::policy::KEYS;
use crate::port::{Bolt, Fault, Reads, Sound, Switch, Tally};
use crate::rules::Unreadable;
use crate::screen::{Field, Gist, ROWS_A_PAGE, Row, Topic, Trouble, Whom, policy_scale};
use crate::task::Task;
use crate::timetable::Follows;

/// How far a key led a dialogue.
enum Led {
    /// Nothing is left to say of it.
    NoFurther,
    Further,
    /// What it was led for is confirmed.
    ToItsEnd,
}

impl Machine {
    /// Begins the dialogue of a task for somebody who has just shown who they
    /// are.
    #[inline(never)] // own frame
    pub(super) fn begin(
        &mut self,
        task: Task,
        who: Number,
        outcome: Outcome,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        let dialogue = Dialogue::new(Topic::Task(task), Some(who), at.uptime);
        self.record(
            at,
            Event::Asked { who, task, outcome },
            Continuation::Say(Sound::Key, outcome),
        );
        self.tally(Tally::Cleared(who), Continuation::Nothing, at);
        self.lead(dialogue, at, reads)
    }

    /// Begins a dialogue that nobody is asked for a code for.
    pub(super) fn begin_alone(&mut self, topic: Topic, at: Moment, reads: &mut impl Reads) {
        self.out.sound(Sound::Key);
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
                dialogue.until = at.uptime.after(super::files::SESSION);
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
                        let gist = self.gist(&dialogue, at, reads)?;
                        dialogue.trouble = match (dialogue.topic, gist) {
                            (Topic::Task(Task::HoldShut), Gist::Plain) => Some(Trouble::NoWindow),
                            _ => self.hindered(&dialogue, at).err(),
                        };
                        dialogue.turn_to(Stage::Confirm(gist));
                    }
                }
            }
        }
        self.keypad.keep(dialogue);
        Ok(())
    }

    /// A key while a dialogue is under way.
    #[inline(never)] // own frame
    pub(super) fn dialogue_key(&mut self, key: Key, at: Moment, reads: &mut impl Reads) {
        let led = match self.key_taken(key, at, reads) {
            Ok(Led::NoFurther) => return,
            Ok(Led::Further) => Ok(()),
            // It stays where it is while a change is proposed: the stack has no room for
            // both.
            Ok(Led::ToItsEnd) => {
                let led = self
                    .propose_confirmed(at, reads)
                    .and_then(|proposed| self.do_it(proposed, at, reads));
                // What was done is heard once it is durable.
                if !matches!(self.keypad.session(), Session::Form(_)) && led.is_ok() {
                    return;
                }
                led
            }
            Err(Unreadable) => Err(Unreadable),
        };
        if self.out.is_silent() {
            self.out.sound(Sound::Key);
        }
        if led == Err(Unreadable) {
            self.out_of_order(Fault::Settings);
        }
    }

    #[inline(never)] // own frame
    fn key_taken(
        &mut self,
        key: Key,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Led, Unreadable> {
        let Some(mut dialogue) = self.keypad.take_form() else { return Ok(Led::NoFurther) };
        match dialogue.on_key(key, at.uptime) {
            Did::Nothing => {
                self.keypad.keep(dialogue);
                return Ok(Led::NoFurther);
            }
            Did::Something => self.keypad.keep(dialogue),
            Did::Left => {}
            Did::Given(field, entry) => {
                let taken = self.given(&mut dialogue, field, &entry, at, reads);
                self.taken(dialogue, field, taken, at, reads)?;
            }
            Did::Chosen(field, choice) => {
                let taken = self.chosen(&mut dialogue, field, choice, at, reads);
                self.taken(dialogue, field, taken, at, reads)?;
            }
            Did::More => self.more(dialogue, reads)?,
            Did::Try(number, code) => {
                // Silent until its record is written, as every try is.
                let attempt = Attempt::new(Purpose::Second, number, code);
                self.keypad.second(attempt, dialogue);
                self.count(at);
                return Ok(Led::NoFurther);
            }
            Did::Alone => {
                dialogue.draft.alone = Alone::Yes;
                self.lead(dialogue, at, reads)?;
            }
            Did::Confirmed => {
                self.keypad.keep(dialogue);
                return Ok(Led::ToItsEnd);
            }
        }
        Ok(Led::Further)
    }

    #[inline(never)] // own frame
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
                let field = if trouble == Trouble::Differ {
                    // What differs the second time may have been mistyped the first.
                    Field::NewCode
                } else if matches!(field, Field::Group { .. }) {
                    // A key that is not meant is mistyped anywhere.
                    Field::Group { index: dialogue.draft.groups }
                } else {
                    field
                };
                dialogue.ask(field);
                self.keypad.keep(dialogue);
                self.refuse_form(trouble);
                Ok(())
            }
        }
    }

    /// The dialogue under way says what is wrong.
    pub(super) fn refuse_form(&mut self, trouble: Trouble) {
        if let Some(dialogue) = self.keypad.form() {
            dialogue.trouble = Some(trouble);
        }
        self.out.sound(Sound::Refused);
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
        self.keypad.keep(dialogue);
        Ok(())
    }

    /// The second person's code was right: the dialogue goes on with them, or
    /// is over.
    #[inline(never)] // own frame
    pub(super) fn second_came(
        &mut self,
        mut dialogue: Dialogue,
        (attempt, row): (&Attempt, &HolderRow),
        outcome: Outcome,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<(), Unreadable> {
        let who = attempt.number;
        let right = match dialogue.draft.needs {
            // Whom it is about does not agree for two.
            Some(Whom::Privileged) if dialogue.draft.number == Some(who) => Err(Refusal::Right),
            Some(needed) if needed.admits(row.role) => Ok(()),
            Some(_) | None => Err(Refusal::Right),
        };
        let same = if dialogue.who == Some(who) { Err(Refusal::SamePerson) } else { Ok(()) };
        let may = decide::able(row, attempt.stood).and(same).and(right);
        let (Topic::Task(task), Ok(())) = (dialogue.topic, may) else {
            let why = may.err().unwrap_or(Refusal::Right);
            self.refuse(Refused::because(why), who, outcome, at);
            return Ok(());
        };
        dialogue.draft.second = Some(who);
        self.record(
            at,
            Event::Asked { who, task, outcome },
            Continuation::Say(Sound::Key, outcome),
        );
        self.tally(Tally::Cleared(who), Continuation::Nothing, at);
        self.lead(dialogue, at, reads)
    }

    /// What stands against doing it at this moment.
    pub(super) fn hindered(&self, dialogue: &Dialogue, at: Moment) -> Taken {
        let bolt = match self.bolt.contacts().bolt {
            Bolt::Drawn => Ok(()),
            Bolt::Thrown => Err(Trouble::DrawBolt),
        };
        let switch = match self.bolt.contacts().switch {
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
    #[inline(never)] // own frame
    fn gist(
        &self,
        dialogue: &Dialogue,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Gist, Unreadable> {
        let draft = &dialogue.draft;
        Ok(match (dialogue.topic, draft.number) {
            (Topic::FirstWarden, _) if self.writes.kept().is_erased() => Gist::Erase,
            (Topic::Task(Task::WayOut), _) if draft.alone == Alone::Yes => Gist::Alone,
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
