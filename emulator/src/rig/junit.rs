//! The report of a campaign as JUnit XML, for CI servers.
//!
//! Source: the JUnit.xsd that most servers agree on (Windy Road's schema of the
//! reports of Ant's tasks): a suite has properties, cases, system-out and
//! system-err, a host name and a timestamp without a zone. `.ci/junit` holds
//! reports to it.

use std::fmt::Write as _;

use super::report::{Heading, hidden};
use super::{Report, campaign::Failure};

/// A test case of the XML.
struct Row<'f> {
    name: String,
    failure: Option<(&'f str, String)>,
}

/// The report as XML. `started` is UTC, `2027-03-01T09:00:00`, without a zone.
///
/// A million cases would drown a server: each failure that the report keeps is
/// a test case, the others are one together.
#[must_use]
pub fn xml(heading: &Heading, report: &Report, started: &str) -> String {
    let rows = rows(heading, report);
    let failed = rows.iter().filter(|row| row.failure.is_some()).count();
    let rig = heading.rig;
    let seconds = format!("{:.3}", report.elapsed.as_secs_f64());
    let mut xml = String::from("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<testsuites>\n");
    // The machine's own name is nobody's business; the schema suggests this one.
    xml += &format!(
        "  <testsuite id=\"0\" package=\"emulator.rig\" name=\"{rig}\" timestamp=\"{started}\" \
         hostname=\"localhost\" tests=\"{}\" failures=\"{failed}\" errors=\"0\" \
         time=\"{seconds}\">\n",
        rows.len()
    );
    xml += "    <properties>\n";
    let mut property = |name: &str, value: &str| {
        let (name, value) = (escaped(name), escaped(value));
        xml += &format!("      <property name=\"{name}\" value=\"{value}\"/>\n");
    };
    property("seed", &heading.plan.seed.to_string());
    property("shard", &heading.plan.shard.to_string());
    property("cases", &report.cases.to_string());
    property("complete", if report.complete { "true" } else { "false" });
    for (what, times) in report.covered.iter() {
        property(&format!("covered: {what}"), &times.to_string());
    }
    xml += "    </properties>\n";
    for row in &rows {
        let name = escaped(&row.name);
        let case = format!("    <testcase name=\"{name}\" classname=\"rig.{rig}\" time=\"0.000\"");
        match &row.failure {
            None => xml += &format!("{case}/>\n"),
            Some((what, details)) => {
                let (what, details) = (escaped(what), escaped(details));
                xml += &format!("{case}>\n      <failure message=\"{what}\" type=\"invariant\">");
                xml += &format!("{details}</failure>\n    </testcase>\n");
            }
        }
    }
    let command = escaped(&format!("emulator rig {rig}{}", heading.options));
    xml += &format!("    <system-out>{command}</system-out>\n    <system-err></system-err>\n");
    xml += "  </testsuite>\n</testsuites>\n";
    xml
}

fn rows<'f>(heading: &Heading, report: &'f Report) -> Vec<Row<'f>> {
    let passed = report.cases.saturating_sub(report.failed);
    let mut rows = vec![Row { name: format!("{passed} cases that passed"), failure: None }];
    for (case, failure) in &report.failures {
        let Failure { what, events, .. } = failure;
        let mut details = format!("repeat: {}", heading.command(*case, failure));
        for event in events {
            // Writing to a String cannot fail.
            let _ = write!(details, "\n{event}");
        }
        rows.push(Row { name: format!("case {case}"), failure: Some((what, details)) });
    }
    let hidden = hidden(report);
    if hidden > 0 {
        let failure = Some(("counted, not kept", "repeat: run it again".to_owned()));
        rows.push(Row { name: format!("{hidden} further cases that failed"), failure });
    }
    rows
}

/// Text as XML may hold it: no character is left that the standard (XML 1.0,
/// section 2.2) forbids, also not by reference.
fn escaped(text: &str) -> String {
    let mut xml = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => xml += "&amp;",
            '<' => xml += "&lt;",
            '>' => xml += "&gt;",
            '"' => xml += "&quot;",
            '\n' => xml += "&#10;",
            '\t' => xml += "&#9;",
            '\r' => xml += "&#13;",
            '\0'..='\u{1f}' | '\u{fffe}' | '\u{ffff}' => xml.push('\u{fffd}'),
            other => xml.push(other),
        }
    }
    xml
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rig::report::tests::sample;

    /// The order, the elements and the attributes that the schema requires,
    /// read by a parser that is not ours.
    #[test]
    fn the_schema_s_elements_are_there_in_its_order() {
        let (heading, report) = sample();
        let xml = xml(&heading, &report, "2027-03-01T09:00:00");
        // For `.ci/junit`, which asks the schema itself.
        if let Some(path) = std::env::var_os("JUNIT_SAMPLE") {
            std::fs::write(path, &xml).unwrap();
        }
        let document = roxmltree::Document::parse(&xml).unwrap();
        let root = document.root_element();
        assert_eq!((root.tag_name().name(), root.attributes().len()), ("testsuites", 0));
        let suite = root.first_element_child().unwrap();
        let attribute = |name| suite.attribute(name).unwrap();
        assert_eq!(attribute("timestamp"), "2027-03-01T09:00:00");
        assert_eq!((attribute("hostname"), attribute("name")), ("localhost", "sample"));
        assert_eq!((attribute("tests"), attribute("failures")), ("3", "2"));
        assert_eq!((attribute("errors"), attribute("time")), ("0", "1.250"));
        assert_eq!((attribute("id"), attribute("package")), ("0", "emulator.rig"));
        let children: Vec<&str> = suite
            .children()
            .filter(roxmltree::Node::is_element)
            .map(|child| child.tag_name().name())
            .collect();
        let cases = ["testcase"; 3];
        assert_eq!(children[0], "properties");
        assert_eq!(children[1..4], cases);
        assert_eq!(children[4..], ["system-out", "system-err"]);
        let cases: Vec<_> = suite.children().filter(|c| c.has_tag_name("testcase")).collect();
        for case in &cases {
            assert!(["name", "classname", "time"].iter().all(|name| case.has_attribute(*name)));
        }
        let failures: Vec<_> =
            suite.descendants().filter(|node| node.has_tag_name("failure")).collect();
        assert_eq!(failures.len(), 2);
        assert_eq!(failures[0].attribute("message"), Some("2 < 3 & more"));
        assert!(failures.iter().all(|failure| failure.has_attribute("type")));
        let details = failures[0].text().unwrap();
        assert!(details.starts_with("repeat: emulator rig sample --site a&b.toml --seed 9 --case"));
        assert!(details.ends_with("\nkey <1>\npower \"cut\"\u{fffd}"), "{details:?}");
    }
}
