//! Rest: digits are an opening, *OK* leads to the list.

use super::{Did, Keyed, Purpose, Session, Typing, list};
use crate::keys::Key;
use crate::time::Uptime;

pub(super) fn on_key(key: Key, at: Uptime) -> Keyed {
    match key {
        Key::Digit(_) => {
            let mut typing = Typing::new(at);
            let (_, did) = typing.on_key(key, at, Purpose::Open);
            (Some(Session::Entry(typing)), did)
        }
        Key::Back => (None, Did::Nothing),
        Key::Ok => (Some(list::shown(0, at)), Did::Something),
    }
}
