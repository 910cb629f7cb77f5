//! Tally entries in slots of 32 bytes, and the checkpoint at the head of each
//! page of the tally, six slots long.
//!
//! ```text
//! entry                                  checkpoint
//!  0  kind        u8                      0   kind        u8  64
//!  1  number      u8   erased: none       1   penalty     u8  0 served, 1 running
//!  2  -           2    erased             2   clock       u8  0 believed, 1 doubted
//!  4  generation  u32  of the page        3   held        u8  0 none, 1 yes
//!  8  until       u32  UTC; erased: none  4   generation  u32 rises by one a page
//! 12  -           16   erased             8   held until  u32 UTC; erased: none
//! 28  check       u32  CRC-32 of 0..28    12  step        u8
//!                                         13  totals      100 × u8, 0-100
//! kind 65 counted n    69 faded           113 shares      50 × two of 4 bits,
//!      66 cleared n    70 held-shut until                 the even number low
//!      67 penalty      71 clock-doubt     163 -           25  erased
//!      68 served                          188 check       u32 CRC-32 of 0..188
//! ```

use super::bytes::{ERASED, Put, Take, is_sealed, seal};
use super::layout::SLOT;
use crate::holder::Number;
use crate::policy::NUMBER_LIMIT;
use crate::port::Tally;
use crate::tally::{ClockMark, PenaltyMark, TallyState};
use crate::time::Utc;

/// Slots of a checkpoint.
pub(super) const CHECKPOINT_SLOTS: u32 = 6;
/// Bytes of a checkpoint.
pub(super) const CHECKPOINT: usize = 192;

const KIND_CHECKPOINT: u8 = 64;

/// Counts the tally's pages as they are begun.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub(super) struct Generation(pub(super) u32);

/// The slot of `entry` in a page of that generation.
pub(super) fn encode(generation: Generation, entry: Tally) -> [u8; SLOT] {
    let (kind, number, until) = match entry {
        Tally::Counted(number) => (65, number.get(), u32::MAX),
        Tally::Cleared(number) => (66, number.get(), u32::MAX),
        Tally::Penalty => (67, ERASED, u32::MAX),
        Tally::Served => (68, ERASED, u32::MAX),
        Tally::Faded => (69, ERASED, u32::MAX),
        Tally::HeldShut(until) => (70, ERASED, until.as_secs()),
        Tally::ClockDoubt => (71, ERASED, u32::MAX),
    };
    let mut slot = [ERASED; SLOT];
    let mut put = Put::into(&mut slot);
    put.bytes(&[kind, number, ERASED, ERASED]);
    put.u32(generation.0);
    put.u32(until);
    seal(&mut slot);
    slot
}

/// The entry in `slot`, or `None` if it holds none of that generation.
pub(super) fn decode(generation: Generation, slot: &[u8; SLOT]) -> Option<Tally> {
    if !is_sealed(slot) {
        return None;
    }
    let mut take = Take::from(slot);
    let [kind, number, _, _] = take.array();
    if take.u32() != generation.0 {
        return None;
    }
    let until = Utc::from_secs(take.u32());
    Some(match kind {
        65 => Tally::Counted(Number::new(number)?),
        66 => Tally::Cleared(Number::new(number)?),
        67 => Tally::Penalty,
        68 => Tally::Served,
        69 => Tally::Faded,
        70 => Tally::HeldShut(until),
        71 => Tally::ClockDoubt,
        _ => return None,
    })
}

/// The checkpoint of `state` at the head of a page of that generation.
pub(super) fn encode_checkpoint(generation: Generation, state: &TallyState) -> [u8; CHECKPOINT] {
    let mut block = [ERASED; CHECKPOINT];
    let mut put = Put::into(&mut block);
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
    seal(&mut block);
    block
}

/// The generation and state of the checkpoint in `block`, or `None` if it is
/// none.
pub(super) fn decode_checkpoint(block: &[u8; CHECKPOINT]) -> Option<(Generation, TallyState)> {
    if !is_sealed(block) {
        return None;
    }
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
    let sane = kind == KIND_CHECKPOINT && state.totals.iter().all(|n| *n <= NUMBER_LIMIT);
    sane.then_some((generation, state))
}
