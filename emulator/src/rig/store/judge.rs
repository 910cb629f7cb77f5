//! What a store must hold, from plain lists of everything that was asked.
//!
//! Written from `docs/behaviour.md`, the promises of `lock_core::store` and the
//! invariants of the fault model; it shares no code with the store. The tally
//! is counted once more by hand (`counts.rs`).

use embedded_storage::nor_flash::NorFlash;
use lock_core::audit::{Change, Entry, Event, Outcome, People, Record, Ring, Seq};
use lock_core::port::{Reads, Write};
use lock_core::recovered::{LastWord, Recovered};
use lock_core::rules::Days;
use lock_core::rules::supply::Level;
use lock_core::settings::{FileState, Waiting};
use lock_core::store::{FlashStore, Layout};
use lock_core::time::{Date, Utc, Zone};
use lock_core::timetable::{Day, TimetableId, Windows};

use super::chip;
use super::counts::Counts;
use super::life::{self, Ask};

/// Everything that a store was asked, added up.
#[derive(Clone)]
pub struct Expected {
    /// Each record, with its number where that is known.
    records: Vec<(Option<Seq>, Record)>,
    /// What each slot of a ring was used for: records and, in between, what
    /// cuts and boots cost.
    openings: Vec<Slot>,
    refusals: Vec<Slot>,
    counts: Counts,
    floor: Option<Utc>,
    outcome: Option<Outcome>,
    word: Word,
    /// For whom the newest release was.
    people: Option<People>,
    /// Power-ups behind all other records, but those of the supply.
    power_ups: u32,
    supply: Level,
    settings: Set,
    /// Whether the power was cut within an event: numbers may have been passed
    /// over since.
    torn: bool,
}

/// The newest record on the bolt.
#[derive(Clone, Copy)]
enum Word {
    Shut,
    Forced,
    Released,
    Opened(Option<Utc>),
}

/// The settings, each by the change that set it.
#[derive(Clone, Copy)]
struct Set {
    /// Who is enrolled under 01; 0 since the beginning.
    first: Option<u32>,
    /// Whether somebody is under 02.
    second: bool,
    policy: Option<u32>,
    pairing: Option<u32>,
    /// What `life::windows` makes Mondays of A of.
    day: Option<u32>,
    key: Option<u32>,
    /// The last generation that a pairing key had; 0: there was none.
    generation: u32,
    file: FileState,
    /// Whether a file brought the zone.
    zone: bool,
}

impl Set {
    const AS_COMMISSIONED: Self = Self {
        first: Some(0),
        second: true,
        policy: None,
        pairing: None,
        day: None,
        key: None,
        generation: 0,
        file: FileState::NONE,
        zone: false,
    };

    /// The `n`th change, as `life::edit` has it.
    fn change(&mut self, n: u32) {
        match n % 6 {
            // Used one-time codes stay used: the higher counter stands.
            0 => self.first = self.first.max(Some(n)),
            1 | 3 => self.policy = Some(n),
            2 => {
                self.pairing = Some(n);
                self.generation = n;
                // What waited was sealed under the old key.
                if let Some(waiting) = self.file.waits.take() {
                    self.file.lost = Some(waiting.version);
                }
            }
            4 => *self = self.forgotten(n, None),
            _ => *self = self.forgotten(n, Some(n)),
        }
    }

    /// Nothing stays but the zone and the last generation of the pairing key (R7).
    const fn forgotten(&self, n: u32, first: Option<u32>) -> Self {
        let (zone, generation) = (self.zone, self.generation);
        let key = Some(n);
        Self { first, second: false, key, generation, zone, ..Self::AS_COMMISSIONED }
    }

    /// An [`Ask::File`]; whether anything was to be done.
    fn file(&mut self, n: u32) -> bool {
        let adopted = match self.file.waits {
            Some(waiting) if !n.is_multiple_of(3) => waiting.version,
            Some(_) | None if self.pairing.is_none() => return false,
            Some(_) | None if n.is_multiple_of(2) => {
                let waits = Some(Waiting { version: n, until: life::until(n) });
                self.file = FileState { waits, lost: None, ..self.file };
                return true;
            }
            Some(_) | None => n,
        };
        self.file = FileState { version: adopted, ..FileState::NONE };
        self.day = Some(adopted.wrapping_mul(37));
        self.zone = true;
        true
    }

    /// Mondays of A: in both, while a file waits.
    fn monday(&self) -> Windows {
        let from = match (self.day, self.file.waits) {
            (Some(day), Some(waiting)) => {
                Some((day % 1_000).max(waiting.version.wrapping_mul(37) % 1_000))
            }
            (day, _) => day,
        };
        from.map_or_else(Windows::new, life::windows)
    }
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Slot {
    Record,
    /// What a boot or a cut may have used up.
    Spent,
}

impl Expected {
    /// Nothing was asked yet.
    #[must_use]
    pub const fn nothing() -> Self {
        Self {
            records: Vec::new(),
            openings: Vec::new(),
            refusals: Vec::new(),
            counts: Counts::NONE,
            floor: None,
            outcome: None,
            word: Word::Shut,
            people: None,
            power_ups: 0,
            supply: Level::Good,
            settings: Set::AS_COMMISSIONED,
            torn: false,
        }
    }

    /// That was asked, and reported durable.
    pub fn ask(&mut self, ask: &Ask) {
        match ask {
            Ask::Write(Write::Tally(tally)) => self.counts.count(*tally),
            Ask::Write(Write::Record(record)) => self.record(record),
            // A store takes none without its edit: `Ask::Edit`.
            Ask::Write(Write::Edit(_)) => {}
            Ask::Edit(n, record) => {
                self.settings.change(*n);
                self.record(record);
            }
            Ask::File(n, record) => {
                if self.settings.file(*n) {
                    self.record(record);
                }
            }
            Ask::Boot => self.spend(),
        }
    }

    /// The power was cut within an event.
    pub fn cut(&mut self) {
        self.torn = true;
        self.spend();
    }

    /// A boot copies a record of each ring at most; a cut tears one.
    pub fn spend(&mut self) {
        self.openings.push(Slot::Spent);
        self.refusals.push(Slot::Spent);
    }

    fn record(&mut self, record: &Record) {
        let next = u32::try_from(self.records.len()).ok().and_then(|n| n.checked_add(1));
        self.records.push((next.map(Seq).filter(|_| !self.torn), *record));
        match record.event.ring() {
            Ring::Openings => self.openings.push(Slot::Record),
            Ring::Refusals => self.refusals.push(Slot::Record),
        }
        self.floor = match record.event {
            Event::Changed { change: Change::ClockSet(_) | Change::ClockCorrected(_), .. } => {
                record.at.or(self.floor)
            }
            _ => self.floor.max(record.at),
        };
        match record.event {
            Event::Released { people, .. } => self.people = Some(people),
            Event::Changed { change: Change::Commissioned(_) | Change::Reset, .. } => {
                self.people = None;
            }
            _ => {}
        }
        match record.event {
            Event::PoweredUp { .. } => self.power_ups += 1,
            Event::Supply { level, .. } => self.supply = level,
            _ => self.power_ups = 0,
        }
        self.outcome = record.event.heard(self.outcome);
        match record.event.kind() {
            "released" => self.word = Word::Released,
            "opened" | "commissioned" | "reset" => self.word = Word::Opened(record.at),
            "forced" => self.word = Word::Forced,
            "secured" | "not-drawn" | "found-thrown" => self.word = Word::Shut,
            _ => {}
        }
    }

    /// Whether the store holds just this; otherwise what is wrong. Learns the
    /// numbers of the records that are listed.
    ///
    /// # Errors
    /// One sentence.
    pub fn holds<F: NorFlash>(
        &mut self,
        store: &mut FlashStore<F>,
        found: &Recovered,
        layout: Layout,
    ) -> Result<(), String> {
        self.adds_up(found)?;
        self.settings(store, found)?;
        self.listed(store, layout, F::ERASE_SIZE)
    }

    fn adds_up(&self, found: &Recovered) -> Result<(), String> {
        self.counts.are_those_of(&found.tally)?;
        if found.floor != self.floor {
            return Err(format!("R3: the floor is {:?}, not {:?}.", found.floor, self.floor));
        }
        if found.newest_outcome != self.outcome {
            return Err("Invariant 10: the newest outcome is not that of the newest record.".into());
        }
        let word = match self.word {
            Word::Shut => LastWord::Shut,
            Word::Forced => LastWord::Forced,
            Word::Released => LastWord::Released(self.people),
            Word::Opened(at) => LastWord::Opened(self.people, at),
        };
        if found.last_word != word {
            return Err("R9: the last word on the bolt is not that of the records.".into());
        }
        if (found.supply, found.powered_up_twice) != (self.supply, self.power_ups > 1) {
            return Err("Section 9: supply or power-ups are not those of the records.".into());
        }
        Ok(())
    }

    fn settings<F: NorFlash>(
        &self,
        store: &mut FlashStore<F>,
        found: &Recovered,
    ) -> Result<(), String> {
        let known = found.known.as_ref().map_err(|fault| format!("Invariant 3: {fault:?}."))?;
        let set = &self.settings;
        let wrong_codes = set.policy.map_or(4, |n| 3 + n % 8);
        let row = |n| lock_core::holder::Number::new(n).ok_or("no number");
        let first = store.holder(row(1)?).map_err(|_| "Invariant 7: a row cannot be read.")?;
        let second = store.holder(row(2)?).map_err(|_| "Invariant 7: a row cannot be read.")?;
        let nobody = store.holder(row(3)?).map_err(|_| "Invariant 7: a row cannot be read.")?;
        let key = store.pairing().map_err(|_| "Invariant 7: the pairing key cannot be read.")?;
        // A Monday.
        let monday = Date::from_ymd(2027, 3, 1).ok_or("no date")?;
        let windows = store.day(TimetableId::A, monday);
        let zone = if set.zone { life::FILE_ZONE } else { chip::ZONE };
        let zone = Zone::parse(zone).map_err(|_| "no zone")?;
        let enrolled = u8::from(set.first.is_some()) + u8::from(set.second);
        let same = first.map(|row| row.counter) == set.first
            && second.map(|row| row.counter) == set.second.then_some(0)
            && nobody.is_none()
            && known.enrolled == enrolled
            && u32::from(known.policy.wrong_codes) == wrong_codes
            && known.zone == zone
            && *known.key.as_bytes() == set.key.map_or(chip::KEY, life::key)
            && key.map(|key| key.generation()) == set.pairing
            && store.last_generation() == Ok(set.generation)
            && windows == Ok(Day::Windows(set.monday()))
            && (known.file, store.file_state()) == (set.file, Ok(set.file));
        if same { Ok(()) } else { Err("Invariant 7: settings are not those last set.".into()) }
    }

    fn listed<F: NorFlash>(
        &mut self,
        store: &mut FlashStore<F>,
        layout: Layout,
        page: usize,
    ) -> Result<(), String> {
        let mut due = 1;
        let mut listed: Vec<(Seq, Record)> = Vec::new();
        for entry in store.records(Seq(0)) {
            let first = match entry {
                Entry::Record(seq, record) => {
                    listed.push((seq, record));
                    seq.0
                }
                Entry::Gap(gap) => gap.from.0,
            };
            if first != due || entry.last().0 < due {
                return Err(format!("Invariant 8: {first} is listed where {due} is due."));
            }
            due = entry.last().0 + 1;
        }
        if store.newest() != listed.last().copied() {
            return Err("Invariant 8: the newest record is not the last one listed.".into());
        }
        for (ring, slots, kept) in [
            (Ring::Openings, &self.openings, layout.openings_kept(page)),
            (Ring::Refusals, &self.refusals, layout.refusals_kept(page)),
        ] {
            let promised = usize::try_from(kept).unwrap_or(usize::MAX);
            let promised = slots.iter().rev().take(promised).filter(|s| **s == Slot::Record);
            let mut seen = listed.iter().rev().filter(|(_, r)| r.event.ring() == ring);
            let mut count = 0;
            for (known, record) in self.records.iter_mut().rev() {
                if record.event.ring() != ring {
                    continue;
                }
                let Some((seq, found)) = seen.next() else { break };
                if found != record {
                    return Err(format!("Invariant 1: number {} is another record.", seq.0));
                }
                if known.is_some_and(|known| known != *seq) {
                    return Err(format!("Invariant 8: number {} was another's.", seq.0));
                }
                *known = Some(*seq);
                count += 1;
            }
            if seen.next().is_some() {
                return Err("Invariant 1: a record is listed that nobody wrote.".into());
            }
            if count < promised.count() {
                return Err(format!("Invariant 9: of the {ring:?} only {count} are listed."));
            }
        }
        Ok(())
    }
}
