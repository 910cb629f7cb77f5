//! The machine without an emulator: stories on a store in RAM and a bench, told in a text
//! file each. A line that begins with `>` is what happens; below it stands everything that
//! the lock does: effects, writes, and when it asks to be woken.
//!
//! The reference model and the drills say that the lock is right. These hold what it
//! does, line by line, where only this crate is tested. After a change that is meant,
//! `BLESS=1 cargo test -p lock-core stories` writes the files anew: read the difference
//! against `docs/behaviour.md` before it is kept.

mod fixture;
mod memory;
mod office;

use std::path::{Path, PathBuf};
use std::string::String;
use std::vec::Vec;
use std::{env, fs, println};

use fixture::{Fixture, Nudged};

/// Tells what happens in a story; its lines, each with what the lock does.
fn told(story: &str, nudged: Nudged) -> String {
    let mut lock = Fixture::new(nudged);
    let mut text = String::new();
    for line in story.lines().filter(|line| line.starts_with('>') || line.starts_with('#')) {
        text.push_str(line);
        text.push('\n');
        if let Some(event) = line.strip_prefix("> ") {
            lock.happens(event, &mut text);
        }
    }
    text
}

/// The stories, by file.
fn stories() -> Vec<(PathBuf, String)> {
    let folder: PathBuf = [env!("CARGO_MANIFEST_DIR"), "src/machine/tests"].iter().collect();
    let files = fs::read_dir(folder).unwrap().map(|file| file.unwrap().path());
    let stories = files.filter(|path| path.extension().is_some_and(|end| end == "story"));
    let stories: Vec<_> =
        stories.map(|path| (path.clone(), fs::read_to_string(path).unwrap())).collect();
    assert!(stories.len() > 10, "only {} stories were found", stories.len());
    stories
}

/// Where two tellings of a story differ first.
fn assert_alike(path: &Path, now: &str, then: &str) {
    if now != then {
        let differs = now.lines().zip(then.lines()).position(|(now, then)| now != then);
        let line = differs.unwrap_or(now.lines().count().min(then.lines().count()));
        println!("{}: line {}", path.display(), line + 1);
        println!("  now:  {:?}\n  then: {:?}", now.lines().nth(line), then.lines().nth(line));
    }
    assert!(now == then, "{} is told otherwise", path.display());
}

#[test]
fn stories_are_told_as_they_stand() {
    for (path, then) in stories() {
        let now = told(&then, Nudged::Never);
        if env::var_os("BLESS").is_some() {
            fs::write(&path, &now).unwrap();
        } else {
            assert_alike(&path, &now, &then);
        }
    }
}

/// A look at the time that nobody needs loses nothing, whenever it is asked for, and
/// brings nothing about.
#[test]
fn a_nudge_changes_no_story() {
    for (path, story) in stories() {
        let (never, always) = (told(&story, Nudged::Never), told(&story, Nudged::AllTheTime));
        assert_alike(&path, &always, &never);
    }
}
