//! Why a call failed.

use embedded_storage::nor_flash::{NorFlashError, NorFlashErrorKind};

/// Why a call failed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FlashError {
    /// An address or length that is no multiple of what the flash asks for.
    Alignment,
    /// Beyond the end of the flash, or of a byte.
    Bounds,
    /// A program that would raise a bit. Counted in
    /// [`Violations`](super::Violations).
    RaisesBits,
    /// A program of a word that had as many as it takes. Counted in
    /// [`Violations`](super::Violations).
    ProgramLimit,
    /// The page is worn: it had as many erases as it takes.
    Worn,
    /// The power is out, or went out within this call.
    PowerOut,
    /// One of the failures that were ordered, of
    /// [`RamFlash::fail_next_writes`](super::RamFlash::fail_next_writes) or
    /// its sisters.
    Ordered,
    /// More stuck bits than a chip keeps.
    TooMany,
}

impl NorFlashError for FlashError {
    fn kind(&self) -> NorFlashErrorKind {
        match self {
            Self::Alignment => NorFlashErrorKind::NotAligned,
            Self::Bounds => NorFlashErrorKind::OutOfBounds,
            Self::RaisesBits
            | Self::ProgramLimit
            | Self::Worn
            | Self::PowerOut
            | Self::Ordered
            | Self::TooMany => NorFlashErrorKind::Other,
        }
    }
}
