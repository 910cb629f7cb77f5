//! Timetable files: staged piece by piece, opened into rows, waiting and adopted.
//!
//! The file row of the bank in force names the calendar that is in force and the one
//! that waits. So a file waits, replaces one that waited, or is adopted, in the one
//! moment in which a bank with such a row begins to count; whatever the power does
//! before, the older one counts, and its rows lie where no newer one is written.
//!
//! Nothing of a file is kept in memory: the sealed pieces are opened chunk by chunk,
//! every part is written as a row of a region in which nothing counts, and the whole is
//! checked as it reads back from there.

use embedded_storage::nor_flash::NorFlash;

use super::FlashStore;
use super::calendar::{CalendarRows, Reader};
use super::pages::{Ahead, Pages};
use super::rows::{CALENDARS, CalendarAt, FileRow, Staged};
use super::staging::Staging;
use crate::code::Keeper;
use crate::link::timetable_file::{self, HEADER, NotKept, Unpack, Wrong};
use crate::link::{FileFault, Fingerprint, Version};
use crate::port::StoreFault;
use crate::rules::Unreadable;
use crate::seal::CHUNK;
use crate::settings::{Edit, FileState, Waiting};
use crate::time::{Date, Weekday};
use crate::timetable::{Closure, Day, Special, TimetableId, Windows};

/// What is known of timetable files.
pub(super) struct Filing {
    /// What the bank in force says; but a file that waits and cannot be read back is
    /// lost.
    row: Result<FileRow, Unreadable>,
    opened: Option<Opened>,
    /// Whether regions in which no calendar counts are due to be erased.
    ahead: Ahead,
}

/// The staged file, opened and checked whole. Nothing of it holds yet.
#[derive(Clone, Copy)]
struct Opened {
    version: Version,
    fingerprint: Fingerprint,
    at: CalendarAt,
}

impl Filing {
    /// Nothing is known yet.
    pub(super) const NOTHING: Self = Self { row: Err(Unreadable), opened: None, ahead: Ahead::Due };

    /// A region in which nothing counts: of three at most two are named.
    fn free_region(&self) -> Result<u8, StoreFault> {
        let row = self.row.map_err(|Unreadable| StoreFault)?;
        (0..CALENDARS).find(|region| !row.names(*region)).ok_or(StoreFault)
    }
}

impl<F: NorFlash, K: Keeper> FlashStore<F, K> {
    /// Takes up what the bank says of files, and whether that still can be read.
    pub(super) fn see_file(&mut self) {
        self.filing = Filing::NOTHING;
        let Ok(bank) = self.bank else { return };
        self.filing.row = bank.file(&mut self.pages);
        if let Ok(row) = &mut self.filing.row
            && let Some((waiting, at)) = row.waits()
            && !CalendarRows::at(&self.layout, at).is_whole(&mut self.pages)
        {
            // Its region is erased: it is not to be made good by itself at a later boot.
            row.staged = Staged::Lost(waiting.version);
        }
    }

    /// An edit is durable, and so is what it says of files.
    pub(super) fn filed_anew(&mut self, edit: &Edit, row: Option<FileRow>) {
        let done = match edit {
            Edit::Adopt(version) | Edit::Wait(version, _) => {
                self.filing.opened.is_some_and(|opened| opened.version.0 == *version)
            }
            // What was sealed under another key is not to be taken any more.
            Edit::Pairing(_) | Edit::Commission(..) | Edit::Reset(_) => true,
            Edit::Holder(..) | Edit::Spend(_) | Edit::Policy(..) => false,
        };
        if done {
            self.filing.opened = None;
            self.staging.forget();
        }
        if let Some(row) = row {
            self.filing.row = Ok(row);
            self.filing.ahead = Ahead::Due;
        }
    }

    /// What is known of files.
    pub(super) fn filed(&self) -> Result<FileState, Unreadable> {
        let row = self.filing.row?;
        let (waits, lost) = match row.staged {
            Staged::Nothing => (None, None),
            Staged::Waits { waiting, .. } => (Some(waiting), None),
            Staged::Lost(version) => (None, Some(version)),
        };
        Ok(FileState { version: row.version, waits, lost })
    }

    /// The calendar of the file that waits.
    pub(super) fn to_come(&self) -> Option<CalendarRows> {
        let (_, at) = self.filing.row.ok()?.waits()?;
        Some(CalendarRows::at(&self.layout, at))
    }

    /// What a date is by the calendar in force; without one, nothing is open.
    pub(super) fn day_held(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        match self.filing.row?.calendar {
            Some(at) => CalendarRows::at(&self.layout, at).day(&mut self.pages, id, date),
            None => Ok(Day::Windows(Windows::new())),
        }
    }

    /// The calendar of the file that was opened.
    pub(super) fn opened(&self) -> Option<CalendarRows> {
        self.filing.opened.map(|opened| CalendarRows::at(&self.layout, opened.at))
    }

    /// A piece of a file.
    pub(super) fn push_piece(&mut self, index: u8, bytes: &[u8]) -> Result<(), StoreFault> {
        self.ensure_mounted()?;
        self.bank.map_err(|_| StoreFault)?;
        if self.filing.opened.take().is_some() {
            self.filing.ahead = Ahead::Due;
        }
        if index == 0 {
            self.staging.begin(&mut self.pages)?;
        }
        self.staging.push(&mut self.pages, index, bytes)
    }

    /// Opens the staged file into a region in which nothing counts, and checks it
    /// there.
    #[inline(never)] // own frame
    pub(super) fn open_staged(&mut self) -> Result<(Version, Fingerprint), FileFault> {
        if let Some(opened) = self.filing.opened {
            return Ok((opened.version, opened.fingerprint));
        }
        let header = self.staged_header()?;
        let bank = self.bank.map_err(|_| FileFault::NoKey)?;
        let pairing = bank.pairing(&mut self.pages).ok().flatten().ok_or(FileFault::NoKey)?;
        // Where the row cannot be read, nobody knows what is old.
        let newest = self.filing.row.map_or(u32::MAX, |row| {
            row.waits().map_or(row.version, |(waiting, _)| waiting.version.max(row.version))
        });
        if timetable_file::version(&header, &pairing)?.0 <= newest {
            return Err(FileFault::Old(newest));
        }
        let region = self.filing.free_region().map_err(|StoreFault| FileFault::Memory)?;
        let at = CalendarAt { region, generation: bank.generation() };
        self.filing.ahead = Ahead::Due;
        let rows = CalendarRows::at(&self.layout, at);
        // Erased whatever it reads: the power may have gone while it was.
        self.pages.erase_all(rows.region()).map_err(|StoreFault| FileFault::Memory)?;
        let Self { staging, pages, .. } = self;
        let mut place = Unpacking { staging, pages, rows };
        let (version, fingerprint) = timetable_file::open_into(&header, &pairing, &mut place)?;
        place.check().map_err(|Unreadable| FileFault::Memory)?.map_err(FileFault::Wrong)?;
        self.filing.opened = Some(Opened { version, fingerprint, at });
        Ok((version, fingerprint))
    }

    #[inline(never)] // own frame
    fn staged_header(&mut self) -> Result<[u8; HEADER], FileFault> {
        let mut piece = [0; CHUNK];
        let length = self.staging.read(&mut self.pages, 0, &mut piece);
        let header = piece.get(..length.ok_or(FileFault::NotStaged)?);
        header.and_then(|header| header.try_into().ok()).ok_or(FileFault::NotOurs)
    }

    /// Where the calendar lies that an edit adopts, or makes wait: that of the file
    /// that waits, or of the staged one, which must be fit.
    fn calendar_for(&mut self, version: u32) -> Result<CalendarAt, StoreFault> {
        let row = self.filing.row.map_err(|Unreadable| StoreFault)?;
        if let Some((waiting, at)) = row.waits()
            && waiting.version == version
        {
            return Ok(at);
        }
        self.open_staged().map_err(|_| StoreFault)?;
        let opened = self.filing.opened.filter(|opened| opened.version.0 == version);
        opened.map(|opened| opened.at).ok_or(StoreFault)
    }

    /// What the bank says of files after an edit, if that changes.
    pub(super) fn row_after(&mut self, edit: &Edit) -> Result<Option<FileRow>, StoreFault> {
        Ok(match edit {
            // One that waits and is older never comes after it.
            Edit::Adopt(version) => {
                let at = self.calendar_for(*version)?;
                Some(FileRow { version: *version, calendar: Some(at), staged: Staged::Nothing })
            }
            Edit::Wait(version, until) => {
                let at = self.calendar_for(*version)?;
                let waiting = Waiting { version: *version, until: *until };
                let row = self.filing.row.map_err(|Unreadable| StoreFault)?;
                Some(FileRow { staged: Staged::Waits { waiting, at }, ..row })
            }
            // Of a file under the old key nobody knows any more who sealed it. Whoever
            // pairs stands at a drawn bolt, where what widens need not wait (R3).
            Edit::Pairing(_) => match self.filing.row {
                Ok(FileRow { staged: Staged::Waits { waiting, .. }, version, calendar }) => {
                    let staged = Staged::Lost(waiting.version);
                    Some(FileRow { version, calendar, staged })
                }
                Ok(row) => Some(row),
                Err(Unreadable) => None,
            },
            Edit::Commission(..) | Edit::Reset(_) => Some(FileRow::NONE),
            Edit::Holder(..) | Edit::Spend(_) | Edit::Policy(..) => None,
        })
    }

    /// Whether anything in which nothing counts is due to be erased.
    pub(super) fn is_filing_due(&self) -> bool {
        self.staging.is_due() || self.filing.ahead == Ahead::Due
    }

    /// Erases where a file was staged, and where a calendar was, if neither counts any
    /// more and anything is in it.
    pub(super) fn clear_files(&mut self) -> Result<(), StoreFault> {
        // Where it cannot be read what counts, all of it may.
        let Ok(row) = self.filing.row else { return Ok(()) };
        self.staging.tend(&mut self.pages)?;
        if self.filing.ahead == Ahead::Due {
            let opened = self.filing.opened.map(|opened| opened.at.region);
            for region in (0..CALENDARS).filter(|r| !row.names(*r) && opened != Some(*r)) {
                let region = self.layout.calendar(region);
                if !self.pages.is_erased(region)? {
                    self.pages.erase_all(region)?;
                }
            }
            self.filing.ahead = Ahead::Blank;
        }
        Ok(())
    }
}

/// Sealed pieces on their way into the rows of a calendar.
struct Unpacking<'s, F> {
    staging: &'s Staging,
    pages: &'s mut Pages<F>,
    rows: CalendarRows,
}

impl<F: NorFlash> Unpacking<'_, F> {
    /// Whether a lock can go by what was written, as it reads back.
    #[inline(never)] // own frame
    fn check(self) -> Result<Result<(), Wrong>, Unreadable> {
        let Self { pages, rows, .. } = self;
        let text = rows.zone_text(pages)?;
        if crate::time::Zone::parse(&text).is_err() {
            return Ok(Err(Wrong::Zone));
        }
        timetable_file::check(&mut Reader { rows, pages })
    }
}

impl<F: NorFlash> Unpack for Unpacking<'_, F> {
    fn chunk(&mut self, index: u16, chunk: &mut [u8; CHUNK]) -> Option<usize> {
        let piece = u8::try_from(index).ok()?.checked_add(1)?;
        self.staging.read(self.pages, piece, chunk)
    }

    fn zone(&mut self, text: &str) -> Result<(), NotKept> {
        self.rows.write_zone(self.pages, text).map_err(|StoreFault| NotKept)
    }

    fn windows(
        &mut self,
        id: TimetableId,
        weekday: Weekday,
        windows: &Windows,
    ) -> Result<(), NotKept> {
        self.rows.write_day(self.pages, (id, weekday), windows).map_err(|StoreFault| NotKept)
    }

    fn closures(&mut self, row: u8, few: &[Closure]) -> Result<(), NotKept> {
        self.rows.write_closures(self.pages, row, few).map_err(|StoreFault| NotKept)
    }

    fn special(&mut self, place: u8, special: Option<&Special>) -> Result<(), NotKept> {
        self.rows.write_special(self.pages, place, special).map_err(|StoreFault| NotKept)
    }
}

/// What two calendars both open.
#[inline(never)] // own frame
pub(super) fn narrow(day: &mut Day, other: &Day) {
    *day = day.both(other);
}
