//! The plainest board there can be: what is noticed is put into a queue, what
//! is done is kept in a list, and no pin or wire is between them.

use std::cell::{Cell, RefCell};
use std::collections::VecDeque;

use emulated_board::fuse::{Act, Fuse, Power};
use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::port::{
    Alarm, Bolt, Chip, Contacts, Door, Drive, Effect, Inhibit, Now, Sound, Switch,
};
use lock_core::screen::Screen;
use lock_core::seed::Seed;
use lock_core::time::{Uptime, Utc};

/// The board's outside, which outlives the power of the lock.
pub struct Outside {
    /// The power, shared with the flash.
    pub fuse: Fuse,
    /// True time, in milliseconds.
    pub now: Cell<u64>,
    /// True time at the last boot.
    pub booted: Cell<u64>,
    /// How far the clock chip is ahead, in seconds; `None`: it lost power.
    pub ahead: Cell<Option<i64>>,
    /// What the contacts report.
    pub contacts: Cell<Contacts>,
    /// Noticed, and not yet told to the lock.
    pub noticed: RefCell<VecDeque<Noticed>>,
    /// Effects that reached the world, and nobody has looked at yet.
    pub done: RefCell<Vec<Effect>>,
    /// Whether the drive is stuck.
    pub stuck: Cell<Stuck>,
}

/// Whether the drive gets where it is sent.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stuck {
    /// It does.
    No,
    /// It does not, and says so.
    Yes,
}

/// Bolt thrown, door closed, inhibit clear, service switch off.
pub const SHUT: Contacts = Contacts {
    bolt: Bolt::Thrown,
    door: Door::Closed,
    inhibit: Inhibit::Clear,
    switch: Switch::Off,
};

impl Outside {
    /// Everything shut, the power on, at that second.
    #[must_use]
    pub fn at(second: u32) -> Self {
        let now = u64::from(second) * 1_000;
        Self {
            fuse: Fuse::new(),
            now: Cell::new(now),
            booted: Cell::new(now),
            ahead: Cell::new(Some(0)),
            contacts: Cell::new(SHUT),
            noticed: RefCell::default(),
            done: RefCell::default(),
            stuck: Cell::new(Stuck::No),
        }
    }

    /// The moment as a lock reads it.
    #[must_use]
    pub fn reading(&self) -> Now {
        let uptime = Uptime::from_millis(self.now.get() - self.booted.get());
        let second = i64::try_from(self.now.get() / 1_000).unwrap_or(i64::MAX);
        let chip = match self.ahead.get() {
            Some(ahead) => {
                let reads = second.saturating_add(ahead).max(0);
                Chip::At(Utc::from_secs(u32::try_from(reads).unwrap_or(u32::MAX)))
            }
            None => Chip::Lost,
        };
        Now { uptime, chip }
    }

    fn reaches(&self, effect: Effect) -> bool {
        let reaches = self.fuse.step(Act::Effect).reaches_the_world();
        if reaches {
            self.done.borrow_mut().push(effect);
        }
        reaches
    }
}

/// The lock's side of the board.
pub struct Bench<'o>(pub &'o Outside);

impl Board for Bench<'_> {
    fn now(&mut self) -> Now {
        self.0.reading()
    }

    fn contacts(&mut self) -> Contacts {
        self.0.contacts.get()
    }

    fn built(&self) -> Utc {
        emulated_board::BUILT
    }

    fn notice(&mut self) -> Option<Noticed> {
        self.0.noticed.borrow_mut().pop_front()
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        if self.0.stuck.get() == Stuck::Yes {
            return Err(DriveFault);
        }
        self.0.reaches(Effect::Drive(to));
        Ok(())
    }

    fn signal(&mut self, level: Alarm) {
        self.0.reaches(Effect::Alarm(level));
    }

    fn sound(&mut self, sound: Sound) {
        self.0.reaches(Effect::Sound(sound));
    }

    fn set_clock(&mut self, utc: Utc) {
        if self.0.reaches(Effect::SetClock(utc)) {
            let second = i64::try_from(self.0.now.get() / 1_000).unwrap_or(i64::MAX);
            self.0.ahead.set(Some(i64::from(utc.as_secs()).saturating_sub(second)));
        }
    }

    /// Another one at each boot, and the same for the same input.
    fn seed(&mut self) -> Seed {
        let mut bytes = [0x5E; Seed::LEN];
        bytes[..8].copy_from_slice(&self.0.now.get().to_le_bytes());
        Seed::new(bytes)
    }

    fn show(&mut self, screen: &Screen) {
        self.0.reaches(Effect::Show(*screen));
    }
}
