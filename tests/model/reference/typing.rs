//! The keys (section 2): entries, the list, and who is asking.

use super::lock::{Model, Notice};
use super::seen::Key;

pub(crate) const PAUSE_MS: u64 = 20_000;
const NOTICE_MS: u64 = 60_000;
const MOST_DIGITS: usize = 10;
const FEWEST_DIGITS: usize = 8;

/// What a code is entered for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    Open,
    HoldShut,
    Status,
    /// A task that takes a dialogue, by its place in the list.
    Dialogue(usize),
}

/// The tasks of the list (section 2), three a page.
pub(crate) const TASKS: [&str; 16] = [
    "hold-shut",
    "status",
    "change-code",
    "enrol",
    "suspend",
    "restore",
    "remove",
    "change-role",
    "choose-timetable",
    "numbers",
    "files",
    "set-clock",
    "set-policy",
    "test-alarm",
    "pair",
    "reset",
];
const PAGES: usize = 6;
const RESET: usize = 15;

fn task(page: usize, digit: u8) -> Option<Asked> {
    let place = usize::from(digit).checked_sub(1).filter(|place| *place < 3)?;
    match page * 3 + place {
        0 => Some(Asked::HoldShut),
        1 => Some(Asked::Status),
        other if other < TASKS.len() => Some(Asked::Dialogue(other)),
        _ => None,
    }
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
    /// A dialogue is led (section 12): this model does not follow it.
    Dialogue,
}

impl Desk {
    pub(crate) fn times_out_ms(&self) -> Option<u64> {
        match self {
            Desk::Rest | Desk::Dialogue => None,
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
            (Desk::List { page, .. }, Key::Digit(digit)) => match task(page, digit) {
                Some(asked) => self.ask_who(asked),
                None => {
                    did_something = false;
                    self.desk = Desk::List { page, last_key_ms: now_ms };
                }
            },
            (Desk::List { .. }, Key::Back) => (),
            (Desk::List { page, .. }, Key::Ok) => {
                self.desk = Desk::List { page: (page + 1) % PAGES, last_key_ms: now_ms };
            }
            (Desk::Dialogue, Key::Back) => (),
            (Desk::Dialogue, _) => self.desk = Desk::Dialogue,
            (Desk::Entry { asked: Asked::Dialogue(RESET), digits, .. }, Key::Ok)
                if digits.is_empty() && !dark =>
            {
                self.desk = Desk::Dialogue;
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
        if digits.len() < FEWEST_DIGITS {
            self.notify("too short".to_owned());
        } else if self.penalty.is_some() {
            self.try_in_the_dark(digits);
        } else {
            self.try_code(asked, digits);
        }
    }

    /// Shows a notice; a penalty shows nothing.
    pub(crate) fn notify(&mut self, text: String) {
        if self.penalty.is_none() && self.fault.is_none() {
            let until_ms = self.now.uptime_ms + NOTICE_MS;
            self.notice = Some(Notice { text, until_ms });
        }
    }
}
