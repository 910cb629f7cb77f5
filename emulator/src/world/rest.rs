//! Whether a lock comes to rest. One that does not would keep everybody waiting
//! for ever who plays with it, and notice nothing that is done to it.

use std::fmt;

use lock_core::port::Input;

use super::{Fitted, Happening, Keeping, Millis, World};
use crate::memory::Lasting;

/// Turns within which a lock rests after an input (docs/behaviour.md, section 1).
pub const MOST_TURNS: u32 = 40;

/// Wake-ups within a second in which time passes and nothing is done to the lock. Ours:
/// what it shows and counts changes by the minute.
pub const MOST_WAKES: u32 = 40;

const SECOND: Millis = 1_000;

/// A lock that did not come to rest. From then on it does nothing until its power is
/// cut and comes back.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Restless {
    /// After an input, or a wake-up whose time had come, it asked for more turns.
    Turns,
    /// It asked to be woken again and again within a second.
    Wakes,
}

impl Restless {
    /// What a lock does that comes to rest.
    #[must_use]
    pub fn expected(self) -> String {
        match self {
            Self::Turns => format!("the lock to rest within {MOST_TURNS} turns of an input"),
            Self::Wakes => format!("the lock to wake at most {MOST_WAKES} times within a second"),
        }
    }

    /// What this one did.
    #[must_use]
    pub const fn seen(self) -> &'static str {
        match self {
            Self::Turns => "it asked for another write, or to be woken at once, again and again",
            Self::Wakes => "it asked to be woken again and again",
        }
    }
}

impl fmt::Display for Restless {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "expected {}; {}", self.expected(), self.seen())
    }
}

/// The turns since the last input, and the wake-ups since a second began.
#[derive(Clone, Copy, Default)]
pub(super) struct Turns {
    taken: u32,
    second: Millis,
    wakes: u32,
}

impl Turns {
    /// Something is done to the lock, or its power comes.
    pub(super) const fn begin(&mut self) {
        self.taken = 0;
    }

    /// Time has passed to where the lock asked to be woken.
    pub(super) const fn wake(&mut self, now: Millis) -> Result<(), Restless> {
        self.taken = 0;
        if now.saturating_sub(self.second) >= SECOND {
            (self.second, self.wakes) = (now, 0);
        }
        self.wakes = self.wakes.saturating_add(1);
        if self.wakes > MOST_WAKES { Err(Restless::Wakes) } else { Ok(()) }
    }

    /// The lock took an input.
    pub(super) const fn took(&mut self, input: &Input) -> Result<(), Restless> {
        match input {
            // What it asked for itself.
            Input::Stored(_) | Input::Woken | Input::DriveFault => self.taken += 1,
            Input::Key(_)
            | Input::Bolt(_)
            | Input::Door(_)
            | Input::Supply(_)
            | Input::Inhibit(_)
            | Input::Switch(_)
            | Input::Transfer(_) => self.taken = 0,
        }
        if self.taken > MOST_TURNS { Err(Restless::Turns) } else { Ok(()) }
    }
}

impl<M: Lasting, B: Fitted> World<M, B> {
    /// The lock does not come to rest: it is left alone from now on.
    ///
    /// # Panics
    /// If nobody would notice: a mistake in the core must be seen.
    pub(super) fn does_not_rest(&mut self, restless: Restless) {
        self.restless = Some(restless);
        if self.keeping >= Keeping::Happenings {
            self.journal.push(Happening::Restless(restless));
        } else {
            assert!(self.watched, "at {} ms: {restless}", self.clock.now());
        }
    }

    /// From now on somebody asks [`World::restless`] after each thing that is done.
    pub const fn watch(&mut self) {
        self.watched = true;
    }

    /// How the lock failed to come to rest, if it did since its power came.
    pub const fn restless(&self) -> Option<Restless> {
        self.restless
    }
}

/// The promises of this module.
#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn forty_turns_are_rest_and_one_more_is_not() {
        let mut turns = Turns::default();
        for _ in 0..2 {
            turns.begin();
            for _ in 0..MOST_TURNS {
                assert_eq!(turns.took(&Input::Woken), Ok(()));
            }
        }
        assert_eq!(turns.took(&Input::Stored(Ok(()))), Err(Restless::Turns));
        // A hand's doing begins anew.
        let bolt = Input::Bolt(lock_core::port::Bolt::Drawn);
        assert_eq!(turns.took(&bolt), Ok(()));
        assert_eq!(turns.took(&Input::Woken), Ok(()));
    }

    #[test]
    fn forty_wake_ups_within_a_second_are_rest_and_one_more_is_not() {
        let mut turns = Turns::default();
        for now in 0..u64::from(MOST_WAKES) {
            assert_eq!(turns.wake(5_000 + now), Ok(()));
        }
        let mut later = turns;
        assert_eq!(later.wake(6_000), Ok(()), "another second");
        assert_eq!(turns.wake(5_999), Err(Restless::Wakes));
    }
}
