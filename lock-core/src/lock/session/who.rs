//! Who are you: number and code, for a task.

use super::{Did, Keyed, Purpose, Session, Typing};
use crate::keys::Key;
use crate::task::Task;
use crate::time::Uptime;

pub(super) fn on_key(task: Task, typing: &mut Typing, key: Key, at: Uptime) -> Keyed {
    if task == Task::Reset && key == Key::Ok && typing.entry.is_empty() {
        return (Some(Session::Rest), Did::Nobody);
    }
    typing.on_key(key, at, Purpose::Task(task))
}
