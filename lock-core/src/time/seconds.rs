//! A length of time.

use serde::{Deserialize, Serialize};

/// A length of time in whole seconds, up to 136 years.
///
/// The longest that a rule of the lock names is a hold-shut of 31 days,
/// 2,678,400 s, far from the end of the range.
#[derive(
    Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Default, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Seconds(u32);

impl Seconds {
    /// No time at all.
    pub const ZERO: Self = Self(0);
    /// The longest length that can be said; sums stop here.
    pub const MAX: Self = Self(u32::MAX);

    /// A length of `seconds`.
    #[must_use]
    pub const fn new(seconds: u32) -> Self {
        Self(seconds)
    }

    /// A length of `minutes`, [`Seconds::MAX`] at most.
    #[must_use]
    pub const fn from_minutes(minutes: u32) -> Self {
        Self(minutes.saturating_mul(60))
    }

    /// A length of `hours`, [`Seconds::MAX`] at most.
    #[must_use]
    pub const fn from_hours(hours: u32) -> Self {
        Self(hours.saturating_mul(3_600))
    }

    /// The length in seconds.
    #[must_use]
    pub const fn get(self) -> u32 {
        self.0
    }

    /// Both lengths together, [`Seconds::MAX`] at most.
    #[must_use]
    pub const fn saturating_add(self, other: Self) -> Self {
        Self(self.0.saturating_add(other.0))
    }

    /// What is left of this length without the other, never below zero.
    #[must_use]
    pub const fn saturating_sub(self, other: Self) -> Self {
        Self(self.0.saturating_sub(other.0))
    }
}
