//! A file's content, read chunk by chunk.
//!
//! It is postcard's format, read by hand for the same reason as `wire.rs` writes
//! it by hand, and for another: the crate builds every value on the stack before
//! it is put where it belongs, and a file is larger than the whole stack should be.
//! What was read goes to its place ([`Unpack`]) part by part.

use super::{HEADER, NotKept, ROOM, Unpack, Wrong};
use crate::link::{FileFault, Fingerprinting};
use crate::seal::{self, CHUNK, SealKey, Series};
use crate::settings::ZONE_TEXT;
use crate::time::{Date, Weekday};
use crate::timetable::{
    CLOSURES, Closure, FEW, FEWS, Few, SPECIAL_DAYS, SPECIALS, Special, TimetableId, Timetables,
    WINDOWS_A_DAY, Window, Windows,
};

/// The content of a file, as far as it was opened.
pub(super) struct Content<'h, U> {
    pub(super) key: SealKey,
    pub(super) series: Series,
    pub(super) header: &'h [u8; HEADER],
    pub(super) place: &'h mut U,
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

impl<U: Unpack> Content<'_, U> {
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
        let sealed = self.place.chunk(self.index, &mut self.chunk).ok_or(FileFault::Broken)?;
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
        match self.place.chunk(self.index, &mut self.chunk) {
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
    #[inline(never)] // one copy
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

    /// What the place said; after a fault nothing more is read.
    fn kept(&mut self, kept: Result<(), NotKept>) -> Option<()> {
        if kept.is_err() {
            self.fault = Some(FileFault::Memory);
        }
        kept.ok()
    }

    /// Reads all of it to its place; `None` if it is none, or after a fault.
    pub(super) fn read(&mut self) -> Option<()> {
        self.zone()?;
        for id in TimetableId::ALL {
            for weekday in Weekday::ALL {
                let windows = self.windows()?;
                let kept = self.place.windows(id, weekday, &windows);
                self.kept(kept)?;
            }
        }
        let mut left = self.count(CLOSURES)?;
        for row in 0..FEWS {
            let few = self.few(left.min(FEW))?;
            left = left.saturating_sub(few.len());
            let kept = self.place.closures(row, &few);
            self.kept(kept)?;
        }
        let specials = self.count(SPECIALS)?;
        for place in 0..SPECIAL_DAYS {
            let special = if usize::from(place) < specials { Some(self.special()?) } else { None };
            let kept = self.place.special(place, special.as_ref());
            self.kept(kept)?;
        }
        Some(())
    }

    #[inline(never)] // own frame
    fn zone(&mut self) -> Option<()> {
        let mut zone = [0; ZONE_TEXT];
        let length = self.count(ZONE_TEXT)?;
        let zone = zone.get_mut(..length)?;
        for byte in &mut *zone {
            *byte = self.u8()?;
        }
        let kept = self.place.zone(core::str::from_utf8(zone).ok()?);
        self.kept(kept)
    }

    #[inline(never)] // own frame
    fn windows(&mut self) -> Option<Windows> {
        let mut windows = Windows::new();
        for _ in 0..self.count(WINDOWS_A_DAY)? {
            let window = Window::from_bytes([self.u8()?, self.u8()?, self.u8()?])?;
            windows.push(window).ok()?;
        }
        Some(windows)
    }

    #[inline(never)] // own frame
    fn few(&mut self, count: usize) -> Option<Few> {
        let mut few = Few::new();
        for _ in 0..count {
            let (from, to) = (self.date()?, self.date()?);
            few.push(Closure { from, to, timetables: self.timetables()? }).ok()?;
        }
        Some(few)
    }

    #[inline(never)] // own frame
    fn special(&mut self) -> Option<Special> {
        let (date, timetables) = (self.date()?, self.timetables()?);
        Some(Special { date, timetables, windows: self.windows()? })
    }

    fn date(&mut self) -> Option<Date> {
        self.u16().map(Date::from_days)
    }

    fn timetables(&mut self) -> Option<Timetables> {
        self.u8().map(Timetables::from_bits)
    }
}
