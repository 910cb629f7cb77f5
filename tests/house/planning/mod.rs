//! The planner's other commands on the command line: why, chart, closures and
//! calendar; their answers, their JSON twins, what they refuse.

mod chart;
mod closures;
mod properties;
mod supply;
mod why;

use crate::site_text::run;

/// Runs `plan COMMAND` on a site text: exit code, what came out and what was
/// complained about.
fn plan(text: &str, command: &str, rest: &[&str]) -> (u8, String, String) {
    let arguments = [&["emulator", "plan", command, "SITE"], rest].concat();
    let (code, _, out, err) = run(text, &arguments);
    (code, out, err)
}

/// The same with JSON.
fn json(text: &str, command: &str, rest: &[&str]) -> serde_json::Value {
    let (code, out, err) = plan(text, command, &[rest, &["--format", "json"]].concat());
    assert_eq!((code, err.as_str()), (0, ""), "{rest:?}");
    serde_json::from_str(&out).expect("JSON")
}

/// Each command explains itself, with an example.
#[test]
fn every_command_of_the_planner_has_help_with_an_example() {
    for command in ["openings", "check", "why", "chart", "closures", "calendar", "supply"] {
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let arguments = ["emulator", "plan", command, "--help"];
        assert_eq!(emulator::cli::run(arguments, &mut out, &mut err), 0);
        let out = String::from_utf8(out).unwrap();
        let example = format!("Example:\n  emulator plan {command} ");
        assert!(out.contains(&example) && out.contains("--format"), "{out}");
    }
}
