//! The lock's own store on emulated flash. A boot mounts it anew, from nothing
//! but what lies in the flash.

use emulated_board::RamFlash;
use emulated_board::flash::Trace;
use lock_core::audit::{Entry, Outcome, Record, Seq};
use lock_core::holder::{Claimed, HolderRow, Number};
use lock_core::link::{FileFault, Fingerprint, Version};
use lock_core::pairing::Pairing;
use lock_core::port::{Reads, Store, StoreFault, Upkeep, Write};
use lock_core::recovered::Recovered;
use lock_core::rules::{Days, Unreadable};
use lock_core::seal::CHUNK;
use lock_core::settings::{Edit, FileState};
use lock_core::store::{FlashStore, Layout};
use lock_core::time::{Date, Zone};
use lock_core::timetable::{Day, TimetableId};

use super::kept::Kept;
use super::settings;
use crate::reference::{Durable, Flash as Begins};

const WORD: usize = 8;
const PAGE: usize = 2_048;

type Flash = RamFlash<WORD, PAGE, Vec<u8>>;

/// What becomes of a write that is said to have failed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Fails {
    /// It did not reach the flash.
    Undone,
    /// It did, whole.
    Done,
}

/// A kind of write that a store is to fail at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Kind {
    /// A change of the settings.
    Change,
    /// A record of a duress code.
    Duress,
}

impl Kind {
    /// What a write is, if it is one of those.
    fn of(record: &Record, changes: bool) -> Option<Self> {
        let duress = record.event.outcome() == Some(Outcome::Duress);
        if duress { Some(Self::Duress) } else { changes.then_some(Self::Change) }
    }
}

pub(crate) struct Memory {
    store: FlashStore<Flash>,
    /// How many more writes are taken; `None`: all.
    left: Option<(u32, Fails)>,
    /// From the next write of that kind on all fail.
    from: Option<(Kind, Fails)>,
    /// What the last mount asked of the flash, until somebody asks.
    mounting: Option<Trace>,
}

fn layout() -> Layout {
    Layout::for_pages_of(PAGE).expect("the store takes pages of this size")
}

fn erased() -> Flash {
    let bytes = layout().bytes(PAGE).and_then(|bytes| usize::try_from(bytes).ok());
    Flash::erased(vec![0; bytes.expect("small")])
}

impl Memory {
    /// A flash that holds what a lock was set up with, as the model has it.
    pub(super) fn holding(kept: &Durable) -> Self {
        let store = match kept.flash {
            Begins::Erased => FlashStore::at_rest(erased(), layout()),
            Begins::Ours => formatted(kept),
            Begins::OtherLayout => {
                let mut flash = formatted(kept).into_flash();
                relabel(flash.content_mut());
                FlashStore::at_rest(flash, layout())
            }
        };
        Self { store, left: None, from: None, mounting: None }
    }

    pub(super) fn fail_after(&mut self, more: u32, fails: Fails) {
        self.left = Some((more, fails));
    }

    pub(super) fn fail_at(&mut self, kind: Kind, fails: Fails) {
        self.from = Some((kind, fails));
    }

    /// What becomes of the writes that fail, once they do.
    pub(crate) fn fails(&self) -> Option<Fails> {
        self.left.filter(|(left, _)| *left == 0).map(|(_, fails)| fails)
    }

    /// What a boot finds: all that was in memory is gone, and writes work again.
    pub(super) fn mount(self) -> (Self, Recovered) {
        let mut flash = self.store.into_flash();
        flash.start_trace();
        let (mut store, found) = FlashStore::mount(flash, layout());
        let mounting = Some(store.flash_mut().take_trace());
        store.flash_mut().start_trace();
        (Self { store, left: None, from: None, mounting }, found)
    }

    /// What was asked of the flash since the last call, that of a boot apart.
    pub(crate) fn take_traces(&mut self) -> [Trace; 2] {
        let since = self.store.flash_mut().take_trace();
        self.store.flash_mut().start_trace();
        [self.mounting.take().unwrap_or_default(), since]
    }

    /// What a boot would find if the power went at this instant.
    pub(crate) fn if_cut_now(&mut self) -> Recovered {
        self.cut_now().1
    }

    /// The settings that a boot would find then, and the newest record.
    pub(crate) fn kept_if_cut_now(&mut self) -> Kept {
        let (store, found) = self.cut_now();
        Kept::read(store, &found)
    }

    fn cut_now(&mut self) -> (FlashStore<Flash>, Recovered) {
        FlashStore::mount(self.store.flash_mut().clone(), layout())
    }

    fn comes(&mut self, kind: Option<Kind>) {
        if let Some((_, fails)) = self.from.take_if(|(from, _)| Some(*from) == kind) {
            self.left = Some((0, fails));
        }
    }

    /// A write is tried, unless it is one that fails; only what is taken counts.
    fn taken(
        &mut self,
        write: impl FnOnce(&mut FlashStore<Flash>) -> Result<(), StoreFault>,
    ) -> Result<(), StoreFault> {
        match &mut self.left {
            Some((0, Fails::Undone)) => Err(StoreFault),
            Some((0, Fails::Done)) => write(&mut self.store).and(Err(StoreFault)),
            Some((left, _)) => {
                let written = write(&mut self.store);
                *left -= u32::from(written.is_ok());
                written
            }
            None => write(&mut self.store),
        }
    }
}

fn formatted(kept: &Durable) -> FlashStore<Flash> {
    let settings = settings::settings(&kept.settings);
    let store = FlashStore::format(erased(), layout(), &settings);
    store.map_err(|_| "format").expect("the settings fit")
}

/// The settings' header says another layout, as `docs/flash-layout.md` has it:
/// 64 bytes at the beginning, the layout in byte 1, the check value last.
fn relabel(flash: &mut [u8]) {
    let (header, check) = flash[..64].split_at_mut(60);
    header[1] ^= 1;
    check.copy_from_slice(&crc32(header).to_le_bytes());
}

/// CRC-32/ISO-HDLC.
fn crc32(bytes: &[u8]) -> u32 {
    !bytes.iter().fold(u32::MAX, |crc, byte| {
        (0..8).fold(crc ^ u32::from(*byte), |crc, _| {
            if crc & 1 == 1 { crc >> 1 ^ 0xedb8_8320 } else { crc >> 1 }
        })
    })
}

/// The check value of the CRC catalogue for "123456789".
#[test]
fn the_check_value_is_the_catalogues() {
    assert_eq!(crc32(b"123456789"), 0xcbf4_3926);
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

    fn claimed(&mut self, n: Number) -> Result<Claimed, Unreadable> {
        self.store.claimed(n)
    }

    fn enrolled(&mut self) -> Result<u8, Unreadable> {
        self.store.enrolled()
    }

    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable> {
        self.store.pairing()
    }

    fn last_generation(&mut self) -> Result<u32, Unreadable> {
        self.store.last_generation()
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

    fn day_in_force(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.store.day_in_force(id, date)
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
        if let Write::Record(record) = write {
            self.comes(Kind::of(record, false));
        }
        self.taken(|store| store.write(write))
    }

    fn edit(&mut self, edit: &Edit, record: &Record) -> Result<(), StoreFault> {
        self.comes(Kind::of(record, true));
        self.taken(|store| store.edit(edit, record))
    }

    // What is staged changes nothing: it is no write in the model's sense.
    fn stage(&mut self, index: u8, bytes: &[u8]) -> Result<(), StoreFault> {
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
