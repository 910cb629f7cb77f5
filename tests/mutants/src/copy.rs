//! The folder with the woven lock: a workspace of its own, with all that hunts in it.
//!
//! A file is written only if it is other than it was, so that cargo builds anew only
//! what has changed. The lock file is the repository's, so that what comes from a
//! registry is built once for both.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use crate::table::{Table, Wrong};
use crate::weave::weave;

/// What is copied, from the root of the repository.
const PARTS: [&str; 5] = ["lock-core", "emulator", "tests/mutants", "tests/fuzz", crate::TABLE];

/// What is not: built, installed or found things, and another workspace.
const LEFT: [&str; 6] =
    ["target", "node_modules", "corpus", "artifacts", "proptest-regressions", "firmware"];

/// The package that is the hunt.
pub const PACKAGE: &str = "woven";

/// The version of the copy. Cargo tells packages by name, version and path in the
/// workspace: under the lock's own version the copy would be built into the very files of
/// the lock's build, and taken for it.
const VERSION: &str = "version = \"0.0.0-mutants\"";

const MANIFEST: &str = "\
[package]
name = \"woven\"
version = \"0.1.0\"
edition = \"2024\"
publish = false

[dependencies]
hunts = { path = \"../tests/mutants/hunts\" }
lock-core.workspace = true
";

const MAIN: &str = "\
//! The hunts, in a lock with all mutants in it.

fn main() -> std::process::ExitCode {
    hunts::main(lock_core::mutant::choose)
}
";

const MEMBERS: &str = "members = [\"lock-core\", \"emulator\", \"emulator/board\", \
                       \"tests/mutants\", \"tests/mutants/hunts\", \"woven\"]";

/// Makes `folder` the woven copy of the repository at `root`. The mutant at the place
/// `chosen`, from 1, is chosen from the start.
///
/// # Errors
/// [`Wrong`], if a mutant does not fit, or a file cannot be read or written.
pub fn make(root: &Path, table: &Table, chosen: usize, folder: &Path) -> Result<(), Wrong> {
    let read = |file: &str| text(&root.join(file));
    let mut files: BTreeMap<PathBuf, Vec<u8>> = BTreeMap::new();
    for part in PARTS {
        gather(root, Path::new(part), &mut files)?;
    }
    let woven = weave(table, chosen, read)?;
    for (file, text) in woven {
        files.insert(file.into(), text.into_bytes());
    }
    let manifest = text(&root.join("Cargo.toml"))?;
    let lines = manifest.lines().filter_map(|line| match line.split_once(" = ") {
        Some(("members", _)) => Some(MEMBERS),
        Some(("default-members", _)) => None,
        Some(("version", _)) => Some(VERSION),
        _ => Some(line),
    });
    let lines: Vec<&str> = lines.collect();
    files.insert("Cargo.toml".into(), lines.join("\n").into_bytes());
    files.insert("woven/Cargo.toml".into(), MANIFEST.into());
    files.insert("woven/src/main.rs".into(), MAIN.into());
    // Cargo strikes from it what the copy has not: it is written once.
    let lock = Path::new("Cargo.lock");
    let newer = |old: &Path| {
        let at = |path: &Path| path.metadata().and_then(|meta| meta.modified()).ok();
        at(&folder.join(lock)) < at(old)
    };
    if newer(&root.join(lock)) {
        files.insert(lock.into(), text(&root.join(lock))?.into_bytes());
    }
    sweep(folder, Path::new(""), &files.keys().map(PathBuf::as_path).collect())?;
    for (file, bytes) in &files {
        let path = folder.join(file);
        if std::fs::read(&path).is_ok_and(|there| there == *bytes) {
            continue;
        }
        let parent = path.parent().unwrap_or(folder);
        std::fs::create_dir_all(parent).map_err(|why| Wrong::io(parent, why))?;
        std::fs::write(&path, bytes).map_err(|why| Wrong::io(&path, why))?;
    }
    Ok(())
}

fn text(path: &Path) -> Result<String, Wrong> {
    std::fs::read_to_string(path).map_err(|why| Wrong::io(path, why))
}

/// The files of a part, by their paths from the root.
fn gather(root: &Path, part: &Path, files: &mut BTreeMap<PathBuf, Vec<u8>>) -> Result<(), Wrong> {
    let path = root.join(part);
    if !path.is_dir() {
        let bytes = std::fs::read(&path).map_err(|why| Wrong::io(&path, why))?;
        files.insert(part.to_owned(), bytes);
        return Ok(());
    }
    for name in names(&path)? {
        if !LEFT.iter().any(|left| name == **left) {
            gather(root, &part.join(name), files)?;
        }
    }
    Ok(())
}

/// Removes from the copy what is no longer in the repository.
fn sweep(folder: &Path, part: &Path, files: &BTreeSet<&Path>) -> Result<(), Wrong> {
    let path = folder.join(part);
    if !path.is_dir() {
        return Ok(());
    }
    for name in names(&path)? {
        let (inner, part) = (path.join(&name), part.join(&name));
        if inner.is_dir() && !LEFT.iter().any(|left| name == **left) {
            sweep(folder, &part, files)?;
        } else if inner.is_file() && name != "Cargo.lock" && !files.contains(part.as_path()) {
            std::fs::remove_file(&inner).map_err(|why| Wrong::io(&inner, why))?;
        }
    }
    Ok(())
}

fn names(folder: &Path) -> Result<Vec<std::ffi::OsString>, Wrong> {
    let unreadable = |why| Wrong::io(folder, why);
    let entries = std::fs::read_dir(folder).map_err(unreadable)?;
    entries.map(|entry| entry.map(|entry| entry.file_name()).map_err(unreadable)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A second making leaves what is the same as it was, and takes away what is gone.
    #[test]
    fn only_what_changed_is_written() {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
        let folder = std::env::temp_dir().join(format!("woven-{}", std::process::id()));
        let table = Table::load(&root).unwrap();
        make(&root, &table, 0, &folder).unwrap_or_else(|why| panic!("{why}"));
        let (kept, other) =
            (folder.join("lock-core/src/tally.rs"), folder.join("lock-core/old.rs"));
        let before = kept.metadata().unwrap().modified().unwrap();
        std::fs::write(&other, "old").unwrap();
        make(&root, &table, 1, &folder).unwrap_or_else(|why| panic!("{why}"));
        assert_eq!(kept.metadata().unwrap().modified().unwrap(), before);
        assert!(!other.exists());
        let chooser = std::fs::read_to_string(folder.join("lock-core/src/mutant.rs")).unwrap();
        assert!(chooser.contains("AtomicUsize::new(1)"));
        let manifest = std::fs::read_to_string(folder.join("Cargo.toml")).unwrap();
        assert!(manifest.contains(VERSION), "it is built beside the lock, not in its place");
        std::fs::remove_dir_all(&folder).unwrap();
    }
}
