//! Invariants 1 and 8 to 11 on the list of records: what was committed is
//! listed, in order, under one number, until it is legally overwritten.
//!
//! A trace says what was written and whether that became durable; it does not
//! say under which number. The numbers are learnt from the first look after
//! the write, and must stay. Of a record that the power went within, or whose
//! write failed, nobody knows whether it is there: the first look decides, and
//! that must stay too.

use std::collections::VecDeque;

use emulated_board::trace::{Durable, Line, What};
use lock_core::audit::{Event, Outcome, Record};
use lock_core::port::Write;

use super::{Invariant, PerRing, Suffered, Terms, Violation};
use crate::memory::{Entry, Look};

/// What the trace and the looks so far say of the audit.
#[derive(Clone, Debug, Default)]
pub(super) struct Audit {
    /// Records that can still be listed, by number, rising.
    numbered: VecDeque<(u32, Record)>,
    /// Records written since the last look, in order.
    fresh: Vec<(Record, Durable)>,
    /// The last number listed so far, by a record or within a gap.
    last: u32,
    /// Records of each ring that were once listed and not spoilt.
    once: PerRing<u64>,
}

/// The ring of a record (docs/flash-layout.md).
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Ring {
    Openings,
    Refusals,
}

fn ring(record: &Record) -> Ring {
    match record.event {
        Event::WrongCode { .. } | Event::Refused { .. } | Event::Penalty { .. } => Ring::Refusals,
        _ => Ring::Openings,
    }
}

impl<T> PerRing<T> {
    const fn of(&mut self, ring: Ring) -> &mut T {
        match ring {
            Ring::Openings => &mut self.openings,
            Ring::Refusals => &mut self.refusals,
        }
    }
}

impl Audit {
    pub(super) fn line(&mut self, line: &Line) {
        if let What::Wrote(Write::Record(record), durable) = line.what {
            self.fresh.push((record, durable));
        }
    }

    pub(super) fn look(
        &mut self,
        look: &Look,
        terms: &Terms,
        suffered: &mut Suffered,
    ) -> Result<(), Violation> {
        let list = List::read(&look.list)?;
        self.old_ones_stay(&list)?;
        self.new_ones_are_there(&list)?;
        self.missing_ones_are_legal(&list, suffered)?;
        self.enough_are_kept(&list, terms, suffered)?;
        self.last = self.last.max(list.end());
        Ok(())
    }

    /// No number has another content than before, and none comes back.
    fn old_ones_stay(&self, list: &List) -> Result<(), Violation> {
        let wrong = |what| Err(Violation::new(Invariant::NumbersRise, what));
        for (number, record) in list.up_to(self.last) {
            match self.numbered.binary_search_by_key(number, |(number, _)| *number) {
                Ok(place) if self.numbered[place].1 == *record => {}
                Ok(place) => {
                    let (before, now) = (self.numbered[place].1.event.kind(), record.event.kind());
                    return wrong(format!("number {number} was {before} and is {now} now"));
                }
                Err(_) => {
                    let kind = record.event.kind();
                    return wrong(format!("number {number}, {kind}, was lost once and came back"));
                }
            }
        }
        Ok(())
    }

    /// What was written since the last look is listed behind what was listed
    /// before, in order.
    fn new_ones_are_there(&mut self, list: &List) -> Result<(), Violation> {
        let new = list.from(self.last);
        if !fits(&self.fresh, new) {
            return Err(self.misfit(new));
        }
        for (number, record) in new {
            self.numbered.push_back((*number, *record));
            *self.once.of(ring(record)) += 1;
        }
        self.fresh.clear();
        Ok(())
    }

    /// What of the new list is not as it was written.
    fn misfit(&self, new: &[(u32, Record)]) -> Violation {
        let kind = |record: &Record| record.event.kind();
        let mut listed = new.iter();
        for (record, durable) in &self.fresh {
            let rest = listed.clone();
            if listed.next().is_some_and(|(_, other)| other == record) {
                continue;
            }
            listed = rest;
            if *durable == Durable::Yes {
                let of = match record.event {
                    Event::Released { .. } => Invariant::RecordedRelease,
                    _ => Invariant::Committed,
                };
                let there = listed.next().map_or("nothing", |(_, other)| kind(other));
                let what = format!("{} was committed; in its place stands {there}", kind(record));
                return Violation::new(of, what);
            }
        }
        let what = match listed.next() {
            Some((number, record)) => {
                format!("number {number}, {}, is listed and was never written", kind(record))
            }
            None => "the records listed are not those written".to_owned(),
        };
        Violation::new(Invariant::NumbersRise, what)
    }

    /// A record that is listed no longer is overwritten, with all of its ring
    /// before it, or was spoilt and stands in a gap. A number that nobody ever
    /// saw stands in a gap, or is older than all of a ring.
    fn missing_ones_are_legal(
        &mut self,
        list: &List,
        suffered: &mut Suffered,
    ) -> Result<(), Violation> {
        let oldest = list.oldest();
        let mut spoilt = Vec::new();
        for (number, record) in &self.numbered {
            let mut oldest = oldest;
            let overwritten = oldest.of(ring(record)).is_none_or(|oldest| *number < oldest);
            if overwritten || list.has(*number) {
                continue;
            }
            if list.in_gap(*number) && suffered.slots > 0 {
                suffered.slots -= 1;
                spoilt.push(*number);
                continue;
            }
            let of = match record.event {
                Event::Released { .. } => Invariant::RecordedRelease,
                _ if record.event.outcome() == Some(Outcome::Duress) => Invariant::DuressHeard,
                _ => Invariant::NumbersRise,
            };
            let gap = if list.in_gap(*number) { "in a gap" } else { "without a trace" };
            let what = format!("number {number}, {}, is lost {gap}", record.event.kind());
            return Err(Violation::new(of, what));
        }
        self.numbered.retain(|(number, record)| {
            let mut oldest = oldest;
            let kept = oldest.of(ring(record)).is_some_and(|oldest| *number >= oldest);
            if spoilt.contains(number) {
                let once = self.once.of(ring(record));
                *once = once.saturating_sub(1);
                return false;
            }
            kept
        });
        list.unseen_are_in_gaps(self.whole_from(list))
    }

    /// The number from which on no ring has overwritten anything.
    fn whole_from(&self, list: &List) -> u32 {
        let (mut once, mut oldest) = (self.once, list.oldest());
        let from = |which| {
            let kept = self.numbered.iter().filter(|(_, record)| ring(record) == which).count();
            let all = u64::try_from(kept).ok() == Some(*once.of(which));
            if all { 0 } else { oldest.of(which).unwrap_or(0) }
        };
        [Ring::Openings, Ring::Refusals].map(from).into_iter().max().unwrap_or(0)
    }

    fn enough_are_kept(
        &mut self,
        list: &List,
        terms: &Terms,
        suffered: &Suffered,
    ) -> Result<(), Violation> {
        let lost = (suffered.cuts + suffered.failures).saturating_mul(terms.slots_a_cut);
        for (which, name) in [(Ring::Openings, "openings"), (Ring::Refusals, "refusals")] {
            let listed = list.records.iter().filter(|(_, record)| ring(record) == which).count();
            let mut kept = terms.kept;
            let promised = kept.of(which).saturating_sub(lost).min(*self.once.of(which));
            // The oldest of a ring that was spoilt looks as if it were overwritten.
            let promised = promised.saturating_sub(suffered.slots);
            if u64::try_from(listed).unwrap_or(u64::MAX) < promised {
                let what = format!("{listed} {name} are listed; {promised} are promised");
                return Err(Violation::new(Invariant::Kept, what));
            }
        }
        Ok(())
    }
}

/// Whether the list is what was written, with or without what is in doubt.
fn fits(written: &[(Record, Durable)], list: &[(u32, Record)]) -> bool {
    let Some(((record, durable), rest)) = written.split_first() else { return list.is_empty() };
    if let Some(((_, listed), others)) = list.split_first()
        && listed == record
        && fits(rest, others)
    {
        return true;
    }
    *durable != Durable::Yes && fits(rest, list)
}

/// A list of records, taken apart.
struct List {
    records: Vec<(u32, Record)>,
    gaps: Vec<(u32, u32)>,
}

impl List {
    fn read(list: &[Entry]) -> Result<Self, Violation> {
        let wrong = |what| Err(Violation::new(Invariant::NumbersRise, what));
        let (mut records, mut gaps) = (Vec::<(u32, Record)>::new(), Vec::new());
        for entry in list {
            match *entry {
                Entry::Record(number, record) => {
                    if let Some((before, _)) = records.last()
                        && *before >= number
                    {
                        return wrong(format!("number {number} is listed behind {before}"));
                    }
                    records.push((number, record));
                }
                Entry::Gap { from, to, lost } => {
                    let room = u64::from(to).saturating_sub(from.into()) + 1;
                    if from > to || lost == 0 || u64::from(lost) > room {
                        return wrong(format!("{lost} are lost in the gap {from} to {to}"));
                    }
                    gaps.push((from, to));
                }
            }
        }
        Ok(Self { records, gaps })
    }

    /// The records with numbers up to `last`.
    fn up_to(&self, last: u32) -> &[(u32, Record)] {
        &self.records[..self.records.partition_point(|(number, _)| *number <= last)]
    }

    /// The records behind `last`.
    fn from(&self, last: u32) -> &[(u32, Record)] {
        &self.records[self.records.partition_point(|(number, _)| *number <= last)..]
    }

    fn has(&self, number: u32) -> bool {
        self.records.binary_search_by_key(&number, |(number, _)| *number).is_ok()
    }

    fn in_gap(&self, number: u32) -> bool {
        self.gaps.iter().any(|(from, to)| (*from..=*to).contains(&number))
    }

    /// The oldest number listed of each ring.
    fn oldest(&self) -> PerRing<Option<u32>> {
        let first = |which| {
            self.records.iter().find(|(_, record)| ring(record) == which).map(|(number, _)| *number)
        };
        PerRing { openings: first(Ring::Openings), refusals: first(Ring::Refusals) }
    }

    /// The last number that it accounts for.
    fn end(&self) -> u32 {
        let records = self.records.last().map_or(0, |(number, _)| *number);
        self.gaps.iter().map(|(_, to)| *to).fold(records, u32::max)
    }

    /// Between two neighbours in the list no number is left out, unless it
    /// stands in a gap, or one of the rings was overwritten up to there.
    fn unseen_are_in_gaps(&self, whole: u32) -> Result<(), Violation> {
        for pair in self.records.windows(2) {
            let [(before, _), (after, _)] = pair else { continue };
            let mut number = before + 1;
            while number < *after {
                if number < whole {
                    number = whole.min(*after);
                    continue;
                }
                let gap = self.gaps.iter().find(|(from, to)| (*from..=*to).contains(&number));
                let Some((_, to)) = gap else {
                    let what = format!("number {number} is missing without a gap");
                    return Err(Violation::new(Invariant::NumbersRise, what));
                };
                number = to.saturating_add(1);
            }
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests;
