//! Who are you: number and code, for a task.

use super::{Did, Keyed, Purpose, Session, Typing};
use crate::keys::Key;
use crate::screen::Task;
use crate::time::Uptime;

pub(super) fn on_key(task: Task, typing: Typing, key: Key, at: Uptime) -> (Session, Did) {
    match typing.on_key(key, at, Purpose::Task(task)) {
        Keyed::Goes(typing) => (Session::Who(task, typing), Did::Something),
        Keyed::Ends(did) => (Session::Rest, did),
        Keyed::Try(attempt) => (Session::Judging(attempt), Did::Try),
    }
}
