//! An extract: records carried out of a lock, sealed as they are made.
//!
//! ```text
//!  0  header  32      header.rs, and then
//!       12  number    u32  of the extract: the counter of the seal
//!       16  from      u32  the first number that it tells of
//!       20  newest    u32  the last; 0 if the lock has no record
//!       24  made      u32  UTC seconds; 0 if the clock was invalid
//!       28  clock     u8   0 invalid, 1 valid
//!       29  scope     u8   0 all, 1 openings, 2 changes, 3 alarms
//!       30  since     u8   0 all there are, 1 those not yet collected
//!       31  -         u8   0
//! 32  chunks  up to 256 each (seal.rs): items of 20 bytes, item.rs, at most eleven,
//!     then a sum
//! ```
//!
//! # What it proves
//! Every number from `from` to `newest` is told of, once and in order: as a record,
//! as a gap of the lock's own list, or as left out by the scope. Each chunk ends
//! with a sum of what was told so far, and the last one reaches `newest`. So a
//! reader tells what was overwritten or lost from what nobody asked for, and any
//! change, cut or exchange from both.
//!
//! The scope is judged by the event alone, never by its outcome: the length of an
//! extract must not tell of duress (R4).

mod item;
mod scope;

use crate::audit::{Entry, Seq};
use crate::byte_table::{Put, Take, table};
use crate::pairing::{LockNumber, Pairing};
use crate::seal::{self, CHUNK, CONTENT, Direction, SealKey, Series};
use crate::time::Utc;

use super::header::{self, Kind};
use super::{FileFault, Wrong};

pub use item::Item;
use item::{ITEM, Sum};
pub use scope::Scope;

/// Bytes of the header.
pub const HEADER: usize = 32;

/// Most items of a chunk.
pub const ITEMS: usize = CONTENT / ITEM - 1;

/// What an extract says of itself.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct ExtractHeader {
    /// Its number: used once under one key.
    pub number: u32,
    /// Which records it lists.
    pub scope: Scope,
    /// Whether only those not yet collected.
    pub since_last: bool,
    /// The first number that it tells of.
    pub from: Seq,
    /// The last one: the lock's newest record.
    pub newest: Option<Seq>,
    /// When it was made; `None` if the clock was invalid.
    pub made: Option<Utc>,
}

impl ExtractHeader {
    fn write(&self, pairing: &Pairing) -> [u8; HEADER] {
        table(|put| {
            header::put_common(Kind::Extract, pairing, put);
            put.u32(self.number);
            put.u32(self.from.0);
            put.u32(self.newest.map_or(0, |seq| seq.0));
            put.u32(self.made.map_or(0, Utc::as_secs));
            put.u8(u8::from(self.made.is_some()));
            put.u8(self.scope.number());
            put.u8(u8::from(self.since_last));
        })
    }

    fn read(take: &mut Take<'_>) -> Option<Self> {
        let (number, from, newest) = (take.u32(), Seq(take.u32()), Seq(take.u32()));
        let made = Utc::from_secs(take.u32());
        let [clock, scope, since, zero] = take.array();
        let made = match clock {
            0 if made == Utc::MIN => None,
            1 => Some(made),
            _ => return None,
        };
        let scope = Scope::numbered(scope)?;
        let since_last = match since {
            0 => false,
            1 => true,
            _ => return None,
        };
        let newest = (newest.0 > 0).then_some(newest);
        let whole = zero == 0 && newest.is_none_or(|seq| seq <= LAST);
        whole.then_some(Self { number, scope, since_last, from, newest, made })
    }

    fn series(&self, pairing: &Pairing) -> Series {
        Series {
            direction: Direction::Outbound,
            lock: pairing.lock().get(),
            generation: pairing.generation(),
            counter: self.number,
        }
    }
}

/// No extract reaches further: one more must be countable.
const LAST: Seq = Seq(u32::MAX - 1);

/// A chunk was asked for that is neither the one due nor the one before.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct OutOfTurn;

/// Makes an extract, a chunk whenever one is asked for.
///
/// It keeps the chunk that it made last, sealed, so that this one can be asked for
/// again, and never makes a chunk twice: by then the rings could list other things
/// under the same numbers, and two contents under one nonce would give both away.
pub struct ExtractWriter {
    header: [u8; HEADER],
    series: Series,
    scope: Scope,
    newest: u32,
    /// The next number to tell of.
    due: u32,
    /// Numbers that the scope leaves out, not yet told.
    left_out: Option<(Seq, Seq)>,
    /// How many items were told.
    items: u32,
    /// Of the next chunk.
    index: u16,
    done: bool,
    /// The last one, sealed.
    chunk: [u8; CHUNK],
    length: usize,
}

silent!(ExtractWriter);

impl ExtractWriter {
    /// Begins an extract.
    #[must_use]
    pub fn new(pairing: &Pairing, header: &ExtractHeader) -> Self {
        let header = ExtractHeader { newest: header.newest.map(|seq| seq.min(LAST)), ..*header };
        Self {
            header: header.write(pairing),
            series: header.series(pairing),
            scope: header.scope,
            newest: header.newest.map_or(0, |seq| seq.0),
            due: header.from.0.max(1),
            left_out: None,
            items: 0,
            index: 0,
            done: false,
            chunk: [0; CHUNK],
            length: 0,
        }
    }

    /// The header, which comes first.
    #[must_use]
    pub const fn header(&self) -> &[u8; HEADER] {
        &self.header
    }

    /// Whether the last chunk was made.
    #[must_use]
    pub const fn is_done(&self) -> bool {
        self.done
    }

    /// The chunk of that index: the one due, or once more the one before. `key` is
    /// the pairing key's [`Pairing::outbound`]; `entries` lists the lock's entries
    /// from a number on.
    ///
    /// # Errors
    /// [`OutOfTurn`] for any other chunk.
    pub fn chunk<I: Iterator<Item = Entry>>(
        &mut self,
        index: u16,
        key: &SealKey,
        entries: impl FnOnce(Seq) -> I,
    ) -> Result<&[u8], OutOfTurn> {
        if index == self.index && !self.done {
            let mut content = [0; CONTENT];
            let length = self.fill(&mut content, entries(Seq(self.due)));
            Put::into(&mut self.chunk).bytes(content.get(..length).ok_or(OutOfTurn)?);
            let chunk = &mut self.chunk;
            let sealed = seal::seal_chunk(key, &self.series, &self.header, index, chunk, length);
            // Full chunks to the last index there is: nothing could follow.
            self.index = index.checked_add(1).ok_or(OutOfTurn)?;
            self.length = sealed.map_err(|_| OutOfTurn)?;
            self.done = seal::is_last(self.length);
        } else if index.checked_add(1) != Some(self.index) {
            return Err(OutOfTurn);
        }
        Ok(self.last())
    }

    /// The chunk that was made last; empty before the first.
    #[must_use]
    pub fn last(&self) -> &[u8] {
        self.chunk.get(..self.length).unwrap_or_default()
    }

    /// Fills a chunk and returns how much of it.
    fn fill(
        &mut self,
        content: &mut [u8; CONTENT],
        mut entries: impl Iterator<Item = Entry>,
    ) -> usize {
        let (places, _) = content.as_chunks_mut::<ITEM>();
        let mut places = places.iter_mut();
        let mut entry = entries.next();
        let mut length: usize = 0;
        while length < ITEMS {
            if entry.is_some_and(|entry| entry.last().0 < self.due) {
                entry = entries.next();
                continue;
            }
            let item = match self.next(entry) {
                Some(Item::LeftOut { to, .. }) => {
                    let from = self.left_out.map_or(Seq(self.due), |(from, _)| from);
                    self.left_out = Some((from, to));
                    self.due = to.0.saturating_add(1);
                    continue;
                }
                item => item,
            };
            // What was left out before comes first; the entry's turn is the next.
            let item = match (self.left_out.take(), item) {
                (Some((from, to)), _) => Item::LeftOut { from, to },
                (None, Some(item)) => {
                    self.due = item.last().0.saturating_add(1);
                    item
                }
                (None, None) => break,
            };
            if let Some(place) = places.next() {
                *place = item.write();
            }
            self.items = self.items.saturating_add(1);
            length = length.saturating_add(1);
        }
        let told = Seq(self.due.saturating_sub(1));
        if let Some(place) = places.next() {
            *place = Sum { items: self.items, told }.write();
        }
        length.saturating_add(1).saturating_mul(ITEM)
    }

    /// What is to be told of the number that is due; `None` behind the last.
    fn next(&self, entry: Option<Entry>) -> Option<Item> {
        let (due, newest) = (Seq(self.due), Seq(self.newest));
        if due > newest {
            return None;
        }
        let gap = |to: Seq, lost: u32| {
            let to = to.min(newest);
            let all = to.0.saturating_sub(due.0).saturating_add(1);
            Item::gap(due, to, lost.min(all))
        };
        // A number that the list passes over is as good as lost.
        let passed_over = |next: Seq| gap(Seq(next.0.saturating_sub(1)), u32::MAX);
        Some(match entry {
            None => gap(newest, u32::MAX),
            Some(Entry::Record(seq, _)) if seq > due => passed_over(seq),
            Some(Entry::Gap(listed)) if listed.from > due => passed_over(listed.from),
            Some(Entry::Gap(listed)) => gap(listed.to, listed.lost),
            Some(Entry::Record(seq, record)) if self.scope.takes(&record.event) => {
                Item::Record(seq, record)
            }
            Some(Entry::Record(seq, _)) => Item::LeftOut { from: due, to: seq },
        })
    }
}

/// The lock and the generation of the key that a header names, before anything is
/// known to be true of it: to find the key.
///
/// # Errors
/// [`FileFault`] if it is no header of an extract.
pub fn sealed_by(header: &[u8; HEADER]) -> Result<(LockNumber, u32), FileFault> {
    header::take_common(Kind::Extract, &mut Take::from(header))
}

/// Opens an extract, chunk after chunk.
///
/// No `Debug`: it holds a key.
pub struct ExtractReader {
    bytes: [u8; HEADER],
    header: ExtractHeader,
    key: SealKey,
    series: Series,
    due: u32,
    items: u32,
    index: u16,
    whole: bool,
}

silent!(ExtractReader);

impl ExtractReader {
    /// Begins to read. What the header says is proved by the first chunk.
    ///
    /// # Errors
    /// [`FileFault`] if it is no header of an extract, or names another key.
    pub fn open(bytes: &[u8; HEADER], pairing: &Pairing) -> Result<Self, FileFault> {
        let mut take = Take::from(bytes);
        let key = header::take_common(Kind::Extract, &mut take)?;
        header::check_key(key, pairing)?;
        let header = ExtractHeader::read(&mut take).ok_or(FileFault::Wrong(Wrong::Form))?;
        Ok(Self {
            bytes: *bytes,
            header,
            key: pairing.outbound(),
            series: header.series(pairing),
            due: header.from.0.max(1),
            items: 0,
            index: 0,
            whole: false,
        })
    }

    /// What the extract says of itself.
    #[must_use]
    pub const fn header(&self) -> &ExtractHeader {
        &self.header
    }

    /// Whether the last chunk was read. What ends before is cut short.
    #[must_use]
    pub const fn is_whole(&self) -> bool {
        self.whole
    }

    /// Opens the next chunk, the first `length` bytes of `chunk`, and returns its
    /// items.
    ///
    /// # Errors
    /// [`FileFault::Broken`] if its seal does not hold, it is not the one that
    /// follows, or the last was read; [`FileFault::Wrong`] if it tells what no lock
    /// tells.
    pub fn chunk(
        &mut self,
        chunk: &mut [u8; CHUNK],
        length: usize,
    ) -> Result<heapless::Vec<Item, ITEMS>, FileFault> {
        if self.whole {
            return Err(FileFault::Broken);
        }
        let opened =
            seal::open_chunk(&self.key, &self.series, &self.bytes, self.index, chunk, length);
        let opened = opened.map_err(|_| FileFault::Broken)?;
        let content = chunk.get(..opened).ok_or(FileFault::Broken)?;
        let items = self.items(content).ok_or(FileFault::Wrong(Wrong::Form))?;
        let whole = seal::is_last(length);
        let newest = self.header.newest.map_or(0, |seq| seq.0);
        if whole && self.due <= newest {
            return Err(FileFault::Wrong(Wrong::Form));
        }
        self.index = self.index.checked_add(1).ok_or(FileFault::Broken)?;
        self.whole = whole;
        Ok(items)
    }

    fn items(&mut self, content: &[u8]) -> Option<heapless::Vec<Item, ITEMS>> {
        let (places, rest) = content.as_chunks::<ITEM>();
        let (sum, places) = places.split_last()?;
        let mut items = heapless::Vec::new();
        for place in places {
            let item = Item::read(place)?;
            self.follows(&item).then_some(())?;
            self.due = item.last().0.checked_add(1)?;
            items.push(item).ok()?;
        }
        self.items = self.items.checked_add(u32::try_from(items.len()).ok()?)?;
        let told = Sum { items: self.items, told: Seq(self.due.saturating_sub(1)) };
        // What the scope leaves out may be known to the sum before it is an item.
        let counted = Sum::read(sum)?;
        let right = counted.items == told.items && counted.told >= told.told;
        (rest.is_empty() && right).then_some(items)
    }

    /// Whether an item tells of the number that is due, and of what it may.
    fn follows(&self, item: &Item) -> bool {
        let newest = self.header.newest.map_or(0, |seq| seq.0);
        let scope = self.header.scope;
        let fits = match item {
            Item::Record(_, record) => scope.takes(&record.event),
            Item::Gap(gap) => {
                let all = u64::from(gap.to.0).saturating_sub(gap.from.0.into()).saturating_add(1);
                u64::from(gap.lost) <= all
            }
            Item::LeftOut { .. } => scope != Scope::All,
        };
        let (first, last) = (item.first().0, item.last().0);
        fits && first == self.due && first <= last && last <= newest
    }
}

#[cfg(test)]
mod tests;
