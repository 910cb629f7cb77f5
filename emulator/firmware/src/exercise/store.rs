//! `lock_core::store`: a whole store, and a lock on it, in a flash that may
//! answer anything.

use embedded_storage::nor_flash::{ErrorType, NorFlash, NorFlashErrorKind, ReadNorFlash};
use lock_core::audit::Seq;
use lock_core::board::Bench;
use lock_core::device::Device;
use lock_core::link::frame::PAYLOAD;
use lock_core::port::{Reads, Store};
use lock_core::rules::Days;
use lock_core::settings::{Edit, Settings};
use lock_core::store::{FlashStore, Layout, Ram, RamStore};
use lock_core::time::{Seconds, Utc};

use crate::exercise::{calendar, holder, link, lock, policy};
use crate::outside;

/// Flash that is the outside.
struct Flash;

/// A page, as the sector of a common external flash chip (from memory).
const PAGE: usize = 4_096;

impl ErrorType for Flash {
    type Error = NorFlashErrorKind;
}

impl ReadNorFlash for Flash {
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), NorFlashErrorKind> {
        outside::put(offset);
        for byte in bytes {
            *byte = outside::byte();
        }
        answer()
    }

    fn capacity(&self) -> usize {
        usize::from(outside::byte()) * PAGE
    }
}

impl NorFlash for Flash {
    const WRITE_SIZE: usize = 8;
    const ERASE_SIZE: usize = PAGE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), NorFlashErrorKind> {
        outside::put(from);
        outside::put(to);
        answer()
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), NorFlashErrorKind> {
        outside::put(offset);
        outside::put_all(bytes);
        answer()
    }
}

fn answer() -> Result<(), NorFlashErrorKind> {
    if outside::byte() == 0 { Err(NorFlashErrorKind::Other) } else { Ok(()) }
}

fn settings() -> Option<Settings> {
    Some(Settings {
        policy: policy::any(),
        zone: outside::any()?,
        key: lock_core::code::LockKey::from_bytes(outside::bytes()),
        pairing: link::pairing(),
        holders: core::array::from_fn(|_| holder::row()),
        calendar: calendar::any(),
    })
}

/// Commissioning, then everything that a store is asked.
#[inline(never)]
pub fn commission() {
    let (Some(layout), Some(settings)) = (Layout::for_pages_of(PAGE), settings()) else { return };
    outside::put(layout.pages());
    outside::put(layout.boot_steps(8));
    outside::put(layout.openings_kept(PAGE));
    outside::put(layout.refusals_kept(PAGE));
    outside::keep(&layout.bytes(PAGE));
    outside::keep(&layout.fits(PAGE, Flash.capacity()));
    match FlashStore::format(Flash, layout, &settings) {
        Ok(store) => outside::keep(&store.into_flash()),
        Err(why) => outside::keep(&why),
    }
}

/// A mount of whatever lies there, and its answers.
#[inline(never)]
pub fn mount() {
    let Some(layout) = Layout::smallest(PAGE) else { return };
    let (mut store, found) = FlashStore::mount(Flash, layout);
    outside::keep(&found.known.is_ok());
    while let Some(write) = outside::any() {
        outside::keep(&store.write(&write));
    }
    outside::keep(&store.tend());
    if let (Some(number), Some(record)) = (outside::any(), outside::any()) {
        outside::keep(&store.edit(&Edit::Holder(number, holder::row()), &record));
    }
    if let Ok(Some(pairing)) = store.pairing() {
        outside::put(pairing.generation());
        outside::put_all(pairing.key());
    }
    if let Some(number) = outside::any() {
        outside::keep(&store.holder(number).is_ok());
    }
    if let (Some(id), Some(date)) = (outside::any(), outside::any()) {
        outside::keep(&store.day(id, date));
    }
    outside::keep(&store.newest());
    outside::keep(store.flash_mut());
    for listed in store.records(Seq(0)) {
        outside::keep(&listed.last());
        outside::keep(&listed.record());
    }
}

/// A lock as a product has it: machine, board, store.
#[inline(never)]
pub fn product() {
    let Some(layout) = Layout::for_pages_of(PAGE) else { return };
    let (store, found) = FlashStore::mount(Flash, layout);
    let mut device = Device::power_up(lock::desk(), store, found);
    for _ in 0..outside::byte() {
        outside::keep(&device.advance());
        let asked: [u8; PAYLOAD] = outside::bytes();
        let asked = asked.get(..usize::from(outside::byte())).unwrap_or_default();
        outside::put_all(device.serve(asked).unwrap_or_default());
    }
}

/// A lock without hardware: a board and a flash that are memory.
#[inline(never)]
pub fn without_hardware() {
    let mut bench = Bench::at(Utc::from_secs(u32::from_le_bytes(outside::bytes())));
    let text: [u8; 32] = outside::bytes();
    if let Ok(keys) = core::str::from_utf8(&text) {
        outside::keep(&bench.press(keys));
    }
    outside::keep(&bench.shut());
    bench.pass(Seconds::new(outside::byte().into()));
    let (store, found) = RamStore::mount(Ram::blank(), Ram::LAYOUT);
    let mut device = Device::power_up(bench, store, found);
    for _ in 0..outside::byte() {
        outside::keep(&device.advance());
    }
    outside::keep(&device.board().blocker);
}
