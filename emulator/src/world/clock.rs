//! Simulated time, shared between the hands' side of a world and the lock's.

use std::cell::Cell;
use std::rc::Rc;

use emulated_board::clock::{Clocked, Millis};
use lock_core::port::Now;
use lock_core::time::{Uptime, Utc};

/// The clocks of one world. Clones share them.
#[derive(Clone)]
pub struct SimulatedClock(Rc<Cell<Clocked>>);

impl SimulatedClock {
    /// A world that starts at `start`, its chip right.
    pub fn starting(start: Utc) -> Self {
        Self::set(Clocked::starting(u64::from(start.as_secs()) * 1_000))
    }

    /// Clocks that stand like that.
    pub(super) fn set(clocked: Clocked) -> Self {
        Self(Rc::new(Cell::new(clocked)))
    }

    /// How the clocks stand.
    pub(super) fn reads(&self) -> Clocked {
        self.0.get()
    }

    fn change(&self, change: impl FnOnce(&mut Clocked)) {
        let mut clocked = self.0.get();
        change(&mut clocked);
        self.0.set(clocked);
    }

    /// The true time.
    pub fn now(&self) -> Millis {
        self.reads().now
    }

    /// True UTC, in whole seconds, at most the end of [`Utc`].
    pub fn true_utc(&self) -> Utc {
        self.reads().true_utc()
    }

    /// Jumps ahead to `moment`; never back.
    pub fn jump_to(&self, moment: Millis) {
        self.change(|clocked| clocked.jump_to(moment));
    }

    /// Uptime starts anew.
    pub fn boot(&self) {
        self.change(Clocked::boot);
    }

    /// The chip loses what it knew.
    pub fn lose(&self) {
        self.change(Clocked::lose);
    }

    /// The chip jumps by so many seconds.
    pub fn shift(&self, by: i64) {
        self.change(|clocked| clocked.shift(by));
    }

    /// The chip is set: it reads `utc` now.
    pub fn set_to(&self, utc: Utc) {
        self.change(|clocked| clocked.set_to(utc));
    }

    /// What a lock reads.
    pub fn reading(&self) -> Now {
        self.reads().reading()
    }

    /// The true time at which uptime will be `uptime`.
    pub fn when(&self, uptime: Uptime) -> Millis {
        self.reads().when(uptime)
    }
}
