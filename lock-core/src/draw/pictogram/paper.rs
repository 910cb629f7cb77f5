//! Files that come and go, and something that is done.

use crate::draw::pen::Shape::{Line, Rect};
use crate::draw::pen::{Mark, cut, ink};

/// Two leaves: one with an arrow in, one with an arrow out.
pub(super) const FILES: &[Mark] = &[
    ink(Rect(2, 4, 50, 104)),
    cut(Rect(10, 12, 34, 88)),
    ink(Rect(60, 4, 50, 104)),
    cut(Rect(68, 12, 34, 88)),
    ink(Rect(23, 22, 8, 44)),
    ink(Rect(81, 46, 8, 44)),
    // The heads of the arrows.
    ink(Line((15, 58), (27, 76), 8)),
    ink(Line((39, 58), (27, 76), 8)),
    ink(Line((73, 54), (85, 36), 8)),
    ink(Line((97, 54), (85, 36), 8)),
];

pub(super) const TICK: &[Mark] =
    &[ink(Line((16, 60), (44, 90), 22)), ink(Line((44, 90), (94, 26), 22))];
