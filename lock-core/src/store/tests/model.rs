//! What a store must hold, from plain lists of everything that was written.
//!
//! Written from the behaviour document and the promises of the store.

#![allow(
    clippy::wildcard_enum_match_arm,
    reason = "each question is about few entries; the strategies list all of them"
)]

use std::vec::Vec;

use super::super::FlashStore;
use crate::audit::{Change, Entry, Event, Outcome, People, Record, Ring, Seq};
use crate::port::{Tally, Write};
use crate::recovered::{LastWord, Recovered};
use crate::rules::supply::Level;
use crate::tally::{ClockMark, PenaltyMark, SetUp, Settling, TallyState};
use crate::time::{Shift, Steady, Utc};

/// Everything that was ever written, in order.
#[derive(Clone, Default)]
pub(super) struct Model {
    pub(super) records: Vec<Record>,
    pub(super) tallies: Vec<Tally>,
}

/// What a boot said that it concludes from records.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Says {
    floor: Option<Utc>,
    outcome: Option<Outcome>,
    word: LastWord,
    supply: Level,
    twice: bool,
}

impl Says {
    pub(super) const fn of(found: &Recovered) -> Self {
        Self {
            floor: found.floor,
            outcome: found.newest_outcome,
            word: found.last_word,
            supply: found.supply,
            twice: found.powered_up_twice,
        }
    }
}

/// Records that the rings promise to keep, less those that cuts may have cost.
#[derive(Clone, Copy)]
pub(super) struct Kept {
    pub(super) openings: usize,
    pub(super) refusals: usize,
}

impl Model {
    pub(super) fn write(&mut self, write: &Write) {
        match write {
            Write::Record(record) | Write::Edit(record) => self.records.push(*record),
            Write::Tally(tally) => self.tallies.push(*tally),
        }
    }

    /// Whether `listed` is what the rings may have left of the records: from
    /// each ring an unbroken run up to the newest, of the promised length at
    /// least.
    pub(super) fn lists(&self, listed: &[(Seq, Record)], kept: Kept) -> Result<(), &'static str> {
        for (ring, kept) in [(Ring::Openings, kept.openings), (Ring::Refusals, kept.refusals)] {
            let all: Vec<Record> =
                self.records.iter().copied().filter(|r| r.event.ring() == ring).collect();
            let seen = listed.iter().map(|(_, record)| *record);
            let seen: Vec<Record> = seen.filter(|r| r.event.ring() == ring).collect();
            if !all.ends_with(&seen) {
                return Err("a record is wrong, out of place or missing in between");
            }
            if seen.len() < kept.min(all.len()) {
                return Err("fewer records than promised");
            }
        }
        let rising = listed.windows(2).all(|pair| pair[0].0 < pair[1].0);
        if rising { Ok(()) } else { Err("numbers do not rise") }
    }

    fn total(&self, n: u8) -> u8 {
        let since_cleared = self.tallies.iter().rev().take_while(|t| !is_cleared(t, n));
        let total = since_cleared.filter(|t| is_counted(t, n)).count();
        u8::try_from(total.min(100)).unwrap()
    }

    /// The numbers of the tries that weigh, oldest first: each try stands until
    /// something behind it takes it away, as long as there is room for it.
    fn weights(&self) -> Vec<u8> {
        let mut tries: Vec<(usize, u8)> = Vec::new();
        for (at, entry) in self.tallies.iter().enumerate() {
            match entry {
                Tally::Counted(n) if tries.len() < 12 => tries.push((at, n.get())),
                Tally::Cleared(n) => tries.retain(|(_, m)| *m != n.get()),
                Tally::Penalty => tries.clear(),
                Tally::Faded(n) => {
                    let oldest = tries.iter().find(|(_, m)| *m == n.get()).map(|(at, _)| *at);
                    tries.retain(|(at, _)| Some(*at) != oldest);
                }
                _ => {}
            }
        }
        tries.into_iter().map(|(_, n)| n).collect()
    }

    /// What a boot must conclude, also from records overwritten since.
    pub(super) fn concluded(&self, found: &Says) -> Result<(), &'static str> {
        let sets = |record: &&Record| {
            matches!(record.event.kind(), "clock-corrected" | "clock-set") && record.at.is_some()
        };
        let set = self.records.iter().rposition(|record| sets(&record)).unwrap_or(0);
        let floor = self.records.iter().skip(set).filter_map(|record| record.at).max();
        if found.floor != floor {
            return Err("the floor is wrong");
        }
        let newest_first = || self.records.iter().rev();
        let heard = |before, record: &Record| record.event.heard(before);
        if found.outcome != self.records.iter().fold(None, heard) {
            return Err("the newest outcome is wrong");
        }
        if found.word != self.last_word() {
            return Err("the last word on the bolt is wrong");
        }
        let supply = newest_first().find_map(|record| match record.event.kind() {
            "supply-good" => Some(Level::Good),
            "supply-low" => Some(Level::Low),
            "supply-spent" => Some(Level::Spent),
            _ => None,
        });
        if found.supply != supply.unwrap_or(Level::Good) {
            return Err("the supply on record is wrong");
        }
        let mut others = newest_first().filter(|r| !r.event.kind().starts_with("supply-"));
        let both = others.by_ref().take(2).filter(|r| r.event.kind() == "powered-up").count() == 2;
        if found.twice != both { Err("the power-ups are wrong") } else { Ok(()) }
    }

    fn last_word(&self) -> LastWord {
        // Nobody opened a lock that was commissioned or reset: it stood open.
        let people = self.records.iter().rev().find_map(|record| match record.event {
            Event::Released { people, .. } => Some(Some(people)),
            Event::Changed { change: Change::Commissioned(_) | Change::Reset, .. } => Some(None),
            _ => None,
        });
        let people: Option<People> = people.flatten();
        let word = self.records.iter().rev().find_map(|record| match record.event.kind() {
            "released" => Some(LastWord::Released(people)),
            "opened" | "commissioned" | "reset" => Some(LastWord::Opened(people, record.at)),
            "forced" => Some(LastWord::Forced),
            "secured" | "not-drawn" | "found-thrown" => Some(LastWord::Shut),
            _ => None,
        });
        word.unwrap_or(LastWord::Shut)
    }

    /// The newest entry for which there is an answer.
    fn newest<T>(&self, answer: impl Fn(&Tally) -> Option<T>) -> Option<T> {
        self.tallies.iter().rev().find_map(answer)
    }

    /// Whether the tally of `found` is what the entries add up to.
    pub(super) fn adds_up_to(&self, found: &Recovered) -> Result<(), &'static str> {
        self.makes(&found.tally)
    }

    /// The same of the tally alone.
    pub(super) fn makes(&self, tally: &TallyState) -> Result<(), &'static str> {
        if (0..100u8).any(|n| tally.totals[usize::from(n)] != self.total(n)) {
            return Err("a count is wrong");
        }
        let weights: Vec<u8> = tally.weights.iter().map(|number| number.get()).collect();
        if weights != self.weights() {
            return Err("a weight is wrong");
        }
        let steps = self.tallies.iter().rev().take_while(|t| !matches!(t, Tally::Eased));
        let steps = steps.filter(|t| matches!(t, Tally::Penalty)).count();
        if usize::from(tally.step) != steps.min(255) {
            return Err("the step is wrong");
        }
        let penalty = self.newest(|t| match t {
            Tally::Penalty => Some(PenaltyMark::Running),
            Tally::Served => Some(PenaltyMark::Served),
            _ => None,
        });
        if tally.penalty != penalty.unwrap_or(PenaltyMark::Served) {
            return Err("the penalty's mark is wrong");
        }
        let held = |t: &Tally| if let Tally::HeldShut(until) = t { Some(*until) } else { None };
        if tally.held_until != self.newest(held) {
            return Err("the hold-shut is wrong");
        }
        self.clock_adds_up_to(tally).and_then(|()| self.rest_adds_up_to(tally))
    }

    fn clock_adds_up_to(&self, tally: &TallyState) -> Result<(), &'static str> {
        let clock = self.newest(|t| match t {
            Tally::ClockDoubt(_) => Some(ClockMark::Doubted),
            Tally::Corrected { .. } | Tally::ClockSet(_) => Some(ClockMark::Believed),
            _ => None,
        });
        if tally.clock != clock.unwrap_or(ClockMark::Believed) {
            return Err("the clock's mark is wrong");
        }
        let doubted = |t: &Tally| if let Tally::ClockDoubt(at) = t { Some(*at) } else { None };
        if tally.doubted_at != self.newest(doubted).flatten() {
            return Err("the steady time of the doubt is wrong");
        }
        let shift = self.newest(|t| match t {
            Tally::Corrected { shift, .. } | Tally::ClockSet(shift) => Some(*shift),
            _ => None,
        });
        if tally.shift != shift.unwrap_or(Shift::NONE) {
            return Err("the shift is wrong");
        }
        let settling = self.newest(|t| match t {
            Tally::ClockSet(_) => Some(Settling::Yes),
            Tally::Settled => Some(Settling::No),
            _ => None,
        });
        if tally.settling != settling.unwrap_or(Settling::No) {
            return Err("whether the clock settles is wrong");
        }
        let since_over = self.tallies.iter().rev().take_while(|t| **t != Tally::CorrectionsOver);
        let corrected: u64 = since_over.map(corrected_by).sum();
        if u64::from(tally.corrected.get()) != corrected.min(u32::MAX.into()) {
            return Err("the sum of corrections is wrong");
        }
        Ok(())
    }

    fn rest_adds_up_to(&self, tally: &TallyState) -> Result<(), &'static str> {
        if Some(tally.collected.0) != self.tallies.iter().map(collected).max().or(Some(0)) {
            return Err("what was collected is wrong");
        }
        let brought = |t: &Tally| -> Option<Steady> {
            if let Tally::Brought(at) = t { Some(*at) } else { None }
        };
        if tally.brought != self.newest(brought) {
            return Err("when the lock was opened last is wrong");
        }
        let set_up = self.newest(|t| match t {
            Tally::SettingUp => Some(SetUp::Going),
            Tally::SetUp => Some(SetUp::Done),
            _ => None,
        });
        // A lock that was formatted with somebody enrolled was set up.
        if tally.set_up != set_up.unwrap_or(SetUp::Done) {
            return Err("whether the lock is set up is wrong");
        }
        let way_out = self.newest(|t| match t {
            Tally::WayOut(people) => Some(Some(*people)),
            Tally::WayOutOver | Tally::SettingUp => Some(None),
            _ => None,
        });
        if tally.way_out != way_out.flatten() {
            return Err("the way out is wrong");
        }
        let unrecorded = self.tallies.iter().filter(|t| **t == Tally::PoweredUp).count();
        if usize::try_from(tally.power_ups).unwrap() != unrecorded {
            return Err("the power-ups off the record are wrong");
        }
        Ok(())
    }
}

fn is_counted(entry: &Tally, n: u8) -> bool {
    matches!(entry, Tally::Counted(m) if m.get() == n)
}

fn is_cleared(entry: &Tally, n: u8) -> bool {
    matches!(entry, Tally::Cleared(m) if m.get() == n)
}

fn corrected_by(entry: &Tally) -> u64 {
    if let Tally::Corrected { by, .. } = entry { by.get().into() } else { 0 }
}

fn collected(entry: &Tally) -> u32 {
    if let Tally::Collected(upto) = entry { upto.0 } else { 0 }
}

/// Every record that a store lists. Its items follow one another, gaps named.
pub(super) fn listed<F: embedded_storage::nor_flash::NorFlash>(
    store: &mut FlashStore<F>,
) -> Vec<(Seq, Record)> {
    let mut due = 1;
    let mut records = Vec::new();
    for entry in store.records(Seq(0)) {
        let first = match entry {
            Entry::Record(seq, record) => {
                records.push((seq, record));
                seq
            }
            Entry::Gap(gap) => {
                assert!(gap.from <= gap.to && gap.lost <= gap.to.0 - gap.from.0 + 1);
                gap.from
            }
        };
        assert_eq!(first.0, due);
        due = entry.last().0 + 1;
    }
    records
}

/// How many numbers a store says are lost.
pub(super) fn lost<F: embedded_storage::nor_flash::NorFlash>(store: &mut FlashStore<F>) -> u32 {
    let lost = |entry| match entry {
        Entry::Gap(gap) => gap.lost,
        Entry::Record(..) => 0,
    };
    store.records(Seq(0)).map(lost).sum()
}

/// What the model concludes it concludes from the kinds of the behaviour document.
#[test]
fn the_model_knows_the_kinds_by_name() {
    let people = People { first: super::number(1), second: None };
    let events = [
        Event::Released { people, outcome: Outcome::Plain },
        Event::Opened,
        Event::NotDrawn,
        Event::Forced,
        Event::FoundThrown { open_for: None },
        Event::PoweredUp { unrecorded: 0 },
        Event::Changed { by: None, change: Change::ClockSet(None) },
        Event::Changed { by: None, change: Change::ClockCorrected(1) },
        Event::Changed { by: None, change: Change::Commissioned(people.first) },
        Event::Changed { by: None, change: Change::Reset },
    ];
    let kinds = [
        "released",
        "opened",
        "not-drawn",
        "forced",
        "found-thrown",
        "powered-up",
        "clock-set",
        "clock-corrected",
        "commissioned",
        "reset",
    ];
    assert_eq!(events.map(|event| event.kind()), kinds);
}
