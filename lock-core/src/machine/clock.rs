//! The clock, set at the keypad (R3).
//!
//! A steward alone corrects a little; more takes a warden besides, and leaves
//! the holders of timetables closed until the clock has settled, so that nobody
//! opens a closed safe by setting its clock.

use super::bolt::{self, Moment};
use super::step::{Look, Machine};
use super::writes::Continuation;
use crate::audit::{CancelReason, Change, Event, People};
use crate::port::Tally;
use crate::rules::clock::{self, Clock};
use crate::screen::{Form, Screen, Trouble, Whom};
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

impl Machine {
    /// What setting the clock to `target` takes at this moment.
    pub(super) fn correction(&self, target: Utc, at: Moment) -> Result<Correction, Trouble> {
        if !clock::is_within_life(target, self.built) {
            return Err(Trouble::NotInItsLife);
        }
        let Some(now) = at.utc else { return Ok(Correction::ByTwo) };
        let by = i64::from(target.as_secs()).saturating_sub(i64::from(now.as_secs()));
        let left = ALONE.saturating_sub(self.counts.corrected());
        let alone = by.unsigned_abs() <= u64::from(left.get());
        Ok(match i32::try_from(by) {
            Ok(by) if alone => Correction::Alone(by),
            Ok(_) | Err(_) => Correction::ByTwo,
        })
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
        self.clock_to = Some(target);
        self.clock = Clock::Valid { uptime: at.uptime, utc: target };
        let shift = at.steady.map_or(Shift::NONE, |steady| Shift::between(steady, target));
        let (change, believed) = match how {
            Correction::Alone(by) => {
                self.corrections_over = Some(at.uptime.after(PERIOD));
                let by_so_much = Seconds::new(by.unsigned_abs());
                (Change::ClockCorrected(by), Tally::Corrected { by: by_so_much, shift })
            }
            Correction::ByTwo => {
                let believed = if self.access.is_opened() {
                    Tally::Corrected { by: Seconds::ZERO, shift }
                } else {
                    self.settles = Some(at.uptime.after(SETTLING));
                    Tally::ClockSet(shift)
                };
                (Change::ClockSet(at.utc), believed)
            }
        };
        let at = Moment { utc: Some(target), ..at };
        self.record(at, Event::Changed { by, change }, Continuation::Nothing);
        self.tally(believed, Continuation::Believed, at);
        // Whoever stands at the opened lock need not open it by its clock.
        if how == Correction::ByTwo && self.access.is_opened() && self.settles.take().is_some() {
            self.tally(Tally::Settled, Continuation::Nothing, at);
        }
        if let Correction::ByTwo = how {
            self.access_event(bolt::Event::Cancel(CancelReason::Clock), at);
            self.pair = super::pair::Pair::Nobody;
        }
        self.anew.people = Look::Due;
        self.notify(Screen::Form(Form::Done { change, from: None }), at);
    }

    /// Ends a settling time and a period of corrections that are over.
    pub(super) fn look_at_corrections(&mut self, at: Moment) {
        if self.settles.take_if(|until| at.uptime >= *until).is_some() {
            self.tally(Tally::Settled, Continuation::Nothing, at);
            self.anew.people = Look::Due;
        }
        if self.corrections_over.take_if(|until| at.uptime >= *until).is_some()
            && self.counts.corrected() > Seconds::ZERO
        {
            self.tally(Tally::CorrectionsOver, Continuation::Nothing, at);
        }
    }

    /// The end of the settling time, on the clock that is believed.
    pub(super) fn settled_at(&self, at: Moment) -> Option<Utc> {
        let left = self.settles?.since(at.uptime);
        // Whole seconds, rounded up: nobody is called back too early.
        Some(at.utc?.after(left.saturating_add(Seconds::new(1))))
    }

    /// When one of its times comes.
    pub(super) fn correction_wakes(&self) -> [Option<Uptime>; 2] {
        [self.settles, self.corrections_over]
    }
}
