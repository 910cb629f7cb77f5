//! One message on a byte link.
//!
//! ```text
//! number u16 | message | CRC-32/ISO-HDLC of both, u32      then COBS, then 0x00
//! ```
//!
//! Consistent Overhead Byte Stuffing (Cheshire and Baker, 1999) leaves the zero
//! byte for the end of a frame, so a reader that joins late or loses bytes finds
//! the next frame by itself. The number is the asker's: an answer carries that of
//! its question, and a question that is asked again is answered again.

use crc::{CRC_32_ISO_HDLC, Crc, Table};

/// Bytes of a message, at most.
pub const MESSAGE: usize = 300;
/// Bytes of number and check value.
const AROUND: usize = 6;
/// Bytes of a frame before stuffing.
const PLAIN: usize = MESSAGE.saturating_add(AROUND);
/// Bytes of a frame, at most, its final zero included: COBS adds a byte, and one
/// more for each 254.
pub const FRAME: usize = PLAIN.saturating_add(4);

static CRC: Crc<u32, Table<1>> = Crc::<u32, Table<1>>::new(&CRC_32_ISO_HDLC);

/// The most bytes that one COBS block stands for.
const BLOCK: u8 = 254;

/// A frame, ready to be sent.
pub type Frame = heapless::Vec<u8, FRAME>;

/// The frame of a message; `None` if it is longer than [`MESSAGE`].
#[must_use]
pub fn encode(number: u16, message: &[u8]) -> Option<Frame> {
    let mut plain: heapless::Vec<u8, PLAIN> = heapless::Vec::new();
    plain.extend_from_slice(&number.to_le_bytes()).ok()?;
    if message.len() > MESSAGE {
        return None;
    }
    plain.extend_from_slice(message).ok()?;
    plain.extend_from_slice(&CRC.checksum(&plain).to_le_bytes()).ok()?;
    stuff(&plain)
}

/// COBS of `plain`, and the zero that ends it.
fn stuff(plain: &[u8]) -> Option<Frame> {
    let mut frame = Frame::new();
    let mut blocks = plain.split(|byte| *byte == 0).peekable();
    while let Some(mut block) = blocks.next() {
        let ends = blocks.peek().is_none();
        // A block of 254 bytes needs no zero behind it; one that ends the frame
        // with just as many has nothing left to say.
        while let Some((full, rest)) = block.split_at_checked(usize::from(BLOCK)) {
            frame.push(BLOCK.wrapping_add(1)).ok()?;
            frame.extend_from_slice(full).ok()?;
            block = rest;
            if ends && rest.is_empty() {
                frame.push(0).ok()?;
                return Some(frame);
            }
        }
        frame.push(u8::try_from(block.len()).ok()?.wrapping_add(1)).ok()?;
        frame.extend_from_slice(block).ok()?;
    }
    frame.push(0).ok()?;
    Some(frame)
}

/// Collects frames from bytes as they come.
#[derive(Default)]
pub struct Receiver {
    bytes: heapless::Vec<u8, PLAIN>,
    /// Bytes that are left of the block.
    left: u8,
    /// Whether a zero stands behind the block.
    zero: Zero,
    state: State,
}

#[derive(Clone, Copy, PartialEq, Eq, Default)]
enum Zero {
    #[default]
    No,
    Yes,
}

#[derive(Clone, Copy, PartialEq, Eq, Default)]
enum State {
    /// Between two frames.
    #[default]
    Start,
    /// Within one.
    Within,
    /// It was too long, or broken: nothing counts before the next zero.
    Lost,
}

/// What one more byte brought.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Received<'a> {
    /// Nothing yet.
    Nothing,
    /// A message, under its number.
    Message(u16, &'a [u8]),
    /// A frame that was broken on the way: ask again.
    Broken,
}

impl Receiver {
    /// Takes one byte in.
    pub fn take(&mut self, byte: u8) -> Received<'_> {
        if byte == 0 {
            return self.end();
        }
        match self.state {
            State::Lost => {}
            State::Start => {
                self.bytes.clear();
                self.begin(byte);
                self.state = State::Within;
            }
            State::Within if self.left == 0 => {
                if self.zero == Zero::Yes && self.bytes.push(0).is_err() {
                    self.state = State::Lost;
                }
                self.begin(byte);
            }
            State::Within => {
                self.left = self.left.saturating_sub(1);
                if self.bytes.push(byte).is_err() {
                    self.state = State::Lost;
                }
            }
        }
        Received::Nothing
    }

    fn begin(&mut self, code: u8) {
        self.left = code.wrapping_sub(1);
        self.zero = if code == u8::MAX { Zero::No } else { Zero::Yes };
    }

    fn end(&mut self) -> Received<'_> {
        let state = core::mem::take(&mut self.state);
        let left = core::mem::take(&mut self.left);
        match state {
            // Zeros between frames wake a line up.
            State::Start => return Received::Nothing,
            State::Within if left == 0 => {}
            State::Within | State::Lost => return Received::Broken,
        }
        let Some((body, check)) = self.bytes.split_last_chunk::<4>() else {
            return Received::Broken;
        };
        if CRC.checksum(body).to_le_bytes() != *check {
            return Received::Broken;
        }
        match body.split_first_chunk::<2>() {
            Some((number, message)) => Received::Message(u16::from_le_bytes(*number), message),
            None => Received::Broken,
        }
    }
}

#[cfg(test)]
mod tests {
    use std::vec::Vec;

    use proptest::prelude::*;

    use super::*;

    fn unstuffed(frame: &[u8]) -> Vec<u8> {
        let mut receiver = Receiver::default();
        for byte in &frame[..frame.len() - 1] {
            receiver.take(*byte);
        }
        // As `end` leaves it, before the check.
        receiver.bytes.to_vec()
    }

    /// Rows of Cheshire and Baker's code and of PyPI's cobs 1.2.2.
    #[test]
    fn stuffing_is_that_of_the_paper() {
        let long: Vec<u8> = (1..=255).collect();
        let rows: [(&[u8], Vec<u8>); 6] = [
            (&[], std::vec![1]),
            (&[0], std::vec![1, 1]),
            (&[0x11, 0x22, 0, 0x33], std::vec![3, 0x11, 0x22, 2, 0x33]),
            (&[0x11, 0, 0, 0], std::vec![2, 0x11, 1, 1, 1]),
            (&long[..254], [&[255], &long[..254]].concat()),
            (&long[..255], [&[255], &long[..254], &[2, 255]].concat()),
        ];
        for (plain, stuffed) in rows {
            let mut expected = stuffed;
            expected.push(0);
            assert_eq!(stuff(plain).unwrap().as_slice(), expected, "{plain:?}");
            assert_eq!(unstuffed(&expected), plain);
        }
    }

    fn received(bytes: &[u8]) -> Vec<Option<(u16, Vec<u8>)>> {
        let mut receiver = Receiver::default();
        let mut all = Vec::new();
        for byte in bytes {
            match receiver.take(*byte) {
                Received::Nothing => {}
                Received::Message(number, message) => all.push(Some((number, message.to_vec()))),
                Received::Broken => all.push(None),
            }
        }
        all
    }

    proptest! {
        /// Whatever came before, a whole frame behind a zero is received.
        #[test]
        fn a_frame_is_received_after_any_noise(
            noise in proptest::collection::vec(any::<u8>(), 0..900),
            number in any::<u16>(),
            message in proptest::collection::vec(prop_oneof![Just(0_u8), any::<u8>()], 0..=MESSAGE),
        ) {
            let frame = encode(number, &message).unwrap();
            prop_assert!(frame.len() <= FRAME);
            prop_assert_eq!(frame.iter().position(|byte| *byte == 0), Some(frame.len() - 1));
            let mut bytes = noise;
            bytes.push(0);
            bytes.extend_from_slice(&frame);
            let all = received(&bytes);
            prop_assert_eq!(all.last().unwrap(), &Some((number, message)));
        }

        /// No single wrong byte passes for a message.
        #[test]
        fn a_wrong_byte_is_never_a_message(
            message in proptest::collection::vec(any::<u8>(), 0..40),
            at in any::<prop::sample::Index>(),
            wrong in 1..=u8::MAX,
        ) {
            let mut frame = encode(7, &message).unwrap();
            let at = at.index(frame.len());
            frame[at] ^= wrong;
            let messages = received(&frame);
            prop_assert!(messages.iter().all(Option::is_none), "{:?}", messages);
        }
    }

    #[test]
    fn what_is_too_long_is_refused() {
        assert_eq!(encode(1, &[7; MESSAGE + 1]), None);
        assert!(encode(1, &[0; MESSAGE]).is_some());
        let endless = [[2_u8; 2_000].as_slice(), &[0]].concat();
        assert_eq!(received(&endless), [None]);
    }
}
