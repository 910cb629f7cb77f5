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

/// What is left of the supply, in quarters: 0 to 4.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Charge(u8);

impl Charge {
    /// The quarters, 0 to 4.
    #[must_use]
    pub const fn quarters(self) -> u8 {
        self.0
    }
}

/// What is left of a supply at `level` that was measured at `mv`. Ours: a low supply
/// has a quarter, and above that each half of the distance from spent to low one more.
#[must_use]
pub fn charge(policy: &Policy, level: Level, mv: Millivolts) -> Charge {
    let (low, spent) = (policy.supply_low.get(), policy.supply_spent.get());
    let span = u32::from(low.saturating_sub(spent));
    // Twice the distance, so that nothing is rounded.
    let above = u32::from(mv.get().saturating_sub(low)).saturating_mul(2);
    Charge(match level {
        Level::Spent => 0,
        Level::Low => 1,
        Level::Good if above < span => 2,
        Level::Good if above < span.saturating_mul(3) => 3,
        Level::Good => 4,
    })
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

    #[test]
    fn quarters_rise_with_the_voltage() {
        let quarters = |level, mv| charge(&Policy::DEFAULT, level, Millivolts::new(mv)).quarters();
        assert_eq!(quarters(Level::Spent, 4_100), 0);
        assert_eq!(quarters(Level::Low, 4_700), 1);
        let good = [4_800, 5_099, 5_100, 5_699, 5_700, 6_400].map(|mv| quarters(Level::Good, mv));
        assert_eq!(good, [2, 2, 3, 3, 4, 4]);
        // Three halves of 667 mV above 6,274 mV are 7,274.5 mV, by hand.
        let odd = Policy {
            supply_low: Millivolts::new(6_274),
            supply_spent: Millivolts::new(5_607),
            ..Policy::DEFAULT
        };
        let good = [6_607, 6_608, 7_273, 7_274, 7_275]
            .map(|mv| charge(&odd, Level::Good, Millivolts::new(mv)).quarters());
        assert_eq!(good, [2, 3, 3, 3, 4]);
    }

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
