//! Who are you: number and code, for a task.

use super::{Did, Keyed, Purpose, Session, Typing};
use crate::keys::Key;
use crate::task::Task;
use crate::time::Uptime;

pub(super) fn on_key(task: Task, typing: Typing, key: Key, at: Uptime) -> (Session, Did) {
    if task == Task::Reset && key == Key::Ok && typing.entry.is_empty() {
        return (Session::Rest, Did::Nobody);
    }
    match typing.on_key(key, at, Purpose::Task(task)) {
        Keyed::Goes(typing) => (Session::Who(task, typing), Did::Something),
        Keyed::Ends(did) => (Session::Rest, did),
        Keyed::Try(attempt) => (Session::Judging(attempt), Did::Try),
    }
}
