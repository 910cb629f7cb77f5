//! The one decision: what a right code of somebody meets now, and why (R1 to R11).
//!
//! The keypad carries the answer out; a second person and a claim are decided by it
//! again; the trainer's page shows each clause; the planner asks the part about time. So
//! what a plan promises and what a page explains is what the door does. Source of the
//! order: `docs/behaviour.md`, sections 3, 5 and 6.

use crate::audit::{People, Refusal};
use crate::holder::{HolderRow, Number, Standing};
use crate::policy::{Control, Deputies};
use crate::port::{Fault, Inhibit, Reads};
use crate::role::Right;
use crate::rules::ends::Ends;
use crate::rules::limit::Stood;
use crate::rules::opening_time::{self, OpeningTime};
use crate::rules::supply::Level;
use crate::rules::{Days, Unreadable, delay, pending};
use crate::time::{Seconds, Shift, Steady, Uptime, Utc, Zone};
use crate::timetable::Follows;

/// What the lock knows when it decides: as it is before the try is counted.
#[derive(Clone, Copy, Debug)]
pub struct Facts<'f> {
    /// Why the lock takes no codes at all; `None` if it does.
    pub service: Option<Fault>,
    /// Until when a penalty runs.
    pub penalty: Option<Uptime>,
    /// What bears on everybody.
    pub conditions: Conditions,
    /// The sum of all settings of the clock.
    pub shift: Shift,
    /// Steady time; `None` where no time was ever known.
    pub steady: Option<Steady>,
    /// When the lock was last opened while something may have waited.
    pub brought: Option<Steady>,
    /// The time delay in force; zero for none.
    pub delay: Seconds,
    /// How many people an opening takes by the policy in force.
    pub control: Control,
    /// What deputies may do.
    pub deputies: Deputies,
    /// How far an opening is.
    pub stage: Stage,
    /// The first of two, who waits for the second.
    pub first: Option<First>,
    /// The zone in force.
    pub zone: &'f Zone,
}

/// What bears on every opening, whoever asks.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Conditions {
    /// The inhibit input.
    pub inhibit: Inhibit,
    /// The end of a hold-shut that is in force.
    pub held_until: Option<Utc>,
    /// The supply.
    pub supply: Level,
    /// The time; `None` while the clock is invalid.
    pub utc: Option<Utc>,
    /// Until when a clock that two people set settles; `None` if it does not.
    pub settles: Option<Utc>,
}

impl Conditions {
    /// Nothing stands against an opening at `utc`: what a plan assumes.
    #[must_use]
    pub const fn unhindered(utc: Utc) -> Self {
        Self {
            inhibit: Inhibit::Clear,
            held_until: None,
            supply: Level::Good,
            utc: Some(utc),
            settles: None,
        }
    }
}

/// How far an opening is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Stage {
    /// Nobody has asked for one.
    Secured,
    /// The delay of these people runs until then.
    Waiting(People, Uptime),
    /// It is over, and these people may claim it until then.
    Claimable(People, Uptime),
    /// The bolt is free or drawn.
    Free,
}

/// The first of two people.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct First {
    /// Who.
    pub number: Number,
    /// Until when they wait for the second; exclusive.
    pub until: Uptime,
    /// How their number stands by now.
    pub stood: Stood,
}

/// Whose right code it is.
// No `Debug`: a row holds what codes are judged by.
#[derive(Clone, Copy)]
pub struct Who<'r> {
    /// Their number.
    pub number: Number,
    /// Their row.
    pub row: &'r HolderRow,
    /// How the number stood before this try.
    pub stood: Stood,
}

/// A refusal, until then where that is known.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Refused {
    /// Why.
    pub why: Refusal,
    /// When that ends by itself.
    pub until: Option<Utc>,
}

impl Refused {
    /// Nobody can say until when.
    #[must_use]
    pub const fn because(why: Refusal) -> Self {
        Self { why, until: None }
    }
}

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

/// Where an instant stands in what somebody follows.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Hours {
    /// No timetable: at all times.
    Always,
    /// A timetable.
    Timetable(OpeningTime),
    /// A timetable, and the clock is invalid.
    Unknown,
}

impl Hours {
    /// Where `utc` stands in `follows`.
    ///
    /// # Errors
    /// [`Unreadable`] if the timetable cannot be read.
    pub fn at(
        follows: Follows,
        utc: Option<Utc>,
        zone: &Zone,
        days: &mut impl Days,
    ) -> Result<Self, Unreadable> {
        Ok(match (follows, utc) {
            (Follows::Always, _) => Self::Always,
            (Follows::Timetable(_), None) => Self::Unknown,
            (Follows::Timetable(id), Some(utc)) => {
                Self::Timetable(opening_time::at(days, zone, id, utc)?)
            }
        })
    }

    /// When a permit that is given now ends; `None` where none is given.
    #[must_use]
    pub const fn ends(self) -> Option<Ends> {
        match self {
            Self::Always => Some(Ends::Never),
            Self::Timetable(OpeningTime::Within { until: Some(end) }) => Some(Ends::At(end)),
            Self::Timetable(OpeningTime::Within { until: None }) => Some(Ends::Beyond),
            Self::Timetable(OpeningTime::Outside { .. }) | Self::Unknown => None,
        }
    }
}

/// One question of the decision, with its answer.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Clause {
    /// Whether the lock takes codes.
    Service(Option<Fault>),
    /// Whether a penalty runs.
    Penalty(Option<Uptime>),
    /// Whether this person may open at all: [`Refusal::Barred`],
    /// [`Refusal::Suspended`] or [`Refusal::Right`] if not.
    Person(Result<(), Refusal>),
    /// Whether the bolt is free or drawn already.
    Free(bool),
    /// Until when a change waits that gives this person more time.
    Change(Option<Utc>),
    /// The inhibit input.
    Inhibit(Inhibit),
    /// Until when the lock is held shut.
    HeldShut(Option<Utc>),
    /// The supply.
    Supply(Level),
    /// The clock.
    Clock {
        /// What it says; `None` while it is invalid.
        utc: Option<Utc>,
        /// Until when it settles.
        settles: Option<Utc>,
        /// Whether this person's hours depend on it.
        needed: bool,
    },
    /// The opening time.
    Hours(Hours),
    /// How far an opening is, and whether this person may go on with it.
    Stage(Stage, Result<(), Refusal>),
    /// How many people it takes, the first of two, and whether the two are complete.
    People {
        /// One or two.
        control: Control,
        /// Who waits for a second, and until when.
        first: Option<(Number, Uptime)>,
        /// Why these two are none.
        stands: Result<(), Refusal>,
    },
    /// The delay before an opening, and whether one that is begun now could be claimed.
    Delay(Seconds, Result<(), Refusal>),
}

impl Clause {
    /// What it refuses.
    // Inlined where it is asked: for the lock itself each question is one comparison.
    #[inline(always)]
    fn refused(self) -> Option<Refused> {
        let because = |why| Some(Refused::because(why));
        match self {
            Self::Penalty(Some(_)) => because(Refusal::Penalty),
            Self::Free(true) => because(Refusal::AlreadyOpen),
            Self::Change(Some(from)) => Some(Refused { why: Refusal::Closed, until: Some(from) }),
            Self::Inhibit(Inhibit::Set) => because(Refusal::Inhibit),
            Self::HeldShut(until @ Some(_)) => Some(Refused { why: Refusal::HeldShut, until }),
            Self::Supply(Level::Spent) => because(Refusal::Supply),
            Self::Clock { needed: true, utc: None, .. } => because(Refusal::Clock),
            Self::Clock { needed: true, settles: until @ Some(_), .. } => {
                Some(Refused { why: Refusal::Settling, until })
            }
            Self::Hours(Hours::Timetable(OpeningTime::Outside { opens: until })) => {
                Some(Refused { why: Refusal::Closed, until })
            }
            Self::Person(Err(why))
            | Self::Stage(_, Err(why))
            | Self::People { stands: Err(why), .. }
            | Self::Delay(_, Err(why)) => because(why),
            Self::Service(_)
            | Self::Penalty(None)
            | Self::Person(Ok(()))
            | Self::Free(false)
            | Self::Change(None)
            | Self::Inhibit(Inhibit::Clear)
            | Self::HeldShut(None)
            | Self::Supply(Level::Good | Level::Low)
            | Self::Clock { .. }
            | Self::Hours(_)
            | Self::Stage(_, Ok(()))
            | Self::People { stands: Ok(()), .. }
            | Self::Delay(_, Ok(())) => None,
        }
    }
}

/// Who wants to know why.
pub trait Sink {
    /// Whether the rest is asked for after a refusal too.
    const WHOLE: bool;

    /// Takes the next clause.
    fn take(&mut self, clause: Clause);
}

/// Nobody does: the lock itself, which stops at the first refusal.
impl Sink for () {
    const WHOLE: bool = false;

    fn take(&mut self, _: Clause) {}
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

impl Facts<'_> {
    /// Until when a change of that row waits.
    fn change(&self, row: &HolderRow) -> Option<Utc> {
        let waits = row.pending?;
        let holds = pending::holds(waits.made, waits.from, self.steady, self.brought);
        (!holds).then(|| self.shift.utc(waits.from))
    }
}

impl Refused {
    /// Without a clock nobody can say until when.
    fn known_by(self, utc: Option<Utc>) -> Self {
        Self { until: self.until.filter(|_| utc.is_some()), ..self }
    }
}

/// Why a decision stops.
enum Stop {
    Unreadable,
    Refused(Refused),
}

impl From<Unreadable> for Stop {
    fn from(_: Unreadable) -> Self {
        Self::Unreadable
    }
}

/// The clauses so far, and the first refusal among them.
struct Trail<'s, S> {
    sink: &'s mut S,
    refused: Option<Refused>,
}

impl<'s, S: Sink> Trail<'s, S> {
    const fn to(sink: &'s mut S) -> Self {
        Self { sink, refused: None }
    }

    #[inline(always)]
    fn ask(&mut self, clause: Clause) -> Result<(), Stop> {
        self.sink.take(clause);
        if let Some(refused) = clause.refused() {
            let first = *self.refused.get_or_insert(refused);
            if !S::WHOLE {
                return Err(Stop::Refused(first));
            }
        }
        Ok(())
    }

    /// What came of it: the first refusal outdoes whatever was found behind it.
    fn settle<T>(self, found: Result<T, Stop>) -> Result<Result<T, Refused>, Unreadable> {
        match (self.refused, found) {
            (_, Err(Stop::Unreadable)) => Err(Unreadable),
            (Some(refused), _) | (None, Err(Stop::Refused(refused))) => Ok(Err(refused)),
            (None, Ok(found)) => Ok(Ok(found)),
        }
    }
}

// Not inlined: its stack is not there for what comes before or after it.
#[inline(never)]
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
        // Whether the delay fits is asked of the two together.
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
