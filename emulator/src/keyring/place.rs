//! Where a keyring's file is: its one real path, who else may come near it, and how
//! it is replaced.
//!
//! # Invariants
//! - Whatever path leads to a keyring, it is locked, written and replaced at its real
//!   path: two who come by different links wait for each other and count on.
//! - A file with a second name (a hard link) is not changed: the new file would take
//!   one of the names only, and the other would keep counting where it was.
//! - Neither is one on a network's file system, where this is known: whether a lock
//!   holds there between two machines, nobody on this one can tell.

use std::fs::File;
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use super::Keyring;
use super::fault::KeyringFault;
use super::mark::Mark;

impl Keyring {
    /// Waits until nobody else changes the keyring at `path`, and keeps others from
    /// it until it is dropped. Two who change it at once would lose what one of
    /// them counted, and seal twice under one nonce.
    ///
    /// # Errors
    /// [`KeyringFault`] if it cannot be locked, or must not be changed where it is.
    pub fn hold(path: &Path) -> Result<Held, KeyringFault> {
        let real = changeable(path)?;
        let mut options = File::options();
        options.write(true).create(true).truncate(false);
        let held = options.open(beside(&real, ".lock"));
        let held = held.and_then(|file| file.lock().map(|()| Held(file)));
        held.map_err(|why| KeyringFault::Unreadable { path: path.display().to_string(), why })
    }
}

/// Keeps others from changing a keyring.
#[must_use = "others are let in once it is dropped"]
pub struct Held(#[expect(dead_code, reason = "the lock lasts as long as the file is open")] File);

/// The real path of a keyring that is to be made or changed.
pub(super) fn changeable(path: &Path) -> Result<PathBuf, KeyringFault> {
    let name = || path.display().to_string();
    let real = real(path).map_err(|why| KeyringFault::Unreadable { path: name(), why })?;
    if named_twice(&real) {
        return Err(KeyringFault::NamedTwice { path: name() });
    }
    if on_network(folder(&real)) {
        return Err(KeyringFault::Network { path: name() });
    }
    Ok(real)
}

/// The path without links; of a file that is not there yet, that of its folder and
/// its name.
fn real(path: &Path) -> io::Result<PathBuf> {
    match std::fs::canonicalize(path) {
        // A link that leads nowhere is no place for a new file: whoever made it
        // meant another one.
        Err(why) if why.kind() == io::ErrorKind::NotFound && !path.is_symlink() => {
            let name = path.file_name().ok_or(why)?;
            Ok(std::fs::canonicalize(folder(path))?.join(name))
        }
        found => found,
    }
}

fn folder(path: &Path) -> &Path {
    path.parent().filter(|folder| !folder.as_os_str().is_empty()).unwrap_or(Path::new("."))
}

fn beside(path: &Path, ending: &str) -> PathBuf {
    let mut beside = path.as_os_str().to_owned();
    beside.push(ending);
    beside.into()
}

/// Whether the file has a second name.
#[cfg(unix)]
fn named_twice(path: &Path) -> bool {
    let about = std::fs::metadata(path);
    about.is_ok_and(|about| std::os::unix::fs::MetadataExt::nlink(&about) > 1)
}

/// Elsewhere the standard library does not say.
#[cfg(not(unix))]
const fn named_twice(_: &Path) -> bool {
    false
}

/// Whether the folder lies on another machine. The numbers are those of Linux's
/// statfs(2): NFS, SMB, CIFS, SMB 2, 9P, Ceph, AFS, Coda.
#[cfg(target_os = "linux")]
fn on_network(folder: &Path) -> bool {
    const NETWORK: [u32; 9] = [
        0x6969,
        0x517B,
        0xFF53_4D42,
        0xFE53_4D42,
        0x0102_1997,
        0x00C3_6400,
        0x5346_414F,
        0x6B41_4653,
        0x7375_7245,
    ];
    // Its number has 32 bits; how wide the field is depends on the machine.
    let kind = rustix::fs::statfs(folder).map(|about| about.f_type as u32);
    kind.is_ok_and(|kind| NETWORK.contains(&kind))
}

/// Elsewhere this is not known.
#[cfg(not(target_os = "linux"))]
const fn on_network(_: &Path) -> bool {
    false
}

/// Whether anybody but its owner may read or change the file.
#[cfg(unix)]
pub(super) fn exposed(about: &std::fs::Metadata) -> bool {
    std::os::unix::fs::MetadataExt::mode(about) & 0o077 != 0
}

/// Elsewhere the folder says who may.
#[cfg(not(unix))]
pub(super) const fn exposed(_: &std::fs::Metadata) -> bool {
    false
}

/// Writes beside the file and moves it over: never half of either. It is there for
/// good when this returns: a version that came back could be sealed twice. What is
/// written is told the new file's mark; `None` if there is nothing to write, and what
/// was there stays.
pub(super) fn replace(
    path: &Path,
    bytes: impl FnOnce(Option<Mark>) -> Option<Vec<u8>>,
) -> io::Result<Option<()>> {
    let beside = beside(path, ".new");
    let mut options = File::options();
    // What was left there would keep its own mode, and a link would be followed.
    match std::fs::remove_file(&beside) {
        Err(why) if why.kind() != io::ErrorKind::NotFound => return Err(why),
        Ok(()) | Err(_) => {}
    }
    options.write(true).create_new(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(&beside)?;
    let Some(bytes) = bytes(Mark::of(&file.metadata()?)) else {
        std::fs::remove_file(&beside)?;
        return Ok(None);
    };
    file.write_all(&bytes)?;
    file.sync_all()?;
    std::fs::rename(&beside, path)?;
    #[cfg(unix)]
    File::open(folder(path))?.sync_all()?;
    Ok(Some(()))
}
