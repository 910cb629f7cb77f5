//! People.

use crate::draw::pen::Shape::{Disc, Rect};
use crate::draw::pen::{Mark, cut, ink};

pub(super) const PERSON: &[Mark] = &[
    ink(Disc(32, 0, 48)),
    // Shoulders, rounded.
    ink(Disc(8, 56, 48)),
    ink(Disc(56, 56, 48)),
    ink(Rect(32, 56, 48, 24)),
    ink(Rect(8, 80, 96, 32)),
];

/// One who is here, and one who is awaited.
pub(super) const TWO: &[Mark] = &[
    ink(Disc(66, 14, 38)),
    ink(Disc(58, 56, 34)),
    ink(Disc(78, 56, 34)),
    ink(Rect(75, 56, 20, 17)),
    ink(Rect(58, 73, 54, 39)),
    // Only the outline of the second.
    cut(Disc(72, 20, 26)),
    cut(Disc(64, 62, 22)),
    cut(Disc(84, 62, 22)),
    cut(Rect(75, 62, 20, 12)),
    cut(Rect(64, 73, 42, 33)),
    // The first, half as wide as a person alone.
    ink(Disc(8, 14, 38)),
    ink(Disc(0, 56, 34)),
    ink(Disc(20, 56, 34)),
    ink(Rect(17, 56, 20, 17)),
    ink(Rect(0, 73, 54, 39)),
];
