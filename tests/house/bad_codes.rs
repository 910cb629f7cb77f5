//! `emulator rig bad-codes` as people and programs meet it.

use std::path::Path;

use serde_json::Value;

/// Small enough for every `cargo test`; the gate runs a year.
const SHORT: [&str; 6] = ["rig", "bad-codes", "--days", "2", "--mixtures", "20"];

fn run(more: &[&str]) -> (u8, String, String) {
    let arguments = ["emulator"].into_iter().chain(SHORT).chain(more.iter().copied());
    let (mut out, mut err) = (Vec::new(), Vec::new());
    let code = emulator::cli::run(arguments, &mut out, &mut err);
    (code, String::from_utf8(out).unwrap(), String::from_utf8(err).unwrap())
}

fn lines(out: &str) -> Vec<Value> {
    out.lines().map(|line| serde_json::from_str(line).unwrap()).collect()
}

/// Apart from times everything is the same when it is run again, with however
/// many threads.
#[test]
fn the_same_again_is_the_same() {
    let timeless = |out: String| out.rsplit_once(" (").unwrap().0.to_owned();
    let (code, out, err) = run(&["--jobs", "1"]);
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
    let out = timeless(out);
    assert!(out.ends_with("bad-codes: 31 cases of seed 1, shard 0/1: 31 passed, 0 failed"));
    assert_eq!(timeless(run(&["--jobs", "3"]).1), out);
    assert_ne!(timeless(run(&["--seed", "2"]).1), out);
}

/// No strategy gets more through than arithmetic allows, and those that never
/// pause get exactly that much: the closed form is not just generous.
#[test]
fn strategies_reach_the_closed_form_and_no_more() {
    let (code, out, _) = run(&["--format", "json"]);
    assert_eq!(code, 0);
    let lines = lines(&out);
    let lock = &lines[0];
    assert_eq!((&lock["kind"], &lock["usable"]), (&"lock".into(), &889_354.into()));
    let strategies: Vec<&Value> = lines.iter().filter(|line| line["kind"] == "strategy").collect();
    assert_eq!(strategies.len(), 11);
    for strategy in strategies {
        let name = strategy["strategy"].as_str().unwrap();
        let days = strategy["at"].as_array().unwrap();
        for (day, steady) in days.iter().zip([156, 300]) {
            let [judged, most, open] =
                ["judged", "judged_most", "could_open"].map(|key| day[key].as_u64().unwrap());
            let [chance, most_chance] =
                ["chance", "chance_most"].map(|key| day[key].as_f64().unwrap());
            assert!(judged <= most && open <= judged && chance <= most_chance, "{strategy}");
            match name {
                "beside-holder" => assert_eq!(open, judged),
                "patient" => assert_eq!(judged, most),
                "every-number" => assert_eq!((judged, open), (steady, steady)),
                _ => assert_eq!((judged, open), (steady, 100), "{name}"),
            }
        }
        // A hundred tries, each of which leaves out two of the usable codes.
        let end = days[1]["chance"].as_f64().unwrap();
        if ["knowing", "own-code", "battery", "clock", "typing-on"].contains(&name) {
            assert!((end - 200.0 / 889_354.0).abs() < 1e-12, "{name}: {end}");
        }
        if name == "popular" {
            assert!(end.abs() < f64::EPSILON, "nobody may have a popular code");
        }
    }
    let summary = lines.last().unwrap();
    assert_eq!((&summary["kind"], &summary["failed"]), (&"summary".into(), &0.into()));
    assert_eq!(summary["complete"], true);
    assert!(summary["covered"]["right codes barred"].as_u64().unwrap() > 0);
}

/// A longer code and no duress: other counts, from the same options.
#[test]
fn digits_and_policy_are_the_lock_s() {
    let site = Path::new(env!("CARGO_TARGET_TMPDIR")).join("bad-codes.toml");
    let text = include_str!("../../emulator/demo/harbour-bakery.toml");
    std::fs::write(&site, text.replace("duress = true", "duress = false")).unwrap();
    let site_text = site.to_str().unwrap();
    let (code, out, _) = run(&["--site", site_text, "--case", "3", "--format", "json"]);
    assert_eq!(code, 0);
    let lines = lines(&out);
    assert_eq!((lines.len(), &lines[0]["duress"]), (3, &false.into()));
    let chance = lines[1]["at"][1]["chance"].as_f64().unwrap();
    assert!((chance - 100.0 / 889_354.0).abs() < 1e-12, "{chance}");
}

#[test]
fn junit_is_written_where_it_is_asked_for() {
    let path = Path::new(env!("CARGO_TARGET_TMPDIR")).join("bad-codes.xml");
    let (code, _, _) = run(&["--cases", "1", "--junit", path.to_str().unwrap()]);
    let xml = std::fs::read_to_string(&path).unwrap();
    assert_eq!(code, 0);
    assert!(xml.contains("<property name=\"covered: entries judged\" value=\"30"), "{xml}");
    assert!(xml.contains("name=\"bad-codes\"") && xml.contains("failures=\"0\""), "{xml}");
}

#[test]
fn what_does_not_fit_the_site_is_said() {
    for (more, words) in [
        (["--lock", "cellar"], "Its locks are: till, store, vault, strongbox."),
        (["--number", "50"], "Name a holder of the file who may open."),
        (["--site", "nowhere.toml"], "nowhere.toml"),
        (["--case", "31"], "numbered 0 to 30"),
        (["--digits", "5"], "5 is not in 6..=8"),
        (["--shard", "4/4"], "a shard is written I/N"),
    ] {
        let (code, out, err) = run(&more);
        assert_eq!((code, out.as_str()), (2, ""), "{more:?}");
        assert!(err.contains(words), "{err}");
    }
}

/// A courier's number on the real, paired lock: seven digits, ten counters. Right codes are
/// the laptop's next ones and are taken; before, a chosen code of an unpaired lock was
/// attacked in their place.
#[test]
fn a_couriers_number_is_attacked_on_the_paired_lock() {
    let office =
        concat!(env!("CARGO_MANIFEST_DIR"), "/../emulator/demo/office/harbour-bakery.toml");
    for lock in ["till", "store"] {
        let options = ["--site", office, "--lock", lock, "--number", "40", "--format", "json"];
        let (code, out, err) = run(&options);
        assert_eq!((code, err.as_str()), (0, ""), "{out}");
        let lines = lines(&out);
        let told = &lines[0];
        assert_eq!((&told["number"], &told["digits"]), (&40.into(), &7.into()));
        assert_eq!((&told["counters"], &told["codes"]), (&10.into(), &10_000_000.into()));
        assert!((told["tries_until_hit"].as_f64().unwrap() - 10_000_001.0 / 21.0).abs() < 1e-6);
        let knowing = lines.iter().find(|line| line["strategy"] == "knowing").unwrap();
        // A hundred tries of two codes each, at ten counters.
        let chance = knowing["at"][1]["chance"].as_f64().unwrap();
        let expected = 1.0 - (1.0 - 200.0 / 1e7_f64).powi(10);
        assert!((chance - expected).abs() < 1e-12, "{chance}");
        let summary = lines.last().unwrap();
        assert!(summary["covered"]["right codes judged"].as_u64().unwrap() > 100, "{summary}");
    }
}
