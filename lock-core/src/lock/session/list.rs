//! The list: numbered tasks in plain words; the person picks a number.

use super::{Did, Keyed, PAUSE, Session, Typing};
use crate::keys::Key;
use crate::task::{PAGES, TASKS_A_PAGE, Task};
use crate::time::Uptime;

pub(super) fn shown(page: u8, at: Uptime) -> Session {
    Session::List { page, until: at.after(PAUSE) }
}

pub(super) fn on_key(page: u8, key: Key, at: Uptime) -> Keyed {
    match key {
        Key::Digit(digit) => {
            let place = usize::from(digit.get()).checked_sub(1);
            let tasks = Task::LIST.get(usize::from(page)).unwrap_or(&[None; TASKS_A_PAGE]);
            match place.and_then(|place| tasks.get(place).copied().flatten()) {
                Some(task) => (Some(Session::Who(task, Typing::new(at))), Did::Something),
                None => (Some(shown(page, at)), Did::Nothing),
            }
        }
        Key::Back => (Some(Session::Rest), Did::Something),
        Key::Ok => {
            let next = page.saturating_add(1);
            let next = if usize::from(next) < PAGES { next } else { 0 };
            (Some(shown(next, at)), Did::Something)
        }
    }
}
