//! The whole round, as people walk it: the laptop seals opening times and issues a
//! courier's code, a memory stick goes to the lock and comes back with its audit,
//! and the laptop reads that.

use emulator::carry::{Laptop, OfNoUse, Stick, Trouble};
use emulator::drill::{Drill, Play, demo_pairing, words_on};
use emulator::keyring::Keyring;
use emulator::site::Site;
use emulator::world::World;
use lock_core::keys::{Digit, Key};
use lock_core::link::extract::Scope;
use lock_core::link::message::Reason;
use lock_core::pairing::LockNumber;
use lock_core::time::Utc;
use serde_json::Value;

use super::folder::{CHEAP, DEMO, Folder, pairing, passphrase};

const OFFICE: &str = include_str!("../../../emulator/demo/office/harbour-bakery.toml");
/// Monday, 2027-03-01, 09:00 in Dublin.
const MONDAY: u32 = 1_803_891_600;
const KEYS: &str = "--keyring @keyring --passphrase-file @passphrase --format json";

fn press(world: &mut World, keys: &str) {
    for word in keys.split_whitespace() {
        match word {
            "ok" => world.press(Key::Ok),
            digits => {
                for digit in digits.bytes() {
                    world.press(Key::Digit(Digit::new(digit - b'0').unwrap()));
                }
            }
        }
    }
}

fn told(folder: &Folder, command: &str) -> Value {
    let (code, out, err) = folder.run(&format!("{command} {KEYS}"));
    assert_eq!((code, err.as_str()), (0, ""), "{command}");
    serde_json::from_str(&out).unwrap()
}

/// In a drill too: what was collected onto the stick opens, and tells what the drill
/// did; the folder that the drill names is as it was.
#[test]
fn a_drill_writes_extracts_that_open_and_no_file() {
    let demo = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../emulator/demo");
    let path = demo.join("drills/files-by-memory-stick.toml");
    let names = || {
        let mut names: Vec<_> =
            std::fs::read_dir(demo.join("stick")).unwrap().map(|e| e.unwrap().path()).collect();
        names.sort();
        names
    };
    let before = names();
    let drill = Drill::load(&path).map_err(|why| why.to_string()).unwrap();
    let mut play = Play::start(&drill).map_err(|_| "format").unwrap();
    while play.step().is_some() {}
    assert!(play.failures().is_empty());
    assert_eq!(names(), before);

    let folder = Folder::new("stick-drill");
    let mut keyring = Keyring::default();
    keyring.add(demo_pairing(LockNumber::new(1001).unwrap())).unwrap();
    keyring.save(&folder.path("keyring"), &passphrase(), CHEAP).unwrap();
    assert_eq!(play.extracts().len(), 2);
    for (name, bytes) in play.extracts() {
        folder.write(&format!("extracts/{name}"), bytes);
    }
    let (code, out, err) = folder.audit("export @extracts");
    assert_eq!((code, err.as_str()), (0, ""));
    for kind in ["file-waits", "audit-collected"] {
        assert_eq!(out.matches(&format!(",{kind},")).count(), 1, "{kind}\n{out}");
    }
}

#[test]
fn a_stick_goes_to_the_lock_and_comes_back() {
    let folder = Folder::new("stick-round");
    std::fs::create_dir_all(folder.path("stick")).unwrap();
    folder.write("office.toml", OFFICE.as_bytes());
    let seal = "plan seal @office.toml --lock till --out @stick/till.timetables";
    let mark = told(&folder, seal)["fingerprint"].as_str().unwrap().to_owned();

    let site = Site::parse("site", DEMO).map_err(|why| why.to_string()).unwrap();
    let mut settings = site.settings(site.lock("till").unwrap(), [7; 32]);
    settings.pairing = Some(pairing(1001, 1));
    let mut world = World::commission(&settings, Utc::from_secs(MONDAY)).map_err(|_| "").unwrap();
    let stick = Stick::at(&folder.path("stick"));

    // Nobody at the keypad has asked: the stick is of no use yet.
    let key = pairing(1001, 1);
    let stranger = stick.load(&mut Laptop::new(&mut world, 0), &key);
    assert!(matches!(stranger, Err(OfNoUse::Lock(Trouble::Refused(Reason::NotAsked)))));

    press(&mut world, "ok ok ok ok 2 50 805231 ok");
    let (version, shown) = stick.load(&mut Laptop::new(&mut world, 10), &key).unwrap();
    assert_eq!((version.0, shown.to_string()), (1, mark.clone()));
    assert!(words_on(&world).contains(&format!("Mark {mark}")), "{}", words_on(&world));
    press(&mut world, "ok");
    assert!(words_on(&world).contains("Version 1 is in force"), "{}", words_on(&world));

    // A courier of the office's file is enrolled, and opens in the afternoon.
    press(&mut world, "ok ok 1 01 480317 ok 40 ok 4 1 ok");
    world.run_until((u64::from(MONDAY) + 5 * 3_600) * 1_000);
    let code = told(&folder, "plan code @office.toml --lock till --holder 40");
    press(&mut world, &format!("40 {} ok", code["code"].as_str().unwrap()));
    assert_eq!(world.access(), Some("released"), "{}", words_on(&world));
    world.run_until(world.now() + 10_000);

    press(&mut world, "ok ok ok ok 2 50 805231 ok");
    let everything = (Scope::All, false);
    let taken = stick.collect(&mut Laptop::new(&mut world, 90), everything, &key).unwrap();
    assert!(taken.exists());
    let (code, report, err) = folder.audit("report @stick --site @office.toml");
    assert!(code <= 1 && err.is_empty(), "{code} {err}");
    assert!(report.contains("Released") || report.contains("released"), "{report}");
    let (code, out, err) = folder.audit("verify @stick");
    assert_eq!((code, err.as_str()), (0, ""), "{out}");
}
