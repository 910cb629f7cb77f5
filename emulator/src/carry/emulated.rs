//! Extracts of emulated locks: sealed under a key of their own, and marked.
//!
//! ```text
//!  0  magic       9C 4C 6B 0A, as all files of the link
//!  4  format      u8   1
//!  5  kind        u8   4 extract of an emulated lock
//!  6  lock        u16
//!  8  generation  u32  of the pairing key
//! 12  salt        16   drawn anew for each
//! 28  -           4 zeros
//! 32  an extract, sealed under Pairing::emulated of key and salt
//! ```
//!
//! An emulated lock that is to load a real lock's timetable files shares its key. What
//! it sealed under that key would pass for the audit of the real lock, and two runs
//! would use one nonce. So nothing that it seals leaves this program: the laptop's end
//! of the wire seals it anew.
//!
//! The mark cannot be taken off or put on: without it the real key opens nothing, with
//! it the real lock's extract does not open. Whoever has the keyring and writes their
//! own program can seal what they like, as under any key that two sides share.

use lock_core::link::extract::{self, ExtractReader};
use lock_core::pairing::{LockNumber, Pairing, SALT};
use lock_core::seal::{CHUNK, Direction, Series, open_chunk, seal_chunk};

/// Bytes of the mark, before the extract.
pub const MARK: usize = 32;
/// As of all files of the link, format and kind behind it.
const MAGIC: [u8; 6] = [0x9C, 0x4C, 0x6B, 0x0A, 1, 4];

/// What the mark says.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Mark {
    /// The lock that was emulated.
    pub lock: LockNumber,
    /// The generation of the pairing key that the extract's key comes from.
    pub generation: u32,
    /// What makes that key this extract's alone.
    pub salt: [u8; SALT],
}

impl Mark {
    /// The mark in the first bytes of a file; `None` if they are none.
    #[must_use]
    pub fn read(bytes: &[u8; MARK]) -> Option<Self> {
        let rest = bytes.strip_prefix(&MAGIC)?;
        let (lock, rest) = rest.split_first_chunk::<2>()?;
        let (generation, rest) = rest.split_first_chunk::<4>()?;
        let (salt, zeros) = rest.split_first_chunk::<SALT>()?;
        let lock = LockNumber::new(u16::from_le_bytes(*lock))?;
        let generation = u32::from_le_bytes(*generation);
        (zeros == [0; 4]).then_some(Self { lock, generation, salt: *salt })
    }

    fn write(&self) -> Vec<u8> {
        let mut bytes = MAGIC.to_vec();
        bytes.extend(self.lock.get().to_le_bytes());
        bytes.extend(self.generation.to_le_bytes());
        bytes.extend(self.salt);
        bytes.extend([0; 4]);
        bytes
    }
}

/// The extract `sealed` of an emulated lock, which shares the key `pairing` with a
/// real one, marked and sealed anew; `None` if it does not open, or this machine has no
/// random numbers.
#[must_use]
pub fn marked(sealed: &[u8], pairing: &Pairing) -> Option<Vec<u8>> {
    let mut salt = [0; SALT];
    getrandom::fill(&mut salt).ok()?;
    let mark = Mark { lock: pairing.lock(), generation: pairing.generation(), salt };
    let own = pairing.emulated(&salt);
    let (header, rest) = sealed.split_first_chunk::<{ extract::HEADER }>()?;
    let series = Series {
        direction: Direction::Outbound,
        lock: pairing.lock().get(),
        generation: pairing.generation(),
        counter: ExtractReader::open(header, pairing).ok()?.header().number,
    };
    let mut bytes = mark.write();
    bytes.extend(header);
    let (from, to) = (pairing.outbound(), own.outbound());
    for (index, sealed) in (0..).zip(rest.chunks(CHUNK)) {
        let mut chunk = [0; CHUNK];
        chunk.get_mut(..sealed.len())?.copy_from_slice(sealed);
        let content = open_chunk(&from, &series, header, index, &mut chunk, sealed.len()).ok()?;
        let length = seal_chunk(&to, &series, header, index, &mut chunk, content).ok()?;
        bytes.extend(chunk.get(..length)?);
    }
    Some(bytes)
}
