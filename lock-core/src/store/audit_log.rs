//! The audit: two rings, one sequence.

use embedded_storage::nor_flash::NorFlash;

use super::layout::Layout;
use super::pages::Pages;
use super::ring::{Ring, Walk};
use crate::audit::{self, Event, Outcome, Record, Seq};
use crate::port::StoreFault;
use crate::recovered::LastWord;
use crate::time::Utc;

/// The number of the first record of a lock's life.
const FIRST: Seq = Seq(1);

/// Where the audit stands.
pub(super) struct AuditLog {
    openings: Ring,
    refusals: Ring,
    /// The next number; `None` once all are used up.
    next: Option<Seq>,
}

/// What a mount learns from the records.
#[derive(Default)]
pub(super) struct Findings {
    pub(super) floor: Option<Utc>,
    outcome: Option<(Seq, Outcome)>,
    word: Option<(Seq, LastWord)>,
}

impl Findings {
    fn see(&mut self, seq: Seq, record: &Record) {
        self.floor = self.floor.max(record.at);
        if let Some(outcome) = record.event.outcome() {
            keep_newest(&mut self.outcome, seq, outcome);
        }
        if let Some(word) = word_on_the_bolt(&record.event) {
            keep_newest(&mut self.word, seq, word);
        }
    }

    pub(super) fn newest_outcome(&self) -> Option<Outcome> {
        self.outcome.map(|(_, outcome)| outcome)
    }

    pub(super) fn last_word(&self) -> LastWord {
        self.word.map_or(LastWord::Shut, |(_, word)| word)
    }
}

fn keep_newest<T>(kept: &mut Option<(Seq, T)>, seq: Seq, value: T) {
    if kept.as_ref().is_none_or(|(newest, _)| *newest < seq) {
        *kept = Some((seq, value));
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
        | Event::Fault { .. } => None,
    }
}

impl AuditLog {
    /// The audit in erased regions.
    pub(super) const fn empty(layout: &Layout) -> Self {
        Self {
            openings: Ring::empty(layout.openings(), audit::Ring::Openings),
            refusals: Ring::empty(layout.refusals(), audit::Ring::Refusals),
            next: Some(FIRST),
        }
    }

    /// Finds where the audit stands, and what its records say.
    pub(super) fn scan<F: NorFlash>(pages: &mut Pages<F>, layout: &Layout) -> (Self, Findings) {
        let mut findings = Findings::default();
        let mut scan =
            |region, which| Ring::scan(pages, region, which, |seq, r| findings.see(seq, r));
        let openings = scan(layout.openings(), audit::Ring::Openings);
        let refusals = scan(layout.refusals(), audit::Ring::Refusals);
        let newest = openings.newest().max(refusals.newest());
        let next = match newest {
            None => Some(FIRST),
            Some(Seq(newest)) => newest.checked_add(1).map(Seq),
        };
        (Self { openings, refusals, next }, findings)
    }

    /// Makes `record` durable.
    pub(super) fn push<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        record: &Record,
    ) -> Result<(), StoreFault> {
        let seq = self.next.ok_or(StoreFault)?;
        match record.event.ring() {
            audit::Ring::Openings => &mut self.openings,
            audit::Ring::Refusals => &mut self.refusals,
        }
        .push(pages, seq, record)?;
        self.next = seq.0.checked_add(1).map(Seq);
        Ok(())
    }

    /// Erases the next page of each ring if that is due.
    pub(super) fn erase_ahead<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
    ) -> Result<(), StoreFault> {
        let openings = self.openings.erase_ahead(pages);
        self.refusals.erase_ahead(pages).and(openings)
    }

    /// The newest record.
    pub(super) fn newest<F: NorFlash>(&self, pages: &mut Pages<F>) -> Option<(Seq, Record)> {
        let later = if self.openings.newest() > self.refusals.newest() {
            &self.openings
        } else {
            &self.refusals
        };
        later.newest_record(pages)
    }

    /// The records from number `from` on, in order.
    pub(super) fn records<'a, F: NorFlash>(
        &self,
        pages: &'a mut Pages<F>,
        from: Seq,
    ) -> Records<'a, F> {
        let mut walks = [self.openings.walk(pages, from), self.refusals.walk(pages, from)];
        let heads = walks.each_mut().map(|walk| walk.next(pages));
        Records { pages, walks, heads, from: Some(from) }
    }
}

/// Records in order of their numbers, merged from both rings.
pub struct Records<'a, F> {
    pages: &'a mut Pages<F>,
    walks: [Walk; 2],
    /// The next record of each walk.
    heads: [Option<(Seq, Record)>; 2],
    /// The least number still to be listed: whatever lies in flash, the list
    /// rises.
    from: Option<Seq>,
}

impl<F: NorFlash> Iterator for Records<'_, F> {
    type Item = (Seq, Record);

    fn next(&mut self) -> Option<(Seq, Record)> {
        loop {
            let [openings, refusals] = &self.heads;
            let second = match (openings, refusals) {
                (Some((a, _)), Some((b, _))) => b < a,
                (None, _) => true,
                (Some(_), None) => false,
            };
            let [first_walk, second_walk] = &mut self.walks;
            let [first_head, second_head] = &mut self.heads;
            let (walk, head) =
                if second { (second_walk, second_head) } else { (first_walk, first_head) };
            let (seq, record) = core::mem::replace(head, walk.next(self.pages))?;
            if self.from.is_some_and(|from| from <= seq) {
                self.from = seq.0.checked_add(1).map(Seq);
                return Some((seq, record));
            }
        }
    }
}
