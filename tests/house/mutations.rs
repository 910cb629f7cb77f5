//! Files that somebody altered: extracts, keyrings and timetable files, each changed in
//! one of many ways, and none is taken.
//!
//! `cargo test` alters 6,000; `MUTATIONS=100000 cargo test -p checks --test house
//! mutations` that many.

use emulator::audit::sealed::{Keys, read};
use emulator::carry::{Sealed, sealed};
use emulator::keyring::{Cost, Keyring, Passphrase};
use emulator::site::Site;
use lock_core::audit::{Entry, Event, Record, Seq};
use lock_core::holder::Number;
use lock_core::link::Version;
use lock_core::link::extract::{ExtractHeader, Scope};
use lock_core::link::timetable_file;
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::seal::CHUNK;
use lock_core::time::Utc;

const CHEAP: Cost = Cost { memory: 8, passes: 1, lanes: 1 };

/// Small and repeatable: Marsaglia's xorshift.
struct Dice(u64);

impl Dice {
    fn below(&mut self, sides: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        usize::try_from(self.0 % u64::try_from(sides.max(1)).unwrap()).unwrap()
    }
}

fn pairing() -> Pairing {
    Pairing::new(LockNumber::new(1001).unwrap(), 3, [0xA5; Pairing::LEN])
}

/// One change, or a few: a bit, a byte, a cut, a piece twice, two pieces exchanged, bytes put
/// in, or the end of another file of the same kind.
fn altered(whole: &[u8], other: &[u8], dice: &mut Dice) -> Vec<u8> {
    let mut bytes = whole.to_vec();
    for _ in 0..=dice.below(3) {
        if bytes.is_empty() {
            break;
        }
        let at = dice.below(bytes.len());
        let length = 1 + dice.below(bytes.len() - at).min(300);
        match dice.below(8) {
            0 | 1 => bytes[at] ^= 1 << dice.below(8),
            2 => bytes[at] = u8::try_from(dice.below(256)).unwrap(),
            3 => bytes.truncate(at),
            4 => {
                let piece = bytes[at..at + length].to_vec();
                bytes.splice(at..at, piece);
            }
            5 => {
                let to = dice.below(bytes.len());
                bytes.swap(at, to);
            }
            6 => {
                let noise: Vec<u8> =
                    (0..length).map(|_| u8::try_from(dice.below(256)).unwrap()).collect();
                bytes.splice(at..at, noise);
            }
            _ => {
                bytes.truncate(at);
                bytes.extend(&other[at.min(other.len())..]);
            }
        }
    }
    bytes
}

struct One(Pairing);

impl Keys for One {
    fn pairing(&self, lock: LockNumber, generation: u32) -> Option<&Pairing> {
        Some(&self.0).filter(|key| (key.lock(), key.generation()) == (lock, generation))
    }
}

fn extract(number: u32) -> Vec<u8> {
    let who = Number::new(12).unwrap();
    let at = Some(Utc::from_secs(1_803_859_200));
    let entries: Vec<Entry> = (1..=40)
        .map(|seq| Entry::Record(Seq(seq), Record { at, event: Event::WrongCode { who } }))
        .collect();
    let (scope, since_last, from) = (Scope::All, false, Seq(1));
    let header = ExtractHeader { number, scope, since_last, from, newest: Some(Seq(40)), made: at };
    emulator::audit::sample::extract(&pairing(), &header, &entries).unwrap()
}

fn takes_extract(bytes: &[u8]) -> bool {
    let keys = One(pairing());
    read(bytes, &keys).is_ok_and(|extract| extract.items.into_iter().all(|item| item.is_ok()))
}

fn timetables(version: u32) -> Vec<u8> {
    let text = include_str!("../../emulator/demo/office/harbour-bakery.toml");
    let site = Site::parse("office", text).map_err(|why| why.to_string()).unwrap();
    sealed(&site, &pairing(), Version(version)).unwrap().0.bytes()
}

fn takes_timetables(bytes: &[u8]) -> bool {
    let Some(file) = Sealed::from_bytes(bytes) else { return false };
    let mut chunks = file.chunks.iter();
    let chunk = |_, room: &mut [u8; CHUNK]| {
        let chunk = chunks.next()?;
        room[..chunk.len()].copy_from_slice(chunk);
        Some(chunk.len())
    };
    timetable_file::open(&file.header, chunk, &pairing()).is_ok() && chunks.next().is_none()
}

/// None is taken; each kind unaltered is.
#[test]
fn no_altered_file_is_taken() {
    let all = std::env::var("MUTATIONS").ok().and_then(|count| count.parse().ok());
    let all: usize = all.unwrap_or(6_000);
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join("mutations");
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("keyring");
    let passphrase = Passphrase::new("a passphrase of this test".to_owned());
    let rings: Vec<Vec<u8>> = (1..=2)
        .map(|last| {
            let mut ring = Keyring::default();
            (1..=last * 4).for_each(|generation| {
                let lock = LockNumber::new(1001).unwrap();
                ring.add(Pairing::new(lock, generation, [0x5A; Pairing::LEN])).unwrap();
            });
            ring.save(&path, &passphrase, CHEAP).unwrap();
            std::fs::read(&path).unwrap()
        })
        .collect();
    let takes_ring = |bytes: &[u8]| {
        // Dearer keyrings than ours are taken as they are, within bounds: not tried here.
        if bytes.get(6..16).is_some_and(|cost| cost != &rings[0][6..16]) {
            return false;
        }
        std::fs::write(&path, bytes).unwrap();
        Keyring::load(&path, &passphrase).is_ok()
    };
    type Taker<'t> = &'t dyn Fn(&[u8]) -> bool;
    let kinds: [(&str, [Vec<u8>; 2], Taker<'_>); 3] = [
        ("extract", [extract(1), extract(2)], &takes_extract),
        ("timetables", [timetables(1), timetables(2)], &takes_timetables),
        ("keyring", [rings[0].clone(), rings[1].clone()], &takes_ring),
    ];
    let mut dice = Dice(0x9E37_79B9_7F4A_7C15);
    for (kind, [whole, other], takes) in &kinds {
        assert!(takes(whole) && takes(other), "{kind}");
        let mut tried = 0;
        while tried < all / kinds.len() {
            let bytes = altered(whole, other, &mut dice);
            // What came back to one of the two is not altered.
            if bytes != *whole && bytes != *other {
                assert!(!takes(&bytes), "{kind}, case {tried}");
                tried += 1;
            }
        }
        println!("{kind}: {tried} altered files, none taken");
    }
}
