//! An extract reads as the lock listed it, or not at all.

use std::vec::Vec;

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

use super::*;
use crate::audit::{Event, Gap, Outcome, People, Record, Refusal};
use crate::holder::Number;
use crate::time::Seconds;

fn own() -> Pairing {
    Pairing::new(LockNumber::new(1_001).unwrap(), 3, [0xA5; Pairing::LEN])
}

fn events() -> Vec<Event> {
    let who = Number::new(12).unwrap();
    let people = People { first: who, second: Number::new(13) };
    let mut events = std::vec![
        Event::PoweredUp { unrecorded: 0 },
        Event::Opened,
        Event::Secured { open_for: Seconds::new(70_000) },
        Event::WrongCode { who },
        Event::Forced,
    ];
    for outcome in [Outcome::Plain, Outcome::Duress] {
        events.push(Event::Released { people, outcome });
        events.push(Event::Refused { who, why: Refusal::Closed, outcome });
        events.push(Event::Status { who, outcome });
    }
    events
}

/// What a lock may list: records and gaps, each number once.
fn any_list(most: usize) -> impl Strategy<Value = Vec<Entry>> {
    let at = proptest::option::of(any::<u32>().prop_map(Utc::from_secs));
    let record = (at, select(events())).prop_map(|(at, event)| Err(Record { at, event }));
    let gap = (1..9_u32, any::<u32>()).prop_map(Ok);
    let items = vec(prop_oneof![9 => record, 1 => gap], 0..=most);
    (1..5_000_u32, items).prop_map(|(first, items)| {
        let mut due = first;
        let mut list = Vec::new();
        for item in items {
            let entry = match item {
                Err(record) => Entry::Record(Seq(due), record),
                Ok((length, lost)) => {
                    let (from, to) = (Seq(due), Seq(due + length - 1));
                    Entry::Gap(Gap { from, to, lost: lost % (length + 1) })
                }
            };
            due = entry.last().0 + 1;
            list.push(entry);
        }
        list
    })
}

fn header(list: &[Entry], scope: Scope) -> ExtractHeader {
    let from = list.first().map_or(Seq(1), |entry| match entry {
        Entry::Record(seq, _) => *seq,
        Entry::Gap(gap) => gap.from,
    });
    ExtractHeader {
        number: 77,
        scope,
        since_last: true,
        from,
        newest: list.last().map(Entry::last),
        made: Some(Utc::from_secs(1_803_890_700)),
    }
}

/// The items that a list should become, worked out entry by entry.
fn expected(list: &[Entry], scope: Scope) -> Vec<Item> {
    let mut items = Vec::new();
    for entry in list {
        match (entry, items.last_mut()) {
            (Entry::Gap(gap), _) => items.push(Item::Gap(*gap)),
            (Entry::Record(seq, record), _) if scope.takes(&record.event) => {
                items.push(Item::Record(*seq, *record));
            }
            (Entry::Record(seq, _), Some(Item::LeftOut { to, .. })) => *to = *seq,
            (Entry::Record(seq, _), _) => items.push(Item::LeftOut { from: *seq, to: *seq }),
        }
    }
    items
}

fn chunks(writer: &mut ExtractWriter, list: &[Entry]) -> Vec<Vec<u8>> {
    let key = own().outbound();
    let mut chunks = Vec::new();
    for index in 0.. {
        if writer.is_done() {
            break;
        }
        let all = |_| list.iter().copied();
        chunks.push(writer.chunk(index, &key, all).unwrap().to_vec());
    }
    chunks
}

fn made(list: &[Entry], scope: Scope) -> ([u8; HEADER], Vec<Vec<u8>>) {
    let mut writer = ExtractWriter::new(&own(), &header(list, scope));
    let chunks = chunks(&mut writer, list);
    (*writer.header(), chunks)
}

/// The items, and whether it is whole.
fn read(header: &[u8; HEADER], chunks: &[Vec<u8>]) -> Result<(Vec<Item>, bool), FileFault> {
    let mut reader = ExtractReader::open(header, &own())?;
    let mut items = Vec::new();
    for chunk in chunks {
        let mut bytes = [0; CHUNK];
        let length = chunk.len().min(CHUNK);
        bytes[..length].copy_from_slice(&chunk[..length]);
        items.extend(reader.chunk(&mut bytes, chunk.len())?);
    }
    Ok((items, reader.is_whole()))
}

fn records(count: u32) -> Vec<Entry> {
    let events = events();
    let record = |n: u32| {
        let event = events[usize::try_from(n).unwrap() % events.len()];
        Entry::Record(Seq(n), Record { at: Some(Utc::from_secs(n)), event })
    };
    (1..=count).map(record).collect()
}

proptest! {
    /// Whatever was listed, in whatever scope: the same is read, and nothing else.
    #[test]
    fn what_was_listed_is_read(list in any_list(80), scope in select(&Scope::ALL[..])) {
        let (bytes, chunks) = made(&list, scope);
        prop_assert_eq!(read(&bytes, &chunks), Ok((expected(&list, scope), true)));
        let reader = ExtractReader::open(&bytes, &own()).unwrap();
        prop_assert_eq!(*reader.header(), header(&list, scope));
    }

    /// A list that passes over numbers, or stops early: they are told as lost.
    #[test]
    fn numbers_that_are_not_listed_are_lost(list in any_list(40), drop in any::<u64>()) {
        let kept = list.iter().enumerate().filter(|(n, _)| drop >> (n % 64) & 1 == 0);
        let kept: Vec<Entry> = kept.map(|(_, entry)| *entry).collect();
        let mut writer = ExtractWriter::new(&own(), &header(&list, Scope::All));
        let chunks = chunks(&mut writer, &kept);
        let (items, whole) = read(writer.header(), &chunks).unwrap();
        prop_assert!(whole);
        let told: Vec<_> = items.iter().filter_map(|item| match item {
            Item::Record(seq, record) => Some(Entry::Record(*seq, *record)),
            Item::Gap(_) | Item::LeftOut { .. } => None,
        }).collect();
        let records: Vec<_> = kept.iter().copied().filter(|e| e.record().is_some()).collect();
        prop_assert_eq!(told, records);
    }
}

/// Around a full chunk there may be one more, without items.
#[test]
fn a_full_chunk_is_never_the_last() {
    for count in 0..40 {
        let list = records(count);
        let (bytes, chunks) = made(&list, Scope::All);
        let items = usize::try_from(count).unwrap();
        assert_eq!(chunks.len(), items / ITEMS + 1);
        let (last, full) = chunks.split_last().unwrap();
        assert!(full.iter().all(|chunk| chunk.len() == CHUNK) && last.len() < CHUNK);
        assert_eq!(read(&bytes, &chunks), Ok((expected(&list, Scope::All), true)));
    }
}

#[test]
fn no_changed_byte_is_read() {
    let (bytes, chunks) = made(&records(3), Scope::All);
    for at in 0..HEADER {
        for flips in 1..=u8::MAX {
            let mut changed = bytes;
            changed[at] ^= flips;
            assert!(read(&changed, &chunks).is_err(), "header {at} {flips:02x}");
        }
    }
    assert_eq!(chunks.len(), 1);
    for at in 0..chunks[0].len() {
        for flips in 1..=u8::MAX {
            let mut changed = chunks.clone();
            changed[0][at] ^= flips;
            assert_eq!(read(&bytes, &changed), Err(FileFault::Broken), "{at} {flips:02x}");
        }
    }
}

#[test]
fn nothing_cut_longer_or_exchanged_is_read() {
    let list = records(60);
    let (bytes, chunks) = made(&list, Scope::All);
    for keep in 0..chunks.len() {
        let (items, whole) = read(&bytes, &chunks[..keep]).unwrap();
        assert_eq!(items, expected(&list, Scope::All)[..keep * ITEMS]);
        assert!(!whole, "{keep} chunks pass for all of them");
    }
    let broken = |change: &dyn Fn(&mut Vec<Vec<u8>>)| {
        let mut changed = chunks.clone();
        change(&mut changed);
        assert_eq!(read(&bytes, &changed), Err(FileFault::Broken));
    };
    let later = ExtractHeader { number: 78, ..header(&list, Scope::All) };
    let mut writer = ExtractWriter::new(&own(), &later);
    let other = self::chunks(&mut writer, &list);
    for at in 0..chunks.len() {
        broken(&|chunks| {
            chunks[at].pop();
        });
        broken(&|chunks| chunks[at].push(0));
        broken(&|chunks| chunks[at].truncate(2));
        broken(&|chunks| chunks[at].clone_from(&other[at]));
        broken(&|all| all.insert(at, chunks[at].clone()));
    }
    broken(&|chunks| chunks.swap(0, 1));
    broken(&|all| all.push(chunks[0].clone()));
}

#[test]
fn an_extract_of_another_lock_or_key_says_so() {
    let (bytes, _) = made(&records(3), Scope::All);
    let with = |lock, generation| {
        let lock = LockNumber::new(lock).unwrap();
        let pairing = Pairing::new(lock, generation, [0xA5; Pairing::LEN]);
        ExtractReader::open(&bytes, &pairing).err()
    };
    assert_eq!(with(1_002, 3), Some(FileFault::OtherLock(1_001)));
    assert_eq!(with(1_001, 4), Some(FileFault::OtherKey(3)));
    assert_eq!(with(1_001, 3), None);
    assert_eq!(sealed_by(&bytes), Ok((LockNumber::new(1_001).unwrap(), 3)));
    assert_eq!(sealed_by(&[0; HEADER]), Err(FileFault::NotOurs));
}

/// The rings go on while an extract is collected: a chunk that is asked for again
/// is the same, bit for bit, and chunks are given in order only.
#[test]
fn a_chunk_is_made_once() {
    let (list, key) = (records(30), own().outbound());
    let mut writer = ExtractWriter::new(&own(), &header(&list, Scope::All));
    let all = |_| list.iter().copied();
    let nothing = |_| core::iter::empty::<Entry>();
    assert_eq!(writer.chunk(1, &key, all), Err(OutOfTurn));
    let first = writer.chunk(0, &key, all).unwrap().to_vec();
    assert_eq!(writer.chunk(0, &key, nothing).unwrap(), first);
    assert_eq!(writer.chunk(2, &key, all), Err(OutOfTurn));
    let second = writer.chunk(1, &key, all).unwrap().to_vec();
    assert_eq!(writer.chunk(0, &key, all), Err(OutOfTurn));
    assert_eq!(writer.chunk(1, &key, nothing).unwrap(), second);
    let third = writer.chunk(2, &key, all).unwrap().to_vec();
    assert!(writer.is_done());
    assert_eq!(writer.chunk(2, &key, nothing).unwrap(), third);
    assert_eq!(writer.chunk(3, &key, all), Err(OutOfTurn));
    let whole = read(&header(&list, Scope::All).write(&own()), &[first, second, third]);
    assert_eq!(whole, Ok((expected(&list, Scope::All), true)));
}

/// R4: whichever code was used, an extract of any scope has the same length.
#[test]
fn the_length_of_an_extract_tells_nothing_of_duress() {
    let of = |outcome| {
        let who = Number::new(12).unwrap();
        let people = People { first: who, second: None };
        [
            Event::Released { people, outcome },
            Event::DelayStarted { people, outcome },
            Event::FirstOfTwo { who, outcome },
            Event::Refused { who, why: Refusal::Closed, outcome },
            Event::HeldShut { who, until: Utc::MIN },
            Event::Status { who, outcome },
            Event::Asked { who, task: crate::task::Task::Pair, outcome },
        ]
    };
    let list = |outcome| -> Vec<Entry> {
        let record = |event| Record { at: None, event };
        (1..).map(Seq).zip(of(outcome).map(record)).map(|(n, r)| Entry::Record(n, r)).collect()
    };
    for scope in Scope::ALL {
        let lengths =
            |outcome| -> Vec<_> { made(&list(outcome), scope).1.iter().map(Vec::len).collect() };
        assert_eq!(lengths(Outcome::Plain), lengths(Outcome::Duress));
    }
}

#[test]
fn scopes_are_numbered_as_they_stand() {
    for scope in Scope::ALL {
        assert_eq!(Scope::numbered(scope.number()), Some(scope));
    }
    assert_eq!(Scope::numbered(4), None);
}

/// Every item has one form: whatever 20 bytes hold one, they are its own.
#[test]
fn bytes_are_an_item_in_one_way() {
    let entries = records(11).into_iter().map(|entry| match entry {
        Entry::Record(seq, record) => Item::Record(seq, record),
        Entry::Gap(gap) => Item::Gap(gap),
    });
    let others = [Item::gap(Seq(1), Seq(9), 2), Item::LeftOut { from: Seq(5), to: Seq(5) }];
    for item in entries.chain(others) {
        let bytes = item.write();
        assert_eq!(Item::read(&bytes), Some(item));
        for at in 0..ITEM {
            for flips in 1..=u8::MAX {
                let mut changed = bytes;
                changed[at] ^= flips;
                assert_ne!(Item::read(&changed), Some(item), "{item:?} {at} {flips:02x}");
            }
        }
    }
}
