//! Extracts in memory, for what does not depend on how they are sealed.

use std::path::{Path, PathBuf};

use emulator::audit::extract::{Broken, Extract, Header, Maker, Opener};
use emulator::audit::reading::LockFiles;
use lock_core::audit::{Entry, Event, Record, Seq};
use lock_core::link::extract::{Item, Scope};
use lock_core::time::Utc;

/// Extracts of lock 1001, by their place: scope, and what they tell.
pub(super) struct Shelf(pub(super) Vec<(Scope, Vec<Result<Item, Broken>>)>);

impl Opener for Shelf {
    fn open(&self, path: &Path) -> Result<Extract<'_>, Broken> {
        let place: usize = path.to_str().unwrap().parse().unwrap();
        let (scope, items) = &self.0[place];
        Ok(Extract { header: header(*scope, items), items: Box::new(items.iter().cloned()) })
    }
}

fn header(scope: Scope, items: &[Result<Item, Broken>]) -> Header {
    let newest = items.iter().rev().find_map(|item| item.as_ref().ok()).map(Item::last);
    let (number, since_last) = (1, false);
    let maker = Maker::Real;
    Header { lock: 1001, generation: 1, number, scope, since_last, made: None, newest, maker }
}

/// The item that tells of an entry.
pub(super) fn item(entry: &Entry) -> Item {
    match entry {
        Entry::Record(seq, record) => Item::Record(*seq, *record),
        Entry::Gap(gap) => Item::Gap(*gap),
    }
}

impl Shelf {
    /// Extracts of everything.
    pub(super) fn whole(extracts: &[Vec<Entry>]) -> Self {
        let items = |entries: &Vec<Entry>| entries.iter().map(|e| Ok(item(e))).collect();
        Self(extracts.iter().map(|entries| (Scope::All, items(entries))).collect())
    }

    pub(super) fn files(&self) -> LockFiles {
        let files = self.0.iter().enumerate().map(|(place, (scope, items))| {
            (PathBuf::from(place.to_string()), header(*scope, items))
        });
        LockFiles { lock: 1001, maker: Maker::Real, files: files.collect() }
    }
}

/// A record at a second of 2027.
pub(super) fn record(seq: u32, second: u32, event: Event) -> Entry {
    let at = Some(Utc::from_secs(1_798_761_600 + second));
    Entry::Record(Seq(seq), Record { at, event })
}
