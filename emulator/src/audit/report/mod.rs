//! A report about one lock: tables that a terminal and a page both show.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | [`Report`]: what is told, as rows of words |
//! | `rows.rs` | the rows of each table |
//! | `text.rs` | for a terminal |
//! | `page.rs`, `timeline.rs` | a page that stands on its own, and its picture |
//! | `json.rs` | the same for programs |

pub mod json;
pub mod page;
mod rows;
pub mod text;
mod timeline;

use lock_core::audit::Gap;

use super::extract::Maker;
use super::finding::{Finding, Limits, findings};
use super::ledger::Ledger;
use super::names::Names;
use super::opening::Mark;
use super::reading::{FileNote, Problem};

/// Whether a report tells duress codes from plain ones.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Telling {
    /// It does not: what lies on a counter endangers nobody.
    Discreet,
    /// It does.
    Confidential,
}

/// A report about one lock.
pub struct Report<'a> {
    /// The lock's number.
    pub lock: u32,
    /// The extracts it is made from.
    pub files: &'a [FileNote],
    /// What they tell.
    pub ledger: &'a Ledger,
    /// Names and the wall clock.
    pub names: Names<'a>,
    /// Whether duress is told.
    pub telling: Telling,
    /// What should be looked into.
    pub findings: Vec<Finding>,
    /// Which part of a page it is; no two have the same.
    pub anchor: String,
}

/// A table of words.
pub(super) struct Table {
    /// What it lists.
    pub(super) title: &'static str,
    /// What is said where there are no rows; no table then.
    pub(super) none: Option<&'static str>,
    /// What its columns hold.
    pub(super) heads: Vec<&'static str>,
    /// Its rows, a cell a column.
    pub(super) rows: Vec<Vec<String>>,
}

impl<'a> Report<'a> {
    /// A report about what `ledger` tells.
    #[must_use]
    pub fn new(
        lock: u32,
        files: &'a [FileNote],
        ledger: &'a Ledger,
        names: Names<'a>,
        limits: Limits,
        telling: Telling,
    ) -> Self {
        let mut findings = findings(ledger, &names, limits);
        findings.extend(files.iter().flat_map(|note| &note.problems).filter_map(of_problem));
        findings.sort_by_key(|finding| finding.mark.seq);
        let anchor = format!("lock-{lock}");
        Self { lock, files, ledger, names, telling, findings, anchor }
    }

    /// Whether anything should be looked into; duress counts only where it is
    /// told.
    #[must_use]
    pub fn has_findings(&self) -> bool {
        let duress = self.telling == Telling::Confidential && !self.ledger.duress.is_empty();
        let broken = self.files.iter().flat_map(|note| &note.problems);
        duress
            || self.is_emulated()
            || !self.findings.is_empty()
            || broken.into_iter().any(|p| p.is_finding())
    }

    /// Whether an emulated lock made what it is about.
    #[must_use]
    pub fn is_emulated(&self) -> bool {
        self.files.iter().any(|note| note.header.maker == Maker::Emulated)
    }

    /// `Lock 1001 (till)`; `Lock 1001 (till), made by an emulated lock`.
    #[must_use]
    pub fn title(&self) -> String {
        let lock = self.names.lock(self.lock);
        if self.is_emulated() { format!("{lock}, {EMULATED}") } else { lock }
    }

    /// `312 records, number 5 to 316, from … to ….`
    fn summary(&self) -> String {
        let ledger = self.ledger;
        let Some((first, last)) = ledger.span else {
            return "No records.".to_owned();
        };
        let times = ledger.times.map_or("none with a time".to_owned(), |(first, last)| {
            let (first, last) = (self.names.moment(Some(first)), self.names.moment(Some(last)));
            format!("from {first} to {last}")
        });
        let records = several(ledger.records, "record");
        format!("{records}, number {} to {}, {times}.", first.seq.0, last.seq.0)
    }

    /// `58 openings, 4 refusals, 1 penalty, 12 changes.`
    fn counts(&self) -> String {
        let ledger = self.ledger;
        let count = |n: usize, what| several(u32::try_from(n).unwrap_or(u32::MAX), what);
        format!(
            "{}, {}, {}, {}.",
            count(ledger.openings.len(), "opening"),
            count(ledger.refusals.len(), "refusal"),
            count(ledger.penalties.len(), "penalty"),
            count(ledger.changes.len(), "change"),
        )
    }
}

/// What is said of an extract that no real lock made.
pub const EMULATED: &str = "made by an emulated lock";

/// What is wrong between two extracts has a record to point at; a broken file
/// is named as a file.
fn of_problem(problem: &Problem) -> Option<Finding> {
    match problem {
        Problem::NotCollected(Gap { from: seq, .. }) | Problem::Contradicts(seq, _) => {
            let mark = Mark { seq: *seq, at: None };
            Some(Finding { kind: problem.kind(), mark, what: capital(&problem.words()) })
        }
        Problem::Broken(_)
        | Problem::Ends(..)
        | Problem::OutOfOrder(_)
        | Problem::Lost(_)
        | Problem::Overwritten(_) => None,
    }
}

fn capital(words: &str) -> String {
    let mut chars = words.chars();
    chars.next().map_or(String::new(), |c| c.to_uppercase().chain(chars).collect())
}

/// `1 record`, `2 records`, `2 penalties`.
pub(crate) fn several(count: u32, what: &str) -> String {
    match (count, what.strip_suffix('y')) {
        (1, _) => format!("1 {what}"),
        (_, Some(stem)) => format!("{count} {stem}ies"),
        (_, None) => format!("{count} {what}s"),
    }
}
