//! What a store must hold, from plain lists of everything that was written.
//!
//! Written from the behaviour document and the promises of the store.

use std::vec::Vec;

use super::super::FlashStore;
use crate::audit::{Entry, Event, Outcome, Record, Ring, Seq};
use crate::port::{Tally, Write};
use crate::recovered::{LastWord, Recovered};
use crate::tally::TallyState;
use crate::time::Utc;

/// Everything that was ever written, in order.
#[derive(Clone, Default)]
pub(super) struct Model {
    pub(super) records: Vec<Record>,
    pub(super) tallies: Vec<Tally>,
}

/// Records that the rings promise to keep, less those that cuts may have cost.
#[derive(Clone, Copy)]
pub(super) struct Kept {
    pub(super) openings: usize,
    pub(super) refusals: usize,
}

impl Model {
    pub(super) fn write(&mut self, write: &Write) {
        match write {
            Write::Record(record) | Write::Edit(record) => self.records.push(*record),
            Write::Tally(tally) => self.tallies.push(*tally),
        }
    }

    /// Whether `listed` is what the rings may have left of the records: from
    /// each ring an unbroken run up to the newest, of the promised length at
    /// least.
    pub(super) fn lists(&self, listed: &[(Seq, Record)], kept: Kept) -> Result<(), &'static str> {
        for (ring, kept) in [(Ring::Openings, kept.openings), (Ring::Refusals, kept.refusals)] {
            let all: Vec<Record> =
                self.records.iter().copied().filter(|r| r.event.ring() == ring).collect();
            let seen = listed.iter().map(|(_, record)| *record);
            let seen: Vec<Record> = seen.filter(|r| r.event.ring() == ring).collect();
            if !all.ends_with(&seen) {
                return Err("a record is wrong, out of place or missing in between");
            }
            if seen.len() < kept.min(all.len()) {
                return Err("fewer records than promised");
            }
        }
        let rising = listed.windows(2).all(|pair| pair[0].0 < pair[1].0);
        if rising { Ok(()) } else { Err("numbers do not rise") }
    }

    fn total_and_share(&self, n: u8) -> (u8, u8) {
        let of = |tally: &Tally| matches!(tally, Tally::Counted(m) if m.get() == n);
        let cleared = |tally: &Tally| matches!(tally, Tally::Cleared(m) if m.get() == n);
        let ends_share = |tally: &Tally| matches!(tally, Tally::Penalty | Tally::Faded);
        let since_cleared = self.tallies.iter().rev().take_while(|t| !cleared(t));
        let total = since_cleared.clone().filter(|t| of(t)).count();
        let share = since_cleared.take_while(|t| !ends_share(t)).filter(|t| of(t)).count();
        (u8::try_from(total.min(100)).unwrap(), u8::try_from(share.min(15)).unwrap())
    }

    /// What a boot must conclude, also from records overwritten since.
    pub(super) fn conclusions(&self) -> (Option<Utc>, Option<Outcome>, LastWord) {
        let floor = self.records.iter().filter_map(|record| record.at).max();
        let outcome = self.records.iter().rev().find_map(|record| record.event.outcome());
        let word = self.records.iter().rev().find_map(|record| match record.event.kind() {
            "released" | "opened" => Some(LastWord::Open),
            "secured" | "not-drawn" | "forced" => Some(LastWord::Shut),
            _ => None,
        });
        (floor, outcome, word.unwrap_or(LastWord::Shut))
    }

    /// Whether the tally of `found` is what the entries add up to.
    pub(super) fn adds_up_to(&self, found: &Recovered) -> Result<(), &'static str> {
        self.makes(&found.tally)
    }

    /// The same of the tally alone.
    pub(super) fn makes(&self, tally: &TallyState) -> Result<(), &'static str> {
        for n in 0..100u8 {
            let at = usize::from(n);
            if (tally.totals[at], tally.shares[at]) != self.total_and_share(n) {
                return Err("a count is wrong");
            }
        }
        let newest = |any: fn(&Tally) -> bool| self.tallies.iter().rev().find(|t| any(t));
        let steps = self.tallies.iter().rev().take_while(|t| !matches!(t, Tally::Faded));
        let steps = steps.filter(|t| matches!(t, Tally::Penalty)).count();
        if usize::from(tally.step) != steps.min(255) {
            return Err("the step is wrong");
        }
        let running = newest(|t| matches!(t, Tally::Penalty | Tally::Served));
        if (running == Some(&Tally::Penalty))
            != (tally.penalty == crate::tally::PenaltyMark::Running)
        {
            return Err("the penalty's mark is wrong");
        }
        let held = match newest(|t| matches!(t, Tally::HeldShut(_))) {
            Some(Tally::HeldShut(until)) => Some(*until),
            _ => None,
        };
        if tally.held_until != held {
            return Err("the hold-shut is wrong");
        }
        let clock =
            newest(|t| matches!(t, Tally::ClockDoubt | Tally::Corrected(_) | Tally::ClockSet(_)));
        if (clock == Some(&Tally::ClockDoubt)) != (tally.clock == crate::tally::ClockMark::Doubted)
        {
            return Err("the clock's mark is wrong");
        }
        self.clock_and_collected_add_up_to(tally)
    }

    fn clock_and_collected_add_up_to(&self, tally: &TallyState) -> Result<(), &'static str> {
        let since = |end: Tally| self.tallies.iter().rev().take_while(move |t| **t != end);
        let settling = since(Tally::Settled).filter_map(set_after);
        if tally.settling != settling.min() {
            return Err("what was believed before the clock was set is wrong");
        }
        let corrected: u64 = since(Tally::CorrectionsOver).map(corrected_by).sum();
        if u64::from(tally.corrected.get()) != corrected.min(u32::MAX.into()) {
            return Err("the sum of corrections is wrong");
        }
        if Some(tally.collected.0) != self.tallies.iter().map(collected).max().or(Some(0)) {
            return Err("what was collected is wrong");
        }
        Ok(())
    }
}

fn set_after(entry: &Tally) -> Option<Utc> {
    if let Tally::ClockSet(before) = entry { Some(*before) } else { None }
}

fn corrected_by(entry: &Tally) -> u64 {
    if let Tally::Corrected(by) = entry { by.get().into() } else { 0 }
}

fn collected(entry: &Tally) -> u32 {
    if let Tally::Collected(upto) = entry { upto.0 } else { 0 }
}

/// Every record that a store lists. Its items follow one another, gaps named.
pub(super) fn listed<F: embedded_storage::nor_flash::NorFlash>(
    store: &mut FlashStore<F>,
) -> Vec<(Seq, Record)> {
    let mut due = 1;
    let mut records = Vec::new();
    for entry in store.records(Seq(0)) {
        let first = match entry {
            Entry::Record(seq, record) => {
                records.push((seq, record));
                seq
            }
            Entry::Gap(gap) => {
                assert!(gap.from <= gap.to && gap.lost <= gap.to.0 - gap.from.0 + 1);
                gap.from
            }
        };
        assert_eq!(first.0, due);
        due = entry.last().0 + 1;
    }
    records
}

/// How many numbers a store says are lost.
pub(super) fn lost<F: embedded_storage::nor_flash::NorFlash>(store: &mut FlashStore<F>) -> u32 {
    let lost = |entry| match entry {
        Entry::Gap(gap) => gap.lost,
        Entry::Record(..) => 0,
    };
    store.records(Seq(0)).map(lost).sum()
}

/// The last word is spelled with the kinds of the behaviour document.
#[test]
fn the_model_knows_the_kinds_by_name() {
    let kinds = [Event::Opened.kind(), Event::NotDrawn.kind(), Event::Forced.kind()];
    assert_eq!(kinds, ["opened", "not-drawn", "forced"]);
}
