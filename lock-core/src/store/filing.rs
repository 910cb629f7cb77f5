//! Timetable files: staged piece by piece, opened, waiting and adopted.
//!
//! The file row of the bank in force says which version is in force and whether
//! the staged one waits. So a file waits, or is adopted, in the one moment in
//! which a bank with such a row begins to count.
//!
//! While a file waits, its timetables are kept in memory: every question about
//! a day would open it anew otherwise. There is room for one file, and whatever
//! is opened is opened there: a small machine has none to copy it around.

use embedded_storage::nor_flash::NorFlash;

use super::FlashStore;
use super::rows::{FileRow, Staged};
use crate::link::timetable_file::{self, HEADER};
use crate::link::{FileFault, Fingerprint, Version};
use crate::port::StoreFault;
use crate::rules::Unreadable;
use crate::seal::CHUNK;
use crate::settings::{Edit, FileState, Waiting};

/// What lies in the room for one file.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Opened {
    /// Nothing of use.
    Nothing,
    /// The staged file, whole and checked.
    Staged,
    /// The file that waits.
    Waits(Version, Fingerprint),
}

impl<F: NorFlash> FlashStore<F> {
    /// What the bank in force says of files, read anew.
    fn row(&mut self) -> Result<FileRow, Unreadable> {
        self.bank.map_err(|_| Unreadable)?.file(&mut self.pages)
    }

    /// Takes up what the bank says of files.
    pub(super) fn see_file(&mut self) {
        let staged = self.row().map_or(Staged::Nothing, |row| row.staged);
        let waited = self.waits();
        self.opened = Opened::Nothing;
        match staged {
            Staged::Waits { waiting, generation } => {
                self.staging.count(generation);
                let opened = self.open_staged().ok();
                match opened.filter(|(version, _)| version.0 == waiting.version) {
                    Some((version, mark)) => self.opened = Opened::Waits(version, mark),
                    None => {
                        self.opened = Opened::Nothing;
                        // Not to be made good by itself at a later boot.
                        self.staging.forget();
                    }
                }
            }
            // What is being staged goes on; what waited does so no more.
            Staged::Nothing | Staged::Lost(_) if waited => self.staging.forget(),
            Staged::Nothing | Staged::Lost(_) => {}
        }
    }

    /// An edit that says something of files is durable.
    pub(super) fn filed_anew(&mut self, edit: &Edit) {
        match edit {
            Edit::Adopt(_) | Edit::Pairing(_) | Edit::Commission(..) | Edit::Reset(_) => {
                self.staging.forget();
            }
            Edit::Wait(..)
            | Edit::Holder(..)
            | Edit::Policy(..)
            | Edit::Zone(_)
            | Edit::Spend(_)
            | Edit::Day(..) => {}
        }
        self.see_file();
    }

    /// What is known of files.
    pub(super) fn filed(&mut self) -> Result<FileState, Unreadable> {
        let row = self.row()?;
        let (waits, lost) = match row.staged {
            Staged::Nothing => (None, None),
            Staged::Waits { waiting, .. } if self.waits() => (Some(waiting), None),
            Staged::Waits { waiting, .. } => (None, Some(waiting.version)),
            Staged::Lost(version) => (None, Some(version)),
        };
        Ok(FileState { version: row.version, waits, lost })
    }

    /// Whether a file waits.
    pub(super) const fn waits(&self) -> bool {
        matches!(self.opened, Opened::Waits(..))
    }

    /// A piece of a file.
    pub(super) fn push_piece(&mut self, index: u8, bytes: &[u8]) -> Result<(), StoreFault> {
        self.stand()?;
        let bank = self.bank.map_err(|_| StoreFault)?;
        if self.waits() {
            return Err(StoreFault);
        }
        self.opened = Opened::Nothing;
        if index == 0 {
            self.staging.begin(&mut self.pages, bank.generation())?;
        }
        self.staging.push(&mut self.pages, index, bytes)
    }

    /// Opens the staged file. The one that waits is open already.
    pub(super) fn open_staged(&mut self) -> Result<(Version, Fingerprint), FileFault> {
        if let Opened::Waits(version, mark) = self.opened {
            return Ok((version, mark));
        }
        self.opened = Opened::Nothing;
        let header = self.staged_header()?;
        let Self { staging, pages, bank, file, .. } = self;
        let bank = bank.map_err(|_| FileFault::NoKey)?;
        let pairing = bank.pairing(pages).ok().flatten().ok_or(FileFault::NoKey)?;
        // Where the row cannot be read, nobody knows what is old.
        let in_force = bank.file(pages).map_or(u32::MAX, |row| row.version);
        if timetable_file::version(&header, &pairing)?.0 <= in_force {
            return Err(FileFault::Old(in_force));
        }
        let chunk = |index: u16, chunk: &mut [u8; CHUNK]| {
            let piece = u8::try_from(index).ok()?.checked_add(1)?;
            staging.read(pages, piece, chunk)
        };
        let opened = timetable_file::open_into(&header, chunk, &pairing, file)?;
        self.opened = Opened::Staged;
        Ok(opened)
    }

    #[inline(never)]
    fn staged_header(&mut self) -> Result<[u8; HEADER], FileFault> {
        let mut piece = [0; CHUNK];
        let length = self.staging.read(&mut self.pages, 0, &mut piece);
        let header = piece.get(..length.ok_or(FileFault::NotStaged)?);
        header.and_then(|header| header.try_into().ok()).ok_or(FileFault::NotOurs)
    }

    /// Opens the file that an edit adopts, or makes wait: it must be the staged
    /// one.
    pub(super) fn open_for(&mut self, edit: &Edit) -> Result<(), StoreFault> {
        let (Edit::Adopt(version) | Edit::Wait(version, _)) = edit else { return Ok(()) };
        let (staged, _) = self.open_staged().map_err(|_| StoreFault)?;
        if staged.0 == *version { Ok(()) } else { Err(StoreFault) }
    }

    /// What the bank says of files after an edit, if that changes.
    pub(super) fn row_after(&mut self, edit: &Edit) -> Result<Option<FileRow>, StoreFault> {
        Ok(match edit {
            Edit::Adopt(version) => Some(FileRow { version: *version, staged: Staged::Nothing }),
            Edit::Wait(version, until) => {
                let generation = self.staging.generation().ok_or(StoreFault)?;
                let waiting = Waiting { version: *version, until: *until };
                let staged = Staged::Waits { waiting, generation };
                Some(FileRow { staged, ..self.row().map_err(|_| StoreFault)? })
            }
            // A file that was sealed under the old key cannot be opened again.
            // Whoever pairs stands at a drawn bolt, where what widens need not
            // wait (R3).
            Edit::Pairing(_) => match self.row() {
                Ok(FileRow { version, staged: Staged::Waits { waiting, .. } }) => {
                    Some(FileRow { version, staged: Staged::Lost(waiting.version) })
                }
                Ok(FileRow { staged: Staged::Nothing | Staged::Lost(_), .. }) | Err(Unreadable) => {
                    None
                }
            },
            Edit::Commission(..) | Edit::Reset(_) => Some(FileRow::NONE),
            Edit::Holder(..)
            | Edit::Spend(_)
            | Edit::Policy(..)
            | Edit::Zone(_)
            | Edit::Day(..) => None,
        })
    }
}
