//! What the lock depends on: its supply, the building's alarm, service.

use crate::draw::pen::Shape::{Disc, Line, Rect};
use crate::draw::pen::{Mark, cut, ink};

/// A battery without anything in it.
pub(super) const SPENT: &[Mark] =
    &[ink(Rect(0, 28, 100, 56)), ink(Rect(100, 44, 12, 24)), cut(Rect(8, 36, 84, 40))];

/// A small battery with little in it, in the door under the bolt.
pub(super) const SMALL_BATTERY: &[Mark] = &[
    ink(Rect(16, 76, 40, 24)),
    ink(Rect(56, 82, 6, 12)),
    cut(Rect(20, 80, 32, 16)),
    ink(Rect(22, 82, 8, 12)),
];

pub(super) const BELL: &[Mark] = &[
    ink(Disc(48, 0, 16)),
    ink(Disc(20, 10, 72)),
    ink(Rect(20, 46, 72, 32)),
    ink(Rect(8, 76, 96, 12)),
    ink(Disc(44, 88, 24)),
    cut(Rect(8, 88, 96, 4)),
];

pub(super) const DIAL: &[Mark] = &[
    ink(Disc(0, 0, 112)),
    cut(Disc(10, 10, 92)),
    // The scale is open below.
    cut(Rect(0, 84, 112, 28)),
    ink(Line((56, 60), (80, 28), 10)),
    ink(Disc(44, 48, 24)),
    ink(Rect(32, 92, 48, 12)),
];

pub(super) const SPANNER: &[Mark] = &[
    ink(Line((30, 81), (81, 30), 22)),
    ink(Disc(56, 4, 52)),
    ink(Disc(4, 56, 52)),
    // Jaw and ring.
    cut(Line((80, 31), (102, 9), 20)),
    cut(Disc(18, 70, 24)),
];
