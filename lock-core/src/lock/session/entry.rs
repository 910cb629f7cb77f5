//! Entry: somebody types an opening: two digits for the number, then the code.

use super::{Did, Keyed, Purpose, Session, Typing};
use crate::keys::Key;
use crate::time::Uptime;

pub(super) fn on_key(typing: Typing, key: Key, at: Uptime) -> (Session, Did) {
    after(typing.on_key(key, at, Purpose::Open))
}

pub(super) fn after(outcome: Keyed) -> (Session, Did) {
    match outcome {
        Keyed::Goes(typing) => (Session::Entry(typing), Did::Something),
        Keyed::Ends(did) => (Session::Rest, did),
        Keyed::Try(attempt) => (Session::Judging(attempt), Did::Try),
    }
}
