//! `lock_core::keys`

use lock_core::keys::{Digit, Key, KeyQueue};

use crate::outside;

/// The queue as a board has it: a static, shared with the key interrupt.
static KEYS: KeyQueue = KeyQueue::new();

/// Any key, or none.
pub fn any() -> Option<Key> {
    match outside::byte() {
        b'<' => Some(Key::Back),
        b'>' => Some(Key::Ok),
        d => Digit::new(d).map(Key::Digit),
    }
}

#[inline(never)]
pub fn queue() {
    if let Some(key) = any() {
        outside::put(KEYS.push(key).is_ok());
    }
    match KEYS.take() {
        Some(Key::Digit(d)) => outside::put(d.get()),
        Some(Key::Back) => outside::put(b'<'),
        Some(Key::Ok) => outside::put(b'>'),
        None => {}
    }
    let [row, column] = outside::bytes().map(usize::from);
    let laid_out = Key::LAYOUT.get(row).and_then(|keys| keys.get(column));
    outside::put(laid_out.is_some_and(|key| *key == Key::Ok));
}
