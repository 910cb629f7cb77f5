//! What must be known of the audit although its records are long overwritten:
//! kept in the tally's checkpoints beside the counts.

use crate::audit::{Event, Outcome, Record, Seq};
use crate::recovered::LastWord;
use crate::time::Utc;

/// Conclusions from records.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Memo {
    /// The newest time in any record.
    pub(super) floor: Option<Utc>,
    /// The outcome of the newest record that has one.
    pub(super) outcome: Option<Outcome>,
    /// What the records say of the bolt.
    pub(super) word: LastWord,
    /// No number below this one is given again.
    pub(super) next: Seq,
}

impl Memo {
    /// Before the first record.
    pub(super) const NEW: Self =
        Self { floor: None, outcome: None, word: LastWord::Shut, next: Seq(1) };

    /// Takes a record into account that is newer than all before it.
    pub(super) fn see(&mut self, seq: Seq, record: &Record) {
        if !canary!(FloorForgotten) {
            self.floor = self.floor.max(record.at);
        }
        self.outcome = record.event.outcome().or(self.outcome);
        self.word = word_on_the_bolt(&record.event).unwrap_or(self.word);
        self.next = self.next.max(Seq(seq.0.saturating_add(1)));
    }
}

/// What a record says of the bolt, if it does.
const fn word_on_the_bolt(event: &Event) -> Option<LastWord> {
    match event {
        Event::Released { .. } | Event::Opened => Some(LastWord::Open),
        Event::Secured { .. } | Event::NotDrawn | Event::Forced => Some(LastWord::Shut),
        Event::PoweredUp
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
