//! The keys (section 2): entries, the list, and who is asking.

use super::lock::{Model, Notice};
use super::seen::Key;

pub(crate) const PAUSE_MS: u64 = 20_000;
const NOTICE_MS: u64 = 60_000;
const MOST_DIGITS: usize = 10;
const FEWEST_DIGITS: usize = 8;

/// How long a dialogue waits for a key; a session for files waits longer.
const DIALOGUE_MS: u64 = 60_000;
const FILES_MS: u64 = 600_000;

/// The list, a page a row (section 12).
const LIST: [[Option<Task>; 3]; 6] = [
    [Some("hold-shut"), Some("status"), Some("change-code")],
    [Some("enrol"), Some("suspend"), Some("restore")],
    [Some("remove"), Some("change-role"), Some("choose-timetable")],
    [Some("numbers"), Some("files"), Some("set-clock")],
    [Some("set-policy"), Some("test-alarm"), Some("pair")],
    [Some("reset"), None, None],
];

/// A task of the list, by its name.
pub(crate) type Task = &'static str;

/// What a code is entered for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    Open,
    Task(Task),
}

#[derive(Clone, Debug)]
pub(crate) enum Desk {
    Rest,
    /// No digits yet: *who are you*, for an item of the list.
    Entry {
        asked: Asked,
        digits: String,
        last_key_ms: u64,
    },
    List {
        page: usize,
        last_key_ms: u64,
    },
    /// Some dialogue; which one, and what stands in it, is not known here.
    Dialogue {
        until_ms: u64,
    },
}

impl Desk {
    pub(crate) fn times_out_ms(&self) -> Option<u64> {
        match self {
            Desk::Rest => None,
            Desk::Dialogue { until_ms } => Some(*until_ms),
            Desk::Entry { last_key_ms, .. } | Desk::List { last_key_ms, .. } => {
                Some(last_key_ms + PAUSE_MS)
            }
        }
    }
}

impl Model {
    pub(crate) fn key(&mut self, key: Key) {
        if self.fault.is_some() {
            return;
        }
        let now_ms = self.now.uptime_ms;
        let dark = self.penalty.is_some();
        if !dark {
            self.notice = None;
        }
        let mut did_something = true;
        match (std::mem::replace(&mut self.desk, Desk::Rest), key) {
            (Desk::Rest, Key::Digit(digit)) => {
                self.type_digit(Asked::Open, String::new(), digit);
            }
            (Desk::Rest, Key::Back) => did_something = false,
            (Desk::Rest, Key::Ok) if dark => did_something = false,
            (Desk::Rest, Key::Ok) => self.desk = Desk::List { page: 0, last_key_ms: now_ms },
            (Desk::List { page, .. }, Key::Ok) => {
                let page = (page + 1) % LIST.len();
                self.desk = Desk::List { page, last_key_ms: now_ms };
            }
            (Desk::List { .. }, Key::Back) => (),
            (Desk::List { page, .. }, Key::Digit(digit)) => match listed(page, digit) {
                Some(task) => self.ask_who(Asked::Task(task)),
                None => {
                    did_something = false;
                    self.desk = Desk::List { page, last_key_ms: now_ms };
                }
            },
            (Desk::Dialogue { .. }, Key::Back) => (),
            (Desk::Dialogue { .. }, Key::Digit(_) | Key::Ok) => {
                panic!("no story leads a dialogue: see `Walk`")
            }
            (Desk::Entry { asked, digits, .. }, Key::Digit(digit)) => {
                self.type_digit(asked, digits, digit);
            }
            (Desk::Entry { .. }, Key::Back) => (),
            (Desk::Entry { asked, digits, .. }, Key::Ok) => self.finish(asked, &digits),
        }
        if did_something && !dark && self.fault.is_none() && self.seen.sounds.is_empty() {
            self.seen.sounds.push("key");
        }
    }

    fn ask_who(&mut self, asked: Asked) {
        let last_key_ms = self.now.uptime_ms;
        self.desk = Desk::Entry { asked, digits: String::new(), last_key_ms };
    }

    fn type_digit(&mut self, asked: Asked, mut digits: String, digit: u8) {
        digits.push(char::from(b'0' + digit));
        if digits.len() > MOST_DIGITS {
            self.notify("too long".to_owned());
        } else {
            self.desk = Desk::Entry { asked, digits, last_key_ms: self.now.uptime_ms };
        }
    }

    fn finish(&mut self, asked: Asked, digits: &str) {
        if asked == Asked::Task("reset") && digits.is_empty() && self.penalty.is_none() {
            // A reset without a code.
            self.begin_dialogue("reset");
        } else if digits.len() < FEWEST_DIGITS {
            self.notify("too short".to_owned());
        } else if self.penalty.is_some() {
            self.try_in_the_dark(digits);
        } else {
            self.try_code(asked, digits);
        }
    }

    /// A dialogue begins, and nobody has typed anything yet.
    pub(crate) fn begin_dialogue(&mut self, task: Task) {
        let pause_ms = if task == "files" { FILES_MS } else { DIALOGUE_MS };
        self.desk = Desk::Dialogue { until_ms: self.now.uptime_ms + pause_ms };
    }

    /// Whether a dialogue is under way, which this model does not lead.
    pub(crate) fn is_in_a_dialogue(&self) -> bool {
        matches!(self.desk, Desk::Dialogue { .. })
    }

    /// Shows a notice; a penalty shows nothing.
    pub(crate) fn notify(&mut self, text: String) {
        if self.penalty.is_none() && self.fault.is_none() {
            let until_ms = self.now.uptime_ms + NOTICE_MS;
            self.notice = Some(Notice { text, until_ms });
        }
    }
}

/// The task at that place of a page, counted from 1.
fn listed(page: usize, digit: u8) -> Option<Task> {
    LIST[page].get(usize::from(digit).checked_sub(1)?).copied().flatten()
}
