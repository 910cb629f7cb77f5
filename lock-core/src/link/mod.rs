//! What travels between laptop and lock: sealed files, and the frames that carry
//! them. The byte tables, and what may ever change of them, stand in
//! `docs/wire-format.md`.
//!
//! | file | concept |
//! | --- | --- |
//! | `header.rs` | what every file says of itself in clear |
//! | `timetable_file.rs` | [`timetable_file`]: opening times for a lock |
//! | `extract.rs`, `extract/` | [`extract`]: records carried out of a lock |
//! | `frame.rs` | [`frame`]: bytes on a wire, cut into frames, each checked |
//! | `message.rs` | [`message`]: what laptop and lock say to each other |
//! | `wire.rs` | writing postcard's format |
//!
//! Nothing here knows states or flash: files are opened chunk by chunk from
//! whatever holds them, and extracts written from any list of entries. On failure
//! nothing is taken over; a [`FileFault`] says why.

pub mod extract;
pub mod frame;
mod header;
pub mod message;
pub mod timetable_file;
mod wire;

use core::fmt;

use serde::{Deserialize, Serialize};
use sha2::{Digest as _, Sha256};

pub use timetable_file::Wrong;

/// Counts the timetable files for one lock; the newer has the higher one.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
pub struct Version(pub u32);

/// Why a file is not taken.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FileFault {
    /// The lock has no pairing key yet; said by whoever looked for it.
    NoKey,
    /// It does not begin as a file of this kind does.
    NotOurs,
    /// It has a format of that version, which this program does not know.
    Format(u8),
    /// It is for, or from, the lock of that number.
    OtherLock(u16),
    /// It is sealed under that generation of the pairing key.
    OtherKey(u32),
    /// It is not as it was sealed: changed, cut short, or longer.
    Broken,
    /// It is sealed rightly, and yet cannot be used.
    Wrong(Wrong),
    /// That version is in force or waits, and its own is not above it; said by
    /// whoever keeps the files.
    Old(u32),
    /// Nothing is staged; said by whoever keeps the files.
    NotStaged,
    /// What was opened could not be kept; said by whoever keeps the files.
    Memory,
}

/// Eight digits that a lock shows and a laptop prints, so that people see that
/// the lock took the file they mean.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Fingerprint(u32);

impl Fingerprint {
    /// Fingerprints are below this.
    const ALL: u32 = 100_000_000;

    /// The number, below 100,000,000.
    #[must_use]
    pub const fn get(self) -> u32 {
        self.0 % Self::ALL
    }
}

impl fmt::Display for Fingerprint {
    /// Two groups of four digits.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:04} {:04}", self.get() / 10_000, self.get() % 10_000)
    }
}

/// Makes a fingerprint: the first four bytes of the SHA-256 of header and sealed
/// chunks, highest first, modulo 100,000,000.
struct Fingerprinting(Sha256);

impl Fingerprinting {
    fn of(header: &[u8]) -> Self {
        Self(Sha256::new_with_prefix(header))
    }

    fn take(&mut self, chunk: &[u8]) {
        self.0.update(chunk);
    }

    fn end(self) -> Fingerprint {
        let hash: [u8; 32] = self.0.finalize().into();
        let first = hash.first_chunk().copied().unwrap_or_default();
        Fingerprint(u32::from_be_bytes(first) % Fingerprint::ALL)
    }
}
