//! Openings: the records of one, from the release to the closing, put together.
//!
//! A lock writes an opening in up to five records with others in between. This
//! follows them as the contract (docs/behaviour.md, sections 6 and 9) lets them
//! come, also over a power cut and over records that are missing.

use lock_core::audit::{CancelReason, Event, Outcome, People, Seq};
use lock_core::holder::Number;
use lock_core::time::{Seconds, Utc};

/// A record: its number and its time.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Mark {
    /// Its number.
    pub seq: Seq,
    /// Its time, where the clock was valid.
    pub at: Option<Utc>,
}

/// One opening.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Opening {
    /// How it began.
    pub began: Began,
    /// For whom.
    pub people: Option<People>,
    /// With which codes.
    pub outcome: Outcome,
    /// The start of the time delay that was waited out before it.
    pub waited: Option<Mark>,
    /// The bolt was drawn, or the door opened.
    pub opened: Option<Mark>,
    /// Still open when the window ended.
    pub left_open: Option<Mark>,
    /// The lock booted while it was under way.
    pub booted: Option<Mark>,
    /// Records are missing within it.
    pub doubtful: bool,
    /// How it ended.
    pub end: End,
}

/// How an opening began.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Began {
    /// With a release.
    Released(Mark),
    /// Without one (R9).
    Forced(Mark),
    /// Before the first record, or where records are missing.
    Unseen,
}

/// How an opening ended.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum End {
    /// Bolt thrown and door closed, so long after the opening; `None` where
    /// that is not known.
    Secured(Mark, Option<Seconds>),
    /// Nobody drew the bolt.
    NotDrawn(Mark),
    /// Where records are missing, or with the power while released.
    Unseen,
    /// Not by the last record.
    Ongoing,
}

impl Opening {
    fn begin(began: Began) -> Self {
        Self {
            began,
            people: None,
            outcome: Outcome::Plain,
            waited: None,
            opened: None,
            left_open: None,
            booted: None,
            doubtful: false,
            end: End::Ongoing,
        }
    }

    /// Its first record.
    #[must_use]
    pub const fn first(&self) -> Option<Mark> {
        match (self.began, self.opened, self.end) {
            (Began::Released(mark) | Began::Forced(mark), _, _) => Some(mark),
            (Began::Unseen, Some(mark), _) => Some(mark),
            (Began::Unseen, None, End::Secured(mark, _) | End::NotDrawn(mark)) => Some(mark),
            (Began::Unseen, None, End::Unseen | End::Ongoing) => self.booted,
        }
    }

    /// From when on it was open, as far as that is known.
    #[must_use]
    pub const fn open_from(&self) -> Option<Utc> {
        match (self.opened, self.began) {
            (Some(mark), _) | (None, Began::Forced(mark)) => mark.at,
            (None, Began::Released(_) | Began::Unseen) => None,
        }
    }

    /// How long it was open, where it was and that is known.
    #[must_use]
    pub const fn open_for(&self) -> Option<Seconds> {
        match self.end {
            End::Secured(_, open_for) => open_for,
            End::NotDrawn(_) | End::Unseen | End::Ongoing => None,
        }
    }
}

/// A time delay, or the wait for a second person.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Wait {
    /// For what.
    pub on: WaitsFor,
    /// The record that began it.
    pub began: Mark,
    /// For whom.
    pub people: People,
    /// With which codes.
    pub outcome: Outcome,
    /// How it ended.
    pub end: WaitEnd,
}

/// What is waited for.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum WaitsFor {
    /// The end of the time delay, and the claim.
    Delay,
    /// The second of two people.
    Second,
}

/// How a wait ended.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum WaitEnd {
    /// With what was waited for: a release, or a time delay for two.
    Went(Seq),
    /// Nobody came in time.
    Lapsed(Mark),
    /// It was ended before its time.
    Cancelled(Mark, CancelReason),
    /// The power failed.
    Booted(Mark),
    /// Without a record of its own, or where records are missing.
    Unseen,
    /// Not by the last record.
    Ongoing,
}

/// Follows the records of one lock.
#[derive(Default)]
pub struct Follower {
    opening: Option<Opening>,
    delay: Option<Wait>,
    second: Option<Wait>,
    /// What ran out last while a delay ran: the delay itself, or a second
    /// person within it.
    lapse: Option<Mark>,
}

/// What a record brought to its end.
#[derive(Default, PartialEq, Eq, Debug)]
pub struct Ended {
    /// The openings.
    pub openings: Vec<Opening>,
    /// The waits.
    pub waits: Vec<Wait>,
}

impl Follower {
    /// The next record.
    pub fn take(&mut self, mark: Mark, event: &Event, ended: &mut Ended) {
        match event {
            Event::Released { people, outcome } => {
                self.end_opening(End::Unseen, ended);
                self.end_second(WaitEnd::Went(mark.seq), ended);
                let waited = self.delay.map(|delay| delay.began);
                self.end_delay(WaitEnd::Went(mark.seq), ended);
                let mut opening = Opening::begin(Began::Released(mark));
                (opening.people, opening.outcome) = (Some(*people), *outcome);
                opening.waited = waited;
                self.opening = Some(opening);
            }
            Event::Opened => {
                if self.opening.is_some_and(|opening| opening.opened.is_some()) {
                    self.end_opening(End::Unseen, ended);
                }
                self.under_way().opened = Some(mark);
            }
            Event::Forced => {
                self.end_opening(End::Unseen, ended);
                self.end_second(WaitEnd::Unseen, ended);
                self.opening = Some(Opening::begin(Began::Forced(mark)));
            }
            Event::LeftOpen => self.under_way().left_open = Some(mark),
            Event::Secured { open_for } => {
                let opening = self.under_way();
                let known = open_for_of(opening, mark, *open_for);
                self.end_opening(End::Secured(mark, known), ended);
            }
            Event::FoundThrown { open_for } => {
                self.under_way();
                self.end_opening(End::Secured(mark, *open_for), ended);
            }
            Event::NotDrawn => {
                self.under_way();
                self.end_opening(End::NotDrawn(mark), ended);
            }
            Event::PoweredUp { .. } => self.boot(mark, ended),
            Event::DelayStarted { people, outcome } => {
                self.end_second(WaitEnd::Went(mark.seq), ended);
                let lapsed = self.lapse.map_or(WaitEnd::Unseen, WaitEnd::Lapsed);
                self.end_delay(lapsed, ended);
                self.delay = Some(wait(WaitsFor::Delay, mark, *people, *outcome));
            }
            Event::FirstOfTwo { who, outcome } => {
                self.end_second(WaitEnd::Unseen, ended);
                let people = alone(*who);
                self.second = Some(wait(WaitsFor::Second, mark, people, *outcome));
            }
            // The record does not say what ran out: while somebody waits for a
            // second person it is that, or the claim with it.
            Event::Lapsed if self.second.is_some() => {
                self.lapse = self.delay.map(|_| mark);
                self.end_second(WaitEnd::Lapsed(mark), ended);
            }
            Event::Lapsed => self.end_delay(WaitEnd::Lapsed(mark), ended),
            Event::Cancelled { why } => {
                self.end_second(WaitEnd::Unseen, ended);
                self.end_delay(WaitEnd::Cancelled(mark, *why), ended);
            }
            Event::WrongCode { .. }
            | Event::Refused { .. }
            | Event::Penalty { .. }
            | Event::HeldShut { .. }
            | Event::Status { .. }
            | Event::Supply { .. }
            | Event::ClockInvalid
            | Event::Asked { .. }
            | Event::Changed { .. }
            | Event::Fault { .. } => {}
        }
    }

    /// Records are missing here, and one of them may have been of an opening.
    pub fn miss(&mut self, ended: &mut Ended) {
        self.end_second(WaitEnd::Unseen, ended);
        self.end_delay(WaitEnd::Unseen, ended);
        if let Some(opening) = &mut self.opening {
            opening.doubtful = true;
        }
    }

    /// There are no more records.
    pub fn finish(mut self, ended: &mut Ended) {
        self.end_second(WaitEnd::Ongoing, ended);
        let end = self.lapse.map_or(WaitEnd::Ongoing, WaitEnd::Lapsed);
        self.end_delay(end, ended);
        let released_only = self.opening.is_some_and(|o| o.opened.is_none() && o.booted.is_some());
        let end = if released_only { End::Unseen } else { End::Ongoing };
        self.end_opening(end, ended);
    }

    /// A boot ends waits. A release never survives one, but what was opened may
    /// still be open then, and is not recorded anew.
    fn boot(&mut self, mark: Mark, ended: &mut Ended) {
        self.end_second(WaitEnd::Booted(mark), ended);
        self.end_delay(WaitEnd::Booted(mark), ended);
        if let Some(opening) = &mut self.opening {
            opening.booted = Some(mark);
        }
    }

    /// The opening under way; one whose beginning is not on record otherwise.
    fn under_way(&mut self) -> &mut Opening {
        self.opening.get_or_insert_with(|| Opening::begin(Began::Unseen))
    }

    fn end_opening(&mut self, end: End, ended: &mut Ended) {
        ended.openings.extend(self.opening.take().map(|opening| Opening { end, ..opening }));
    }

    fn end_delay(&mut self, end: WaitEnd, ended: &mut Ended) {
        if let Some(delay) = self.delay.take() {
            ended.waits.push(Wait { end, ..delay });
            self.lapse = None;
        }
    }

    fn end_second(&mut self, end: WaitEnd, ended: &mut Ended) {
        ended.waits.extend(self.second.take().map(|second| Wait { end, ..second }));
    }
}

fn wait(on: WaitsFor, began: Mark, people: People, outcome: Outcome) -> Wait {
    Wait { on, began, people, outcome, end: WaitEnd::Ongoing }
}

const fn alone(who: Number) -> People {
    People { first: who, second: None }
}

/// The lock counts from its boot where it booted in between, so there the times
/// of the records say more.
fn open_for_of(opening: &Opening, secured: Mark, said: Seconds) -> Option<Seconds> {
    if opening.booted.is_none() && !opening.doubtful {
        return Some(said);
    }
    Some(secured.at?.since(opening.open_from()?))
}
