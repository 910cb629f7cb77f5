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
use lock_core::port::{Tally, Write};

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
    /// Numbers up to there that no list ever had a record under, in ranges.
    never: Vec<(u32, u32)>,
    /// The slots that cuts and faults may have cost when each of the newest
    /// records of a ring was first listed: one more than the ring promises to
    /// keep.
    cuts: PerRing<VecDeque<u64>>,
    /// The first record of each ring, and how many there ever were.
    first: PerRing<Option<u32>>,
    ever: PerRing<u64>,
    /// Whether this boot may only count that it came, until it has said so.
    counts: Option<bool>,
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
    pub(super) fn line(&mut self, line: &Line) -> Result<(), Violation> {
        match line.what {
            What::PowerOn | What::PowerCut => self.counts = None,
            What::Wrote(Write::Tally(Tally::PoweredUp), _) => self.powered_up(true)?,
            What::Wrote(Write::Record(record) | Write::Edit(record), durable) => {
                if matches!(record.event, Event::PoweredUp { .. }) {
                    self.powered_up(false)?;
                }
                self.fresh.push((record, durable));
            }
            _ => {}
        }
        Ok(())
    }

    /// A third power-up in a row is counted, not recorded (docs/behaviour.md, section 9):
    /// so nobody who cuts the power again and again washes the list out.
    fn powered_up(&mut self, counted: bool) -> Result<(), Violation> {
        match self.counts.take() {
            Some(due) if due != counted => {
                let how = if counted { "counted" } else { "recorded" };
                let what = format!("a power-up was {how}; two before it are on record: {due}");
                Err(Violation::new(Invariant::Kept, what))
            }
            _ => Ok(()),
        }
    }

    /// A change in doubt turned out to be made or not, and its record with it.
    pub(super) fn settle_edit(&mut self, edit: &super::settings::Settled) {
        let doubt = |(record, durable): &(Record, Durable)| {
            *record == edit.record && *durable != Durable::Yes
        };
        let Some(place) = self.fresh.iter().rposition(doubt) else { return };
        if edit.made {
            self.fresh[place].1 = Durable::Yes;
        } else {
            self.fresh.remove(place);
        }
    }

    /// What a boot lists holds for good.
    pub(super) fn boot(
        &mut self,
        look: &Look,
        terms: &Terms,
        suffered: &mut Suffered,
    ) -> Result<(), Violation> {
        let list = List::read(&look.list)?;
        self.judge(&list, terms, suffered, 0)?;
        self.forget_overwritten(&list);
        // Of what a list has lost to flips the flash may know more.
        self.counts = list.ends_with_two_power_ups().filter(|_| suffered.spoilt == 0);
        Ok(())
    }

    /// What a boot would list tells the numbers of what was written, but
    /// settles nothing: that boot never was. It would cost what a cut costs.
    pub(super) fn look(
        &mut self,
        look: &Look,
        terms: &Terms,
        suffered: &Suffered,
    ) -> Result<(), Violation> {
        let list = List::read(&look.list)?;
        let mut apart = suffered.clone();
        let sure = self.fresh.iter().all(|(_, durable)| *durable == Durable::Yes);
        if sure && suffered.slots == 0 {
            self.judge(&list, terms, &mut apart, terms.slots_a_cut)
        } else {
            self.clone().judge(&list, terms, &mut apart, terms.slots_a_cut)
        }
    }

    fn judge(
        &mut self,
        list: &List,
        terms: &Terms,
        suffered: &mut Suffered,
        spent: u64,
    ) -> Result<(), Violation> {
        self.old_ones_stay(list)?;
        self.new_ones_are_there(list, terms, suffered)?;
        self.missing_ones_are_legal(list, suffered)?;
        self.gaps_say_what_is_lost(list, suffered)?;
        self.enough_are_kept(list, terms, suffered, spent)
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
    fn new_ones_are_there(
        &mut self,
        list: &List,
        terms: &Terms,
        suffered: &Suffered,
    ) -> Result<(), Violation> {
        let new = list.from(self.last);
        if !fits(&self.fresh, new) {
            return Err(self.misfit(new));
        }
        for (number, record) in new {
            if self.last + 1 < *number {
                self.never.push((self.last + 1, number - 1));
            }
            self.last = *number;
            self.numbered.push_back((*number, *record));
            self.first.of(ring(record)).get_or_insert(*number);
            *self.ever.of(ring(record)) += 1;
            let (mut kept, cuts) = (terms.kept, self.cuts.of(ring(record)));
            cuts.push_back(suffered.slots(terms));
            while u64::try_from(cuts.len()).is_ok_and(|length| length > *kept.of(ring(record)) + 1)
            {
                cuts.pop_front();
            }
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
    /// before it, or was spoilt and stands in a gap.
    fn missing_ones_are_legal(
        &mut self,
        list: &List,
        suffered: &mut Suffered,
    ) -> Result<(), Violation> {
        let (mut oldest, mut firsts) = (list.oldest(), self.first);
        let mut spoilt = Vec::new();
        for (number, record) in &self.numbered {
            let overwritten = oldest.of(ring(record)).is_none_or(|oldest| *number < oldest);
            // The first of a ring that overwrote nothing yet is lost, and a gap says so.
            let first = *firsts.of(ring(record)) == Some(*number);
            let spoilt_first = first && suffered.slots > 0 && list.says_lost(*number);
            if list.has(*number) || overwritten && !spoilt_first {
                continue;
            }
            if suffered.slots > 0 {
                suffered.slots -= 1;
                spoilt.push(*number);
                self.cuts.of(ring(record)).pop_front();
                *self.ever.of(ring(record)) -= 1;
                continue;
            }
            let of = match record.event {
                Event::Released { .. } => Invariant::RecordedRelease,
                _ if record.event.outcome() == Some(Outcome::Duress) => Invariant::DuressHeard,
                _ => Invariant::NumbersRise,
            };
            let what = format!("number {number}, {}, is lost", record.event.kind());
            return Err(Violation::new(of, what));
        }
        self.numbered.retain(|(number, _)| !spoilt.contains(number));
        for number in spoilt {
            let place = self.never.partition_point(|(from, _)| *from < number);
            self.never.insert(place, (number, number));
        }
        Ok(())
    }

    fn forget_overwritten(&mut self, list: &List) {
        let mut oldest = list.oldest();
        self.numbered.retain(|(number, record)| {
            oldest.of(ring(record)).is_some_and(|oldest| *number >= oldest)
        });
    }

    /// A gap says how many of its numbers never were in a list; where nothing
    /// was overwritten, that is all of them. Where something was, nobody can
    /// tell whose ring a lost number was for: it lies before that ring's next
    /// record.
    fn gaps_say_what_is_lost(&self, list: &List, suffered: &Suffered) -> Result<(), Violation> {
        let whole = self.whole_from(list);
        for (from, to, lost) in &list.gaps {
            let end = list.next_of_both(*to);
            let never = self.never.iter().map(|(first, last)| {
                let (first, last) = (first.max(from), last.min(&end));
                u64::from(*last + 1).saturating_sub(u64::from(*first))
            });
            // The oldest of a ring that was spoilt looks as if it were overwritten.
            let never = never.sum::<u64>() + suffered.slots;
            let least = if *from >= whole { u64::from(to - from) + 1 } else { 0 };
            if u64::from(*lost) > never || u64::from(*lost) < least {
                let what = format!("the gap {from} to {to} says that {lost} are lost; {never} are");
                return Err(Violation::new(Invariant::NumbersRise, what));
            }
        }
        Ok(())
    }

    /// The number from which on no ring has overwritten anything.
    fn whole_from(&self, list: &List) -> u32 {
        let oldest = list.oldest();
        let of = |first, oldest: Option<u32>| if first == oldest { 0 } else { oldest.unwrap_or(0) };
        let openings = of(self.first.openings, oldest.openings);
        openings.max(of(self.first.refusals, oldest.refusals))
    }

    fn enough_are_kept(
        &mut self,
        list: &List,
        terms: &Terms,
        suffered: &Suffered,
        spent: u64,
    ) -> Result<(), Violation> {
        let now = suffered.slots(terms);
        for (which, name) in [(Ring::Openings, "openings"), (Ring::Refusals, "refusals")] {
            let listed = list.records.iter().filter(|(_, record)| ring(record) == which).count();
            let (mut kept, ever) = (terms.kept, *self.ever.of(which));
            let (kept, cuts) = (*kept.of(which), self.cuts.of(which));
            let cost = |then: u64| now.saturating_sub(then) + spent;
            let promised = if ever + cost(0) <= kept {
                // Nothing can have been overwritten yet.
                ever
            } else {
                // Each cut since the record before the oldest of them may have
                // cost some; and that record is one too many.
                let lost = cuts.front().map_or(0, |then| cost(*then));
                (cuts.len() as u64).min(kept).saturating_sub(lost)
            };
            // The oldest of a ring that was spoilt looks as if it were overwritten.
            let promised = promised.saturating_sub(suffered.slots);
            if (listed as u64) < promised {
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
    /// From, to, and how many are lost.
    gaps: Vec<(u32, u32, u32)>,
}

impl List {
    /// Each entry goes on where the last one ended, from number 1 on.
    fn read(list: &[Entry]) -> Result<Self, Violation> {
        let mut due = 1;
        let (mut records, mut gaps) = (Vec::new(), Vec::new());
        for entry in list {
            let (from, to, lost) = match *entry {
                Entry::Record(number, record) => {
                    records.push((number, record));
                    (number, number, 0)
                }
                Entry::Gap { from, to, lost } => {
                    gaps.push((from, to, lost));
                    (from, to, lost)
                }
            };
            let room = u64::from(to).saturating_sub(from.into()) + 1;
            if from != due || to < from || u64::from(lost) > room {
                let what = format!(
                    "{from} to {to}, of which {lost} are lost, is listed where {due} was due"
                );
                return Err(Violation::new(Invariant::NumbersRise, what));
            }
            due = to.saturating_add(1);
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

    /// The number behind which both rings have listed a record after `number`,
    /// or the end.
    fn next_of_both(&self, number: u32) -> u32 {
        let next = |which| {
            let later = self.from(number).iter().find(|(_, record)| ring(record) == which);
            later.map_or(number, |(number, _)| *number)
        };
        next(Ring::Openings).max(next(Ring::Refusals))
    }

    /// Whether that number stands in a gap in which something is lost.
    fn says_lost(&self, number: u32) -> bool {
        self.gaps.iter().any(|(from, to, lost)| *lost > 0 && (*from..=*to).contains(&number))
    }

    fn has(&self, number: u32) -> bool {
        self.records.binary_search_by_key(&number, |(number, _)| *number).is_ok()
    }

    /// Whether the two newest records, but for those of the supply, are power-ups.
    /// `None` where one of the two may be overwritten: the tally still knows it.
    fn ends_with_two_power_ups(&self) -> Option<bool> {
        let told = |(_, record): &&(u32, Record)| !matches!(record.event, Event::Supply { .. });
        let mut newest = self.records.iter().rev().filter(told);
        let (newer, older) = (newest.next()?, newest.next()?);
        let overwritten = |(from, to, lost): &(u32, u32, u32)| to - from + 1 > *lost;
        if self.gaps.iter().any(|gap| gap.1 > older.0 && overwritten(gap)) {
            return None;
        }
        let power_up =
            |(_, record): &(u32, Record)| matches!(record.event, Event::PoweredUp { .. });
        Some(power_up(newer) && power_up(older))
    }

    /// The oldest number listed of each ring.
    fn oldest(&self) -> PerRing<Option<u32>> {
        let first = |which| {
            self.records.iter().find(|(_, record)| ring(record) == which).map(|(number, _)| *number)
        };
        PerRing { openings: first(Ring::Openings), refusals: first(Ring::Refusals) }
    }
}

#[cfg(test)]
mod tests;
