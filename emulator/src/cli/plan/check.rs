//! `plan check`: what will not work out.

use std::io;
use std::path::PathBuf;

use clap::Args;
use lock_core::time::Date;
use serde_json::json;

use super::rule_holds;
use crate::cli::moment::{parse_date, today};
use crate::cli::report::{Unusable, refuse};
use crate::cli::{Format, Outcome, Streams};
use crate::plan::{Finding, Severity, check, first_instant};
use crate::site::Site;

#[derive(Args)]
pub(in crate::cli) struct CheckArguments {
    /// The site file.
    pub(super) site: PathBuf,
    /// The date to look ahead from; today where it is left out.
    #[arg(long, value_name = "DATE", value_parser = parse_date)]
    from: Option<Date>,
    /// How the findings are written.
    #[arg(long, value_enum, default_value_t = Format::Text)]
    format: Format,
}

impl CheckArguments {
    pub(super) fn write(&self, site: &Site, streams: &mut Streams<'_>) -> io::Result<Outcome> {
        let from = self.from.unwrap_or_else(|| today(&site.zone));
        let Some(first) = first_instant(&site.zone, from) else {
            let what = "The clock of a lock does not reach this date.";
            return refuse(streams, &Unusable::new(what, "Name a later date."));
        };
        if let Err(why) = rule_holds(site, first) {
            return refuse(streams, &why);
        }
        let findings = check::check(site, from);
        let file = &site.places.file;
        match self.format {
            Format::Json => {
                let rows: Vec<_> = findings.iter().map(|finding| json_row(file, finding)).collect();
                writeln!(streams.out, "{:#}", serde_json::Value::Array(rows))?;
            }
            Format::Text => {
                for Finding { severity, place, what, remedy } in &findings {
                    let word = severity.word();
                    writeln!(
                        streams.out,
                        "{file}:{}:{}: {word}: {what}",
                        place.line, place.column
                    )?;
                    writeln!(streams.out, "    {remedy}")?;
                }
                writeln!(streams.out, "{}", summary(&findings))?;
            }
        }
        let worst = findings.iter().map(|finding| finding.severity).max();
        Ok(match worst {
            Some(Severity::Error | Severity::Warning) => Outcome::Found,
            Some(Severity::Note) | None => Outcome::Fine,
        })
    }
}

fn json_row(file: &str, finding: &Finding) -> serde_json::Value {
    json!({
        "severity": finding.severity.word(),
        "file": file,
        "line": finding.place.line,
        "column": finding.place.column,
        "what": finding.what,
        "remedy": finding.remedy,
    })
}

/// `1 error, 2 warnings, 0 notes`.
fn summary(findings: &[Finding]) -> String {
    let count = |severity: Severity| {
        let count = findings.iter().filter(|finding| finding.severity == severity).count();
        let plural = if count == 1 { "" } else { "s" };
        format!("{count} {}{plural}", severity.word())
    };
    [Severity::Error, Severity::Warning, Severity::Note].map(count).join(", ")
}
