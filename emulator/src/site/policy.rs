//! The keys of `[policy]`, which a `[[lock]]` may override one by one.

use std::collections::BTreeMap;
use std::ops::Range;

use lock_core::policy::{OutOfBounds, Policy, Row, TABLE, Unit};

use crate::document::{Field, Table};
use crate::document::{Read, Wrong};
use crate::document::{millivolts, seconds, written};

/// A policy, and where each of its values was set.
#[derive(Clone, Default)]
pub(super) struct PlacedPolicy {
    pub(super) policy: Policy,
    at: BTreeMap<&'static str, Range<usize>>,
}

impl PlacedPolicy {
    /// This policy with what `table` sets in its place.
    pub(super) fn overridden_by(&self, table: &Table<'_>) -> Read<Self> {
        let mut own = self.clone();
        let mut values = own.policy.values();
        for (value, row) in values.iter_mut().zip(&TABLE) {
            if let Some(field) = table.get(row.key) {
                *value = number(row, &field)?;
                own.at.insert(row.key, field.at());
            }
        }
        match Policy::from_values(&values) {
            Ok(policy) => Ok(Self { policy, ..own }),
            Err(out) => Err(own.out_of_bounds(&out, values[usize::from(out.key)], table)),
        }
    }

    /// A value that is out of the bounds that another value sets for it.
    fn out_of_bounds(&self, out: &OutOfBounds, value: u32, table: &Table<'_>) -> Box<Wrong> {
        let Row { key, unit, .. } = TABLE[usize::from(out.key)];
        let partner = if key == "penalty_cap" { "penalty" } else { "supply_low" };
        let here = [key, partner].into_iter().find(|key| table.get(key).is_some());
        let at = here.and_then(|key| self.at.get(key)).cloned().unwrap_or_else(|| table.at());
        let (least, most) = (written(out.least, unit), written(out.most, unit));
        let what = format!(
            "`{key}` is {}, but beside this `{partner}` it must lie between {least} and {most}.",
            written(value, unit),
        );
        let remedy = if key == "penalty_cap" {
            "The cap is the longest a penalty gets, so it is no shorter than the first one."
        } else {
            "A spent supply lies at least 200 mV below a low one, so that they are told apart."
        };
        Wrong::new(&at, what, remedy)
    }
}

/// Reads a value in its row's unit, within its row's bounds.
fn number(row: &Row, field: &Field<'_>) -> Read<u32> {
    let value = match row.unit {
        Unit::Seconds => {
            let example = format!("a duration in quotes, such as \"{}\"", default(row));
            let read = field.text().ok().and_then(seconds);
            read.ok_or_else(|| field.wrong_type(&example))?
        }
        Unit::Millivolts => {
            let example = format!("a voltage in quotes, such as \"{}\"", default(row));
            let read = field.text().ok().and_then(millivolts);
            read.ok_or_else(|| field.wrong_type(&example))?
        }
        Unit::Digits | Unit::Tries => return field.whole(row.least, row.most, &reason(row)),
        Unit::People | Unit::Switch => return Ok(if field.flag()? { row.most } else { row.least }),
        Unit::Choice(words) => {
            let chosen = field.text()?;
            let numbered = (row.least..).zip(words).find(|(_, word)| **word == chosen);
            return numbered.map(|(n, _)| n).ok_or_else(|| field.wrong_type(&one_of(words)));
        }
    };
    if (row.least..=row.most).contains(&value) {
        return Ok(value);
    }
    let (least, most) = (written(row.least, row.unit), written(row.most, row.unit));
    let what = format!("`{}` must lie between {least} and {most}.", row.key);
    Err(Wrong::new(&field.at(), what, reason(row)).here("out of bounds"))
}

fn reason(row: &Row) -> String {
    format!("Where nothing is said it is {} ({}).", default(row), row.why)
}

fn default(row: &Row) -> String {
    written(row.default, row.unit)
}

/// `"suspend", "remove" or "enrol"`
fn one_of(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("\"{word}\"")).collect();
    match quoted.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} or {last}", rest.join(", ")),
        Some(_) | None => quoted.concat(),
    }
}
