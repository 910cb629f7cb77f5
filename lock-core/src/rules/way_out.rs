//! Whether a lock has a future: could somebody open it, or enrol somebody who could?
//! (R11)
//!
//! What waits counts as in force: the settings are judged as they were last set.

use serde::{Deserialize, Serialize};

use crate::holder::{HolderRow, Number, Standing};
use crate::policy::{Control, Policy};
use crate::port::Reads;
use crate::role::Role;
use crate::rules::opening_time::{self, HORIZON_DATES, OpeningTime};
use crate::rules::{Days, Unreadable};
use crate::time::{Date, Seconds, Utc, Zone};
use crate::timetable::{Day, Follows, TIMETABLES, TimetableId};

/// Local dates within which somebody must be able to open. Ours: a year, and a month
/// more for a closed season.
pub const OPENABLE_DATES: u16 = 400;

/// What bears on every opening to come.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Prospect {
    /// How many people an opening takes.
    pub control: Control,
    /// The delay before it.
    pub delay: Seconds,
    /// The time, or what is nearest to it.
    pub now: Utc,
    /// Whether that is believed.
    pub clock: Trusted,
}

/// Whether the time of a [`Prospect`] is believed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Trusted {
    /// It is.
    Yes,
    /// Once a warden and a steward have set the clock.
    OnceSet,
}

/// What the people of a lock can come to.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Future {
    /// Somebody could open.
    Openable,
    /// Nobody could open yet; somebody may still enrol somebody who could.
    Enrollable,
    /// Neither.
    Stuck,
}

/// What comes of the settings that `reads` has. `is_at_limit` tells of a number
/// whether it has failed too often.
///
/// # Errors
/// [`Unreadable`] if a row or a day cannot be read.
pub fn future(
    policy: &Policy,
    (now, clock): (Utc, Trusted),
    zone: &Zone,
    (reads, is_at_limit): (&mut dyn Reads, &dyn Fn(Number) -> bool),
) -> Result<Future, Unreadable> {
    let Policy { control, delay, .. } = *policy;
    let prospect = Prospect { control, delay, now, clock };
    let people = Crew::of(reads, is_at_limit)?;
    let timed = prospect.clock == Trusted::Yes || people.may_set_the_clock();
    Ok(if people.could_open(&prospect, timed, zone, reads)? {
        Future::Openable
    } else if people.may_enrol(&prospect, timed, zone, reads)? {
        Future::Enrollable
    } else {
        Future::Stuck
    })
}

/// Whether somebody can act: not suspended, and below the limit of failures; a warden
/// has a way in at the limit too.
#[must_use]
pub fn is_able(row: &HolderRow, at_limit: bool) -> bool {
    row.standing == Standing::Active && (!at_limit || row.role == Role::Warden)
}

/// The able people of a lock, by what they may do; each count stops at two.
#[derive(Default)]
struct Crew {
    always: u8,
    following: [u8; TIMETABLES],
    wardens: u8,
    stewards: u8,
}

const fn more(count: u8) -> u8 {
    if count < 2 { count.saturating_add(1) } else { count }
}

impl Crew {
    fn of(reads: &mut dyn Reads, is_at_limit: &dyn Fn(Number) -> bool) -> Result<Self, Unreadable> {
        let mut crew = Self::default();
        for number in (1..=99).filter_map(Number::new) {
            if let Some(row) = reads.holder(number)?
                && is_able(&row, is_at_limit(number))
            {
                crew.count(&row);
            }
        }
        Ok(crew)
    }

    fn count(&mut self, row: &HolderRow) {
        match row.role {
            Role::Warden => self.wardens = more(self.wardens),
            Role::Steward => self.stewards = more(self.stewards),
            Role::Deputy | Role::Keyholder | Role::Courier => {}
        }
        if !row.may_open() {
            return;
        }
        match row.follows {
            Follows::Always => self.always = more(self.always),
            Follows::Timetable(id) => {
                if let Some(count) = self.following.get_mut(id.index()) {
                    *count = more(*count);
                }
            }
        }
    }

    const fn may_set_the_clock(&self) -> bool {
        self.wardens > 0 && self.stewards > 0
    }

    fn follow(&self, id: TimetableId) -> u8 {
        self.following.get(id.index()).copied().unwrap_or(0)
    }

    /// Whether enough people are permitted at one instant for longer than the delay.
    fn could_open(
        &self,
        prospect: &Prospect,
        timed: bool,
        zone: &Zone,
        reads: &mut dyn Reads,
    ) -> Result<bool, Unreadable> {
        let needed = match prospect.control {
            Control::Single => 1,
            Control::Dual => 2,
        };
        if self.always >= needed {
            return Ok(true);
        }
        if !timed {
            return Ok(false);
        }
        let last = opening_time::horizon(zone, prospect.now, OPENABLE_DATES);
        for id in TimetableId::ALL {
            if self.follow(id) == 0 {
                continue;
            }
            let mut at = Some(prospect.now);
            while let Some(instant) = at {
                if self.permitted(instant, prospect.delay, zone, reads)? >= needed {
                    return Ok(true);
                }
                at = opening_time::start_until(&mut Ahead(reads), zone, id, (instant, last))?;
            }
        }
        Ok(false)
    }

    /// How many people are permitted at that instant for longer than the delay.
    fn permitted(
        &self,
        instant: Utc,
        delay: Seconds,
        zone: &Zone,
        reads: &mut dyn Reads,
    ) -> Result<u8, Unreadable> {
        let mut people = self.always;
        for id in TimetableId::ALL {
            if self.follow(id) > 0 && outlasts(delay, instant, id, zone, reads)? {
                people = people.saturating_add(self.follow(id));
            }
        }
        Ok(people)
    }

    /// Whether a warden could enrol somebody whom a window will let in.
    fn may_enrol(
        &self,
        prospect: &Prospect,
        timed: bool,
        zone: &Zone,
        reads: &mut dyn Reads,
    ) -> Result<bool, Unreadable> {
        let people = match prospect.control {
            Control::Single => true,
            Control::Dual => self.wardens.saturating_add(self.stewards) > 1,
        };
        if !timed || self.wardens == 0 || !people {
            return Ok(false);
        }
        let last = opening_time::horizon(zone, prospect.now, HORIZON_DATES);
        for id in TimetableId::ALL {
            let mut after = Some(prospect.now);
            while let Some(instant) = after {
                let span = (instant, last);
                after = opening_time::start_until(&mut Ahead(reads), zone, id, span)?;
                if let Some(start) = after
                    && outlasts(prospect.delay, start, id, zone, reads)?
                {
                    return Ok(true);
                }
            }
        }
        Ok(false)
    }
}

/// Whether `id` is open at `instant` and stays so for longer than the delay.
fn outlasts(
    delay: Seconds,
    instant: Utc,
    id: TimetableId,
    zone: &Zone,
    reads: &mut dyn Reads,
) -> Result<bool, Unreadable> {
    Ok(match opening_time::at(&mut Ahead(reads), zone, id, instant)? {
        OpeningTime::Within { until } => until.is_none_or(|until| until.since(instant) > delay),
        OpeningTime::Outside { .. } => false,
    })
}

/// The days as they will be once a file that waits is in force.
struct Ahead<'a>(&'a mut dyn Reads);

impl Days for Ahead<'_> {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.0.day_to_come(id, date)
    }
}

#[cfg(test)]
mod tests;
