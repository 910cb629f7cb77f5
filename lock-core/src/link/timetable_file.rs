//! Opening times for one lock, as the laptop seals them and the lock opens them.
//!
//! ```text
//!  0  header      16   header.rs, then the version, u32
//! 16  chunks      up to 256 each, seal.rs
//! ```
//!
//! The content is postcard of [`TimetableFile`]. It is opened whole, checked
//! whole, and only then handed out (R6).

mod content;

use serde::{Deserialize, Serialize};

use content::{Content, Rest};

use super::header::{self, Kind};
use super::wire::Wire;
use super::{FileFault, Fingerprint, Fingerprinting, Version};
use crate::byte_table::{Put, Take};
use crate::pairing::Pairing;
use crate::seal::{self, CHUNK, CONTENT, Direction, SealKey, Series};
use crate::settings::ZONE_TEXT;
use crate::time::{Date, Weekday, Zone};
use crate::timetable::{
    CLOSURES, Calendar, Day, SPECIALS, TIMETABLES, TimetableId, Timetables, WINDOWS_A_DAY, Windows,
};

/// Bytes of the header.
pub const HEADER: usize = 16;

/// Minutes in a day.
const DAY: u16 = 1_440;

/// Bytes of the longest zone, with its length.
const ZONE_MOST: usize = 1 + ZONE_TEXT;
/// Bytes of the windows of a day at most: a count, and twice two for each.
const DAY_MOST: usize = 1 + WINDOWS_A_DAY * 4;
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
        let calendar = &self.calendar;
        for (id, week) in TimetableId::ALL.into_iter().zip(&calendar.weeks) {
            for (weekday, windows) in Weekday::ALL.into_iter().zip(week) {
                let tomorrow = weekday.next();
                let next = week.get(tomorrow.index());
                if !apart(windows) {
                    return Err(Wrong::Overlap(id, weekday));
                }
                if !next.is_some_and(|next| over_by(windows, next)) {
                    return Err(Wrong::Overlap(id, tomorrow));
                }
            }
        }
        for closure in &calendar.closures {
            if closure.to < closure.from {
                return Err(Wrong::Closure(closure.from));
            }
            if closure.timetables == Timetables::default() {
                return Err(Wrong::Nobody);
            }
        }
        check_specials(calendar)
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
        wire.u16(window.from().get());
        wire.u16(window.to().get());
    }
}

fn check_specials(calendar: &Calendar) -> Result<(), Wrong> {
    let specials = &calendar.specials;
    for (place, special) in specials.iter().enumerate() {
        let date = special.date;
        if special.timetables == Timetables::default() {
            return Err(Wrong::Nobody);
        }
        for id in TimetableId::ALL.into_iter().filter(|id| special.timetables.has(*id)) {
            let mut earlier = specials.iter().take(place);
            let twice = earlier.any(|other| other.date == date && other.timetables.has(id));
            let Day::Windows(windows) = calendar.day(id, date) else {
                return Err(Wrong::Contradiction(id, date));
            };
            if twice {
                return Err(Wrong::Contradiction(id, date));
            }
            let before = date.prev().map(|before| calendar.day(id, before));
            let after = date.next().map(|after| calendar.day(id, after));
            let fits = apart(&windows)
                && before.is_none_or(|before| match before {
                    Day::Windows(before) => over_by(&before, &windows),
                    Day::Closed => true,
                })
                && after.is_none_or(|after| match after {
                    Day::Windows(after) => over_by(&windows, &after),
                    Day::Closed => true,
                });
            if !fits {
                return Err(Wrong::SpecialOverlap(id, date));
            }
        }
    }
    Ok(())
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
    let mut file = TimetableFile::EMPTY;
    let (version, fingerprint) = open_into(header, chunks, pairing, &mut file)?;
    Ok((version, fingerprint, file))
}

/// The same into `file`, read chunk after chunk as its seal holds: nothing is in
/// memory twice. After an error, what is in `file` is of no use.
///
/// # Errors
/// As [`open`].
pub fn open_into(
    header: &[u8; HEADER],
    chunks: impl FnMut(u16, &mut [u8; CHUNK]) -> Option<usize>,
    pairing: &Pairing,
    file: &mut TimetableFile,
) -> Result<(Version, Fingerprint), FileFault> {
    let version = version(header, pairing)?;
    let mut content = Content {
        key: pairing.inbound(),
        series: series(pairing, version),
        header,
        chunks,
        fingerprint: Fingerprinting::of(header),
        chunk: [0; CHUNK],
        from: 0,
        to: 0,
        index: 0,
        length: 0,
        fault: None,
        last: false,
    };
    let read = content.file(file);
    // Seals are looked at first: nobody is told what is wrong with a forgery.
    let rest = content.end()?;
    if read.is_none() || rest == Rest::Something {
        return Err(FileFault::Wrong(Wrong::Form));
    }
    file.check().map_err(FileFault::Wrong)?;
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
        let mut header = [0; HEADER];
        let mut put = Put::into(&mut header);
        header::put_common(Kind::Timetables, pairing, &mut put);
        put.u32(version.0);
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
