//! What every file says of itself in clear, authenticated by the seal of each
//! chunk.
//!
//! ```text
//!  0  magic       9C 4C 6B 0A
//!  4  format      u8   2 of a timetable file, 1 of an extract
//!  5  kind        u8   1 timetable file, 2 extract
//!  6  lock        u16
//!  8  generation  u32  of the pairing key
//! 12  more, by kind
//! ```

use super::FileFault;
use crate::byte_table::{Put, Take};
use crate::pairing::{LockNumber, Pairing};

/// Not text from the first byte on; the last is a line end, so that whatever
/// changes line ends spoils it at once.
const MAGIC: [u8; 4] = [0x9C, 0x4C, 0x6B, 0x0A];

/// What kind of file it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Kind {
    Timetables,
    Extract,
}

impl Kind {
    const fn number(self) -> u8 {
        match self {
            Self::Timetables => 1,
            Self::Extract => 2,
        }
    }

    /// The format that `docs/wire-format.md` describes.
    const fn format(self) -> u8 {
        match self {
            Self::Timetables => 2,
            Self::Extract => 1,
        }
    }
}

/// Writes what all kinds have in common.
pub(super) fn put_common(kind: Kind, pairing: &Pairing, put: &mut Put<'_>) {
    put.bytes(&MAGIC);
    put.u8(kind.format());
    put.u8(kind.number());
    put.u16(pairing.lock().get());
    put.u32(pairing.generation());
}

/// Reads it, whatever key it names.
pub(super) fn take_common(kind: Kind, take: &mut Take<'_>) -> Result<(LockNumber, u32), FileFault> {
    if take.array() != MAGIC {
        return Err(FileFault::NotOurs);
    }
    let (format, of_kind) = (take.u8(), take.u8());
    if of_kind != kind.number() {
        return Err(FileFault::NotOurs);
    }
    if format != kind.format() {
        return Err(FileFault::Format(format));
    }
    let (lock, generation) = (LockNumber::new(take.u16()), take.u32());
    lock.map(|lock| (lock, generation)).ok_or(FileFault::NotOurs)
}

/// Whether that key opens it.
pub(super) fn check_key(
    (lock, generation): (LockNumber, u32),
    pairing: &Pairing,
) -> Result<(), FileFault> {
    if lock != pairing.lock() {
        return Err(FileFault::OtherLock(lock.get()));
    }
    if generation != pairing.generation() {
        return Err(FileFault::OtherKey(generation));
    }
    Ok(())
}
