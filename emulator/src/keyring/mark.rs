//! What tells the file that was written last from a copy of it.
//!
//! Whenever a keyring is written a new file is made, and the number and the birth that
//! the file system gave it are sealed in it. A copy has others: on this machine or
//! another, of this state or an older one that is put back. So whoever counts on in a copy
//! is told before they do.
//!
//! Not told are a whole disk that was copied, a copy that somebody adopted though the
//! other goes on, and all copies where a file system keeps no birth, or the system is
//! none of the Unix kind.

use std::fs::Metadata;

/// A file's number and birth: 8 bytes, 8 of seconds, 4 of nanoseconds.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Mark([u8; Self::LEN]);

impl Mark {
    const LEN: usize = 20;

    /// That of a file; `None` where it is not known.
    #[cfg(unix)]
    pub(super) fn of(about: &Metadata) -> Option<Self> {
        // A number alone is given to the next file as soon as it is free.
        let born = about.created().ok()?.duration_since(std::time::UNIX_EPOCH).ok()?;
        let mut bytes = [0; Self::LEN];
        let number = std::os::unix::fs::MetadataExt::ino(about).to_le_bytes();
        let secs = born.as_secs().to_le_bytes();
        let nanos = born.subsec_nanos().to_le_bytes();
        let fields = number.into_iter().chain(secs).chain(nanos);
        for (to, from) in bytes.iter_mut().zip(fields) {
            *to = from;
        }
        Some(Self(bytes))
    }

    /// Elsewhere files have no number that the standard library tells.
    #[cfg(not(unix))]
    pub(super) const fn of(_: &Metadata) -> Option<Self> {
        None
    }

    pub(super) const fn bytes(&self) -> [u8; Self::LEN] {
        self.0
    }

    pub(super) const fn from_bytes(bytes: &[u8; Self::LEN]) -> Self {
        Self(*bytes)
    }
}
