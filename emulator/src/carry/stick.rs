//! The memory stick: a folder. Sealed timetable files travel to the lock on it,
//! extracts come back.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use lock_core::audit::Seq;
use lock_core::link::extract::Scope;
use lock_core::link::{Fingerprint, Version};
use lock_core::pairing::Pairing;

use crate::files::{self, Eyes, There};
use crate::plain;

use super::{Contents, FILE_MOST, FILES_MOST, Laptop, Sealed, Trouble, Wire, emulated};

/// What ends the name of a sealed timetable file.
pub const TIMETABLES: &str = "timetables";
/// What ends the name of an extract.
pub const EXTRACT: &str = "extract";

/// A stick.
pub struct Stick(PathBuf);

/// Why a stick was of no use.
#[derive(Debug)]
pub enum OfNoUse {
    /// It cannot be read or written.
    Folder(io::Error),
    /// There is no timetable file on it.
    Empty,
    /// There is none for this lock, under its key.
    NoneForThis,
    /// There are more than [`FILES_MOST`].
    TooMany,
    /// A file on it is no timetable file.
    NotSealed(PathBuf),
    /// The lock said no, or nothing.
    Lock(Trouble),
}

impl std::fmt::Display for OfNoUse {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Folder(why) => write!(f, "the stick cannot be read or written: {why}"),
            Self::Empty => f.write_str("there is no timetable file on the stick"),
            Self::NoneForThis => {
                f.write_str("no timetable file on the stick is for this lock and its key")
            }
            Self::TooMany => {
                write!(f, "there are more than {FILES_MOST} timetable files on the stick")
            }
            Self::NotSealed(path) => {
                let name = path.file_name().unwrap_or(path.as_os_str());
                write!(f, "{} is no timetable file", plain::path(Path::new(name)))
            }
            Self::Lock(trouble) => trouble.fmt(f),
        }
    }
}

impl From<io::Error> for OfNoUse {
    fn from(why: io::Error) -> Self {
        Self::Folder(why)
    }
}

impl From<Trouble> for OfNoUse {
    fn from(why: Trouble) -> Self {
        Self::Lock(why)
    }
}

impl Stick {
    /// The stick that is that folder.
    #[must_use]
    pub fn at(folder: &Path) -> Self {
        Self(folder.to_owned())
    }

    /// The timetable files on it, by name.
    ///
    /// # Errors
    /// If the folder cannot be read.
    pub fn files(&self) -> io::Result<Vec<PathBuf>> {
        let mut files = Vec::new();
        for entry in fs::read_dir(&self.0)? {
            let path = entry?.path();
            if path.extension().is_some_and(|ending| ending == TIMETABLES) {
                files.push(path);
            }
        }
        files.sort();
        Ok(files)
    }

    /// What lies on it.
    ///
    /// # Errors
    /// [`OfNoUse`] if it cannot be read, or one of its files is none, or there are
    /// none or too many.
    pub fn contents(&self) -> Result<Contents, OfNoUse> {
        let mut files = Vec::new();
        for path in self.files()? {
            if files.len() == FILES_MOST {
                return Err(OfNoUse::TooMany);
            }
            let file = read(&path)?;
            files.push((named(&path), file));
        }
        if files.is_empty() {
            return Err(OfNoUse::Empty);
        }
        Ok(Contents::of(files))
    }

    /// Loads the newest timetable file for the lock of `pairing`; the lock then waits
    /// for *OK*.
    ///
    /// # Errors
    /// [`OfNoUse`]; the lock has changed nothing.
    pub fn load(
        &self,
        laptop: &mut Laptop<'_, impl Wire>,
        pairing: &Pairing,
    ) -> Result<(Version, Fingerprint), OfNoUse> {
        let contents = self.contents()?;
        let (_, newest) = contents.newest(pairing).ok_or(OfNoUse::NoneForThis)?;
        Ok(laptop.load(newest)?)
    }

    /// Loads the timetable file at `path`; the lock then waits for *OK*.
    ///
    /// # Errors
    /// [`OfNoUse`]; the lock has changed nothing.
    pub fn load_file(
        &self,
        path: &Path,
        laptop: &mut Laptop<'_, impl Wire>,
    ) -> Result<(Version, Fingerprint), OfNoUse> {
        Ok(laptop.load(&read(path)?)?)
    }

    /// Collects an extract into a new file, whole, and only then tells the lock
    /// that it is safe. The file's path.
    ///
    /// # Errors
    /// [`OfNoUse`]; nothing is marked as collected, unless the lock's last answer
    /// was lost.
    pub fn collect(
        &self,
        laptop: &mut Laptop<'_, impl Wire>,
        (scope, since_last): (Scope, bool),
        pairing: &Pairing,
    ) -> Result<PathBuf, OfNoUse> {
        let (bytes, newest) = laptop.collect(scope, since_last, pairing)?;
        let path = self.0.join(extract_name(pairing, newest));
        keep(&path, &bytes, newest, laptop)?;
        Ok(path)
    }

    /// Collects an extract of an emulated lock that shares a real lock's key: marked,
    /// and under a key of its own.
    ///
    /// # Errors
    /// As of [`Self::collect`].
    pub fn collect_emulated(
        &self,
        laptop: &mut Laptop<'_, impl Wire>,
        (scope, since_last): (Scope, bool),
        pairing: &Pairing,
    ) -> Result<PathBuf, OfNoUse> {
        let (bytes, newest) = laptop.collect(scope, since_last, pairing)?;
        let bytes = emulated::marked(&bytes, pairing).ok_or(Trouble::Confused)?;
        let path = self.0.join(emulated_name(pairing, newest));
        keep(&path, &bytes, newest, laptop)?;
        Ok(path)
    }
}

/// Writes a new file, whole, and then tells the lock that it is safe.
fn keep(
    path: &Path,
    bytes: &[u8],
    newest: Option<Seq>,
    laptop: &mut Laptop<'_, impl Wire>,
) -> Result<(), OfNoUse> {
    files::write(path, bytes, There::Stays, Eyes::Everybody)?;
    if let Some(newest) = newest {
        laptop.confirm(newest)?;
    }
    Ok(())
}

/// What an emulated lock's extract is called.
fn emulated_name(pairing: &Pairing, newest: Option<Seq>) -> String {
    let newest = newest.map_or(0, |seq| seq.0);
    format!("{}-{newest}-emulated.{EXTRACT}", pairing.lock().get())
}

/// What an extract of that lock is called, by its newest record.
#[must_use]
pub fn extract_name(pairing: &Pairing, newest: Option<Seq>) -> String {
    let newest = newest.map_or(0, |seq| seq.0);
    format!("{}-{newest}.{EXTRACT}", pairing.lock().get())
}

/// A timetable file; no more of it than one can be long.
fn read(path: &Path) -> Result<Sealed, OfNoUse> {
    let not_sealed = || OfNoUse::NotSealed(path.to_owned());
    let bytes = files::read(path, FILE_MOST).map_err(|why| match why.kind() {
        // No file, or too long for one: what is said of any other.
        io::ErrorKind::Other => not_sealed(),
        _ => OfNoUse::Folder(why),
    })?;
    Sealed::from_bytes(&bytes).ok_or_else(not_sealed)
}

fn named(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}
