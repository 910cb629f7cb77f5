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

use std::path::PathBuf;
use std::string::String;
use std::{env, fs, println};

use fixture::Fixture;

/// Tells what happens in a story; its lines, each with what the lock does.
fn told(story: &str) -> String {
    let mut lock = Fixture::new();
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

#[test]
fn stories_are_told_as_they_stand() {
    let folder: PathBuf = [env!("CARGO_MANIFEST_DIR"), "src/machine/tests"].iter().collect();
    let mut stories = 0;
    for file in fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        if path.extension().is_none_or(|extension| extension != "story") {
            continue;
        }
        stories += 1;
        let story = fs::read_to_string(&path).unwrap();
        let now = told(&story);
        if env::var_os("BLESS").is_some() {
            fs::write(&path, &now).unwrap();
        }
        let then = fs::read_to_string(&path).unwrap();
        if now != then {
            let differs = now.lines().zip(then.lines()).position(|(now, then)| now != then);
            let line = differs.unwrap_or(now.lines().count().min(then.lines().count()));
            println!("{}: line {}", path.display(), line + 1);
            println!("  now:  {:?}\n  then: {:?}", now.lines().nth(line), then.lines().nth(line));
        }
        assert!(now == then, "{} is told otherwise", path.display());
    }
    assert!(stories > 10, "only {stories} stories were found");
}
