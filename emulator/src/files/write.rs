//! Writing new files.

use std::fs::{self, File, Permissions};
use std::io::{self, BufWriter, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};

/// How all files of the link begin, a keyring too (`docs/wire-format.md`).
const SEALED: [u8; 4] = [0x9C, 0x4C, 0x6B, 0x0A];

/// What to do with a file of that name.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum There {
    /// It stays, and nothing is written.
    Stays,
    /// The new one takes its place, unless it is a site file, a drill or anything sealed.
    Goes,
}

/// Who may read the new file.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Eyes {
    /// Whoever may read new files of this user; who could read the one before.
    Everybody,
    /// Its owner alone.
    Owner,
}

/// A file in the making. It is written under another name in the same folder, and
/// gets its own when it is whole and on the disk: a full stick leaves nothing
/// behind, and what was there before stays. Dropped before that, it is gone.
pub struct NewFile {
    to: BufWriter<File>,
    beside: Beside,
    path: PathBuf,
    there: There,
}

/// The name under which it is written.
struct Beside(Option<PathBuf>);

impl Drop for Beside {
    fn drop(&mut self) {
        if let Some(path) = self.0.take() {
            // It may never have come to be; a leftover has a name that nothing reads.
            let _ = fs::remove_file(path);
        }
    }
}

impl NewFile {
    /// Begins a file.
    ///
    /// # Errors
    /// What the system says; that there is a file of that name, if it is to stay;
    /// that what is there is no file.
    pub fn begin(path: &Path, there: There, eyes: Eyes) -> io::Result<Self> {
        let (path, before) = destination(path, there)?;
        let beside = path
            .with_file_name(format!(".{:08x}.part", getrandom::u32().map_err(io::Error::other)?));
        let mut options = File::options();
        options.write(true).create_new(true);
        #[cfg(unix)]
        if eyes == Eyes::Owner {
            std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
        }
        let file = options.open(&beside)?;
        let beside = Beside(Some(beside));
        if let (Some(before), Eyes::Everybody) = (before, eyes) {
            file.set_permissions(before)?;
        }
        Ok(Self { to: BufWriter::new(file), beside, path, there })
    }

    /// It is whole: gives it its name.
    ///
    /// # Errors
    /// What the system says, of what was written before too; there is no file then,
    /// or the one that was there.
    pub fn keep(mut self) -> io::Result<()> {
        self.to.flush()?;
        self.to.get_ref().sync_all()?;
        let Some(beside) = &self.beside.0 else { return Ok(()) };
        if self.there == There::Stays && fs::symlink_metadata(&self.path).is_ok() {
            return Err(is_there());
        }
        fs::rename(beside, &self.path)?;
        self.beside.0 = None;
        persist(&self.path)
    }
}

impl Write for NewFile {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.to.write(bytes)
    }

    fn flush(&mut self) -> io::Result<()> {
        self.to.flush()
    }
}

/// Writes a file, whole or not at all.
///
/// # Errors
/// As [`NewFile::begin`] and [`NewFile::keep`].
pub fn write(path: &Path, bytes: &[u8], there: There, eyes: Eyes) -> io::Result<()> {
    let mut file = NewFile::begin(path, there, eyes)?;
    file.write_all(bytes)?;
    file.keep()
}

/// Where the file goes, links followed, and who may read the one that is there.
fn destination(path: &Path, there: There) -> io::Result<(PathBuf, Option<Permissions>)> {
    if path.file_name().is_none() {
        return Err(io::Error::other("it names no file"));
    }
    match fs::symlink_metadata(path) {
        Err(why) if why.kind() == ErrorKind::NotFound => return Ok((path.to_owned(), None)),
        Err(why) => return Err(why),
        Ok(_) if there == There::Stays => return Err(is_there()),
        Ok(_) => {}
    }
    let path = fs::canonicalize(path)?;
    let about = fs::metadata(&path)?;
    if about.is_dir() {
        return Err(io::Error::other("it is a folder"));
    }
    if !about.is_file() {
        return Err(io::Error::other("it is a pipe or a device, not a file"));
    }
    if there == There::Goes && cannot_be_made_again(&path) {
        return Err(io::Error::other(
            "there is a site file, a drill, a keyring or a sealed file of that name",
        ));
    }
    Ok((path, Some(about.permissions())))
}

/// What somebody typed, or a lock sealed, is never replaced by what a command can make
/// once more. A keyring is replaced by itself only, not through here.
fn cannot_be_made_again(path: &Path) -> bool {
    let typed = path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("toml"));
    let sealed = || {
        let mut start = [0; SEALED.len()];
        let read = File::open(path).and_then(|mut file| file.read_exact(&mut start));
        read.is_ok() && start == SEALED
    };
    typed || sealed()
}

fn is_there() -> io::Error {
    io::Error::new(ErrorKind::AlreadyExists, "there is a file of that name")
}

/// The new name is on the disk too.
#[cfg(unix)]
fn persist(path: &Path) -> io::Result<()> {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    match File::open(folder.unwrap_or(Path::new(".")))?.sync_all() {
        // Some file systems cannot do that for a folder.
        Err(why) if matches!(why.kind(), ErrorKind::InvalidInput | ErrorKind::Unsupported) => {
            Ok(())
        }
        synced => synced,
    }
}

/// Elsewhere a folder cannot be opened.
#[cfg(not(unix))]
const fn persist(_: &Path) -> io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    /// An empty folder of a test's own.
    fn folder(name: &str) -> PathBuf {
        let folder = std::env::temp_dir().join(format!("write-{name}-{}", std::process::id()));
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(&folder).unwrap();
        folder
    }

    fn names(folder: &Path) -> Vec<String> {
        let entries = fs::read_dir(folder).unwrap();
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect()
    }

    #[test]
    fn a_file_is_there_whole_or_not_at_all() {
        let folder = folder("whole");
        let path = folder.join("x");
        let mut file = NewFile::begin(&path, There::Stays, Eyes::Everybody).unwrap();
        file.write_all(b"half").unwrap();
        file.flush().unwrap();
        assert!(!path.exists() && names(&folder).len() == 1);
        drop(file);
        assert!(names(&folder).is_empty());
        write(&path, b"one", There::Stays, Eyes::Everybody).unwrap();
        let again = write(&path, b"two", There::Stays, Eyes::Everybody);
        assert_eq!(again.unwrap_err().kind(), ErrorKind::AlreadyExists);
        assert_eq!(fs::read(&path).unwrap(), b"one");
        write(&path, b"two", There::Goes, Eyes::Everybody).unwrap();
        assert_eq!((fs::read(&path).unwrap(), names(&folder).len()), (b"two".to_vec(), 1));
        fs::remove_dir_all(&folder).unwrap();
    }

    /// Somebody made a file of that name while this one was written.
    #[test]
    fn what_came_to_be_meanwhile_stays() {
        let folder = folder("meanwhile");
        let path = folder.join("x");
        let mut file = NewFile::begin(&path, There::Stays, Eyes::Everybody).unwrap();
        file.write_all(b"ours").unwrap();
        fs::write(&path, b"theirs").unwrap();
        assert_eq!(file.keep().unwrap_err().kind(), ErrorKind::AlreadyExists);
        assert_eq!((fs::read(&path).unwrap(), names(&folder).len()), (b"theirs".to_vec(), 1));
        fs::remove_dir_all(&folder).unwrap();
    }

    /// A chart in the place of a site file, a trace in that of a keyring.
    #[test]
    fn what_cannot_be_made_again_stays() {
        let folder = folder("stays");
        for (name, text) in [
            ("site.toml", &b"zone"[..]),
            ("keyring", b"\x9C\x4C\x6B\x0A\x03\x03"),
            ("x", b"\x9C\x4C"),
        ] {
            let path = folder.join(name);
            fs::write(&path, text).unwrap();
            let replaced = write(&path, b"new", There::Goes, Eyes::Everybody).is_ok();
            assert_eq!(replaced, name == "x", "{name}");
            assert_eq!(fs::read(&path).unwrap() == text, name != "x", "{name}");
        }
        fs::remove_dir_all(&folder).unwrap();
    }

    #[cfg(unix)]
    #[test]
    fn links_are_followed_and_devices_refused() {
        use std::os::unix::fs::{PermissionsExt as _, symlink};
        let folder = folder("links");
        let (real, link) = (folder.join("real"), folder.join("link"));
        fs::write(&real, b"old").unwrap();
        fs::set_permissions(&real, Permissions::from_mode(0o640)).unwrap();
        symlink(&real, &link).unwrap();
        write(&link, b"new", There::Goes, Eyes::Everybody).unwrap();
        assert!(link.is_symlink() && fs::read(&real).unwrap() == b"new");
        let mode = |path: &Path| fs::metadata(path).unwrap().permissions().mode() & 0o777;
        assert_eq!(mode(&real), 0o640);
        write(&link, b"secret", There::Goes, Eyes::Owner).unwrap();
        assert_eq!(mode(&real), 0o600);
        let (a, b) = (folder.join("a"), folder.join("b"));
        symlink(&a, &b).unwrap();
        symlink(&b, &a).unwrap();
        for path in [a.as_path(), Path::new("/dev/null"), Path::new("/dev/full"), &folder] {
            assert!(write(path, b"x", There::Goes, Eyes::Everybody).is_err(), "{path:?}");
        }
        assert_eq!(names(&folder).len(), 4);
        fs::remove_dir_all(&folder).unwrap();
    }
}
