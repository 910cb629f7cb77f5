//! The lock's own store on emulated flash. A boot mounts it anew, from nothing
//! but what lies in the flash.

use emulated_board::RamFlash;
use emulated_board::flash::Trace;
use lock_core::audit::{Entry, Record, Seq};
use lock_core::holder::{HolderRow, Number};
use lock_core::link::{FileFault, Fingerprint, Version};
use lock_core::pairing::Pairing;
use lock_core::port::{Reads, Store, StoreFault, Upkeep, Write};
use lock_core::recovered::Recovered;
use lock_core::rules::{Days, Unreadable};
use lock_core::seal::CHUNK;
use lock_core::settings::{Edit, FileState, Settings};
use lock_core::store::{FlashStore, Layout};
use lock_core::time::{Date, Zone};
use lock_core::timetable::{Day, TimetableId};

const WORD: usize = 8;
const PAGE: usize = 2_048;

type Flash = RamFlash<WORD, PAGE, Vec<u8>>;

pub(crate) struct Memory {
    store: FlashStore<Flash>,
    /// How many more writes are taken; `None`: all.
    left: Option<u32>,
    /// What the last mount asked of the flash.
    mounting: Option<Trace>,
}

fn layout() -> Layout {
    Layout::for_pages_of(PAGE).expect("the store takes pages of this size")
}

impl Memory {
    pub(crate) fn new(settings: &Settings) -> Self {
        let bytes = layout().bytes(PAGE).and_then(|bytes| usize::try_from(bytes).ok());
        let flash = Flash::erased(vec![0; bytes.expect("small")]);
        let store = FlashStore::format(flash, layout(), settings);
        Self {
            store: store.map_err(|_| "format").expect("the settings fit"),
            left: None,
            mounting: None,
        }
    }

    pub(crate) fn fail_after(&mut self, more: u32) {
        self.left = Some(more);
    }

    /// What a boot finds: all that was in memory is gone, and writes work again.
    pub(crate) fn mount(self) -> (Self, Recovered) {
        let mut flash = self.store.into_flash();
        flash.start_trace();
        let (mut store, found) = FlashStore::mount(flash, layout());
        let mounting = Some(store.flash_mut().take_trace());
        store.flash_mut().start_trace();
        (Self { store, left: None, mounting }, found)
    }

    /// What a boot would find if the power went at this instant.
    pub(crate) fn if_cut_now(&mut self) -> Recovered {
        FlashStore::mount(self.store.flash_mut().clone(), layout()).1
    }

    /// What the last mount asked of the flash, told once.
    pub(crate) fn take_mounting(&mut self) -> Option<Trace> {
        self.mounting.take()
    }

    /// What was asked of the flash since the last call.
    pub(crate) fn take_trace(&mut self) -> Trace {
        let trace = self.store.flash_mut().take_trace();
        self.store.flash_mut().start_trace();
        trace
    }
}

impl Days for Memory {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.store.day(id, date)
    }
}

impl Reads for Memory {
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        self.store.holder(n)
    }

    fn enrolled(&mut self) -> Result<u8, Unreadable> {
        self.store.enrolled()
    }

    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable> {
        self.store.pairing()
    }

    fn newest_seq(&mut self) -> Option<Seq> {
        self.store.newest_seq()
    }

    fn zone(&mut self) -> Result<Zone, Unreadable> {
        self.store.zone()
    }

    fn file_state(&mut self) -> Result<FileState, Unreadable> {
        self.store.file_state()
    }

    fn last_generation(&mut self) -> Result<u32, Unreadable> {
        self.store.last_generation()
    }

    fn day_to_come(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.store.day_to_come(id, date)
    }

    fn zone_to_come(&mut self) -> Result<Zone, Unreadable> {
        self.store.zone_to_come()
    }
}

impl Store for Memory {
    fn write(&mut self, write: &Write) -> Result<(), StoreFault> {
        if let Some(left) = &mut self.left {
            *left = left.checked_sub(1).ok_or(StoreFault)?;
        }
        self.store.write(write)
    }

    fn edit(&mut self, edit: &Edit, record: &Record) -> Result<(), StoreFault> {
        if let Some(left) = &mut self.left {
            *left = left.checked_sub(1).ok_or(StoreFault)?;
        }
        self.store.edit(edit, record)
    }

    fn stage(&mut self, index: u8, bytes: &[u8]) -> Result<(), StoreFault> {
        if let Some(left) = &mut self.left {
            *left = left.checked_sub(1).ok_or(StoreFault)?;
        }
        self.store.stage(index, bytes)
    }

    fn staged_chunk(&mut self, index: u8, buf: &mut [u8; CHUNK]) -> Option<usize> {
        self.store.staged_chunk(index, buf)
    }

    fn staged(&mut self) -> Result<(Version, Fingerprint), FileFault> {
        self.store.staged()
    }

    fn staged_day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.store.staged_day(id, date)
    }

    fn staged_zone(&mut self) -> Result<Zone, Unreadable> {
        self.store.staged_zone()
    }

    fn entry(&mut self, from: Seq) -> Option<Entry> {
        self.store.entry(from)
    }

    fn tend(&mut self) -> Result<Upkeep, StoreFault> {
        self.store.tend()
    }
}
