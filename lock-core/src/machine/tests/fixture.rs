//! A whole lock on memory and a bench, and what can happen to it, in words.

use core::fmt::Write as _;
use std::format;
use std::string::String;

use super::memory::{Ails, Memory};
use super::office;
use crate::audit::Seq;
use crate::board::{Bench, DriveFault, Noticed};
use crate::code::{self, Code, Entry, LockKey, Salt};
use crate::device::{Device, Progress};
use crate::holder::{HolderRow, Number, Opens, Standing};
use crate::keys::{self, Key};
use crate::link::frame::PAYLOAD;
use crate::link::message::Request;
use crate::policy::{Control, Millivolts, Policy};
use crate::port::{Bolt, Chip, Door, Effect, Inhibit, Sound, Store as _, Switch, Tally, Write};
use crate::role::Role;
use crate::seal::CHUNK;
use crate::settings::Settings;
use crate::store::{FlashStore, Ram};
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
/// `kind` is how else this lock was left.
fn settings(kind: &str) -> Settings {
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
    let mut policy = Policy::DEFAULT;
    let (mut zone, mut paired) = ("UTC0", true);
    match kind {
        "in use" => {}
        // No timetable has a window, and nobody may open at any time.
        "that nobody opens" => {
            calendar = Calendar::EMPTY;
            for row in holders.iter_mut().flatten() {
                row.opens = if row.role == Role::Keyholder { row.opens } else { Opens::No };
                row.follows = Follows::Timetable(TimetableId::A);
            }
        }
        "where clocks change" => zone = "IST-1GMT0,M10.5.0,M3.5.0/1",
        "that has no key" => paired = false,
        "with a delay" => policy.delay = Seconds::new(180),
        "for two people" => policy.control = Control::Dual,
        "of one warden" => {
            for n in [2, 3, 4] {
                holders[Number::new(n).unwrap().index()] = None;
            }
        }
        unknown => panic!("no such lock: {unknown:?}"),
    }
    let pairing = paired.then(|| office::pairing(1));
    let zone = heapless::String::try_from(zone).unwrap();
    Settings { policy, zone, key, pairing, holders, calendar }
}

/// A lock, and the office that it is of.
pub(super) struct Fixture {
    device: Option<Device<Bench, FlashStore<Memory>>>,
    wakes: Option<Uptime>,
    /// The version of the last file.
    version: u32,
    /// The number of the last request over the link.
    request: u16,
    /// What ails the memory from now on.
    ails: Ails,
    nudged: Nudged,
}

/// When somebody asks the lock to look at the time, besides after each event.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Nudged {
    Never,
    /// Before whatever it does next.
    AllTheTime,
}

impl Fixture {
    /// A lock in use: shut, and switched on since a second.
    pub(super) fn new(nudged: Nudged) -> Self {
        Self::of("in use", nudged)
    }

    fn of(kind: &str, nudged: Nudged) -> Self {
        let mut bench = Bench::at(START);
        let ails = Ails::default();
        let mut memory = Memory::blank(ails.clone());
        if kind != "from the factory" {
            bench.shut().unwrap();
            while crate::board::Board::notice(&mut bench).is_some() {}
            let store = FlashStore::format(memory, Ram::LAYOUT, &settings(kind)).ok().unwrap();
            memory = store.into_flash();
        }
        let (store, found) = FlashStore::mount(memory, Ram::LAYOUT);
        let device = Some(Device::power_up(bench, store, found));
        let mut lock = Self { device, wakes: None, version: 0, request: 0, ails, nudged };
        lock.rest(&mut String::new());
        lock
    }

    fn bench(&mut self) -> &mut Bench {
        self.device.as_mut().unwrap().board_mut()
    }

    /// Does what is to be done until the lock sleeps.
    fn rest(&mut self, text: &mut String) {
        let device = self.device.as_mut().unwrap();
        // The sound of a key is a dot before the screen that came with it.
        let mut dot = false;
        for _ in 0..500 {
            if self.nudged == Nudged::AllTheTime {
                device.nudge();
            }
            let line = match device.advance() {
                Progress::Took(_) | Progress::Tended(_) => continue,
                Progress::Did(Effect::Sound(Sound::Key)) if !dot => {
                    dot = true;
                    continue;
                }
                Progress::Did(Effect::Show(screen)) if core::mem::take(&mut dot) => {
                    format!(". {screen:?}")
                }
                Progress::Did(Effect::Show(screen)) => format!("{screen:?}"),
                Progress::Did(effect) => format!("{effect:?}"),
                Progress::Wrote(Write::Record(record), Ok(())) => {
                    format!("record {:?}", record.event)
                }
                Progress::Wrote(Write::Edit(record), Ok(())) => format!("edit {:?}", record.event),
                Progress::Wrote(Write::Tally(entry), Ok(())) => format!("tally {entry:?}"),
                Progress::Wrote(_, Err(fault)) => format!("{fault:?}"),
                Progress::Asleep(until) => {
                    if dot {
                        text.push_str("  .\n");
                    }
                    self.wakes = until;
                    return;
                }
            };
            if core::mem::take(&mut dot) {
                text.push_str("  .\n");
            }
            writeln!(text, "  {line}").unwrap();
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
            ("memory", ails) => self.ails.set(ails),
            ("lock", kind) => {
                *self = Self::of(kind, self.nudged);
                return self.say_when(text);
            }
            ("generation", n) => {
                let keys = office::groups(n.parse().expect("a generation"));
                bench.press(&keys).expect(full);
            }
            ("courier", how) => {
                let (number, counter) = how.split_once(' ').expect("a number and a counter");
                let (number, counter) = (number.parse().unwrap(), counter.parse().unwrap());
                bench.press(&office::one_time(number, counter)).expect(full);
            }
            ("file", weeks) => self.offer(weeks),
            ("collected", up_to) => {
                let up_to = Seq(up_to.parse().expect("the number of a record"));
                self.ask(&Request::Collected { up_to });
            }
            ("clock", "lost") => bench.now.chip = Chip::Lost,
            ("clock", jump) => {
                let jump: i64 = jump.parse().expect("seconds, with their sign");
                if let Chip::At(utc) = &mut bench.now.chip {
                    let secs = i64::from(utc.as_secs()) + jump;
                    *utc = Utc::from_secs(u32::try_from(secs).unwrap());
                }
            }
            ("wait", seconds) => return self.wait(seconds.parse().expect("seconds"), text),
            ("power", "cut") => return self.cut(text, |_| {}),
            ("tries", how) => {
                let (number, tries) = how.split_once(' ').expect("a number and how many");
                let number = Number::new(number.parse().unwrap()).unwrap();
                let tries = tries.parse().unwrap();
                return self.cut(text, |store| {
                    for _ in 0..tries {
                        store.write(&Write::Tally(Tally::Counted(number))).unwrap();
                    }
                });
            }
            unknown => panic!("no such event: {unknown:?}"),
        }
        self.device.as_mut().unwrap().nudge();
        self.rest(text);
        self.say_when(text);
    }

    /// A request over the link.
    fn ask(&mut self, request: &Request<'_>) {
        self.request += 1;
        let mut payload = [0; PAYLOAD];
        let length = request.write(self.request, &mut payload).unwrap();
        self.device.as_mut().unwrap().serve(&payload[..length]).unwrap();
    }

    /// The office sends its next file.
    fn offer(&mut self, weeks: &str) {
        self.version += 1;
        let mut sealer = office::file(self.version, weeks);
        self.ask(&Request::File(*sealer.header()));
        let mut chunk = [0; CHUNK];
        for index in 0.. {
            let Some(length) = sealer.chunk(&mut chunk) else { break };
            self.ask(&Request::Load { index, bytes: &chunk[..length] });
        }
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

    /// The power is gone for a minute, and meanwhile that happens to the store.
    fn cut(&mut self, text: &mut String, meanwhile: impl FnOnce(&mut FlashStore<Memory>)) {
        let (mut bench, mut store) = self.device.take().unwrap().power_down();
        meanwhile(&mut store);
        bench.pass(Seconds::new(60));
        bench.now.uptime = Uptime::ZERO;
        let (store, found) = FlashStore::mount(store.into_flash(), Ram::LAYOUT);
        self.device = Some(Device::power_up(bench, store, found));
        self.rest(text);
        self.say_when(text);
    }
}
