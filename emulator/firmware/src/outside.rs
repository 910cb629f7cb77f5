//! Bytes that the optimiser knows nothing about, in and out.
//!
//! Read from and written to the data register of the board's first UART
//! (CMSDK APB UART: 32 bits wide, a byte in the lowest eight). Whatever the
//! exercise computes from such bytes has to be kept, and has to be right for
//! every value.

use core::fmt::{self, Write as _};
use core::hint::black_box;
use core::ptr;

use serde::de::DeserializeOwned;

const UART0_DATA: *mut u32 = ptr::with_exposed_provenance_mut(0x4000_4000);

fn word() -> u32 {
    // SAFETY: a device register of this board, aligned, readable at any time.
    unsafe { UART0_DATA.read_volatile() }
}

fn put_word(word: u32) {
    // SAFETY: a device register of this board, aligned, writable at any time.
    unsafe { UART0_DATA.write_volatile(word) }
}

/// Any byte.
pub fn byte() -> u8 {
    word().to_le_bytes()[0]
}

/// Any bytes.
pub fn bytes<const N: usize>() -> [u8; N] {
    core::array::from_fn(|_| byte())
}

/// Any value of a type that can be read from bytes, or none.
pub fn any<T: DeserializeOwned>() -> Option<T> {
    postcard::from_bytes(&bytes::<48>()).ok()
}

/// Uses up a value, so that nothing before it can be left out.
pub fn put(value: impl Into<u32>) {
    put_word(value.into());
}

/// Uses up bytes.
pub fn put_all(values: &[u8]) {
    for value in values {
        put(*value);
    }
}

/// Uses up data of any type. Not by serialising it: postcard's writing of
/// numbers has panic paths of its own.
pub fn keep<T>(data: &T) {
    black_box(data);
}

/// Uses up a message.
pub fn print(message: impl fmt::Display) {
    // The sink below takes everything, and a message has nothing to refuse.
    let _ = write!(Sink, "{message}");
}

struct Sink;

impl fmt::Write for Sink {
    fn write_str(&mut self, text: &str) -> fmt::Result {
        put_all(text.as_bytes());
        Ok(())
    }
}
