//! The keyring's file.
//!
//! ```text
//!  0  header  32
//!        0  magic    4   9C 4C 6B 0A, as all files of the link
//!        4  format   u8  3
//!        5  kind     u8  3
//!        6  memory   u32 of Argon2id, in KiB
//!       10  passes   u32
//!       14  lanes    u16
//!       16  salt     16  drawn anew whenever the file is written
//! 32  chunks   lock_core::seal, under the first 16 bytes of
//!              Argon2id (RFC 9106, version 0x13) of passphrase and salt:
//!              rows of 48 bytes, five a chunk
//!
//!     key               version           courier           code             file
//!  0  u8   1            2                 3                 4                5
//!  1  u8   standing     0                 number            number           0
//!  2  u16  lock         lock              lock              lock             0
//!  4  u32  generation   0                 generation of     generation       0
//!                                         the last code
//!  8  u32  0            the last sealed   the next counter  counter          0
//! 12  u32  0            0                 0                 given out, UTC   0
//! 16  32   key          0                 0                 fate, record     mark
//! ```
//!
//! All numbers are little-endian. A key's standing is 0 confirmed, 1 unconfirmed, 2
//! retired. A code's fate is a u8, 0 out, 1 used, 2 passed, and from 20 on a u32: the
//! record that used it, or 0. The mark of the file is `mark.rs`; there is no such row
//! where none is known. Rows hold zeros where nothing else stands.
//!
//! A salt is never used twice, so neither is a key, and the nonce needs no counter.
//! Format 2, which is still read, has the first three kinds of rows, and all its keys
//! are confirmed.

use std::fs::File;
use std::io::Read as _;
use std::path::Path;

use argon2::{Algorithm, Argon2, Params, Version};
use lock_core::audit::Seq;
use lock_core::holder::Number;
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::seal::{CHUNK, Direction, SealKey, Series, TAG, open_chunk, seal_chunk};
use lock_core::time::Utc;
use zeroize::{Zeroize as _, Zeroizing};

use super::counters::Courier;
use super::fault::KeyringFault;
use super::ledger::{Fate, Issued};
use super::mark::Mark;
use super::standing::Standing;
use super::{Key, Keyring, place};

const MAGIC: [u8; 6] = [0x9C, 0x4C, 0x6B, 0x0A, FORMAT, 3];
const FORMAT: u8 = 3;
/// The format before, which is still read.
const BEFORE: [u8; 6] = [0x9C, 0x4C, 0x6B, 0x0A, 2, 3];
const HEADER: usize = 32;
const SALT: usize = 16;
const ENTRY: usize = 48;
const ENTRIES: usize = (CHUNK - TAG) / ENTRY;
/// No keyring is longer: some ninety thousand rows.
const MOST: u64 = 5_000_000;

/// A passphrase. Wiped when dropped.
pub type Passphrase = Zeroizing<String>;

/// What a guess at the passphrase costs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Cost {
    /// Memory in KiB.
    pub memory: u32,
    /// Passes over it.
    pub passes: u32,
    /// Lanes.
    pub lanes: u16,
}

/// The second choice of RFC 9106, section 4, for less memory: 64 MiB, 3 passes,
/// 4 lanes (from memory).
pub const COST: Cost = Cost { memory: 65_536, passes: 3, lanes: 4 };

/// A file from elsewhere may not ask for more than this: 1 GiB.
const DEAREST: Cost = Cost { memory: 1_048_576, passes: 32, lanes: 16 };

/// What Argon2id makes of a passphrase.
///
/// # Errors
/// If the cost is out of its bounds.
pub fn stretched(
    passphrase: &[u8],
    salt: &[u8; SALT],
    cost: Cost,
) -> Result<Zeroizing<[u8; SealKey::LEN]>, argon2::Error> {
    let params = Params::new(cost.memory, cost.passes, u32::from(cost.lanes), Some(SealKey::LEN))?;
    let argon2 = Argon2::new(Algorithm::Argon2id, Version::V0x13, params);
    let mut key = Zeroizing::new([0; SealKey::LEN]);
    argon2.hash_password_into(passphrase, salt, key.as_mut())?;
    Ok(key)
}

const SERIES: Series = Series { direction: Direction::Inbound, lock: 0, generation: 0, counter: 0 };

impl Keyring {
    /// Reads a keyring.
    ///
    /// # Errors
    /// [`KeyringFault`].
    pub fn load(path: &Path, passphrase: &Passphrase) -> Result<Self, KeyringFault> {
        let name = || path.display().to_string();
        let unreadable = |why| KeyringFault::Unreadable { path: name(), why };
        // Before it is opened: a pipe would wait for somebody to write.
        if !std::fs::metadata(path).map_err(unreadable)?.is_file() {
            return Err(KeyringFault::Alien { path: name() });
        }
        let file = File::open(path).map_err(unreadable)?;
        let about = file.metadata().map_err(unreadable)?;
        if !about.is_file() || about.len() > MOST {
            return Err(KeyringFault::Alien { path: name() });
        }
        let mut bytes = Vec::new();
        file.take(MOST).read_to_end(&mut bytes).map_err(unreadable)?;
        if newer(&bytes) {
            return Err(KeyringFault::Newer { path: name() });
        }
        let header = bytes
            .first_chunk::<HEADER>()
            .filter(|header| header.starts_with(&MAGIC) || header.starts_with(&BEFORE));
        let header = header.ok_or_else(|| KeyringFault::Alien { path: name() })?;
        if place::exposed(&about) {
            return Err(KeyringFault::Exposed { path: name() });
        }
        let (cost, salt) = read_header(header);
        let cost = cost.ok_or_else(|| KeyringFault::Alien { path: name() })?;
        let key = stretched(passphrase.as_bytes(), &salt, cost);
        let key = key.map_err(|_| KeyringFault::Machine { path: name() })?;
        let sealed = bytes.get(HEADER..).unwrap_or_default();
        let opened = Self::open(header, &SealKey::from_bytes(*key), sealed);
        let (mut keyring, mark) = opened.ok_or_else(|| KeyringFault::Sealed { path: name() })?;
        keyring.copied = mark.is_some_and(|mark| Mark::of(&about) != Some(mark));
        Ok(keyring)
    }

    /// What is sealed in it, and the mark of the file that it was written to.
    fn open(header: &[u8; HEADER], key: &SealKey, sealed: &[u8]) -> Option<(Self, Option<Mark>)> {
        let (mut keyring, mut mark) = (Self::default(), None);
        let mut chunks = sealed.chunks(FULL).enumerate().peekable();
        let mut last = false;
        while let Some((index, sealed)) = chunks.next() {
            let mut chunk = Zeroizing::new([0; CHUNK]);
            chunk.get_mut(..sealed.len())?.copy_from_slice(sealed);
            let index = u16::try_from(index).ok()?;
            let marked = index | if chunks.peek().is_none() { LAST } else { 0 };
            let length = open_chunk(key, &SERIES, header, marked, &mut chunk, sealed.len()).ok()?;
            let (entries, rest) = chunk.get(..length)?.as_chunks::<ENTRY>();
            for entry in entries {
                keyring.take_row(entry, &mut mark)?;
            }
            rest.is_empty().then_some(())?;
            last = chunks.peek().is_none();
        }
        last.then_some((keyring, mark))
    }

    /// Writes a keyring, whole or not at all, for its owner's eyes only.
    ///
    /// # Errors
    /// [`KeyringFault`]; what was there is then still there.
    pub fn save(
        &self,
        path: &Path,
        passphrase: &Passphrase,
        cost: Cost,
    ) -> Result<(), KeyringFault> {
        let name = || path.display().to_string();
        let machine = || KeyringFault::Machine { path: name() };
        let real = place::changeable(path)?;
        let mut salt = [0; SALT];
        getrandom::fill(&mut salt).map_err(|_| machine())?;
        let key = stretched(passphrase.as_bytes(), &salt, cost).map_err(|_| machine())?;
        let key = SealKey::from_bytes(*key);
        let sealed = |mark| self.seal(&header(cost, &salt), &key, mark).filter(|bytes| fits(bytes));
        let replaced = place::replace(&real, sealed);
        let replaced = replaced.map_err(|why| KeyringFault::Unreadable { path: name(), why })?;
        replaced.ok_or_else(machine)
    }

    fn seal(&self, header: &[u8; HEADER], key: &SealKey, mark: Option<Mark>) -> Option<Vec<u8>> {
        let mut bytes = header.to_vec();
        let rows = self.rows(mark);
        let full = rows.chunks(ENTRIES);
        let none: &[Row] = &[];
        let empty = rows.is_empty().then_some(none);
        let mut chunks = full.chain(empty).enumerate().peekable();
        while let Some((index, entries)) = chunks.next() {
            let mut chunk = Zeroizing::new([0; CHUNK]);
            for (to, row) in chunk.as_chunks_mut::<ENTRY>().0.iter_mut().zip(entries) {
                *to = **row;
            }
            let index = u16::try_from(index).ok().filter(|index| *index < LAST)?;
            let marked = index | if chunks.peek().is_none() { LAST } else { 0 };
            let content = entries.len().checked_mul(ENTRY)?;
            let length = seal_chunk(key, &SERIES, header, marked, &mut chunk, content).ok()?;
            bytes.extend_from_slice(chunk.get(..length)?);
        }
        Some(bytes)
    }
}

/// Whether a file of that length will be read again.
fn fits(bytes: &[u8]) -> bool {
    u64::try_from(bytes.len()).is_ok_and(|length| length <= MOST)
}

/// Bytes of a chunk of five rows, sealed.
const FULL: usize = ENTRIES * ENTRY + TAG;

/// Set in the index of the last chunk, so that a cut shows.
const LAST: u16 = 0x8000;

fn header(cost: Cost, salt: &[u8; SALT]) -> [u8; HEADER] {
    let mut header = [0; HEADER];
    let fields: [&[u8]; 5] = [
        &MAGIC,
        &cost.memory.to_le_bytes(),
        &cost.passes.to_le_bytes(),
        &cost.lanes.to_le_bytes(),
        salt,
    ];
    for (to, from) in header.iter_mut().zip(fields.into_iter().flatten()) {
        *to = *from;
    }
    header
}

/// Cost and salt; no cost if it is dearer than any keyring of ours.
fn read_header(header: &[u8; HEADER]) -> (Option<Cost>, [u8; SALT]) {
    let [_, _, _, _, _, _, m0, m1, m2, m3, p0, p1, p2, p3, l0, l1, salt @ ..] = *header;
    let cost = Cost {
        memory: u32::from_le_bytes([m0, m1, m2, m3]),
        passes: u32::from_le_bytes([p0, p1, p2, p3]),
        lanes: u16::from_le_bytes([l0, l1]),
    };
    let affordable = cost.memory <= DEAREST.memory
        && cost.passes <= DEAREST.passes
        && cost.lanes <= DEAREST.lanes;
    (affordable.then_some(cost), salt)
}

/// A row as it is sealed. Wiped when dropped: it may hold a key.
type Row = Zeroizing<[u8; ENTRY]>;

const KEY: u8 = 1;
const VERSION: u8 = 2;
const COURIER: u8 = 3;
const CODE: u8 = 4;
const FILE: u8 = 5;

const fn standing(standing: Standing) -> u8 {
    match standing {
        Standing::Confirmed => 0,
        Standing::Unconfirmed => 1,
        Standing::Retired => 2,
    }
}

fn fate(fate: Fate) -> [u8; 8] {
    let (number, record) = match fate {
        Fate::Out => (0, 0),
        Fate::Used(record) => (1, record.map_or(0, |seq| seq.0)),
        Fate::Passed => (2, 0),
    };
    let [r0, r1, r2, r3] = u32::to_le_bytes(record);
    [number, 0, 0, 0, r0, r1, r2, r3]
}

fn row(what: u8, number: u8, lock: u16, generation: u32, count: u32) -> Row {
    let [l0, l1] = lock.to_le_bytes();
    let [g0, g1, g2, g3] = generation.to_le_bytes();
    let [c0, c1, c2, c3] = count.to_le_bytes();
    let head = [what, number, l0, l1, g0, g1, g2, g3, c0, c1, c2, c3];
    let mut row = Zeroizing::new([0; ENTRY]);
    for (to, from) in row.iter_mut().zip(head) {
        *to = from;
    }
    row
}

/// Puts `bytes` into a row, from `at` on.
fn fill(row: &mut Row, at: usize, bytes: &[u8]) {
    for (to, from) in row.iter_mut().skip(at).zip(bytes) {
        *to = *from;
    }
}

/// Where what belongs to a kind of row alone begins.
const REST: usize = ENTRY - Pairing::LEN;

impl Keyring {
    fn rows(&self, mark: Option<Mark>) -> Vec<Row> {
        let keys = self.keys.iter().map(|Key { pairing, standing: known }| {
            let (lock, generation) = (pairing.lock().get(), pairing.generation());
            let mut row = row(KEY, standing(*known), lock, generation, 0);
            fill(&mut row, REST, pairing.key());
            row
        });
        let versions = self.counters.versions();
        let versions = versions.map(|(lock, last)| row(VERSION, 0, lock.get(), 0, last));
        let couriers = self.counters.couriers().map(|(lock, number, courier)| {
            row(COURIER, number.get(), lock.get(), courier.generation, courier.next)
        });
        let codes = self.ledger.iter().map(|(lock, number, code)| {
            let mut row = row(CODE, number.get(), lock.get(), code.generation, code.counter);
            fill(&mut row, REST - 4, &code.at.as_secs().to_le_bytes());
            fill(&mut row, REST, &fate(code.fate));
            row
        });
        let file = mark.map(|mark| {
            let mut row = row(FILE, 0, 0, 0, 0);
            fill(&mut row, REST, &mark.bytes());
            row
        });
        keys.chain(versions).chain(couriers).chain(codes).chain(file).collect()
    }

    /// Takes a row over; `None` if none such is ever written.
    fn take_row(&mut self, bytes: &[u8; ENTRY], mark: &mut Option<Mark>) -> Option<()> {
        let [what, number, l0, l1, g0, g1, g2, g3, c0, c1, c2, c3, t0, t1, t2, t3, rest @ ..] =
            *bytes;
        let mut rest = Zeroizing::new(rest);
        let generation = u32::from_le_bytes([g0, g1, g2, g3]);
        let count = u32::from_le_bytes([c0, c1, c2, c3]);
        if what == FILE {
            let twice = mark.replace(Mark::from_bytes(rest.first_chunk()?)).is_some();
            return (!twice).then_some(());
        }
        let lock = LockNumber::new(u16::from_le_bytes([l0, l1]))?;
        match what {
            KEY => {
                let all = [Standing::Confirmed, Standing::Unconfirmed, Standing::Retired];
                let known = all.into_iter().find(|known| standing(*known) == number)?;
                self.put(Pairing::new(lock, generation, *rest), known).ok()?;
            }
            VERSION => self.counters.put_version(lock, count)?,
            COURIER => {
                let courier = Courier { generation, next: count };
                self.counters.put_courier(lock, Number::new(number)?, courier)?;
            }
            CODE => {
                let [kind, _, _, _, r0, r1, r2, r3] = *rest.first_chunk()?;
                let record = Some(Seq(u32::from_le_bytes([r0, r1, r2, r3])));
                let fate = match kind {
                    0 => Fate::Out,
                    1 => Fate::Used(record.filter(|seq| seq.0 > 0)),
                    2 => Fate::Passed,
                    _ => return None,
                };
                let at = Utc::from_secs(u32::from_le_bytes([t0, t1, t2, t3]));
                let code = Issued { generation, counter: count, at, fate };
                self.ledger.put(lock, Number::new(number)?, code);
            }
            _ => return None,
        }
        rest.zeroize();
        Some(())
    }
}

/// Whether it is a keyring of a format after this one.
fn newer(bytes: &[u8]) -> bool {
    let [m0, m1, m2, m3, ours, kind] = MAGIC;
    let magic = [m0, m1, m2, m3];
    matches!(bytes, [a, b, c, d, format, k, ..]
        if [*a, *b, *c, *d] == magic && *k == kind && *format > ours)
}
