//! Good, low or spent: the supply, with hysteresis (R8).

use serde::{Deserialize, Serialize};

use crate::policy::{Millivolts, Policy, SUPPLY_HYSTERESIS};

/// What the supply can still do.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Level {
    /// It cannot finish an opening; none is started.
    Spent,
    /// It opens, and warns.
    Low,
    /// It opens.
    Good,
}

/// The level after measuring `mv` under load, having stood at `level`.
///
/// It falls as soon as a threshold is undercut and rises only
/// [`SUPPLY_HYSTERESIS`] above it.
#[must_use]
pub fn measured(policy: &Policy, level: Level, mv: Millivolts) -> Level {
    let by_falling = grade(policy, mv, Millivolts::new(0));
    let by_rising = grade(policy, mv, SUPPLY_HYSTERESIS);
    if by_falling < level { by_falling } else { by_rising.max(level) }
}

fn grade(policy: &Policy, mv: Millivolts, margin: Millivolts) -> Level {
    if mv < policy.supply_spent.saturating_add(margin) {
        Level::Spent
    } else if mv < policy.supply_low.saturating_add(margin) {
        Level::Low
    } else {
        Level::Good
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Every level × every voltage, against the sentence "falls below the
    /// threshold, rises at the threshold plus 200 mV", spelled out.
    #[test]
    fn falls_at_once_and_rises_only_above_the_hysteresis() {
        let policy = Policy::DEFAULT;
        for mv in 0..=10_000u16 {
            let from = |level| measured(&policy, level, Millivolts::new(mv));
            let good = if mv < 4_200 {
                Level::Spent
            } else if mv < 4_800 {
                Level::Low
            } else {
                Level::Good
            };
            assert_eq!(from(Level::Good), good);
            let low = if mv < 4_200 {
                Level::Spent
            } else if mv < 5_000 {
                Level::Low
            } else {
                Level::Good
            };
            assert_eq!(from(Level::Low), low);
            let spent = if mv < 4_400 {
                Level::Spent
            } else if mv < 5_000 {
                Level::Low
            } else {
                Level::Good
            };
            assert_eq!(from(Level::Spent), spent);
        }
    }
}
