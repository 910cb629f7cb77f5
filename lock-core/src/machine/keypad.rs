//! What the person at the keypad is doing: rest, entry, over, list, who, judging, form,
//! second.

use crate::code::{Code, Entry};
use crate::dialog::Dialogue;
use crate::holder::Number;
use crate::keys::Key;
use crate::rules::limit::Stood;
use crate::screen::Typed;
use crate::task::{PAGES, TASKS_A_PAGE, Task};
use crate::time::{Seconds, Uptime};

/// After so long without a key an entry is wiped and a list left. Ours: longer
/// than anybody hesitates, too short to fetch somebody.
pub const PAUSE: Seconds = Seconds::new(20);

/// The region of the keypad. No `Debug`: it may hold a code.
pub(super) struct Keypad(Session);

silent!(Keypad);

impl Keypad {
    pub(super) const AT_REST: Self = Self(Session::Rest);

    pub(super) const fn session(&self) -> &Session {
        &self.0
    }

    /// Takes a key in; what it did.
    pub(super) fn on_key(&mut self, key: Key, at: Uptime) -> Did {
        self.0.on_key(key, at)
    }

    /// Nobody does anything from now on; what was done before.
    pub(super) fn take(&mut self) -> Session {
        core::mem::replace(&mut self.0, Session::Rest)
    }

    /// Whatever was done is over.
    pub(super) fn rest(&mut self) {
        self.0 = Session::Rest;
    }

    /// The dialogue under way, to be kept again or over.
    pub(super) fn take_form(&mut self) -> Option<Dialogue> {
        if !matches!(self.0, Session::Form(_)) {
            return None;
        }
        if let Session::Form(dialogue) = self.take() { Some(dialogue) } else { None }
    }

    /// The dialogue under way.
    pub(super) const fn form(&mut self) -> Option<&mut Dialogue> {
        if let Session::Form(dialogue) = &mut self.0 { Some(dialogue) } else { None }
    }

    /// A dialogue is, or stays, under way.
    #[inline(never)] // own frame
    pub(super) fn keep(&mut self, dialogue: Dialogue) {
        self.0 = Session::Form(dialogue);
    }

    /// The try of a dialogue's second person is to be counted.
    pub(super) fn second(&mut self, attempt: Attempt, dialogue: Dialogue) {
        self.0 = Session::Second(attempt, dialogue);
    }

    /// The try that is to be counted or judged.
    pub(super) const fn attempt(&mut self) -> Option<&mut Attempt> {
        match &mut self.0 {
            Session::Judging(attempt) | Session::Second(attempt, _) => Some(attempt),
            Session::Rest
            | Session::Entry(_)
            | Session::Over(_)
            | Session::List { .. }
            | Session::Who(..)
            | Session::Form(_) => None,
        }
    }
}

/// What somebody is doing at the keypad. No `Debug`: it may hold a code.
pub enum Session {
    /// Nobody is doing anything.
    Rest,
    /// Somebody types an opening.
    Entry(Typing),
    /// Too much was typed: nothing is taken before *OK* or *back*, or until then.
    Over(Uptime),
    /// The list is shown.
    List {
        /// Which page of it.
        page: u8,
        /// When it is left.
        until: Uptime,
    },
    /// Somebody says who they are, for a task.
    Who(Task, Typing),
    /// A try is being counted; the code waits for its judgement.
    Judging(Attempt),
    /// A dialogue is led.
    Form(Dialogue),
    /// The try of a dialogue's second person is being counted.
    Second(Attempt, Dialogue),
}

silent!(Session);

/// An entry, and when it is wiped.
pub struct Typing {
    /// What stands there.
    pub entry: Entry,
    /// When it is wiped.
    pub until: Uptime,
}

silent!(Typing);

/// What a key did.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Did {
    /// Nothing.
    Nothing,
    /// Something that is seen.
    Something,
    /// Ended an entry too short for a code.
    TooShort,
    /// Ended an entry too long for a code.
    TooLong,
    /// Made a try: the session is judging.
    Try,
    /// Asked for a reset without a code.
    Nobody,
}

impl Session {
    /// Takes a key in; what it did.
    pub fn on_key(&mut self, key: Key, at: Uptime) -> Did {
        let (next, did) = match self {
            Self::Rest => key_at_rest(key, at),
            Self::Entry(typing) => typing.on_key(key, at, Purpose::Open),
            Self::Over(_) => key_when_over(key),
            Self::List { page, .. } => key_in_list(*page, key, at),
            Self::Who(task, typing) => key_of_who(*task, typing, key, at),
            // The keys of a dialogue take looks at the settings: the machine leads it.
            Self::Judging(_) | Self::Form(_) | Self::Second(..) => (None, Did::Nothing),
        };
        if let Some(next) = next {
            *self = next;
        }
        did
    }

    /// Takes a look at the time: what was left alone is wiped.
    pub fn on_time(&mut self, at: Uptime) {
        if self.until().is_some_and(|until| at >= until) {
            *self = Self::Rest;
        }
    }

    /// When it ends if left alone.
    #[must_use]
    pub const fn until(&self) -> Option<Uptime> {
        match self {
            Self::Entry(typing) | Self::Who(_, typing) => Some(typing.until),
            Self::List { until, .. } => Some(*until),
            Self::Form(dialogue) => Some(dialogue.until),
            Self::Over(until) => Some(*until),
            Self::Rest | Self::Judging(_) | Self::Second(..) => None,
        }
    }

    /// The state's name, as the diagram spells it.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        match self {
            Self::Rest => "rest",
            Self::Entry(_) => "entry",
            Self::Over(_) => "over",
            Self::List { .. } => "list",
            Self::Who(..) => "who",
            Self::Judging(_) => "judging",
            Self::Form(_) => "form",
            Self::Second(..) => "second",
        }
    }
}

/// Another session that a key leads to, and what the key did.
type Keyed = (Option<Session>, Did);

impl Typing {
    fn new(at: Uptime) -> Self {
        Self { entry: Entry::new(), until: at.after(PAUSE) }
    }

    /// Takes a key in, where it stands: nothing that was typed is copied.
    fn on_key(&mut self, key: Key, at: Uptime, purpose: Purpose) -> Keyed {
        match key {
            Key::Digit(digit) => match self.entry.push(digit) {
                Ok(()) => {
                    self.until = at.after(PAUSE);
                    (None, Did::Something)
                }
                Err(_) => (Some(Session::Over(at.after(PAUSE))), Did::TooLong),
            },
            Key::Back => (Some(Session::Rest), Did::Something),
            Key::Ok => match (self.entry.number(), self.entry.code()) {
                (Some(number), Some(code)) => {
                    let attempt = Attempt::new(purpose, number, code);
                    (Some(Session::Judging(attempt)), Did::Try)
                }
                (Some(_) | None, None) | (None, Some(_)) => (Some(Session::Rest), Did::TooShort),
            },
        }
    }

    /// What the screen may show of it.
    #[must_use]
    pub fn seen(&self) -> Typed {
        Typed::of(&self.entry)
    }
}

/// What a code was entered for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Purpose {
    /// An opening.
    Open,
    /// A task of the list.
    Task(Task),
    /// To be the second person of a dialogue.
    Second,
}

/// A try: a number and a code, not judged yet. No `Debug`; the code is wiped
/// when it is dropped.
pub struct Attempt {
    /// What for.
    pub purpose: Purpose,
    /// On which number.
    pub number: Number,
    /// With which code.
    pub code: Code,
    /// How that number stood before the try.
    pub stood: Stood,
    /// The counter of a courier once the code is used up, if it was right.
    pub spends: Option<u32>,
}

silent!(Attempt);

impl Attempt {
    /// A try that is not counted yet.
    #[must_use]
    pub const fn new(purpose: Purpose, number: Number, code: Code) -> Self {
        Self { purpose, number, code, stood: Stood::Below, spends: None }
    }
}

/// Digits are an opening, *OK* leads to the list.
fn key_at_rest(key: Key, at: Uptime) -> Keyed {
    match key {
        Key::Digit(_) => {
            let mut typing = Typing::new(at);
            let (_, did) = typing.on_key(key, at, Purpose::Open);
            (Some(Session::Entry(typing)), did)
        }
        Key::Back => (None, Did::Nothing),
        Key::Ok => (Some(list_shown(0, at)), Did::Something),
    }
}

/// More digits came than number and code have. They are swallowed until the person
/// notices, so that the rest of them is no entry of its own.
const fn key_when_over(key: Key) -> Keyed {
    match key {
        Key::Digit(_) => (None, Did::Nothing),
        Key::Back | Key::Ok => (Some(Session::Rest), Did::Something),
    }
}

fn list_shown(page: u8, at: Uptime) -> Session {
    Session::List { page, until: at.after(PAUSE) }
}

/// Tasks have numbers; the person picks one.
fn key_in_list(page: u8, key: Key, at: Uptime) -> Keyed {
    match key {
        Key::Digit(digit) => {
            let place = usize::from(digit.get()).checked_sub(1);
            let tasks = Task::LIST.get(usize::from(page)).unwrap_or(&[None; TASKS_A_PAGE]);
            match place.and_then(|place| tasks.get(place).copied().flatten()) {
                Some(task) => (Some(Session::Who(task, Typing::new(at))), Did::Something),
                None => (Some(list_shown(page, at)), Did::Nothing),
            }
        }
        Key::Back => (Some(Session::Rest), Did::Something),
        Key::Ok => {
            let next = page.saturating_add(1);
            let next = if usize::from(next) < PAGES { next } else { 0 };
            (Some(list_shown(next, at)), Did::Something)
        }
    }
}

/// Number and code, for a task.
fn key_of_who(task: Task, typing: &mut Typing, key: Key, at: Uptime) -> Keyed {
    if task == Task::Reset && key == Key::Ok && typing.entry.is_empty() {
        return (Some(Session::Rest), Did::Nobody);
    }
    typing.on_key(key, at, Purpose::Task(task))
}
