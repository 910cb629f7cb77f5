//! Bytes on a wire, cut into frames.
//!
//! ```text
//! payload, then its CRC-32/ISO-HDLC (u32, little-endian)
//! -> COBS: no byte of it is 0 any more
//! -> 0: the end of the frame
//! ```
//!
//! COBS is Cheshire and Baker, 1999. The check value finds what a bad cable does;
//! who means harm is found by the seals. After noise a receiver is in step again
//! at the next 0, so a sender may begin with one: frames without bytes are passed
//! over.

use crate::byte_table::crc32;

/// Bytes of the longest frame, its 0 included.
pub const FRAME: usize = 320;

/// Bytes of the check value.
const CHECK: usize = 4;

/// Bytes of the longest payload: of what is left beside 0 and check value, COBS
/// takes a byte for every 254 begun.
pub const PAYLOAD: usize = FRAME - 1 - CHECK - 2;

/// What begins a full block of COBS: so many bytes it has, this one included.
const FULL: u8 = 0xFF;
/// Bytes of a full block behind that one.
const BLOCK: u8 = 0xFE;

/// Why a frame is not taken.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FrameFault {
    /// It is longer than a frame can be.
    TooLong,
    /// It is no COBS, or its check value is another one.
    Garbled,
}

/// The bytes of the frame of a payload, one after the other as they are sent;
/// `None` if the payload is longer than [`PAYLOAD`].
pub fn encode(payload: &[u8]) -> Option<impl Iterator<Item = u8> + '_> {
    if payload.len() > PAYLOAD {
        return None;
    }
    let check = crc32(payload).to_le_bytes();
    Some(stuff(payload.iter().copied().chain(check)).chain([0]))
}

/// COBS of `bytes`, without the 0 behind it.
pub fn stuff(bytes: impl Iterator<Item = u8> + Clone) -> impl Iterator<Item = u8> {
    Stuffed { rest: bytes, code: None, left: 0 }
}

/// Looks ahead for the end of each block, so that none is kept anywhere.
struct Stuffed<I> {
    rest: I,
    /// Of the block that was begun last.
    code: Option<u8>,
    /// Bytes of it that are to come.
    left: u8,
}

impl<I: Iterator<Item = u8> + Clone> Iterator for Stuffed<I> {
    type Item = u8;

    fn next(&mut self) -> Option<u8> {
        if let Some(left) = self.left.checked_sub(1) {
            self.left = left;
            return self.rest.next();
        }
        match self.code {
            None => {}
            // A full block has no 0 behind it; none follows it for nothing.
            Some(FULL) => _ = self.rest.clone().next()?,
            Some(_) => _ = self.rest.next()?,
        }
        let block = self.rest.clone().take(usize::from(BLOCK)).take_while(|byte| *byte != 0);
        self.left = block.fold(0, |left: u8, _| left.saturating_add(1));
        let code = self.left.saturating_add(1);
        self.code = Some(code);
        self.code
    }
}

/// Undoes [`stuff()`] in place and returns the length; `None` if it was no COBS.
#[must_use]
pub fn unstuff(bytes: &mut [u8]) -> Option<usize> {
    let (mut from, mut to) = (0_usize, 0_usize);
    while let Some(&code) = bytes.get(from) {
        let end = from.checked_add(usize::from(code))?;
        if code == 0 || end > bytes.len() {
            return None;
        }
        from = from.checked_add(1)?;
        while from < end {
            let byte = *bytes.get(from)?;
            if byte == 0 {
                return None;
            }
            *bytes.get_mut(to)? = byte;
            (from, to) = (from.checked_add(1)?, to.checked_add(1)?);
        }
        if code != FULL && from < bytes.len() {
            *bytes.get_mut(to)? = 0;
            to = to.checked_add(1)?;
        }
    }
    Some(to)
}

/// Puts frames together from single bytes.
pub struct Decoder {
    frame: [u8; FRAME],
    length: usize,
}

impl Decoder {
    /// A decoder that has seen nothing.
    #[must_use]
    pub const fn new() -> Self {
        Self { frame: [0; FRAME], length: 0 }
    }

    /// Takes a byte; at the end of a frame, its payload or why there is none.
    pub fn push(&mut self, byte: u8) -> Option<Result<&[u8], FrameFault>> {
        if byte != 0 {
            if let Some(slot) = self.frame.get_mut(self.length) {
                *slot = byte;
            }
            self.length = self.length.saturating_add(1);
            return None;
        }
        let length = core::mem::take(&mut self.length);
        if length == 0 {
            return None;
        }
        // One place is for the 0.
        if length >= FRAME {
            return Some(Err(FrameFault::TooLong));
        }
        Some(self.payload(length).ok_or(FrameFault::Garbled))
    }

    fn payload(&mut self, length: usize) -> Option<&[u8]> {
        let length = unstuff(self.frame.get_mut(..length)?)?;
        let (payload, check) = self.frame.get(..length)?.split_last_chunk::<CHECK>()?;
        (crc32(payload).to_le_bytes() == *check).then_some(payload)
    }
}

impl Default for Decoder {
    fn default() -> Self {
        Self::new()
    }
}

#[cfg(test)]
mod tests;
