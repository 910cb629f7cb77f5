//! Opening times for one lock, as the laptop seals them and the lock opens them.
//!
//! ```text
//!  0  header      16   header.rs, then the version, u32
//! 16  chunks      up to 256 each, seal.rs
//! ```
//!
//! The content is postcard of [`TimetableFile`]. It is opened whole, checked
//! whole, and only then handed out (R6). A laptop does so in memory; a lock, which
//! has no room for a calendar, has every part written to flash as it is opened
//! (`Unpack`), and checks what it reads back from there (`Items`).

mod content;

use serde::{Deserialize, Serialize};

use content::{Content, Rest};

use super::header::{self, Kind};
use super::wire::Wire;
use super::{FileFault, Fingerprint, Fingerprinting, Version};
use crate::byte_table::{Put, Take, table};
use crate::pairing::Pairing;
use crate::seal::{self, CHUNK, CONTENT, Direction, SealKey, Series};
use crate::settings::ZONE_TEXT;
use crate::time::{Date, Weekday, Zone};
use crate::timetable::{
    CLOSURES, Calendar, Closure, Day, FEW, FEWS, Few, Items, SPECIAL_DAYS, SPECIALS, Special,
    TIMETABLES, TimetableId, Timetables, WINDOWS_A_DAY, Windows,
};

/// Bytes of the header.
pub const HEADER: usize = 16;

/// Minutes in a day.
const DAY: u16 = 1_440;

/// Bytes of the longest zone, with its length.
const ZONE_MOST: usize = 1 + ZONE_TEXT;
/// Bytes of the windows of a day at most: a count, and three for each.
const DAY_MOST: usize = 1 + WINDOWS_A_DAY * 3;
/// Bytes of the longest content.
const CONTENT_MOST: usize =
    ZONE_MOST + TIMETABLES * 7 * DAY_MOST + (1 + CLOSURES * 7) + (1 + SPECIALS * (4 + DAY_MOST));

/// Most chunks of a file; the last is never full.
pub const CHUNKS_MOST: usize = CONTENT_MOST / CONTENT + 1;

/// Room for the content of that many chunks.
const ROOM: usize = CHUNKS_MOST * CONTENT;

/// When a lock may be opened, and where it stands.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct TimetableFile {
    /// The zone rule, as a POSIX TZ string.
    pub zone: heapless::String<ZONE_TEXT>,
    /// Timetables, closures and special days.
    pub calendar: Calendar,
}

/// What makes a rightly sealed file useless.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Wrong {
    /// Its content is none of this format.
    Form,
    /// The zone rule is none.
    Zone,
    /// Windows of that timetable overlap, on that weekday or from the day before.
    Overlap(TimetableId, Weekday),
    /// The same, on or beside a special day.
    SpecialOverlap(TimetableId, Date),
    /// A closure that begins on that date ends before it.
    Closure(Date),
    /// A closure or special day names no timetable.
    Nobody,
    /// That date is twice a special day, or a special day and closed.
    Contradiction(TimetableId, Date),
}

impl TimetableFile {
    /// Room for one: no zone, nothing open.
    pub const EMPTY: Self = Self { zone: heapless::String::new(), calendar: Calendar::EMPTY };

    /// Whether a lock can go by it.
    ///
    /// # Errors
    /// The first contradiction.
    pub fn check(&self) -> Result<(), Wrong> {
        Zone::parse(&self.zone).map_err(|_| Wrong::Zone)?;
        let Ok(checked) = check(&mut &self.calendar);
        checked
    }

    /// Writes the content; `None` if there is no room for it.
    fn write(&self, buffer: &mut [u8; ROOM]) -> Option<usize> {
        let mut wire = Wire::into(buffer);
        wire.bytes(self.zone.as_bytes());
        for windows in self.calendar.weeks.iter().flatten() {
            put_windows(windows, &mut wire);
        }
        wire.count(self.calendar.closures.len());
        for closure in &self.calendar.closures {
            wire.u16(closure.from.days());
            wire.u16(closure.to.days());
            wire.u8(closure.timetables.bits());
        }
        wire.count(self.calendar.specials.len());
        for special in &self.calendar.specials {
            wire.u16(special.date.days());
            wire.u8(special.timetables.bits());
            put_windows(&special.windows, &mut wire);
        }
        wire.length()
    }
}

fn put_windows(windows: &Windows, wire: &mut Wire<'_>) {
    wire.count(windows.len());
    for window in windows {
        wire.raw(&window.to_bytes());
    }
}

/// Where a file is opened: what hands out its sealed chunks, and takes what was in
/// them part by part, in this order. Parts that the file has not got are given as
/// nothing.
pub(crate) trait Unpack {
    /// Puts the sealed chunk of that index into the buffer: its length, or `None`
    /// behind the last.
    fn chunk(&mut self, index: u16, chunk: &mut [u8; CHUNK]) -> Option<usize>;

    /// The zone rule; nobody has looked yet whether it is one.
    fn zone(&mut self, text: &str) -> Result<(), NotKept>;

    /// The windows of a weekday.
    fn windows(
        &mut self,
        id: TimetableId,
        weekday: Weekday,
        windows: &Windows,
    ) -> Result<(), NotKept>;

    /// The closures from 4 × `row` on; fewer than four are the last ones.
    fn closures(&mut self, row: u8, few: &[Closure]) -> Result<(), NotKept>;

    /// The special day at that place.
    fn special(&mut self, place: u8, special: Option<&Special>) -> Result<(), NotKept>;
}

/// What was opened could not be kept.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct NotKept;

/// Opens a file in memory.
struct InMemory<C> {
    chunks: C,
    file: TimetableFile,
}

impl<C: FnMut(u16, &mut [u8; CHUNK]) -> Option<usize>> Unpack for InMemory<C> {
    fn chunk(&mut self, index: u16, chunk: &mut [u8; CHUNK]) -> Option<usize> {
        (self.chunks)(index, chunk)
    }

    fn zone(&mut self, text: &str) -> Result<(), NotKept> {
        self.file.zone = text.try_into().map_err(|_| NotKept)?;
        Ok(())
    }

    fn windows(
        &mut self,
        id: TimetableId,
        weekday: Weekday,
        windows: &Windows,
    ) -> Result<(), NotKept> {
        let week = self.file.calendar.weeks.get_mut(id.index());
        let day = week.and_then(|week| week.get_mut(weekday.index())).ok_or(NotKept)?;
        day.clone_from(windows);
        Ok(())
    }

    fn closures(&mut self, _: u8, few: &[Closure]) -> Result<(), NotKept> {
        self.file.calendar.closures.extend_from_slice(few).map_err(|_| NotKept)
    }

    fn special(&mut self, _: u8, special: Option<&Special>) -> Result<(), NotKept> {
        let specials = &mut self.file.calendar.specials;
        special.map_or(Ok(()), |special| specials.push(special.clone())).map_err(|_| NotKept)
    }
}

/// Whether a lock can go by a calendar: the first contradiction.
pub(crate) fn check<I: Items>(items: &mut I) -> Result<Result<(), Wrong>, I::Error> {
    for id in TimetableId::ALL {
        let mut windows = Windows::new();
        items.windows(id, Weekday::Mon, &mut windows)?;
        for weekday in Weekday::ALL {
            let mut next = Windows::new();
            items.windows(id, weekday.next(), &mut next)?;
            if !apart(&windows) {
                return Ok(Err(Wrong::Overlap(id, weekday)));
            }
            if !over_by(&windows, &next) {
                return Ok(Err(Wrong::Overlap(id, weekday.next())));
            }
            windows = next;
        }
    }
    for row in 0..FEWS {
        let mut few = Few::new();
        items.closures(row, &mut few)?;
        for closure in &few {
            if closure.to < closure.from {
                return Ok(Err(Wrong::Closure(closure.from)));
            }
            if closure.timetables == Timetables::default() {
                return Ok(Err(Wrong::Nobody));
            }
        }
        if few.len() < FEW {
            break;
        }
    }
    check_specials(items)
}

fn check_specials<I: Items>(items: &mut I) -> Result<Result<(), Wrong>, I::Error> {
    for place in 0..SPECIAL_DAYS {
        let mut windows = Windows::new();
        let Some((date, timetables)) = items.special(place, &mut windows)? else { break };
        if timetables == Timetables::default() {
            return Ok(Err(Wrong::Nobody));
        }
        let taken = taken(items, place, date)?;
        for id in TimetableId::ALL.into_iter().filter(|id| timetables.has(*id)) {
            if taken.has(id) {
                return Ok(Err(Wrong::Contradiction(id, date)));
            }
            if !fits(items, id, date, &windows)? {
                return Ok(Err(Wrong::SpecialOverlap(id, date)));
            }
        }
    }
    Ok(Ok(()))
}

/// The timetables for which a date is closed, or special by an earlier place.
#[inline(never)] // own frame
fn taken<I: Items>(items: &mut I, place: u8, date: Date) -> Result<Timetables, I::Error> {
    let mut taken = items.closed(date)?;
    for place in 0..place {
        if let Some((earlier, timetables)) = items.special(place, &mut Windows::new())?
            && earlier == date
        {
            taken = taken.or(timetables);
        }
    }
    Ok(taken)
}

/// Whether the windows of a special day keep clear of each other, of those of the
/// day before and of those of the day after.
#[inline(never)] // own frame
fn fits<I: Items>(
    items: &mut I,
    id: TimetableId,
    date: Date,
    windows: &Windows,
) -> Result<bool, I::Error> {
    if !apart(windows) {
        return Ok(false);
    }
    if let Some(before) = date.prev()
        && let Day::Windows(before) = items.day(id, before)?
        && !over_by(&before, windows)
    {
        return Ok(false);
    }
    if let Some(after) = date.next()
        && let Day::Windows(after) = items.day(id, after)?
        && !over_by(windows, &after)
    {
        return Ok(false);
    }
    Ok(true)
}

/// Whether each window of a day is over before the next one starts.
fn apart(windows: &Windows) -> bool {
    let next = windows.iter().skip(1);
    windows.iter().zip(next).all(|(first, second)| first.end() <= second.from().get())
}

/// Whether the windows of a day are over when those of the next day start.
fn over_by(windows: &Windows, next: &Windows) -> bool {
    windows.iter().all(|window| {
        let runs_to = window.end().saturating_sub(DAY);
        next.iter().all(|next| runs_to <= next.from().get())
    })
}

/// The version that a header names, before anything is known to be true of it.
///
/// # Errors
/// [`FileFault`] if it is no header of such a file, or the pairing key is not the
/// one that it names.
pub fn version(header: &[u8; HEADER], pairing: &Pairing) -> Result<Version, FileFault> {
    let mut take = Take::from(header);
    let key = header::take_common(Kind::Timetables, &mut take)?;
    header::check_key(key, pairing)?;
    Ok(Version(take.u32()))
}

/// Opens a file whose chunks `chunks` puts into the buffer, by index, returning
/// their lengths, or `None` behind the last. Nothing is handed out before every
/// seal holds and the whole is checked.
///
/// # Errors
/// [`FileFault`], but never [`FileFault::NoKey`].
pub fn open(
    header: &[u8; HEADER],
    chunks: impl FnMut(u16, &mut [u8; CHUNK]) -> Option<usize>,
    pairing: &Pairing,
) -> Result<(Version, Fingerprint, TimetableFile), FileFault> {
    let mut place = InMemory { chunks, file: TimetableFile::EMPTY };
    let (version, fingerprint) = open_into(header, pairing, &mut place)?;
    place.file.check().map_err(FileFault::Wrong)?;
    Ok((version, fingerprint, place.file))
}

/// The same at a place of one's own, chunk after chunk as its seal holds, and
/// unchecked: nothing of it is to be used before [`check`] was, and after an error
/// none of it ever.
pub(crate) fn open_into(
    header: &[u8; HEADER],
    pairing: &Pairing,
    place: &mut impl Unpack,
) -> Result<(Version, Fingerprint), FileFault> {
    let version = version(header, pairing)?;
    let mut content = Content {
        key: pairing.inbound(),
        series: series(pairing, version),
        header,
        place,
        fingerprint: Fingerprinting::of(header),
        chunk: [0; CHUNK],
        from: 0,
        to: 0,
        index: 0,
        length: 0,
        fault: None,
        last: false,
    };
    let read = content.read();
    // Seals are looked at first: nobody is told what is wrong with a forgery.
    let rest = content.end()?;
    if read.is_none() || rest == Rest::Something {
        return Err(FileFault::Wrong(Wrong::Form));
    }
    Ok((version, content.fingerprint.end()))
}

fn series(pairing: &Pairing, Version(counter): Version) -> Series {
    Series {
        direction: Direction::Inbound,
        lock: pairing.lock().get(),
        generation: pairing.generation(),
        counter,
    }
}

/// Seals a file, chunk after chunk.
///
/// No `Debug`: it holds a key.
pub struct Sealer {
    header: [u8; HEADER],
    key: SealKey,
    series: Series,
    content: [u8; ROOM],
    length: usize,
    /// Of the next chunk.
    index: u16,
    done: bool,
    fingerprint: Fingerprinting,
}

silent!(Sealer);

impl Sealer {
    /// Begins to seal `file` under that key. No version may be used twice with the
    /// same key for two different files.
    ///
    /// # Errors
    /// [`Wrong`] if a lock would refuse it.
    pub fn new(pairing: &Pairing, version: Version, file: &TimetableFile) -> Result<Self, Wrong> {
        file.check()?;
        let mut content = [0; ROOM];
        let length = file.write(&mut content).ok_or(Wrong::Form)?;
        let header = table(|put| {
            header::put_common(Kind::Timetables, pairing, put);
            put.u32(version.0);
        });
        let fingerprint = Fingerprinting::of(&header);
        let (key, series) = (pairing.inbound(), series(pairing, version));
        Ok(Self { header, key, series, content, length, index: 0, done: false, fingerprint })
    }

    /// The header, which comes first.
    #[must_use]
    pub const fn header(&self) -> &[u8; HEADER] {
        &self.header
    }

    /// Puts the next chunk into `chunk` and returns its length; `None` behind the
    /// last.
    pub fn chunk(&mut self, chunk: &mut [u8; CHUNK]) -> Option<usize> {
        if self.done {
            return None;
        }
        let from = usize::from(self.index).saturating_mul(CONTENT);
        let left = self.content.get(from..self.length)?;
        let length = left.len().min(CONTENT);
        Put::into(chunk).bytes(left.get(..length)?);
        let sealed =
            seal::seal_chunk(&self.key, &self.series, &self.header, self.index, chunk, length);
        let sealed = sealed.ok()?;
        self.fingerprint.take(chunk.get(..sealed)?);
        self.index = self.index.saturating_add(1);
        self.done = seal::is_last(sealed);
        Some(sealed)
    }

    /// The fingerprint, once every chunk was handed out.
    #[must_use]
    pub fn fingerprint(self) -> Option<Fingerprint> {
        self.done.then(|| self.fingerprint.end())
    }
}

#[cfg(test)]
mod tests;
