//! A store in RAM: every write is whole or not there. What a boot recovers is
//! found by looking through all records and adding up all entries.

use lock_core::audit::{Event, Record};
use lock_core::code::LockKey;
use lock_core::holder::{HolderRow, Number};
use lock_core::port::{Reads, Store, StoreFault, Write};
use lock_core::recovered::{Known, LastWord, Recovered};
use lock_core::rules::{Days, Unreadable};
use lock_core::settings::Settings;
use lock_core::tally::TallyState;
use lock_core::time::{Date, Zone};
use lock_core::timetable::{Day, TimetableId};

pub(crate) struct Memory {
    settings: Settings,
    pub(crate) tally: TallyState,
    pub(crate) records: Vec<Record>,
    /// How many more writes are taken; `None`: all.
    left: Option<u32>,
}

impl Memory {
    pub(crate) fn new(settings: Settings) -> Self {
        Self { settings, tally: TallyState::NEW, records: Vec::new(), left: None }
    }

    pub(crate) fn fail_after(&mut self, more: u32) {
        self.left = Some(more);
    }

    pub(crate) fn mend(&mut self) {
        self.left = None;
    }

    pub(crate) fn mount(&mut self) -> Recovered {
        let key = LockKey::from_bytes(*self.settings.key.as_bytes());
        let zone = Zone::parse(&self.settings.zone).expect("a POSIX TZ rule");
        let mut newest_first = self.records.iter().rev().map(|record| record.event);
        let speaks_of_the_bolt = |event: &Event| {
            let told = ["released", "opened", "not-drawn", "secured", "forced"];
            told.contains(&event.kind())
        };
        let last_word = match newest_first.clone().find(speaks_of_the_bolt) {
            Some(Event::Released { .. } | Event::Opened) => LastWord::Open,
            _ => LastWord::Shut,
        };
        Recovered {
            known: Ok(Known { policy: self.settings.policy, zone, key }),
            tally: self.tally.clone(),
            floor: self.records.iter().filter_map(|record| record.at).max(),
            newest_outcome: newest_first.find_map(|event| event.outcome()),
            last_word,
        }
    }
}

impl Days for Memory {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        Ok(self.settings.calendar.day(id, date))
    }
}

impl Reads for Memory {
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        Ok(self.settings.holders[n.index()].clone())
    }
}

impl Store for Memory {
    fn write(&mut self, write: &Write) -> Result<(), StoreFault> {
        if let Some(left) = &mut self.left {
            *left = left.checked_sub(1).ok_or(StoreFault)?;
        }
        match write {
            Write::Tally(entry) => self.tally.apply(*entry),
            Write::Record(record) => self.records.push(*record),
        }
        Ok(())
    }
}
