//! The lock's own store on emulated flash. A boot mounts it anew, from nothing
//! but what lies in the flash.

use emulated_board::RamFlash;
use lock_core::audit::{Entry, Record, Seq};
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

use super::settings;
use crate::reference::{Durable, Flash as Kept};

const WORD: usize = 8;
const PAGE: usize = 2_048;

type Flash = RamFlash<WORD, PAGE, Vec<u8>>;

pub(super) struct Memory {
    store: FlashStore<Flash>,
    /// How many more writes are taken; `None`: all.
    left: Option<u32>,
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
            Kept::Erased => FlashStore::at_rest(erased(), layout()),
            Kept::Ours => formatted(kept),
            Kept::OtherLayout => {
                let mut flash = formatted(kept).into_flash();
                relabel(flash.content_mut());
                FlashStore::at_rest(flash, layout())
            }
        };
        Self { store, left: None }
    }

    pub(super) fn fail_after(&mut self, more: u32) {
        self.left = Some(more);
    }

    /// What a boot finds: all that was in memory is gone, and writes work again.
    pub(super) fn mount(self) -> (Self, Recovered) {
        let (store, found) = FlashStore::mount(self.store.into_flash(), layout());
        (Self { store, left: None }, found)
    }

    /// A write is tried, unless it is one that fails; only what is taken counts.
    fn taken(
        &mut self,
        write: impl FnOnce(&mut FlashStore<Flash>) -> Result<(), StoreFault>,
    ) -> Result<(), StoreFault> {
        if self.left == Some(0) {
            return Err(StoreFault);
        }
        let written = write(&mut self.store);
        if written.is_ok() {
            self.left = self.left.map(|left| left - 1);
        }
        written
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
        self.taken(|store| store.write(write))
    }

    fn edit(&mut self, edit: &Edit, record: &Record) -> Result<(), StoreFault> {
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
