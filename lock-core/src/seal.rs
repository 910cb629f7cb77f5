//! Sealed chunks: what travels between laptop and lock, encrypted and
//! authenticated by Ascon-AEAD128 (NIST SP 800-232).
//!
//! A file is a header in clear and chunks of at most [`CHUNK`] bytes, the last 16
//! of each its tag. **A chunk shorter than [`CHUNK`] is the last one**, and every
//! file has exactly one such; where the content fills its chunks, an empty one
//! follows. So a reader needs no length in advance and no look ahead, and a file
//! that was cut at a chunk's edge shows it.
//!
//! ```text
//! nonce                              associated data
//!  0  direction   u8   1 in, 2 out    0  header   as it stands in the file
//!  1  index       u16  of the chunk   n  index    u16
//!  3  lock        u16                +2  last     u8   0 no, 1 yes
//!  5  generation  u32
//!  9  counter     u32  of the file
//! 13  -           3 zeros
//! ```
//!
//! All numbers are little-endian. The counter is the version of a file for the
//! lock, the number of an extract of the lock; whoever seals must use none twice
//! under one key, and must seal no chunk twice with different content.
//!
//! What the cipher leaves on the stack is not wiped: the switch by which
//! `ascon-aead` 0.6.0 would do it does not build without `std`.

use ascon_aead::aead::{AeadInOut, KeyInit};
use ascon_aead::{AsconAead128, AsconAead128Key, AsconAead128Nonce, AsconAead128Tag};
use zeroize::Zeroize;

use crate::byte_table::{Put, table};

/// Bytes of a chunk that is not the last, tag included.
pub const CHUNK: usize = 256;
/// Bytes of a tag.
pub const TAG: usize = 16;
/// Bytes of content in a chunk that is not the last.
pub const CONTENT: usize = 240;
const _: () = assert!(CONTENT + TAG == CHUNK, "content and tag fill a chunk");

/// Bytes of the longest header.
pub const HEADER_MOST: usize = 32;

/// Index and last flag, behind the header in the associated data.
const PLACE: usize = 3;

/// A key of Ascon-AEAD128. Wiped when dropped.
#[derive(Zeroize)]
pub struct SealKey([u8; Self::LEN]);

silent!(SealKey);
wiped!(SealKey);

impl SealKey {
    /// Bytes of a key.
    pub const LEN: usize = 16;

    /// The key of these bytes.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; Self::LEN]) -> Self {
        Self(bytes)
    }

    /// The bytes, to be kept as secret as the key.
    #[must_use]
    pub const fn as_bytes(&self) -> &[u8; Self::LEN] {
        &self.0
    }

    fn cipher(&self) -> AsconAead128 {
        AsconAead128::new(&AsconAead128Key::from(self.0))
    }
}

/// Which way a file travels.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Direction {
    /// From the laptop to the lock.
    Inbound,
    /// From the lock to the laptop.
    Outbound,
}

/// The file that a chunk belongs to, as its nonce names it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Series {
    /// Which way it travels.
    pub direction: Direction,
    /// The lock's number.
    pub lock: u16,
    /// The generation of the pairing key.
    pub generation: u32,
    /// Used once under one key.
    pub counter: u32,
}

impl Series {
    fn nonce(&self, index: u16) -> [u8; 16] {
        table(|put| {
            put.u8(match self.direction {
                Direction::Inbound => 1,
                Direction::Outbound => 2,
            });
            put.u16(index);
            put.u16(self.lock);
            put.u32(self.generation);
            put.u32(self.counter);
        })
    }
}

/// A seal does not hold, or there is no room for one.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct BrokenSeal;

/// Seals the first `content` bytes of `chunk` in place, the tag behind them, and
/// returns the chunk's length. Less than [`CONTENT`] bytes make the last chunk.
///
/// # Errors
/// [`BrokenSeal`] if there is no room for that much, or the header is longer than
/// [`HEADER_MOST`].
pub fn seal_chunk(
    key: &SealKey,
    series: &Series,
    header: &[u8],
    index: u16,
    chunk: &mut [u8; CHUNK],
    content: usize,
) -> Result<usize, BrokenSeal> {
    let (data, room) = chunk.split_at_mut_checked(content).ok_or(BrokenSeal)?;
    let place = room.first_chunk_mut::<TAG>().ok_or(BrokenSeal)?;
    let associated = Associated::new(header, index, content)?;
    *place = seal_plain(key, series.nonce(index), associated.bytes(), data)?;
    Ok(content.saturating_add(TAG))
}

/// Opens the first `length` bytes of `chunk` in place and returns how many of them
/// are content. A chunk whose seal does not hold is wiped.
///
/// # Errors
/// [`BrokenSeal`] if a bit of it, of the header or of the nonce is not as it was
/// sealed, or it is not the chunk of that index, or its end was moved.
pub fn open_chunk(
    key: &SealKey,
    series: &Series,
    header: &[u8],
    index: u16,
    chunk: &mut [u8; CHUNK],
    length: usize,
) -> Result<usize, BrokenSeal> {
    let content = length.checked_sub(TAG).ok_or(BrokenSeal)?;
    let (data, tag) = chunk.split_at_mut_checked(content).ok_or(BrokenSeal)?;
    let tag = *tag.first_chunk::<TAG>().ok_or(BrokenSeal)?;
    let associated = Associated::new(header, index, content)?;
    let opened = open_plain(key, series.nonce(index), associated.bytes(), data, tag);
    if opened.is_err() {
        chunk.zeroize();
    }
    opened.map(|()| content)
}

/// Whether a chunk of that many sealed bytes is the last of its file.
#[must_use]
pub const fn is_last(length: usize) -> bool {
    length < CHUNK
}

/// Ascon-AEAD128 itself, on data of any length: for checks against its published
/// vectors.
///
/// # Errors
/// [`BrokenSeal`] if the tag is not that of nonce, associated data and `data`.
pub fn open_plain(
    key: &SealKey,
    nonce: [u8; 16],
    associated: &[u8],
    data: &mut [u8],
    tag: [u8; TAG],
) -> Result<(), BrokenSeal> {
    let (nonce, tag) = (AsconAead128Nonce::from(nonce), AsconAead128Tag::from(tag));
    let opened = key.cipher().decrypt_inout_detached(&nonce, associated, data.into(), &tag);
    opened.map_err(|_| BrokenSeal)
}

/// Ascon-AEAD128 itself, on data of any length: for checks against its published
/// vectors.
///
/// # Errors
/// [`BrokenSeal`] if there is more data than a machine can address.
pub fn seal_plain(
    key: &SealKey,
    nonce: [u8; 16],
    associated: &[u8],
    data: &mut [u8],
) -> Result<[u8; TAG], BrokenSeal> {
    let nonce = AsconAead128Nonce::from(nonce);
    let tag = key.cipher().encrypt_inout_detached(&nonce, associated, data.into());
    tag.map(Into::into).map_err(|_| BrokenSeal)
}

/// What is authenticated besides the content.
struct Associated {
    bytes: [u8; HEADER_MOST + PLACE],
    length: usize,
}

impl Associated {
    fn new(header: &[u8], index: u16, content: usize) -> Result<Self, BrokenSeal> {
        if header.len() > HEADER_MOST || content > CONTENT {
            return Err(BrokenSeal);
        }
        let mut bytes = [0; HEADER_MOST + PLACE];
        let mut put = Put::into(&mut bytes);
        put.bytes(header);
        put.u16(index);
        put.u8(u8::from(content < CONTENT));
        if !put.fits() {
            return Err(BrokenSeal);
        }
        Ok(Self { bytes, length: header.len().saturating_add(PLACE) })
    }

    fn bytes(&self) -> &[u8] {
        self.bytes.get(..self.length).unwrap_or_default()
    }
}
