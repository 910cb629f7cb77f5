//! A steward's session in which files are loaded and the audit is collected.
//!
//! What arrives over the link reaches the machine as [`Transfer`], and only while
//! the session is open. A file changes nothing before somebody compared its
//! fingerprint with the laptop's and pressed *OK*; what it opens wider waits for
//! the next opening window unless the bolt is drawn (R3).

use super::bolt::Moment;
use super::changes::{Proposal, Proposed};
use super::from_when::Applies;
use super::keypad::Session;
use super::step::Machine;
use super::writes::Continuation;
use crate::audit::{Change, Event, Outcome, People, Record, Seq};
use crate::dialog::{Dialogue, Stage};
use crate::holder::Number;
use crate::port::{Fault, Offer, Reads, Sound, Tally, Transfer, Write};
use crate::rules::{Unreadable, pending};
use crate::screen::{Gist, Trouble};
use crate::settings::Edit;
use crate::time::{Seconds, Utc};
use crate::timetable::{TimetableId, Timetables};

/// How long files may come and go after a steward said who they are. Only a new
/// code begins it again: nothing that arrives over a link does. Ours.
pub const SESSION: Seconds = Seconds::from_minutes(10);

impl Machine {
    /// The steward whose session for files is open, if one is.
    #[must_use]
    pub fn serves(&self) -> Option<Number> {
        match self.keypad.session() {
            Session::Form(dialogue) if matches!(dialogue.stage, Stage::Files) => dialogue.who,
            Session::Form(_)
            | Session::Rest
            | Session::Entry(_)
            | Session::Over(_)
            | Session::List { .. }
            | Session::Who(..)
            | Session::Judging(_)
            | Session::Second(..) => None,
        }
    }

    /// The newest record that a reader confirmed to have.
    #[must_use]
    pub const fn collected(&self) -> Seq {
        self.counts.collected()
    }

    pub(super) fn transferred(&mut self, transfer: Transfer, at: Moment, reads: &mut impl Reads) {
        let Some(who) = self.serves() else { return };
        match transfer {
            Transfer::Offered(offer) => self.offered(offer),
            Transfer::Collected(up_to) => {
                let newest = reads.newest_seq().unwrap_or(Seq(0));
                let up_to = up_to.min(newest);
                if up_to <= self.counts.collected() {
                    return;
                }
                self.tally(Tally::Collected(up_to), Continuation::Nothing, at);
                let by = Some(People { first: who, second: None });
                let change = Change::Collected(up_to);
                let after = Continuation::Say(Sound::Accepted, Outcome::Plain);
                self.record(at, Event::Changed { by, change }, after);
            }
        }
    }

    /// The screen shows the file; the session gets no longer by it.
    fn offered(&mut self, offer: Offer) {
        if let Some(dialogue) = self.keypad.form() {
            let Offer { version, fingerprint, .. } = offer;
            dialogue.offer = Some(offer);
            dialogue.turn_to(Stage::Confirm(Gist::File { version, fingerprint }));
            self.out.sound(Sound::Key);
        }
    }

    /// Somebody pressed *OK* at the file on the screen.
    pub(super) fn load_file(
        &mut self,
        dialogue: &Dialogue,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Proposed, Unreadable> {
        let Some(Offer { version, wider, .. }) = dialogue.offer else {
            self.out_of_order(Fault::Bug);
            return Ok(Err(Trouble::NoChoice));
        };
        let applies = if wider == Timetables::default() {
            Applies::Now
        } else {
            self.widened_in(wider, at, reads)?
        };
        Ok(match applies {
            Applies::Now => {
                Ok(Proposal::at_once(Edit::Adopt(version), Change::FileLoaded(version)))
            }
            Applies::From(until) => {
                // One that waits already is replaced, and nothing comes earlier by that.
                let until =
                    self.in_force.file().waits.map_or(until, |older| older.until.max(until));
                let change = Change::FileWaits(version);
                Ok(Proposal {
                    from: Some(until),
                    ..Proposal::at_once(Edit::Wait(version, until), change)
                })
            }
            Applies::Never => Err(self.no_start(at)),
        })
    }

    /// When a file that opens those timetables wider applies: once each of them
    /// has begun a window; one without any, once any other has.
    fn widened_in(
        &self,
        wider: Timetables,
        at: Moment,
        reads: &mut impl Reads,
    ) -> Result<Applies, Unreadable> {
        let (mut latest, mut earliest): (Option<Utc>, Option<Utc>) = (None, None);
        let mut windowless = false;
        for id in TimetableId::ALL {
            let start = self.next_start(id, at, reads)?;
            earliest = match (earliest, start) {
                (Some(earliest), Some(start)) => Some(earliest.min(start)),
                (earliest, start) => earliest.or(start),
            };
            if wider.has(id) {
                windowless |= start.is_none();
                latest = latest.max(start);
            }
        }
        Ok(self.at_or_by_hand(if windowless { latest.max(earliest) } else { latest }))
    }

    /// A file that waits is adopted once its time has come, or the bolt is drawn.
    pub(super) fn look_at_file(&mut self, at: Moment) {
        let Some(waits) = self.in_force.file().waits else { return };
        let due = self.bolt.access().was_seen_opened() || pending::has_come(waits.until, at.steady);
        if due && self.is_idle() {
            let change = Change::FileLoaded(waits.version);
            self.writes.prepare(Edit::Adopt(waits.version));
            let event = Event::Changed { by: None, change };
            self.send(Write::Edit(Record { at: at.utc, event }), Continuation::Adopted);
        }
    }
}
