//! From a story told in steps to the single events that two locks can be fed.

use crate::reference::{Chip, Durable, Hours, Input, Key, Model, Now, Seen, Sensors, Setup, Zone};

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
}

/// One thing that happens to a lock. Times are whole seconds.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Event {
    /// Time passes until then; every timer due by then runs.
    Advance(Now),
    Input(Now, Input),
    /// From now on the chip reads otherwise.
    ChipMoved(Now),
    /// The power was cut and is back: uptime is nought again.
    Reboot(Now, Sensors),
}

/// Told each event and what the model showed after it, moment by moment.
pub(crate) type Witness<'a> = dyn FnMut(&Event, &[(u64, Seen)]) + 'a;

/// The world around the lock: its clock chip and its contacts.
pub(crate) struct Walk {
    setup: Setup,
    zone: Zone,
    pub(crate) now: Now,
    pub(crate) sensors: Sensors,
}

impl Walk {
    pub(crate) fn new(setup: &Setup, start_utc: i64) -> Self {
        Self {
            setup: setup.clone(),
            zone: Zone::new(&setup.zone),
            now: Now { uptime_ms: 0, chip: Chip::Reads(start_utc) },
            sensors: Sensors::default(),
        }
    }

    pub(crate) fn boot(&self, kept: Option<Durable>) -> (Model, Seen) {
        Model::boot(&self.setup, kept, self.now, self.sensors)
    }

    /// Plays one step on the model.
    pub(crate) fn play(&mut self, model: &mut Model, step: &Step, happened: &mut Witness<'_>) {
        let mut walker = Walker { walk: self, model, happened };
        walker.step(step);
    }
}

/// Applies one event to the model.
pub(crate) fn apply(setup: &Setup, model: &mut Model, event: &Event) -> Vec<(u64, Seen)> {
    match *event {
        Event::Advance(now) => model.advance_to(now),
        Event::Input(now, input) => vec![(now.uptime_ms, model.input(now, input))],
        Event::ChipMoved(now) => {
            model.chip_moved(now);
            Vec::new()
        }
        Event::Reboot(now, sensors) => {
            let (booted, seen) = Model::boot(setup, Some(model.power_cut()), now, sensors);
            *model = booted;
            vec![(0, seen)]
        }
    }
}

struct Walker<'a> {
    walk: &'a mut Walk,
    model: &'a mut Model,
    happened: &'a mut Witness<'a>,
}

impl Walker<'_> {
    fn step(&mut self, step: &Step) {
        match step {
            Step::Keys(keys) => {
                for key in keys {
                    // What the model does not lead is left at once.
                    let left = self.model.is_in_a_dialogue();
                    self.input(Input::Key(if left { Key::Back } else { *key }));
                }
            }
            Step::Wait(seconds) => self.wait(*seconds),
            Step::WaitForWake(offset) => {
                let wake_ms = self.model.next_wake().unwrap_or(self.walk.now.uptime_ms);
                let ahead = wake_ms.saturating_sub(self.walk.now.uptime_ms) / 1_000;
                self.wait(ahead.saturating_add_signed(*offset));
            }
            Step::WaitForEdge { timetable, offset } => {
                if let Chip::Reads(utc) = self.walk.now.chip {
                    let hours = Hours { setup: &self.walk.setup, zone: &self.walk.zone };
                    let edge = hours.next_change(*timetable, utc);
                    let ahead = edge.map_or(0, |edge| edge - utc) + offset;
                    self.wait(u64::try_from(ahead).unwrap_or_default());
                }
            }
            Step::Contact(input) => {
                match *input {
                    Input::Bolt(drawn) => self.walk.sensors.bolt_drawn = drawn,
                    Input::Door(open) => self.walk.sensors.door_open = open,
                    Input::Inhibit(set) => self.walk.sensors.inhibit = set,
                    Input::Key(_) | Input::SupplyMv(_) | Input::Woken | Input::DriveFault => (),
                }
                self.input(*input);
            }
            Step::PowerCut { off_s, chip_lost } => {
                let chip = if *chip_lost { Chip::Lost } else { self.chip_in(off_s.cast_signed()) };
                self.walk.now = Now { uptime_ms: 0, chip };
                self.happen(Event::Reboot(self.walk.now, self.walk.sensors));
            }
            Step::ChipJump(seconds) => self.move_chip(self.chip_in(*seconds)),
            Step::ChipLost => self.move_chip(Chip::Lost),
            Step::Siege { number, short_of } => self.siege(*number, 100 - short_of),
        }
    }

    fn siege(&mut self, number: u8, wanted: u32) {
        self.step(&Step::Keys(vec![Key::Back, Key::Back]));
        let wrong = typed(number, &format!("{:06}", 909_090 + u32::from(number)));
        // A hundred tries, and fewer penalties, unless the lock is in service.
        for _ in 0..200 {
            if self.model.total(number) >= wanted {
                break;
            }
            self.step(&Step::Keys(wrong.clone()));
            self.wait(self.model.penalty_left_s());
        }
    }

    fn wait(&mut self, seconds: u64) {
        self.walk.now = self.walk.now.later(self.walk.now.uptime_ms + seconds * 1_000);
        self.happen(Event::Advance(self.walk.now));
    }

    fn input(&mut self, input: Input) {
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
        let seen = apply(&self.walk.setup, self.model, &event);
        (self.happened)(&event, &seen);
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
