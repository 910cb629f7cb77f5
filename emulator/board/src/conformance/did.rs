//! What a lock did.
//!
//! ```text
//! byte 0: kind, then
//!
//! 1 power on      uptime begins at 0
//! 2 at            what follows happens at this uptime: ms, 8
//! 3 alarm         0 quiet, 1 tamper, 2 duress
//! 4 drive         0 block, 1 free
//! 5 sound         0 key, 1 accepted, 2 refused, 3 warning
//! 6 clock set     seconds since 1970-01-01 UTC, 4
//! 7 screen        CRC-32 of the 4,736 bytes of its picture, 4
//! 8 program       a word of flash was begun: address, 4; length; the word
//! 9 erase         a page of flash was begun: its number, 4
//! 10 reply        to a frame: 0 none, 1 a payload; length, 2; the payload
//! 11 asleep       nothing is left to do until: 0 something happens, 1 this
//!                 uptime, 8, or it
//! 12 power gone
//! ```
//!
//! The CRC-32 is that of ISO-HDLC (`zlib`, `zip`): a check value, no seal.

use core::cell::Cell;

use crc::{CRC_32_ISO_HDLC, Crc};
use lock_core::draw::Frame;
use lock_core::link::frame::PAYLOAD;
use lock_core::port::{Alarm, Drive, Effect, Sound};
use lock_core::screen::Screen;
use lock_core::time::Uptime;

use super::cue::Out;

/// Bytes of the longest item.
pub const DID: usize = 1 + 1 + 2 + PAYLOAD;

/// Something that a lock did.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Did<'a> {
    /// Power came.
    PowerOn,
    /// What follows happens then.
    At(Uptime),
    /// An effect that reached the world, but a screen.
    Effect(Effect),
    /// A screen: the check value of its picture.
    Screen(u32),
    /// A word of flash was begun.
    Program {
        /// Its first byte.
        address: u32,
        /// What was to be in it.
        word: &'a [u8],
    },
    /// A page of flash was begun to be erased.
    Erase {
        /// Its number.
        page: u32,
    },
    /// What was answered to a frame.
    Reply(Option<&'a [u8]>),
    /// The lock came to rest, until then at most.
    Asleep(Option<Uptime>),
    /// Power went.
    PowerGone,
}

/// Where what a lock did goes.
pub trait Sink {
    /// Takes the next item.
    fn take(&self, item: &[u8]);

    /// Something begins or ends that takes work: for whoever counts it.
    fn mark(&self, mark: Mark) {
        let _ = mark;
    }
}

/// What a [`Sink`] is told besides, which is no output.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Mark {
    /// The lock is told something.
    Told,
    /// The drive is sent somewhere.
    Driven,
    /// A picture is about to be drawn.
    Drawing,
    /// It is drawn.
    Drawn,
}

/// Tells a sink what a lock does, with the time where it has changed.
pub struct Teller<K> {
    sink: K,
    last: Cell<Option<Uptime>>,
}

impl<K: Sink> Teller<K> {
    /// Nothing was told yet.
    pub const fn new(sink: K) -> Self {
        Self { sink, last: Cell::new(None) }
    }

    /// The sink.
    pub const fn sink(&self) -> &K {
        &self.sink
    }

    /// The sink alone.
    pub fn into_sink(self) -> K {
        self.sink
    }

    /// Tells what was done at `uptime`.
    pub fn tell(&self, uptime: Uptime, did: Did<'_>) {
        let mut room = [0; DID];
        if did == Did::PowerOn {
            self.last.set(Some(Uptime::ZERO));
        } else if self.last.replace(Some(uptime)) != Some(uptime) {
            self.sink.take(Did::At(uptime).encode(&mut room));
        }
        self.sink.take(did.encode(&mut room));
    }
}

impl Did<'_> {
    /// What is told of a screen that was drawn.
    #[must_use]
    pub fn picture(frame: &Frame) -> Self {
        const CHECK: Crc<u32> = Crc::<u32>::new(&CRC_32_ISO_HDLC);
        Self::Screen(CHECK.checksum(frame.bytes()))
    }

    /// The same of a screen, drawn here: takes twice a picture's room on the stack.
    #[must_use]
    pub fn screen(screen: &Screen) -> Self {
        let mut frame = Frame::new();
        let Ok(()) = lock_core::draw::screen(screen, &mut frame);
        Self::picture(&frame)
    }

    /// The item as bytes, in `room`.
    pub fn encode<'r>(&self, room: &'r mut [u8; DID]) -> &'r [u8] {
        let mut out = Out { room, length: 0 };
        match self {
            Self::PowerOn => out.put(&[1]),
            Self::At(uptime) => {
                out.put(&[2]);
                out.put(&uptime.as_millis().to_le_bytes());
            }
            Self::Effect(effect) => match effect {
                Effect::Alarm(Alarm::Quiet) => out.put(&[3, 0]),
                Effect::Alarm(Alarm::Tamper) => out.put(&[3, 1]),
                Effect::Alarm(Alarm::Duress) => out.put(&[3, 2]),
                Effect::Drive(Drive::Block) => out.put(&[4, 0]),
                Effect::Drive(Drive::Free) => out.put(&[4, 1]),
                Effect::Sound(Sound::Key) => out.put(&[5, 0]),
                Effect::Sound(Sound::Accepted) => out.put(&[5, 1]),
                Effect::Sound(Sound::Refused) => out.put(&[5, 2]),
                Effect::Sound(Sound::Warning) => out.put(&[5, 3]),
                Effect::SetClock(utc) => {
                    out.put(&[6]);
                    out.put(&utc.as_secs().to_le_bytes());
                }
                // Whoever tells of a screen has drawn it.
                Effect::Show(_) => return Self::Screen(0).encode(room),
            },
            Self::Screen(check) => {
                out.put(&[7]);
                out.put(&check.to_le_bytes());
            }
            Self::Program { address, word } => {
                out.put(&[8]);
                out.put(&address.to_le_bytes());
                out.put(&[u8::try_from(word.len()).unwrap_or(u8::MAX)]);
                out.put(word);
            }
            Self::Erase { page } => {
                out.put(&[9]);
                out.put(&page.to_le_bytes());
            }
            Self::Reply(reply) => {
                let payload = reply.unwrap_or_default();
                out.put(&[10, reply.is_some().into()]);
                out.put(&u16::try_from(payload.len()).unwrap_or(u16::MAX).to_le_bytes());
                out.put(payload);
            }
            Self::Asleep(wake) => {
                out.put(&[11, wake.is_some().into()]);
                out.put(&wake.map_or(0, Uptime::as_millis).to_le_bytes());
            }
            Self::PowerGone => out.put(&[12]),
        }
        let length = out.length;
        room.get(..length).unwrap_or_default()
    }
}
