//! Timetable files: staged, waiting, adopted, lost. Sources: R3 (what narrows
//! holds at once, what widens waits), R6 (whole or not at all) and R7 (what was
//! lost is said). Files are sealed by `link`, as a laptop does.

use super::super::layout::Region;
use super::super::rows::CALENDARS;
use super::super::{FlashStore, Layout};
use super::*;
use crate::link::timetable_file::{Sealer, TimetableFile};
use crate::link::{FileFault, Version};
use crate::port::{Reads, Upkeep};
use crate::recovered::Recovered;
use crate::rules::{Days, Unreadable};
use crate::seal::{CHUNK, CONTENT, Direction, Series, seal_chunk};
use crate::settings::{Edit, FileState, Waiting};
use crate::time::{Steady, Zone};
use crate::timetable::Day;

const ZONE: &str = "IST-1GMT0,M10.5.0,M3.5.0/1";

pub(super) fn until() -> Steady {
    Steady::from_secs(1_803_890_700)
}

pub(super) fn pairing() -> Pairing {
    Pairing::new(LockNumber::new(1_001).unwrap(), 3, [0xA5; Pairing::LEN])
}

fn window(from: u16, to: u16) -> Window {
    Window::new(Minute::new(from).unwrap(), Minute::new(to).unwrap()).unwrap()
}

/// A Monday.
pub(super) fn monday() -> Date {
    Date::from_ymd(2027, 3, 1).unwrap()
}

/// Monday of A in the settings before any file: 08:00 to 12:00.
fn old_day() -> Day {
    Day::Windows([window(480, 720)].into_iter().collect())
}

/// Monday of A in every [`file`].
fn new_day() -> Day {
    Day::Windows([window(600, 1_080)].into_iter().collect())
}

pub(super) fn next_key() -> Pairing {
    Pairing::new(LockNumber::new(1_001).unwrap(), 4, [0x5A; Pairing::LEN])
}

/// A file with so many closures and special days that it is long, and Monday
/// of A from 10:00 to 18:00.
pub(super) fn file(closures: u16) -> TimetableFile {
    let mut calendar = Calendar::default();
    for week in &mut calendar.weeks {
        for day in week.iter_mut() {
            *day = [window(600, 1_080)].into_iter().collect();
        }
    }
    for n in 0..closures {
        let date = Date::from_days(30_000 + 2 * n);
        let closure = Closure { from: date, to: date, timetables: Timetables::ALL };
        calendar.closures.push(closure).unwrap();
    }
    for n in 0..closures.min(32) {
        let date = Date::from_days(31_000 + 2 * n);
        let windows = [window(600, 660), window(700, 760), window(800, 860)];
        let windows = windows.into_iter().collect();
        calendar.specials.push(Special { date, timetables: Timetables::ALL, windows }).unwrap();
    }
    TimetableFile { zone: heapless::String::try_from(ZONE).unwrap(), calendar }
}

pub(super) fn sealed(pairing: &Pairing, version: u32, file: &TimetableFile) -> Vec<Vec<u8>> {
    let mut sealer = Sealer::new(pairing, Version(version), file).unwrap();
    let mut pieces = vec![sealer.header().to_vec()];
    let mut chunk = [0; CHUNK];
    while let Some(length) = sealer.chunk(&mut chunk) {
        pieces.push(chunk[..length].to_vec());
    }
    pieces
}

pub(super) fn paired<const WORD: usize, const PAGE: usize>(
    layout: Layout,
) -> FlashStore<Flash<WORD, PAGE>> {
    let mut settings = plain_settings();
    settings.pairing = Some(pairing());
    settings.calendar.weeks[0][0] = [window(480, 720)].into_iter().collect();
    FlashStore::format(erased(layout), layout, &settings).ok().unwrap()
}

fn small() -> FlashStore<Flash<4, 256>> {
    paired(Layout::smallest(256).unwrap())
}

pub(super) fn boot<const WORD: usize, const PAGE: usize>(
    store: FlashStore<Flash<WORD, PAGE>>,
) -> (FlashStore<Flash<WORD, PAGE>>, Recovered) {
    let layout = store.layout;
    let mut flash = store.into_flash();
    flash.power_cycle();
    FlashStore::mount(flash, layout)
}

pub(super) fn stage<F: NorFlash>(
    store: &mut FlashStore<F>,
    pieces: &[Vec<u8>],
) -> Result<(), StoreFault> {
    for (index, piece) in (0..).zip(pieces) {
        store.stage(index, piece)?;
    }
    Ok(())
}

pub(super) fn loaded(version: u32) -> Record {
    let by = Some(People { first: number(1), second: None });
    Record { at: None, event: Event::Changed { by, change: Change::FileLoaded(version) } }
}

/// A change, and the rest after it.
pub(super) fn edit<F: NorFlash>(store: &mut FlashStore<F>, edit: &Edit) -> Result<(), StoreFault> {
    let done = store.edit(edit, &loaded(9));
    let _tried_again_later = store.tend();
    done
}

fn waits(version: u32) -> FileState {
    FileState { version: 0, waits: Some(Waiting { version, until: until() }), lost: None }
}

pub(super) fn in_force(version: u32) -> FileState {
    FileState { version, ..FileState::default() }
}

/// Every word of the staging region reads erased, and so do all but `calendars` of the
/// regions for calendars.
fn is_clear<const WORD: usize, const PAGE: usize>(
    store: &mut FlashStore<Flash<WORD, PAGE>>,
    calendars: usize,
) -> bool {
    let layout = store.layout;
    let content = store.flash_mut().content();
    let clear = |region: Region| {
        let first = usize::try_from(region.first).unwrap() * PAGE;
        let end = usize::try_from(region.end()).unwrap() * PAGE;
        content[first..end].iter().all(|byte| *byte == 0xFF)
    };
    let used = (0..CALENDARS).filter(|region| !clear(layout.calendar(*region))).count();
    clear(layout.staging()) && used == calendars
}

/// As much as a file can hold.
fn fullest() -> TimetableFile {
    let mut full = file(64);
    let windows = [600, 700, 800, 900, 1_000].map(|from| window(from, from + 60));
    let days = full.calendar.weeks.iter_mut().flatten();
    for day in days.chain(full.calendar.specials.iter_mut().map(|special| &mut special.windows)) {
        *day = windows.into();
    }
    full.zone = "<+03300>-03:30:00<+0430>-04:30:00,M3.5.0,M10.5.0".try_into().unwrap();
    full
}

fn adopts<const WORD: usize, const PAGE: usize>(file: TimetableFile) {
    let mut store = paired::<WORD, PAGE>(Layout::for_pages_of(PAGE).unwrap());
    let zone = Zone::parse(&file.zone).unwrap();
    let pieces = sealed(&pairing(), 7, &file);
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    for (index, piece) in (0..).zip(&pieces) {
        let mut buf = [0; CHUNK];
        assert_eq!(store.staged_chunk(index, &mut buf), Some(piece.len()));
        assert_eq!(buf[..piece.len()], piece[..]);
    }
    assert_eq!(store.staged_chunk(u8::try_from(pieces.len()).unwrap(), &mut [0; CHUNK]), None);
    assert_eq!(store.staged_day(TimetableId::A, monday()), Err(Unreadable));
    let (version, mark) = store.staged().unwrap();
    assert_eq!((version, store.staged()), (Version(7), Ok((version, mark))));
    for days in (0..14).chain(10_000..11_100) {
        let date = Date::from_days(20_000 + days);
        for id in TimetableId::ALL {
            assert_eq!(store.staged_day(id, date), Ok(file.calendar.day(id, date)));
        }
    }
    assert_eq!(store.staged_zone(), Ok(zone));
    // Nothing of it holds yet, not even what it narrows.
    assert_eq!(store.day(TimetableId::A, monday()), Ok(old_day()));
    assert_eq!(store.day_to_come(TimetableId::A, monday()), Ok(old_day()));
    assert_eq!(edit(&mut store, &Edit::Adopt(8)), Err(StoreFault));
    assert_eq!(edit(&mut store, &Edit::Adopt(7)), Ok(()));
    assert!(is_clear(&mut store, 1));
    for _ in 0..2 {
        for id in TimetableId::ALL {
            for days in (0..14).chain(10_000..11_100) {
                let date = Date::from_days(20_000 + days);
                assert_eq!(store.day(id, date), Ok(file.calendar.day(id, date)));
            }
        }
        assert_eq!(store.zone(), Ok(zone));
        assert_eq!(store.file_state(), Ok(in_force(7)));
        assert!(store.holder(number(1)).is_ok_and(|row| row.is_some()));
        assert_eq!(store.newest().map(|(_, record)| record), Some(loaded(9)));
        let found;
        (store, found) = boot(store);
        let known = found.known.ok().unwrap();
        assert_eq!((known.file, known.zone), (in_force(7), zone));
    }
    // An older one, and the same again, are refused by name.
    for old in [6, 7] {
        assert_eq!(stage(&mut store, &sealed(&pairing(), old, &file)), Ok(()));
        assert_eq!(store.staged().err(), Some(FileFault::Old(7)));
        assert_eq!(edit(&mut store, &Edit::Adopt(old)), Err(StoreFault));
        assert_eq!(edit(&mut store, &Edit::Wait(old, until())), Err(StoreFault));
    }
}

/// Files of one chunk and of as many as there can be.
#[test]
fn a_staged_file_is_adopted_whole() {
    let mut smallest = file(0);
    smallest.calendar = Calendar::default();
    assert_eq!(sealed(&pairing(), 1, &smallest).len(), 2);
    assert_eq!(sealed(&pairing(), 1, &fullest()).len(), 10);
    adopts::<4, 256>(smallest);
    adopts::<8, 512>(fullest());
    adopts::<16, 1_024>(file(64));
    adopts::<32, 2_048>(file(64));
    adopts::<8, 4_096>(file(17));
}

/// R3: while it waits, only what both calendars open is open, whatever is
/// changed meanwhile and however often the lock boots.
#[test]
fn a_waiting_file_narrows_at_once_and_outlives_edits_and_boots() {
    let mut store = small();
    assert_eq!(stage(&mut store, &sealed(&pairing(), 2, &file(64))), Ok(()));
    assert_eq!(edit(&mut store, &Edit::Wait(2, until())), Ok(()));
    let both = Day::Windows([window(600, 720)].into_iter().collect());
    for n in 0..4u16 {
        assert_eq!(store.day(TimetableId::A, monday()), Ok(both.clone()));
        assert_eq!(store.day(TimetableId::B, monday()), Ok(Day::Windows(Windows::new())));
        assert_eq!(store.day(TimetableId::A, Date::from_days(30_000)), Ok(Day::Closed));
        assert_eq!(store.file_state(), Ok(waits(2)));
        assert_eq!(store.zone(), Ok(Zone::parse("GMT0IST,M3.5.0/1,M10.5.0").unwrap()));
        assert_eq!(store.zone_to_come(), Ok(Zone::parse(ZONE).unwrap()));
        for days in (0..14).chain(10_000..11_100) {
            let date = Date::from_days(20_000 + days);
            for id in TimetableId::ALL {
                assert_eq!(store.day_to_come(id, date), Ok(file(64).calendar.day(id, date)));
            }
        }
        let mut row = plain_settings().holders[1].clone();
        row.as_mut().unwrap().counter = n.into();
        assert_eq!(edit(&mut store, &Edit::Holder(number(7), row)), Ok(()));
        let found;
        (store, found) = boot(store);
        assert_eq!(found.known.ok().unwrap().file, waits(2));
    }
    assert_eq!(edit(&mut store, &Edit::Adopt(2)), Ok(()));
    assert_eq!(store.day(TimetableId::A, monday()), Ok(new_day()));
    assert_eq!(store.file_state(), Ok(in_force(2)));
    assert!(is_clear(&mut store, 1));
}

/// R3: a newer file is opened while another one waits, which goes on doing so until the
/// newer one waits or is in force. Two calendars hold at any time, and three lie there.
#[test]
fn a_newer_file_takes_the_place_of_one_that_waits_and_only_by_its_edit() {
    let both = Day::Windows([window(600, 720)].into_iter().collect());
    let narrow = |version| {
        let mut narrow = file(0);
        narrow.calendar.weeks[0][0] = [window(700, 710)].into_iter().collect();
        sealed(&pairing(), version, &narrow)
    };
    let narrowed = || Day::Windows([window(700, 710)].into_iter().collect());
    let a_monday = |store: &mut FlashStore<Flash<4, 256>>| store.day(TimetableId::A, monday());
    let waiting = || {
        let mut store = small();
        assert_eq!(stage(&mut store, &sealed(&pairing(), 3, &file(64))), Ok(()));
        assert_eq!(edit(&mut store, &Edit::Wait(3, until())), Ok(()));
        // Neither the same one nor an older one.
        for old in [2, 3] {
            assert_eq!(stage(&mut store, &sealed(&pairing(), old, &file(0))), Ok(()));
            assert_eq!(store.staged(), Err(FileFault::Old(3)));
        }
        assert_eq!(stage(&mut store, &narrow(5)), Ok(()));
        assert_eq!(store.staged().map(|(version, _)| version), Ok(Version(5)));
        assert!(store.tend().is_ok());
        assert_eq!(store.staged_day(TimetableId::A, monday()), Ok(narrowed()));
        assert_eq!((a_monday(&mut store), store.file_state()), (Ok(both.clone()), Ok(waits(3))));
        assert_eq!(edit(&mut store, &Edit::Wait(4, until())), Err(StoreFault));
        assert_eq!(edit(&mut store, &Edit::Adopt(6)), Err(StoreFault));
        store
    };
    // It is not accepted: a boot forgets it.
    let (mut store, _) = boot(waiting());
    assert_eq!((a_monday(&mut store), store.file_state()), (Ok(both.clone()), Ok(waits(3))));
    assert_eq!(store.staged(), Err(FileFault::NotStaged));
    assert!(store.tend().is_ok() && is_clear(&mut store, 2));
    // It waits instead.
    let mut store = waiting();
    assert_eq!(edit(&mut store, &Edit::Wait(5, until())), Ok(()));
    assert!(is_clear(&mut store, 2));
    for _ in 0..2 {
        assert_eq!((a_monday(&mut store), store.file_state()), (Ok(narrowed()), Ok(waits(5))));
        assert_eq!(edit(&mut store, &Edit::Adopt(3)), Err(StoreFault));
        (store, _) = boot(store);
    }
    // It is in force at once, and nothing waits any more.
    let mut store = waiting();
    assert_eq!(edit(&mut store, &Edit::Adopt(5)), Ok(()));
    assert!(is_clear(&mut store, 1));
    assert_eq!((a_monday(&mut store), store.file_state()), (Ok(narrowed()), Ok(in_force(5))));
    // The older one falls due first; the newer one is still there to be accepted.
    let mut store = waiting();
    assert_eq!(edit(&mut store, &Edit::Adopt(3)), Ok(()));
    assert_eq!((a_monday(&mut store), store.file_state()), (Ok(new_day()), Ok(in_force(3))));
    assert_eq!(store.staged().map(|(version, _)| version), Ok(Version(5)));
    assert_eq!(edit(&mut store, &Edit::Wait(5, until())), Ok(()));
    let later = Steady::from_secs(until().as_secs() + 60);
    assert_eq!(edit(&mut store, &Edit::Wait(5, later)), Ok(()), "another instant");
    let waits = Some(Waiting { version: 5, until: later });
    let state = FileState { version: 3, waits, lost: None };
    assert_eq!((a_monday(&mut store), store.file_state()), (Ok(narrowed()), Ok(state)));
    // A pairing key retires what was opened under the old one.
    let mut store = waiting();
    assert_eq!(edit(&mut store, &Edit::Pairing(next_key())), Ok(()));
    assert_eq!(edit(&mut store, &Edit::Adopt(5)), Err(StoreFault));
    assert_eq!(store.staged(), Err(FileFault::NotStaged));
}

/// What is rightly sealed and cannot be used is refused whole; the judge is the check of
/// a file in memory. Content that no sealer would seal is sealed by hand.
#[test]
fn a_file_that_contradicts_itself_is_refused_and_nothing_of_it_stays() {
    let mut store = small();
    let mut twice = file(3);
    let special = twice.calendar.specials[0].clone();
    twice.calendar.specials.push(special).unwrap();
    let mut overlap = file(0);
    overlap.calendar.weeks[7][6] = [window(1_400, 601)].into_iter().collect();
    let mut ends_first = file(64);
    ends_first.calendar.closures[63].to = Date::from_days(3);
    let mut zone = file(1);
    zone.zone = heapless::String::try_from("IST-1GMT0").unwrap();
    for wrong in [twice, overlap, ends_first, zone] {
        let why = wrong.check().unwrap_err();
        let pieces = sealed_unchecked(&pairing(), 2, &wrong);
        assert_eq!(stage(&mut store, &pieces), Ok(()));
        assert_eq!(store.staged(), Err(FileFault::Wrong(why)));
        assert_eq!(store.staged_day(TimetableId::A, monday()), Err(Unreadable));
        assert_eq!(edit(&mut store, &Edit::Adopt(2)), Err(StoreFault));
        assert_eq!(edit(&mut store, &Edit::Wait(2, until())), Err(StoreFault));
        (store, _) = boot(store);
        assert!(store.tend().is_ok() && is_clear(&mut store, 1));
        assert_eq!(store.day(TimetableId::A, monday()), Ok(old_day()));
    }
}

/// As [`sealed`], of content that is not checked before.
fn sealed_unchecked(pairing: &Pairing, version: u32, file: &TimetableFile) -> Vec<Vec<u8>> {
    let mut room = [0; 2_400];
    let content = &*postcard::to_slice(file, &mut room).unwrap();
    let mut pieces = sealed(pairing, version, &self::file(0));
    pieces.truncate(1);
    let header = pieces[0].clone();
    let series = Series {
        direction: Direction::Inbound,
        lock: pairing.lock().get(),
        generation: pairing.generation(),
        counter: version,
    };
    let mut contents: Vec<&[u8]> = content.chunks(CONTENT).collect();
    if content.len().is_multiple_of(CONTENT) {
        contents.push(&[]);
    }
    for (index, content) in (0..).zip(contents) {
        let mut chunk = [0; CHUNK];
        chunk[..content.len()].copy_from_slice(content);
        let key = pairing.inbound();
        let length = seal_chunk(&key, &series, &header, index, &mut chunk, content.len());
        pieces.push(chunk[..length.unwrap()].to_vec());
    }
    pieces
}

#[test]
fn what_is_out_of_turn_or_not_whole_is_refused() {
    let pieces = sealed(&pairing(), 2, &file(64));
    let mut store = small();
    assert_eq!(store.staged().err(), Some(FileFault::NotStaged));
    assert_eq!(edit(&mut store, &Edit::Adopt(2)), Err(StoreFault));
    // Only what was begun goes on, and a failure ends it.
    assert_eq!(store.stage(1, &pieces[1]), Err(StoreFault));
    for (index, bytes) in [(2, &pieces[2][..]), (1, &[]), (1, &[0; CHUNK + 1]), (255, &[1])] {
        assert_eq!(store.stage(0, &pieces[0]), Ok(()));
        assert_eq!(store.stage(index, bytes), Err(StoreFault), "{index}");
        assert_eq!(store.stage(1, &pieces[1]), Ok(()), "what was refused changes nothing");
    }
    // A piece missing, one too many, one changed, one of another file.
    let others = sealed(&pairing(), 3, &file(64));
    let mut longer = pieces.clone();
    longer.push(vec![1; 40]);
    let mut changed = pieces.clone();
    changed[3][77] ^= 1;
    let mut mixed = pieces.clone();
    mixed[2].clone_from(&others[2]);
    for wrong in [&pieces[..5], &longer, &changed, &mixed] {
        assert_eq!(stage(&mut store, wrong), Ok(()));
        assert_eq!(store.staged().err(), Some(FileFault::Broken));
        assert_eq!(edit(&mut store, &Edit::Adopt(2)), Err(StoreFault));
    }
    let eleven = vec![vec![1; 10]; 11];
    assert_eq!(stage(&mut store, &eleven), Err(StoreFault));
    let stranger = Pairing::new(LockNumber::new(1_001).unwrap(), 4, [0xA5; Pairing::LEN]);
    assert_eq!(stage(&mut store, &sealed(&stranger, 2, &file(0))), Ok(()));
    assert_eq!(store.staged().err(), Some(FileFault::OtherKey(4)));
    // A boot forgets what is only staged, and clears it away.
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    let (mut store, found) = boot(store);
    assert_eq!(found.known.ok().unwrap().file, FileState::default());
    assert_eq!(store.staged().err(), Some(FileFault::NotStaged));
    assert_eq!(store.tend(), Ok(Upkeep::Done));
    assert!(is_clear(&mut store, 1) && store.tend() == Ok(Upkeep::None));
    // A lock without a key opens nothing.
    let mut store = formatted::<4, 256>(Layout::smallest(256).unwrap());
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    assert_eq!(store.staged().err(), Some(FileFault::NoKey));
}

/// R7: one flipped bit in a waiting file changes nothing; two in any row of it, and it no
/// longer waits, which is said until another file comes.
#[test]
fn a_waiting_file_that_is_damaged_is_said_to_be_lost() {
    let mut store = small();
    let pieces = sealed(&pairing(), 2, &file(64));
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    assert_eq!(edit(&mut store, &Edit::Wait(2, until())), Ok(()));
    let layout = store.layout;
    let flash = store.into_flash();
    // The first is in force; this one lies in the second.
    let first = usize::try_from(layout.calendar(1).first).unwrap() * 256;
    let lost = FileState { lost: Some(2), ..FileState::default() };
    for row in 0..105 {
        let length = if row == 104 { 64 } else { 32 };
        for byte in (0..length).step_by(5) {
            let at = first + row * 32 + byte;
            let mut one = flash.clone();
            one.content_mut()[at] ^= 0x10;
            let (mut store, found) = FlashStore::mount(one, layout);
            assert_eq!(found.known.ok().unwrap().file, waits(2), "{row} {byte}");
            assert_eq!(store.day_to_come(TimetableId::A, monday()), Ok(new_day()));
            let mut two = flash.clone();
            two.content_mut()[at] ^= 0x11;
            let (mut store, found) = FlashStore::mount(two, layout);
            assert_eq!(found.known.ok().unwrap().file, lost, "{row} {byte}");
            assert_eq!(store.day(TimetableId::A, monday()), Ok(old_day()));
            assert_eq!(store.day_to_come(TimetableId::A, monday()), Ok(old_day()));
            assert_eq!(edit(&mut store, &Edit::Adopt(2)), Err(StoreFault));
        }
    }
    // It does not come back, also not by being staged again.
    let mut damaged = flash;
    damaged.content_mut()[first + 32 + 20] ^= 0b11;
    let (mut store, _) = FlashStore::mount(damaged, layout);
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    assert!(store.tend().is_ok() && store.staged().is_ok());
    let (mut store, found) = boot(store);
    assert_eq!(found.known.ok().unwrap().file, lost);
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    assert_eq!(edit(&mut store, &Edit::Adopt(2)), Ok(()));
    assert_eq!(store.file_state(), Ok(in_force(2)));
}

/// A new pairing key retires the one that a waiting file was sealed under.
#[test]
fn a_new_pairing_key_loses_a_waiting_file_and_says_so() {
    for _ in 0..2 {
        let mut store = small();
        assert_eq!(stage(&mut store, &sealed(&pairing(), 2, &file(0))), Ok(()));
        assert_eq!(edit(&mut store, &Edit::Wait(2, until())), Ok(()));
        assert_eq!(edit(&mut store, &Edit::Pairing(next_key())), Ok(()));
        let lost = FileState { lost: Some(2), ..FileState::default() };
        assert_eq!(store.file_state(), Ok(lost));
        assert_eq!(store.day(TimetableId::A, monday()), Ok(old_day()));
        assert!(is_clear(&mut store, 1));
        let (_, found) = boot(store);
        assert_eq!(found.known.ok().unwrap().file, lost);
    }
}

/// The last generation of the pairing key outlives a reset, the first warden after it and
/// every other change: what was sealed under an old key does not come back.
#[test]
fn the_last_generation_of_the_pairing_key_is_never_forgotten() {
    let mut store = formatted::<4, 256>(Layout::smallest(256).unwrap());
    assert_eq!(store.last_generation(), Ok(0));
    let warden = || plain_settings().holders[1].clone().unwrap();
    let reset = |n| Edit::Reset(LockKey::from_bytes([n; 32]));
    let edits = [
        (reset(1), 0),
        (Edit::Pairing(pairing()), 3),
        (Edit::Holder(number(7), Some(warden())), 3),
        (Edit::Pairing(next_key()), 4),
        (reset(2), 4),
        (reset(3), 4),
        (Edit::Commission(LockKey::from_bytes([8; 32]), number(1), warden()), 4),
        (Edit::Holder(number(7), Some(warden())), 4),
    ];
    for (change, last) in edits {
        assert_eq!(edit(&mut store, &change), Ok(()));
        assert_eq!(store.last_generation(), Ok(last));
        (store, _) = boot(store);
        assert_eq!(store.last_generation(), Ok(last));
    }
    assert!(store.pairing().is_ok_and(|pairing| pairing.is_none()));
}

/// A reset forgets files, waiting or in force: a lock that is paired anew
/// begins with any version.
#[test]
fn a_reset_forgets_files() {
    let mut store = small();
    assert_eq!(stage(&mut store, &sealed(&pairing(), 2, &file(0))), Ok(()));
    assert_eq!(edit(&mut store, &Edit::Wait(2, until())), Ok(()));
    assert_eq!(edit(&mut store, &Edit::Reset(LockKey::from_bytes([9; 32]))), Ok(()));
    assert_eq!(store.file_state(), Ok(FileState::default()));
    assert_eq!(store.day(TimetableId::A, monday()), Ok(Day::Windows(Windows::new())));
    assert!(is_clear(&mut store, 0));
}
