//! A whole lock on a store in RAM and a bench, and what can happen to it, in words.

use core::fmt::Write as _;
use std::string::String;

use crate::board::{Bench, DriveFault, Noticed};
use crate::code::{self, Code, Entry, LockKey, Salt};
use crate::device::{Device, Progress};
use crate::holder::{HolderRow, Number, Opens, Standing};
use crate::keys::{self, Key};
use crate::pairing::{LockNumber, Pairing};
use crate::policy::{Millivolts, Policy};
use crate::port::{Bolt, Chip, Door, Effect, Inhibit, Switch, Write};
use crate::role::Role;
use crate::settings::Settings;
use crate::store::{FlashStore, Ram, RamStore};
use crate::time::{Minute, Seconds, Uptime, Utc};
use crate::timetable::{Calendar, Follows, TimetableId, Window};

/// Monday, 1 March 2027, 09:00 UTC.
const START: Utc = Utc::from_secs(1_803_891_600);

/// Who is enrolled: number, role, whether they may open, what they follow, code. Ours.
const HOLDERS: [(u8, Role, Opens, Follows, &str); 6] = [
    (1, Role::Warden, Opens::Yes, Follows::Always, "480317"),
    (2, Role::Steward, Opens::No, Follows::Always, "615024"),
    (3, Role::Deputy, Opens::Yes, Follows::Timetable(TimetableId::A), "927406"),
    (4, Role::Warden, Opens::No, Follows::Always, "306518"),
    (12, Role::Keyholder, Opens::Yes, Follows::Timetable(TimetableId::A), "739204"),
    (13, Role::Keyholder, Opens::Yes, Follows::Always, "158260"),
];

/// The code of those digits.
fn code(digits: &str) -> Code {
    let mut entry = Entry::new();
    for key in keys::named(digits) {
        let Some(Key::Digit(digit)) = key else { panic!("{digits}") };
        entry.push(digit).unwrap();
    }
    entry.code_alone().unwrap()
}

/// Timetable A is open from Monday to Friday from 08:00 to 17:00; nothing else is ever.
fn settings() -> Settings {
    let key = LockKey::from_bytes([0x33; LockKey::LEN]);
    let mut holders = [const { None }; Number::COUNT];
    for (n, role, opens, follows, digits) in HOLDERS {
        let number = Number::new(n).unwrap();
        let salt = Salt::from_bytes([n; Salt::LEN]);
        let digest = code::digest(&key, &salt, number, &code(digits));
        let (standing, pending, counter) = (Standing::Active, None, 0);
        let row = HolderRow { role, opens, standing, follows, salt, digest, pending, counter };
        holders[number.index()] = Some(row);
    }
    let mut calendar = Calendar::EMPTY;
    let hour = |hour| Minute::from_hm(hour, 0).unwrap();
    for day in 0..5 {
        calendar.weeks[0][day] = [Window::new(hour(8), hour(17)).unwrap()].into_iter().collect();
    }
    let pairing = Some(Pairing::new(LockNumber::new(1_001).unwrap(), 1, [0x44; Pairing::LEN]));
    let zone = heapless::String::try_from("UTC0").unwrap();
    Settings { policy: Policy::DEFAULT, zone, key, pairing, holders, calendar }
}

/// A lock in use: shut, and switched on since a second.
pub(super) struct Fixture {
    device: Option<Device<Bench, RamStore>>,
    wakes: Option<Uptime>,
}

impl Fixture {
    pub(super) fn new() -> Self {
        let mut bench = Bench::at(START);
        bench.shut().unwrap();
        while crate::board::Board::notice(&mut bench).is_some() {}
        let store = FlashStore::format(Ram::blank(), Ram::LAYOUT, &settings()).ok().unwrap();
        let (store, found) = FlashStore::mount(store.into_flash(), Ram::LAYOUT);
        let device = Some(Device::power_up(bench, store, found));
        let mut lock = Self { device, wakes: None };
        lock.rest(&mut String::new());
        lock
    }

    fn bench(&mut self) -> &mut Bench {
        self.device.as_mut().unwrap().board_mut()
    }

    /// Does what is to be done until the lock sleeps.
    fn rest(&mut self, text: &mut String) {
        let device = self.device.as_mut().unwrap();
        for _ in 0..500 {
            match device.advance() {
                Progress::Did(Effect::Show(screen)) => writeln!(text, "  {screen:?}").unwrap(),
                Progress::Did(effect) => writeln!(text, "  {effect:?}").unwrap(),
                Progress::Wrote(Write::Record(record), Ok(())) => {
                    writeln!(text, "  record {:?}", record.event).unwrap();
                }
                Progress::Wrote(Write::Edit(record), Ok(())) => {
                    writeln!(text, "  edit {:?}", record.event).unwrap();
                }
                Progress::Wrote(Write::Tally(entry), Ok(())) => {
                    writeln!(text, "  tally {entry:?}").unwrap();
                }
                Progress::Wrote(_, Err(fault)) => writeln!(text, "  {fault:?}").unwrap(),
                Progress::Asleep(until) => {
                    self.wakes = until;
                    return;
                }
                Progress::Took(_) | Progress::Tended(_) => {}
            }
        }
        panic!("the lock does not rest");
    }

    /// That happens, and the lock does what follows.
    pub(super) fn happens(&mut self, event: &str, text: &mut String) {
        let (what, how) = event.split_once(' ').unwrap_or((event, ""));
        let bench = self.bench();
        let full = "the bench takes one event at a time";
        match (what, how) {
            ("keys", keys) => bench.press(keys).expect(full),
            ("bolt", "drawn") => bench.happens(Noticed::Bolt(Bolt::Drawn)).expect(full),
            ("bolt", "thrown") => bench.happens(Noticed::Bolt(Bolt::Thrown)).expect(full),
            ("door", "open") => bench.happens(Noticed::Door(Door::Open)).expect(full),
            ("door", "closed") => bench.happens(Noticed::Door(Door::Closed)).expect(full),
            ("inhibit", "set") => bench.happens(Noticed::Inhibit(Inhibit::Set)).expect(full),
            ("inhibit", "clear") => bench.happens(Noticed::Inhibit(Inhibit::Clear)).expect(full),
            ("switch", "on") => bench.happens(Noticed::Switch(Switch::On)).expect(full),
            ("switch", "off") => bench.happens(Noticed::Switch(Switch::Off)).expect(full),
            ("supply", mv) => {
                let mv = Millivolts::new(mv.parse().expect("millivolts"));
                bench.happens(Noticed::Supply(mv)).expect(full);
            }
            ("drive", "stuck") => bench.drive_answers = Err(DriveFault),
            ("clock", "lost") => bench.now.chip = Chip::Lost,
            ("clock", jump) => {
                let jump: i64 = jump.parse().expect("seconds, with their sign");
                if let Chip::At(utc) = &mut bench.now.chip {
                    let secs = i64::from(utc.as_secs()) + jump;
                    *utc = Utc::from_secs(u32::try_from(secs).unwrap());
                }
            }
            ("wait", seconds) => return self.wait(seconds.parse().expect("seconds"), text),
            ("power", "cut") => return self.cut(text),
            unknown => panic!("no such event: {unknown:?}"),
        }
        self.device.as_mut().unwrap().nudge();
        self.rest(text);
        self.say_when(text);
    }

    fn say_when(&mut self, text: &mut String) {
        let now = self.bench().now.uptime.as_millis();
        match self.wakes {
            Some(at) => writeln!(text, "  wakes in {} ms", at.as_millis() - now).unwrap(),
            None => writeln!(text, "  wakes for nothing").unwrap(),
        }
    }

    /// Time passes, and the lock is woken whenever it asked to be.
    fn wait(&mut self, seconds: u32, text: &mut String) {
        let end = self.bench().now.uptime.after(Seconds::new(seconds));
        while let Some(at) = self.wakes.filter(|at| *at <= end) {
            let passes = at.since(self.bench().now.uptime);
            self.bench().pass(passes);
            // What is left of a second.
            self.bench().now.uptime = self.bench().now.uptime.max(at);
            let mut woken = String::new();
            self.rest(&mut woken);
            if !woken.is_empty() {
                let left = end.since(self.bench().now.uptime).get();
                writeln!(text, "  {} s later:", seconds - left).unwrap();
                text.push_str(&woken);
            }
        }
        let rest = end.since(self.bench().now.uptime);
        self.bench().pass(rest);
        self.say_when(text);
    }

    /// The power is gone for a minute.
    fn cut(&mut self, text: &mut String) {
        let (mut bench, store) = self.device.take().unwrap().power_down();
        bench.pass(Seconds::new(60));
        bench.now.uptime = Uptime::ZERO;
        let (store, found) = FlashStore::mount(store.into_flash(), Ram::LAYOUT);
        self.device = Some(Device::power_up(bench, store, found));
        self.rest(text);
        self.say_when(text);
    }
}
