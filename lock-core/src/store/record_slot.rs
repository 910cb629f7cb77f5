//! A record in a slot of 32 bytes.
//!
//! ```text
//!  0  kind       u8   the table below
//!  1  -          u8   0: so that a first word never reads blank
//!  2  who        u8   number; erased: none
//!  3  second     u8   second of two people; erased: none
//!  4  detail     u8   reason, level or fault, by kind; erased: none
//!  5  outcome    u8   1 plain, 2 duress; erased: none
//!  6  flags      u8   bit 0: time known; bits 1-7: 0, or of a boot's copy how far
//!                     the tally's page was filled
//!  7  tally      u8   low byte of the generation of the tally's page
//!  8  sequence   u32
//! 12  time       u32  UTC seconds; erased: unknown
//! 16  value      u32  seconds, UTC or millivolts, by kind; erased: none
//! 20  ordinal    u32  among the records of its ring, from 1
//! 24  generation u32  of its page, from 1
//! 28  check      u32  CRC-32 of bytes 0..28
//!
//! kind              who  second  detail          outcome  value
//!  1 powered-up
//!  2 released        x     x                        x
//!  3 opened
//!  4 secured                                               seconds open
//!  5 not-drawn
//!  6 left-open
//!  7 forced
//!  8 delay-started   x     x                        x
//!  9 lapsed
//! 10 cancelled                    1-6 what ended it
//! 11 first-of-two    x                              x
//! 12 wrong-code      x
//! 13 refused         x            0-15 reason       x
//! 14 penalty                                               seconds
//! 15 held-shut       x                              x      UTC of its end
//! 16 status          x                              x
//! 17 supply                       1-3 level                millivolts
//! 18 clock-invalid
//! 19 fault                        1-5 in what
//! 20 asked           x            0-15 task         x
//! 21 commissioned    x     x      number
//! 22 enrolled        x     x      number                   role, 1-5
//! 23 code-changed    x     x      number
//! 24 role-changed    x     x      number                   role, 1-5
//! 25 timetable-c.    x     x      number                   0 always, 1-4 A-D
//! 26 suspended       x     x      number
//! 27 restored        x     x      number
//! 28 removed         x     x      number
//! 29 clock-corrected x     x                               seconds, signed
//! 30 clock-set       x     x
//! 31 policy-set      x     x      0-12 key                 its value
//! 32 paired          x     x                               generation
//! 33 file-loaded     x     x                               version
//! 34 file-waits      x     x                               version
//! 35 audit-collected x     x                               sequence
//! 36 alarm-tested    x     x
//! 37 reset-begun     x     x
//! 38 reset-cancelled x     x
//! 39 reset           x     x
//! ```
//!
//! Details: a cancel's 1 window-end, 2 inhibit, 3 held-shut, 4 forced,
//! 5 barred, 6 clock; a refusal's place in [`Refusal::ALL`]; 1 spent, 2 low,
//! 3 good; a fault's 1 blank, 2 settings, 3 store, 4 drive, 5 bug; a task's place
//! in [`Task::ALL`]; a policy key's number ([`Bound::number`]). Kinds 21 to 39 have no `who` where
//! nobody changed it but a time that came.
//!
//! A duress entry's slot differs from a plain one's in bytes 5 and 28..32 only
//! (R4).

use super::bytes::{ERASED, Take, fill};
use super::layout::SLOT;
use super::tally_slot::Fill;
use crate::audit::{Fields, Record, Seq};
use crate::port::StoreFault;
use crate::time::Utc;

/// A record, and where it belongs.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Kept {
    pub(super) seq: Seq,
    /// Its number among the records of its ring.
    pub(super) ordinal: u32,
    /// The generation of its page.
    pub(super) generation: u32,
    /// The low byte of the tally's generation when it was written.
    pub(super) tally: u8,
    /// Of a boot's copy: how far that page of the tally was filled.
    pub(super) copied: Option<Fill>,
    pub(super) record: Record,
}

/// The slot of a record.
pub(super) fn encode(kept: &Kept) -> Result<[u8; SLOT], StoreFault> {
    let Kept { seq, ordinal, generation, tally, copied, record } = kept;
    let fields = Fields::of(&record.event);
    let copied = copied.map_or(0, Fill::get).unbounded_shl(1);
    let mut slot = [ERASED; SLOT];
    fill(&mut slot, |put| {
        put.bytes(&[fields.kind, 0, fields.who, fields.second, fields.detail, fields.outcome]);
        put.bytes(&[copied | u8::from(record.at.is_some()), *tally]);
        put.u32(seq.0);
        put.u32(record.at.map_or(u32::MAX, Utc::as_secs));
        put.u32(fields.value);
        put.u32(*ordinal);
        put.u32(*generation);
    })?;
    Ok(slot)
}

/// The record in a sealed slot, or `None` if it holds none.
pub(super) fn decode(slot: &[u8; SLOT]) -> Option<Kept> {
    let mut take = Take::from(slot);
    let [kind, zero, who, second, detail, outcome, flags, tally] = take.array();
    let seq = Seq(take.u32());
    let at = Utc::from_secs(take.u32());
    let fields = Fields { kind, who, second, detail, outcome, value: take.u32() };
    let (ordinal, generation) = (take.u32(), take.u32());
    if zero != 0 {
        return None;
    }
    let record = Record { at: (flags & 1 == 1).then_some(at), event: fields.event()? };
    let copied = Fill::new(flags.unbounded_shr(1));
    Some(Kept { seq, ordinal, generation, tally, copied, record })
}
