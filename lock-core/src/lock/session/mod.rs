//! What the person at the keypad is doing: a file a state.

mod entry;
mod judging;
mod list;
mod over;
mod rest;
mod who;

pub use judging::{Attempt, Purpose};

use crate::code::Entry;
use crate::dialog::Dialogue;
use crate::keys::Key;
use crate::screen::Typed;
use crate::task::Task;
use crate::time::{Seconds, Uptime};

/// After so long without a key an entry is wiped and a list left. Ours: longer
/// than anybody hesitates, too short to fetch somebody.
pub const PAUSE: Seconds = Seconds::new(20);

/// The region of the keypad. No `Debug`: it may hold a code.
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
            Self::Rest => rest::on_key(key, at),
            Self::Entry(typing) => entry::on_key(typing, key, at),
            Self::Over(_) => over::on_key(key),
            Self::List { page, .. } => list::on_key(*page, key, at),
            Self::Who(task, typing) => who::on_key(*task, typing, key, at),
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
                    let attempt = Attempt { purpose, number, code };
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
