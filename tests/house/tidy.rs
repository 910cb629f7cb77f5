//! House rules as tests: what a reader may rely on anywhere in the repository,
//! read from the sources.

mod contract;
mod first_page;
mod floors;
mod glossary;
mod kept_apart;
mod links;
mod manifests;
mod notices;
mod one_place;
mod regions;
mod rules_named;
mod seams;
mod store_invariants;

use crate::source;

/// Longest file, in lines. A concept a file: who needs more has two concepts.
const LONGEST: usize = 600;

/// From here on a file should be split; printed by `--nocapture`.
const LONG: usize = 500;

fn rust_files() -> Vec<String> {
    ["lock-core", "emulator", "tests"].iter().flat_map(|part| source::files(part, ".rs")).collect()
}

#[test]
fn no_file_is_longer_than_a_reader_can_hold() {
    let lengths = rust_files().into_iter().map(|path| (source::text(&path).lines().count(), path));
    let (too_long, rest): (Vec<_>, Vec<_>) = lengths.partition(|(lines, _)| *lines > LONGEST);
    for (lines, path) in rest.iter().filter(|(lines, _)| *lines > LONG) {
        println!("{path} has {lines} lines and should be split before long");
    }
    assert!(too_long.is_empty(), "over {LONGEST} lines: {too_long:?}");
}

/// Names for what has no concept.
#[test]
fn no_module_is_named_after_nothing() {
    for path in rust_files() {
        let name = path.rsplit('/').next().unwrap();
        let nothing = ["utils.rs", "util.rs", "helpers.rs", "common.rs", "misc.rs", "manager.rs"];
        assert!(!nothing.contains(&name), "{path} says nothing about what is in it");
    }
}

/// A test that is switched off checks nothing, and nobody notices.
#[test]
fn no_test_is_switched_off() {
    let marks = ["#[ign", "ore"].concat();
    for path in rust_files() {
        let off = source::text(&path).lines().position(|line| line.trim().starts_with(&marks));
        assert_eq!(off, None, "{path}");
    }
}

/// A merge that was left half done reads as two guides in one.
#[test]
fn no_merge_is_left_half_done() {
    let endings = [".rs", ".md", ".toml", ".lock", ".mjs", ".js", ".html", ".css"];
    for path in endings.iter().flat_map(|ending| source::files("", ending)) {
        let text = source::text(&path);
        let mark =
            |line: &&str| line.starts_with(&"<".repeat(7)) || line.starts_with(&">".repeat(7));
        assert_eq!(text.lines().find(mark), None, "{path}");
    }
}
