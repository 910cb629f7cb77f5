//! The codes of couriers that were given out: when, for whom, and what became of them.
//!
//! A lock looks only so far ahead ([`lock_core::code::one_time::LOOK_AHEAD`]), so no more
//! than [`OUTSTANDING`] may be out at once. A code is out until an extract shows that one
//! was used, or somebody says which one was. An extract does not say which: then the
//! oldest that was out counts as used, so that there are never fewer out than we think.

use std::collections::BTreeMap;

use lock_core::audit::Seq;
use lock_core::holder::Number;
use lock_core::pairing::LockNumber;
use lock_core::time::Utc;

use super::Keyring;

/// Most codes of a courier that are out at once: ours. The lock considers ten counters,
/// about one in eight of which both sides leave out.
pub const OUTSTANDING: usize = 6;

/// Entries of a courier that are kept once they are settled. A lock's ring holds some 330
/// openings.
const SETTLED: usize = 1_000;

/// Clock and laptop may differ by this much, in seconds.
const SKEW: u32 = 86_400;

/// What became of a code.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Fate {
    /// It may still be used.
    Out,
    /// It was used: by which record, or by word of mouth.
    Used(Option<Seq>),
    /// A later one was used, or the lock was reset: the lock takes it no more.
    Passed,
}

/// A code that was given out.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Issued {
    /// The generation of the key that it comes from.
    pub generation: u32,
    /// Its counter.
    pub counter: u32,
    /// When it was made, by the laptop's clock.
    pub at: Utc,
    /// What became of it.
    pub fate: Fate,
}

/// The codes of all couriers of all locks.
#[derive(Default)]
pub(super) struct Ledger(BTreeMap<(LockNumber, Number), Vec<Issued>>);

impl Ledger {
    pub(super) fn iter(&self) -> impl Iterator<Item = (LockNumber, Number, Issued)> + '_ {
        let all = self.0.iter();
        all.flat_map(|((lock, number), codes)| codes.iter().map(|code| (*lock, *number, *code)))
    }

    /// Takes over a row of a file.
    pub(super) fn put(&mut self, lock: LockNumber, number: Number, code: Issued) {
        self.0.entry((lock, number)).or_default().push(code);
    }

    /// How many of a courier's codes are out.
    pub(super) fn outstanding(&self, lock: LockNumber, number: Number) -> usize {
        let codes = self.0.get(&(lock, number)).into_iter().flatten();
        codes.filter(|code| code.fate == Fate::Out).count()
    }

    /// The lock was reset: it knows none of them.
    pub(super) fn pass_all(&mut self, lock: LockNumber, number: Number) {
        for code in self.0.get_mut(&(lock, number)).into_iter().flatten() {
            if code.fate == Fate::Out {
                code.fate = Fate::Passed;
            }
        }
    }

    /// A code is given out; the oldest settled ones are forgotten beyond [`SETTLED`].
    pub(super) fn give(&mut self, lock: LockNumber, number: Number, code: Issued) {
        let codes = self.0.entry((lock, number)).or_default();
        codes.push(code);
        let settled = codes.iter().filter(|code| code.fate != Fate::Out).count();
        let mut forget = settled.saturating_sub(SETTLED);
        codes.retain(|code| {
            let forgotten = forget > 0 && code.fate != Fate::Out;
            forget -= usize::from(forgotten);
            !forgotten
        });
    }
}

/// An opening that a courier's code began, as an extract tells of it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Use {
    /// The record.
    pub record: Seq,
    /// Its time, where the lock's clock was valid.
    pub at: Option<Utc>,
}

/// What came of the uses that extracts tell of.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub struct Settled {
    /// Codes that are known to be used only now.
    pub used: u32,
    /// Uses of codes that this ledger does not know to be out.
    pub unknown: u32,
}

impl Keyring {
    /// All codes that were given out, by lock and number, the oldest first.
    pub fn issued(&self) -> impl Iterator<Item = (LockNumber, Number, Issued)> + '_ {
        self.ledger.iter()
    }

    /// How many of a courier's codes are out.
    #[must_use]
    pub fn outstanding(&self, lock: LockNumber, number: Number) -> usize {
        self.ledger.outstanding(lock, number)
    }

    /// Takes over what extracts tell of a courier's openings, in the order of the
    /// records. What was taken over before changes nothing.
    pub fn settle(&mut self, lock: LockNumber, number: Number, uses: &[Use]) -> Settled {
        let mut settled = Settled::default();
        let Some(codes) = self.ledger.0.get_mut(&(lock, number)) else { return settled };
        let Some(first) = codes.first().map(|code| code.at) else { return settled };
        for one in uses {
            // From before the ledger was begun.
            let before =
                one.at.is_some_and(|at| at.as_secs().saturating_add(SKEW) < first.as_secs());
            if before || codes.iter().any(|code| code.fate == Fate::Used(Some(one.record))) {
                continue;
            }
            let could = |code: &&mut Issued| {
                let made =
                    one.at.is_none_or(|at| code.at.as_secs() <= at.as_secs().saturating_add(SKEW));
                code.fate == Fate::Out && made
            };
            match codes.iter_mut().find(could) {
                Some(code) => {
                    code.fate = Fate::Used(Some(one.record));
                    settled.used += 1;
                }
                None => settled.unknown += 1,
            }
        }
        settled
    }

    /// Somebody says that the code of that counter was used: those before it are good for
    /// nothing any more. `false` if no such code is out.
    pub fn told_used(&mut self, lock: LockNumber, number: Number, counter: u32) -> bool {
        let Some(codes) = self.ledger.0.get_mut(&(lock, number)) else { return false };
        let out = |code: &Issued| code.counter == counter && code.fate == Fate::Out;
        let Some(place) = codes.iter().rposition(out) else { return false };
        for code in codes.iter_mut().take(place).filter(|code| code.fate == Fate::Out) {
            code.fate = Fate::Passed;
        }
        if let Some(code) = codes.get_mut(place) {
            code.fate = Fate::Used(None);
        }
        true
    }
}
