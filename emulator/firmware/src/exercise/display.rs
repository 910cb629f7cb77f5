//! `lock_core::words` and `lock_core::draw`: every screen, in words and pixels.

use lock_core::draw::{self, Frame, Pictogram};
use lock_core::screen::Screen;
use lock_core::words;

use crate::outside;

/// Any screen, in words.
#[inline(never)]
pub fn said() {
    let Some(screen) = outside::any::<Screen>() else { return };
    let lines = words::english(&screen);
    outside::put_all(lines.title().as_bytes());
    for line in lines.body() {
        outside::put_all(line.as_bytes());
    }
    outside::put_all(lines.joined().as_bytes());
}

/// Any screen, drawn.
#[inline(never)]
pub fn drawn() {
    let Some(screen) = outside::any::<Screen>() else { return };
    let mut frame = Frame::new();
    let Ok(()) = draw::screen(&screen, &mut frame);
    outside::put_all(frame.bytes());
    outside::keep(&Pictogram::of(&screen));
}
