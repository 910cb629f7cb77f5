//! Tally entries in slots of 32 bytes, and the checkpoint at the head of each page of the
//! tally, six slots long: `docs/flash-layout.md` has the tables.

use core::num::NonZeroU8;

use super::bytes::{ERASED, Put, Take, fill};
use super::layout::{LAST_GENERATION, SLOT};
use super::memo::{Memo, Word};
use crate::audit::{Outcome, People, Seq};
use crate::holder::Number;
use crate::policy::NUMBER_LIMIT;
use crate::port::{StoreFault, Tally};
use crate::rules::supply::Level;
use crate::tally::{ClockMark, PenaltyMark, SetUp, Settling, TallyState, WEIGHTS};
use crate::time::{Seconds, Shift, Steady, Utc};

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

/// What an entry says, apart from where it belongs.
struct Fields {
    kind: u8,
    number: u8,
    value: u32,
    shift: u32,
    second: u8,
}

impl Fields {
    const fn kind(kind: u8) -> Self {
        Self { kind, number: ERASED, value: u32::MAX, shift: u32::MAX, second: ERASED }
    }

    const fn of_number(kind: u8, number: Number) -> Self {
        Self { number: number.get(), ..Self::kind(kind) }
    }

    const fn value(kind: u8, value: u32) -> Self {
        Self { value, ..Self::kind(kind) }
    }

    const fn shift(self, shift: Shift) -> Self {
        Self { shift: shift.as_secs().cast_unsigned(), ..self }
    }

    fn of(tally: Option<Tally>) -> Self {
        match tally {
            Some(Tally::Counted(number)) => Self::of_number(65, number),
            Some(Tally::Cleared(number)) => Self::of_number(66, number),
            Some(Tally::Penalty) => Self::kind(67),
            Some(Tally::Served) => Self::kind(68),
            Some(Tally::Faded(number)) => Self::of_number(69, number),
            Some(Tally::HeldShut(until)) => Self::value(70, until.as_secs()),
            Some(Tally::ClockDoubt(at)) => Self::value(71, at.map_or(u32::MAX, Steady::as_secs)),
            None => Self::kind(72),
            Some(Tally::Corrected { by, shift }) => Self::value(73, by.get()).shift(shift),
            Some(Tally::CorrectionsOver) => Self::kind(74),
            Some(Tally::ClockSet(shift)) => Self::kind(75).shift(shift),
            Some(Tally::Settled) => Self::kind(76),
            Some(Tally::Collected(upto)) => Self::value(77, upto.0),
            Some(Tally::Eased) => Self::kind(78),
            Some(Tally::Brought(at)) => Self::value(79, at.as_secs()),
            Some(Tally::SettingUp) => Self::kind(80),
            Some(Tally::SetUp) => Self::kind(81),
            Some(Tally::PoweredUp) => Self::kind(82),
            Some(Tally::WayOut(People { first, second })) => {
                Self { second: second.map_or(ERASED, Number::get), ..Self::of_number(83, first) }
            }
            Some(Tally::WayOutOver) => Self::kind(84),
        }
    }

    /// The entry; the outer `None` if there is no such one.
    fn tally(&self) -> Option<Option<Tally>> {
        let number = || Number::new(self.number);
        let shift = Shift::from_secs(self.shift.cast_signed());
        let steady = Steady::from_secs(self.value);
        Some(Some(match self.kind {
            65 => Tally::Counted(number()?),
            66 => Tally::Cleared(number()?),
            67 => Tally::Penalty,
            68 => Tally::Served,
            69 => Tally::Faded(number()?),
            70 => Tally::HeldShut(steady),
            71 => Tally::ClockDoubt(Some(steady).filter(|at| at.as_secs() != u32::MAX)),
            72 => return Some(None),
            73 => Tally::Corrected { by: Seconds::new(self.value), shift },
            74 => Tally::CorrectionsOver,
            75 => Tally::ClockSet(shift),
            76 => Tally::Settled,
            77 => Tally::Collected(Seq(self.value)),
            78 => Tally::Eased,
            79 => Tally::Brought(steady),
            80 => Tally::SettingUp,
            81 => Tally::SetUp,
            82 => Tally::PoweredUp,
            83 => Tally::WayOut(People { first: number()?, second: maybe(self.second)? }),
            84 => Tally::WayOutOver,
            _ => return None,
        }))
    }
}

/// A number that may be missing; the outer `None` if it is none.
fn maybe(number: u8) -> Option<Option<Number>> {
    match number {
        ERASED => Some(None),
        number => Number::new(number).map(Some),
    }
}

/// The slot of an entry.
pub(super) fn encode(entry: &Entry) -> Result<[u8; SLOT], StoreFault> {
    let Fields { kind, number, value, shift, second } = Fields::of(entry.tally);
    let mut slot = [ERASED; SLOT];
    fill(&mut slot, |put| {
        put.bytes(&[kind, 0, number, entry.index]);
        put.u32(entry.generation.0);
        put.u32(value);
        put.u32(shift);
        put.u8(second);
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
    let (value, shift, second) = (take.u32(), take.u32(), take.u8());
    let tally = Fields { kind, number, value, shift, second }.tally()?;
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
    put.u8(u8::from(state.penalty == PenaltyMark::Running));
    put.u8(u8::from(state.clock == ClockMark::Doubted));
    put.u8(u8::from(state.held_until.is_some()));
    put.u32(generation.0);
    put.u32(state.held_until.map_or(u32::MAX, Steady::as_secs));
    put.u8(state.step);
    put.bytes(&state.totals);
    for place in 0..WEIGHTS {
        put.u8(state.weights.get(place).map_or(ERASED, |number| number.get()));
    }
    put_memo(memo, put);
    put.u8(u8::from(state.settling == Settling::Yes));
    put.u8(u8::from(state.set_up == SetUp::Done));
    put.u32(state.corrected.get());
    put.u32(state.collected.0);
    put.u32(state.shift.as_secs().cast_unsigned());
    put_steady(state.doubted_at, put);
    put_steady(state.brought, put);
    put_people(state.way_out, put);
    put.u32(state.power_ups);
    put.u8(match memo.supply {
        Level::Spent => 1,
        Level::Low => 2,
        Level::Good => 3,
    });
}

fn put_memo(memo: &Memo, put: &mut Put<'_>) {
    put.u8(match memo.outcome {
        None => ERASED,
        Some(Outcome::Plain) => 1,
        Some(Outcome::Duress) => 2,
    });
    let (word, opened) = match memo.word {
        Word::Shut => (0, None),
        Word::Released => (1, None),
        Word::Opened(at) => (2, at),
        Word::Forced => (3, None),
    };
    put.u8(word);
    put_people(memo.people, put);
    put_utc(opened, put);
    put.u8(memo.power_ups);
    put_utc(memo.floor, put);
    put.u32(memo.next.0);
}

fn put_utc(utc: Option<Utc>, put: &mut Put<'_>) {
    put.u8(u8::from(utc.is_some()));
    put.u32(utc.map_or(u32::MAX, Utc::as_secs));
}

fn put_steady(steady: Option<Steady>, put: &mut Put<'_>) {
    put.u8(u8::from(steady.is_some()));
    put.u32(steady.map_or(u32::MAX, Steady::as_secs));
}

fn put_people(people: Option<People>, put: &mut Put<'_>) {
    put.u8(people.map_or(ERASED, |people| people.first.get()));
    put.u8(people.and_then(|people| people.second).map_or(ERASED, Number::get));
}

/// Seconds that may be unknown; the outer `None` if that is not said.
fn take_known(take: &mut Take<'_>) -> Option<Option<u32>> {
    let (known, seconds) = (take.u8(), take.u32());
    yes(known).map(|known| known.then_some(seconds))
}

fn take_people(take: &mut Take<'_>) -> Option<Option<People>> {
    let [first, second] = take.array();
    let (first, second) = (maybe(first)?, maybe(second)?);
    Some(first.map(|first| People { first, second }))
}

/// No or yes; `None` if it is neither.
const fn yes(byte: u8) -> Option<bool> {
    match byte {
        0 => Some(false),
        1 => Some(true),
        _ => None,
    }
}

/// The checkpoint in a sealed block, or `None` if it is none.
pub(super) fn decode_checkpoint(block: &[u8; CHECKPOINT]) -> Option<Checkpoint> {
    let mut take = Take::from(block);
    let [kind, penalty, clock, held] = take.array();
    let generation = Generation(take.u32());
    let until = take.u32();
    let mut state = TallyState { step: take.u8(), totals: take.array(), ..TallyState::NEW };
    let weights: [u8; WEIGHTS] = take.array();
    for number in weights.into_iter().take_while(|number| *number != ERASED) {
        state.weights.push(Number::new(number)?).ok()?;
    }
    state.penalty = if yes(penalty)? { PenaltyMark::Running } else { PenaltyMark::Served };
    state.clock = if yes(clock)? { ClockMark::Doubted } else { ClockMark::Believed };
    state.held_until = yes(held)?.then_some(Steady::from_secs(until));
    let mut memo = take_memo(&mut take)?;
    let [settling, set_up] = take.array();
    state.settling = if yes(settling)? { Settling::Yes } else { Settling::No };
    state.set_up = if yes(set_up)? { SetUp::Done } else { SetUp::Going };
    state.corrected = Seconds::new(take.u32());
    state.collected = Seq(take.u32());
    state.shift = Shift::from_secs(take.u32().cast_signed());
    state.doubted_at = take_known(&mut take)?.map(Steady::from_secs);
    state.brought = take_known(&mut take)?.map(Steady::from_secs);
    state.way_out = take_people(&mut take)?;
    state.power_ups = take.u32();
    memo.supply = match take.u8() {
        1 => Level::Spent,
        2 => Level::Low,
        3 => Level::Good,
        _ => return None,
    };
    let sane = kind == KIND_CHECKPOINT
        && generation.0 <= LAST_GENERATION
        && state.totals.iter().all(|n| *n <= NUMBER_LIMIT);
    sane.then_some(Checkpoint { generation, state, memo })
}

fn take_memo(take: &mut Take<'_>) -> Option<Memo> {
    let [outcome, word] = take.array();
    let outcome = match outcome {
        ERASED => None,
        1 => Some(Outcome::Plain),
        2 => Some(Outcome::Duress),
        _ => return None,
    };
    let people = take_people(take)?;
    let opened = take_known(take)?.map(Utc::from_secs);
    let word = match word {
        0 => Word::Shut,
        1 => Word::Released,
        2 => Word::Opened(opened),
        3 => Word::Forced,
        _ => return None,
    };
    let power_ups = Some(take.u8()).filter(|n| *n <= 2)?;
    let floor = take_known(take)?.map(Utc::from_secs);
    let next = Seq(take.u32());
    Some(Memo { floor, outcome, word, people, power_ups, next, ..Memo::NEW })
}
