//! The lock's flash on the emulated board, and the store in it.

use emulated_board::flash::RamFlash;
use lock_core::recovered::Recovered;
use lock_core::settings::Settings;
use lock_core::store::{FlashStore, FormatError, Layout};

/// Word and page of the emulated flash, as many small microcontrollers have
/// them (from memory).
const WORD: usize = 8;
const PAGE: usize = 2_048;

const LAYOUT: Layout = match Layout::for_pages_of(PAGE) {
    Some(layout) => layout,
    None => panic!("the store takes pages of this size"),
};

const BYTES: usize = match LAYOUT.bytes(PAGE) {
    Some(bytes) => bytes as usize,
    None => panic!("the store takes pages of this size"),
};

/// Flash in RAM.
pub type Flash = RamFlash<WORD, PAGE, Vec<u8>>;

/// The store in it.
pub type Memory = FlashStore<Flash>;

/// A store that was formatted with `settings`.
///
/// # Errors
/// [`FormatError`] if the settings cannot be stored.
pub fn commission(settings: &Settings) -> Result<Memory, FormatError> {
    FlashStore::format(Flash::erased(vec![0; BYTES]), LAYOUT, settings)
}

/// The store as a boot takes it up: nothing of the last one's memory is kept.
#[must_use]
pub fn mount(memory: Memory) -> (Memory, Recovered) {
    FlashStore::mount(memory.into_flash(), LAYOUT)
}
