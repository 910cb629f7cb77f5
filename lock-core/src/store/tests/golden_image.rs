//! A whole flash as version 4 of the layout writes it, kept in a file: locks in
//! the field hold such images, so every later version has to read this one.
//!
//! The image is 77 pages of 512 bytes after a short life: words of 8 bytes,
//! rings turned over, the settings changed twice, a timetable file that waits, two
//! boots. A new version of
//! the layout keeps this test and adds one of its own; the file is written anew
//! (and looked at) with `BLESS=1 cargo test -p lock-core golden_image`.

use std::{env, fs};

use super::super::Layout;
use super::files::{sealed, stage};
use super::model::{listed, lost};
use super::*;
use crate::audit::Seq;
use crate::link::timetable_file::TimetableFile;
use crate::port::Reads;
use crate::recovered::LastWord;
use crate::rules::Days;
use crate::settings::{Edit, FileState, Waiting};
use crate::time::Steady;
use crate::timetable::Day;

type Small = Flash<8, 512>;

const FILE: &str = concat!(env!("CARGO_MANIFEST_DIR"), "/src/store/tests/layout-4.bin");

fn layout() -> Layout {
    Layout::smallest(512).unwrap()
}

fn a_window() -> Window {
    Window::new(Minute::from_hm(8, 30).unwrap(), Minute::from_hm(17, 0).unwrap()).unwrap()
}

/// Long enough for several chunks; Monday of B from 09:00 to 12:00.
fn a_file() -> TimetableFile {
    let mut calendar = Calendar::default();
    let morning = Window::new(Minute::from_hm(9, 0).unwrap(), Minute::from_hm(12, 0).unwrap());
    calendar.weeks[1][0] = morning.into_iter().collect();
    for n in 0..64 {
        let date = Date::from_days(25_000 + 2 * n);
        let closure = Closure { from: date, to: date, timetables: Timetables::ALL };
        calendar.closures.push(closure).unwrap();
    }
    TimetableFile {
        zone: heapless::String::try_from("IST-1GMT0,M10.5.0,M3.5.0/1").unwrap(),
        calendar,
    }
}

/// The life that the image is of.
fn lived() -> Small {
    let mut settings = plain_settings();
    settings.calendar.weeks[1][0] = [a_window()].into_iter().collect();
    let store = FlashStore::format(erased(layout()), layout(), &settings);
    let mut store = store.ok().unwrap();
    for n in 0..40u8 {
        let (who, at) = (number(n), Some(Utc::from_secs(1_800_000_000 + u32::from(n))));
        let people = People { first: who, second: None };
        let outcome = if n % 7 == 0 { Outcome::Duress } else { Outcome::Plain };
        for event in [Event::WrongCode { who }, Event::Released { people, outcome }] {
            assert_eq!(put(&mut store, &Write::Record(Record { at, event })), Ok(()));
        }
        assert_eq!(put(&mut store, &Write::Tally(Tally::Counted(who))), Ok(()));
        if n == 20 {
            assert_eq!(put(&mut store, &Write::Tally(Tally::Penalty)), Ok(()));
            store = FlashStore::mount(store.into_flash(), layout()).0;
        }
    }
    let record =
        Record { at: None, event: Event::Status { who: number(1), outcome: Outcome::Plain } };
    for edit in [
        Edit::Policy(Policy { wrong_codes: 7, ..Policy::DEFAULT }, None),
        Edit::Pairing(Pairing::new(LockNumber::new(1_001).unwrap(), 3, [0xA5; Pairing::LEN])),
    ] {
        assert!(store.edit(&edit, &record).is_ok());
        assert!(store.tend().is_ok());
    }
    let pieces = sealed(&store.pairing().ok().flatten().unwrap(), 5, &a_file());
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    let wait = Edit::Wait(5, Steady::from_secs(1_800_000_100));
    assert!(store.edit(&wait, &record).is_ok());
    FlashStore::mount(store.into_flash(), layout()).0.into_flash()
}

#[test]
fn the_golden_image_is_written_byte_for_byte() {
    let flash = lived();
    if env::var_os("BLESS").is_some() {
        fs::write(FILE, flash.content()).unwrap();
    }
    let golden = fs::read(FILE).unwrap();
    let differs = flash.content().iter().zip(&golden).position(|(now, then)| now != then);
    assert_eq!((flash.content().len(), differs), (golden.len(), None));
}

#[test]
fn the_golden_image_is_read() {
    let golden = Small::with_content(fs::read(FILE).unwrap());
    let (mut store, found) = FlashStore::mount(golden, layout());
    let known = found.known.ok().unwrap();
    assert_eq!(known.policy, Policy { wrong_codes: 7, ..Policy::DEFAULT });
    let tally = &found.tally;
    assert_eq!((tally.lock_count(), tally.step, tally.total(number(3))), (12, 1, 1));
    assert_eq!(found.floor, Some(Utc::from_secs(1_800_000_039)));
    let last = People { first: number(39), second: None };
    let released_last = LastWord::Released(Some(last));
    assert_eq!((found.newest_outcome, found.last_word), (Some(Outcome::Plain), released_last));
    let list = listed(&mut store);
    assert_eq!(list.last().map(|(seq, record)| (seq.0, record.event.kind())), Some((83, "status")));
    let released: Vec<u8> = list
        .iter()
        .filter_map(|(_, record)| {
            let Event::Released { people, .. } = record.event else { return None };
            Some(people.first.get())
        })
        .collect();
    assert!(
        released.len() >= 17
            && released.iter().copied().eq(40 - u8::try_from(released.len()).unwrap()..40)
    );
    assert_eq!(lost(&mut store), 0);
    assert_eq!(store.newest().map(|(seq, _)| seq), Some(Seq(83)));
    assert!(store.holder(number(1)).is_ok_and(|row| row.is_some_and(|r| r.counter == 0x0102_0304)));
    let monday = Date::from_ymd(2027, 3, 1).unwrap();
    let waits = Some(Waiting { version: 5, until: Steady::from_secs(1_800_000_100) });
    assert_eq!(known.file, FileState { version: 0, waits, lost: None });
    for days in (0..7).chain(8_000..8_400) {
        let date = Date::from_days(17_000 + days);
        for id in TimetableId::ALL {
            assert_eq!(store.day_to_come(id, date), Ok(a_file().calendar.day(id, date)));
        }
    }
    // 08:30 to 17:00, and in the file that waits 09:00 to 12:00.
    assert_eq!(
        store.day(TimetableId::B, monday),
        Ok(a_file().calendar.day(TimetableId::B, monday))
    );
    let closed = Date::from_days(25_000);
    assert_eq!(store.day(TimetableId::B, closed), Ok(Day::Closed));
    assert_eq!(store.edit(&Edit::Wait(4, Steady::from_secs(1)), &list[0].1), Err(StoreFault));
    let pairing = store.pairing().ok().flatten().unwrap();
    assert_eq!((pairing.generation(), pairing.key()), (3, &[0xA5; Pairing::LEN]));
}
