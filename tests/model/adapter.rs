//! The one place that knows both sides: it sets the lock up as the model is
//! set up, feeds it the model's events, and tells what it does in the model's
//! words.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | the lock on its bench, event by event |
//! | `bench.rs` | a board whose every answer is set by hand |
//! | `cable.rs` | a laptop that loads a timetable file |
//! | `desk.rs` | what the laptop knows: keys, codes, what is easy to guess |
//! | `kept.rs` | the settings as a boot would find them |
//! | `memory.rs` | the lock's own store on emulated flash |
//! | `settings.rs` | the model's set-up as the lock's settings |
//! | `words/` | what the lock says, in the model's words |

mod bench;
mod cable;
mod desk;
mod kept;
mod memory;
mod settings;
mod words;

use std::rc::Rc;

use lock_core::device::{Device, Progress};
use lock_core::holder::Number;
use lock_core::port::{Effect, Write};
use lock_core::time::{Uptime, Utc};

use crate::compare::{self, OtherLock};
use crate::reference::{Durable, Input, Key, Make, Now, Office, Seen, Sensors};
use crate::seeds;
use crate::walk::Event;

use bench::Bench;
use desk::LocksOffice;
pub(crate) use kept::{Kept, Part};
pub(crate) use memory::{Fails, Kind, Memory};

/// More things than a lock can do at one input: one that goes on is stuck.
const MOST_AT_ONCE: u32 = 400;
/// So many tests share the stories.
const PARTS: u32 = 2;

/// One thing that the lock did.
pub(crate) struct Heard<'a> {
    pub(crate) uptime_ms: u64,
    pub(crate) progress: &'a Progress,
    /// Something was noticed before that, and the lock did not have it yet.
    pub(crate) waits: bool,
    pub(crate) memory: &'a mut Memory,
}

/// Hears everything that the lock does, as it does it.
pub(crate) trait Listener {
    fn hear(&mut self, heard: Heard<'_>);
}

/// Nobody listens.
impl Listener for () {
    fn hear(&mut self, _: Heard<'_>) {}
}

/// The lock under test, on a bench.
pub(crate) struct Core<L = ()> {
    device: Option<Device<Bench, Memory>>,
    built: Utc,
    /// The number of the laptop's last request.
    request: u16,
    seen: Seen,
    pub(crate) listener: L,
}

impl<L: Listener + Default> OtherLock for Core<L> {
    fn office() -> Rc<dyn Office> {
        Rc::new(LocksOffice)
    }

    fn boot(make: &Make, kept: &Durable, now: Now, sensors: Sensors) -> (Self, Seen) {
        let memory = Memory::holding(kept);
        let built = Utc::from_secs(u32::try_from(make.built).expect("this century"));
        let (seen, listener) = (Seen::default(), L::default());
        let mut core = Self { device: None, built, request: 0, seen, listener };
        core.power_up(memory, now, sensors);
        core.settle();
        let seen = core.seal();
        (core, seen)
    }

    fn foretells(&mut self, number: u8) -> Option<&'static str> {
        let number = Number::new(number)?;
        let now = words::now(self.bench().now);
        let (machine, memory) = self.device().machine_and_store();
        let decision = machine.decide(number, now, memory, &mut ()).ok()??;
        decision.record()
    }

    fn live(&mut self, event: &Event) -> Vec<(u64, Seen)> {
        match event {
            Event::Advance(now) => self.advance_to(*now),
            Event::Input(now, input) => {
                self.bench().now = *now;
                self.give(input);
                vec![(now.uptime_ms, self.seal())]
            }
            Event::ChipMoved(now) => {
                self.bench().now = *now;
                Vec::new()
            }
            Event::StoreFails(more) => {
                self.store_fails_after(*more, Fails::Undone);
                Vec::new()
            }
            Event::DriveSticks => {
                self.bench().drive_sticks = true;
                Vec::new()
            }
            Event::Reboot(now, sensors) => {
                let (_, memory) = self.device.take().expect("it has power").power_down();
                self.power_up(memory, *now, *sensors);
                self.settle();
                vec![(0, self.seal())]
            }
        }
    }
}

impl<L: Listener> Core<L> {
    fn power_up(&mut self, memory: Memory, now: Now, sensors: Sensors) {
        let bench = Bench::new(now, words::contacts(sensors), self.built);
        let (memory, found) = memory.mount();
        self.device = Some(Device::power_up(bench, memory, found));
    }

    fn give(&mut self, input: &Input) {
        match (words::noticed(input), input) {
            (Some(noticed), _) => self.bench().noticed.push_back(noticed),
            (None, Input::File(file)) => {
                let answer = self.load(file);
                self.seen.link = Some(answer);
            }
            (None, _) => self.device().nudge(),
        }
        self.settle();
    }

    fn advance_to(&mut self, now: Now) -> Vec<(u64, Seen)> {
        let mut news = Vec::new();
        let mut last = None;
        while let Some(wake) = self.settle().map(Uptime::as_millis)
            && wake <= now.uptime_ms
        {
            assert!(last < Some(wake), "the lock asks for the same wake-up again: {wake} ms");
            last = Some(wake);
            let bench = self.bench();
            bench.now = bench.now.later(wake);
            self.settle();
            news.push((wake, self.seal()));
        }
        // From here on the chip is the lock's own to have set.
        let bench = self.bench();
        bench.now = bench.now.later(now.uptime_ms);
        news
    }

    /// Lets the lock do all it has to do at this moment; its next wake-up.
    fn settle(&mut self) -> Option<Uptime> {
        let keys = u32::try_from(self.bench().noticed.len()).expect("few");
        for _ in 0..MOST_AT_ONCE * (1 + keys) {
            let waits = !self.bench().noticed.is_empty();
            let progress = self.device().advance();
            self.note(&progress);
            let uptime_ms = self.bench().now.uptime_ms;
            let (listener, memory) = self.listener_and_memory();
            listener.hear(Heard { uptime_ms, progress: &progress, waits, memory });
            if let Progress::Asleep(wake) = progress {
                return wake;
            }
        }
        panic!("the lock does not come to rest");
    }

    fn note(&mut self, progress: &Progress) {
        match progress {
            Progress::Did(effect) => self.note_effect(effect),
            Progress::Wrote(Write::Record(record) | Write::Edit(record), Ok(())) => {
                let record = words::record(record);
                self.seen.writes.push(format!("record {record}"));
                self.seen.records.push(record);
            }
            Progress::Wrote(Write::Tally(entry), Ok(())) => {
                let entry = words::tally(*entry);
                self.seen.writes.push(format!("tally {entry}"));
                self.seen.tallies.push(entry);
            }
            Progress::Wrote(_, Err(_))
            | Progress::Tended(_)
            | Progress::Took(_)
            | Progress::Asleep(_) => (),
        }
    }

    fn note_effect(&mut self, effect: &Effect) {
        match effect {
            Effect::Sound(sound) => self.seen.sounds.push(words::sound(*sound)),
            Effect::Drive(to) => self.seen.drive.push(words::drive(*to)),
            Effect::SetClock(utc) => self.seen.clock_set.push(i64::from(utc.as_secs())),
            Effect::Show(_) | Effect::Alarm(_) => (),
        }
    }

    fn seal(&mut self) -> Seen {
        let mut seen = std::mem::take(&mut self.seen);
        let bench = self.bench();
        seen.screen = bench.screen.as_ref().map(words::screen).unwrap_or_default();
        seen.alarm = words::alarm(bench.alarm);
        seen.access = self.device().machine().access().name();
        seen
    }

    /// The store takes `more` writes, and says of every later one that it failed.
    pub(crate) fn store_fails_after(&mut self, more: u32, fails: Fails) {
        self.device().store_mut().fail_after(more, fails);
    }

    /// Of the next write of that kind, and of all later ones, it says so.
    pub(crate) fn store_fails_at(&mut self, kind: Kind, fails: Fails) {
        self.device().store_mut().fail_at(kind, fails);
    }

    pub(crate) fn listener_and_memory(&mut self) -> (&mut L, &mut Memory) {
        let device = self.device.as_mut().expect("powered up for as long as it lives");
        (&mut self.listener, device.store_mut())
    }

    /// A key is pressed while the lock is at something else: nothing is done yet.
    pub(crate) fn press(&mut self, key: Key) {
        let noticed = words::noticed(&Input::Key(key)).expect("a key is noticed");
        self.bench().noticed.push_back(noticed);
    }

    fn bench(&mut self) -> &mut Bench {
        self.device().board_mut()
    }

    fn device(&mut self) -> &mut Device<Bench, Memory> {
        self.device.as_mut().expect("powered up for as long as it lives")
    }
}

/// The lock and the model agree, moment by moment, in every story and on the way
/// back from its end.
mod agreement {
    use super::*;

    /// In one of so many stories the first try does not lead to an opening, and in one
    /// of so many it takes a way out.
    const NOT_AT_ONCE: usize = 4;
    const WAYS_OUT: usize = 20;

    /// What a right code gets often enough that a hundred stories tell of it.
    const OFTEN_FORETOLD: [&str; 16] = [
        "delay-started",
        "first-of-two",
        "refused-already-open",
        "refused-barred",
        "refused-clock",
        "refused-closed",
        "refused-held-shut",
        "refused-inhibit",
        "refused-late",
        "refused-penalty",
        "refused-right",
        "refused-same-person",
        "refused-settling",
        "refused-suspended",
        "refused-waiting",
        "released",
    ];

    fn agree(part: u32) {
        let (ways, foretold) =
            compare::agree::<Core<()>>(seeds::names(part, PARTS), "the_lock_agrees");
        let out = ways.iter().filter(|way| way.way_out).count();
        let later = ways.iter().filter(|way| way.rounds > 0).count();
        let days = ways.iter().map(|way| way.days).max();
        let rounds = ways.iter().map(|way| way.rounds).max();
        println!("{} ways back, {later} not at once, {out} by a way out", ways.len());
        println!("the longest took {days:?} days, {rounds:?} rounds");
        println!("decisions held to the door: {foretold:?}");
        for kind in OFTEN_FORETOLD {
            let times = foretold.get(kind).copied().unwrap_or_default();
            assert!(ways.len() < 100 || times >= 10, "{kind} was foretold {times} times");
        }
        assert!(out >= ways.len() / WAYS_OUT && later >= ways.len() / NOT_AT_ONCE);
    }

    #[test]
    fn the_lock_agrees_with_the_model_in_even_stories() {
        agree(0);
    }

    #[test]
    fn the_lock_agrees_with_the_model_in_odd_stories() {
        agree(1);
    }
}
