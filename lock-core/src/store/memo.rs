//! What must be known of the audit although its records are long overwritten:
//! kept in the tally's checkpoints beside the counts.

use crate::audit::{Change, Event, Outcome, People, Record, Seq};
use crate::recovered::LastWord;
use crate::rules::supply::Level;
use crate::time::Utc;

/// Conclusions from records.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Memo {
    /// The latest time in any record from the newest setting of the clock on.
    pub(super) floor: Option<Utc>,
    /// The outcome of the newest record that has one.
    pub(super) outcome: Option<Outcome>,
    /// What the records say of the bolt.
    pub(super) word: Word,
    /// For whom the newest release was.
    pub(super) people: Option<People>,
    /// How many of the newest records, but those of the supply, are power-ups; two at most.
    pub(super) power_ups: u8,
    /// The supply as it was recorded last.
    pub(super) supply: Level,
    /// No number below this one is given again.
    pub(super) next: Seq,
}

/// The newest record on the bolt.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Word {
    /// It leaves the bolt thrown; or there is none.
    Shut,
    /// Forced.
    Forced,
    /// Released.
    Released,
    /// Opened, at that time, where it is known.
    Opened(Option<Utc>),
}

impl Memo {
    /// Before the first record.
    pub(super) const NEW: Self = Self {
        floor: None,
        outcome: None,
        word: Word::Shut,
        people: None,
        power_ups: 0,
        supply: Level::Good,
        next: Seq(1),
    };

    /// Takes a record into account that is newer than all before it.
    pub(super) fn see(&mut self, seq: Seq, record: &Record) {
        self.floor = if sets_the_clock(&record.event) {
            record.at.or(self.floor)
        } else {
            self.floor.max(record.at)
        };
        self.outcome = record.event.heard(self.outcome);
        if let Event::Released { people, .. } = record.event {
            self.people = Some(people);
        } else if let Event::Changed { change: Change::Commissioned(_) | Change::Reset, .. } =
            record.event
        {
            // Nobody opened it: it stood open.
            self.people = None;
        }
        self.word = word_on_the_bolt(record).unwrap_or(self.word);
        if let Event::Supply { level, .. } = record.event {
            self.supply = level;
        } else if let Event::PoweredUp { .. } = record.event {
            self.power_ups = self.power_ups.saturating_add(1).min(2);
        } else {
            self.power_ups = 0;
        }
        self.next = self.next.max(Seq(seq.0.saturating_add(1)));
    }

    /// The last word on the bolt, as a boot is told.
    pub(super) const fn last_word(&self) -> LastWord {
        match self.word {
            Word::Shut => LastWord::Shut,
            Word::Forced => LastWord::Forced,
            Word::Released => LastWord::Released(self.people),
            Word::Opened(at) => LastWord::Opened(self.people, at),
        }
    }
}

/// Whether the time of the record is what the clock was set to.
pub(crate) const fn sets_the_clock(event: &Event) -> bool {
    matches!(event, Event::Changed { change: Change::ClockCorrected(_) | Change::ClockSet(_), .. })
}

/// What a record says of the bolt, if it does.
const fn word_on_the_bolt(record: &Record) -> Option<Word> {
    match &record.event {
        Event::Released { .. } => Some(Word::Released),
        Event::Opened => Some(Word::Opened(record.at)),
        Event::Secured { .. } | Event::NotDrawn | Event::FoundThrown { .. } => Some(Word::Shut),
        Event::Forced => Some(Word::Forced),
        // Both take a drawn bolt.
        Event::Changed { change: Change::Commissioned(_) | Change::Reset, .. } => {
            Some(Word::Opened(record.at))
        }
        Event::PoweredUp { .. }
        | Event::LeftOpen
        | Event::DelayStarted { .. }
        | Event::Lapsed
        | Event::Cancelled { .. }
        | Event::FirstOfTwo { .. }
        | Event::WrongCode { .. }
        | Event::Refused { .. }
        | Event::Penalty { .. }
        | Event::HeldShut { .. }
        | Event::Status { .. }
        | Event::Supply { .. }
        | Event::ClockInvalid
        | Event::Asked { .. }
        | Event::Changed { .. }
        | Event::Fault { .. } => None,
    }
}
