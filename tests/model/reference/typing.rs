//! The keys (section 2): entries, the list, and who is asking.

use super::forms::Form;
use super::lock::{Model, Notice};
use super::seen::Key;
use super::setup::{Holder, Role};

pub(crate) const PAUSE_MS: u64 = 20_000;
pub(crate) const NOTICE_MS: u64 = 60_000;
pub(crate) const MOST_DIGITS: usize = 10;
pub(crate) const FEWEST_DIGITS: usize = 8;

/// The list, a page a row (section 12).
pub(crate) const LIST: [[Option<Task>; 3]; 6] = [
    [Some("hold-shut"), Some("status"), Some("change-code")],
    [Some("enrol"), Some("suspend"), Some("restore")],
    [Some("remove"), Some("change-role"), Some("choose-timetable")],
    [Some("numbers"), Some("files"), Some("set-clock")],
    [Some("set-policy"), Some("test-alarm"), Some("pair")],
    [Some("reset"), Some("way-out"), None],
];

/// A task of the list, by its name.
pub(crate) type Task = &'static str;

/// Which second person a dialogue asks for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Second {
    pub(crate) by: u8,
    pub(crate) about: Option<u8>,
    /// `None`: any privileged person.
    pub(crate) role: Option<Role>,
}

impl Second {
    pub(crate) fn takes(self, holder: &Holder) -> bool {
        holder.role.is_privileged()
            && self.role.is_none_or(|role| role == holder.role)
            && self.about != Some(holder.number)
    }
}

/// What a code is entered for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Asked {
    Open,
    Task(Task),
    Second(Second),
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
    /// An entry of more digits than there can be: the rest of it is not heard.
    TooLong {
        last_key_ms: u64,
    },
    List {
        page: usize,
        last_key_ms: u64,
    },
    Form(Box<Form>),
}

impl Desk {
    pub(crate) fn times_out_ms(&self) -> Option<u64> {
        match self {
            Desk::Rest => None,
            Desk::Form(form) => Some(form.times_out_ms()),
            Desk::Entry { last_key_ms, .. }
            | Desk::TooLong { last_key_ms }
            | Desk::List { last_key_ms, .. } => Some(last_key_ms + PAUSE_MS),
        }
    }

    pub(crate) fn form(&self) -> Option<&Form> {
        match self {
            Desk::Form(form) => Some(form),
            Desk::Rest | Desk::Entry { .. } | Desk::TooLong { .. } | Desk::List { .. } => None,
        }
    }
}

impl Model {
    pub(crate) fn key(&mut self, key: Key) {
        if self.fault.is_some() {
            return;
        }
        let dark = self.penalty.is_some() && !self.nobody_is_enrolled();
        // What is swallowed changes nothing.
        let swallowed = matches!(self.desk, Desk::TooLong { .. }) && matches!(key, Key::Digit(_));
        if !dark && !swallowed {
            self.notice = None;
        }
        let did_something = if self.nobody_is_enrolled() {
            self.key_while_nobody_is_enrolled(key)
        } else {
            self.key_in_use(key)
        };
        if did_something && !dark && self.fault.is_none() && self.seen.sounds.is_empty() {
            self.seen.sounds.push("key");
        }
    }

    /// "With the bolt drawn and the switch on, *OK* begins the first warden's
    /// dialogue."
    fn key_while_nobody_is_enrolled(&mut self, key: Key) -> bool {
        match std::mem::replace(&mut self.desk, Desk::Rest) {
            Desk::Form(form) => self.key_in_form(*form, key),
            Desk::Rest | Desk::Entry { .. } | Desk::TooLong { .. } | Desk::List { .. } => {
                let begins = key == Key::Ok && self.sensors.bolt_drawn && self.sensors.switch_on;
                if begins {
                    self.begin_form("first-warden", 0);
                }
                begins
            }
        }
    }

    fn key_in_use(&mut self, key: Key) -> bool {
        let now_ms = self.now.uptime_ms;
        let dark = self.penalty.is_some();
        match (std::mem::replace(&mut self.desk, Desk::Rest), key) {
            (Desk::Rest, Key::Digit(digit)) => {
                self.type_digit(Asked::Open, String::new(), digit);
            }
            (Desk::Rest, Key::Back) => return false,
            (Desk::Rest, Key::Ok) if dark => return false,
            (Desk::Rest, Key::Ok) => self.desk = Desk::List { page: 0, last_key_ms: now_ms },
            (Desk::List { page, .. }, Key::Ok) => {
                let page = (page + 1) % LIST.len();
                self.desk = Desk::List { page, last_key_ms: now_ms };
            }
            (Desk::List { .. } | Desk::Entry { .. } | Desk::TooLong { .. }, Key::Back) => (),
            (Desk::List { page, .. }, Key::Digit(digit)) => match listed(page, digit) {
                Some(task) => {
                    let asked = Asked::Task(task);
                    self.desk = Desk::Entry { asked, digits: String::new(), last_key_ms: now_ms };
                }
                None => {
                    self.desk = Desk::List { page, last_key_ms: now_ms };
                    return false;
                }
            },
            (Desk::TooLong { .. }, Key::Ok) => (),
            (Desk::TooLong { last_key_ms }, Key::Digit(_)) => {
                self.desk = Desk::TooLong { last_key_ms };
                return false;
            }
            (Desk::Form(form), key) => return self.key_in_form(*form, key),
            (Desk::Entry { asked, digits, .. }, Key::Digit(digit)) => {
                self.type_digit(asked, digits, digit);
            }
            (Desk::Entry { asked, digits, .. }, Key::Ok) => self.finish(&asked, &digits),
        }
        true
    }

    fn type_digit(&mut self, asked: Asked, mut digits: String, digit: u8) {
        let last_key_ms = self.now.uptime_ms;
        digits.push(char::from(b'0' + digit));
        if digits.len() > MOST_DIGITS {
            self.desk = Desk::TooLong { last_key_ms };
            self.notify("too long".to_owned());
        } else {
            self.desk = Desk::Entry { asked, digits, last_key_ms };
        }
    }

    fn finish(&mut self, asked: &Asked, digits: &str) {
        if *asked == Asked::Task("reset") && digits.is_empty() && self.penalty.is_none() {
            // A reset without a code.
            self.begin_form("slow-reset", 0);
        } else if digits.len() < FEWEST_DIGITS {
            self.notify("too short".to_owned());
        } else if self.penalty.is_some() {
            self.try_in_the_dark(digits);
        } else if let Some((person, outcome)) = self.try_code(asked, digits) {
            match asked {
                Asked::Open => self.ask_to_open(person, outcome),
                Asked::Task("status") => self.tell_status(person.number, outcome),
                Asked::Task(task) => {
                    if self.record_asked(task, person.number, outcome) {
                        self.begin_form(task, person.number);
                    }
                }
                Asked::Second(_) => unreachable!("asked for within a dialogue"),
            }
            self.end_way_out(person.number);
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

/// The task at that place of a page, counted from 1.
fn listed(page: usize, digit: u8) -> Option<Task> {
    LIST[page].get(usize::from(digit).checked_sub(1)?).copied().flatten()
}
