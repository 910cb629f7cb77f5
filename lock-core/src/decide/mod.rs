//! The one decision: what a right code of somebody meets now, and why (R1 to R11).
//!
//! The keypad carries the answer out; a second person and a claim are decided by it
//! again; the trainer's page shows each clause; the planner asks the part about time. So
//! what a plan promises and what a page explains is what the door does. Source of the
//! order: `docs/behaviour.md`, sections 3, 5 and 6.
//!
//! `facts` is what it is made from, `clause` one question of it, `trail` the way of the
//! clauses to whoever wants to know.

mod clause;
mod facts;
#[cfg(test)]
mod tests;
mod trail;

use crate::audit::{People, Refusal};
use crate::holder::{HolderRow, Number, Standing};
use crate::policy::{Control, Deputies};
use crate::port::{Fault, Reads};
use crate::role::Right;
use crate::rules::ends::Ends;
use crate::rules::limit::Stood;
use crate::rules::{Days, Unreadable, delay};
use crate::time::{Seconds, Zone};
use crate::timetable::Follows;

pub use clause::{Clause, Hours, Refused};
pub use facts::{Conditions, Facts, First, Stage, Who};
pub use trail::Sink;
use trail::{Stop, Trail};

/// What a right code gets.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Decision {
    /// The lock takes no codes.
    Service(Fault),
    /// It is refused.
    Refuse(Refused),
    /// It counts as the first of two.
    First,
    /// It begins the delay of these people, until their permit ends.
    Wait(People, Ends),
    /// It releases the bolt for these people, until their permit ends.
    Release(People, Ends),
}

impl Decision {
    /// The kind of the record that it leaves; `None` where none is written.
    #[must_use]
    pub const fn record(self) -> Option<&'static str> {
        match self {
            Self::Service(_) => None,
            Self::Refuse(refused) => Some(refused.why.kind()),
            Self::First => Some("first-of-two"),
            Self::Wait(..) => Some("delay-started"),
            Self::Release(..) => Some("released"),
        }
    }
}

/// Decides about a right code of somebody who wants to open.
///
/// # Errors
/// [`Unreadable`] if the settings cannot be read.
pub fn decide<S: Sink>(
    facts: &Facts<'_>,
    who: Who<'_>,
    reads: &mut impl Reads,
    sink: &mut S,
) -> Result<Decision, Unreadable> {
    let mut trail = Trail::to(sink);
    let decided = attempt(facts, who, reads, &mut trail);
    Ok(match (facts.service, trail.settle(decided)?) {
        (Some(fault), _) => Decision::Service(fault),
        (None, Ok(decision)) => decision,
        (None, Err(refused)) => Decision::Refuse(refused.known_by(facts.conditions.utc)),
    })
}

/// Whether somebody may open, from right to window: until when, or why not. It is what
/// somebody is decided by who is not at the keypad now.
///
/// # Errors
/// As [`decide`].
pub fn permit(
    facts: &Facts<'_>,
    who: Who<'_>,
    days: &mut impl Days,
) -> Result<Result<Ends, Refused>, Unreadable> {
    let mut nobody = ();
    let mut trail = Trail::to(&mut nobody);
    let ends =
        person(facts, who, &mut trail).and_then(|()| permitted(facts, who, days, &mut trail));
    trail.settle(ends)
}

/// The part about time, whoever it is: until when somebody who follows that may open,
/// or why not.
///
/// # Errors
/// [`Unreadable`] if the timetable cannot be read.
pub fn by_time(
    follows: Follows,
    conditions: &Conditions,
    zone: &Zone,
    days: &mut impl Days,
) -> Result<Result<Ends, Refused>, Unreadable> {
    let mut nobody = ();
    let mut trail = Trail::to(&mut nobody);
    let ends = time(follows, conditions, zone, days, &mut trail);
    trail.settle(ends)
}

/// Whether somebody may act at all, whatever it is about.
///
/// # Errors
/// [`Refusal::Barred`] or [`Refusal::Suspended`].
pub fn able(row: &HolderRow, stood: Stood) -> Result<(), Refusal> {
    // Barred comes first: any other refusal clears the count.
    if stood.bars(row.role) {
        Err(Refusal::Barred)
    } else if row.standing == Standing::Suspended {
        Err(Refusal::Suspended)
    } else {
        Ok(())
    }
}

/// Whether somebody may do that, whatever the time is.
///
/// # Errors
/// As [`able`], or [`Refusal::Right`].
pub fn entitled(
    row: &HolderRow,
    stood: Stood,
    right: Right,
    deputies: Deputies,
) -> Result<(), Refusal> {
    able(row, stood)?;
    if row.may(right, deputies) { Ok(()) } else { Err(Refusal::Right) }
}

#[inline(never)] // own frame
fn attempt<S: Sink>(
    facts: &Facts<'_>,
    who: Who<'_>,
    reads: &mut impl Reads,
    trail: &mut Trail<'_, S>,
) -> Result<Decision, Stop> {
    trail.ask(Clause::Service(facts.service))?;
    trail.ask(Clause::Penalty(facts.penalty))?;
    person(facts, who, trail)?;
    trail.ask(Clause::Free(facts.stage == Stage::Free))?;
    let ends = permitted(facts, who, reads, trail)?;
    let (control, goes_on) = match facts.stage {
        Stage::Secured | Stage::Free => (facts.control, Ok(())),
        Stage::Waiting(..) => (facts.control, Err(Refusal::Waiting)),
        // As many as began the delay, whatever the policy says by now.
        Stage::Claimable(people, _) if people.include(who.number) => (people.control(), Ok(())),
        Stage::Claimable(people, _) => (people.control(), Err(Refusal::OtherPerson)),
    };
    trail.ask(Clause::Stage(facts.stage, goes_on))?;
    let complete = complete(facts, (who.number, ends), control, reads, trail)?;
    if let Stage::Claimable(..) = facts.stage {
        return Ok(
            complete.map_or(Decision::First, |(people, ends)| Decision::Release(people, ends))
        );
    }
    let Some((people, ends)) = complete else {
        // Told, not asked: that is done of the two together.
        let fits = fits(facts, ends);
        trail.sink.take(Clause::Delay(facts.delay, fits));
        return Ok(Decision::First);
    };
    trail.ask(Clause::Delay(facts.delay, fits(facts, ends)))?;
    Ok(if facts.delay == Seconds::ZERO {
        Decision::Release(people, ends)
    } else {
        Decision::Wait(people, ends)
    })
}

fn fits(facts: &Facts<'_>, ends: Ends) -> Result<(), Refusal> {
    let fits = facts.delay == Seconds::ZERO || delay::fits(facts.delay, facts.conditions.utc, ends);
    if fits { Ok(()) } else { Err(Refusal::Late) }
}

fn person<S: Sink>(facts: &Facts<'_>, who: Who<'_>, trail: &mut Trail<'_, S>) -> Result<(), Stop> {
    trail.ask(Clause::Person(entitled(who.row, who.stood, Right::Open, facts.deputies)))
}

fn permitted<S: Sink>(
    facts: &Facts<'_>,
    who: Who<'_>,
    days: &mut impl Days,
    trail: &mut Trail<'_, S>,
) -> Result<Ends, Stop> {
    trail.ask(Clause::Change(facts.change(who.row)))?;
    time(who.row.follows, &facts.conditions, facts.zone, days, trail)
}

fn time<S: Sink>(
    follows: Follows,
    conditions: &Conditions,
    zone: &Zone,
    days: &mut impl Days,
    trail: &mut Trail<'_, S>,
) -> Result<Ends, Stop> {
    let Conditions { inhibit, held_until, supply, utc, settles } = *conditions;
    trail.ask(Clause::Inhibit(inhibit))?;
    trail.ask(Clause::HeldShut(held_until))?;
    trail.ask(Clause::Supply(supply))?;
    trail.ask(Clause::Clock { utc, settles, needed: follows != Follows::Always })?;
    let hours = Hours::at(follows, utc, zone, days)?;
    trail.ask(Clause::Hours(hours))?;
    // Refused where there is none.
    Ok(hours.ends().unwrap_or(Ends::Never))
}

/// Whether the people are complete with this one, who is permitted; `None`: they are
/// the first of two.
fn complete<S: Sink>(
    facts: &Facts<'_>,
    (number, ends): (Number, Ends),
    control: Control,
    reads: &mut impl Reads,
    trail: &mut Trail<'_, S>,
) -> Result<Option<(People, Ends)>, Stop> {
    let first = match control {
        Control::Single => None,
        Control::Dual => facts.first,
    };
    let (together, stands) = match first {
        None => (ends, Ok(())),
        Some(first) if first.number == number => (ends, Err(Refusal::SamePerson)),
        // Permitted a while ago; much can have changed since.
        Some(first) => match anew(facts, first, reads)? {
            Some(of_first) => (ends.earlier(of_first), Ok(())),
            None => (ends, Err(Refusal::FirstRefused)),
        },
    };
    let shown = first.map(|first| (first.number, first.until));
    trail.ask(Clause::People { control, first: shown, stands })?;
    Ok(match (control, first) {
        (Control::Single, _) => Some((People { first: number, second: None }, together)),
        (Control::Dual, None) => None,
        (Control::Dual, Some(first)) => {
            Some((People { first: first.number, second: Some(number) }, together))
        }
    })
}

/// Until when the first of two is permitted, if they are.
fn anew(
    facts: &Facts<'_>,
    first: First,
    reads: &mut impl Reads,
) -> Result<Option<Ends>, Unreadable> {
    let Some(row) = reads.holder(first.number)? else { return Ok(None) };
    let who = Who { number: first.number, row: &row, stood: first.stood };
    Ok(permit(facts, who, reads)?.ok())
}
