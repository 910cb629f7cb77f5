//! Simulated time: one true time, uptime since the boot, and a clock chip that
//! may be wrong.

use std::cell::Cell;
use std::rc::Rc;

use lock_core::port::{Chip, Now};
use lock_core::time::{Uptime, Utc};

/// True time: milliseconds since 1970-01-01 UTC.
pub type Millis = u64;

/// The clocks of one world. Clones share them.
#[derive(Clone)]
pub struct SimulatedClock(Rc<Clocks>);

struct Clocks {
    now: Cell<Millis>,
    booted: Cell<Millis>,
    /// How far the chip is ahead, in seconds; `None` once it lost power.
    ahead: Cell<Option<i64>>,
}

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
    /// The chip is set: it reads `utc` now.
    pub fn set_to(&mut self, utc: Utc) {
        let now = i64::try_from(self.now / 1_000).unwrap_or(i64::MAX);
        self.ahead = Some(i64::from(utc.as_secs()).saturating_sub(now));
    }
}

impl SimulatedClock {
    /// A world that starts at `start`, its chip right.
    pub fn starting(start: Utc) -> Self {
        let now = u64::from(start.as_secs()) * 1_000;
        Self(Rc::new(Clocks {
            now: Cell::new(now),
            booted: Cell::new(now),
            ahead: Cell::new(Some(0)),
        }))
    }

    /// The true time.
    pub fn now(&self) -> Millis {
        self.0.now.get()
    }

    /// True UTC, in whole seconds, at most the end of [`Utc`].
    pub fn true_utc(&self) -> Utc {
        seconds(self.now() / 1_000, 0)
    }

    /// Jumps ahead to `moment`; never back.
    pub fn jump_to(&self, moment: Millis) {
        self.0.now.set(self.now().max(moment));
    }

    /// Uptime starts anew.
    pub fn boot(&self) {
        self.0.booted.set(self.now());
    }

    /// The chip loses what it knew.
    pub fn lose(&self) {
        self.0.ahead.set(None);
    }

    /// The chip jumps by so many seconds.
    pub fn shift(&self, by: i64) {
        self.0.ahead.set(self.0.ahead.get().map(|ahead| ahead.saturating_add(by)));
    }

    /// The chip is set: it reads `utc` now.
    pub fn set_to(&self, utc: Utc) {
        let mut clocks = self.reads();
        clocks.set_to(utc);
        self.0.ahead.set(clocks.ahead);
    }

    /// How the clocks stand.
    pub(super) fn reads(&self) -> Clocked {
        Clocked { now: self.now(), booted: self.0.booted.get(), ahead: self.0.ahead.get() }
    }

    /// Clocks that stand like that.
    pub(super) fn set(Clocked { now, booted, ahead }: Clocked) -> Self {
        let (now, booted, ahead) = (Cell::new(now), Cell::new(booted), Cell::new(ahead));
        Self(Rc::new(Clocks { now, booted, ahead }))
    }

    /// What a lock reads.
    pub fn reading(&self) -> Now {
        let uptime = Uptime::from_millis(self.now() - self.0.booted.get());
        let chip = match self.0.ahead.get() {
            Some(ahead) => Chip::At(seconds(self.now() / 1_000, ahead)),
            None => Chip::Lost,
        };
        Now { uptime, chip }
    }

    /// The true time at which uptime will be `uptime`.
    pub fn when(&self, uptime: Uptime) -> Millis {
        self.0.booted.get().saturating_add(uptime.as_millis())
    }
}

fn seconds(secs: u64, ahead: i64) -> Utc {
    let shifted = i64::try_from(secs).unwrap_or(i64::MAX).saturating_add(ahead);
    Utc::from_secs(u32::try_from(shifted.max(0)).unwrap_or(u32::MAX))
}
