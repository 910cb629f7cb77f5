//! The repository's own files, read as text.

use std::fs;
use std::path::{Path, PathBuf};

/// The root of the repository.
pub(crate) fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_path_buf()
}

/// A file's text; the path is relative to the root.
pub(crate) fn text(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|error| panic!("{path}: {error}"))
}

/// The files under `directory` that end in `ending`, relative to the root and
/// sorted; build output and hidden directories left out.
pub(crate) fn files(directory: &str, ending: &str) -> Vec<String> {
    let mut found = Vec::new();
    collect(&root().join(directory), ending, &mut found);
    found.sort();
    assert!(!found.is_empty(), "nothing ends in {ending} under {directory:?}");
    found
}

fn collect(directory: &Path, ending: &str, found: &mut Vec<String>) {
    for entry in fs::read_dir(directory).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_str().unwrap();
        if path.is_dir() {
            if name != "target" && name != "node_modules" && !name.starts_with('.') {
                collect(&path, ending, found);
            }
        } else if name.ends_with(ending) {
            found.push(path.strip_prefix(root()).unwrap().to_str().unwrap().to_owned());
        }
    }
}

/// The line without a comment at its end. A `//` inside a string would be taken
/// for one; that only hides the rest of the line.
pub(crate) fn without_comment(line: &str) -> &str {
    line.split("//").next().unwrap_or_default()
}
