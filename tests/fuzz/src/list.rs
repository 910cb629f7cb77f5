//! What a store lists, and what it was promised to list.

use embedded_storage::nor_flash::NorFlash;
use lock_core::audit::{Entry, Record, Ring, Seq};
use lock_core::store::FlashStore;

/// The records, in order.
///
/// # Panics
/// If the numbers do not follow one another, or the list has no end.
pub fn of<F: NorFlash>(store: &mut FlashStore<F>) -> Vec<(Seq, Record)> {
    let mut records = Vec::new();
    let mut due: u64 = 1;
    let mut entries: usize = 0;
    // No list is longer than what the flash has room for, a gap before each.
    let most = store.flash_mut().capacity() / 16;
    for entry in store.records(Seq(0)) {
        let first = match &entry {
            Entry::Record(seq, record) => {
                records.push((*seq, *record));
                *seq
            }
            Entry::Gap(gap) => {
                let named = u64::from(gap.to.0) + 1 - u64::from(gap.from.0);
                assert!(
                    u64::from(gap.lost) <= named,
                    "Invariant 8: a gap of {named} numbers is said to have lost {}",
                    gap.lost
                );
                gap.from
            }
        };
        let last = entry.last();
        assert!(
            u64::from(first.0) == due && last >= first,
            "Invariant 8: {} to {} are listed where {due} is due",
            first.0,
            last.0
        );
        due = u64::from(last.0) + 1;
        entries += 1;
        assert!(entries <= most, "Invariant 8: the list has no end");
    }
    records
}

/// Records that were reported durable.
#[derive(Clone, Default)]
pub struct Promised(Vec<Kept>);

#[derive(Clone, Copy)]
struct Kept {
    record: Record,
    /// Slots of its ring that may have been used up since: by records, by
    /// boots, which copy one, and by cuts, which tear one.
    spent: usize,
}

/// A ring with one page erased and one record in its newest page has this many
/// more, with pages of 256 bytes, the smallest.
const SAFE: usize = 7;

impl Promised {
    /// A write of that record returned `Ok`.
    pub fn durable(&mut self, record: Record) {
        self.attempt(record.event.ring());
        self.0.push(Kept { record, spent: 0 });
    }

    /// A write of a record in that ring failed: it may have used up a slot,
    /// and the look at the flash that follows two more.
    pub fn failed(&mut self, ring: Ring) {
        for _ in 0..3 {
            self.attempt(ring);
        }
    }

    fn attempt(&mut self, ring: Ring) {
        self.0
            .iter_mut()
            .filter(|kept| kept.record.event.ring() == ring)
            .for_each(|k| k.spent += 1);
        self.0.retain(|kept| kept.spent < SAFE);
    }

    /// The power went, or a boot began.
    pub fn spend(&mut self) {
        self.0.iter_mut().for_each(|kept| kept.spent += 1);
        self.0.retain(|kept| kept.spent < SAFE);
    }

    /// What was promised is listed, in the order in which it was written.
    ///
    /// # Panics
    /// If it is not.
    pub fn are_in(&self, listed: &[(Seq, Record)]) {
        let mut left = listed.iter().rev();
        for kept in self.0.iter().rev() {
            assert!(
                left.any(|(_, record)| *record == kept.record),
                "Invariant 1: {:?} was reported durable and is not listed",
                kept.record
            );
        }
    }

    /// Nothing is promised any more.
    pub fn forget(&mut self) {
        self.0.clear();
    }
}
