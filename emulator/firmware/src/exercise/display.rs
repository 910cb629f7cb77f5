//! `lock_core::words` and `lock_core::draw`: every screen, in words and pixels.

use core::hint::black_box;

use lock_core::draw::{self, Frame, Pictogram};
use lock_core::screen::Screen;
use lock_core::words::{self, ENGLISH};

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
    // A language that the optimiser does not know.
    let language = black_box(&ENGLISH);
    outside::put_all(words::in_language(language, &screen).joined().as_bytes());
    let Ok(()) = draw::screen_in(language, &screen, &mut frame);
    let (x, y) = (u32::from(outside::byte()), u32::from(outside::byte()));
    outside::keep(&frame.pixel(x, y));
    outside::put_all(frame.bytes());
    outside::keep(&Pictogram::of(&screen));
}
