//! Timers: one table of what time brings about. Each row says when it comes next and what
//! it does, so that the lock is woken for whatever fires, and only for that. It never
//! ticks.
//!
//! What may not be done now asks for no wake-up: whoever makes that end looks at it
//! again in the same step. So the lock never asks for a moment that has passed.

use super::bolt::{self, Access, Moment};
use super::step::Machine;
use crate::audit::Event;
use crate::port::Tally;
use crate::screen::Late;
use crate::time::{Seconds, Steady, Uptime, Utc};

use super::writes::Continuation;

/// What comes by time.
#[derive(Clone, Copy)]
enum Timer {
    /// A hold-shut ends.
    HoldShut,
    /// A clock that two people set has settled.
    Settled,
    /// The sum of corrections falls to nothing.
    CorrectionsOver,
    /// A penalty is over.
    Served,
    /// The step of penalties falls.
    Eased,
    /// A wrong try weighs no more.
    Faded,
    /// A delay, a claim, a release or a permit ends.
    Bolt,
    /// The first of two waits no longer.
    Pair,
    /// The alarm line falls, or would.
    Alarm,
    /// What stands at the keypad is wiped or left.
    Pause,
    /// What was said is over.
    Notice,
    /// A reset without a warden's code is due.
    Reset,
    /// A way out is due.
    WayOut,
    /// A file that waits is due.
    File,
    /// A countdown on the screen changes.
    Countdown,
    /// Clock and uptime are compared anew.
    Compare,
}

impl Timer {
    /// All of them, in the order in which they fire.
    const ALL: [Self; 16] = [
        Self::HoldShut,
        Self::Settled,
        Self::CorrectionsOver,
        Self::Served,
        Self::Eased,
        Self::Faded,
        Self::Bolt,
        Self::Pair,
        Self::Alarm,
        Self::Pause,
        Self::Notice,
        Self::Reset,
        Self::WayOut,
        Self::File,
        Self::Countdown,
        Self::Compare,
    ];
}

impl Machine {
    /// When the lock must be woken if nothing happens before.
    pub(super) fn wake(&self, at: Moment) -> Option<Uptime> {
        let mut earliest: Option<Uptime> = None;
        for timer in Timer::ALL {
            if let Some(next) = self.next(timer, at) {
                earliest = Some(earliest.map_or(next, |earliest| earliest.min(next)));
            }
        }
        earliest
    }

    /// Lets fire what has come.
    #[inline(never)] // own frame
    pub(super) fn run_timers(&mut self, at: Moment) {
        for timer in Timer::ALL {
            if self.next(timer, at).is_some_and(|next| at.uptime >= next) {
                self.fire(timer, at);
            }
        }
    }

    /// When that comes next.
    #[inline(never)] // one copy
    fn next(&self, timer: Timer, at: Moment) -> Option<Uptime> {
        match timer {
            Timer::HoldShut => self.counts.held_until().and_then(|end| comes(end, at)),
            // In service that may be another tally than the one in flash, whose entry was
            // not written: there nothing of it is timed until a boot, which begins all of
            // it anew.
            Timer::Settled
            | Timer::CorrectionsOver
            | Timer::Served
            | Timer::Eased
            | Timer::Faded
                if self.waits_for_a_boot() =>
            {
                None
            }
            Timer::Settled => self.clock.settles(),
            Timer::CorrectionsOver => self.clock.corrections_over(),
            Timer::Served => self.counts.penalty_until(),
            Timer::Eased => self.counts.eases(),
            Timer::Faded => self.counts.fades(),
            Timer::Bolt => self.bolt_changes(at),
            Timer::Pair => self.pair.first().map(|(_, until)| until),
            Timer::Alarm => self.alarm.changes(),
            Timer::Pause => self.keypad.session().until(),
            Timer::Notice => self.display.until(),
            Timer::Reset | Timer::WayOut | Timer::File if !self.is_undisturbed() => None,
            Timer::Reset => self.countdowns.reset(),
            Timer::WayOut => self.countdowns.way_out(),
            Timer::File => self.in_force.file().waits.and_then(|waits| comes(waits.until, at)),
            Timer::Countdown => self.countdown_changes(at),
            Timer::Compare => self.clock.compares(),
        }
    }

    /// What that does.
    fn fire(&mut self, timer: Timer, at: Moment) {
        let entry = match timer {
            Timer::HoldShut => return self.counts.end_hold(),
            Timer::Settled => {
                self.clock.settle();
                self.anew.time();
                Tally::Settled
            }
            Timer::CorrectionsOver => {
                self.clock.end_corrections();
                if self.counts.corrected() == Seconds::ZERO {
                    return;
                }
                Tally::CorrectionsOver
            }
            Timer::Served => self.counts.serve(),
            Timer::Eased => self.counts.ease(),
            Timer::Faded => match self.counts.faded(at.uptime) {
                Some(entry) => entry,
                None => return,
            },
            Timer::Bolt => {
                // A wake-up that comes late may have slept through more than one change: a
                // delay and its claim, at most.
                self.bolt_event(bolt::Event::Time, at);
                return self.bolt_event(bolt::Event::Time, at);
            }
            Timer::Pair => {
                self.pair.end();
                return self.record(at, Event::Lapsed, Continuation::Nothing);
            }
            Timer::Alarm => return self.alarm.look(at.uptime),
            Timer::Pause => return self.keypad.rest(),
            Timer::Notice => return self.display.hush(),
            // What takes a lock that nobody is at is looked at once the input is taken.
            Timer::Reset | Timer::WayOut | Timer::File => return,
            // The screen is derived at the end of each step, and the clock was compared at
            // its beginning.
            Timer::Countdown | Timer::Compare => return,
        };
        self.tally(entry, Continuation::Nothing, at);
    }

    /// When time changes what the bolt may do.
    fn bolt_changes(&self, at: Moment) -> Option<Uptime> {
        let (timer, ends) = match self.bolt.access() {
            Access::Secured => (None, None),
            Access::Waiting(waiting) => (Some(waiting.ready), waiting.ends.instant()),
            Access::Claimable(claim) => (Some(claim.until), claim.ends.instant()),
            Access::Released(released) | Access::Blocked(released) => (Some(released.until), None),
            Access::Open(open) => match open.late {
                Late::No => (None, open.ends.instant()),
                Late::Yes => (None, None),
            },
        };
        let ends = ends.and_then(|end| uptime_of(end, at));
        timer.into_iter().chain(ends).min()
    }
}

/// When an instant will have come, on a clock that is believed.
fn uptime_of(instant: Utc, at: Moment) -> Option<Uptime> {
    Some(at.uptime.after(instant.since(at.utc?)))
}

/// When a steady time will have come.
fn comes(steady: Steady, at: Moment) -> Option<Uptime> {
    Some(at.uptime.after(steady.since(at.steady?)))
}
