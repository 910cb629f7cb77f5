//! From a story told in steps to the single events that two locks can be fed.

use std::rc::Rc;

use crate::deeds::Deed;
use crate::office::OwnOffice;
use crate::reference::{Chip, Durable, Flash, Input, Key, Make, Model, Now, Seen, Sensors, Setup};

/// 30 November 2026, when the firmware of these locks is said to be built.
pub(crate) const BUILT: i64 = 1_795_996_800;

/// One step of a story.
#[derive(Clone, Debug)]
pub(crate) enum Step {
    /// Keys with no time between them.
    Keys(Vec<Key>),
    /// Seconds.
    Wait(u64),
    /// To the model's next wake-up, and so many seconds more or less.
    WaitForWake(i64),
    /// To the next opening or closing of a timetable, and so many seconds
    /// more or less.
    WaitForEdge {
        timetable: usize,
        offset: i64,
    },
    Contact(Input),
    PowerCut {
        off_s: u64,
        chip_lost: bool,
    },
    /// The chip jumps by so many seconds, and the lock is woken.
    ChipJump(i64),
    /// The chip loses its time, and the lock is woken.
    ChipLost,
    /// Wrong codes on one number through as many penalties as it takes to
    /// bring its total to 100, less a few.
    Siege {
        number: u8,
        short_of: u32,
    },
    /// What somebody at the lock has in mind, by what it shows then.
    Deed(Deed),
    /// The store takes so many more writes, and fails until the next boot.
    StoreFails(u32),
    /// The drive moves no more until the next boot, and says so.
    DriveSticks,
}

/// One thing that happens to a lock. Times are whole seconds.
#[derive(Clone, Debug)]
pub(crate) enum Event {
    /// Time passes until then; every timer due by then runs.
    Advance(Now),
    Input(Now, Input),
    /// From now on the chip reads otherwise.
    ChipMoved(Now),
    /// The power was cut and is back: uptime is nought again.
    Reboot(Now, Sensors),
    StoreFails(u32),
    DriveSticks,
}

/// Told the model as it is after each event, the event, and what was shown,
/// moment by moment.
pub(crate) type Witness<'a> = dyn FnMut(&Model, &Event, &[(u64, Seen)]) + 'a;

/// The world around the lock: its clock chip, its contacts, its laptop.
#[derive(Clone)]
pub(crate) struct Walk {
    pub(crate) make: Make,
    pub(crate) now: Now,
    pub(crate) sensors: Sensors,
    /// The newest version of a timetable file that was sealed, in force or not.
    pub(crate) sealed: u32,
}

impl Walk {
    pub(crate) fn new(start_utc: i64) -> Self {
        Self {
            make: Make { office: Rc::new(OwnOffice), built: BUILT },
            now: Now { uptime_ms: 0, chip: Chip::Reads(start_utc) },
            sensors: Sensors::default(),
            sealed: 0,
        }
    }

    /// The first boot of a lock that was set up like that.
    pub(crate) fn boot(&self, setup: &Setup, flash: Flash) -> (Model, Seen) {
        self.boot_with(Durable::new(setup.clone(), flash))
    }

    pub(crate) fn boot_with(&self, kept: Durable) -> (Model, Seen) {
        Model::boot(&self.make, kept, self.now, self.sensors)
    }

    /// Plays one step on the model.
    pub(crate) fn play(&mut self, model: &mut Model, step: &Step, happened: &mut Witness<'_>) {
        Walker { walk: self, model, happened }.step(step);
    }
}

/// Applies one event to the model.
pub(crate) fn apply(make: &Make, model: &mut Model, event: &Event) -> Vec<(u64, Seen)> {
    match event {
        Event::Advance(now) => model.advance_to(*now),
        Event::Input(now, input) => vec![(now.uptime_ms, model.input(*now, input))],
        Event::ChipMoved(now) => {
            model.chip_moved(*now);
            Vec::new()
        }
        Event::StoreFails(more) => {
            model.store_fails_after(*more);
            Vec::new()
        }
        Event::DriveSticks => {
            model.drive_sticks();
            Vec::new()
        }
        Event::Reboot(now, sensors) => {
            let (booted, seen) = Model::boot(make, model.power_cut(), *now, *sensors);
            *model = booted;
            vec![(0, seen)]
        }
    }
}

pub(crate) struct Walker<'a> {
    pub(crate) walk: &'a mut Walk,
    pub(crate) model: &'a mut Model,
    happened: &'a mut Witness<'a>,
}

impl<'a> Walker<'a> {
    pub(crate) fn new(
        walk: &'a mut Walk,
        model: &'a mut Model,
        happened: &'a mut Witness<'a>,
    ) -> Self {
        Self { walk, model, happened }
    }
}

impl Walker<'_> {
    pub(crate) fn step(&mut self, step: &Step) {
        match step {
            Step::Keys(keys) => self.keys(keys),
            Step::Wait(seconds) => self.wait(*seconds),
            Step::WaitForWake(offset) => {
                let wake_ms = self.model.next_wake().unwrap_or(self.walk.now.uptime_ms);
                let ahead = wake_ms.saturating_sub(self.walk.now.uptime_ms) / 1_000;
                self.wait(ahead.saturating_add_signed(*offset));
            }
            Step::WaitForEdge { timetable, offset } => {
                if let Chip::Reads(utc) = self.walk.now.chip {
                    let edge = self.model.hours().next_change(*timetable, utc);
                    let ahead = edge.map_or(0, |edge| edge - utc) + offset;
                    self.wait(u64::try_from(ahead).unwrap_or_default());
                }
            }
            Step::Contact(input) => self.contact(input.clone()),
            Step::PowerCut { off_s, chip_lost } => {
                let chip = if *chip_lost { Chip::Lost } else { self.chip_in(off_s.cast_signed()) };
                self.walk.now = Now { uptime_ms: 0, chip };
                self.happen(Event::Reboot(self.walk.now, self.walk.sensors));
            }
            Step::ChipJump(seconds) => self.move_chip(self.chip_in(*seconds)),
            Step::ChipLost => self.move_chip(Chip::Lost),
            Step::Siege { number, short_of } => self.siege(*number, 100 - short_of),
            Step::Deed(deed) => deed.act(self),
            Step::StoreFails(more) => self.happen(Event::StoreFails(*more)),
            Step::DriveSticks => self.happen(Event::DriveSticks),
        }
    }

    pub(crate) fn keys(&mut self, keys: &[Key]) {
        for key in keys {
            self.input(Input::Key(*key));
        }
    }

    pub(crate) fn contact(&mut self, input: Input) {
        let sensors = &mut self.walk.sensors;
        match &input {
            Input::Bolt(drawn) => sensors.bolt_drawn = *drawn,
            Input::Door(open) => sensors.door_open = *open,
            Input::Inhibit(set) => sensors.inhibit = *set,
            Input::Switch(on) => sensors.switch_on = *on,
            Input::Key(_)
            | Input::SupplyMv(_)
            | Input::Woken
            | Input::DriveFault
            | Input::File(_) => (),
        }
        self.input(input);
    }

    fn siege(&mut self, number: u8, wanted: u32) {
        self.keys(&[Key::Back, Key::Back]);
        let wrong = typed(number, &format!("{:06}", 909_090 + u32::from(number)));
        // A hundred tries, and fewer penalties, unless the lock is in service.
        for _ in 0..200 {
            if self.model.total(number) >= wanted {
                break;
            }
            self.keys(&wrong);
            self.wait(self.model.penalty_left_s());
        }
    }

    pub(crate) fn wait(&mut self, seconds: u64) {
        self.walk.now = self.walk.now.later(self.walk.now.uptime_ms + seconds * 1_000);
        self.happen(Event::Advance(self.walk.now));
    }

    pub(crate) fn input(&mut self, input: Input) {
        self.happen(Event::Input(self.walk.now, input));
    }

    fn move_chip(&mut self, chip: Chip) {
        self.walk.now.chip = chip;
        self.happen(Event::ChipMoved(self.walk.now));
        self.input(Input::Woken);
    }

    fn chip_in(&self, seconds: i64) -> Chip {
        match self.walk.now.chip {
            Chip::Reads(utc) => Chip::Reads(utc + seconds),
            Chip::Lost => Chip::Lost,
        }
    }

    fn happen(&mut self, event: Event) {
        let seen = apply(&self.walk.make, self.model, &event);
        // The lock sets the chip that this world has.
        if let Some(utc) = seen.iter().flat_map(|(_, seen)| &seen.clock_set).next_back() {
            self.walk.now.chip = Chip::Reads(*utc);
        }
        (self.happened)(self.model, &event, &seen);
    }
}

/// The keys of a number and a code, with *OK*.
pub(crate) fn typed(number: u8, code: &str) -> Vec<Key> {
    let mut keys = digits(&format!("{number:02}{code}"));
    keys.push(Key::Ok);
    keys
}

pub(crate) fn digits(text: &str) -> Vec<Key> {
    text.bytes().map(|digit| Key::Digit(digit - b'0')).collect()
}
