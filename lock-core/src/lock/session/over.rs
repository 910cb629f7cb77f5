//! Over: more digits came than number and code have. They are swallowed until the
//! person notices, so that the rest of them is no entry of its own.

use super::{Did, Keyed, Session};
use crate::keys::Key;

pub(super) const fn on_key(key: Key) -> Keyed {
    match key {
        Key::Digit(_) => (None, Did::Nothing),
        Key::Back | Key::Ok => (Some(Session::Rest), Did::Something),
    }
}
