//! The tables: who, under what, how often, and what did not hold.

use std::io::{self, Write};

use emulated_board::fuse::{Act, Class};
use serde_json::json;

use crate::flips::Harm;
use crate::judge::{Broken, Rule};

/// Runs of one subject, by class.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(crate) struct Tally {
    classes: [Row; Class::ALL.len()],
}

#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
struct Row {
    runs: u64,
    bad: u64,
    /// Those of them in which an erase was torn.
    erases: u64,
    bad_erases: u64,
    broken: [u64; Rule::ALL.len()],
}

impl Tally {
    pub(crate) fn note(&mut self, act: &Act<'_>, class: Class, broken: Broken) {
        for (row, _) in self.classes.iter_mut().zip(Class::ALL).filter(|(_, c)| *c == class) {
            row.runs += 1;
            row.bad += u64::from(broken.any());
            if let Act::Erase { .. } = act {
                row.erases += 1;
                row.bad_erases += u64::from(broken.any());
            }
            for (count, rule) in row.broken.iter_mut().zip(Rule::ALL) {
                *count += u64::from(broken.has(rule));
            }
        }
    }

    pub(crate) fn add(&mut self, other: &Self) {
        for (row, other) in self.classes.iter_mut().zip(&other.classes) {
            row.add(other);
        }
    }

    /// Runs in which anything did not hold.
    pub(crate) fn bad(&self) -> u64 {
        self.classes.iter().map(|row| row.bad).sum()
    }

    /// Each class, and all of them.
    fn rows(&self) -> impl Iterator<Item = (&'static str, Row)> {
        let mut all = Row::default();
        for row in &self.classes {
            all.add(row);
        }
        let names = Class::ALL.into_iter().map(Class::name);
        names.zip(self.classes).chain([("all", all)])
    }
}

impl Row {
    fn add(&mut self, other: &Self) {
        self.runs += other.runs;
        self.bad += other.bad;
        self.erases += other.erases;
        self.bad_erases += other.bad_erases;
        for (count, other) in self.broken.iter_mut().zip(other.broken) {
            *count += other;
        }
    }
}

/// What came of one subject.
#[derive(Clone, Default)]
pub(crate) struct Found {
    pub(crate) name: &'static str,
    pub(crate) cuts: Tally,
    pub(crate) flips: Harm,
}

impl Found {
    /// Whether nothing went wrong, but that a flipped bit in a blank slot may
    /// have a page begun before its time.
    pub(crate) fn is_clean(&self) -> bool {
        let Harm { bits, oldest_early, .. } = self.flips;
        self.cuts.bad() == 0 && self.flips == Harm { bits, oldest_early, ..Harm::default() }
    }

    /// The columns of the flips.
    const fn harm(&self) -> [(&'static str, u64); 7] {
        [
            ("bits", self.flips.bits),
            ("oldest early", self.flips.oldest_early),
            ("lost silently", self.flips.lost_silently),
            ("lost and said", self.flips.lost_and_said),
            ("invented", self.flips.invented),
            ("setting changed", self.flips.setting_changed),
            ("setting refused", self.flips.setting_refused),
        ]
    }
}

/// For people.
pub(crate) fn text(found: &[Found], out: &mut dyn Write) -> io::Result<()> {
    writeln!(out, "Cuts: runs, bad ones, those with a torn erase, and how many broke which rule")?;
    write!(out, "{:20}{:12}{:>9}{:>7}", "subject", "class", "runs", "bad")?;
    write!(out, "{:>9}{:>7}", "erases", "bad")?;
    for rule in Rule::ALL {
        write!(out, "{:>9}", rule.name())?;
    }
    writeln!(out)?;
    for subject in found {
        for (class, row) in subject.cuts.rows() {
            write!(out, "{:20}{class:12}{:>9}{:>7}", subject.name, row.runs, row.bad)?;
            write!(out, "{:>9}{:>7}", row.erases, row.bad_erases)?;
            for count in row.broken {
                write!(out, "{count:>9}")?;
            }
            writeln!(out)?;
        }
    }
    writeln!(out, "\nFlipped bits: how many, and how many of them did what")?;
    write!(out, "{:20}", "subject")?;
    for (what, _) in Found::default().harm() {
        write!(out, "{what:>17}")?;
    }
    writeln!(out)?;
    for subject in found {
        write!(out, "{:20}", subject.name)?;
        for (_, count) in subject.harm() {
            write!(out, "{count:>17}")?;
        }
        writeln!(out)?;
    }
    Ok(())
}

/// For programs: an object a row.
pub(crate) fn json(found: &[Found], out: &mut dyn Write) -> io::Result<()> {
    for subject in found {
        for (class, row) in subject.cuts.rows() {
            let broken: serde_json::Map<String, serde_json::Value> = Rule::ALL
                .into_iter()
                .zip(row.broken)
                .map(|(rule, count)| (rule.name().to_owned(), count.into()))
                .collect();
            let line = json!({
                "kind": "cuts", "subject": subject.name, "class": class,
                "runs": row.runs, "bad": row.bad,
                "erases": row.erases, "bad-erases": row.bad_erases, "broken": broken,
            });
            writeln!(out, "{line}")?;
        }
        let harm: serde_json::Map<String, serde_json::Value> = subject
            .harm()
            .into_iter()
            .map(|(what, n)| (what.replace(' ', "-"), n.into()))
            .collect();
        writeln!(out, "{}", json!({ "kind": "flips", "subject": subject.name, "harm": harm }))?;
    }
    Ok(())
}
