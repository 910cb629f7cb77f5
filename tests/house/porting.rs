//! The worked example of `docs/porting.md`: the board file is compiled as it stands,
//! on simulated pins, a simulated clock chip and a simulated motor, and a lock runs on
//! it through a day. Source of what must happen: `docs/behaviour.md`.

use std::cell::{Cell, RefCell};
use std::convert::Infallible;
use std::rc::Rc;

use embedded_hal::delay::DelayNs;
use embedded_hal::digital::{ErrorType, InputPin, OutputPin};
use embedded_hal::i2c::{ErrorKind, ErrorType as BusError, I2c, Operation};
use emulator::memory::{self, Lasting, Memory, Room};
use emulator::site::Site;
use emulator::tour::SITE;
use emulator::world::Mains;
use lock_core::audit::{Entry, Seq};
use lock_core::device::{Device, Progress};
use lock_core::draw::Frame;
use lock_core::drivers::{
    Active, AlarmPins, Buzzer, ClockChip, Contact, Divider, Matrix, MotorDrive, SETTLED,
};
use lock_core::keys::{Key, KeyQueue};
use lock_core::policy::Millivolts;
use lock_core::port::Chip as Clock;
use lock_core::time::Utc;

#[path = "../../docs/porting/board.rs"]
#[expect(unreachable_pub, reason = "the file is a whole module of somebody else's firmware")]
mod board;

use board::{Chip, Parts};

/// What is round the board.
#[derive(Default)]
struct Outside {
    millis: Cell<u64>,
    /// The row that is driven low, and the key that a finger holds.
    row: Cell<Option<usize>>,
    finger: Cell<Option<Key>>,
    bolt: Cell<bool>,
    inhibit: Cell<bool>,
    /// The motor: on its way to free, to block; and where the blocker is, 0 to 10.
    motor: [Cell<bool>; 2],
    blocker: Cell<u8>,
    stuck: Cell<bool>,
    alarm: [Cell<bool>; 2],
    sounding: Cell<bool>,
    reading: Cell<Option<u16>>,
    refreshes: Cell<u32>,
    registers: RefCell<[u8; 16]>,
}

struct Input(Box<dyn Fn() -> bool>);
struct Output(Box<dyn Fn(bool)>);

impl ErrorType for Input {
    type Error = Infallible;
}

impl ErrorType for Output {
    type Error = Infallible;
}

impl InputPin for Input {
    fn is_high(&mut self) -> Result<bool, Infallible> {
        Ok((self.0)())
    }

    fn is_low(&mut self) -> Result<bool, Infallible> {
        Ok(!(self.0)())
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
        outside.millis.set(outside.millis.get() + u64::from(millis));
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

fn fitted(outside: &Rc<Outside>) -> Board {
    static KEYS: KeyQueue = KeyQueue::new();
    let input = |read: fn(&Outside) -> bool| {
        let outside = Rc::clone(outside);
        Input(Box::new(move || read(&outside)))
    };
    let output = |set: fn(&Outside, bool)| {
        let outside = Rc::clone(outside);
        Output(Box::new(move |high| set(&outside, high)))
    };
    let row = |row| {
        let outside = Rc::clone(outside);
        Output(Box::new(move |high| outside.row.set((!high).then_some(row))))
    };
    let column = |column| {
        let outside = Rc::clone(outside);
        Input(Box::new(move || {
            let joined = outside.row.get().zip(outside.finger.get());
            joined.is_none_or(|(row, finger): (usize, Key)| Key::LAYOUT[row][column] != finger)
        }))
    };
    let here = Here(Rc::clone(outside));
    Parts {
        chip: here.clone(),
        keypad: Matrix::new([0, 1, 2, 3].map(row), [0, 1, 2].map(column)),
        keys: &KEYS,
        bolt: Contact::new(input(|outside| outside.bolt.get()), Active::High),
        door: Contact::new(input(|_| false), Active::High),
        inhibit: Contact::new(input(|outside| outside.inhibit.get()), Active::High),
        switch: Contact::new(input(|_| true), Active::Low),
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
            (300, here.clone()),
        ),
        alarm: AlarmPins::new(
            output(|outside, high| outside.alarm[0].set(high)),
            output(|outside, high| outside.alarm[1].set(high)),
        ),
        buzzer: Buzzer::new(output(|outside, high| outside.sounding.set(high))),
        divider: Divider {
            upper: 100_000,
            lower: 47_000,
            reference: Millivolts::new(3_300),
            full_scale: 4_095,
        },
        clock: ClockChip::new(here.clone()),
        delay: here,
        random: Fixed,
        picture: Frame::new(),
    }
}

struct Lock {
    outside: Rc<Outside>,
    device: Device<Board, Memory>,
}

/// Monday, 2027-03-01, 09:00 in Dublin.
const MONDAY: u32 = 1_803_891_600;

impl Lock {
    /// The till of the demo site, powered up on Monday at nine.
    fn new() -> Self {
        let outside = Rc::<Outside>::default();
        outside.blocker.set(7);
        let mut board = fitted(&outside);
        assert!(board.clock.set(Utc::from_secs(MONDAY)).is_ok());
        let site = Site::parse("site", SITE).map_err(|why| why.to_string()).unwrap();
        let settings = site.settings(site.lock("till").unwrap(), [7; 32]);
        let flash =
            memory::commission(&settings, Room::Full, Mains::new()).map_err(|_| "").unwrap();
        let (memory, found) = <Memory as Lasting>::mount(flash);
        let mut lock = Self { device: Device::power_up(board, memory, found), outside };
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

    /// So many milliseconds pass, with a tick every five.
    fn wait(&mut self, millis: u64) {
        for _ in 0..millis / 5 {
            self.outside.millis.set(self.outside.millis.get() + 5);
            // The clock chip goes on as well, unless it has lost its time.
            let secs = u32::try_from(self.outside.millis.get() / 1_000).unwrap();
            let board = self.device.board_mut();
            if board.clock.read() != Clock::Lost {
                assert!(board.clock.set(Utc::from_secs(MONDAY + secs)).is_ok());
            }
            board.tick();
            self.settle();
        }
    }

    fn type_keys(&mut self, keys: &str) {
        let scans = u64::from(SETTLED) + 2;
        for key in keys.chars() {
            let all = Key::LAYOUT.as_flattened();
            let place = "123456789<0>".find(key).unwrap();
            self.outside.finger.set(Some(all[place]));
            self.wait(5 * scans);
            self.outside.finger.set(None);
            self.wait(5 * scans);
        }
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
    lock.outside.bolt.set(true);
    lock.wait(50);
    assert_eq!(lock.device.machine().access().name(), "open");
    lock.wait(2_000);
    lock.outside.bolt.set(false);
    lock.wait(50);
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

#[test]
fn what_goes_wrong_is_noticed() {
    let mut lock = Lock::new();
    // 4.7 V through the divider: 1.503 V of 3.3 V, 1,865 of 4,095.
    lock.outside.reading.set(Some(1_865));
    lock.wait(50);
    assert_eq!(lock.records().last(), Some(&"supply-low"));
    lock.outside.inhibit.set(true);
    lock.wait(50);
    lock.type_keys("12739204>");
    assert_eq!(lock.records().last(), Some(&"refused-inhibit"));
    lock.outside.inhibit.set(false);
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

/// `docs/porting.md` promises it.
#[test]
fn the_board_file_is_short() {
    let lines = include_str!("../../docs/porting/board.rs").lines().count();
    assert!(lines < 200, "{lines} lines");
}
