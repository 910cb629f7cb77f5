//! The audit: two rings, one sequence.

use embedded_storage::nor_flash::NorFlash;

use super::layout::Layout;
use super::memo::Memo;
use super::pages::Pages;
use super::record_slot::Kept;
use super::ring::{Ring, TallyStands};
use super::walk::Walk;
use crate::audit::{self, Entry, Gap, Record, Seq};
use crate::port::StoreFault;

/// Where the audit stands.
#[derive(Clone, Copy)]
pub(super) struct AuditLog {
    openings: Ring,
    refusals: Ring,
}

impl AuditLog {
    /// The audit in erased regions.
    pub(super) const fn empty(layout: &Layout) -> Self {
        Self {
            openings: Ring::empty(layout.openings(), audit::Ring::Openings),
            refusals: Ring::empty(layout.refusals(), audit::Ring::Refusals),
        }
    }

    /// Finds where the audit stands.
    pub(super) fn scan<F: NorFlash>(
        pages: &mut Pages<F>,
        layout: &Layout,
    ) -> Result<Self, StoreFault> {
        Ok(Self {
            openings: Ring::scan(pages, layout.openings(), audit::Ring::Openings)?,
            refusals: Ring::scan(pages, layout.refusals(), audit::Ring::Refusals)?,
        })
    }

    /// The next number, as far as the rings can tell: past every number that
    /// may have been given.
    pub(super) fn next(&self) -> Seq {
        let (openings, doubtful) = self.openings.numbers();
        let (refusals, more) = self.refusals.numbers();
        let newest = openings.0.max(refusals.0);
        let next = newest.saturating_add(doubtful).saturating_add(more).saturating_add(1);
        Seq(next)
    }

    /// What the newest record says of the tally.
    pub(super) fn tally(&self) -> Option<u8> {
        self.newest_kept().map(|kept| kept.tally)
    }

    fn newest_kept(&self) -> Option<Kept> {
        let [openings, refusals] = [self.openings.newest_kept(), self.refusals.newest_kept()];
        let later = |kept: &Kept| openings.is_none_or(|other| other.seq < kept.seq);
        refusals.filter(later).or(openings)
    }

    /// Makes what a scan found hold for good. What is written again says where
    /// the tally `stands`.
    pub(super) fn settle<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        stands: TallyStands,
    ) -> Result<(), StoreFault> {
        let newest = self.newest_kept().map(|kept| kept.seq);
        let is_newest = |ring: &Ring| ring.newest().map(|(seq, _)| seq) == newest;
        for ring in [&mut self.openings, &mut self.refusals] {
            let doubted = is_newest(ring);
            ring.settle(pages, doubted, stands)?;
        }
        Ok(())
    }

    /// Whether a record of that ring would find room.
    pub(super) fn has_room<F: NorFlash>(&self, which: audit::Ring) -> bool {
        match which {
            audit::Ring::Openings => self.openings.has_room::<F>(),
            audit::Ring::Refusals => self.refusals.has_room::<F>(),
        }
    }

    /// The ordinal of the next record of that ring.
    pub(super) fn next_ordinal(&self, which: audit::Ring) -> Option<u32> {
        match which {
            audit::Ring::Openings => self.openings.next_ordinal(),
            audit::Ring::Refusals => self.refusals.next_ordinal(),
        }
    }

    /// Makes a record durable under its numbers.
    pub(super) fn push<F: NorFlash>(
        &mut self,
        pages: &mut Pages<F>,
        kept: &Kept,
    ) -> Result<(), StoreFault> {
        match kept.record.event.ring() {
            audit::Ring::Openings => &mut self.openings,
            audit::Ring::Refusals => &mut self.refusals,
        }
        .push(pages, kept)
    }

    /// Whether a page is due to be erased.
    pub(super) const fn is_due(&self) -> bool {
        self.openings.is_due() || self.refusals.is_due()
    }

    /// Erases the next page of each ring if that is due.
    pub(super) fn tend<F: NorFlash>(&mut self, pages: &mut Pages<F>) -> Result<(), StoreFault> {
        let openings = self.openings.tend(pages);
        self.refusals.tend(pages).and(openings)
    }

    /// The newest record.
    pub(super) fn newest(&self) -> Option<(Seq, Record)> {
        self.newest_kept().map(|kept| (kept.seq, kept.record))
    }

    /// What the records say that `memo` does not know, and what it says; the
    /// newest record, which a power cut may have torn, is left out.
    pub(super) fn conclude<F: NorFlash>(&self, pages: &mut Pages<F>, memo: Memo) -> Memo {
        let mut concluded = memo;
        let Some((newest, _)) = self.newest() else { return concluded };
        for entry in self.records(pages, memo.next) {
            match entry {
                // Whatever else looks like a record is none.
                Entry::Record(seq, _) if seq >= newest => break,
                Entry::Record(seq, record) => concluded.see(seq, &record),
                Entry::Gap(_) => {}
            }
        }
        Memo { next: memo.next.max(newest), ..concluded }
    }

    /// Whether what is due to be erased has records from `saved` on. The newest
    /// one lies elsewhere; what is due has copies of it at most.
    pub(super) fn would_lose<F: NorFlash>(
        &self,
        pages: &mut Pages<F>,
        saved: Seq,
    ) -> Result<bool, StoreFault> {
        let Some((newest, _)) = self.newest() else { return Ok(false) };
        Ok(self.openings.would_lose(pages, saved, newest)?
            || self.refusals.would_lose(pages, saved, newest)?)
    }

    /// The records from number `from` on, in order.
    pub(super) fn records<'a, F: NorFlash>(
        &self,
        pages: &'a mut Pages<F>,
        from: Seq,
    ) -> Records<'a, F> {
        // Where nothing was overwritten, whatever is missing is lost.
        let mut oldest = Seq(0);
        for ring in [&self.openings, &self.refusals] {
            let mut walk = ring.walk(pages, Seq(0));
            if walk.has_gone_round()
                && let Some(first) = walk.next(pages)
            {
                oldest = oldest.max(first.seq);
            }
        }
        let mut source =
            |ring: &Ring| Source { walk: ring.walk(pages, from), head: None, last: None };
        let mut sources = [source(&self.openings), source(&self.refusals)];
        for source in &mut sources {
            source.advance(pages);
            while source.head.is_some_and(|head| head.seq < from) {
                source.advance(pages);
            }
        }
        Records { pages, sources, due: from.max(FIRST), oldest }
    }
}

/// The number of the first record of a lock's life.
const FIRST: Seq = Seq(1);

/// One ring, as the list draws from it.
struct Source {
    walk: Walk,
    /// Its next record.
    head: Option<Kept>,
    /// The ordinal of the last record before `head` that is accounted for.
    last: Option<u32>,
}

impl Source {
    fn advance<F: NorFlash>(&mut self, pages: &mut Pages<F>) -> Option<Kept> {
        let next = self.walk.next(pages);
        let taken = core::mem::replace(&mut self.head, next);
        self.last = taken.map(|kept| kept.ordinal).or(self.last);
        taken
    }

    /// How many records are lost before `head`, if it lies below `oldest`; they
    /// are told once. Of a head beyond it, what is lost shows in the numbers.
    fn lost(&mut self, oldest: Seq) -> u32 {
        let head = self.head.filter(|head| head.seq < oldest);
        let (Some(head), Some(last)) = (head, self.last) else { return 0 };
        self.last = head.ordinal.checked_sub(1);
        head.ordinal.saturating_sub(last).saturating_sub(1)
    }
}

/// The audit in order of its numbers, merged from both rings: whatever lies in
/// flash, each item goes on where the last one ended.
pub struct Records<'a, F> {
    pages: &'a mut Pages<F>,
    sources: [Source; 2],
    /// The number to be listed next.
    due: Seq,
    /// Below this number records of one of the rings were overwritten.
    oldest: Seq,
}

impl<F: NorFlash> Records<'_, F> {
    fn gap(&mut self, from: Seq, to: Seq) -> Entry {
        let [openings, refusals] = &mut self.sources;
        let oldest = self.oldest;
        let told = openings.lost(oldest).saturating_add(refusals.lost(oldest));
        let all = to.0.saturating_sub(from.0).saturating_add(1);
        let lost = if from >= self.oldest { all } else { told.min(all) };
        Entry::Gap(Gap { from, to, lost })
    }
}

impl<F: NorFlash> Iterator for Records<'_, F> {
    type Item = Entry;

    fn next(&mut self) -> Option<Entry> {
        loop {
            let [openings, refusals] = &self.sources;
            let second = match (&openings.head, &refusals.head) {
                (Some(a), Some(b)) => b.seq < a.seq,
                (None, _) => true,
                (Some(_), None) => false,
            };
            let [openings, refusals] = &mut self.sources;
            let source = if second { refusals } else { openings };
            let seq = source.head?.seq;
            let from = self.due;
            if seq > from {
                self.due = seq;
                return Some(self.gap(from, Seq(seq.0.saturating_sub(1))));
            }
            let kept = source.advance(self.pages)?;
            // What is listed already has no place here.
            if seq >= from {
                self.due = Seq(seq.0.saturating_add(1));
                return Some(Entry::Record(seq, kept.record));
            }
        }
    }
}
