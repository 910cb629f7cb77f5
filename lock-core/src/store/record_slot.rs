//! A record in a slot of 32 bytes: `docs/flash-layout.md` has the table.

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
