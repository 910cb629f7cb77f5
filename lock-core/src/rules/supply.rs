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

/// Openings that fresh cells are good for. Ours, a round number to be replaced
/// by what a board measures.
pub const OPENINGS: u16 = 3_000;

/// How far above the spent threshold fresh cells stand under load. Ours: four LR6
/// cells at 1.55 V (from memory) above the default threshold.
pub const FRESH_ABOVE_SPENT: Millivolts = Millivolts::new(2_000);

/// A rough estimate of the openings that a supply of `mv` is good for yet: in
/// proportion to how far it stands above the spent threshold.
#[must_use]
pub fn openings_left(policy: &Policy, mv: Millivolts) -> u16 {
    let above = u32::from(mv.get()).saturating_sub(u32::from(policy.supply_spent.get()));
    let above = above.min(u32::from(FRESH_ABOVE_SPENT.get()));
    let left = above.saturating_mul(u32::from(OPENINGS));
    // The divisor is a constant.
    let left = left.checked_div(u32::from(FRESH_ABOVE_SPENT.get())).unwrap_or(0);
    u16::try_from(left).unwrap_or(OPENINGS)
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
