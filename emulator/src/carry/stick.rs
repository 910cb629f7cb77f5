//! The memory stick: a folder. Sealed timetable files travel to the lock on it,
//! extracts come back.

use std::fs::{self, File};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use lock_core::link::extract::Scope;
use lock_core::link::{Fingerprint, Version};
use lock_core::pairing::Pairing;

use super::{Laptop, Sealed, Trouble, Wire};

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
            Self::NotSealed(path) => {
                let name = path.file_name().unwrap_or(path.as_os_str());
                write!(f, "{} is no timetable file", name.display())
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

    /// Loads the last timetable file, by name; the lock then waits for *OK*.
    ///
    /// # Errors
    /// [`OfNoUse`]; the lock has changed nothing.
    pub fn load(
        &self,
        laptop: &mut Laptop<'_, impl Wire>,
    ) -> Result<(Version, Fingerprint), OfNoUse> {
        let path = self.files()?.pop().ok_or(OfNoUse::Empty)?;
        self.load_file(path, laptop)
    }

    /// Loads the timetable file at `path`; the lock then waits for *OK*.
    ///
    /// # Errors
    /// [`OfNoUse`]; the lock has changed nothing.
    pub fn load_file(
        &self,
        path: PathBuf,
        laptop: &mut Laptop<'_, impl Wire>,
    ) -> Result<(Version, Fingerprint), OfNoUse> {
        let sealed = Sealed::from_bytes(&fs::read(&path)?).ok_or(OfNoUse::NotSealed(path))?;
        Ok(laptop.load(&sealed)?)
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
        let newest_number = newest.map_or(0, |seq| seq.0);
        let name = format!("{}-{newest_number}.{EXTRACT}", pairing.lock().get());
        let path = self.0.join(name);
        let mut file = File::create_new(&path)?;
        file.write_all(&bytes)?;
        file.sync_all()?;
        if let Some(newest) = newest {
            laptop.confirm(newest)?;
        }
        Ok(path)
    }
}
