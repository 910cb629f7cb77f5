//! A lock whose key is kept by a part that never gives it out: it is commissioned at
//! its keypad from erased flash, opens, and a dump of its flash judges no code.
//! Source: `docs/porting.md`, "Where the lock key is kept".

use std::cell::Cell;
use std::rc::Rc;

use hmac::{Hmac, KeyInit, Mac};
use lock_core::audit::{Entry, Seq};
use lock_core::board::Bench;
use lock_core::code::{
    Code, Keeper, KeeperFault, KeyInFlash, LockKey, Message, Verdict, duress_variant, judge,
};
use lock_core::device::{Device, Progress};
use lock_core::holder::Number;
use lock_core::port::{Drive, Reads};
use lock_core::screen::Screen;
use lock_core::store::{FlashStore, Ram, RamStore};
use lock_core::time::{Seconds, Utc};
use sha2::Sha256;

/// Monday, 2027-03-01, 09:00 in Dublin.
const MONDAY: u32 = 1_803_891_600;

/// The element: a key of its own, how often it was asked, and whether it answers.
#[derive(Clone, Default)]
struct Element {
    asked: Rc<Cell<u32>>,
    broken: Rc<Cell<bool>>,
}

impl Keeper for Element {
    fn mac(&mut self, kept: &LockKey, message: &Message) -> Result<[u8; 32], KeeperFault> {
        self.asked.set(self.asked.get() + 1);
        if self.broken.get() {
            return Err(KeeperFault);
        }
        let mut hmac = Hmac::<Sha256>::new_from_slice(&[0xE1; 32]).map_err(|_| KeeperFault)?;
        hmac.update(kept.as_bytes());
        hmac.update(message.as_bytes());
        Ok(hmac.finalize().into_bytes().into())
    }
}

struct Lock<K: Keeper>(Device<Bench, RamStore<K>>);

impl<K: Keeper> Lock<K> {
    /// Its bolt is drawn and its door open.
    fn boot(flash: Ram, keeper: K) -> Self {
        let mut store = FlashStore::at_rest_with(flash, Ram::LAYOUT, keeper);
        let found = store.remount();
        let mut lock = Self(Device::power_up(Bench::at(Utc::from_secs(MONDAY)), store, found));
        lock.settle();
        lock
    }

    fn settle(&mut self) {
        for _ in 0..1_000 {
            if matches!(self.0.advance(), Progress::Asleep(_)) {
                return;
            }
        }
        panic!("it does not come to rest");
    }

    fn press(&mut self, keys: &str) {
        self.0.board_mut().press(keys).expect("keys");
        self.settle();
        self.0.board_mut().pass(Seconds::new(2));
    }

    fn shut(&mut self) {
        self.0.board_mut().shut().expect("nothing waits");
        self.settle();
    }

    /// A first warden, and keyholder 12 who opens always; then the lock is closed.
    fn set_up(&mut self) {
        self.press("ok 01 ok 480317 ok 480317 ok ok");
        self.press("ok ok 1 01 480317 ok 12 ok 3 9 739204 ok 739204 ok ok");
        self.shut();
    }

    fn is_free(&self) -> bool {
        self.0.board().blocker == Drive::Free
    }

    fn kinds(&mut self) -> Vec<&'static str> {
        let entries = self.0.store_mut().records(Seq(0));
        let kinds = entries.filter_map(|entry| match entry {
            Entry::Record(_, record) => Some(record.event.kind()),
            Entry::Gap(_) => None,
        });
        kinds.collect()
    }

    fn into_flash(self) -> Ram {
        self.0.power_down().1.into_flash()
    }
}

/// What somebody who dumps that flash makes of the code of 12.
fn dumped(flash: Ram) -> Verdict {
    let (mut store, found) = RamStore::mount(flash, Ram::LAYOUT);
    let key = found.known.unwrap_or_else(|fault| panic!("{fault:?}")).key;
    let number = Number::new(12).unwrap();
    let claimed = store.claimed(number).unwrap_or_else(|_| panic!("its row"));
    judge(&key, number, claimed.kept(), &Code::parse("739204").unwrap())
}

/// The dump is enough to judge codes by if the key lies in the flash, and is not if an
/// element keeps it.
#[test]
fn a_dump_judges_no_code_where_an_element_keeps_the_key() {
    let mut open = Lock::boot(Ram::blank(), KeyInFlash);
    open.set_up();
    assert_eq!(dumped(open.into_flash()), Verdict::Right);

    let mut kept = Lock::boot(Ram::blank(), Element::default());
    kept.set_up();
    assert_eq!(dumped(kept.into_flash()), Verdict::Wrong);
}

/// The lock does the same as any other; right, wrong and unknown ask the element
/// equally often.
#[test]
fn a_lock_with_an_element_opens_after_a_power_cut() {
    let element = Element::default();
    let mut lock = Lock::boot(Ram::blank(), element.clone());
    lock.set_up();
    let mut lock = Lock::boot(lock.into_flash(), element.clone());
    lock.shut();
    let variant = duress_variant(&Code::parse("739204").unwrap());
    assert!(variant == Code::parse("739205").unwrap());
    for entry in ["12 999123 ok", "13 739204 ok", "12 739204 ok"] {
        let before = element.asked.get();
        lock.press(entry);
        assert_eq!(element.asked.get() - before, 2, "{entry}");
    }
    assert!(lock.is_free(), "{:?}", lock.0.board().screen);
    assert_eq!(lock.kinds().last(), Some(&"released"));
}

/// An element that does not answer is a lock out of order: nothing opens, nothing is
/// taken for a wrong code, and the try was counted.
#[test]
fn an_element_that_fails_opens_nothing() {
    let element = Element::default();
    let mut lock = Lock::boot(Ram::blank(), element.clone());
    lock.set_up();
    element.broken.set(true);
    lock.press("12 739204 ok");
    assert!(!lock.is_free());
    assert!(matches!(lock.0.board().screen, Some(Screen::Service(_))));
    assert!(!lock.kinds().contains(&"wrong-code"));
    assert!(!lock.kinds().contains(&"released"));
}
