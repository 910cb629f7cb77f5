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
//! | `memory.rs` | the lock's own store on emulated flash |
//! | `settings.rs` | the model's set-up as the lock's settings |
//! | `words/` | what the lock says, in the model's words |

mod bench;
mod cable;
mod desk;
mod memory;
mod settings;
mod words;

use std::rc::Rc;

use lock_core::device::{Device, Progress};
use lock_core::port::{Effect, Write};
use lock_core::time::{Uptime, Utc};

use crate::compare::{self, OtherLock};
use crate::reference::{Durable, Input, Make, Now, Office, Seen, Sensors};
use crate::seeds;
use crate::walk::Event;

use bench::Bench;
use desk::LocksOffice;
use memory::Memory;

/// More turns than any moment can take: a lock that goes on is stuck.
const MOST_TURNS: u32 = 400;
/// So many tests share the stories.
const PARTS: u32 = 2;

/// The lock under test, on a bench.
struct Core {
    device: Option<Device<Bench, Memory>>,
    built: Utc,
    /// The number of the laptop's last request.
    request: u16,
    seen: Seen,
}

impl OtherLock for Core {
    fn office() -> Rc<dyn Office> {
        Rc::new(LocksOffice)
    }

    fn boot(make: &Make, kept: &Durable, now: Now, sensors: Sensors) -> (Self, Seen) {
        let memory = Memory::holding(kept);
        let built = Utc::from_secs(u32::try_from(make.built).expect("this century"));
        let mut core = Self { device: None, built, request: 0, seen: Seen::default() };
        core.power_up(memory, now, sensors);
        core.settle();
        let seen = core.seal();
        (core, seen)
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
                self.device().store_mut().fail_after(*more);
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

impl Core {
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
        for _ in 0..MOST_TURNS {
            let progress = self.device().advance();
            self.note(&progress);
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

    fn bench(&mut self) -> &mut Bench {
        self.device().board_mut()
    }

    fn device(&mut self) -> &mut Device<Bench, Memory> {
        self.device.as_mut().expect("powered up for as long as it lives")
    }
}

/// The lock and the model agree, moment by moment, in every story.
mod agreement {
    use super::*;

    #[test]
    fn the_lock_agrees_with_the_model_in_even_stories() {
        compare::agree::<Core>(seeds::names(0, PARTS), "the_lock_agrees");
    }

    #[test]
    fn the_lock_agrees_with_the_model_in_odd_stories() {
        compare::agree::<Core>(seeds::names(1, PARTS), "the_lock_agrees");
    }
}
