//! Entry: somebody types an opening: two digits for the number, then the code.

use super::{Keyed, Purpose, Typing};
use crate::keys::Key;
use crate::time::Uptime;

pub(super) fn on_key(typing: &mut Typing, key: Key, at: Uptime) -> Keyed {
    typing.on_key(key, at, Purpose::Open)
}
