//! Locks that are broken on purpose, so that the rig is seen to find what it
//! looks for: through the same stories and sweeps that sound locks pass.

use std::marker::PhantomData;

use lock_core::audit::{Entry, Outcome, Record, Seq};
use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::holder::{HolderRow, Number};
use lock_core::link::{FileFault, Fingerprint, Version};
use lock_core::pairing::Pairing;
use lock_core::port::{
    Alarm, Contacts, Drive, Now, Reads, Sound, Store, StoreFault, Tally, Upkeep, Write,
};
use lock_core::recovered::Recovered;
use lock_core::rules::{Days, Unreadable};
use lock_core::screen::{Screen, Typed};
use lock_core::seal::CHUNK;
use lock_core::seed::Seed;
use lock_core::settings::{Edit, FileState};
use lock_core::tally::TallyState;
use lock_core::time::{Date, Steady, Uptime, Utc, Zone};
use lock_core::timetable::{Day, TimetableId};

use super::generator;
use super::ground::Ground;
use super::stories::tell;
use super::{Cuts, Sweep};
use crate::memory::{Flash, Lasting, Look, Memory, Part, Print, Room};
use crate::rig::{Cases, Covered, Dice};
use crate::site::Site;
use crate::tour;
use crate::world::{Bench, Fitted, Mains};

const WORD: usize = 8;
const PAGE: usize = 256;

/// More stories than any mistake survives.
const STORIES: u64 = 1_500;

/// A mistake of a store.
trait Mistake {
    /// Whether changes of the settings are only said to be made.
    const SWALLOWS_EDITS: bool = false;

    /// Whether a write is only said to have been made.
    fn swallows(write: &Write) -> bool {
        let _ = write;
        false
    }

    /// Whether a write is made twice.
    fn doubles(write: &Write) -> bool {
        let _ = write;
        false
    }

    /// What a mount does besides.
    fn mounted(store: &mut Memory<WORD, PAGE>, found: &mut Recovered) {
        let _ = (store, found);
    }
}

/// A store with a mistake.
struct Broken<X>(Memory<WORD, PAGE>, PhantomData<X>);

impl<X> Days for Broken<X> {
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.0.day(id, date)
    }
}

impl<X> Reads for Broken<X> {
    fn holder(&mut self, n: Number) -> Result<Option<HolderRow>, Unreadable> {
        self.0.holder(n)
    }

    fn enrolled(&mut self) -> Result<u8, Unreadable> {
        self.0.enrolled()
    }

    fn pairing(&mut self) -> Result<Option<Pairing>, Unreadable> {
        self.0.pairing()
    }

    fn newest_seq(&mut self) -> Option<Seq> {
        self.0.newest_seq()
    }

    fn zone(&mut self) -> Result<Zone, Unreadable> {
        self.0.zone()
    }

    fn file_state(&mut self) -> Result<FileState, Unreadable> {
        self.0.file_state()
    }

    fn last_generation(&mut self) -> Result<u32, Unreadable> {
        self.0.last_generation()
    }

    fn day_to_come(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.0.day_to_come(id, date)
    }

    fn zone_to_come(&mut self) -> Result<Zone, Unreadable> {
        self.0.zone_to_come()
    }
}

impl<X: Mistake> Store for Broken<X> {
    fn write(&mut self, write: &Write) -> Result<(), StoreFault> {
        if X::swallows(write) {
            return Ok(());
        }
        if X::doubles(write) {
            self.0.write(write)?;
        }
        self.0.write(write)
    }

    fn edit(&mut self, edit: &Edit, record: &Record) -> Result<(), StoreFault> {
        if X::SWALLOWS_EDITS { Ok(()) } else { self.0.edit(edit, record) }
    }

    fn stage(&mut self, index: u8, bytes: &[u8]) -> Result<(), StoreFault> {
        self.0.stage(index, bytes)
    }

    fn staged_chunk(&mut self, index: u8, buf: &mut [u8; CHUNK]) -> Option<usize> {
        self.0.staged_chunk(index, buf)
    }

    fn staged(&mut self) -> Result<(Version, Fingerprint), FileFault> {
        self.0.staged()
    }

    fn staged_day(&mut self, id: TimetableId, date: Date) -> Result<Day, Unreadable> {
        self.0.staged_day(id, date)
    }

    fn staged_zone(&mut self) -> Result<Zone, Unreadable> {
        self.0.staged_zone()
    }

    fn entry(&mut self, from: Seq) -> Option<Entry> {
        self.0.entry(from)
    }

    fn tend(&mut self) -> Result<Upkeep, StoreFault> {
        self.0.tend()
    }
}

impl<X: Mistake> Lasting for Broken<X> {
    type Flash = Flash<WORD, PAGE>;

    fn mount(flash: Self::Flash) -> (Self, Recovered) {
        let (mut store, mut found) = <Memory<WORD, PAGE> as Lasting>::mount(flash);
        X::mounted(&mut store, &mut found);
        (Self(store, PhantomData), found)
    }

    fn into_flash(self) -> Self::Flash {
        self.0.into_flash()
    }

    fn flash(&mut self) -> &Self::Flash {
        self.0.flash()
    }

    fn flash_mut(&mut self) -> &mut Self::Flash {
        self.0.flash_mut()
    }

    fn part(flash: &Self::Flash, address: u32) -> Part {
        <Memory<WORD, PAGE> as Lasting>::part(flash, address)
    }

    fn mains(flash: &Self::Flash) -> Mains {
        <Memory<WORD, PAGE> as Lasting>::mains(flash)
    }

    fn rings(flash: &Self::Flash) -> (u32, u32) {
        <Memory<WORD, PAGE> as Lasting>::rings(flash)
    }

    fn found(&mut self, found: &Recovered) -> Look {
        self.0.found(found)
    }

    fn look(flash: &Self::Flash) -> Look {
        <Memory<WORD, PAGE> as Lasting>::look(flash)
    }

    fn after(flash: &Self::Flash, edit: &Edit) -> Option<Print> {
        <Memory<WORD, PAGE> as Lasting>::after(flash, edit)
    }
}

macro_rules! mistakes {
    ($($(#[$doc:meta])* $name:ident { $($body:tt)* })+) => {
        $($(#[$doc])* struct $name; impl Mistake for $name { $($body)* })+
    };
}

mistakes! {
    /// None: a sound store.
    Sane {}
    /// Records are said to be written.
    AcksRecords { fn swallows(write: &Write) -> bool { matches!(write, Write::Record(_)) } }
    /// Counts are said to be written.
    AcksCounts {
        fn swallows(write: &Write) -> bool { matches!(write, Write::Tally(Tally::Counted(_))) }
    }
    /// Penalties are said to be written.
    AcksPenalties {
        fn swallows(write: &Write) -> bool { matches!(write, Write::Tally(Tally::Penalty)) }
    }
    /// A doubted clock is said to be written.
    AcksDoubts {
        fn swallows(write: &Write) -> bool { matches!(write, Write::Tally(Tally::ClockDoubt(_))) }
    }
    /// Records under duress are said to be written.
    AcksDuress {
        fn swallows(write: &Write) -> bool {
            matches!(write, Write::Record(r) if r.event.outcome() == Some(Outcome::Duress))
        }
    }
    /// Records are written twice.
    Stutters { fn doubles(write: &Write) -> bool { matches!(write, Write::Record(_)) } }
    /// Tries are counted twice.
    CountsTwice {
        fn doubles(write: &Write) -> bool { matches!(write, Write::Tally(Tally::Counted(_))) }
    }
    /// A boot begins with an empty tally, in memory.
    Forgetful {
        fn mounted(_: &mut Memory<WORD, PAGE>, found: &mut Recovered) {
            found.tally = TallyState::NEW;
        }
    }
    /// A boot forgets how the last code was meant.
    Deaf {
        fn mounted(_: &mut Memory<WORD, PAGE>, found: &mut Recovered) {
            found.newest_outcome = None;
        }
    }
    /// Changes are said to be made.
    AcksEdits { const SWALLOWS_EDITS: bool = true; }
    /// A boot writes and writes.
    Endless {
        fn mounted(store: &mut Memory<WORD, PAGE>, found: &mut Recovered) {
            if found.known.is_ok() {
                for _ in 0..90 {
                    let _ = store.write(&Write::Tally(Tally::HeldShut(Steady::from_secs(0))));
                }
            }
        }
    }
}

/// A mistake of a board.
trait Slip {
    /// What the board does of its own accord when it shows something.
    fn shown(bench: &mut Bench, screen: &Screen) {
        let _ = (bench, screen);
    }

    /// Whether the alarm line is led nowhere.
    fn mutes(level: Alarm) -> bool {
        let _ = level;
        false
    }

    /// What its uptime reads.
    fn uptime(true_one: Uptime) -> Uptime {
        true_one
    }
}

/// A board with a mistake.
struct Slipping<X>(Bench, PhantomData<X>);

impl<X: Slip> Fitted for Slipping<X> {
    fn fit(bench: Bench) -> Self {
        Self(bench, PhantomData)
    }
}

impl<X: Slip> Board for Slipping<X> {
    fn now(&mut self) -> Now {
        let now = self.0.now();
        Now { uptime: X::uptime(now.uptime), ..now }
    }

    fn contacts(&mut self) -> Contacts {
        self.0.contacts()
    }

    fn built(&self) -> Utc {
        self.0.built()
    }

    fn notice(&mut self) -> Option<Noticed> {
        self.0.notice()
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        self.0.drive(to)
    }

    fn signal(&mut self, level: Alarm) {
        if !X::mutes(level) {
            self.0.signal(level);
        }
    }

    fn sound(&mut self, sound: Sound) {
        self.0.sound(sound);
    }

    fn set_clock(&mut self, utc: Utc) {
        self.0.set_clock(utc);
    }

    fn seed(&mut self) -> Seed {
        self.0.seed()
    }

    fn show(&mut self, screen: &Screen) {
        X::shown(&mut self.0, screen);
        self.0.show(screen);
    }
}

/// It frees the bolt before the record is written: when a code is typed whole.
struct FreesFirst;

impl Slip for FreesFirst {
    fn shown(bench: &mut Bench, screen: &Screen) {
        if matches!(screen, Screen::Entry(Typed::Number(_, 6))) {
            let _ = bench.drive(Drive::Free);
        }
    }
}

/// Its alarm line is not connected.
struct Mute;

impl Slip for Mute {
    fn mutes(level: Alarm) -> bool {
        level == Alarm::Duress
    }
}

/// Its uptime runs away.
struct Hasty;

impl Slip for Hasty {
    fn uptime(true_one: Uptime) -> Uptime {
        Uptime::from_millis(true_one.as_millis().saturating_mul(2))
    }
}

/// What the first story that a lock does not survive says; `None` if it
/// survives them all.
fn story_finds<M, B>() -> Option<String>
where
    M: Lasting<Flash = Flash<WORD, PAGE>>,
    B: Fitted,
{
    let site = Site::parse("harbour-bakery.toml", tour::SITE).map_err(|why| why.to_string());
    let site = site.unwrap();
    let lock = |id| Ground::new(&site.settings(site.lock(id).unwrap(), [7; 32]), Room::Least);
    let grounds = ["till", "store", "vault"].map(|id| lock(id).map_err(|_| id).unwrap());
    (0..STORIES).find_map(|case| {
        let mut dice = Dice::of(1, case);
        let ground = dice.pick(&grounds).unwrap();
        let events = generator::story(&mut dice);
        let start = Utc::from_secs(1_803_890_700);
        let told = tell::<M, B, WORD, PAGE>(ground, &site, start, &events, &mut Covered::default());
        told.err().map(|(what, _)| what)
    })
}

fn invariant(what: Option<String>) -> Option<u32> {
    let what = what?;
    let number = what.strip_prefix("invariant ")?.split(' ').next()?;
    Some(number.parse().unwrap_or_else(|_| panic!("{what}")))
}

fn of_store<X: Mistake>() -> Option<u32> {
    invariant(story_finds::<Broken<X>, Bench>())
}

fn of_board<X: Slip>() -> Option<u32> {
    invariant(story_finds::<Broken<Sane>, Slipping<X>>())
}

#[test]
fn a_sound_lock_survives_what_broken_ones_do_not() {
    assert_eq!(story_finds::<Broken<Sane>, Bench>(), None);
}

#[test]
fn stores_with_a_mistake_are_found() {
    let found = [
        ("acks records", of_store::<AcksRecords>(), [1, 11]),
        ("acks counts", of_store::<AcksCounts>(), [4, 4]),
        ("acks penalties", of_store::<AcksPenalties>(), [4, 5]),
        ("acks doubts", of_store::<AcksDoubts>(), [11, 11]),
        ("acks duress", of_store::<AcksDuress>(), [1, 11]),
        ("stutters", of_store::<Stutters>(), [8, 11]),
        ("counts twice", of_store::<CountsTwice>(), [4, 4]),
        ("forgetful", of_store::<Forgetful>(), [4, 11]),
        ("deaf", of_store::<Deaf>(), [10, 10]),
        ("acks edits", of_store::<AcksEdits>(), [7, 11]),
        ("endless", of_store::<Endless>(), [3, 11]),
    ];
    for (name, found, expected) in found {
        assert!(found.is_some_and(|found| expected.contains(&found)), "{name}: {found:?}");
    }
}

#[test]
fn boards_with_a_mistake_are_found() {
    let found = [
        ("frees first", of_board::<FreesFirst>(), 1),
        ("mute", of_board::<Mute>(), 10),
        ("hasty", of_board::<Hasty>(), 5),
    ];
    for (name, found, expected) in found {
        assert_eq!(found, Some(expected), "{name}");
    }
}

/// The sweep finds them too: on the drill of an opening, in its few steps.
#[test]
fn a_sweep_finds_what_a_story_finds() {
    assert_eq!(sweep_finds::<Broken<Sane>, Bench>(), None);
    assert_eq!(sweep_finds::<Broken<AcksRecords>, Bench>(), Some(11));
    assert_eq!(sweep_finds::<Broken<AcksCounts>, Bench>(), Some(4));
    assert_eq!(sweep_finds::<Broken<Stutters>, Bench>(), Some(1));
    assert_eq!(sweep_finds::<Broken<Sane>, Slipping<FreesFirst>>(), Some(1));
}

fn sweep_finds<M, B>() -> Option<u32>
where
    M: Lasting<Flash = Flash<WORD, PAGE>>,
    B: Fitted,
{
    let file =
        concat!(env!("CARGO_MANIFEST_DIR"), "/demo/drills/r01-nothing-opens-unrecorded.toml");
    let drill = crate::drill::Drill::load(file.as_ref()).map_err(|why| why.to_string()).unwrap();
    let drills = [std::sync::Arc::new(drill)];
    let sweep = Sweep::<M, B, WORD, PAGE>::of(drills, 1, 1, Cuts::One).map_err(|_| file).unwrap();
    let cases = 0..sweep.count().unwrap();
    let mut covered = Covered::default();
    let found = cases.into_iter().find_map(|case| sweep.run(case, &mut covered).err());
    invariant(found.map(|failure| failure.what))
}
