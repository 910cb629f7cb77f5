//! The extracts of one lock, one after the other: what of each is new, what is
//! missing between them, and whether they tell the same where they overlap.

use lock_core::audit::{Entry, Gap, Record, Seq};
use lock_core::link::extract::Item;

/// Reads the extracts of one lock in the order in which they were made.
#[derive(Default)]
pub struct Collection {
    /// The highest number told of so far.
    told: Option<Seq>,
    /// The records of the extract before, for those that follow to agree with.
    before: Vec<(Seq, Record)>,
    /// Those of the extract that is being read.
    now: Vec<(Seq, Record)>,
    /// The number that must come next in the extract that is being read.
    next: Option<Seq>,
}

/// What an entry is to the extracts before it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum News {
    /// Not told of before; a gap is cut to its new part.
    New(Entry),
    /// New, after numbers that are missing between this extract and the one
    /// before: overwritten before they were collected.
    After(Gap, Entry),
    /// Told of before, and the same.
    Known,
    /// Another record was told of under this number.
    Contradicts(Seq),
    /// Its number does not follow the one before it.
    OutOfOrder(Seq),
    /// So many records that the extract was not asked for.
    LeftOut(u32),
}

impl Collection {
    /// The next extract begins.
    pub fn begin(&mut self) {
        let now = std::mem::take(&mut self.now);
        if !now.is_empty() {
            self.before = now;
        }
        self.next = None;
    }

    /// Whether an earlier extract told of anything.
    #[must_use]
    pub const fn has_told(&self) -> bool {
        self.told.is_some()
    }

    /// What comes next in an extract of everything.
    pub fn take(&mut self, item: &Item) -> News {
        let starts = self.next.is_none();
        let entry = match self.follow(item) {
            Ok(entry) => entry,
            Err(news) => return news,
        };
        if let Entry::Record(seq, record) = &entry {
            self.now.push((*seq, *record));
            if self.told.is_some_and(|told| *seq <= told) {
                return self.compare(*seq, record);
            }
        }
        self.add(item.first(), &entry, starts)
    }

    /// What comes next in an extract of some records. It is news only behind all
    /// that extracts of everything have told.
    pub fn take_partial(&mut self, item: &Item) -> News {
        let entry = match self.follow(item) {
            Ok(entry) => entry,
            Err(news) => return news,
        };
        if self.told.is_none_or(|told| told < item.first()) {
            return News::New(entry);
        }
        match &entry {
            Entry::Record(seq, record) => self.compare(*seq, record),
            Entry::Gap(_) => News::Known,
        }
    }

    /// The entry of an item that follows the one before it.
    fn follow(&mut self, item: &Item) -> Result<Entry, News> {
        let (first, last) = (item.first(), item.last());
        if self.next.is_some_and(|next| next != first) || last < first {
            return Err(News::OutOfOrder(first));
        }
        self.next = Some(Seq(last.0.saturating_add(1)));
        match item {
            Item::Record(seq, record) => Ok(Entry::Record(*seq, *record)),
            Item::Gap(gap) => Ok(Entry::Gap(*gap)),
            Item::LeftOut { .. } => {
                Err(News::LeftOut(last.0.saturating_sub(first.0).saturating_add(1)))
            }
        }
    }

    fn compare(&self, seq: Seq, record: &Record) -> News {
        let found = self.before.binary_search_by_key(&seq, |(seq, _)| *seq);
        match found.ok().and_then(|at| self.before.get(at)) {
            Some((_, told)) if told != record => News::Contradicts(seq),
            Some(_) | None => News::Known,
        }
    }

    fn add(&mut self, first: Seq, entry: &Entry, starts: bool) -> News {
        let told = self.told;
        if told.is_some_and(|told| entry.last() <= told) {
            return News::Known;
        }
        self.told = Some(entry.last());
        let Some(told) = told else { return News::New(*entry) };
        let expected = Seq(told.0.saturating_add(1));
        match entry {
            Entry::Gap(gap) if gap.from < expected => {
                let left = gap.to.0.saturating_sub(told.0);
                let lost = gap.lost.min(left);
                News::New(Entry::Gap(Gap { from: expected, to: gap.to, lost }))
            }
            Entry::Gap(_) | Entry::Record(..) if starts && first > expected => {
                let to = Seq(first.0.saturating_sub(1));
                News::After(Gap { from: expected, to, lost: 0 }, *entry)
            }
            Entry::Gap(_) | Entry::Record(..) => News::New(*entry),
        }
    }
}
