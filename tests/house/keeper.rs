//! A lock whose key is kept by a part that never gives it out: it is commissioned at
//! its keypad from erased flash, opens, and a dump of its flash judges no code.
//! Source: `docs/porting.md`, "Where the lock key is kept".

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::rc::Rc;

use emulated_board::flash::RamFlash;
use hmac::{Hmac, KeyInit, Mac};
use lock_core::audit::{Entry, Seq};
use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::code::{
    Code, Keeper, KeeperFault, KeyInFlash, LockKey, Message, Verdict, duress_variant, judge,
};
use lock_core::device::{Device, Progress};
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::port::{
    Alarm, Bolt, Chip, Contacts, Door, Drive, Inhibit, Now, Reads, Sound, Switch,
};
use lock_core::screen::Screen;
use lock_core::seed::Seed;
use lock_core::store::FlashStore;
use lock_core::time::{Uptime, Utc};
use sha2::Sha256;

use emulator::memory::{PAGE, Room, WORD};

type Flash = RamFlash<WORD, PAGE, Vec<u8>>;

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

/// What is outside the lock.
#[derive(Clone, Default)]
struct Outside {
    keys: Rc<RefCell<VecDeque<Noticed>>>,
    millis: Rc<Cell<u64>>,
    free: Rc<Cell<bool>>,
    screen: Rc<Cell<Option<Screen>>>,
}

struct Bench(Outside);

impl Board for Bench {
    fn now(&mut self) -> Now {
        let millis = self.0.millis.get();
        let seconds = u32::try_from(millis / 1_000).expect("minutes");
        Now {
            uptime: Uptime::from_millis(millis),
            chip: Chip::At(Utc::from_secs(MONDAY + seconds)),
        }
    }

    fn contacts(&mut self) -> Contacts {
        Contacts {
            bolt: Bolt::Drawn,
            door: Door::Open,
            inhibit: Inhibit::Clear,
            switch: Switch::On,
        }
    }

    fn notice(&mut self) -> Option<Noticed> {
        self.0.keys.borrow_mut().pop_front()
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        self.0.free.set(to == Drive::Free);
        Ok(())
    }

    fn signal(&mut self, _: Alarm) {}

    fn sound(&mut self, _: Sound) {}

    fn set_clock(&mut self, _: Utc) {}

    fn built(&self) -> Utc {
        Utc::from_secs(MONDAY)
    }

    fn seed(&mut self) -> Seed {
        Seed::new([0x5E; Seed::LEN])
    }

    fn show(&mut self, screen: &Screen) {
        self.0.screen.set(Some(*screen));
    }
}

struct Lock<K: Keeper> {
    device: Device<Bench, FlashStore<Flash, K>>,
    outside: Outside,
}

impl<K: Keeper> Lock<K> {
    fn boot(flash: Flash, keeper: K) -> Self {
        let layout = Room::Full.layout(PAGE).expect("a page of flash");
        let outside = Outside::default();
        let mut store = FlashStore::at_rest_with(flash, layout, keeper);
        let found = store.remount();
        let device = Device::power_up(Bench(outside.clone()), store, found);
        let mut lock = Self { device, outside };
        lock.settle();
        lock
    }

    fn settle(&mut self) {
        for _ in 0..1_000 {
            if matches!(self.device.advance(), Progress::Asleep(_)) {
                return;
            }
        }
        panic!("it does not come to rest");
    }

    /// Digits, and `<` and `>` for *back* and *OK*.
    fn type_keys(&mut self, keys: &str) {
        for key in keys.chars() {
            let key = match key {
                '<' => Key::Back,
                '>' => Key::Ok,
                digit => Key::Digit(digit.to_digit(10).and_then(|d| Digit::new(d as u8)).unwrap()),
            };
            self.outside.keys.borrow_mut().push_back(Noticed::Key(key));
            self.settle();
            self.outside.millis.set(self.outside.millis.get() + 200);
        }
    }

    fn notice(&mut self, noticed: Noticed) {
        self.outside.keys.borrow_mut().push_back(noticed);
        self.settle();
    }

    /// A first warden, and keyholder 12 who opens always; then the lock is closed.
    fn set_up(&mut self) {
        self.type_keys(">01>480317>480317>>");
        self.type_keys("<<>>101480317>12>39739204>739204>>");
        self.notice(Noticed::Switch(Switch::Off));
        self.notice(Noticed::Door(Door::Closed));
        self.notice(Noticed::Bolt(Bolt::Thrown));
        self.type_keys("<<");
    }

    fn kinds(&mut self) -> Vec<&'static str> {
        let entries = self.device.store_mut().records(Seq(0));
        let kinds = entries.filter_map(|entry| match entry {
            Entry::Record(_, record) => Some(record.event.kind()),
            Entry::Gap(_) => None,
        });
        kinds.collect()
    }

    fn into_flash(self) -> Flash {
        self.device.power_down().1.into_flash()
    }
}

fn erased() -> Flash {
    let layout = Room::Full.layout(PAGE).expect("a page of flash");
    Flash::erased(vec![0xFF; layout.bytes(PAGE).unwrap() as usize])
}

/// What somebody who dumps that flash makes of the code of 12.
fn dumped(flash: Flash) -> Verdict {
    let layout = Room::Full.layout(PAGE).expect("a page of flash");
    let (mut store, found) = FlashStore::mount(flash, layout);
    let key = found.known.unwrap_or_else(|fault| panic!("{fault:?}")).key;
    let number = Number::new(12).unwrap();
    let claimed = store.claimed(number).unwrap_or_else(|_| panic!("its row"));
    judge(&key, number, claimed.kept(), &Code::parse("739204").unwrap())
}

/// The dump is enough to judge codes by if the key lies in the flash, and is not if an
/// element keeps it.
#[test]
fn a_dump_judges_no_code_where_an_element_keeps_the_key() {
    let mut open = Lock::boot(erased(), KeyInFlash);
    open.set_up();
    assert_eq!(dumped(open.into_flash()), Verdict::Right);

    let mut kept = Lock::boot(erased(), Element::default());
    kept.set_up();
    assert_eq!(dumped(kept.into_flash()), Verdict::Wrong);
}

/// The lock does the same as any other; right, wrong and unknown ask the element
/// equally often.
#[test]
fn a_lock_with_an_element_opens_after_a_power_cut() {
    let element = Element::default();
    let mut lock = Lock::boot(erased(), element.clone());
    lock.set_up();
    let mut lock = Lock::boot(lock.into_flash(), element.clone());
    // A boot finds the bolt drawn here.
    lock.notice(Noticed::Door(Door::Closed));
    lock.notice(Noticed::Bolt(Bolt::Thrown));
    let variant = duress_variant(&Code::parse("739204").unwrap());
    assert!(variant == Code::parse("739205").unwrap());
    for entry in ["12999123>", "13739204>", "12739204>"] {
        let before = element.asked.get();
        lock.type_keys(entry);
        assert_eq!(element.asked.get() - before, 2, "{entry}");
    }
    assert!(lock.outside.free.get(), "{:?}", lock.outside.screen.get());
    assert_eq!(lock.kinds().last(), Some(&"released"));
}

/// An element that does not answer is a lock out of order: nothing opens, nothing is
/// taken for a wrong code, and the try was counted.
#[test]
fn an_element_that_fails_opens_nothing() {
    let element = Element::default();
    let mut lock = Lock::boot(erased(), element.clone());
    lock.set_up();
    element.broken.set(true);
    lock.type_keys("12739204>");
    assert!(!lock.outside.free.get());
    assert!(matches!(lock.outside.screen.get(), Some(Screen::Service(_))));
    assert!(!lock.kinds().contains(&"wrong-code"));
    assert!(!lock.kinds().contains(&"released"));
}
