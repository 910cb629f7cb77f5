//! The worked example of `docs/porting.md`: the board file is compiled as it stands,
//! on simulated pins, a simulated clock chip and a simulated motor, and a lock runs on
//! it through a day. Source of what must happen: `docs/behaviour.md`. Time passes while
//! a picture is drawn and the motor runs, and the timer's interrupt comes all the same.

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;
use std::convert::Infallible;
use std::rc::Rc;

use critical_section::Mutex;
use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{ErrorKind as Unreadable, ErrorType, InputPin, OutputPin};
use embedded_hal::i2c::{ErrorKind, ErrorType as BusError, I2c, Operation};
use emulator::memory::{self, Lasting, Memory, Room};
use emulator::site::Site;
use emulator::tour::SITE;
use emulator::world::Mains;
use lock_core::audit::{Entry, Seq};
use lock_core::board::Board as _;
use lock_core::device::{Device, Progress};
use lock_core::draw::Frame;
use lock_core::drivers::{
    Active, AlarmPins, Buzzer, ClockChip, Contact, Divider, Matrix, MotorDrive,
};
use lock_core::keys::{Key, KeyQueue};
use lock_core::policy::Millivolts;
use lock_core::port::{Bolt, Chip as Clock, Door, Inhibit, Switch};
use lock_core::time::{Uptime, Utc};

#[path = "../../docs/porting/board.rs"]
#[expect(unreachable_pub, reason = "the file is a whole module of somebody else's firmware")]
mod board;

use board::{Chip, Front, Parts, SoundSlot};

/// The wires of the contacts.
#[derive(Clone, Copy, Default)]
enum Wires {
    #[default]
    Whole,
    Cut,
    Unreadable,
}

/// What is round the board.
#[derive(Default)]
struct Outside {
    millis: Cell<u64>,
    /// The rows that are low, the key that a finger holds, and when it is to hold which.
    rows: [Cell<bool>; 4],
    finger: Cell<Option<Key>>,
    typing: RefCell<VecDeque<(u64, Option<Key>)>>,
    /// What the timer's interrupt works on, whether the timer runs, and how often it came.
    front: RefCell<Option<Front<Output, Input, Here>>>,
    timer: Cell<bool>,
    ticks: Cell<u32>,
    /// How long the display keeps the main loop.
    drawing: Cell<u64>,
    wires: Cell<Wires>,
    bolt: Cell<bool>,
    /// How the bolt's contact reads while it bounces, a moment each 5 ms.
    bounces: RefCell<VecDeque<bool>>,
    inhibit: Cell<bool>,
    /// The motor: on its way to free, to block; and where the blocker is, 0 to 10.
    motor: [Cell<bool>; 2],
    blocker: Cell<u8>,
    stuck: Cell<bool>,
    alarm: [Cell<bool>; 2],
    sounding: Cell<bool>,
    sounded: Cell<u32>,
    reading: Cell<Option<u16>>,
    refreshes: Cell<u32>,
    registers: RefCell<[u8; 16]>,
}

impl Outside {
    /// Time passes: the clock chip goes on, fingers move, contacts bounce, and every 5 ms
    /// the timer's interrupt comes, whatever the main loop is at. Any key and any contact
    /// that moves starts the timer.
    fn pass(&self, millis: u64) {
        for _ in 0..millis {
            self.millis.set(self.millis.get() + 1);
            let now = self.millis.get();
            let due = |(at, _): &mut (u64, Option<Key>)| *at <= now;
            while let Some((_, finger)) = self.typing.borrow_mut().pop_front_if(due) {
                self.finger.set(finger);
                // All rows are low at rest: the column's edge.
                let edge = finger.is_none_or(|_| self.rows.iter().all(Cell::get));
                assert!(edge || self.timer.get(), "a key that nobody hears");
                self.timer.set(true);
            }
            if !now.is_multiple_of(5) {
                continue;
            }
            if let Some(bolt) = self.bounces.borrow_mut().pop_front() {
                self.bolt.set(bolt);
                self.timer.set(true);
            }
            if self.timer.get()
                && let Some(front) = self.front.borrow_mut().as_mut()
            {
                self.ticks.set(self.ticks.get() + 1);
                self.timer.set(front.tick(Uptime::from_millis(now)));
            }
        }
    }
}

struct Input(Box<dyn Fn() -> Result<bool, Unreadable>>);
struct Output(Box<dyn Fn(bool)>);

impl ErrorType for Input {
    type Error = Unreadable;
}

impl ErrorType for Output {
    type Error = Infallible;
}

impl InputPin for Input {
    fn is_high(&mut self) -> Result<bool, Unreadable> {
        (self.0)()
    }

    fn is_low(&mut self) -> Result<bool, Unreadable> {
        (self.0)().map(|high| !high)
    }
}

impl OutputPin for Output {
    fn set_low(&mut self) -> Result<(), Infallible> {
        (self.0)(false);
        Ok(())
    }

    fn set_high(&mut self) -> Result<(), Infallible> {
        (self.0)(true);
        Ok(())
    }
}

#[derive(Clone)]
struct Here(Rc<Outside>);

impl DelayNs for Here {
    fn delay_ns(&mut self, nanos: u32) {
        self.delay_ms(nanos / 1_000_000);
    }

    /// Time passes, and the motor turns.
    fn delay_ms(&mut self, millis: u32) {
        let outside = &self.0;
        outside.pass(millis.into());
        let [free, block] = outside.motor.each_ref().map(Cell::get);
        assert!(!(free && block), "both directions at once");
        if millis > 0 && !outside.stuck.get() {
            let at = outside.blocker.get();
            let moved = if free { at.saturating_add(1).min(10) } else { at };
            outside.blocker.set(if block { at.saturating_sub(1) } else { moved });
        }
    }
}

impl Chip for Here {
    fn millis(&self) -> u64 {
        self.0.millis.get()
    }

    fn reading(&mut self) -> Option<u16> {
        self.0.reading.take()
    }

    fn refresh(&mut self) {
        self.0.refreshes.set(self.0.refreshes.get() + 1);
        self.0.pass(self.0.drawing.get());
    }
}

impl BusError for Here {
    type Error = ErrorKind;
}

impl I2c for Here {
    fn transaction(&mut self, _: u8, all: &mut [Operation<'_>]) -> Result<(), ErrorKind> {
        let mut at = 0;
        let mut registers = self.0.registers.borrow_mut();
        for operation in all {
            match operation {
                Operation::Write(bytes) => {
                    at = usize::from(bytes[0]);
                    registers[at..at + bytes.len() - 1].copy_from_slice(&bytes[1..]);
                }
                Operation::Read(room) => room.copy_from_slice(&registers[at..at + room.len()]),
            }
        }
        Ok(())
    }
}

/// Good enough for a test, and only there.
struct Fixed;

impl rand_core::TryRng for Fixed {
    type Error = Infallible;

    fn try_next_u32(&mut self) -> Result<u32, Infallible> {
        Ok(4)
    }

    fn try_next_u64(&mut self) -> Result<u64, Infallible> {
        Ok(4)
    }

    fn try_fill_bytes(&mut self, room: &mut [u8]) -> Result<(), Infallible> {
        room.fill(4);
        Ok(())
    }
}

impl rand_core::TryCryptoRng for Fixed {}

type Board = Parts<Output, Input, Here, Here, Here, Fixed, Frame>;

fn fitted(outside: &Rc<Outside>) -> (Board, Front<Output, Input, Here>) {
    // One of each for every lock, since tests run side by side.
    let keys: &KeyQueue = Box::leak(Box::default());
    let sound: &SoundSlot = Box::leak(Box::new(Mutex::new(Cell::new(None))));
    let input = |read: fn(&Outside) -> bool| {
        let outside = Rc::clone(outside);
        Input(Box::new(move || Ok(read(&outside))))
    };
    let contact = |read: fn(&Outside) -> bool| {
        let outside = Rc::clone(outside);
        Input(Box::new(move || match outside.wires.get() {
            Wires::Whole => Ok(read(&outside)),
            // Pulled up.
            Wires::Cut => Ok(true),
            Wires::Unreadable => Err(Unreadable::Other),
        }))
    };
    let output = |set: fn(&Outside, bool)| {
        let outside = Rc::clone(outside);
        Output(Box::new(move |high| set(&outside, high)))
    };
    let row = |row: usize| {
        let outside = Rc::clone(outside);
        Output(Box::new(move |high| outside.rows[row].set(!high)))
    };
    let column = |column: usize| {
        let outside = Rc::clone(outside);
        Input(Box::new(move || {
            let finger = outside.finger.get();
            let joined = |row: usize| finger.is_some_and(|key| Key::LAYOUT[row][column] == key);
            Ok(!(0..4).any(|row| outside.rows[row].get() && joined(row)))
        }))
    };
    let here = Here(Rc::clone(outside));
    let front = Front {
        keypad: Matrix::new([0, 1, 2, 3].map(row), [0, 1, 2].map(column)),
        keys,
        buzzer: Buzzer::new(output(|outside, high| {
            outside.sounded.set(outside.sounded.get() + u32::from(high));
            outside.sounding.set(high);
        })),
        sound,
        delay: here.clone(),
    };
    let parts = Parts {
        chip: here.clone(),
        keys,
        sound,
        bolt: Contact::new(contact(|outside| outside.bolt.get()), Active::High),
        door: Contact::new(contact(|_| false), Active::High),
        inhibit: Contact::new(contact(|outside| outside.inhibit.get()), Active::High),
        switch: Contact::new(contact(|_| false), Active::High),
        drive: MotorDrive::new(
            (
                output(|outside, high| outside.motor[0].set(high)),
                output(|outside, high| outside.motor[1].set(high)),
            ),
            (
                input(|outside| outside.blocker.get() == 10),
                input(|outside| outside.blocker.get() == 0),
            ),
            Active::High,
            300,
        ),
        alarm: AlarmPins::new(
            output(|outside, high| outside.alarm[0].set(high)),
            output(|outside, high| outside.alarm[1].set(high)),
        ),
        divider: Divider {
            upper: 100_000,
            lower: 47_000,
            reference: Millivolts::new(3_300),
            full_scale: 4_095,
        },
        clock: ClockChip::new(here.clone()),
        delay: here,
        random: Fixed,
        picture: Box::leak(Box::default()),
    };
    (parts, front)
}

struct Lock {
    outside: Rc<Outside>,
    device: Device<Board, Memory>,
    wake: Option<Uptime>,
}

/// Monday, 2027-03-01, 09:00 in Dublin.
const MONDAY: u32 = 1_803_891_600;

impl Lock {
    /// The till of the demo site, powered up on Monday at nine.
    fn new() -> Self {
        let outside = Rc::<Outside>::default();
        outside.blocker.set(7);
        let (mut board, front) = fitted(&outside);
        assert!(board.clock.set(Utc::from_secs(MONDAY)).is_ok());
        let site = Site::parse("site", SITE).map_err(|why| why.to_string()).unwrap();
        let settings = site.settings(site.lock("till").unwrap(), [7; 32]);
        let flash =
            memory::commission(&settings, Room::Full, Mains::new()).map_err(|_| "").unwrap();
        let (memory, found) = <Memory as Lasting>::mount(flash);
        *outside.front.borrow_mut() = Some(front);
        outside.timer.set(true);
        let mut lock = Self { device: Device::power_up(board, memory, found), outside, wake: None };
        lock.settle();
        lock.wait(100);
        lock
    }

    fn settle(&mut self) {
        for _ in 0..1_000 {
            if let Progress::Asleep(wake) = self.device.advance() {
                self.wake = wake;
                if self.device.board().needs_ticks() {
                    self.outside.timer.set(true);
                }
                return;
            }
        }
        panic!("it does not come to rest");
    }

    /// So many milliseconds pass, as the main loop of the guide has it: it sleeps until
    /// the timer's interrupt, or until the lock asked to be woken.
    fn wait(&mut self, millis: u64) {
        let end = self.outside.millis.get() + millis;
        while self.outside.millis.get() < end {
            let before = self.outside.ticks.get();
            self.outside.pass(5);
            let now = Uptime::from_millis(self.outside.millis.get());
            let due = self.wake.is_some_and(|wake| now >= wake);
            if self.outside.ticks.get() == before && !due {
                continue;
            }
            // The clock chip goes on as well, unless it has lost its time.
            let secs = u32::try_from(self.outside.millis.get() / 1_000).unwrap();
            let board = self.device.board_mut();
            if board.clock.read() != Clock::Lost {
                assert!(board.clock.set(Utc::from_secs(MONDAY + secs)).is_ok());
            }
            self.settle();
        }
    }

    /// A hand that types: a finger is on each key for 80 ms, and off it for 60.
    fn type_keys(&mut self, keys: &str) {
        let mut at = self.outside.millis.get();
        for key in keys.chars() {
            let all = Key::LAYOUT.as_flattened();
            let place = "123456789<0>".find(key).unwrap();
            let mut typing = self.outside.typing.borrow_mut();
            typing.push_back((at + 10, Some(all[place])));
            typing.push_back((at + 90, None));
            at += 140;
        }
        self.wait(at - self.outside.millis.get() + 300);
    }

    /// A hand moves the bolt; its contact bounces, 5 ms a bounce.
    fn move_bolt(&mut self, drawn: bool) {
        let bounces = [drawn, !drawn, drawn, drawn, !drawn, !drawn, drawn];
        self.outside.bounces.borrow_mut().extend(bounces);
        self.wait(200);
        assert_eq!(self.outside.bolt.get(), drawn);
    }

    fn records(&mut self) -> Vec<&'static str> {
        let entries = self.device.store_mut().records(Seq(0));
        let kinds = entries.filter_map(|entry| match entry {
            Entry::Record(_, record) => Some(record.event.kind()),
            Entry::Gap(_) => None,
        });
        kinds.collect()
    }
}

#[test]
fn a_lock_runs_on_the_board_of_the_guide() {
    let mut lock = Lock::new();
    assert_eq!(lock.outside.blocker.get(), 0, "at boot the blocker is driven home");
    lock.type_keys("12739204>");
    assert_eq!(lock.outside.blocker.get(), 10, "freed");
    assert_eq!(lock.device.machine().access().name(), "released");
    lock.move_bolt(true);
    assert_eq!(lock.device.machine().access().name(), "open");
    lock.wait(2_000);
    lock.move_bolt(false);
    assert_eq!((lock.outside.blocker.get(), lock.outside.alarm[0].get()), (0, false));
    // Under duress: the same in front, and the line is up.
    lock.type_keys("12739205>");
    assert_eq!((lock.outside.blocker.get(), lock.outside.alarm[0].get()), (10, true));
    lock.wait(7_000);
    assert_eq!(lock.outside.blocker.get(), 0, "nobody drew the bolt");
    let expected = ["powered-up", "released", "opened", "secured", "released", "not-drawn"];
    assert_eq!(lock.records(), expected);
    assert!(lock.outside.refreshes.get() > 20 && !lock.outside.sounding.get());
}

/// A picture that takes 150 ms to draw, as at 16 MHz: no key is lost meanwhile, and no sound
/// gets longer. At the end the timer stands, and a key is heard all the same.
#[test]
fn nobody_waits_for_the_display() {
    let mut lock = Lock::new();
    lock.outside.drawing.set(150);
    lock.type_keys("12739204>");
    assert_eq!(lock.device.machine().access().name(), "released");
    lock.wait(8_000);
    assert_eq!(lock.records().last(), Some(&"not-drawn"));
    let before = lock.outside.ticks.get();
    lock.wait(60_000);
    assert!(!lock.outside.timer.get());
    assert_eq!(lock.outside.ticks.get(), before, "nothing ticks while nobody is there");
    lock.type_keys("12739204>");
    assert_eq!(lock.device.machine().access().name(), "released");
}

#[test]
fn what_goes_wrong_is_noticed() {
    let mut lock = Lock::new();
    // 4.7 V through the divider: 1.503 V of 3.3 V, 1,865 of 4,095. The converter's and each
    // contact's interrupt starts the timer.
    lock.outside.reading.set(Some(1_865));
    lock.outside.timer.set(true);
    lock.wait(50);
    assert_eq!(lock.records().last(), Some(&"supply-low"));
    lock.outside.inhibit.set(true);
    lock.outside.timer.set(true);
    lock.wait(50);
    lock.type_keys("12739204>");
    assert_eq!(lock.records().last(), Some(&"refused-inhibit"));
    lock.outside.inhibit.set(false);
    lock.outside.timer.set(true);
    lock.wait(50);
    // The clock chip's battery fails: its flag is up.
    lock.outside.registers.borrow_mut()[2] |= 0x80;
    lock.wait(50);
    lock.type_keys("12739204>");
    assert!(lock.records().ends_with(&["clock-invalid", "refused-clock"]), "{:?}", lock.records());
    // The motor is stuck: the lock says so and releases nothing more.
    let mut lock = Lock::new();
    lock.outside.stuck.set(true);
    lock.type_keys("12739204>");
    assert_eq!(lock.records().last(), Some(&"fault"));
    assert_eq!(lock.outside.motor.each_ref().map(Cell::get), [false, false]);
}

/// A sound that no finger asked for: the timer stands, and starts for it.
#[test]
fn a_warning_is_heard_without_a_key() {
    let mut lock = Lock::new();
    lock.type_keys("12739204>");
    lock.move_bolt(true);
    // The window ends at half past twelve.
    lock.wait((3 * 60 + 29) * 60_000);
    assert!(!lock.outside.timer.get());
    let before = lock.outside.sounded.get();
    lock.wait(2 * 60_000);
    assert_eq!(lock.records().last(), Some(&"left-open"));
    assert!(lock.outside.sounded.get() > before);
    assert!(!lock.outside.sounding.get() && !lock.outside.timer.get(), "and it ends");
}

/// Whatever becomes of the wires of the contacts, nothing opens by it: the bolt is drawn,
/// the door open, the inhibit set, and the service switch off.
#[test]
fn wires_fail_to_the_safe_side() {
    let outside = Rc::<Outside>::default();
    let (mut board, _) = fitted(&outside);
    let whole = board.contacts();
    assert_eq!((whole.bolt, whole.door), (Bolt::Thrown, Door::Closed));
    assert_eq!((whole.inhibit, whole.switch), (Inhibit::Clear, Switch::On));
    for wires in [Wires::Cut, Wires::Unreadable] {
        outside.wires.set(wires);
        let seen = board.contacts();
        assert_eq!((seen.bolt, seen.door), (Bolt::Drawn, Door::Open));
        assert_eq!((seen.inhibit, seen.switch), (Inhibit::Set, Switch::Off));
    }
}

/// `docs/porting.md` promises it.
#[test]
fn the_board_file_is_short() {
    let lines = include_str!("../../docs/porting/board.rs").lines().count();
    assert!(lines < 200, "{lines} lines");
}
