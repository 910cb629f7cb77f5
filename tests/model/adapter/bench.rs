//! A board on a bench: what the lock asks of it is set by hand.

use std::collections::VecDeque;

use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::port::{self, Alarm, Contacts, Drive, Sound};
use lock_core::screen::Screen;
use lock_core::seed::Seed;
use lock_core::time::Utc;

use super::words;
use crate::reference::{Chip, Now};

pub(super) struct Bench {
    pub(super) now: Now,
    pub(super) noticed: VecDeque<Noticed>,
    pub(super) screen: Option<Screen>,
    pub(super) alarm: Alarm,
    pub(super) drive_sticks: bool,
    contacts: Contacts,
    built: Utc,
}

impl Bench {
    pub(super) fn new(now: Now, contacts: Contacts, built: Utc) -> Self {
        Self {
            now,
            noticed: VecDeque::new(),
            screen: None,
            alarm: Alarm::Quiet,
            drive_sticks: false,
            contacts,
            built,
        }
    }
}

impl Board for Bench {
    fn now(&mut self) -> port::Now {
        words::now(self.now)
    }

    fn contacts(&mut self) -> Contacts {
        self.contacts
    }

    fn notice(&mut self) -> Option<Noticed> {
        self.noticed.pop_front()
    }

    fn drive(&mut self, _: Drive) -> Result<(), DriveFault> {
        if self.drive_sticks { Err(DriveFault) } else { Ok(()) }
    }

    fn signal(&mut self, level: Alarm) {
        self.alarm = level;
    }

    fn sound(&mut self, _: Sound) {}

    fn set_clock(&mut self, utc: Utc) {
        self.now.chip = Chip::Reads(utc.as_secs().into());
    }

    fn built(&self) -> Utc {
        self.built
    }

    /// The same in every story: nothing that is compared depends on it.
    fn seed(&mut self) -> Seed {
        Seed::new([0x5E; Seed::LEN])
    }

    fn show(&mut self, screen: &Screen) {
        self.screen = Some(*screen);
    }
}
