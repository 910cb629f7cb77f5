//! Timetable files: staged, waiting, adopted, lost. Sources: R3 (what narrows
//! holds at once, what widens waits), R6 (whole or not at all) and R7 (what was
//! lost is said). Files are sealed by `link`, as a laptop does.

use super::super::{FlashStore, Layout};
use super::*;
use crate::link::timetable_file::{Sealer, TimetableFile};
use crate::link::{FileFault, Version};
use crate::port::{Reads, Upkeep};
use crate::recovered::Recovered;
use crate::rules::Days;
use crate::seal::CHUNK;
use crate::settings::{Edit, FileState, Waiting};
use crate::time::{Weekday, Zone};
use crate::timetable::Day;

const ZONE: &str = "IST-1GMT0,M10.5.0,M3.5.0/1";

fn until() -> Utc {
    Utc::from_secs(1_803_890_700)
}

fn pairing() -> Pairing {
    Pairing::new(LockNumber::new(1_001).unwrap(), 3, [0xA5; Pairing::LEN])
}

fn window(from: u16, to: u16) -> Window {
    Window::new(Minute::new(from).unwrap(), Minute::new(to).unwrap()).unwrap()
}

/// A Monday.
fn monday() -> Date {
    Date::from_ymd(2027, 3, 1).unwrap()
}

/// Monday of A in the settings before any file: 08:00 to 12:00.
fn old_day() -> Day {
    Day::Windows([window(480, 720)].into_iter().collect())
}

/// A file with so many closures and special days that it is long, and Monday
/// of A from 10:00 to 18:00.
fn file(closures: u16) -> TimetableFile {
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

fn paired<const WORD: usize, const PAGE: usize>(layout: Layout) -> FlashStore<Flash<WORD, PAGE>> {
    let mut settings = plain_settings();
    settings.pairing = Some(pairing());
    settings.calendar.weeks[0][0] = [window(480, 720)].into_iter().collect();
    FlashStore::format(erased(layout), layout, &settings).ok().unwrap()
}

fn small() -> FlashStore<Flash<4, 256>> {
    paired(Layout::smallest(256).unwrap())
}

fn boot<const WORD: usize, const PAGE: usize>(
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

fn loaded(version: u32) -> Record {
    let by = Some(People { first: number(1), second: None });
    Record { at: None, event: Event::Changed { by, change: Change::FileLoaded(version) } }
}

/// A change, and the rest after it.
fn edit<F: NorFlash>(store: &mut FlashStore<F>, edit: &Edit) -> Result<(), StoreFault> {
    let done = store.edit(edit, &loaded(9));
    let _tried_again_later = store.tend();
    done
}

fn waits(version: u32) -> FileState {
    FileState { version: 0, waits: Some(Waiting { version, until: until() }), lost: None }
}

fn in_force(version: u32) -> FileState {
    FileState { version, ..FileState::default() }
}

/// Every word of the staging region reads erased.
fn is_clear<const WORD: usize, const PAGE: usize>(
    store: &mut FlashStore<Flash<WORD, PAGE>>,
) -> bool {
    let first = usize::try_from(store.layout.staging().first).unwrap() * PAGE;
    store.flash_mut().content()[first..].iter().all(|byte| *byte == 0xFF)
}

fn adopts<const WORD: usize, const PAGE: usize>(closures: u16) {
    let mut store = paired::<WORD, PAGE>(Layout::for_pages_of(PAGE).unwrap());
    let file = file(closures);
    let pieces = sealed(&pairing(), 7, &file);
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    for (index, piece) in (0..).zip(&pieces) {
        let mut buf = [0; CHUNK];
        assert_eq!(store.staged_chunk(index, &mut buf), Some(piece.len()));
        assert_eq!(buf[..piece.len()], piece[..]);
    }
    assert_eq!(store.staged_chunk(u8::try_from(pieces.len()).unwrap(), &mut [0; CHUNK]), None);
    let (version, _, opened) = store.staged().unwrap();
    assert!(version == Version(7) && *opened == file);
    // Nothing of it holds yet, not even what it narrows.
    assert_eq!(store.day(TimetableId::A, monday()), Ok(old_day()));
    assert_eq!(edit(&mut store, &Edit::Adopt(8)), Err(StoreFault));
    assert_eq!(edit(&mut store, &Edit::Adopt(7)), Ok(()));
    assert!(is_clear(&mut store));
    for _ in 0..2 {
        for id in TimetableId::ALL {
            for days in (0..14).chain(10_000..11_100) {
                let date = Date::from_days(20_000 + days);
                assert_eq!(store.day(id, date), Ok(file.calendar.day(id, date)));
            }
        }
        assert_eq!(store.zone(), Ok(Zone::parse(ZONE).unwrap()));
        assert_eq!(store.file_state(), Ok(in_force(7)));
        assert!(store.holder(number(1)).is_ok_and(|row| row.is_some()));
        assert_eq!(store.newest().map(|(_, record)| record), Some(loaded(9)));
        let found;
        (store, found) = boot(store);
        let known = found.known.ok().unwrap();
        assert_eq!((known.file, known.zone), (in_force(7), Zone::parse(ZONE).unwrap()));
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
    assert_eq!(sealed(&pairing(), 1, &file(0)).len(), 2);
    assert_eq!(sealed(&pairing(), 1, &file(64)).len(), 6);
    adopts::<4, 256>(0);
    adopts::<8, 512>(64);
    adopts::<16, 1_024>(64);
    adopts::<32, 2_048>(64);
    adopts::<8, 4_096>(17);
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
        // Another file has to wait for this one, which is still there.
        assert_eq!(stage(&mut store, &sealed(&pairing(), 3, &file(0))), Err(StoreFault));
        assert_eq!(store.staged().map(|(version, ..)| version), Ok(Version(2)));
        let mut row = plain_settings().holders[1].clone();
        row.as_mut().unwrap().counter = n.into();
        assert_eq!(edit(&mut store, &Edit::Holder(number(7), row)), Ok(()));
        let windows = [window(480, 720), window(1_200 + n, 1_300)].into_iter().collect();
        assert_eq!(edit(&mut store, &Edit::Day(TimetableId::A, Weekday::Mon, windows)), Ok(()));
        let found;
        (store, found) = boot(store);
        assert_eq!(found.known.ok().unwrap().file, waits(2));
    }
    assert_eq!(edit(&mut store, &Edit::Adopt(2)), Ok(()));
    let new = Day::Windows([window(600, 1_080)].into_iter().collect());
    assert_eq!(store.day(TimetableId::A, monday()), Ok(new));
    assert_eq!(store.file_state(), Ok(in_force(2)));
    assert!(is_clear(&mut store));
    assert_eq!(stage(&mut store, &sealed(&pairing(), 3, &file(0))), Ok(()));
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
    let nine = vec![vec![1; 10]; 9];
    assert_eq!(stage(&mut store, &nine), Err(StoreFault));
    let stranger = Pairing::new(LockNumber::new(1_001).unwrap(), 4, [0xA5; Pairing::LEN]);
    assert_eq!(stage(&mut store, &sealed(&stranger, 2, &file(0))), Ok(()));
    assert_eq!(store.staged().err(), Some(FileFault::OtherKey(4)));
    // A boot forgets what is only staged, and clears it away.
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    let (mut store, found) = boot(store);
    assert_eq!(found.known.ok().unwrap().file, FileState::default());
    assert_eq!(store.staged().err(), Some(FileFault::NotStaged));
    assert_eq!(store.tend(), Ok(Upkeep::Done));
    assert!(is_clear(&mut store) && store.tend() == Ok(Upkeep::None));
    // A lock without a key opens nothing.
    let mut store = formatted::<4, 256>(Layout::smallest(256).unwrap());
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    assert_eq!(store.staged().err(), Some(FileFault::NoKey));
}

/// R7: one flipped bit in a waiting file changes nothing; two, and it no longer
/// waits, which is said until another file comes.
#[test]
fn a_waiting_file_that_is_damaged_is_said_to_be_lost() {
    let mut store = small();
    let pieces = sealed(&pairing(), 2, &file(64));
    assert_eq!(stage(&mut store, &pieces), Ok(()));
    assert_eq!(edit(&mut store, &Edit::Wait(2, until())), Ok(()));
    let layout = store.layout;
    let flash = store.into_flash();
    let first = usize::try_from(layout.staging().first).unwrap() * 256;
    let lost = FileState { lost: Some(2), ..FileState::default() };
    for piece in 0..pieces.len() {
        for byte in (0..288).step_by(7) {
            let at = first + piece * 288 + byte;
            let mut one = flash.clone();
            one.content_mut()[at] ^= 0x10;
            let (_, found) = FlashStore::mount(one, layout);
            assert_eq!(found.known.ok().unwrap().file, waits(2), "{piece} {byte}");
            let mut two = flash.clone();
            two.content_mut()[at] ^= 0x11;
            let (mut store, found) = FlashStore::mount(two, layout);
            assert_eq!(found.known.ok().unwrap().file, lost, "{piece} {byte}");
            assert_eq!(store.day(TimetableId::A, monday()), Ok(old_day()));
            assert_eq!(edit(&mut store, &Edit::Adopt(2)), Err(StoreFault));
        }
    }
    // It does not come back, also not by being staged again.
    let mut damaged = flash;
    damaged.content_mut()[first + 288 + 20] ^= 0b11;
    let (mut store, _) = FlashStore::mount(damaged, layout);
    assert_eq!(stage(&mut store, &pieces), Ok(()));
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
        let next = Pairing::new(LockNumber::new(1_001).unwrap(), 4, [0x5A; Pairing::LEN]);
        assert_eq!(edit(&mut store, &Edit::Pairing(next)), Ok(()));
        let lost = FileState { lost: Some(2), ..FileState::default() };
        assert_eq!(store.file_state(), Ok(lost));
        assert_eq!(store.day(TimetableId::A, monday()), Ok(old_day()));
        assert!(is_clear(&mut store));
        let (_, found) = boot(store);
        assert_eq!(found.known.ok().unwrap().file, lost);
    }
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
    assert!(is_clear(&mut store));
}

/// Words as large as they can be: the fewest cuts that are all of them.
type Coarse = FlashStore<Flash<32, 256>>;

/// What a lock asks of its store around files.
enum Step {
    Stage(u8, Vec<u8>),
    Edit(Edit),
    Rest,
}

fn take(store: &mut Coarse, step: &Step) -> Result<(), StoreFault> {
    match step {
        Step::Stage(index, piece) => store.stage(*index, piece),
        Step::Edit(edit) => store.edit(edit, &loaded(9)),
        Step::Rest => store.tend().map(|_| ()),
    }
}

/// What is asked in one go, between two boots: staged pieces outlive none.
fn life() -> Vec<Vec<Step>> {
    let staged = |version, edit| {
        let pieces = sealed(&pairing(), version, &file(9));
        let steps = (0..).zip(pieces).map(|(index, piece)| Step::Stage(index, piece));
        steps.chain([Step::Edit(edit), Step::Rest]).collect()
    };
    let alone = |edit| vec![Step::Edit(edit), Step::Rest];
    let warden = || plain_settings().holders[1].clone().unwrap();
    let next = Pairing::new(LockNumber::new(1_001).unwrap(), 4, [0x5A; Pairing::LEN]);
    vec![
        staged(2, Edit::Wait(2, until())),
        alone(Edit::Holder(number(7), Some(warden()))),
        alone(Edit::Adopt(2)),
        staged(3, Edit::Adopt(3)),
        staged(4, Edit::Wait(4, until())),
        alone(Edit::Pairing(next)),
        alone(Edit::Reset(LockKey::from_bytes([9; 32]))),
        alone(Edit::Commission(LockKey::from_bytes([8; 32]), number(1), warden())),
    ]
}

/// Everything that files change, and the rows beside it.
type Seen = (FileState, Day, Zone, Option<u32>, u8, Option<Seq>);

fn seen(store: &mut Coarse) -> Seen {
    (
        store.file_state().unwrap(),
        store.day(TimetableId::A, monday()).unwrap(),
        store.zone().unwrap(),
        store.pairing().ok().unwrap().map(|pairing| pairing.generation()),
        store.enrolled().unwrap(),
        store.newest().map(|(seq, _)| seq),
    )
}

/// R6: at every word and page a cut leaves what was before or what comes after,
/// at this boot and the next; the boot keeps within its bound.
#[test]
fn a_cut_at_any_step_leaves_a_file_as_it_was_or_as_it_will_be() {
    let layout = Layout::smallest(256).unwrap();
    let mut flash = paired::<32, 256>(layout).into_flash();
    let mut cuts = 0;
    for steps in life() {
        let resumed = |flash: &Flash<32, 256>, upto: usize| {
            let (mut store, _) = FlashStore::mount(flash.clone(), layout);
            for step in &steps[..upto] {
                assert_eq!(take(&mut store, step), Ok(()));
            }
            store
        };
        for (n, step) in steps.iter().enumerate() {
            let mut whole = resumed(&flash, n);
            let (before, from) = (seen(&mut whole), whole.flash_mut().steps());
            assert_eq!(take(&mut whole, step), Ok(()));
            let count = whole.flash_mut().steps() - from;
            let after = seen(&mut whole);
            for cut in 0..count {
                let mut torn = resumed(&flash, n);
                torn.flash_mut().cut_after(cut);
                assert_eq!(take(&mut torn, step), Err(StoreFault));
                boots_and_goes_on(torn, &before, &after);
                cuts += 1;
            }
        }
        flash = resumed(&flash, steps.len()).into_flash();
    }
    assert!(cuts > 8 * 330, "{cuts}");
}

fn boots_and_goes_on(torn: Coarse, before: &Seen, after: &Seen) {
    let bound = u64::from(torn.layout.boot_steps(32));
    let mut store = torn;
    let mut once = None;
    for _ in 0..2 {
        let from = store.flash_mut().steps();
        let (mut booted, found) = boot(store);
        assert!(booted.flash_mut().steps() - from <= bound);
        let now = seen(&mut booted);
        assert!(now == *before || now == *after, "{now:?}");
        assert_eq!(found.known.ok().unwrap().file, now.0);
        assert!(once.is_none_or(|once| once == now), "boots do not agree");
        once = Some(now);
        store = booted;
    }
    // Another file can come, unless one waits, or nobody has a key.
    let now = once.unwrap();
    if now.0.waits.is_none()
        && let Some(generation) = now.3
    {
        let pairing = store.pairing().ok().flatten().unwrap();
        assert_eq!(pairing.generation(), generation);
        assert_eq!(stage(&mut store, &sealed(&pairing, 9, &file(1))), Ok(()));
        assert_eq!(edit(&mut store, &Edit::Adopt(9)), Ok(()));
        assert_eq!(store.file_state(), Ok(in_force(9)));
    }
}
