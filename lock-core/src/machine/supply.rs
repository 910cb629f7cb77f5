//! The supply: what was measured last, and what of it is on record (R8).

use crate::policy::{Millivolts, Policy};
use crate::rules::supply::{self, Charge, Level};

/// The region of the supply.
pub(super) struct Supply {
    level: Level,
    /// The level as it was recorded last.
    recorded: Level,
    measured: Option<Millivolts>,
}

impl Supply {
    pub(super) const fn at_boot(recorded: Level) -> Self {
        Self { level: Level::Good, recorded, measured: None }
    }

    pub(super) const fn level(&self) -> Level {
        self.level
    }

    /// What is left of it, if it was ever measured.
    pub(super) fn charge(&self, policy: &Policy) -> Option<Charge> {
        self.measured.map(|mv| supply::charge(policy, self.level, mv))
    }

    /// Takes a measurement in; whether the level is another one than that on record.
    pub(super) fn measure(&mut self, measured: Millivolts, policy: &Policy) -> bool {
        self.level = supply::measured(policy, self.level, measured);
        self.measured = Some(measured);
        self.level != self.recorded
    }

    /// The level is on its way to the store.
    pub(super) const fn is_recorded(&mut self) {
        self.recorded = self.level;
    }

    /// What was recorded is erased.
    pub(super) const fn forget_record(&mut self) {
        self.recorded = Level::Good;
    }
}
