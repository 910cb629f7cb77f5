//! How long reading a fleet's audits takes: 400 locks of 1,000 records each, as
//! sealed files in a folder. The goal is a second on one core.
//!
//! The records are a lock's own: an emulated till that was opened over and over.

use std::path::{Path, PathBuf};

use emulator::audit::export::{Exporter, Form, Span};
use emulator::audit::extract::files;
use emulator::audit::finding::Limits;
use emulator::audit::ledger::Clerk;
use emulator::audit::names::Names;
use emulator::audit::reading::{FileNote, Problem, read, sort};
use emulator::audit::report::{Report, Telling};
use emulator::audit::sample::extract;
use emulator::audit::sealed::Sealed;
use emulator::keyring::Keyring;
use emulator::site::Site;
use emulator::world::World;
use lock_core::audit::{Entry, Seq};
use lock_core::keys::{Digit, Key};
use lock_core::link::extract::{ExtractHeader, Scope};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::port::Bolt;
use lock_core::time::Utc;

const LOCKS: u16 = 400;
const RECORDS: usize = 1_000;

/// Monday 2027-03-01 08:30 UTC.
const OPENS: u32 = 1_803_889_800;

fn main() {
    divan::main();
}

fn site() -> Site {
    let text = include_str!("../demo/harbour-bakery.toml");
    Site::parse("harbour-bakery.toml", text).map_err(|why| why.to_string()).expect("it is fine")
}

/// What a till has on record after a few months.
fn records(site: &Site) -> Vec<Entry> {
    let settings = site.settings(site.lock("till").expect("it is there"), [7; 32]);
    let start = Utc::from_secs(OPENS - 60);
    let mut world = World::commission(&settings, start).expect("the settings fit");
    let codes = site.demo_codes.iter().filter(|code| [12, 13].contains(&code.number().get()));
    let codes: Vec<String> =
        codes.map(|code| format!("{:02}{}", code.number().get(), code.digits())).collect();
    for day in 0..150_u64 {
        for (place, entry) in codes.iter().chain(&codes).enumerate() {
            let at = u64::from(OPENS) + day * 86_400 + place as u64 * 1_800;
            world.run_until(at * 1_000);
            for digit in entry.bytes().filter_map(|byte| Digit::new(byte.wrapping_sub(b'0'))) {
                world.press(Key::Digit(digit));
            }
            world.press(Key::Ok);
            if world.move_bolt(Bolt::Drawn).is_ok() {
                world.run_until((at + 180) * 1_000);
                let _ = world.move_bolt(Bolt::Thrown);
            }
        }
        world.take_trace();
    }
    let list: Vec<Entry> = world.memory().expect("it has power").records(Seq(0)).collect();
    let newest = list.into_iter().rev().take(RECORDS).collect::<Vec<_>>();
    newest.into_iter().rev().collect()
}

/// A folder of sealed extracts, removed in the end, and what opens them.
struct Fleet {
    folder: PathBuf,
    opener: Sealed<Keyring>,
    site: Site,
}

impl Fleet {
    fn new(name: &str) -> Self {
        let site = site();
        let entries = records(&site);
        assert_eq!(entries.len(), RECORDS);
        let (first, last) = (entries.first().expect("some"), entries.last().expect("some"));
        let folder = std::env::temp_dir().join(format!("{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder can be made");
        let mut keyring = Keyring::default();
        for lock in (1..=LOCKS).filter_map(LockNumber::new) {
            let pairing = Pairing::new(lock, 1, [7; Pairing::LEN]);
            let header = ExtractHeader {
                number: 1,
                scope: Scope::All,
                since_last: true,
                from: first.last(),
                newest: Some(last.last()),
                made: None,
            };
            let sealed = extract(&pairing, &header, &entries).expect("it can be sealed");
            let path = folder.join(format!("{}.extract", lock.get()));
            std::fs::write(path, sealed).expect("it can be written");
            keyring.add(pairing).expect("one key a lock");
        }
        Self { folder, opener: Sealed(keyring), site }
    }

    /// Reads all of it, a lock at a time; `each` gets what it tells.
    fn read(&self, each: &mut dyn FnMut(u32, Clerk, &[FileNote])) {
        let found =
            files(std::slice::from_ref(&self.folder)).expect("the folder can be read").files;
        let (locks, unread) = sort(&self.opener, &found);
        assert_eq!((locks.len(), unread.len()), (usize::from(LOCKS), 0));
        for lock in &locks {
            let mut clerk = Clerk::default();
            let notes = read(&self.opener, lock, &mut |entry| clerk.take(entry));
            assert!(!notes.iter().flat_map(|note| &note.problems).any(Problem::is_broken));
            each(lock.lock, clerk, &notes);
        }
    }

    fn names(&self) -> Names<'_> {
        Names::of(Some(&self.site))
    }
}

impl Drop for Fleet {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(Path::new(&self.folder));
    }
}

/// Opening, unsealing, checking the order, putting openings together.
#[divan::bench(sample_count = 10)]
fn a_fleet_is_read(bencher: divan::Bencher<'_, '_>) {
    let fleet = Fleet::new("bench-read");
    bencher.bench_local(|| {
        let mut records = 0;
        fleet.read(&mut |_, clerk, _| records += clerk.finish().records);
        assert_eq!(records, u32::from(LOCKS) * RECORDS as u32);
    });
}

/// The same, each opening held against the site file, written out as text.
#[divan::bench(sample_count = 10)]
fn a_fleet_is_reported(bencher: divan::Bencher<'_, '_>) {
    let fleet = Fleet::new("bench-report");
    bencher.bench_local(|| {
        let mut out = Vec::new();
        fleet.read(&mut |lock, clerk, notes| {
            out.clear();
            let (ledger, names) = (clerk.finish(), fleet.names());
            let (limits, telling) = (Limits::default(), Telling::Discreet);
            let report = Report::new(lock, notes, &ledger, names, limits, telling);
            report.write_text(&mut out).expect("memory takes it");
        });
    });
}

/// The records of a fleet as CSV.
#[divan::bench(sample_count = 10)]
fn a_fleet_is_exported(bencher: divan::Bencher<'_, '_>) {
    let fleet = Fleet::new("bench-export");
    bencher.bench_local(|| {
        let (names, telling) = (fleet.names(), Telling::Discreet);
        let mut exporter =
            Exporter::new(std::io::sink(), Form::Csv, names, telling, Span::default())
                .expect("nothing can go wrong");
        let found =
            files(std::slice::from_ref(&fleet.folder)).expect("the folder can be read").files;
        let (locks, _) = sort(&fleet.opener, &found);
        for lock in &locks {
            let mut take =
                |entry: &Entry| exporter.take(lock.lock, entry).expect("it goes nowhere");
            read(&fleet.opener, lock, &mut take);
        }
        exporter.finish().expect("it goes nowhere")
    });
}
