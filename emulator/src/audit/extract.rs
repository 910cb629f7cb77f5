//! What was carried out of a lock, as reading it needs it: who it is from, and
//! its entries one by one.

use std::fs::{FileType, ReadDir};
use std::io;
use std::path::{Path, PathBuf};

use lock_core::audit::Seq;
use lock_core::link::extract::{Item, Scope};
use lock_core::time::Utc;
use thiserror::Error;

/// What an extract says of itself; sealed with the rest of it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Header {
    /// The lock's number.
    pub lock: u32,
    /// The generation of the pairing key under which it is sealed.
    pub generation: u32,
    /// Its own number, used once under one key.
    pub number: u32,
    /// Which records it lists.
    pub scope: Scope,
    /// Whether it lists only what was not yet collected.
    pub since_last: bool,
    /// When it was made; `None` if the lock's clock was invalid.
    pub made: Option<Utc>,
    /// The lock's newest record then; nothing later can be in it.
    pub newest: Option<Seq>,
    /// Which lock made it.
    pub maker: Maker,
}

/// Which lock made an extract.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub enum Maker {
    /// The lock that is paired.
    Real,
    /// An emulated one that shares its key: it proves nothing of the real one.
    Emulated,
}

/// An extract under way.
pub struct Extract<'k> {
    /// What it says of itself.
    pub header: Header,
    /// What it tells of, in the order of the numbers. After an error there is no
    /// more; what comes before it is as the lock wrote it.
    pub items: Box<dyn Iterator<Item = Result<Item, Broken>> + 'k>,
}

/// Why an extract, or the rest of one, cannot be used.
#[derive(Clone, PartialEq, Eq, Debug, Error)]
pub enum Broken {
    /// The file cannot be read.
    #[error("cannot be read: {0}")]
    Unreadable(String),
    /// It is no extract at all.
    #[error("is no extract of a lock")]
    Alien,
    /// It is an extract in a format of another version.
    #[error("is an extract of format {0}, which this program does not know")]
    Version(u8),
    /// No key in the keyring belongs to it.
    #[error(
        "is sealed under a key that the keyring does not hold (lock {lock}, generation {generation})"
    )]
    NoKey {
        /// The lock that it names.
        lock: u32,
        /// The generation that it names.
        generation: u32,
    },
    /// Something in it is not as the lock sealed it.
    #[error("was altered, or is sealed under another key: a seal in it does not hold")]
    Altered,
    /// Its last piece does not bear its seal.
    #[error("does not end as the lock sealed it: it is cut short, or altered at its end")]
    AlteredEnd,
    /// It ends before its end.
    #[error("is cut short: the end that the lock sealed is missing")]
    Truncated,
    /// What is sealed makes no sense.
    #[error("is sealed rightly, and yet holds what no lock writes")]
    Nonsense,
}

/// What opens extracts.
pub trait Opener {
    /// Opens the extract in a file.
    ///
    /// # Errors
    /// [`Broken`] if not even its header can be used.
    fn open(&self, path: &Path) -> Result<Extract<'_>, Broken>;
}

/// What lies under the paths that were named.
#[derive(Debug, Default)]
pub struct Listing {
    /// The extract files, in the order of their names.
    pub files: Vec<PathBuf>,
    /// The folders that could not be searched, or not to their end, and why.
    pub unsearched: Vec<(PathBuf, io::Error)>,
}

/// The extract files under `paths`, folders searched through. What is named itself is
/// taken whatever it is called; in a folder, what ends in [`ENDING`] is. A folder in
/// it that cannot be searched is told, and the others are searched.
///
/// # Errors
/// The path that was named and cannot be read, and why.
pub fn files(paths: &[PathBuf]) -> Result<Listing, (PathBuf, io::Error)> {
    let mut listing = Listing::default();
    for path in paths {
        let place = |why| (path.clone(), why);
        if std::fs::metadata(path).map_err(place)?.is_dir() {
            let items = std::fs::read_dir(path).map_err(place)?;
            listing.search(path, items);
        } else {
            listing.files.push(path.clone());
        }
    }
    listing.files.sort();
    listing.files.dedup();
    Ok(listing)
}

/// How the name of an extract ends.
pub const ENDING: &str = "extract";

impl Listing {
    fn search(&mut self, folder: &Path, items: ReadDir) {
        for item in items {
            match item.and_then(|item| Ok((item.path(), item.file_type()?))) {
                Ok((path, kind)) => self.take(path, kind),
                Err(why) => {
                    self.unsearched.push((folder.to_owned(), why));
                    return;
                }
            }
        }
    }

    fn take(&mut self, path: PathBuf, kind: FileType) {
        if kind.is_dir() {
            match std::fs::read_dir(&path) {
                Ok(items) => self.search(&path, items),
                Err(why) => self.unsearched.push((path, why)),
            }
        } else if kind.is_symlink() && path.is_dir() {
            // Not followed: a link that leads upwards would never end.
            let why = io::Error::other("it is a link to a folder; name that folder itself");
            self.unsearched.push((path, why));
        } else if path.extension().is_some_and(|ending| ending == ENDING) {
            // Whatever it is: what is no file is told when it is opened.
            self.files.push(path);
        }
    }
}
