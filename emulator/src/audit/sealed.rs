//! Extracts as files, sealed by locks: opened with the key of their pairing, a
//! chunk in memory at a time.

use std::io::{self, BufReader, Read};
use std::path::Path;

use lock_core::link::FileFault;
use lock_core::link::extract::{ExtractReader, HEADER, Item, sealed_by};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::seal::CHUNK;

use super::extract::{Broken, Extract, Header, Maker, Opener};
use crate::carry::emulated::{MARK, Mark};
use crate::files;

/// Where the keys of pairings are kept.
pub trait Keys {
    /// The key of that lock and generation, if it is there.
    fn pairing(&self, lock: LockNumber, generation: u32) -> Option<&Pairing>;
}

impl<K: Keys> Keys for &K {
    fn pairing(&self, lock: LockNumber, generation: u32) -> Option<&Pairing> {
        (*self).pairing(lock, generation)
    }
}

/// Opens sealed extracts with `K`.
pub struct Sealed<K>(pub K);

impl<K: Keys> Opener for Sealed<K> {
    fn open(&self, path: &Path) -> Result<Extract<'_>, Broken> {
        let unreadable = |why: io::Error| Broken::Unreadable(why.to_string());
        read(files::open(path).map_err(unreadable)?, &self.0)
    }
}

/// Opens an extract in `source` and reads its first chunk, which proves what the
/// header says.
///
/// # Errors
/// [`Broken`] if header or first chunk cannot be used.
pub fn read<'k>(source: impl Read + 'k, keys: &impl Keys) -> Result<Extract<'k>, Broken> {
    let mut source = BufReader::new(source);
    let mut bytes = [0; HEADER];
    let mut length = fill(&mut source, &mut bytes)?;
    const { assert!(MARK == HEADER, "either comes first") };
    let mark = Mark::read(&bytes).filter(|_| length == MARK);
    if mark.is_some() {
        bytes = [0; HEADER];
        length = fill(&mut source, &mut bytes)?;
    }
    let (lock, generation) = match sealed_by(&bytes) {
        // What is not there reads as zeros.
        Ok(_) | Err(FileFault::Format(0)) if length < HEADER => return Err(Broken::Truncated),
        Ok(names) => names,
        Err(why) => return Err(broken(why, (0, 0))),
    };
    let names = (u32::from(lock.get()), generation);
    let no_key = Broken::NoKey { lock: names.0, generation };
    let pairing = keys.pairing(lock, generation).ok_or(no_key)?;
    let own = mark.map(|mark| pairing.emulated(&mark.salt));
    let pairing = own.as_ref().unwrap_or(pairing);
    if mark.is_some_and(|mark| (mark.lock, mark.generation) != (lock, generation)) {
        return Err(Broken::Altered);
    }
    let reader = ExtractReader::open(&bytes, pairing).map_err(|why| broken(why, names))?;
    let says = reader.header();
    let header = Header {
        lock: names.0,
        generation,
        number: says.number,
        scope: says.scope,
        since_last: says.since_last,
        made: says.made,
        newest: says.newest,
        maker: if mark.is_some() { Maker::Emulated } else { Maker::Real },
    };
    let mut chunks = Chunks { source, reader, items: Vec::new(), done: false };
    chunks.next_chunk()?;
    Ok(Extract { header, items: Box::new(chunks) })
}

/// What is left of an extract.
struct Chunks<R> {
    source: BufReader<R>,
    reader: ExtractReader,
    /// What is left of the last chunk, the next at the end.
    items: Vec<Item>,
    done: bool,
}

impl<R: Read> Chunks<R> {
    fn next_chunk(&mut self) -> Result<(), Broken> {
        let mut chunk = [0; CHUNK];
        let length = fill(&mut self.source, &mut chunk)?;
        if length == 0 {
            return Err(Broken::Truncated);
        }
        let items = self.reader.chunk(&mut chunk, length).map_err(|why| match why {
            FileFault::Broken if length < CHUNK => Broken::AlteredEnd,
            why => broken(why, (0, 0)),
        })?;
        self.items.extend(items.into_iter().rev());
        Ok(())
    }

    fn step(&mut self) -> Result<Option<Item>, Broken> {
        while self.items.is_empty() {
            // The last chunk is the one that the file ended in: nothing follows.
            if self.reader.is_whole() {
                self.done = true;
                return Ok(None);
            }
            self.next_chunk()?;
        }
        Ok(self.items.pop())
    }
}

impl<R: Read> Iterator for Chunks<R> {
    type Item = Result<Item, Broken>;

    fn next(&mut self) -> Option<Self::Item> {
        if self.done {
            return None;
        }
        let step = self.step();
        self.done |= step.is_err();
        step.transpose()
    }
}

/// Reads until `bytes` is full or the source ends; how much it read.
fn fill(source: &mut impl Read, bytes: &mut [u8]) -> Result<usize, Broken> {
    let mut length = 0;
    while let Some(rest) = bytes.get_mut(length..).filter(|rest| !rest.is_empty()) {
        match source.read(rest) {
            Ok(0) => break,
            Ok(read) => length += read,
            Err(why) if why.kind() == io::ErrorKind::Interrupted => {}
            Err(why) => return Err(Broken::Unreadable(why.to_string())),
        }
    }
    Ok(length)
}

fn broken(why: FileFault, (lock, generation): (u32, u32)) -> Broken {
    match why {
        FileFault::NotOurs => Broken::Alien,
        FileFault::Format(format) => Broken::Version(format),
        FileFault::NoKey | FileFault::OtherLock(_) | FileFault::OtherKey(_) => {
            Broken::NoKey { lock, generation }
        }
        FileFault::Broken => Broken::Altered,
        // The last two a lock's store says, of timetable files.
        FileFault::Wrong(_) | FileFault::Old(_) | FileFault::NotStaged => Broken::Nonsense,
    }
}
