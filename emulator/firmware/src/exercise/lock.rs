//! `lock_core::machine`, `lock_core::device`, `lock_core::board` and
//! `lock_core::drivers`: whole locks on a board and a store that may answer
//! anything.

use core::convert::Infallible;
use core::hint::black_box;

use embedded_hal::digital::{ErrorType, InputPin, OutputPin};
use lock_core::audit::{Entry, Record, Seq};
use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::code::LockKey;
use lock_core::device::{Device, Progress};
use lock_core::drivers::{Active, AlarmPins, Contact, DrivePin};
use lock_core::holder::{HolderRow, Number};
use lock_core::machine::bolt::{Access, Event, Moment};
use lock_core::machine::{Machine, PowerUp};
use lock_core::pairing::Pairing;
use lock_core::port::{
    Alarm, Bolt, Contacts, Door, Drive, Inhibit, Input, Now, Reads, Sound, Store, StoreFault,
    Switch, Write,
};
use lock_core::recovered::{Known, LastWord, Recovered};
use lock_core::rules::supply::Level;
use lock_core::rules::{Days, Unreadable};
use lock_core::screen::Screen;
use lock_core::seed::Seed;
use lock_core::settings::{Edit, FileState};
use lock_core::tally::TallyState;
use lock_core::time::{Date, Utc, Zone};
use lock_core::timetable::{Day, TimetableId};

use crate::exercise::{calendar, holder, keys, link, policy, rules};
use crate::outside;

/// A store that reads and writes the outside.
struct Elsewhere;

impl Days for Elsewhere {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        outside::put(id.letter());
        outside::put(date.year());
        match outside::byte() {
            0 => Err(Unreadable),
            1 => Ok(Day::Closed),
            _ => Ok(Day::Windows(calendar::windows())),
        }
    }
}

impl Reads for Elsewhere {
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        outside::put(n.get());
        if outside::byte() == 0 { Err(Unreadable) } else { Ok(holder::row()) }
    }

    fn enrolled(&mut self) -> Result<u8, Unreadable> {
        outside::any().ok_or(Unreadable)
    }

    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable> {
        if outside::byte() == 0 { Err(Unreadable) } else { Ok(link::pairing()) }
    }

    fn newest_seq(&mut self) -> Option<Seq> {
        outside::any()
    }
}

impl Store for Elsewhere {
    fn write(&mut self, write: &Write) -> Result<(), StoreFault> {
        outside::keep(write);
        if outside::byte() == 0 { Err(StoreFault) } else { Ok(()) }
    }

    fn edit(&mut self, edit: &Edit, record: &Record) -> Result<(), StoreFault> {
        outside::keep(edit);
        outside::keep(record);
        if outside::byte() == 0 { Err(StoreFault) } else { Ok(()) }
    }

    fn entry(&mut self, from: Seq) -> Option<Entry> {
        outside::put(from.0);
        outside::any().map(|record| Entry::Record(from, record))
    }
}

/// A pin that is the outside.
struct Pin;

impl ErrorType for Pin {
    type Error = Infallible;
}

impl InputPin for Pin {
    fn is_high(&mut self) -> Result<bool, Infallible> {
        Ok(outside::byte() == 0)
    }

    fn is_low(&mut self) -> Result<bool, Infallible> {
        self.is_high().map(|high| !high)
    }
}

impl OutputPin for Pin {
    fn set_low(&mut self) -> Result<(), Infallible> {
        outside::put(b'l');
        Ok(())
    }

    fn set_high(&mut self) -> Result<(), Infallible> {
        outside::put(b'h');
        Ok(())
    }
}

/// A board with the drivers of the core on such pins.
struct Desk {
    bolt: Contact<Pin>,
    inhibit: Contact<Pin>,
    drive: DrivePin<Pin>,
    alarm: AlarmPins<Pin, Pin>,
}

impl Board for Desk {
    fn now(&mut self) -> Now {
        rules::now()
    }

    fn contacts(&mut self) -> Contacts {
        Contacts {
            bolt: bolt(self.bolt.read()),
            door: outside::any().unwrap_or(Door::Closed),
            inhibit: inhibit(self.inhibit.read()),
            switch: outside::any().unwrap_or(Switch::Off),
        }
    }

    fn built(&self) -> Utc {
        outside::any().unwrap_or(Utc::MIN)
    }

    fn notice(&mut self) -> Option<Noticed> {
        let contact = self.bolt.changed().map(|drawn| Noticed::Bolt(bolt(drawn)));
        contact
            .or_else(|| self.inhibit.changed().map(|set| Noticed::Inhibit(inhibit(set))))
            .or_else(|| outside::any().map(Noticed::Door))
            .or_else(|| outside::any().map(Noticed::Switch))
            .or_else(|| outside::any().map(Noticed::Supply))
            .or_else(|| keys::any().map(Noticed::Key))
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        self.drive.drive(to)
    }

    fn signal(&mut self, level: Alarm) {
        self.alarm.signal(level);
    }

    fn sound(&mut self, sound: Sound) {
        outside::keep(&sound);
    }

    fn set_clock(&mut self, utc: Utc) {
        outside::put(utc.as_secs());
    }

    fn seed(&mut self) -> Seed {
        Seed::new(outside::bytes())
    }

    fn show(&mut self, screen: &Screen) {
        outside::keep(screen);
    }
}

/// A board on such pins.
pub fn desk() -> impl Board {
    Desk {
        bolt: Contact::new(Pin, Active::High),
        inhibit: Contact::new(Pin, Active::Low),
        drive: DrivePin::new(Pin),
        alarm: AlarmPins::new(Pin, Pin),
    }
}

fn bolt(drawn: bool) -> Bolt {
    if drawn { Bolt::Drawn } else { Bolt::Thrown }
}

fn inhibit(set: bool) -> Inhibit {
    if set { Inhibit::Set } else { Inhibit::Clear }
}

/// Anything that a mount may find.
fn recovered() -> Recovered {
    let known = match (outside::any(), Zone::from_bytes(&outside::bytes())) {
        (Some(fault), _) => Err(fault),
        (None, zone) => Ok(Known {
            policy: policy::any(),
            stricter: policy::stricter(),
            enrolled: 1,
            zone: zone.unwrap_or(Zone::UTC),
            key: LockKey::from_bytes(outside::bytes()),
            file: FileState::default(),
        }),
    };
    let mut tally = black_box(TallyState::default());
    while let Some(entry) = outside::any() {
        tally.apply(entry);
    }
    let people = outside::any();
    let last_word = match outside::byte() {
        0 => LastWord::Opened(people, outside::any()),
        1 => LastWord::Released(people),
        2 => LastWord::Forced,
        _ => LastWord::Shut,
    };
    Recovered {
        known,
        tally,
        floor: outside::any(),
        newest_outcome: outside::any(),
        last_word,
        supply: outside::any().unwrap_or(Level::Good),
        powered_up_twice: outside::byte() == 0,
    }
}

fn contacts() -> Option<Contacts> {
    outside::any()
}

fn input() -> Input {
    match outside::byte() {
        0 => Input::Woken,
        1 => Input::DriveFault,
        2 => Input::Stored(Ok(())),
        3 => Input::Stored(Err(StoreFault)),
        4 => outside::any().map_or(Input::Woken, Input::Bolt),
        5 => outside::any().map_or(Input::Woken, Input::Door),
        6 => outside::any().map_or(Input::Woken, Input::Inhibit),
        7 => Input::Supply(policy::millivolts()),
        8 => outside::any().map_or(Input::Woken, Input::Switch),
        _ => keys::any().map_or(Input::Woken, Input::Key),
    }
}

/// The machine by itself: inputs in any order, also such as no board sends.
#[inline(never)]
pub fn machine() {
    let Some(contacts) = contacts() else { return };
    let now = rules::now();
    let seed = Seed::new(outside::bytes());
    let built = outside::any().unwrap_or(Utc::MIN);
    let power = PowerUp { now, contacts, seed, built };
    let (mut machine, turn) = Machine::boot(recovered(), power);
    outside::keep(&turn);
    for _ in 0..outside::byte() {
        let (now, input) = (rules::now(), input());
        outside::put_all(input.kind().as_bytes());
        outside::keep(&machine.step(now, input, &mut Elsewhere));
        outside::put_all(machine.session_name().as_bytes());
        outside::put_all(machine.access().name().as_bytes());
        outside::put(machine.edit().is_some());
        outside::keep(&machine.penalty_until());
        outside::keep(&machine.believed_utc(now));
    }
}

/// The region of the bolt by itself, which a planner may use without a machine.
#[inline(never)]
pub fn access() {
    let policy = policy::any();
    let mut access = black_box(Access::Secured);
    for _ in 0..outside::byte() {
        let event = match outside::byte() {
            0 => Event::Ajar,
            1 => Event::Shut,
            2 => outside::any().map_or(Event::Time, Event::Cancel),
            3 => outside::any()
                .map_or(Event::Time, |(people, ends)| Event::BeginWait(people, ends, [None, None])),
            4 => outside::any().map_or(Event::Time, |(people, ends)| Event::Release(people, ends)),
            _ => Event::Time,
        };
        let at =
            Moment { uptime: rules::now().uptime, utc: outside::any(), steady: outside::any() };
        let (next, consequences) = access.on(event, at, &policy);
        access = next;
        outside::keep(&(consequences.record, consequences.drive, consequences.sound));
    }
}

/// The executor, as a main loop has it.
#[inline(never)]
pub fn device() {
    let mut device = Device::power_up(desk(), Elsewhere, recovered());
    for _ in 0..outside::byte() {
        match device.advance() {
            Progress::Tended(done) => outside::keep(&done),
            Progress::Did(effect) => outside::keep(&effect),
            Progress::Wrote(write, result) => {
                outside::keep(&write);
                outside::put(result.is_ok());
            }
            Progress::Took(input) => outside::put_all(input.kind().as_bytes()),
            Progress::Asleep(wake) => {
                outside::keep(&wake);
                device.nudge();
            }
        }
        outside::put_all(device.machine().session_name().as_bytes());
        outside::put(device.board_mut().contacts().ajar());
        if let Some(number) = outside::any() {
            outside::put(device.store_mut().holder(number).is_ok());
        }
    }
    let (mut desk, mut store) = device.power_down();
    outside::put(desk.drive(Drive::Block).is_ok());
    outside::put(store.day(TimetableId::A, Date::from_days(0)).is_ok());
}
