//! The one place that knows both sides: it sets the lock up as the model is
//! set up, feeds it the model's events, and tells what it does in the model's
//! words.

mod bench;
mod memory;
mod settings;
mod words;

use lock_core::device::{Device, Progress};
use lock_core::port::{Effect, Input as CoreInput, Write};
use lock_core::time::Uptime;

use crate::reference::{Input, Now, Seen, Sensors, Setup};
use crate::walk::Event;

use bench::Bench;
pub(crate) use memory::Memory;

/// More turns than any moment can take: a lock that goes on is stuck.
const MOST_TURNS: u32 = 200;

/// Told everything that the device does, as it does it, with its moment and
/// with what a power cut at that instant would leave.
pub(crate) type Listener<'a> = dyn FnMut(&Now, &Progress, &mut Memory) + 'a;

/// The lock under test, on a bench.
pub(crate) struct Core {
    device: Option<Device<Bench, Memory>>,
    seen: Seen,
    /// What was last told, so that the model's "news" can be told from nothing.
    before: Seen,
}

impl Core {
    /// A lock that has just been set up and powered up.
    pub(crate) fn boot(setup: &Setup, now: Now, sensors: Sensors) -> (Self, Seen) {
        Self::boot_heard(setup, now, sensors, &mut |_, _, _| ())
    }

    pub(crate) fn boot_heard(
        setup: &Setup,
        now: Now,
        sensors: Sensors,
        listener: &mut Listener<'_>,
    ) -> (Self, Seen) {
        let memory = Memory::new(&settings::settings(setup));
        let mut core = Self { device: None, seen: Seen::default(), before: Seen::default() };
        core.power_up(Bench::new(now, words::contacts(sensors)), memory);
        core.settle(listener);
        let seen = core.seal();
        (core, seen)
    }

    fn power_up(&mut self, bench: Bench, memory: Memory) {
        let (memory, found) = memory.mount();
        self.device = Some(Device::power_up(bench, memory, found));
    }

    /// Lives through one event; what was to be seen, moment by moment.
    pub(crate) fn live(&mut self, event: &Event) -> Vec<(u64, Seen)> {
        self.live_heard(event, &mut |_, _, _| ())
    }

    pub(crate) fn live_heard(
        &mut self,
        event: &Event,
        listener: &mut Listener<'_>,
    ) -> Vec<(u64, Seen)> {
        match *event {
            Event::Advance(now) => self.advance_to(now, listener),
            Event::Input(now, input) => {
                self.bench().now = now;
                self.give(input, listener);
                vec![(now.uptime_ms, self.seal())]
            }
            Event::ChipMoved(now) => {
                self.bench().now = now;
                Vec::new()
            }
            Event::Reboot(now, sensors) => {
                if let Some(device) = self.device.take() {
                    let (_, memory) = device.power_down();
                    self.power_up(Bench::new(now, words::contacts(sensors)), memory);
                }
                self.settle(listener);
                vec![(0, self.seal())]
            }
        }
    }

    fn give(&mut self, input: Input, listener: &mut Listener<'_>) {
        match words::noticed(input) {
            Some(noticed) => self.bench().noticed.push_back(noticed),
            None => self.device().nudge(),
        }
        self.settle(listener);
    }

    fn advance_to(&mut self, now: Now, listener: &mut Listener<'_>) -> Vec<(u64, Seen)> {
        let mut news = Vec::new();
        while let Some(wake) = self.settle(listener).map(Uptime::as_millis)
            && wake <= now.uptime_ms
        {
            let before = self.before.clone();
            let bench = self.bench();
            bench.now = bench.now.later(wake);
            self.settle(listener);
            let seen = self.seal();
            if seen.is_news_after(&before) {
                news.push((wake, seen));
            }
        }
        self.bench().now = now;
        news
    }

    /// Lets the lock do all it has to do at this moment; its next wake-up.
    fn settle(&mut self, listener: &mut Listener<'_>) -> Option<Uptime> {
        for _ in 0..MOST_TURNS {
            let progress = self.device().advance();
            self.note(&progress);
            let now = self.bench().now;
            listener(&now, &progress, self.device().store_mut());
            if let Progress::Asleep(wake) = progress {
                return wake;
            }
        }
        panic!("the lock does not come to rest");
    }

    fn note(&mut self, progress: &Progress) {
        match progress {
            Progress::Did(Effect::Sound(sound)) => self.seen.sounds.push(words::sound(*sound)),
            Progress::Did(Effect::Drive(to)) => self.seen.drive.push(words::drive(*to)),
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
            | Progress::Did(Effect::Show(_) | Effect::Alarm(_) | Effect::SetClock(_))
            | Progress::Took(
                CoreInput::Key(_)
                | CoreInput::Bolt(_)
                | CoreInput::Door(_)
                | CoreInput::Supply(_)
                | CoreInput::Inhibit(_)
                | CoreInput::Switch(_)
                | CoreInput::Carried(_)
                | CoreInput::Woken
                | CoreInput::DriveFault
                | CoreInput::Stored(_),
            )
            | Progress::Asleep(_) => (),
        }
    }

    fn seal(&mut self) -> Seen {
        let mut seen = std::mem::take(&mut self.seen);
        let bench = self.bench();
        seen.screen = bench.screen.as_ref().map(words::screen).unwrap_or_default();
        seen.alarm = words::alarm(bench.alarm);
        seen.access = self.device().machine().access().name();
        self.before = seen.clone();
        seen
    }

    /// The store takes `more` writes and refuses then, until the next boot.
    pub(crate) fn store_fails_after(&mut self, more: u32) {
        self.device().store_mut().fail_after(more);
    }

    /// The drive no longer moves, until the next boot.
    pub(crate) fn drive_sticks(&mut self) {
        self.bench().drive_sticks = true;
    }

    fn bench(&mut self) -> &mut Bench {
        self.device().board_mut()
    }

    fn device(&mut self) -> &mut Device<Bench, Memory> {
        self.device.as_mut().expect("powered up for as long as it lives")
    }
}
