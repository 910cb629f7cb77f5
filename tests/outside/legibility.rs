//! Can it be read, and from how far?
//!
//! Sources: ISO 9241-3 (16 minutes of arc are the least height of a capital,
//! 20 to 22 are preferred); the height that an angle takes at a distance after
//! NUREG-0700, h = 6.283 · D · MA / 21600. That a sign reads from 200 times its
//! height is *common practice*. The pitch of a 2.9-inch e-paper of 296 × 128
//! pixels, 0.226 mm, is *from memory*.
//!
//! Heights are measured on the picture, not taken from a font's data sheet.

use std::f64::consts::TAU;

use lock_core::draw::{self, Frame, Ground};
use lock_core::rules::supply::Level;
use lock_core::screen::{ClockSeen, Screen};

const PITCH_MM: f64 = 0.226;
/// A hand on the keypad, the eyes an arm's length away.
const READING_MM: f64 = 600.0;

fn height_mm(distance_mm: f64, minutes: f64) -> f64 {
    TAU * distance_mm * minutes / 21_600.0
}

fn minutes(height_mm: f64, distance_mm: f64) -> f64 {
    height_mm * 21_600.0 / (TAU * distance_mm)
}

fn secured() -> Frame {
    let mut frame = Frame::new();
    let screen = Screen::Secured { supply: Level::Good, clock: ClockSeen::Valid };
    draw::screen(&screen, &mut frame).unwrap();
    frame
}

/// Millimetres from the top to the bottom of what differs from `ground` inside
/// a box of pixels: left, top, width, height.
fn extent_mm(frame: &Frame, area: (usize, usize, usize, usize), ground: Ground) -> f64 {
    let (left, top, width, height) = area;
    let inked = |x: usize, y: usize| frame.bytes()[y * 37 + x / 8] >> (7 - x % 8) & 1 == 1;
    let drawn = |y: usize| (left..left + width).any(|x| inked(x, y) != (ground == Ground::Ink));
    let first = (top..top + height).find(|&y| drawn(y)).expect("something is drawn");
    let last = (top..top + height).rev().find(|&y| drawn(y)).expect("something is drawn");
    f64::from(u32::try_from(last - first + 1).unwrap()) * PITCH_MM
}

/// The T of "Type your number", first of the body, and the S of "Secured",
/// first of the title, white on black.
#[test]
fn capitals_are_high_enough_at_arms_length() {
    let frame = secured();
    let body = extent_mm(&frame, (122, 31, 10, 24), Ground::Paper);
    let title = extent_mm(&frame, (122, 1, 10, 28), Ground::Ink);
    for capital in [body, title] {
        assert!(capital >= height_mm(READING_MM, 16.0), "{capital} mm");
        // Honest in the other direction: not the preferred 20 minutes.
        assert!((16.0..18.0).contains(&minutes(capital, READING_MM)), "{capital} mm");
    }
}

/// A pictogram of 25 mm reads from five metres: across a room.
#[test]
fn a_pictogram_reads_across_a_room() {
    let height = extent_mm(&secured(), (0, 0, 116, 128), Ground::Paper);
    let metres = height * 200.0 / 1_000.0;
    assert!((5.0..5.2).contains(&metres), "{metres} m");
}
