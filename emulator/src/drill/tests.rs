//! What a drill shows, and what it cannot: a record that is not durable, something that
//! outlives the power, a lock that keeps everybody waiting.

use std::collections::BTreeSet;
use std::path::Path;

use emulated_board::flash::OpKind;
use emulated_board::fuse::{Class, Cut};
use emulated_board::trace::{Durable, Line, What};
use lock_core::audit::{Entry, Seq};
use lock_core::board::{Board, DriveFault, Noticed};
use lock_core::keys::{Digit, Key};
use lock_core::port::{Alarm, Contacts, Drive, Now, Sound, Write};
use lock_core::screen::Screen;
use lock_core::seed::Seed;
use lock_core::time::{Uptime, Utc};

use super::*;
use crate::memory::{Flash, Memory, PAGE, Part, Room, WORD, erased};
use crate::tour;
use crate::world::{
    Bench, Fitted, MOST_TURNS, MOST_WAKES, Mains, Order, Restless, SimulatedClock, Spoilt, World,
};

const HEAD: &str = "title = \"T\"\nsite = \"harbour-bakery.toml\"\nlock = \"till\"\n\
    start = 2027-03-01T08:45:00\n";

fn drill(text: &str) -> Drill {
    let site = Site::parse("harbour-bakery.toml", tour::SITE).map_err(|why| why.to_string());
    let site = Arc::new(site.unwrap());
    let parsed = Drill::parse("drill.toml", text, &mut |_: &str| Ok(Arc::clone(&site)));
    parsed.map_err(|why| why.to_string()).unwrap()
}

/// All drills and lessons of the demo.
fn demo() -> impl Iterator<Item = Drill> {
    let folders = ["drills", "lessons"];
    let folders = folders.map(|n| Path::new(env!("CARGO_MANIFEST_DIR")).join("demo").join(n));
    let files = files(&folders).map_err(|why| why.to_string()).unwrap();
    files.into_iter().map(|file| Drill::load(&file).map_err(|why| why.to_string()).unwrap())
}

/// The kinds that the lock itself lists after a power cut, but for those of its boots.
fn listed_after_a_cut(mut world: World) -> Vec<&'static str> {
    world.cut_power();
    world.restore_power();
    let Some(memory) = world.memory() else { return Vec::new() };
    let kinds = memory.records(Seq(0)).filter_map(|entry| match entry {
        Entry::Record(_, record) => Some(record.event.kind()),
        Entry::Gap(_) => None,
    });
    let mut kinds: Vec<_> = kinds.collect();
    // The last boot says that it came, then what it found.
    kinds.truncate(kinds.iter().rposition(|kind| *kind == "powered-up").unwrap_or(kinds.len()));
    kinds.retain(|kind| *kind != "powered-up");
    kinds
}

const WRONG_THEN_RIGHT: &str = "\n[[step]]\nkeys = \"12 000000 ok\"\n\n[[step]]\nwait = \"61s\"\n\
    \n[[step]]\nkeys = \"12 739204 ok\"\n\n[[step]]\nwait = \"10s\"\n";

/// Wherever the store begins to fail, or the power goes, `audit` names what a list shows
/// after a power cut: not what the lock asked for.
#[test]
fn an_audit_is_what_is_durable() {
    let drill = drill(&format!("{HEAD}{WRONG_THEN_RIGHT}"));
    let (mut refused, mut torn, mut seen) = (0, 0, BTreeSet::new());
    let cases = (0..80).flat_map(|after| {
        let cuts = [Class::Before, Class::After, Class::Prefix, Class::Suffix, Class::Subset];
        let cuts = cuts.map(|class| Some(Cut { after, class, seed: after }));
        std::iter::once((after, None)).chain(cuts.into_iter().map(move |cut| (after, cut)))
    });
    for (after, cut) in cases {
        let mut play = Play::start(&drill).unwrap();
        match cut {
            Some(cut) => play.world_mut().order(Order::Cut(cut)),
            None => play.world_mut().spoil(|flash| {
                flash.fail_calls(OpKind::Program, u32::try_from(after).unwrap(), u32::MAX);
                Spoilt::Bus
            }),
        }
        while play.act_next().is_some() {}
        let lost = |line: &&Line, durable| matches!(line.what, What::Wrote(Write::Record(_), now) if now == durable);
        refused += play.trace.iter().filter(|line| lost(line, Durable::No)).count();
        torn += play.trace.iter().filter(|line| lost(line, Durable::Unknown)).count();
        let before = std::mem::take(&mut play.listed);
        let (audit, _) = before.since(play.world_mut());
        let mut world = play.into_world();
        world.spoil(|flash| {
            flash.fail_calls(OpKind::Program, 0, 0);
            Spoilt::Content(Part::Rings, 0)
        });
        assert_eq!(audit, listed_after_a_cut(world), "after {after}, {cut:?}");
        seen.insert(audit);
    }
    assert!(refused >= 3 && torn > 10, "{refused} records refused, {torn} torn");
    assert!(seen.len() >= 4 && seen.contains(&Vec::new()), "{seen:?}");
}

/// A write that fails, as a drill tells it: its record is not in the audit, nor in what
/// is on record at the end.
#[test]
fn a_record_whose_write_fails_is_not_expected() {
    let text = format!("{HEAD}\n[[step]]\nkeys = \"12 000000 ok\"\nexpect = {{ audit = [] }}\n");
    let drill = drill(&text);
    let mut play = Play::start(&drill).unwrap();
    // The count of the try is written; the record behind it is not.
    let mut after = 0;
    loop {
        play.world_mut().spoil(|flash| {
            flash.fail_calls(OpKind::Program, after, u32::MAX);
            Spoilt::Bus
        });
        let played = play.finish();
        let asked = |line: &Line| matches!(line.what, What::Wrote(Write::Record(_), Durable::No));
        if played.trace.iter().any(asked) {
            assert_eq!((played.failures, played.audit), (Vec::new(), Vec::new()));
            return;
        }
        after += 1;
        assert!(after < 80, "no record ever failed");
        play = Play::start(&drill).unwrap();
    }
}

/// With the power of a lock, all of it is gone but its flash and what is round it: one
/// that is made of those alone does the same from then on. Whatever is done to its keys
/// and its supply in between changes nothing.
#[test]
fn nothing_outlives_the_power_but_flash_and_what_is_round_it() {
    let mut boots = 0;
    for drill in demo() {
        let mut play = Play::start(&drill).unwrap();
        while let Some(step) = drill.steps.get(play.played()) {
            let restore = matches!(step.act, Some(Act::Power(Power::Restore)));
            if !restore || play.world().has_power() {
                play.act_next();
                continue;
            }
            boots += 1;
            let before = play.trace_length();
            let scene = play.world().scene();
            let cells = play.world_mut().flash().unwrap().chip().clone();
            let twin = World::<Memory>::staged(Flash::new(cells, Mains::new()), &scene);
            let mut twin = Play::at(&drill, twin, play.played());
            while twin.act_next().is_some() {}
            let world = play.world_mut();
            for digit in [1, 2, 7] {
                world.press(Key::Digit(Digit::new(digit).unwrap()));
            }
            world.press(Key::Ok);
            world.supply(lock_core::policy::Millivolts::new(3_000));
            world.supply(scene.supply);
            while play.act_next().is_some() {}
            let same = play.trace[before..] == twin.trace[..];
            assert!(same, "{}: it remembers something", drill.file);
            break;
        }
    }
    assert!(boots >= 12, "{boots} drills cut the power");
}

/// A board whose uptime stands still, or says at every other look that all that the lock
/// waits for is due, and takes it back.
struct Off<const WAVERS: bool> {
    bench: Bench,
    ahead: bool,
}

impl<const WAVERS: bool> Fitted for Off<WAVERS> {
    fn fit(bench: Bench) -> Self {
        Self { bench, ahead: false }
    }
}

impl<const WAVERS: bool> Board for Off<WAVERS> {
    fn now(&mut self) -> Now {
        self.ahead = WAVERS && !self.ahead;
        let uptime = Uptime::from_millis(if self.ahead { 1 << 40 } else { 0 });
        Now { uptime, ..self.bench.now() }
    }

    fn contacts(&mut self) -> Contacts {
        self.bench.contacts()
    }

    fn built(&self) -> Utc {
        self.bench.built()
    }

    fn notice(&mut self) -> Option<Noticed> {
        self.bench.notice()
    }

    fn drive(&mut self, to: Drive) -> Result<(), DriveFault> {
        self.bench.drive(to)
    }

    fn signal(&mut self, level: Alarm) {
        self.bench.signal(level);
    }

    fn sound(&mut self, sound: Sound) {
        self.bench.sound(sound);
    }

    fn set_clock(&mut self, utc: Utc) {
        self.bench.set_clock(utc);
    }

    fn seed(&mut self) -> Seed {
        self.bench.seed()
    }

    fn show(&mut self, screen: &Screen) {
        self.bench.show(screen);
    }
}

/// A wait, then keys after a cut, in a drill of a lock that is never done.
fn restless<const WAVERS: bool>() -> (Vec<Failure>, Option<Restless>) {
    let text = "\n[[step]]\nkeys = \"12 000000 ok\"\n\n[[step]]\nwait = \"8760h\"\n\
        expect = { state = \"secured\" }\n\n[[step]]\nkeys = \"12\"\n";
    let drill = drill(&format!("{HEAD}{text}"));
    let clock = SimulatedClock::starting(drill.start);
    let flash = drill.flash::<WORD, PAGE>(Room::Full).unwrap();
    let mut world = World::<Memory, Off<WAVERS>>::around(flash, clock);
    world.watch();
    world.restore_power();
    let mut play = Play::at(&drill, world, 0);
    while play.step().is_some() {}
    assert!(play.played() < drill.steps.len(), "it is not played on");
    let world = play.world_mut();
    let restless = world.restless();
    world.cut_power();
    assert_eq!(world.restless(), None, "power cuts end it");
    (play.failures().to_vec(), restless)
}

/// A drill never hangs: a lock that asks for ever fails it, with the step.
#[test]
fn a_lock_that_does_not_rest_fails_its_drill() {
    let (failures, found) = restless::<true>();
    assert_eq!(found, Some(Restless::Turns));
    let [failure, ..] = &failures[..] else { panic!("no failure") };
    assert_eq!((failure.step, failure.key), (1, "rest"));
    assert!(failure.expected.contains(&format!("{MOST_TURNS} turns")), "{failure:?}");

    let (failures, found) = restless::<false>();
    assert_eq!(found, Some(Restless::Wakes));
    let [failure, ..] = &failures[..] else { panic!("no failure") };
    assert_eq!((failure.step, failure.line, failure.key), (2, 11, "rest"));
    assert!(failure.expected.contains(&format!("{MOST_WAKES} times")), "{failure:?}");
}

/// Nothing was written to erased flash before the first boot; the lock boots, blocked,
/// and asks for service. A factory lock has its settings.
#[test]
fn a_drill_can_begin_with_erased_flash() {
    let step = "\n[[step]]\nexpect = { state = \"secured\", bolt = \"thrown\", alarm = false }\n\
        \n[[step]]\nkeys = \"12 739204 ok\"\nexpect = { state = \"secured\" }\n";
    for (fresh, begins, screen) in
        [("true", Fresh::Factory, "Not in use yet"), ("\"erased\"", Fresh::Erased, "")]
    {
        let drill = drill(&format!("{HEAD}fresh = {fresh}\n{step}"));
        assert_eq!(drill.fresh, begins);
        let flash = drill.flash::<WORD, PAGE>(Room::Full).unwrap();
        let blank = flash.content().iter().all(|byte| *byte == 0xFF);
        assert_eq!(blank, begins == Fresh::Erased);
        let same = erased::<WORD, PAGE>(Room::Full, Mains::new()).unwrap();
        assert_eq!(flash.chip().capacity(), same.chip().capacity());
        let mut play = Play::start(&drill).unwrap();
        assert!(words_on(play.world()).contains(screen));
        while play.step().is_some() {}
        assert_eq!(play.failures(), []);
    }
}

/// What a courier types: the next code, a later one, the same again, its duress variant.
#[test]
fn a_courier_types_the_code_that_the_drill_names() {
    let courier = |what: &str| format!("\n[[step]]\ncourier = {what}\n");
    let steps = [
        "\"40\"",
        "{ number = \"40\", again = true }",
        "{ number = \"40\", again = true, duress = true }",
        "{ number = \"40\", skip = 2 }",
        "{ number = \"40\", again = true }",
        "\"41\"",
        "{ number = \"40\" }",
    ];
    let text = steps.map(courier).concat();
    let drill = drill(&format!("{HEAD}{text}"));
    let pairing = drill.pairing();
    let mut laptop = laptop::Laptop::default();
    let typed = |laptop: &mut laptop::Laptop, step: &Step| {
        let Some(Act::Courier(code)) = step.act else { panic!("no courier") };
        let keys = laptop.code(pairing.as_ref(), code);
        let digits = keys.into_iter().filter_map(|key| match key {
            Key::Digit(digit) => Some(digit.get()),
            Key::Ok | Key::Back => None,
        });
        digits.collect::<Vec<u8>>()
    };
    let mut codes = Vec::new();
    for place in 0..drill.steps.len() {
        // A laptop that comes to it later has issued the same before.
        let mut later = laptop::Laptop::after(&drill.steps[..place], pairing.as_ref());
        let code = typed(&mut laptop, &drill.steps[place]);
        assert!(code == typed(&mut later, &drill.steps[place]), "step {place}");
        codes.push(code);
    }
    let [first, again, duress, later, again_later, other, last] = &codes[..] else { panic!() };
    assert!(first.starts_with(&[4, 0]) && first.len() == 9 && other.starts_with(&[4, 1]));
    assert!(first == again && later == again_later && first != later && later != last);
    let mut variant = first.clone();
    variant[8] = (variant[8] + 1) % 10;
    assert!(*duress == variant);
    // The codes that the plain word would have typed: the first, and the fourth.
    let mut plain = laptop::Laptop::default();
    let next = |plain: &mut laptop::Laptop| typed(plain, &drill.steps[0]);
    let row: Vec<_> = (0..5).map(|_| next(&mut plain)).collect();
    assert!([first, later, last].into_iter().eq([&row[0], &row[3], &row[4]]));
}
