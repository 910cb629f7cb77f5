//! The list: numbered tasks in plain words; the person picks a number.

use super::{Did, PAUSE, Session, Typing};
use crate::keys::Key;
use crate::screen::Task;
use crate::time::Uptime;

pub(super) fn shown(at: Uptime) -> Session {
    Session::List { until: at.after(PAUSE) }
}

pub(super) fn on_key(key: Key, at: Uptime) -> (Session, Did) {
    match key {
        Key::Digit(digit) => {
            let place = usize::from(digit.get()).checked_sub(1);
            match place.and_then(|place| Task::LIST.get(place)) {
                Some(task) => (Session::Who(*task, Typing::new(at)), Did::Something),
                None => (shown(at), Did::Nothing),
            }
        }
        Key::Back => (Session::Rest, Did::Something),
        Key::Ok => (shown(at), Did::Nothing),
    }
}
