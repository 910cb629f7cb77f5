//! Writing postcard's wire format by hand: its own writing of numbers has panic
//! paths on a microcontroller; reading is left to the crate.

use crate::byte_table::Put;

/// Writes values one behind the other; what does not fit is counted and left out.
pub(super) struct Wire<'a> {
    put: Put<'a>,
    room: usize,
    length: usize,
}

impl<'a> Wire<'a> {
    pub(super) fn into(buffer: &'a mut [u8]) -> Self {
        let room = buffer.len();
        Self { put: Put::into(buffer), room, length: 0 }
    }

    /// How much was written, or `None` if it did not fit.
    pub(super) fn length(&self) -> Option<usize> {
        (self.length <= self.room).then_some(self.length)
    }

    pub(super) fn u8(&mut self, value: u8) {
        self.raw(&[value]);
    }

    pub(super) fn u16(&mut self, value: u16) {
        self.u32(value.into());
    }

    /// Seven bits a byte, the lowest first; the highest bit says that more come.
    pub(super) fn u32(&mut self, mut value: u32) {
        loop {
            let [low, ..] = value.to_le_bytes();
            value >>= 7;
            if value == 0 {
                return self.u8(low & 0x7F);
            }
            self.u8(low | 0x80);
        }
    }

    pub(super) fn option_u32(&mut self, value: Option<u32>) {
        self.u8(u8::from(value.is_some()));
        if let Some(value) = value {
            self.u32(value);
        }
    }

    /// The length of what follows.
    pub(super) fn count(&mut self, length: usize) {
        self.u32(u32::try_from(length).unwrap_or(u32::MAX));
    }

    /// A length, and so many bytes.
    pub(super) fn bytes(&mut self, bytes: &[u8]) {
        self.count(bytes.len());
        self.raw(bytes);
    }

    /// Bytes of a number that both sides know.
    pub(super) fn raw(&mut self, bytes: &[u8]) {
        self.put.bytes(bytes);
        self.length = self.length.saturating_add(bytes.len());
    }
}
