//! Simulated time: one true time, uptime since the boot, and a clock chip that
//! may be wrong.

use lock_core::port::{Chip, Now};
use lock_core::time::{Uptime, Utc};

/// True time: milliseconds since 1970-01-01 UTC.
pub type Millis = u64;

/// How the clocks of a world stand.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Clocked {
    /// The true time.
    pub now: Millis,
    /// When the lock was last powered up.
    pub booted: Millis,
    /// How far the chip is ahead, in seconds; `None` once it lost power.
    pub ahead: Option<i64>,
}

impl Clocked {
    /// A lock is powered up at `start`, its chip right.
    #[must_use]
    pub const fn starting(start: Millis) -> Self {
        Self { now: start, booted: start, ahead: Some(0) }
    }

    /// Jumps ahead to `moment`; never back.
    pub fn jump_to(&mut self, moment: Millis) {
        self.now = self.now.max(moment);
    }

    /// Uptime starts anew.
    pub const fn boot(&mut self) {
        self.booted = self.now;
    }

    /// The chip loses what it knew.
    pub const fn lose(&mut self) {
        self.ahead = None;
    }

    /// The chip jumps by so many seconds.
    pub fn shift(&mut self, by: i64) {
        self.ahead = self.ahead.map(|ahead| ahead.saturating_add(by));
    }

    /// The chip is set: it reads `utc` now.
    pub fn set_to(&mut self, utc: Utc) {
        let now = i64::try_from(self.now / 1_000).unwrap_or(i64::MAX);
        self.ahead = Some(i64::from(utc.as_secs()).saturating_sub(now));
    }

    /// What a lock reads.
    #[must_use]
    pub fn reading(&self) -> Now {
        Now {
            uptime: Uptime::from_millis(self.now.saturating_sub(self.booted)),
            chip: match self.ahead {
                Some(ahead) => Chip::At(seconds(self.now / 1_000, ahead)),
                None => Chip::Lost,
            },
        }
    }

    /// True UTC, in whole seconds, at most the end of [`Utc`].
    #[must_use]
    pub fn true_utc(&self) -> Utc {
        seconds(self.now / 1_000, 0)
    }

    /// The true time at which uptime will be `uptime`.
    #[must_use]
    pub const fn when(&self, uptime: Uptime) -> Millis {
        self.booted.saturating_add(uptime.as_millis())
    }
}

fn seconds(secs: u64, ahead: i64) -> Utc {
    let shifted = i64::try_from(secs).unwrap_or(i64::MAX).saturating_add(ahead);
    Utc::from_secs(u32::try_from(shifted.max(0)).unwrap_or(u32::MAX))
}
