//! Extracts in memory, for what does not depend on how they are sealed.

use std::path::{Path, PathBuf};

use emulator::audit::extract::{Broken, Extract, Header, Opener, Scope};
use emulator::audit::reading::LockFiles;
use lock_core::audit::{Entry, Event, Record, Seq};
use lock_core::time::Utc;

/// Extracts of lock 1001, by their place.
pub(super) struct Shelf(pub(super) Vec<Vec<Result<Entry, Broken>>>);

impl Opener for Shelf {
    fn open(&self, path: &Path) -> Result<Extract<'_>, Broken> {
        let place: usize = path.to_str().unwrap().parse().unwrap();
        let entries = self.0[place].clone();
        Ok(Extract { header: header(&entries), entries: Box::new(entries.into_iter()) })
    }
}

fn header(entries: &[Result<Entry, Broken>]) -> Header {
    let newest = entries.iter().rev().find_map(|entry| entry.as_ref().ok()).map(Entry::last);
    Header { lock: 1001, generation: 1, scope: Scope::Everything, made: None, newest }
}

impl Shelf {
    pub(super) fn whole(extracts: &[Vec<Entry>]) -> Self {
        Self(extracts.iter().map(|entries| entries.iter().copied().map(Ok).collect()).collect())
    }

    pub(super) fn files(&self) -> LockFiles {
        let files = self.0.iter().enumerate();
        let files =
            files.map(|(place, entries)| (PathBuf::from(place.to_string()), header(entries)));
        LockFiles { lock: 1001, files: files.collect() }
    }
}

/// A record at a second of 2027.
pub(super) fn record(seq: u32, second: u32, event: Event) -> Entry {
    let at = Some(Utc::from_secs(1_798_761_600 + second));
    Entry::Record(Seq(seq), Record { at, event })
}
