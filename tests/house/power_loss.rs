//! `emulator rig power-loss` and `rig soak` as people and programs meet them,
//! small enough for every `cargo test`.

use serde_json::Value;

const DRILL: &str = concat!(
    env!("CARGO_MANIFEST_DIR"),
    "/../emulator/demo/drills/r01-nothing-opens-unrecorded.toml"
);

fn run(arguments: &[&str]) -> (u8, String, String) {
    let arguments = ["emulator", "rig"].into_iter().chain(arguments.iter().copied());
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let code = emulator::cli::run(arguments, &mut out, &mut err);
    (code, String::from_utf8(out).unwrap(), String::from_utf8(err).unwrap())
}

/// The last object of a JSON report.
fn summary(out: &str) -> Value {
    serde_json::from_str(out.lines().last().unwrap()).unwrap()
}

/// Nothing is found, and the report says what was looked at; apart from times
/// everything is the same when it is run again, with however many threads.
#[test]
fn random_stories_pass_and_are_the_same_again() {
    let stories =
        |more: &[&str]| run(&[&["power-loss", "--cases", "60", "--format", "json"], more].concat());
    let (code, out, err) = stories(&["--jobs", "1"]);
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    let covered = summary(&out)["covered"].clone();
    for what in ["boots", "tries", "cuts within a write", "duress alarms", "penalties"] {
        assert!(covered[what].as_u64().unwrap() > 0, "{what}\n{out}");
    }
    assert_eq!(summary(&stories(&["--jobs", "3"]).1)["covered"], covered);
    assert_ne!(summary(&stories(&["--seed", "2"]).1)["covered"], covered);
}

/// A drill is cut at every step of it, in more ways than one.
#[test]
fn a_drill_is_cut_at_every_step() {
    let (code, out, err) =
        run(&["power-loss", "--drill", DRILL, "--seeds", "1", "--format", "json"]);
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    let summary = summary(&out);
    let covered = |what: &str| summary["covered"][what].as_u64().unwrap();
    assert_eq!(summary["complete"], true);
    assert_eq!(Some(covered("cut points")), summary["cases"].as_u64());
    assert!(covered("cut points") > 80 && covered("images booted") > 2 * covered("cut points"));
    assert_eq!(covered("boots"), 3 * covered("images booted"));
    let twice = ["--cuts", "3", "--case", "40", "--seeds", "1", "--format", "json"];
    let (code, out, _) = run(&[&["power-loss", "--drill", DRILL], &twice[..]].concat());
    assert_eq!(code, 0, "{out}");
    for what in ["second cuts", "third cuts"] {
        assert!(self::summary(&out)["covered"][what].as_u64().unwrap() > 100, "{out}");
    }
}

/// Stories are swept as drills are.
#[test]
fn a_story_is_cut_at_every_step() {
    let line = ["power-loss", "--stories", "3", "--seeds", "1", "--shard", "0/40"];
    let (code, out, err) = run(&line);
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    assert!(out.contains(" 0 failed ("), "{out}");
}

/// Months of use, with faults that power cuts have nothing to do with.
#[test]
fn months_of_use_pass() {
    let (code, out, err) = run(&["soak", "--cases", "4", "--format", "json"]);
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    let covered = &summary(&out)["covered"];
    for what in ["hours", "faults of the flash", "releases", "ends of the power"] {
        assert!(covered[what].as_u64().unwrap() > 0, "{what}\n{out}");
    }
}

#[test]
fn what_cannot_be_run_is_said() {
    for (arguments, words) in [
        (&["power-loss"][..], "--budget 60s"),
        (&["power-loss", "--drill", "nowhere.toml"], "nowhere.toml"),
        (&["power-loss", "--drill", DRILL, "--stories", "2"], "cannot be used with"),
        (&["power-loss", "--cuts", "4", "--drill", DRILL], "4"),
        (&["power-loss", "--drill", DRILL, "--case", "1000000"], "numbered 0 to"),
        (&["soak", "--years", "0"], "0"),
    ] {
        let (code, out, err) = run(arguments);
        assert_eq!((code, out.as_str()), (2, ""), "{arguments:?}\n{err}");
        assert!(err.contains(words), "{arguments:?}\n{err}");
    }
}
