//! One place writes to the streams of the process, and one opens and writes files, so
//! that nothing is lost without a word, overwritten, waited for, or half there.

use crate::source;

/// Who may, and why.
const MAY: [(&str, &[&str]); 5] = [
    // The two places.
    ("emulator/src/cli/outlet.rs", &["io::stdout"]),
    ("emulator/src/cli/mod.rs", &["io::stdout", "io::stderr"]),
    ("emulator/src/files/read.rs", &["File::open"]),
    ("emulator/src/files/write.rs", &["File::options", "OpenOptions", "File::open", "fs::rename"]),
    // Its own file, under a lock.
    (
        "emulator/src/keyring/",
        &["File::options", "OpenOptions", "File::open", "fs::rename", "fs::read("],
    ),
];

const ACTS: [&str; 16] = [
    "println!",
    "print!(",
    "eprintln!",
    "eprint!(",
    "io::stdout",
    "io::stderr",
    "File::create",
    "File::create_new",
    "File::open",
    "File::options",
    "OpenOptions",
    "fs::write",
    "fs::rename",
    "fs::copy",
    "fs::read(",
    "fs::read_to_string",
];

#[test]
fn one_place_writes_and_one_reads() {
    let mut files = 0;
    for path in source::files("emulator/src", ".rs") {
        files += 1;
        let text = source::text(&path);
        // Tests write what they like.
        let code = text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
        let may = MAY.iter().filter(|(place, _)| path.starts_with(place));
        let may: Vec<&str> = may.flat_map(|(_, acts)| acts.iter().copied()).collect();
        for (number, line) in code.lines().enumerate() {
            let line = line.trim_start();
            let comment = line.starts_with("//");
            let acts = ACTS.iter().filter(|act| line.contains(*act) && !may.contains(act));
            let longer = |act: &&&str| {
                !ACTS.iter().any(|other| {
                    other.len() > act.len() && other.contains(**act) && line.contains(other)
                })
            };
            let found: Vec<&&str> = acts.filter(longer).collect();
            let at = number + 1;
            assert!(comment || found.is_empty(), "{path}:{at}: {found:?}: see emulator/src/files");
        }
    }
    assert!(files > 100, "{files} files were looked at");
}
