//! What came of a campaign, for people and for programs.
//!
//! Apart from times everything is the same when the same is run again.

use std::io::{self, Write};

use serde_json::json;

use super::{Failure, Plan, Report};

/// What was run, for the head of a report and for repeating a case of it.
#[derive(Clone, Debug)]
pub struct Heading {
    /// The rig's name on the command line: `bad-codes`.
    pub rig: &'static str,
    /// Its own options as they were given, so that a repetition has them too:
    /// `" --site file.toml"`, with a blank in front of each.
    pub options: String,
    /// Seed and shard.
    pub plan: Plan,
}

impl Heading {
    /// The command that runs one case again.
    #[must_use]
    pub fn repeat(&self, case: u64) -> String {
        let Self { rig, options, plan } = self;
        format!("emulator rig {rig}{options} --seed {} --case {case}", plan.seed)
    }

    /// The command of a failure: its own, or that of its case.
    pub(super) fn command(&self, case: u64, failure: &Failure) -> String {
        if failure.repeat.is_empty() { self.repeat(case) } else { failure.repeat.clone() }
    }
}

/// Writes failures, coverage and a last line, for people.
///
/// # Errors
/// Whatever writing fails with.
pub fn text(heading: &Heading, report: &Report, out: &mut dyn Write) -> io::Result<()> {
    for (case, failure) in &report.failures {
        writeln!(out, "FAIL  case {case} of seed {}: {}", heading.plan.seed, failure.what)?;
        for event in &failure.events {
            writeln!(out, "        {event}")?;
        }
        writeln!(out, "      repeat: {}", heading.command(*case, failure))?;
    }
    let hidden = hidden(report);
    if hidden > 0 {
        writeln!(out, "FAIL  and {hidden} more cases")?;
    }
    writeln!(out, "Covered:")?;
    let counters: Vec<(&str, String)> =
        report.covered.iter().map(|(what, times)| (what, thousands(times))).collect();
    let names = counters.iter().map(|(what, _)| what.chars().count()).max().unwrap_or(0);
    let numbers = counters.iter().map(|(_, times)| times.len()).max().unwrap_or(0);
    for (what, times) in counters {
        writeln!(out, "  {what:names$}  {times:>numbers$}")?;
    }
    writeln!(
        out,
        "{}: {} cases of seed {}, shard {}{}: {} passed, {} failed ({:.1} s)",
        heading.rig,
        thousands(report.cases),
        heading.plan.seed,
        heading.plan.shard,
        match (report.complete, report.interrupted) {
            (true, _) => "",
            (false, true) => ", interrupted",
            (false, false) => ", stopped by the budget",
        },
        thousands(report.cases.saturating_sub(report.failed)),
        thousands(report.failed),
        report.elapsed.as_secs_f64(),
    )
}

/// Writes the same for programs: an object a line, the summary last.
///
/// # Errors
/// Whatever writing fails with.
pub fn json(heading: &Heading, report: &Report, out: &mut dyn Write) -> io::Result<()> {
    for (case, failure) in &report.failures {
        let line = json!({
            "kind": "failure",
            "case": case,
            "seed": heading.plan.seed,
            "what": failure.what,
            "events": failure.events,
            "repeat": heading.command(*case, failure),
        });
        writeln!(out, "{line}")?;
    }
    let covered: serde_json::Map<String, serde_json::Value> =
        report.covered.iter().map(|(what, times)| (what.to_owned(), times.into())).collect();
    let summary = json!({
        "kind": "summary",
        "rig": heading.rig,
        "seed": heading.plan.seed,
        "shard": heading.plan.shard.to_string(),
        "cases": report.cases,
        "passed": report.cases.saturating_sub(report.failed),
        "failed": report.failed,
        "complete": report.complete,
        "covered": covered,
        "elapsed_ms": u64::try_from(report.elapsed.as_millis()).unwrap_or(u64::MAX),
    });
    writeln!(out, "{summary}")
}

/// Failures that are counted and not kept.
pub(super) fn hidden(report: &Report) -> u64 {
    report.failed.saturating_sub(u64::try_from(report.failures.len()).unwrap_or(u64::MAX))
}

/// A number that people can read: `1,234,567`.
#[must_use]
pub fn thousands(number: u64) -> String {
    let digits = number.to_string();
    let mut text = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

#[cfg(test)]
pub(super) mod tests {
    use std::time::Duration;

    use super::*;
    use crate::rig::{Covered, Shard};

    /// Three cases of which one failed, and 30 more that nobody kept.
    pub(in crate::rig) fn sample() -> (Heading, Report) {
        let plan =
            Plan { seed: 9, budget: None, shard: Shard::WHOLE, jobs: std::num::NonZeroUsize::MIN };
        let heading = Heading { rig: "sample", options: " --site a&b.toml".to_owned(), plan };
        let mut covered = Covered::default();
        covered.add("tries", 1_234_567);
        covered.add("cuts", 0);
        let events = vec!["key <1>".to_owned(), "power \"cut\"\u{7}".to_owned()];
        let failure = Failure { what: "2 < 3 & more".to_owned(), repeat: String::new(), events };
        let failures = vec![(17, failure)];
        let elapsed = Duration::from_millis(1_250);
        let report = Report {
            cases: 33,
            covered,
            failures,
            failed: 31,
            elapsed,
            complete: true,
            interrupted: false,
        };
        (heading, report)
    }

    #[test]
    fn text_says_how_to_repeat_and_what_was_covered() {
        let (heading, report) = sample();
        let mut out = Vec::new();
        text(&heading, &report, &mut out).unwrap();
        let expected = "\
FAIL  case 17 of seed 9: 2 < 3 & more
        key <1>
        power \"cut\"\u{7}
      repeat: emulator rig sample --site a&b.toml --seed 9 --case 17
FAIL  and 30 more cases
Covered:
  cuts           0
  tries  1,234,567
sample: 33 cases of seed 9, shard 0/1: 2 passed, 31 failed (1.2 s)
";
        assert_eq!(String::from_utf8(out).unwrap(), expected);
    }

    #[test]
    fn json_is_an_object_a_line_and_the_summary_last() {
        let (heading, report) = sample();
        let mut out = Vec::new();
        json(&heading, &report, &mut out).unwrap();
        let lines: Vec<serde_json::Value> = String::from_utf8(out)
            .unwrap()
            .lines()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect();
        assert_eq!(lines.len(), 2);
        assert_eq!((&lines[0]["kind"], &lines[0]["case"]), (&json!("failure"), &json!(17)));
        let last = &lines[1];
        assert_eq!((&last["kind"], &last["failed"]), (&json!("summary"), &json!(31)));
        assert_eq!(last["covered"], json!({ "tries": 1_234_567, "cuts": 0 }));
        assert_eq!(last["elapsed_ms"], json!(1_250));
    }

    #[test]
    fn thousands_are_set_apart() {
        for (number, expected) in
            [(0, "0"), (999, "999"), (1_000, "1,000"), (u64::MAX, "18,446,744,073,709,551,615")]
        {
            assert_eq!(thousands(number), expected);
        }
    }
}
