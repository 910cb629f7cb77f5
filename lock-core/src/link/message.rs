//! What laptop and lock say to each other: the laptop asks, the lock replies.
//!
//! A payload is postcard of the request's number and the request, or of the same
//! number and the reply. **The same number means the same request**: a laptop that
//! hears nothing asks again under the same number, and the lock then repeats its
//! reply and does nothing twice.

use serde::{Deserialize, Serialize};

use super::extract::{self, Scope};
use super::frame::PAYLOAD;
use super::wire::Wire;
use super::{FileFault, Fingerprint, Version, timetable_file};
use crate::audit::Seq;
use crate::pairing::LockNumber;
use crate::seal::CHUNK;

/// The version of what is said here, in [`Hello`].
pub const PROTOCOL: u8 = 1;

/// What the laptop asks.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Request<'a> {
    /// Who is there?
    Hello,
    /// A timetable file follows; this is its header. Whatever came of an earlier
    /// one is forgotten.
    File([u8; timetable_file::HEADER]),
    /// A chunk of it. The one shorter than [`CHUNK`] is the last: then the lock
    /// checks the whole.
    Load {
        /// Which chunk, from 0.
        index: u8,
        /// As it was sealed.
        #[serde(borrow)]
        bytes: &'a [u8],
    },
    /// Make an extract.
    Collect {
        /// Of which records.
        scope: Scope,
        /// Only of those not yet collected.
        since_last: bool,
    },
    /// A chunk of the extract: the next one, or the last one again.
    Next {
        /// Which chunk, from 0.
        chunk: u16,
    },
    /// The extract is safe on the laptop.
    Collected {
        /// Up to that record.
        up_to: Seq,
    },
    /// That was all.
    Bye,
}

/// What the lock replies.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Reply<'a> {
    /// To a hello.
    Hello(Hello),
    /// Done; go on.
    Taken,
    /// The file is whole, sealed for this lock and fit; somebody at the keypad is
    /// to compare its fingerprint.
    File {
        /// Its version.
        version: Version,
        /// Its fingerprint.
        fingerprint: Fingerprint,
    },
    /// An extract begins; this is its header.
    Extract([u8; extract::HEADER]),
    /// A chunk of it; the one shorter than [`CHUNK`] is the last.
    Chunk {
        /// Which chunk, from 0.
        index: u16,
        /// As it was sealed.
        #[serde(borrow)]
        bytes: &'a [u8],
    },
    /// No.
    Refused(Reason),
}

/// What a lock says of itself to whoever asks. No names, no times, no secrets.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Hello {
    /// [`PROTOCOL`].
    pub protocol: u8,
    /// The lock's number, and the generation of its pairing key, if it has one.
    pub pairing: Option<(LockNumber, u32)>,
    /// The version of the timetable file in force.
    pub file: Option<Version>,
    /// The newest record.
    pub newest: Option<Seq>,
    /// Up to which record the audit was collected.
    pub collected: Option<Seq>,
}

/// Why not.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Reason {
    /// The request is none that this lock knows.
    Unknown,
    /// Nobody at the keypad has asked for it.
    NotAsked,
    /// It comes out of turn: another chunk is due.
    OutOfTurn,
    /// The lock has no pairing key.
    NoKey,
    /// The file is of another kind or format.
    NotOurs,
    /// The file is for another lock.
    OtherLock,
    /// The file is sealed under another generation of the key.
    OtherKey,
    /// A seal does not hold, or the file is not whole.
    Broken,
    /// The file contradicts itself.
    Wrong,
    /// The file is no newer than the one in force, or than one that waits.
    Older,
    /// The lock cannot read or write its memory.
    Memory,
}

impl From<FileFault> for Reason {
    fn from(fault: FileFault) -> Self {
        match fault {
            FileFault::NoKey => Self::NoKey,
            FileFault::NotOurs | FileFault::Format(_) => Self::NotOurs,
            FileFault::OtherLock(_) => Self::OtherLock,
            FileFault::OtherKey(_) => Self::OtherKey,
            FileFault::Broken => Self::Broken,
            FileFault::Wrong(_) => Self::Wrong,
            FileFault::Old(_) => Self::Older,
            FileFault::NotStaged => Self::OutOfTurn,
            FileFault::Memory => Self::Memory,
        }
    }
}

/// A payload does not say anything, or not to its end.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Senseless;

impl<'a> Request<'a> {
    /// Reads a payload: the number and the request.
    ///
    /// # Errors
    /// [`Senseless`]; the number, if one can be read, is then 0.
    pub fn read(payload: &'a [u8]) -> Result<(u16, Self), Senseless> {
        let (read, rest) = postcard::take_from_bytes(payload).map_err(|_| Senseless)?;
        if let (_, Self::Load { bytes, .. }) = read
            && bytes.len() > CHUNK
        {
            return Err(Senseless);
        }
        if rest.is_empty() { Ok(read) } else { Err(Senseless) }
    }

    /// Writes the payload; `None` if it is longer than a frame takes.
    #[must_use]
    pub fn write(&self, number: u16, payload: &mut [u8; PAYLOAD]) -> Option<usize> {
        let mut wire = Wire::into(payload);
        wire.u16(number);
        match self {
            Self::Hello => wire.u8(0),
            Self::File(header) => {
                wire.u8(1);
                wire.raw(header);
            }
            Self::Load { index, bytes } => {
                wire.u8(2);
                wire.u8(*index);
                wire.bytes(bytes);
            }
            Self::Collect { scope, since_last } => {
                wire.u8(3);
                wire.u8(scope.number());
                wire.u8(u8::from(*since_last));
            }
            Self::Next { chunk } => {
                wire.u8(4);
                wire.u16(*chunk);
            }
            Self::Collected { up_to } => {
                wire.u8(5);
                wire.u32(up_to.0);
            }
            Self::Bye => wire.u8(6),
        }
        wire.length()
    }
}

impl<'a> Reply<'a> {
    /// Reads a payload: the number and the reply.
    ///
    /// # Errors
    /// [`Senseless`].
    pub fn read(payload: &'a [u8]) -> Result<(u16, Self), Senseless> {
        let (read, rest) = postcard::take_from_bytes(payload).map_err(|_| Senseless)?;
        if rest.is_empty() { Ok(read) } else { Err(Senseless) }
    }

    /// Writes the payload; `None` if it is longer than a frame takes.
    #[must_use]
    pub fn write(&self, number: u16, payload: &mut [u8; PAYLOAD]) -> Option<usize> {
        let mut wire = Wire::into(payload);
        wire.u16(number);
        match self {
            Self::Hello(hello) => {
                wire.u8(0);
                hello.write(&mut wire);
            }
            Self::Taken => wire.u8(1),
            Self::File { version, fingerprint } => {
                wire.u8(2);
                wire.u32(version.0);
                wire.u32(fingerprint.get());
            }
            Self::Extract(header) => {
                wire.u8(3);
                wire.raw(header);
            }
            Self::Chunk { index, bytes } => {
                wire.u8(4);
                wire.u16(*index);
                wire.bytes(bytes);
            }
            Self::Refused(reason) => {
                wire.u8(5);
                wire.u8(reason.number());
            }
        }
        wire.length()
    }
}

impl Hello {
    fn write(&self, wire: &mut Wire<'_>) {
        wire.u8(self.protocol);
        wire.u8(u8::from(self.pairing.is_some()));
        if let Some((lock, generation)) = self.pairing {
            wire.u16(lock.get());
            wire.u32(generation);
        }
        wire.option_u32(self.file.map(|version| version.0));
        wire.option_u32(self.newest.map(|seq| seq.0));
        wire.option_u32(self.collected.map(|seq| seq.0));
    }
}

impl Reason {
    /// Its place above, which is how it travels.
    const fn number(self) -> u8 {
        match self {
            Self::Unknown => 0,
            Self::NotAsked => 1,
            Self::OutOfTurn => 2,
            Self::NoKey => 3,
            Self::NotOurs => 4,
            Self::OtherLock => 5,
            Self::OtherKey => 6,
            Self::Broken => 7,
            Self::Wrong => 8,
            Self::Older => 9,
            Self::Memory => 10,
        }
    }
}

#[cfg(test)]
mod tests;
