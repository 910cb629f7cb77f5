//! Calls every public entry point of lock-core with inputs from [`outside`].
//!
//! One function a module of the core, never inlined, so that each shows up in
//! a symbol table by its name.

use lock_core::holder::Number;
use lock_core::keys::{Digit, Key, KeyQueue};

use crate::outside;

/// One round through the core.
pub fn everything() {
    keys();
    holders();
    #[cfg(feature = "deliberate-panic")]
    panic_path();
}

/// The queue as a board has it: a static, shared with the key interrupt.
static KEYS: KeyQueue = KeyQueue::new();

#[inline(never)]
fn keys() {
    let key = match outside::byte() {
        b'<' => Some(Key::Back),
        b'>' => Some(Key::Ok),
        d => Digit::new(d).map(Key::Digit),
    };
    if let Some(key) = key {
        outside::put(KEYS.push(key).is_ok());
    }
    match KEYS.take() {
        Some(Key::Digit(d)) => outside::put(d.get()),
        Some(Key::Back) => outside::put(b'<'),
        Some(Key::Ok) => outside::put(b'>'),
        None => {}
    }
    let [row, column, ..] = outside::bytes::<2>().map(usize::from);
    let laid_out = Key::LAYOUT.get(row).and_then(|keys| keys.get(column));
    outside::put(laid_out.is_some_and(|key| *key == Key::Ok));
}

#[inline(never)]
fn holders() {
    if let Some(number) = Number::new(outside::byte()) {
        outside::put(number.get());
    }
    if let Ok(number) = Number::try_from(outside::byte()) {
        let table = [0_u8; Number::COUNT];
        outside::put(table.get(number.index()).copied().unwrap_or(1));
    }
}

/// An index that may be out of bounds: what the gate must find.
#[cfg(feature = "deliberate-panic")]
#[inline(never)]
fn panic_path() {
    let table: [u8; 4] = outside::bytes();
    outside::put(table[usize::from(outside::byte())]);
}
