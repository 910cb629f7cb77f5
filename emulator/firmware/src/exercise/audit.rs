//! `lock_core::audit`, and the data of `lock_core::port` and `lock_core::screen`

use lock_core::audit::{Outcome, People, Record, Ring};
use lock_core::port::Contacts;
use lock_core::screen::Stamp;
use lock_core::time::{Local, Zone};

use crate::outside;

#[inline(never)]
pub fn records() {
    let Some(record) = outside::any::<Record>() else { return };
    outside::put_all(record.event.kind().as_bytes());
    outside::put(record.event.ring() == Ring::Refusals);
    outside::put(record.event.outcome() == Some(Outcome::Duress));
    if let Some((people, number)) = outside::any::<(People, _)>() {
        outside::put(people.include(number));
    }
    if let Some(contacts) = outside::any::<Contacts>() {
        outside::put(contacts.ajar());
    }
    if let Some(at) = record.at {
        let local: Local = Zone::UTC.local(at);
        outside::put(Stamp::from(local).minute.get());
    }
}
