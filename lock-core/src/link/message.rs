//! What is asked over the link, and what is answered: postcard messages.
//!
//! The lock reads questions with postcard; answers it writes itself, since
//! postcard's writing of numbers can panic on a microcontroller. A test holds
//! what it writes to what postcard reads.

use serde::{Deserialize, Serialize};

use super::frame::MESSAGE;
use crate::audit::Seq;

/// Bytes of a piece of a file: a sealed chunk.
pub const PIECE: usize = 256;

/// The version of these messages. A lock answers [`Why::Version`] to another.
pub const VERSION: u8 = 1;

/// What the laptop asks.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Request<'a> {
    /// Who are you, and what do you have?
    Hello {
        /// The version of the messages: [`VERSION`].
        version: u8,
    },
    /// Take this piece of a timetable file; 0 is its header.
    Load {
        /// Which piece.
        index: u8,
        /// Whether the file ends with it.
        last: bool,
        /// The piece, at most [`PIECE`] bytes.
        #[serde(borrow)]
        bytes: &'a [u8],
    },
    /// Begin an extract of the audit.
    Collect {
        /// What belongs in it.
        scope: Scope,
        /// Whether only what no reader has confirmed to have.
        since_last: bool,
    },
    /// Give that chunk of the extract.
    Next {
        /// The last one given, again, or the one after it.
        chunk: u16,
    },
    /// The reader has the audit up to that record.
    Collected {
        /// The record.
        up_to: Seq,
    },
    /// The stick is pulled out.
    Bye,
}

/// What belongs in an extract.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Scope {
    /// Everything.
    All,
    /// Openings and what belongs to them.
    Openings,
    /// Changes.
    Changes,
    /// Alarms and refusals.
    Alarms,
}

/// What the lock answers.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Reply<'a> {
    /// Who it is.
    Hello {
        /// Its number.
        lock: u16,
        /// The generation of its pairing key.
        generation: u32,
        /// The version of the timetable file in force, 0 for none.
        file: u32,
        /// The newest record's number.
        newest: u32,
        /// The newest record that a reader confirmed to have.
        collected: u32,
    },
    /// The piece is taken; go on.
    Taken,
    /// The file is whole: the screen shows this and waits for *OK*.
    File {
        /// Its version.
        version: u32,
        /// Its fingerprint, eight digits.
        fingerprint: u32,
    },
    /// The header of the extract.
    Extract {
        /// The header.
        #[serde(borrow)]
        header: &'a [u8],
    },
    /// A chunk of the extract.
    Chunk {
        /// Whether the extract ends with it.
        last: bool,
        /// The sealed chunk.
        #[serde(borrow)]
        bytes: &'a [u8],
    },
    /// It is done.
    Done,
    /// It is not done.
    Refused(Why),
}

/// Why something that was asked is not done.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Why {
    /// No steward's session for files is open at the keypad.
    NotOpen,
    /// The question cannot be read.
    Unreadable,
    /// These messages are of another version.
    Version,
    /// Lock and laptop are not paired.
    NotPaired,
    /// What was staged is no whole timetable file.
    BrokenFile,
    /// The file is for another lock.
    OtherLock,
    /// The file is sealed under another pairing key.
    OtherKey,
    /// A file of this or a later version is in force.
    OldFile,
    /// The file is whole, but says something that no lock can keep.
    WrongFile,
    /// There is no such chunk, or no extract was begun.
    NoChunk,
    /// The lock cannot store, or reads its memory no more.
    Memory,
}

/// A reply as bytes.
pub type Written = heapless::Vec<u8, MESSAGE>;

impl Reply<'_> {
    /// The reply as postcard writes it; `None` if a piece is longer than
    /// [`PIECE`].
    #[must_use]
    pub fn write(&self) -> Option<Written> {
        let mut out = Written::new();
        match *self {
            Self::Hello { lock, generation, file, newest, collected } => {
                out.push(0).ok()?;
                for number in [u32::from(lock), generation, file, newest, collected] {
                    varint(&mut out, number)?;
                }
            }
            Self::Taken => out.push(1).ok()?,
            Self::File { version, fingerprint } => {
                out.push(2).ok()?;
                varint(&mut out, version)?;
                varint(&mut out, fingerprint)?;
            }
            Self::Extract { header } => {
                out.push(3).ok()?;
                bytes(&mut out, header)?;
            }
            Self::Chunk { last, bytes: piece } => {
                out.push(4).ok()?;
                out.push(u8::from(last)).ok()?;
                bytes(&mut out, piece)?;
            }
            Self::Done => out.push(5).ok()?,
            Self::Refused(why) => {
                out.push(6).ok()?;
                out.push(why.number()).ok()?;
            }
        }
        Some(out)
    }
}

impl Why {
    const fn number(self) -> u8 {
        match self {
            Self::NotOpen => 0,
            Self::Unreadable => 1,
            Self::Version => 2,
            Self::NotPaired => 3,
            Self::BrokenFile => 4,
            Self::OtherLock => 5,
            Self::OtherKey => 6,
            Self::OldFile => 7,
            Self::WrongFile => 8,
            Self::NoChunk => 9,
            Self::Memory => 10,
        }
    }
}

/// A number, seven bits a byte, the lowest first.
fn varint(out: &mut Written, mut number: u32) -> Option<()> {
    loop {
        let low = u8::try_from(number & 0x7F).ok()?;
        number >>= 7;
        if number == 0 {
            return out.push(low).ok();
        }
        out.push(low | 0x80).ok()?;
    }
}

fn bytes(out: &mut Written, piece: &[u8]) -> Option<()> {
    if piece.len() > PIECE {
        return None;
    }
    varint(out, u32::try_from(piece.len()).ok()?)?;
    out.extend_from_slice(piece).ok()
}

/// The question in a message.
///
/// # Errors
/// [`Why::Unreadable`] if it is none, or something stands behind it.
pub fn read(message: &[u8]) -> Result<Request<'_>, Why> {
    match postcard::take_from_bytes::<Request<'_>>(message) {
        Ok((Request::Load { bytes, .. }, _)) if bytes.len() > PIECE => Err(Why::Unreadable),
        Ok((request, [])) => Ok(request),
        Ok((_, [_, ..])) | Err(_) => Err(Why::Unreadable),
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    const WHYS: [Why; 11] = [
        Why::NotOpen,
        Why::Unreadable,
        Why::Version,
        Why::NotPaired,
        Why::BrokenFile,
        Why::OtherLock,
        Why::OtherKey,
        Why::OldFile,
        Why::WrongFile,
        Why::NoChunk,
        Why::Memory,
    ];

    fn as_postcard(reply: &Reply<'_>) {
        let written = reply.write().unwrap();
        let mut room = [0; MESSAGE];
        assert_eq!(written.as_slice(), postcard::to_slice(reply, &mut room).unwrap());
        assert_eq!(postcard::from_bytes::<Reply<'_>>(&written), Ok(*reply));
    }

    proptest! {
        /// postcard, the crate, is the judge of what is written by hand.
        #[test]
        fn replies_are_written_as_postcard_writes_them(
            lock in any::<u16>(),
            [a, b, c, d] in any::<[u32; 4]>(),
            shift in 0..32_u32,
            last in any::<bool>(),
            piece in proptest::collection::vec(any::<u8>(), 0..=PIECE),
        ) {
            let (a, b) = (a >> shift, b >> shift);
            let replies = [
                Reply::Hello { lock, generation: a, file: b, newest: c, collected: d },
                Reply::File { version: a, fingerprint: b },
                Reply::Extract { header: &piece },
                Reply::Chunk { last, bytes: &piece },
                Reply::Taken,
                Reply::Done,
            ];
            replies.iter().for_each(as_postcard);
        }

        /// What is no question is refused, and never anything worse.
        #[test]
        fn any_bytes_are_a_question_or_refused(
            message in proptest::collection::vec(any::<u8>(), 0..400),
        ) {
            if let Ok(request) = read(&message) {
                let mut room = [0; 512];
                // Numbers may be written longer than they need.
                let again = postcard::to_slice(&request, &mut room).unwrap();
                prop_assert_eq!(read(again), Ok(request));
            }
        }
    }

    #[test]
    fn every_reason_is_written_as_postcard_writes_it() {
        for why in WHYS {
            as_postcard(&Reply::Refused(why));
        }
    }

    #[test]
    fn what_is_too_long_is_no_piece() {
        let long = [7; PIECE + 1];
        assert_eq!(Reply::Chunk { last: true, bytes: &long }.write(), None);
        let mut room = [0; 512];
        let load = Request::Load { index: 0, last: false, bytes: &long };
        let written = postcard::to_slice(&load, &mut room).unwrap();
        assert_eq!(read(written), Err(Why::Unreadable));
    }
}
