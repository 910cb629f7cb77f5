//! The content of a flash, from bytes.
//!
//! ```text
//! input of a whole flash or more          shorter input
//!  0  the flash, 20,480 bytes              0  base u8    an image to begin with
//!     seals u8   how many blocks are       1  count u8   how many patches follow
//!                made right                2  patches
//!     seals × (at u16, seal u8)
//!
//! patch
//!  0  at    u16   where, modulo the flash
//!  2  shape u8    bits 0-1: what is made right afterwards; bit 2: the rest of
//!                 the block is erased first; bits 3-7: bytes that follow, × 4
//!  3  bytes
//! ```
//!
//! What is made right gets the check value that `docs/flash-layout.md` asks
//! for, so that the fuzzer gets past it.

use std::sync::OnceLock;

use arbitrary::Unstructured;
use crc::{CRC_32_ISO_HDLC, Crc};
use emulated_board::flash::RamFlash;
use emulated_board::fuse::Fuse;
use emulator::rig::Dice;
use emulator::rig::store::{chip, life};
use lock_core::store::{FlashStore, SLOT};

use super::{PAGE, WORD, bytes, layout};

/// An image to begin with.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Base {
    /// Nothing was ever programmed.
    Erased,
    /// All zeros.
    Zeros,
    /// Just commissioned.
    New,
    /// A life of so many events, the `n`th of them.
    Used(u8),
}

/// Lives in use.
const USED: u8 = 13;

impl Base {
    /// The base of a byte.
    #[must_use]
    pub const fn of(byte: u8) -> Self {
        match byte % (USED + 3) {
            0 => Self::Erased,
            1 => Self::Zeros,
            2 => Self::New,
            n => Self::Used(n - 3),
        }
    }

    fn image(self) -> &'static [u8] {
        static IMAGES: [OnceLock<Vec<u8>>; USED as usize + 1] =
            [const { OnceLock::new() }; USED as usize + 1];
        static PLAIN: [OnceLock<Vec<u8>>; 2] = [const { OnceLock::new() }; 2];
        let plain = |at: usize, byte: u8| {
            PLAIN.get(at).map(|cell| cell.get_or_init(|| vec![byte; bytes()]).as_slice())
        };
        let lived =
            |n: u8| IMAGES.get(usize::from(n)).map(|cell| cell.get_or_init(|| lived(n)).as_slice());
        let image = match self {
            Self::Erased => plain(0, 0xFF),
            Self::Zeros => plain(1, 0),
            Self::New => lived(0),
            Self::Used(n) => lived(n + 1),
        };
        image.unwrap_or_default()
    }
}

/// The image of a store after a life of its own.
fn lived(n: u8) -> Vec<u8> {
    let fuse = Fuse::new();
    let flash = RamFlash::new(chip::commissioned::<WORD, PAGE>(layout()), &fuse);
    let (mut store, _) = FlashStore::mount(flash, layout());
    let mut dice = Dice::of(0x1A9E, u64::from(n));
    for ask in life::random(&mut dice, u64::from(n) * 21) {
        life::ask(&mut store, &ask).expect("a sound flash takes everything");
    }
    store.into_flash().into_chip().content().to_vec()
}

/// What is made right: a block of so many bytes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Seal {
    /// Nothing.
    None,
    /// A slot: a record, a tally entry, a short row.
    Slot,
    /// A long row of the settings.
    Row,
    /// A checkpoint of the tally.
    Checkpoint,
}

impl Seal {
    const fn of(byte: u8) -> Self {
        match byte & 3 {
            0 => Self::None,
            1 => Self::Slot,
            2 => Self::Row,
            _ => Self::Checkpoint,
        }
    }

    const fn length(self) -> usize {
        match self {
            Self::None => 0,
            Self::Slot => SLOT,
            Self::Row => 2 * SLOT,
            Self::Checkpoint => 6 * SLOT,
        }
    }
}

/// A patch as it stands in an input.
#[must_use]
pub fn patch(at: u16, seal: Seal, bytes: &[u8]) -> Vec<u8> {
    let fours = u8::try_from(bytes.len() / 4).unwrap_or(u8::MAX).min(31);
    let seal = match seal {
        Seal::None => 0,
        Seal::Slot => 1,
        Seal::Row => 2,
        Seal::Checkpoint => 3,
    };
    let mut patch = at.to_le_bytes().to_vec();
    patch.push(seal | fours << 3);
    patch.extend(bytes.iter().take(usize::from(fours) * 4));
    patch
}

/// Reads the content that an input describes.
pub fn content(u: &mut Unstructured<'_>) -> Vec<u8> {
    if u.len() >= bytes() {
        let mut content = u.bytes(bytes()).unwrap_or_default().to_vec();
        for _ in 0..u.arbitrary::<u8>().unwrap_or(0) {
            let Ok([low, high, shape]) = u.arbitrary::<[u8; 3]>() else { break };
            let at = usize::from(u16::from_le_bytes([low, high])) % content.len();
            seal(&mut content, at, at + 1, Seal::of(shape));
        }
        return content;
    }
    let mut content = Base::of(u.arbitrary().unwrap_or(0)).image().to_vec();
    for _ in 0..u.arbitrary::<u8>().unwrap_or(0) % 16 {
        let Ok([low, high, shape]) = u.arbitrary::<[u8; 3]>() else { break };
        let at = usize::from(u16::from_le_bytes([low, high])) % content.len();
        let length = (usize::from(shape >> 3) * 4).min(u.len());
        let Ok(bytes) = u.bytes(length) else { break };
        let what = Seal::of(shape);
        let block = at / SLOT * SLOT;
        if shape & 4 != 0 {
            content.iter_mut().skip(block).take(what.length()).for_each(|byte| *byte = 0xFF);
        }
        for (to, from) in content.iter_mut().skip(at).zip(bytes) {
            *to = *from;
        }
        seal(&mut content, at, at + bytes.len().max(1), what);
    }
    content
}

const CRC: Crc<u32> = Crc::<u32>::new(&CRC_32_ISO_HDLC);

/// Gives each block from `from` to `to` its check value.
fn seal(content: &mut [u8], from: usize, to: usize, what: Seal) {
    let length = what.length();
    let mut at = from / SLOT * SLOT;
    while length > 0 && at < to {
        if let Some(block) = content.get_mut(at..at + length)
            && let Some((body, check)) = block.split_last_chunk_mut::<4>()
        {
            *check = CRC.checksum(body).to_le_bytes();
        }
        at += length;
    }
}
