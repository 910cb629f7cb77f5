//! The laptop's end of the link: loading a timetable file, collecting an audit.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | [`Wire`], and [`Laptop`]: asking over one |
//! | `sealed.rs` | a sealed file, whole and in memory |
//! | `emulated.rs` | extracts of emulated locks: marked, under a key of their own |
//! | `contents.rs` | what lies on a stick, read once |
//! | `stick.rs` | the memory stick: a folder |
//!
//! It knows the messages of `lock_core::link` and nothing of states: whoever it
//! speaks to is a lock at the end of a cable, emulated or not.

mod contents;
pub mod emulated;
mod sealed;
mod stick;

use lock_core::audit::Seq;
use lock_core::link::extract::{ExtractReader, HEADER, Scope};
use lock_core::link::frame::PAYLOAD;
use lock_core::link::message::{Reason, Reply, Request};
use lock_core::link::{FileFault, Fingerprint, Version};
use lock_core::pairing::Pairing;
use lock_core::seal::{self, CHUNK};

pub use contents::{Contents, FILES_MOST};
pub use sealed::{FILE_MOST, Sealed, opening_times, sealed};
pub use stick::{EXTRACT, OfNoUse, Stick, TIMETABLES, extract_name};

/// A cable to a lock.
pub trait Wire {
    /// Sends a payload; what comes back, if anything does.
    fn ask(&mut self, payload: &[u8]) -> Option<Vec<u8>>;
}

/// How often something is asked before the laptop gives up.
const ASKS: usize = 3;

/// Why something was not carried.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Trouble {
    /// Nobody answers, or nothing that can be read.
    Silence,
    /// The lock said no.
    Refused(Reason),
    /// The lock answered something else than was asked.
    Confused,
    /// What came out is not as it was sealed.
    Spoilt(FileFault),
}

impl std::fmt::Display for Trouble {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            Self::Silence => "nobody answers",
            Self::Confused => "the lock answered something else",
            Self::Spoilt(_) => "what came out is not as it was sealed",
            Self::Refused(reason) => match reason {
                Reason::Unknown => "refused: not known",
                Reason::NotAsked => "refused: nobody at the keypad has asked for it",
                Reason::OutOfTurn => "refused: out of turn",
                Reason::NoKey => "refused: not paired",
                Reason::NotOurs => "refused: not such a file",
                Reason::OtherLock => "refused: for another lock",
                Reason::OtherKey => "refused: sealed under another key",
                Reason::Broken => "refused: broken",
                Reason::Wrong => "refused: wrong",
                Reason::Older => "refused: no newer than the one in force",
                Reason::Memory => "refused: the lock cannot store it, or another file waits",
            },
        })
    }
}

/// The laptop, asking over a wire.
pub struct Laptop<'w, W> {
    wire: &'w mut W,
    number: u16,
}

impl<'w, W: Wire> Laptop<'w, W> {
    /// A laptop at that wire; it numbers its requests from `number` on.
    pub const fn new(wire: &'w mut W, number: u16) -> Self {
        Self { wire, number }
    }

    /// The number of the request that was asked last.
    #[must_use]
    pub const fn number(&self) -> u16 {
        self.number
    }

    fn ask<T>(
        &mut self,
        request: &Request<'_>,
        read: impl FnOnce(Reply<'_>) -> Option<T>,
    ) -> Result<T, Trouble> {
        self.number = self.number.wrapping_add(1);
        let mut payload = [0; PAYLOAD];
        let length = request.write(self.number, &mut payload).ok_or(Trouble::Confused)?;
        for _ in 0..ASKS {
            let Some(answer) = self.wire.ask(&payload[..length]) else { continue };
            return match Reply::read(&answer) {
                Ok((number, Reply::Refused(reason))) if number == self.number => {
                    Err(Trouble::Refused(reason))
                }
                Ok((number, reply)) if number == self.number => {
                    read(reply).ok_or(Trouble::Confused)
                }
                Ok(_) | Err(_) => Err(Trouble::Confused),
            };
        }
        Err(Trouble::Silence)
    }

    fn done(&mut self, request: &Request<'_>) -> Result<(), Trouble> {
        self.ask(request, |reply| matches!(reply, Reply::Taken).then_some(()))
    }

    /// Loads a sealed timetable file; the lock then shows its fingerprint and
    /// waits for somebody's *OK*.
    ///
    /// # Errors
    /// [`Trouble`]; the lock has changed nothing.
    pub fn load(&mut self, file: &Sealed) -> Result<(Version, Fingerprint), Trouble> {
        self.done(&Request::File(file.header))?;
        let mut offered = None;
        for (index, bytes) in (0..).zip(&file.chunks) {
            let request = Request::Load { index, bytes };
            if seal::is_last(bytes.len()) {
                offered = Some(self.ask(&request, |reply| match reply {
                    Reply::File { version, fingerprint } => Some((version, fingerprint)),
                    _ => None,
                })?);
            } else {
                self.done(&request)?;
            }
        }
        offered.ok_or(Trouble::Confused)
    }

    /// Collects an extract and reads it to its end; its bytes as they travel, and
    /// the newest record that it tells of.
    ///
    /// # Errors
    /// [`Trouble`]; nothing is marked as collected.
    pub fn collect(
        &mut self,
        scope: Scope,
        since_last: bool,
        pairing: &Pairing,
    ) -> Result<(Vec<u8>, Option<Seq>), Trouble> {
        let header = self.ask(&Request::Collect { scope, since_last }, |reply| match reply {
            Reply::Extract(header) => Some(header),
            _ => None,
        })?;
        let mut whole: Vec<u8> = header.to_vec();
        let header: [u8; HEADER] = header;
        let mut reader = ExtractReader::open(&header, pairing).map_err(Trouble::Spoilt)?;
        for chunk in 0..u16::MAX {
            let bytes = self.ask(&Request::Next { chunk }, |reply| match reply {
                Reply::Chunk { index, bytes } if index == chunk => Some(bytes.to_vec()),
                _ => None,
            })?;
            whole.extend_from_slice(&bytes);
            let mut room = [0; CHUNK];
            room.get_mut(..bytes.len()).ok_or(Trouble::Confused)?.copy_from_slice(&bytes);
            reader.chunk(&mut room, bytes.len()).map_err(Trouble::Spoilt)?;
            if reader.is_whole() {
                break;
            }
        }
        Ok((whole, reader.header().newest))
    }

    /// Tells the lock that the audit up to there is safe.
    ///
    /// # Errors
    /// [`Trouble`].
    pub fn confirm(&mut self, up_to: Seq) -> Result<(), Trouble> {
        self.done(&Request::Collected { up_to })
    }
}
