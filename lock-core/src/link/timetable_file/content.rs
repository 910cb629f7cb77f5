//! A file's content, read chunk by chunk.
//!
//! It is postcard's format, read by hand for the same reason as `wire.rs` writes
//! it by hand, and for another: the crate builds every value on the stack before
//! it is put where it belongs, and a file is larger than the whole stack should be.

use super::{HEADER, ROOM, TimetableFile, Wrong};
use crate::link::{FileFault, Fingerprinting};
use crate::seal::{self, CHUNK, SealKey, Series};
use crate::settings::ZONE_TEXT;
use crate::time::{Date, Minute};
use crate::timetable::{Closure, Special, Timetables, Window, Windows};

/// The content of a file, as far as it was opened.
pub(super) struct Content<'h, C> {
    pub(super) key: SealKey,
    pub(super) series: Series,
    pub(super) header: &'h [u8; HEADER],
    pub(super) chunks: C,
    pub(super) fingerprint: Fingerprinting,
    /// The chunk that was opened last, and what of it was not read yet.
    pub(super) chunk: [u8; CHUNK],
    pub(super) from: usize,
    pub(super) to: usize,
    /// Of the next chunk.
    pub(super) index: u16,
    /// Bytes opened so far.
    pub(super) length: usize,
    pub(super) fault: Option<FileFault>,
    /// The last chunk was opened.
    pub(super) last: bool,
}

/// Whether anything is left that was not read.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Rest {
    Nothing,
    Something,
}

impl<C: FnMut(u16, &mut [u8; CHUNK]) -> Option<usize>> Content<'_, C> {
    /// Opens the next chunk; `None` behind the last, and after a fault.
    fn open(&mut self) -> Option<()> {
        if self.last || self.fault.is_some() {
            return None;
        }
        let opened = self.open_chunk();
        self.fault = opened.err();
        opened.ok()
    }

    fn open_chunk(&mut self) -> Result<(), FileFault> {
        (self.from, self.to) = (0, 0);
        let sealed = (self.chunks)(self.index, &mut self.chunk).ok_or(FileFault::Broken)?;
        self.fingerprint.take(self.chunk.get(..sealed).ok_or(FileFault::Broken)?);
        let Self { key, series, header, index, chunk, .. } = self;
        let opened = seal::open_chunk(key, series, &header[..], *index, chunk, sealed);
        let opened = opened.map_err(|_| FileFault::Broken)?;
        self.length = self.length.saturating_add(opened);
        if self.length > ROOM {
            return Err(FileFault::Wrong(Wrong::Form));
        }
        self.to = opened;
        self.index = self.index.saturating_add(1);
        self.last = seal::is_last(sealed);
        Ok(())
    }

    /// Opens what is left, to know that every seal holds and nothing follows.
    pub(super) fn end(&mut self) -> Result<Rest, FileFault> {
        let mut rest = Rest::Nothing;
        loop {
            if self.from < self.to {
                rest = Rest::Something;
            }
            if self.open().is_none() {
                break;
            }
        }
        if let Some(fault) = self.fault {
            return Err(fault);
        }
        match (self.chunks)(self.index, &mut self.chunk) {
            Some(_) => Err(FileFault::Broken),
            None => Ok(rest),
        }
    }

    fn u8(&mut self) -> Option<u8> {
        while self.from >= self.to {
            self.open()?;
        }
        let byte = self.chunk.get(self.from).copied();
        self.from = self.from.saturating_add(1);
        byte
    }

    /// Seven bits a byte, the lowest first; the highest bit says that more come.
    /// So many bytes at most, which are what a number of `bits` bits can take.
    #[inline(never)]
    fn number(&mut self, bytes: usize, bits: u32) -> Option<u32> {
        let mut value = 0_u64;
        for shift in [0, 7, 14, 21, 28].into_iter().take(bytes) {
            let byte = self.u8()?;
            value |= u64::from(byte & 0x7F) << shift;
            if byte & 0x80 == 0 {
                let fits = value >> bits == 0;
                return u32::try_from(value).ok().filter(|_| fits);
            }
        }
        None
    }

    fn u16(&mut self) -> Option<u16> {
        self.number(3, u16::BITS).and_then(|number| u16::try_from(number).ok())
    }

    /// How many of something follow. No more than a small machine can address,
    /// however large this one is.
    fn count(&mut self, most: usize) -> Option<usize> {
        let count = self.number(5, u32::BITS).and_then(|number| usize::try_from(number).ok());
        count.filter(|count| *count <= most)
    }

    /// Reads all of it into `file`; `None` if it is none.
    pub(super) fn file(&mut self, file: &mut TimetableFile) -> Option<()> {
        let mut zone = [0; ZONE_TEXT];
        let length = self.count(ZONE_TEXT)?;
        let zone = zone.get_mut(..length)?;
        for byte in &mut *zone {
            *byte = self.u8()?;
        }
        file.zone.clear();
        file.zone.push_str(core::str::from_utf8(zone).ok()?).ok()?;
        let calendar = &mut file.calendar;
        for windows in calendar.weeks.iter_mut().flatten() {
            self.windows(windows)?;
        }
        calendar.closures.clear();
        for _ in 0..self.count(calendar.closures.capacity())? {
            let (from, to) = (self.date()?, self.date()?);
            let timetables = self.timetables()?;
            calendar.closures.push(Closure { from, to, timetables }).ok()?;
        }
        calendar.specials.clear();
        for _ in 0..self.count(calendar.specials.capacity())? {
            let (date, timetables) = (self.date()?, self.timetables()?);
            let special = Special { date, timetables, windows: Windows::new() };
            calendar.specials.push(special).ok()?;
            self.windows(&mut calendar.specials.last_mut()?.windows)?;
        }
        Some(())
    }

    #[inline(never)]
    fn windows(&mut self, windows: &mut Windows) -> Option<()> {
        windows.clear();
        for _ in 0..self.count(windows.capacity())? {
            let (from, to) = (Minute::new(self.u16()?)?, Minute::new(self.u16()?)?);
            windows.push(Window::new(from, to)?).ok()?;
        }
        Some(())
    }

    fn date(&mut self) -> Option<Date> {
        self.u16().map(Date::from_days)
    }

    fn timetables(&mut self) -> Option<Timetables> {
        Timetables::try_from(self.u8()?).ok()
    }
}
