//! Lost output: what was reproduced, and the documents about it.

use std::fs::File;
use std::process::{Command, Stdio};

use crate::place::Place;
use crate::{emulator, end, run};

/// A failing drill whose reader takes one line.
#[test]
fn a_failing_drill_fails_whoever_reads_it() {
    let place = Place::new("head");
    for _ in 0..3 {
        place.write("drills/more.toml", std::fs::read(place.path("drills/fail.toml")).unwrap());
        let mut head = Command::new("head");
        let mut head = head.args(["-n", "1"]).stdin(Stdio::piped()).stdout(Stdio::null()).spawn();
        let head = head.as_mut().unwrap();
        let drills = "drill --format json @drills";
        let mut command = emulator(&place.words(drills));
        let ended = end(command.stdout(head.stdin.take().unwrap()));
        assert_eq!(ended.code, 1, "{}", ended.err);
        head.wait().unwrap();
    }
}

/// The complaint itself cannot be written: the exit code still says it.
#[test]
fn a_complaint_that_nobody_can_read() {
    let place = Place::new("complaint");
    let full = || File::options().write(true).open("/dev/full").unwrap();
    for (command, code) in [("plan check @nowhere", 2), ("plan openings @site.toml", 2)] {
        let mut command = emulator(&place.words(command));
        let status = command.stderr(full()).stdout(Stdio::null()).status().unwrap();
        assert_eq!(status.code(), Some(code));
    }
    // A note beside a result is part of what was to be told.
    let suspended = std::fs::read_to_string(place.path("site.toml")).unwrap();
    let suspended = suspended.replacen("number = 12\n", "number = 12\nsuspended = true\n", 1);
    place.write("site.toml", suspended);
    let line = "plan openings @site.toml --lock till --holder 12 --from 2027-03-01 --to 2027-03-02";
    assert_eq!(run(&mut emulator(&place.words(line))).code, 0);
    let mut command = emulator(&place.words(line));
    let status = command.stderr(full()).stdout(Stdio::null()).status().unwrap();
    assert_eq!(status.code(), Some(2));
}

/// Help and README list the exit codes that there are.
#[test]
fn the_exit_codes_are_documented() {
    let help = run(&mut emulator(&["--help".into()])).out();
    let readme = include_str!("../../../README.md");
    for (code, words) in [
        (0, "fine"),
        (1, "a finding, or a failed expectation"),
        (2, "it could not be carried out"),
        (130, "a rig was interrupted"),
    ] {
        let line = help.lines().find(|line| line.trim_start().starts_with(&format!("{code} ")));
        assert!(line.is_some_and(|line| line.contains(words)), "{code}: {help}");
        assert!(readme.contains(&format!("| {code} | {words}")), "{code}");
    }
}
