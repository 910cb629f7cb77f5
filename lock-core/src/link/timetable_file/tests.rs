//! A timetable file opens to what was sealed, or not at all.

use std::vec::Vec;

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::sample::select;

use super::*;
use crate::pairing::LockNumber;
use crate::time::Minute;
use crate::timetable::{Closure, Special, Window};

const ZONES: [&str; 3] = ["UTC0", "IST-1GMT0,M10.5.0,M3.5.0/1", "CET-1CEST,M3.5.0,M10.5.0/3"];

fn pairing(lock: u16, generation: u32, key: u8) -> Pairing {
    Pairing::new(LockNumber::new(lock).unwrap(), generation, [key; Pairing::LEN])
}

fn own() -> Pairing {
    pairing(1_001, 3, 0xA5)
}

fn window(from: u16, to: u16) -> Window {
    Window::new(Minute::new(from).unwrap(), Minute::new(to).unwrap()).unwrap()
}

fn date(days: u16) -> Date {
    Date::from_days(days)
}

fn zone(text: &str) -> heapless::String<ZONE_TEXT> {
    text.try_into().unwrap()
}

/// The counter of the bakery, Mondays; Christmas; Christmas Eve.
fn small() -> TimetableFile {
    let mut calendar = Calendar::default();
    calendar.weeks[0][0].push(window(510, 750)).unwrap();
    calendar.weeks[0][0].push(window(810, 1_020)).unwrap();
    calendar.weeks[1][6].push(window(1_320, 120)).unwrap();
    let timetables = Timetables::ALL;
    calendar.closures.push(Closure { from: date(21_177), to: date(21_178), timetables }).unwrap();
    let windows = [window(510, 720)].into_iter().collect();
    calendar.specials.push(Special { date: date(21_176), timetables, windows }).unwrap();
    TimetableFile { zone: zone(ZONES[1]), calendar }
}

/// As much as there can be, in the widest numbers.
fn largest() -> TimetableFile {
    let mut calendar = Calendar::default();
    let full: Windows = [(130, 200), (300, 400), (500, 600), (700, 800), (900, 1_440)]
        .map(|(a, b)| window(a, b))
        .into();
    for windows in calendar.weeks.iter_mut().flatten() {
        windows.clone_from(&full);
    }
    let timetables = Timetables::ALL;
    for n in 0..u16::try_from(CLOSURES).unwrap() {
        let day = date(30_000 + n);
        calendar.closures.push(Closure { from: day, to: day, timetables }).unwrap();
    }
    for n in 0..u16::try_from(SPECIALS).unwrap() {
        let special = Special { date: date(20_000 + n), timetables, windows: full.clone() };
        calendar.specials.push(special).unwrap();
    }
    // 48 characters, and a rule.
    let text = "<+03300>-03:30:00<+0430>-04:30:00,M3.5.0,M10.5.0";
    TimetableFile { zone: zone(text), calendar }
}

type Sealed = ([u8; HEADER], Vec<Vec<u8>>);

fn sealed(pairing: &Pairing, version: u32, file: &TimetableFile) -> (Sealed, Fingerprint) {
    let mut sealer = Sealer::new(pairing, Version(version), file).unwrap();
    let mut chunks = Vec::new();
    let mut chunk = [0; CHUNK];
    while let Some(length) = sealer.chunk(&mut chunk) {
        chunks.push(chunk[..length].to_vec());
    }
    ((*sealer.header(), chunks), sealer.fingerprint().unwrap())
}

fn opened(
    (header, chunks): &Sealed,
    pairing: &Pairing,
) -> Result<(Version, Fingerprint, TimetableFile), FileFault> {
    let source = |index: u16, chunk: &mut [u8; CHUNK]| {
        let from = chunks.get(usize::from(index))?;
        let length = from.len().min(CHUNK);
        chunk[..length].copy_from_slice(&from[..length]);
        Some(from.len())
    };
    open(header, source, pairing)
}

#[test]
fn what_was_sealed_is_opened() {
    for file in [small(), largest()] {
        let (sealed, fingerprint) = sealed(&own(), 7, &file);
        assert_eq!(opened(&sealed, &own()), Ok((Version(7), fingerprint, file)));
    }
}

#[test]
fn the_largest_file_fills_what_there_is_room_for() {
    let mut room = [0; ROOM];
    assert_eq!(largest().write(&mut room), Some(CONTENT_MOST));
    assert_eq!(sealed(&own(), 1, &largest()).0.1.len(), CHUNKS_MOST);
}

/// Of 63 bytes without windows, 3 each window and 7 each closure.
#[test]
fn a_content_that_fills_its_chunk_is_followed_by_an_empty_one() {
    let mut calendar = Calendar::default();
    let timetables = Timetables::ALL;
    for n in 0..3 {
        let day = date(30_000 + n);
        calendar.closures.push(Closure { from: day, to: day, timetables }).unwrap();
    }
    for windows in calendar.weeks.iter_mut().flatten().take(26) {
        windows.push(window(200, 300)).unwrap();
        windows.push(window(400, 500)).unwrap();
    }
    let file = TimetableFile { zone: zone("UTC0"), calendar };
    let (sealed, fingerprint) = sealed(&own(), 1, &file);
    let lengths: Vec<_> = sealed.1.iter().map(Vec::len).collect();
    assert_eq!(lengths, [CHUNK, seal::TAG]);
    assert_eq!(opened(&sealed, &own()), Ok((Version(1), fingerprint, file)));
}

/// Every byte, changed in every way: never the same file, and never another.
#[test]
fn no_changed_byte_is_taken() {
    let (sealed, _) = sealed(&own(), 7, &small());
    assert_eq!(sealed.1.len(), 1);
    for at in 0..HEADER {
        for flips in 1..=u8::MAX {
            let mut changed = sealed.clone();
            changed.0[at] ^= flips;
            assert!(opened(&changed, &own()).is_err(), "header {at} {flips:02x}");
        }
    }
    for at in 0..sealed.1[0].len() {
        for flips in 1..=u8::MAX {
            let mut changed = sealed.clone();
            changed.1[0][at] ^= flips;
            assert_eq!(opened(&changed, &own()), Err(FileFault::Broken), "{at} {flips:02x}");
        }
    }
}

#[test]
fn nothing_cut_longer_or_exchanged_is_taken() {
    let (whole, _) = sealed(&own(), 7, &largest());
    let (older, _) = sealed(&own(), 6, &largest());
    let broken = |change: &dyn Fn(&mut Vec<Vec<u8>>)| {
        let mut changed = whole.clone();
        change(&mut changed.1);
        assert_eq!(opened(&changed, &own()), Err(FileFault::Broken));
    };
    for keep in 0..whole.1.len() {
        broken(&|chunks| chunks.truncate(keep));
    }
    for at in 0..whole.1.len() {
        broken(&|chunks| {
            chunks[at].pop();
        });
        broken(&|chunks| chunks[at].truncate(3));
        broken(&|chunks| chunks[at].push(0));
        broken(&|chunks| chunks[at] = std::vec![0; CHUNK + 1]);
        broken(&|chunks| chunks[at].clone_from(&older.1[at]));
        broken(&|chunks| chunks.insert(at, whole.1[at].clone()));
    }
    broken(&|chunks| chunks.swap(0, 1));
    broken(&|chunks| chunks.push(whole.1[0].clone()));
}

#[test]
fn a_file_for_another_lock_or_key_says_so() {
    let (file, _) = sealed(&own(), 7, &small());
    let to = |pairing: Pairing| opened(&file, &pairing).unwrap_err();
    assert_eq!(to(pairing(1_002, 3, 0xA5)), FileFault::OtherLock(1_001));
    assert_eq!(to(pairing(1_001, 4, 0xA5)), FileFault::OtherKey(3));
    assert_eq!(to(pairing(1_001, 3, 0xA6)), FileFault::Broken);
    let with = |at: usize, value: u8| {
        let mut other = file.clone();
        other.0[at] = value;
        opened(&other, &own()).unwrap_err()
    };
    assert_eq!(with(0, 0), FileFault::NotOurs);
    assert_eq!(with(4, 1), FileFault::Format(1));
    assert_eq!(with(4, 3), FileFault::Format(3));
    assert_eq!(with(5, 2), FileFault::NotOurs);
}

/// The keys of the two directions differ: no extract passes for a file.
#[test]
fn what_is_sealed_outbound_is_no_file() {
    let (mut file, _) = sealed(&own(), 7, &small());
    let mut content = [0; ROOM];
    let length = small().write(&mut content).unwrap();
    let mut chunk = [0; CHUNK];
    chunk[..length].copy_from_slice(&content[..length]);
    let series = series(&own(), Version(7));
    let key = own().outbound();
    let sealed = seal::seal_chunk(&key, &series, &file.0, 0, &mut chunk, length).unwrap();
    file.1 = std::vec![chunk[..sealed].to_vec()];
    assert_eq!(opened(&file, &own()), Err(FileFault::Broken));
}

#[test]
fn contradictions_are_named() {
    let wrong = |change: &dyn Fn(&mut TimetableFile)| {
        let mut file = small();
        change(&mut file);
        let found = file.check().unwrap_err();
        assert_eq!(Sealer::new(&own(), Version(1), &file).err(), Some(found));
        found
    };
    let (a, b) = (TimetableId::A, TimetableId::B);
    let (monday, sunday) = (Weekday::ALL[0], Weekday::ALL[6]);
    assert_eq!(wrong(&|file| file.zone = zone("CET-1CEST")), Wrong::Zone);
    let push = |id: usize, day: usize, from, to| {
        move |file: &mut TimetableFile| {
            file.calendar.weeks[id][day].push(window(from, to)).unwrap();
        }
    };
    assert_eq!(wrong(&push(0, 0, 1_019, 1_030)), Wrong::Overlap(a, monday));
    assert_eq!(wrong(&push(0, 0, 600, 700)), Wrong::Overlap(a, monday));
    assert_eq!(wrong(&push(0, 6, 1_400, 511)), Wrong::Overlap(a, monday));
    assert_eq!(wrong(&push(1, 0, 119, 200)), Wrong::Overlap(b, monday));
    assert_eq!(wrong(&push(1, 6, 1_439, 100)), Wrong::Overlap(b, sunday));
    // Ends that touch do not overlap.
    let mut touching = small();
    push(1, 0, 120, 200)(&mut touching);
    push(0, 0, 1_020, 1_030)(&mut touching);
    assert_eq!(touching.check(), Ok(()));

    let closure = |file: &mut TimetableFile| file.calendar.closures[0];
    let to = |file: &mut TimetableFile| file.calendar.closures[0].to = date(21_176);
    assert_eq!(wrong(&to), Wrong::Closure(date(21_177)));
    let nobody = Timetables::default();
    assert_eq!(wrong(&|file| file.calendar.closures[0].timetables = nobody), Wrong::Nobody);
    assert_eq!(wrong(&|file| file.calendar.specials[0].timetables = nobody), Wrong::Nobody);
    let closed = |file: &mut TimetableFile| file.calendar.specials[0].date = closure(file).to;
    assert_eq!(wrong(&closed), Wrong::Contradiction(a, date(21_178)));
    let twice = |file: &mut TimetableFile| {
        let special = Special { timetables: Timetables::default().with(b), ..special(file) };
        file.calendar.specials.push(special).unwrap();
    };
    assert_eq!(wrong(&twice), Wrong::Contradiction(b, date(21_176)));
    // A Friday; the Thursday before and the Saturday behind it.
    let over = |file: &mut TimetableFile| {
        file.calendar.weeks[2][3].push(window(1_400, 511)).unwrap();
    };
    assert_eq!(wrong(&over), Wrong::SpecialOverlap(TimetableId::C, date(21_176)));
    let into = |file: &mut TimetableFile| {
        file.calendar.closures.clear();
        file.calendar.specials[0].windows = [window(1_400, 100)].into_iter().collect();
        file.calendar.weeks[3][5].push(window(99, 200)).unwrap();
    };
    assert_eq!(wrong(&into), Wrong::SpecialOverlap(TimetableId::D, date(21_176)));
}

fn special(file: &TimetableFile) -> Special {
    file.calendar.specials[0].clone()
}

/// Opens content that was rightly sealed, whatever it is.
fn read(content: &[u8]) -> Result<TimetableFile, Wrong> {
    let ((header, _), _) = sealed(&own(), 9, &small());
    let (key, series) = (own().inbound(), series(&own(), Version(9)));
    let mut pieces: Vec<&[u8]> = content.chunks(CONTENT).collect();
    if content.len().is_multiple_of(CONTENT) {
        pieces.push(&[]);
    }
    let chunks: Vec<Vec<u8>> = (0..)
        .zip(pieces)
        .map(|(index, piece)| {
            let mut chunk = [0; CHUNK];
            chunk[..piece.len()].copy_from_slice(piece);
            let length =
                seal::seal_chunk(&key, &series, &header, index, &mut chunk, piece.len()).unwrap();
            chunk[..length].to_vec()
        })
        .collect();
    let source = |index: u16, chunk: &mut [u8; CHUNK]| {
        let from = chunks.get(usize::from(index))?;
        chunk[..from.len()].copy_from_slice(from);
        Some(from.len())
    };
    match open(&header, source, &own()) {
        Ok((_, _, file)) => Ok(file),
        Err(FileFault::Wrong(wrong)) => Err(wrong),
        Err(other) => panic!("{other:?}"),
    }
}

/// Rightly sealed, but no content, or something behind it.
#[test]
fn content_of_no_form_is_refused() {
    let mut room = [0; ROOM];
    let length = small().write(&mut room).unwrap();
    assert_eq!(read(&room[..length]), Ok(small()));
    assert_eq!(read(&room[..length + 1]), Err(Wrong::Form));
    for cut in 0..length {
        assert_eq!(read(&room[..cut]), Err(Wrong::Form), "{cut}");
    }
}

#[test]
fn values_that_no_calendar_has_are_refused() {
    // A window without length, one from 24:00, late minutes at either end.
    for bytes in [[5, 0x50, 0], [0xA0, 0x55, 0], [0xA1, 0x55, 0], [5, 0x10, 0x5A]] {
        assert!(postcard::from_bytes::<Window>(&bytes).is_err(), "{bytes:02x?}");
    }
    // 5 and 1,440: 0x005 and 0x5A0.
    assert_eq!(postcard::from_bytes::<Window>(&[5, 0x00, 0x5A]), Ok(window(5, 1_440)));
    assert_eq!(window(5, 1_440).to_bytes(), [5, 0x00, 0x5A]);
    assert_eq!(postcard::from_bytes::<Timetables>(&[0xFF]), Ok(Timetables::ALL));
}

fn any_windows() -> impl Strategy<Value = Windows> {
    proptest::collection::btree_set(0..1_440_u16, 0..=10).prop_map(|minutes| {
        let minutes: Vec<_> = minutes.into_iter().collect();
        minutes.chunks_exact(2).map(|pair| window(pair[0], pair[1])).collect()
    })
}

fn any_file() -> impl Strategy<Value = TimetableFile> {
    let weeks = vec(any_windows(), TIMETABLES * 7);
    let bits = (1..=u8::MAX).prop_map(Timetables::from_bits);
    let closures = vec((0..20_000_u16, 0..9_u16, bits.clone()), 0..=CLOSURES);
    let specials = vec((any_windows(), bits), 0..=SPECIALS);
    (select(&ZONES[..]), weeks, closures, specials).prop_map(|(text, weeks, closed, special)| {
        let mut calendar = Calendar::default();
        for (to, from) in calendar.weeks.iter_mut().flatten().zip(weeks) {
            *to = from;
        }
        for (from, length, timetables) in closed {
            let closure = Closure { from: date(from), to: date(from + length), timetables };
            calendar.closures.push(closure).unwrap();
        }
        for (n, (windows, timetables)) in (40_000..).zip(special) {
            calendar.specials.push(Special { date: date(n), timetables, windows }).unwrap();
        }
        TimetableFile { zone: zone(text), calendar }
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(256))]

    /// postcard, the crate, is the judge of what is written by hand.
    #[test]
    fn content_is_written_as_postcard_writes_it(file in any_file()) {
        let (mut own, mut room) = ([0; ROOM], [0; ROOM]);
        let length = file.write(&mut own).unwrap();
        prop_assert_eq!(&own[..length], &*postcard::to_slice(&file, &mut room).unwrap());
    }

    /// postcard, the crate, is the judge of what is read by hand: spoilt at some
    /// places, content is taken by both, as the same file, or by none.
    #[test]
    fn content_is_read_as_postcard_reads_it(
        file in any_file(),
        spoils in vec((any::<proptest::sample::Index>(), any::<u8>()), 0..3),
        cut in any::<proptest::sample::Index>(),
        whole in any::<bool>(),
    ) {
        let mut room = [0; ROOM];
        let length = file.write(&mut room).unwrap();
        for (place, byte) in spoils {
            room[place.index(length)] = byte;
        }
        let content = if whole { &room[..length] } else { &room[..cut.index(length)] };
        let judged = postcard::take_from_bytes::<TimetableFile>(content)
            .ok()
            .filter(|(_, rest)| rest.is_empty())
            .map_or(Err(Wrong::Form), |(file, _)| file.check().map(|()| file));
        prop_assert_eq!(read(content), judged);
    }

    /// Whatever the file and the key.
    #[test]
    fn any_file_opens_to_itself(
        file in any_file(),
        (lock, generation, key) in (1..=u16::MAX, any::<u32>(), any::<u8>()),
        version in any::<u32>(),
    ) {
        let pairing = pairing(lock, generation, key);
        let (sealed, fingerprint) = sealed(&pairing, version, &file);
        prop_assert_eq!(opened(&sealed, &pairing), Ok((Version(version), fingerprint, file)));
    }
}
