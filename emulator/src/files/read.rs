//! Reading files that are there.

use std::fs::{self, File};
use std::io::{self, Read as _};
use std::path::Path;

/// Names of what the caller has open already, such as the output of another
/// program: nobody has to be waited for before it can be opened.
const HANDED_OVER: [&str; 4] = ["/dev/stdin", "/dev/fd", "/proc/self/fd", "/proc/thread-self/fd"];

/// Opens a file to be read.
///
/// What only bears the name of a file is refused, and not opened: a pipe could be
/// waited at for ever, a device might never end.
///
/// # Errors
/// What the system says, or that it is no file.
pub fn open(path: &Path) -> io::Result<File> {
    if !HANDED_OVER.iter().any(|place| path.starts_with(place)) {
        let kind = fs::metadata(path)?.file_type();
        if kind.is_dir() {
            return Err(io::Error::other("it is a folder"));
        }
        if !kind.is_file() {
            return Err(io::Error::other("it is a pipe or a device, not a file"));
        }
    }
    File::open(path)
}

/// The bytes of a file, `most` at most.
///
/// # Errors
/// What the system says, or that it is no file, or longer.
pub fn read(path: &Path, most: usize) -> io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    open(path)?.take(limit(most)).read_to_end(&mut bytes)?;
    fits(bytes.len(), most).map(|()| bytes)
}

/// The text of a file, `most` bytes at most.
///
/// # Errors
/// As [`read`], or that it is not UTF-8.
pub fn read_text(path: &Path, most: usize) -> io::Result<String> {
    let mut text = String::new();
    open(path)?.take(limit(most)).read_to_string(&mut text)?;
    fits(text.len(), most).map(|()| text)
}

/// One more than fits, to see that it does not.
fn limit(most: usize) -> u64 {
    u64::try_from(most).unwrap_or(u64::MAX).saturating_add(1)
}

fn fits(length: usize, most: usize) -> io::Result<()> {
    if length <= most {
        return Ok(());
    }
    Err(io::Error::other(format!("it has more than {most} bytes")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_more_is_read_than_wanted() {
        let path = std::env::temp_dir().join(format!("read-{}", std::process::id()));
        for (length, most, fine) in [(0, 0, true), (9, 9, true), (10, 9, false)] {
            fs::write(&path, "x".repeat(length)).unwrap();
            assert_eq!(read(&path, most).map(|bytes| bytes.len()).ok(), fine.then_some(length));
            assert_eq!(read_text(&path, most).map(|text| text.len()).ok(), fine.then_some(length));
        }
        fs::remove_file(&path).unwrap();
    }

    /// Whether or not its size is known: these have none.
    #[cfg(unix)]
    #[test]
    fn what_is_no_file_is_refused() {
        for (path, words) in [
            ("/dev/zero", "device"),
            ("/dev/null", "device"),
            ("/", "folder"),
            ("/nowhere/at/all", "No such"),
        ] {
            let why = read(Path::new(path), 9).unwrap_err().to_string();
            assert!(why.contains(words), "{path}: {why}");
        }
    }
}
