//! The clock, set at the keypad (R3).
//!
//! A steward alone corrects a little; more takes a warden besides, and leaves
//! the holders of timetables closed until the clock has settled, so that nobody
//! opens a closed safe by setting its clock.

use super::bolt::{self, Moment};
use super::steady::SteadyClock;
use super::step::Machine;
use super::writes::Continuation;
use crate::audit::{CancelReason, Change, Event, People};
use crate::port::{Now, Tally};
use crate::recovered::Recovered;
use crate::rules::clock::{self, COMPARE_OVER, Clock};
use crate::screen::{Form, Screen, Trouble, Whom};
use crate::tally::Settling;
use crate::time::{Seconds, Shift, Uptime, Utc};

/// By how much a steward alone may correct the clock in [`PERIOD`], forward and
/// back added up. Ours: a cheap crystal strays less.
pub const ALONE: Seconds = Seconds::from_minutes(5);

/// After so long without a correction their sum falls to nothing. A boot starts
/// it anew. Ours.
pub const PERIOD: Seconds = Seconds::from_hours(30 * 24);

/// How long holders of timetables stay closed after two people set the clock.
/// Ours: longer than a night shift's patience, shorter than a day.
pub const SETTLING: Seconds = Seconds::from_hours(8);

/// What setting the clock takes.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Correction {
    /// A steward: that many seconds forward.
    Alone(i32),
    /// A steward and a warden.
    ByTwo,
}

impl Correction {
    /// Which second person it takes.
    pub(super) const fn needs(self) -> Option<Whom> {
        match self {
            Self::Alone(_) => None,
            Self::ByTwo => Some(Whom::Warden),
        }
    }
}

/// What follows once the clock is doubted for good: it is set, and believed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Setting {
    target: Utc,
    by: Option<People>,
    how: Correction,
}

/// The region of the clock.
pub(super) struct LockClock {
    clock: Clock,
    /// Steady time, as of the last look.
    steady: SteadyClock,
    /// When the firmware was built: no clock is set to before that.
    built: Utc,
    /// When a clock that two people set has settled.
    settles: Option<Uptime>,
    /// When the sum of corrections falls to nothing.
    corrections_over: Option<Uptime>,
}

impl LockClock {
    pub(super) fn at_boot(found: &Recovered, built: Utc, now: Now) -> Self {
        let settling = found.tally.settling == Settling::Yes;
        Self {
            clock: Clock::at_boot(now, found.floor, built, found.tally.clock),
            steady: SteadyClock::at_boot(found, now.uptime),
            built,
            settles: settling.then(|| now.uptime.after(SETTLING)),
            corrections_over: Some(now.uptime.after(PERIOD)),
        }
    }

    /// Compares the chip with uptime; whether the clock is believed no longer.
    pub(super) fn compare(&mut self, now: Now) -> bool {
        let before = self.clock;
        self.clock = before.looked_at(now);
        self.is_invalid() && before != Clock::Invalid
    }

    /// The moment.
    pub(super) fn moment(&mut self, now: Now, shift: Shift) -> Moment {
        let utc = self.clock.utc(now);
        let steady = self.steady.looked_at(now.uptime, utc, shift);
        Moment { uptime: now.uptime, utc, steady }
    }

    /// The moment, without a look that changes anything.
    pub(super) fn moment_of(&self, now: Now, shift: Shift) -> Moment {
        let utc = self.clock.utc(now);
        let steady = self.steady.clone().looked_at(now.uptime, utc, shift);
        Moment { uptime: now.uptime, utc, steady }
    }

    pub(super) fn is_invalid(&self) -> bool {
        self.clock == Clock::Invalid
    }

    /// When the comparison point gets too old.
    pub(super) fn compares(&self) -> Option<Uptime> {
        match self.clock {
            Clock::Valid { uptime, .. } => Some(uptime.after(COMPARE_OVER)),
            Clock::Invalid => None,
        }
    }

    pub(super) const fn built(&self) -> Utc {
        self.built
    }

    pub(super) const fn settles(&self) -> Option<Uptime> {
        self.settles
    }

    pub(super) const fn corrections_over(&self) -> Option<Uptime> {
        self.corrections_over
    }

    /// The chip is being set to that time, which is believed.
    pub(super) const fn set(&mut self, target: Utc, at: Uptime) {
        self.clock = Clock::Valid { uptime: at, utc: target };
    }

    /// Somebody alone corrected it.
    pub(super) fn is_corrected(&mut self, at: Uptime) {
        self.corrections_over = Some(at.after(PERIOD));
    }

    /// Two people set it: nobody opens by it before it has settled.
    pub(super) fn begin_settling(&mut self, at: Uptime) {
        self.settles = Some(at.after(SETTLING));
    }

    /// It has settled; whether it had not before.
    pub(super) const fn settle(&mut self) -> bool {
        self.settles.take().is_some()
    }

    /// The period of corrections is over.
    pub(super) const fn end_corrections(&mut self) {
        self.corrections_over = None;
    }

    /// The end of the settling time, on the clock that is believed.
    pub(super) fn settled_at(&self, at: Moment) -> Option<Utc> {
        let left = self.settles?.since(at.uptime);
        // Whole seconds, rounded up: nobody is called back too early.
        Some(at.utc?.after(left.saturating_add(Seconds::new(1))))
    }

    /// What setting the clock to `target` takes at this moment, where stewards alone
    /// have corrected it by so much.
    pub(super) fn correction(
        &self,
        target: Utc,
        corrected: Seconds,
        at: Moment,
    ) -> Result<Correction, Trouble> {
        if !clock::is_within_life(target, self.built) {
            return Err(Trouble::NotInItsLife);
        }
        let Some(now) = at.utc else { return Ok(Correction::ByTwo) };
        let by = i64::from(target.as_secs()).saturating_sub(i64::from(now.as_secs()));
        let alone = by.unsigned_abs() <= u64::from(ALONE.saturating_sub(corrected).get());
        Ok(match i32::try_from(by) {
            Ok(by) if alone => Correction::Alone(by),
            Ok(_) | Err(_) => Correction::ByTwo,
        })
    }
}

impl Machine {
    /// What setting the clock to `target` takes at this moment.
    pub(super) fn correction(&self, target: Utc, at: Moment) -> Result<Correction, Trouble> {
        self.clock.correction(target, self.counts.corrected(), at)
    }

    /// Has the clock set. A cut of the power on the way leaves it doubted, not
    /// set and believed: so first that is made durable.
    pub(super) fn set_clock(
        &mut self,
        (target, how): (Utc, Correction),
        by: Option<People>,
        at: Moment,
    ) {
        let after = Continuation::SetClock(Setting { target, by, how });
        self.tally(Tally::ClockDoubt(at.steady), after, at);
    }

    /// The clock is doubted for good: it is set now, its record is written, and then
    /// it is believed.
    pub(super) fn clock_is_set(&mut self, setting: Setting, at: Moment) {
        let Setting { target, by, how } = setting;
        self.out.set_clock(target);
        self.clock.set(target, at.uptime);
        let shift = at.steady.map_or(Shift::NONE, |steady| Shift::between(steady, target));
        let (change, believed) = match how {
            Correction::Alone(by) => {
                self.clock.is_corrected(at.uptime);
                let by_so_much = Seconds::new(by.unsigned_abs());
                (Change::ClockCorrected(by), Tally::Corrected { by: by_so_much, shift })
            }
            Correction::ByTwo => {
                let believed = if self.bolt.access().is_opened() {
                    Tally::Corrected { by: Seconds::ZERO, shift }
                } else {
                    self.clock.begin_settling(at.uptime);
                    Tally::ClockSet(shift)
                };
                (Change::ClockSet(at.utc), believed)
            }
        };
        let at = Moment { utc: Some(target), ..at };
        self.record(at, Event::Changed { by, change }, Continuation::Nothing);
        self.tally(believed, Continuation::Believed, at);
        // Whoever stands at the opened lock need not open it by its clock.
        if how == Correction::ByTwo && self.bolt.access().is_opened() && self.clock.settle() {
            self.tally(Tally::Settled, Continuation::Nothing, at);
        }
        if let Correction::ByTwo = how {
            self.bolt_event(bolt::Event::Cancel(CancelReason::Clock), at);
            self.pair.end();
        }
        self.anew.time();
        self.notify(Screen::Form(Form::Done { change, from: None }), at);
    }
}
