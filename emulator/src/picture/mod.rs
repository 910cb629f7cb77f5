//! What the lock's display shows, for a terminal or a file.
//!
//! The pixels are those that `lock-core` draws; nothing is drawn twice.

mod file;
mod terminal;

pub use file::{png, sheet};
pub use terminal::{COLUMNS, Look, ROWS, panel};

use lock_core::draw::{self, Frame};
use lock_core::screen::Screen;

/// The picture of `screen`.
#[must_use]
pub fn frame(screen: &Screen) -> Frame {
    let mut frame = Frame::new();
    match draw::screen(screen, &mut frame) {
        Ok(()) => frame,
        Err(never) => match never {},
    }
}
