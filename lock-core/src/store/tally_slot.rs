//! Tally entries in slots of 32 bytes, and the checkpoint at the head of each
//! page of the tally, six slots long.
//!
//! ```text
//! entry                                  checkpoint
//!  0  kind        u8                      0   kind        u8  64
//!  1  -           u8   0                  1   penalty     u8  0 served, 1 running
//!  2  number      u8   erased: none       2   clock       u8  0 believed, 1 doubted
//!  3  index       u8   in the page        3   held        u8  0 none, 1 yes
//!  4  generation  u32  of the page        4   generation  u32 rises by one a page
//!  8  value       u32  erased: none       8   held until  u32 UTC; erased: none
//! 12  -           16   erased             12  step        u8
//! 28  check       u32  CRC-32 of 0..28    13  totals      100 × u8, 0-100
//!                                         113 shares      50 × two of 4 bits,
//! kind 65 counted n    69 faded                           the even number low
//!      66 cleared n    70 held-shut until 163 outcome     u8  newest: 1 plain,
//!      67 penalty      71 clock-doubt                         2 duress; erased: none
//!      68 served       72 nothing         164 last word   u8  0 shut, 1 open
//!                                         165 floor known u8  0 no, 1 yes
//!                                         166 floor       u32 UTC
//!                                         170 sequence    u32 the next at the least
//!                                         174 settling    u8  0 no, 1 yes
//! kind 73 corrected (value: seconds)      175 -           u8  0
//!      74 corrections-over                176 before      u32 UTC; erased: none
//!      75 clock-set (value: UTC before)   180 corrected   u32 seconds
//!      76 settled                         184 collected   u32 sequence
//!      77 collected (value: sequence)
//!                                         188 check       u32 CRC-32 of 0..188
//! ```

use core::num::NonZeroU8;

use super::bytes::{ERASED, Put, Take, fill};
use super::layout::{LAST_GENERATION, SLOT};
use super::memo::Memo;
use crate::audit::{Outcome, Seq};
use crate::holder::Number;
use crate::policy::NUMBER_LIMIT;
use crate::port::{StoreFault, Tally};
use crate::recovered::LastWord;
use crate::tally::{ClockMark, PenaltyMark, TallyState};
use crate::time::{Seconds, Utc};

/// Slots of a checkpoint.
pub(super) const CHECKPOINT_SLOTS: u32 = 6;
/// Bytes of a checkpoint.
pub(super) const CHECKPOINT: usize = 192;

const KIND_CHECKPOINT: u8 = 64;

/// Counts the tally's pages as they are begun.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) struct Generation(pub(super) u32);

impl Generation {
    /// What a record says of it.
    pub(super) const fn low_byte(self) -> u8 {
        let [low, _, _, _] = self.0.to_le_bytes();
        low
    }
}

/// An entry, and where it belongs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Entry {
    pub(super) generation: Generation,
    /// Its number among the entries of its page, from 0.
    pub(super) index: u8,
    /// `None` changes nothing: it stands where an entry is needed.
    pub(super) tally: Option<Tally>,
}

/// The slot of an entry.
pub(super) fn encode(entry: &Entry) -> Result<[u8; SLOT], StoreFault> {
    let (kind, number, until) = match entry.tally {
        Some(Tally::Counted(number)) => (65, number.get(), u32::MAX),
        Some(Tally::Cleared(number)) => (66, number.get(), u32::MAX),
        Some(Tally::Penalty) => (67, ERASED, u32::MAX),
        Some(Tally::Served) => (68, ERASED, u32::MAX),
        Some(Tally::Faded) => (69, ERASED, u32::MAX),
        Some(Tally::HeldShut(until)) => (70, ERASED, until.as_secs()),
        Some(Tally::ClockDoubt) => (71, ERASED, u32::MAX),
        None => (72, ERASED, u32::MAX),
        Some(Tally::Corrected(by)) => (73, ERASED, by.get()),
        Some(Tally::CorrectionsOver) => (74, ERASED, u32::MAX),
        Some(Tally::ClockSet(before)) => (75, ERASED, before.as_secs()),
        Some(Tally::Settled) => (76, ERASED, u32::MAX),
        Some(Tally::Collected(upto)) => (77, ERASED, upto.0),
    };
    let mut slot = [ERASED; SLOT];
    fill(&mut slot, |put| {
        put.bytes(&[kind, 0, number, entry.index]);
        put.u32(entry.generation.0);
        put.u32(until);
    })?;
    Ok(slot)
}

/// The entry in a sealed slot, or `None` if it holds none of that generation.
pub(super) fn decode(generation: Generation, slot: &[u8; SLOT]) -> Option<Entry> {
    let mut take = Take::from(slot);
    let [kind, zero, number, index] = take.array();
    if zero != 0 || take.u32() != generation.0 {
        return None;
    }
    let until = Utc::from_secs(take.u32());
    let tally = match kind {
        65 => Some(Tally::Counted(Number::new(number)?)),
        66 => Some(Tally::Cleared(Number::new(number)?)),
        67 => Some(Tally::Penalty),
        68 => Some(Tally::Served),
        69 => Some(Tally::Faded),
        70 => Some(Tally::HeldShut(until)),
        71 => Some(Tally::ClockDoubt),
        72 => None,
        73 => Some(Tally::Corrected(Seconds::new(until.as_secs()))),
        74 => Some(Tally::CorrectionsOver),
        75 => Some(Tally::ClockSet(until)),
        76 => Some(Tally::Settled),
        77 => Some(Tally::Collected(Seq(until.as_secs()))),
        _ => return None,
    };
    Some(Entry { generation, index, tally })
}

/// How far a page of the tally is filled: the place of its next entry, from 1.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) struct Fill(NonZeroU8);

impl Fill {
    /// More than any page takes: nobody can tell.
    pub(super) const UNKNOWN: Self = Self(match NonZeroU8::new(127) {
        Some(most) => most,
        None => NonZeroU8::MIN,
    });

    /// The next entry comes to `slot` of its page, or to the next page.
    pub(super) fn up_to(slot: u32) -> Option<Self> {
        let place = slot.checked_sub(CHECKPOINT_SLOTS)?.checked_add(1)?;
        Self::new(u8::try_from(place).ok()?)
    }

    /// As [`Fill::get`] says it.
    pub(super) fn new(place: u8) -> Option<Self> {
        NonZeroU8::new(place).map(Self)
    }

    /// 1 to 123: a page has 128 slots at most, and the first six are its
    /// checkpoint.
    pub(super) const fn get(self) -> u8 {
        self.0.get()
    }
}

/// What a checkpoint keeps.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Checkpoint {
    pub(super) generation: Generation,
    pub(super) state: TallyState,
    pub(super) memo: Memo,
}

/// A checkpoint at the head of a page of its generation.
pub(super) fn encode_checkpoint(
    generation: Generation,
    state: &TallyState,
    memo: &Memo,
) -> Result<[u8; CHECKPOINT], StoreFault> {
    let mut block = [ERASED; CHECKPOINT];
    fill(&mut block, |put| put_checkpoint(generation, state, memo, put))?;
    Ok(block)
}

fn put_checkpoint(generation: Generation, state: &TallyState, memo: &Memo, put: &mut Put<'_>) {
    put.u8(KIND_CHECKPOINT);
    put.u8(match state.penalty {
        PenaltyMark::Served => 0,
        PenaltyMark::Running => 1,
    });
    put.u8(match state.clock {
        ClockMark::Believed => 0,
        ClockMark::Doubted => 1,
    });
    put.u8(u8::from(state.held_until.is_some()));
    put.u32(generation.0);
    put.u32(state.held_until.map_or(u32::MAX, Utc::as_secs));
    put.u8(state.step);
    put.bytes(&state.totals);
    let (pairs, _) = state.shares.as_chunks::<2>();
    for [low, high] in pairs {
        let [low, high] = [low, high].map(|share| (*share).min(TallyState::SHARE_MOST));
        put.u8(low | high << 4);
    }
    put.u8(match memo.outcome {
        None => ERASED,
        Some(Outcome::Plain) => 1,
        Some(Outcome::Duress) => 2,
    });
    put.u8(match memo.word {
        LastWord::Shut => 0,
        LastWord::Open => 1,
    });
    put.u8(u8::from(memo.floor.is_some()));
    put.u32(memo.floor.map_or(u32::MAX, Utc::as_secs));
    put.u32(memo.next.0);
    put.u8(u8::from(state.settling.is_some()));
    put.u8(0);
    put.u32(state.settling.map_or(u32::MAX, Utc::as_secs));
    put.u32(state.corrected.get());
    put.u32(state.collected.0);
}

/// The checkpoint in a sealed block, or `None` if it is none.
pub(super) fn decode_checkpoint(block: &[u8; CHECKPOINT]) -> Option<Checkpoint> {
    let mut take = Take::from(block);
    let [kind, penalty, clock, held] = take.array();
    let generation = Generation(take.u32());
    let until = Utc::from_secs(take.u32());
    let mut state = TallyState { step: take.u8(), totals: take.array(), ..TallyState::NEW };
    let (pairs, _) = state.shares.as_chunks_mut::<2>();
    for pair in pairs {
        let both = take.u8();
        *pair = [both & TallyState::SHARE_MOST, both >> 4];
    }
    state.penalty = match penalty {
        0 => PenaltyMark::Served,
        1 => PenaltyMark::Running,
        _ => return None,
    };
    state.clock = match clock {
        0 => ClockMark::Believed,
        1 => ClockMark::Doubted,
        _ => return None,
    };
    state.held_until = match held {
        0 => None,
        1 => Some(until),
        _ => return None,
    };
    let [outcome, word, floor_known] = take.array();
    let floor = Utc::from_secs(take.u32());
    let memo = Memo {
        outcome: match outcome {
            ERASED => None,
            1 => Some(Outcome::Plain),
            2 => Some(Outcome::Duress),
            _ => return None,
        },
        word: match word {
            0 => LastWord::Shut,
            1 => LastWord::Open,
            _ => return None,
        },
        floor: match floor_known {
            0 => None,
            1 => Some(floor),
            _ => return None,
        },
        next: Seq(take.u32()),
    };
    let [settling, _] = take.array();
    let before = Utc::from_secs(take.u32());
    state.settling = match settling {
        0 => None,
        1 => Some(before),
        _ => return None,
    };
    state.corrected = Seconds::new(take.u32());
    state.collected = Seq(take.u32());
    let sane = kind == KIND_CHECKPOINT
        && generation.0 <= LAST_GENERATION
        && state.totals.iter().all(|n| *n <= NUMBER_LIMIT);
    sane.then_some(Checkpoint { generation, state, memo })
}
