//! The keys of `[policy]`, which a `[[lock]]` may override one by one.

use std::collections::BTreeMap;
use std::ops::Range;

use lock_core::policy::{
    Bound, Control, Deputies, DuressCodes, Millivolts, OutOfBounds, Policy, TABLE,
};
use lock_core::time::Seconds;

use crate::document::{Field, Table};
use crate::document::{Read, Wrong};
use crate::document::{millivolts, seconds, written};

/// Every key of a policy.
pub(super) const KEYS: [&str; 14] = [
    "code_digits",
    "wrong_codes",
    "penalty",
    "penalty_cap",
    "delay",
    "claim",
    "dual_control",
    "dual_limit",
    "duress",
    "alarm_hold",
    "release",
    "supply_low",
    "supply_spent",
    "deputies",
];

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
        for key in KEYS {
            if let Some(field) = table.get(key) {
                own.set(key, &field)?;
                own.at.insert(key, field.at());
            }
        }
        match own.policy.check() {
            Ok(()) => Ok(own),
            Err(out) => Err(own.out_of_bounds(&out, table)),
        }
    }

    fn set(&mut self, key: &str, field: &Field<'_>) -> Read<()> {
        let policy = &mut self.policy;
        match key {
            "dual_control" => {
                policy.control = if field.flag()? { Control::Dual } else { Control::Single };
            }
            "deputies" => {
                policy.deputies = match field.text()? {
                    "suspend" => Deputies::Suspend,
                    "remove" => Deputies::Remove,
                    "enrol" => Deputies::Enrol,
                    _ => {
                        let example = "\"suspend\", \"remove\" or \"enrol\"";
                        return Err(field.wrong_type(example));
                    }
                };
            }
            "duress" => {
                policy.duress = if field.flag()? { DuressCodes::On } else { DuressCodes::Off };
            }
            _ => {
                let bound = TABLE.iter().find(|bound| bound.key == key);
                let bound = bound.expect("every other key has a row in the policy table");
                set_number(policy, bound, number(bound, field)?);
            }
        }
        Ok(())
    }

    /// A value that is out of the bounds that another value sets for it.
    fn out_of_bounds(&self, out: &OutOfBounds, table: &Table<'_>) -> Box<Wrong> {
        let bound = TABLE.get(usize::from(out.key));
        let Bound { key, unit, .. } = *bound.expect("what has bounds is in the policy table");
        let partner = if key == "penalty_cap" { "penalty" } else { "supply_low" };
        let here = [key, partner].into_iter().find(|key| table.get(key).is_some());
        let at = here.and_then(|key| self.at.get(key)).cloned().unwrap_or_else(|| table.at());
        let value = self.policy.value(out.key).unwrap_or_default();
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
fn number(bound: &Bound, field: &Field<'_>) -> Read<u32> {
    let value = match bound.unit {
        "s" => {
            let example = format!("a duration in quotes, such as \"{}\"", default(bound));
            let read = field.text().ok().and_then(seconds);
            read.ok_or_else(|| field.wrong_type(&example))?
        }
        "mV" => {
            let example = format!("a voltage in quotes, such as \"{}\"", default(bound));
            let read = field.text().ok().and_then(millivolts);
            read.ok_or_else(|| field.wrong_type(&example))?
        }
        _ => return field.whole(bound.least, bound.most, &reason(bound)),
    };
    if (bound.least..=bound.most).contains(&value) {
        return Ok(value);
    }
    let (least, most) = (written(bound.least, bound.unit), written(bound.most, bound.unit));
    let what = format!("`{}` must lie between {least} and {most}.", bound.key);
    Err(Wrong::new(&field.at(), what, reason(bound)).here("out of bounds"))
}

fn reason(bound: &Bound) -> String {
    format!("Where nothing is said it is {} ({}).", default(bound), bound.why)
}

fn default(bound: &Bound) -> String {
    written(bound.default, bound.unit)
}

/// `value` lies within the bounds, which for the small fields end below 256.
fn set_number(policy: &mut Policy, bound: &Bound, value: u32) {
    let small = u8::try_from(value).unwrap_or(u8::MAX);
    let voltage = Millivolts::new(u16::try_from(value).unwrap_or(u16::MAX));
    let length = Seconds::new(value);
    match bound.key {
        "code_digits" => policy.code_digits = small,
        "wrong_codes" => policy.wrong_codes = small,
        "penalty" => policy.penalty = length,
        "penalty_cap" => policy.penalty_cap = length,
        "delay" => policy.delay = length,
        "claim" => policy.claim = length,
        "dual_limit" => policy.dual_limit = length,
        "alarm_hold" => policy.alarm_hold = length,
        "release" => policy.release = length,
        "supply_low" => policy.supply_low = voltage,
        "supply_spent" => policy.supply_spent = voltage,
        other => unreachable!("the policy table has no row `{other}`"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A key that the core's table gains must be read from the file too.
    #[test]
    fn every_row_of_the_policy_table_can_be_set() {
        for bound in TABLE {
            assert!(KEYS.contains(&bound.key), "{}", bound.key);
            let mut policy = Policy::DEFAULT;
            set_number(&mut policy, &bound, bound.most);
            let row = TABLE.iter().zip(policy.values()).find(|(row, _)| row.key == bound.key);
            assert_eq!(row.map(|(_, value)| value), Some(bound.most));
        }
        assert_eq!(KEYS.len(), TABLE.len() + 3, "the other three are words, true or false");
    }
}
