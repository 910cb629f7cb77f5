//! The settings as a boot would find them, to be compared: what differs between
//! two moments, and what the newest record is.

use lock_core::audit::Record;
use lock_core::holder::{HolderRow, Number};
use lock_core::pairing::Pairing;
use lock_core::port::Store;
use lock_core::recovered::Recovered;
use lock_core::settings::FileState;
use lock_core::time::Date;
use lock_core::timetable::TimetableId;

/// A part of the settings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Part {
    /// Somebody's row, but for the counter of their one-time codes.
    Row(u8),
    /// The counter of somebody's one-time codes.
    Counter(u8),
    Policy,
    /// The key that codes are kept under.
    Key,
    Pairing,
    /// The timetable files that are in force and that wait.
    Files,
    Hours,
}

/// All of it, each part as text or bytes that differ where the part does.
#[derive(Clone, Default, PartialEq, Eq)]
pub(crate) struct Kept {
    rows: Vec<Option<(String, Vec<u8>)>>,
    counters: Vec<u32>,
    policy: String,
    key: Vec<u8>,
    pairing: (Option<u32>, u32),
    files: FileState,
    hours: String,
    pub(crate) newest: Option<Record>,
}

impl Kept {
    pub(super) fn read(mut store: impl Store, found: &Recovered) -> Self {
        let newest = store.newest_seq().and_then(|seq| store.entry(seq));
        let newest = newest.and_then(|entry| entry.record()).map(|(_, record)| record);
        let Ok(known) = &found.known else { return Self { newest, ..Self::default() } };
        let numbers = || (0..=99).filter_map(Number::new);
        let pairing = store.pairing().ok().flatten();
        Self {
            rows: numbers().map(|number| row(store.holder(number).ok().flatten())).collect(),
            counters: numbers().map(|number| counter(&mut store, number)).collect(),
            policy: format!("{:?} {:?}", known.policy, known.stricter),
            key: known.key.as_bytes().to_vec(),
            pairing: (
                pairing.as_ref().map(Pairing::generation),
                store.last_generation().unwrap_or_default(),
            ),
            files: known.file,
            hours: hours(&mut store),
            newest,
        }
    }

    /// What is not as it was.
    pub(crate) fn differs_from(&self, before: &Self) -> Vec<Part> {
        let numbers = || 0..=99_u8;
        let row = |number: &u8| {
            let place = usize::from(*number);
            self.rows.get(place).cloned().flatten() != before.rows.get(place).cloned().flatten()
        };
        let counter = |number: &u8| {
            let place = usize::from(*number);
            self.counters.get(place).copied().unwrap_or_default()
                != before.counters.get(place).copied().unwrap_or_default()
        };
        let rest = [
            (Part::Policy, self.policy != before.policy),
            (Part::Key, self.key != before.key),
            (Part::Pairing, self.pairing != before.pairing),
            (Part::Files, self.files != before.files),
            (Part::Hours, self.hours != before.hours),
        ];
        numbers()
            .filter(row)
            .map(Part::Row)
            .chain(numbers().filter(counter).map(Part::Counter))
            .chain(rest.into_iter().filter(|(_, differs)| *differs).map(|(part, _)| part))
            .collect()
    }

    /// The version in force, and that of the file that waits.
    pub(crate) fn versions(&self) -> (u32, Option<u32>) {
        (self.files.version, self.files.waits.map(|file| file.version))
    }

    pub(crate) fn generation(&self) -> Option<u32> {
        self.pairing.0
    }

    pub(crate) fn enrolled(&self) -> usize {
        self.rows.iter().flatten().count()
    }

    pub(crate) fn has_row(&self, number: u8) -> bool {
        self.row_says(number, "")
    }

    /// Whether there is such a row, and something of it is called that.
    pub(crate) fn row_says(&self, number: u8, what: &str) -> bool {
        let row = self.rows.get(usize::from(number)).and_then(Option::as_ref);
        row.is_some_and(|(told, _)| told.contains(what))
    }
}

fn row(row: Option<HolderRow>) -> Option<(String, Vec<u8>)> {
    row.map(|row| {
        let told = (row.role, row.opens, row.standing, row.follows, row.pending);
        let secret = [row.salt.as_bytes().as_slice(), row.digest.as_bytes()].concat();
        (format!("{told:?}"), secret)
    })
}

/// A number that was a courier's keeps its counter, also while nobody has it.
fn counter(store: &mut impl Store, number: Number) -> u32 {
    store.claimed(number).map(|claimed| claimed.row().counter).unwrap_or_default()
}

/// The zone, and a week without closures or special days: before all stories.
fn hours(store: &mut impl Store) -> String {
    let mut told = format!("{:?}", store.zone().ok());
    for day in 5..=11 {
        let date = Date::from_ymd(2026, 1, day).expect("a date");
        for id in TimetableId::ALL {
            told.push_str(&format!("{:?}", store.day_in_force(id, date).ok()));
        }
    }
    told
}
