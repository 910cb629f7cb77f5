//! Dialogues: what a role may do besides opening, led in plain words.
//!
//! A dialogue begins once somebody has shown who they are, asks for one thing
//! after another, says what is about to be done, and does it at *OK*. What it
//! was given lies in a [`Draft`]; what is still missing follows from that alone.
//! It knows keys and pauses; what the settings say, the machine asks and tells.
//!
//! *back* wipes what stands in a field, or leaves where nothing does; a pause of
//! [`PAUSE`] leaves too. Nothing is changed before the last *OK*, so a dialogue
//! can end anywhere, also by a cut of the power (R6).

mod draft;

pub use draft::{Alone, Draft, Failed, Found, Next, Twice, Which};

use crate::audit::People;
use crate::code::{Code, Entry};
use crate::holder::Number;
use crate::keys::Key;
use crate::port::Offer;
use crate::screen::{Field, Form, Gist, ROWS_A_PAGE, Row, Shown, Topic, Trouble, Typed, Whom};
use crate::task::Task;
use crate::time::{Seconds, Uptime};

/// After so long without a key a dialogue is left. Ours: long enough to read a
/// date or a group of digits from paper.
pub const PAUSE: Seconds = Seconds::new(60);

/// A dialogue that is under way. No `Debug`: it may hold a code.
pub struct Dialogue {
    /// What it is about.
    pub topic: Topic,
    /// Who leads it; nobody before there is a warden.
    pub who: Option<Number>,
    /// What it has been given.
    pub draft: Draft,
    /// What it is doing.
    pub stage: Stage,
    /// What is wrong with what it was given last.
    pub trouble: Option<Trouble>,
    /// A timetable file that waits for *OK*.
    pub offer: Option<Offer>,
    /// Whether it said that nobody could open after that.
    pub warned: bool,
    /// When it is left if nobody presses a key.
    pub until: Uptime,
}

silent!(Dialogue);

/// What a dialogue is doing.
pub enum Stage {
    /// It asks for something.
    Ask(Field, Entry),
    /// It asks for a second person: number and code.
    Second(Whom, Entry),
    /// It says what is about to be done.
    Confirm(Gist),
    /// It shows which numbers are taken.
    Numbers([Option<Row>; ROWS_A_PAGE]),
    /// Files may come and go.
    Files,
}

silent!(Stage);

/// What a key did to a dialogue.
pub enum Did {
    /// Nothing.
    Nothing,
    /// Something that is seen.
    Something,
    /// It ended the dialogue.
    Left,
    /// It gave what stands in a field that is typed.
    Given(Field, Entry),
    /// It made a numbered choice, from 1.
    Chosen(Field, u8),
    /// A second person typed number and code.
    Try(Number, Code),
    /// It confirmed.
    Confirmed,
    /// It goes on without a second person.
    Alone,
    /// It asked for the next page.
    More,
}

impl Dialogue {
    /// A dialogue that asks for nothing yet.
    #[must_use]
    pub fn new(topic: Topic, who: Option<Number>, at: Uptime) -> Self {
        Self {
            topic,
            who,
            draft: Draft::default(),
            stage: Stage::Files,
            trouble: None,
            offer: None,
            warned: false,
            until: at.after(PAUSE),
        }
    }

    /// The people who lead it.
    #[must_use]
    pub fn people(&self) -> Option<People> {
        self.who.map(|first| People { first, second: self.draft.second })
    }

    /// It asks for `field`.
    #[inline(never)] // one copy
    pub fn ask(&mut self, field: Field) {
        self.turn_to(Stage::Ask(field, Entry::new()));
    }

    /// It does something else from now on; what stood in a field is wiped.
    #[inline(never)] // one copy
    pub fn turn_to(&mut self, stage: Stage) {
        self.stage = stage;
    }

    /// Takes a key in; what it did.
    pub fn on_key(&mut self, key: Key, at: Uptime) -> Did {
        let did = match (&mut self.stage, key) {
            (Stage::Ask(field, entry), key) => asked(*field, entry, key, self.trouble),
            (Stage::Second(_, entry), key) => second(self.topic, entry, key),
            (Stage::Confirm(_), Key::Ok) => Did::Confirmed,
            (Stage::Numbers(_), Key::Ok) => Did::More,
            (Stage::Confirm(_) | Stage::Numbers(_) | Stage::Files, Key::Back) => Did::Left,
            (Stage::Confirm(_) | Stage::Numbers(_), Key::Digit(_))
            | (Stage::Files, Key::Digit(_) | Key::Ok) => Did::Nothing,
        };
        match &did {
            Did::Nothing | Did::Left => {}
            Did::Something
            | Did::Given(..)
            | Did::Chosen(..)
            | Did::Try(..)
            | Did::Confirmed
            | Did::Alone
            | Did::More => {
                self.trouble = None;
                // A session for files has its length from the beginning.
                if self.topic != Topic::Task(Task::Files) {
                    self.until = at.after(PAUSE);
                }
            }
        }
        did
    }

    /// What the screen shows of it.
    #[must_use]
    pub fn form(&self) -> Form {
        let (topic, trouble) = (self.topic, self.trouble);
        match &self.stage {
            Stage::Ask(field, entry) => {
                Form::Ask { topic, field: *field, shown: shown(*field, entry), trouble }
            }
            Stage::Second(whom, entry) => {
                Form::Second { topic, whom: *whom, typed: Typed::of(entry) }
            }
            Stage::Confirm(gist) => Form::Confirm { topic, gist: *gist, trouble },
            Stage::Numbers(rows) => Form::Numbers { rows: *rows },
            Stage::Files => Form::Files,
        }
    }
}

/// Whether a field is a numbered choice: one digit gives it.
const fn is_choice(field: Field) -> bool {
    match field {
        Field::Role | Field::Opens | Field::Timetable | Field::Which | Field::Key { .. } => true,
        Field::Number
        | Field::NewCode
        | Field::Again
        | Field::Date
        | Field::Time
        | Field::Value { .. }
        | Field::Group { .. } => false,
    }
}

/// Whether what stands in a field is a secret.
const fn is_secret(field: Field) -> bool {
    match field {
        Field::NewCode | Field::Again | Field::Group { .. } => true,
        Field::Number
        | Field::Role
        | Field::Opens
        | Field::Timetable
        | Field::Which
        | Field::Date
        | Field::Time
        | Field::Key { .. }
        | Field::Value { .. } => false,
    }
}

/// Most digits that a field takes.
const fn most(field: Field) -> usize {
    match field {
        Field::Number => 2,
        Field::Role | Field::Opens | Field::Timetable | Field::Which | Field::Key { .. } => 1,
        Field::NewCode | Field::Again => crate::code::MAX_DIGITS,
        Field::Date => 8,
        Field::Time => 4,
        Field::Value { .. } => 6,
        Field::Group { .. } => crate::pairing_code::GROUP_DIGITS,
    }
}

fn asked(field: Field, entry: &mut Entry, key: Key, trouble: Option<Trouble>) -> Did {
    match key {
        Key::Digit(digit) if is_choice(field) => Did::Chosen(field, digit.get()),
        Key::Digit(digit) if entry.len() < most(field) => match entry.push(digit) {
            Ok(()) => Did::Something,
            Err(_) => Did::Nothing,
        },
        Key::Digit(_) => Did::Nothing,
        Key::Back if entry.is_empty() => Did::Left,
        Key::Back => {
            entry.clear();
            Did::Something
        }
        // What was wrong with a choice stands where the choices were.
        Key::Ok if is_choice(field) && trouble.is_some() => Did::Something,
        Key::Ok => match field {
            Field::Key { .. } => Did::More,
            Field::Role | Field::Opens | Field::Timetable | Field::Which => Did::Nothing,
            Field::Number
            | Field::NewCode
            | Field::Again
            | Field::Date
            | Field::Time
            | Field::Value { .. }
            | Field::Group { .. } => {
                if entry.is_empty() {
                    Did::Nothing
                } else {
                    Did::Given(field, core::mem::take(entry))
                }
            }
        },
    }
}

fn second(topic: Topic, entry: &mut Entry, key: Key) -> Did {
    match key {
        // A way out may be asked for alone: it takes longer.
        Key::Ok if entry.is_empty() && topic == Topic::Task(Task::WayOut) => Did::Alone,
        Key::Digit(digit) => match entry.push(digit) {
            Ok(()) => Did::Something,
            Err(_) => Did::Nothing,
        },
        Key::Back if entry.is_empty() => Did::Left,
        Key::Back => {
            entry.clear();
            Did::Something
        }
        Key::Ok => match (entry.number(), entry.code()) {
            (Some(number), Some(code)) => {
                entry.clear();
                Did::Try(number, code)
            }
            (Some(_) | None, None) | (None, Some(_)) => Did::Nothing,
        },
    }
}

fn shown(field: Field, entry: &Entry) -> Shown {
    let count = u8::try_from(entry.len()).unwrap_or(u8::MAX);
    if is_secret(field) {
        Shown::Dots(count)
    } else {
        Shown::Digits { value: entry.value(), count }
    }
}
