//! Everything that the audit of one lock tells, sorted by what it is about.

use lock_core::audit::{Entry, Event, Gap, Outcome, Record, Refusal, Ring, Seq};
use lock_core::holder::Number;
use lock_core::policy::Millivolts;
use lock_core::port::Fault;
use lock_core::rules::supply::Level;
use lock_core::time::{Seconds, Utc};

use super::opening::{Ended, Follower, Mark, Opening, Wait};

/// What one lock's records tell. Its size is bounded by that of the extracts.
#[derive(Default, PartialEq, Eq, Debug)]
pub struct Ledger {
    /// How many records were read.
    pub records: u32,
    /// The first and the last of them.
    pub span: Option<(Mark, Mark)>,
    /// The first and the last time on record.
    pub times: Option<(Utc, Utc)>,
    /// Openings, in the order in which they ended.
    pub openings: Vec<Opening>,
    /// Time delays and waits for a second person, in that order too.
    pub waits: Vec<Wait>,
    /// Wrong codes and refusals.
    pub refusals: Vec<Refused>,
    /// Penalties, with their lengths.
    pub penalties: Vec<(Mark, Seconds)>,
    /// What people asked for, and what changed.
    pub changes: Vec<(Mark, Event)>,
    /// The supply's levels.
    pub supply: Vec<(Mark, Level, Millivolts)>,
    /// Boots, and the clock becoming invalid.
    pub starts: Vec<(Mark, Start)>,
    /// Neighbours of which the later has the earlier time.
    pub set_back: Vec<(Mark, Mark)>,
    /// Failures of the device.
    pub faults: Vec<(Mark, Fault)>,
    /// What is missing.
    pub gaps: Vec<Gap>,
    /// Every record of a code that says duress.
    pub duress: Vec<(Mark, Event)>,
}

impl Ledger {
    /// The boots.
    pub fn boots(&self) -> impl Iterator<Item = Mark> {
        let boots = self.starts.iter().filter(|(_, start)| *start == Start::PoweredUp);
        boots.map(|(mark, _)| *mark)
    }
}

/// A code that opened nothing.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Refused {
    /// The record.
    pub mark: Mark,
    /// The number it was tried on.
    pub who: Number,
    /// Why a right code was refused; `None` for a wrong code.
    pub why: Option<Refusal>,
    /// With which code.
    pub outcome: Outcome,
}

/// What a lock says of its own running.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Start {
    /// It booted.
    PoweredUp,
    /// Its clock became invalid.
    ClockInvalid,
}

/// Reads entries into a ledger.
#[derive(Default)]
pub struct Clerk {
    ledger: Ledger,
    follower: Follower,
    ended: Ended,
    /// Whether a record of the ring of openings was read: from then on only
    /// lost ones are missing in it.
    in_openings: bool,
    /// The last record that had a time.
    timed: Option<Mark>,
}

impl Clerk {
    /// The next entry.
    pub fn take(&mut self, entry: &Entry) {
        match entry {
            Entry::Gap(gap) => self.miss(*gap),
            Entry::Record(seq, record) => self.record(*seq, record),
        }
    }

    /// There are no more.
    #[must_use]
    pub fn finish(mut self) -> Ledger {
        self.follower.finish(&mut self.ended);
        self.ledger.openings = self.ended.openings;
        self.ledger.waits = self.ended.waits;
        self.ledger
    }

    fn miss(&mut self, gap: Gap) {
        self.ledger.gaps.push(gap);
        // Both rings keep their newest records, so what was overwritten behind
        // the first opening that is left were refusals.
        if gap.lost > 0 || !self.in_openings {
            self.follower.miss(&mut self.ended);
        }
    }

    fn record(&mut self, seq: Seq, record: &Record) {
        let (mark, event) = (Mark { seq, at: record.at }, record.event);
        let ledger = &mut self.ledger;
        ledger.records = ledger.records.saturating_add(1);
        ledger.span = Some((ledger.span.map_or(mark, |(first, _)| first), mark));
        if let (Some(before), Some(at)) = (self.timed, mark.at)
            && before.at > Some(at)
        {
            ledger.set_back.push((before, mark));
        }
        if let Some(at) = mark.at {
            ledger.times = Some((ledger.times.map_or(at, |(first, _)| first), at));
        }
        self.timed = if mark.at.is_some() { Some(mark) } else { self.timed };
        self.in_openings |= event.ring() == Ring::Openings;
        self.follower.take(mark, &event, &mut self.ended);
        if event.outcome() == Some(Outcome::Duress) {
            ledger.duress.push((mark, event));
        }
        let plain = Outcome::Plain;
        match event {
            Event::WrongCode { who } => {
                ledger.refusals.push(Refused { mark, who, why: None, outcome: plain });
            }
            Event::Refused { who, why, outcome } => {
                ledger.refusals.push(Refused { mark, who, why: Some(why), outcome });
            }
            Event::Penalty { lasts } => ledger.penalties.push((mark, lasts)),
            Event::HeldShut { .. }
            | Event::Status { .. }
            | Event::Asked { .. }
            | Event::Changed { .. } => ledger.changes.push((mark, event)),
            Event::Supply { level, measured } => ledger.supply.push((mark, level, measured)),
            Event::PoweredUp { .. } => ledger.starts.push((mark, Start::PoweredUp)),
            Event::ClockInvalid => ledger.starts.push((mark, Start::ClockInvalid)),
            Event::Fault { fault } => ledger.faults.push((mark, fault)),
            Event::Released { .. }
            | Event::Opened
            | Event::Secured { .. }
            | Event::NotDrawn
            | Event::FoundThrown { .. }
            | Event::LeftOpen
            | Event::Forced
            | Event::DelayStarted { .. }
            | Event::Lapsed
            | Event::Cancelled { .. }
            | Event::FirstOfTwo { .. } => {}
        }
    }
}
