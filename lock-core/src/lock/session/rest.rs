//! Rest: digits are an opening, *OK* leads to the list.

use super::{Did, Purpose, Session, Typing, entry, list};
use crate::keys::Key;
use crate::time::Uptime;

pub(super) fn on_key(key: Key, at: Uptime) -> (Session, Did) {
    match key {
        Key::Digit(_) => entry::after(Typing::new(at).on_key(key, at, Purpose::Open)),
        Key::Back => (Session::Rest, Did::Nothing),
        Key::Ok => (list::shown(0, at), Did::Something),
    }
}
