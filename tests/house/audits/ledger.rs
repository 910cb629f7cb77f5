//! The ledger of couriers' codes: no more are out than the lock can know, and what the
//! lock's own extracts tell settles them.

use emulator::carry::{Laptop, Stick};
use emulator::site::Site;
use emulator::world::World;
use lock_core::holder::Number;
use lock_core::keys::{Digit, Key};
use lock_core::link::extract::Scope;
use lock_core::pairing::LockNumber;
use lock_core::time::Utc;
use serde_json::Value;

use super::folder::{CHEAP, DEMO, Folder, pairing, passphrase};
use emulator::keyring::{Keyring, OUTSTANDING, Use};
use lock_core::audit::Seq;

const OFFICE: &str = include_str!("../../../emulator/demo/office/harbour-bakery.toml");
const KEYS: &str = "--keyring @keyring --passphrase-file @passphrase --format json";
const CODE: &str = "plan code @office.toml --lock till --holder 40";

fn run(folder: &Folder, command: &str, code: u8) -> Value {
    let (exit, out, err) = folder.run(&format!("{command} {KEYS}"));
    assert_eq!((exit, err.as_str()), (code, ""), "{command}: {out}");
    serde_json::from_str(&out).unwrap()
}

fn full(folder: &Folder) {
    let (code, out, err) = folder.run(&format!("{CODE} {KEYS}"));
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.contains("6 codes of this courier are out"), "{err}");
}

fn fates(folder: &Folder) -> Vec<(String, Option<u64>)> {
    let codes = run(folder, "keyring codes", 0);
    let fate = |code: &Value| (code["fate"].as_str().unwrap().to_owned(), code["record"].as_u64());
    codes.as_array().unwrap().iter().map(fate).collect()
}

/// A lock on the desk that has the keyring's key, with the courier enrolled, in the
/// afternoon of a Monday far enough ahead that every code was made before it.
fn lock() -> World {
    let site = Site::parse("site", DEMO).map_err(|why| why.to_string()).unwrap();
    let mut settings = site.settings(site.lock("till").unwrap(), [7; 32]);
    settings.pairing = Some(pairing(1001, 1));
    let monday = Utc::from_secs(1_803_891_600);
    let mut world = World::commission(&settings, monday).map_err(|_| "format").unwrap();
    press(&mut world, "ok ok 1 01 480317 ok 40 ok 4 1 ok");
    world.run_until(world.now() + 5 * 3_600_000);
    world
}

fn press(world: &mut World, keys: &str) {
    for word in keys.split_whitespace() {
        match word {
            "ok" => world.press(Key::Ok),
            digits => digits
                .bytes()
                .for_each(|digit| world.press(Key::Digit(Digit::new(digit - b'0').unwrap()))),
        }
    }
}

/// Six, and no seventh; one is used, an extract tells of it, and one more can be made.
/// Before, eight came in a row.
#[test]
fn an_extract_frees_what_was_used() {
    let folder = Folder::new("ledger-extract");
    folder.write("office.toml", OFFICE.as_bytes());
    std::fs::create_dir_all(folder.path("stick")).unwrap();
    let codes: Vec<Value> = (0..OUTSTANDING).map(|_| run(&folder, CODE, 0)).collect();
    let out: Vec<u64> = codes.iter().map(|code| code["outstanding"].as_u64().unwrap()).collect();
    assert_eq!(out, (1..=6).collect::<Vec<_>>());
    full(&folder);

    let mut world = lock();
    let mut opens = |code: &Value| {
        press(&mut world, &format!("40 {} ok", code["code"].as_str().unwrap()));
        assert_eq!(world.access(), Some("released"));
        world.run_until(world.now() + 30_000);
        assert_eq!(world.access(), Some("secured"));
    };
    // The last of six is known to the lock, and those before it are then good for nothing.
    opens(&codes[5]);
    let mut collect = || {
        press(&mut world, "ok ok ok ok 2 50 805231 ok");
        let stick = Stick::at(&folder.path("stick"));
        let all = (Scope::All, false);
        stick.collect(&mut Laptop::new(&mut world, 0), all, &pairing(1001, 1)).unwrap()
    };
    let extract = collect();
    let told = run(&folder, "keyring update @stick", 0);
    assert_eq!((&told["locks"][0]["used"], &told["locks"][0]["unknown"]), (&1.into(), &0.into()));
    // Which code it was, no record says: the oldest counts as used.
    let used = fates(&folder);
    assert!(used[0].0 == "used" && used[0].1.is_some() && used[1].0 == "out", "{used:?}");
    // The same extract again tells nothing new.
    assert_eq!(run(&folder, "keyring update @stick", 0)["locks"][0]["used"], 0);
    assert_eq!(fates(&folder), used);
    run(&folder, CODE, 0);
    full(&folder);
    // Whoever knows which it was says so, and the lock looks ahead from there.
    let last = codes[5]["counter"].as_u64().unwrap();
    let told = run(&folder, &format!("keyring used --lock 1001 --holder 40 --code {last}"), 0);
    assert_eq!(told["outstanding"], 1);
    let names: Vec<String> = fates(&folder).into_iter().map(|(fate, _)| fate).collect();
    assert_eq!(names, ["used", "passed", "passed", "passed", "passed", "used", "out"]);
    let again = format!("keyring used --lock 1001 --holder 40 --code {last}");
    let (code, _, err) = folder.run(&format!("{again} {KEYS}"));
    assert!(code == 2 && err.contains("No such code"), "{err}");
    // Without a keyring that counted it, an opening is one by a code from elsewhere.
    let mut other = Keyring::default();
    other.add(pairing(1001, 1)).unwrap();
    let (at, number) = (Utc::from_secs(1_803_891_600), Number::new(40).unwrap());
    let lock = LockNumber::new(1001).unwrap();
    assert!(other.next_code(lock, number, false, at).is_ok());
    let counter = other.issued().next().unwrap().2.counter;
    assert!(other.told_used(lock, number, counter));
    other.save(&folder.path("keyring"), &passphrase(), CHEAP).unwrap();
    let (code, out, _) =
        folder.run("keyring update @stick --keyring @keyring --passphrase-file @passphrase");
    assert_eq!(code, 1, "{out}");
    assert!(out.contains("1 opening by couriers with codes that are not out here"), "{out}");
    assert!(extract.exists());
}

/// An extract under a new key proves that the lock has it; one of an emulated lock proves
/// nothing.
#[test]
fn an_extract_confirms_the_key_it_is_sealed_under() {
    let folder = Folder::new("ledger-key");
    folder.write("office.toml", OFFICE.as_bytes());
    let mut ring = Keyring::default();
    ring.add(pairing(1001, 1)).unwrap();
    ring.add_unconfirmed(pairing(1001, 2)).unwrap();
    ring.save(&folder.path("keyring"), &passphrase(), CHEAP).unwrap();
    let who = Number::new(12).unwrap();
    let wrong = super::shelf::record(1, 60, lock_core::audit::Event::WrongCode { who });
    let real = super::folder::sealed(1001, 2, 1, &[wrong]);
    let marked = emulator::carry::emulated::marked(&real, &pairing(1001, 2)).unwrap();
    folder.write("extracts/a.extract", &marked);
    assert_eq!(run(&folder, "keyring update @extracts", 0)["locks"], Value::Array(Vec::new()));
    folder.write("extracts/a.extract", &real[..real.len() - 1]);
    assert_eq!(run(&folder, "keyring update @extracts", 1)["unread"], 1);
    assert_eq!(run(&folder, CODE, 0)["generation"], 1);
    folder.write("extracts/a.extract", &real);
    assert_eq!(run(&folder, "keyring update @extracts", 0)["locks"][0]["confirmed"], 2);
    assert_eq!(run(&folder, CODE, 0)["generation"], 2);
}

/// A version that the lock took and this keyring never sealed: the next one is above it.
#[test]
fn a_version_from_elsewhere_is_told_and_passed() {
    use lock_core::audit::{Change, Event};
    let folder = Folder::new("ledger-version");
    folder.write("office.toml", OFFICE.as_bytes());
    let loaded = Event::Changed { by: None, change: Change::FileLoaded(41) };
    let extract = super::folder::sealed(1001, 1, 1, &[super::shelf::record(1, 60, loaded)]);
    folder.write("extracts/a.extract", &extract);
    assert_eq!(run(&folder, "keyring update @extracts", 1)["locks"][0]["version"], 41);
    assert_eq!(run(&folder, "keyring update @extracts", 0)["locks"][0]["version"], Value::Null);
    let sealed = run(&folder, "plan seal @office.toml --lock till --out @till", 0);
    assert_eq!(sealed["version"], 42);
}

/// Never fewer out than there are: whichever of the outstanding codes are used, in
/// whatever clock, the ledger's count is at least the true one, and at most six.
#[test]
fn there_are_never_fewer_out_than_the_ledger_says() {
    let (lock, number) = (LockNumber::new(1001).unwrap(), Number::new(40).unwrap());
    let mut refused = 0;
    for seed in 0..300_u64 {
        let mut dice = seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1;
        let mut roll = |sides: u64| {
            dice ^= dice << 13;
            dice ^= dice >> 7;
            dice ^= dice << 17;
            dice % sides
        };
        let mut ring = Keyring::default();
        ring.add(pairing(1001, 1)).unwrap();
        let (mut counters, mut record, mut uses) = (Vec::new(), 0, Vec::new());
        let mut now = 1_800_000_000;
        for _ in 0..60 {
            now += u32::try_from(roll(200_000)).unwrap();
            match roll(3) {
                0 | 1 => match ring.next_code(lock, number, false, Utc::from_secs(now)) {
                    Ok(code) => counters.push(code.counter),
                    Err(_) => refused += 1,
                },
                _ if !counters.is_empty() => {
                    let place = roll(counters.len() as u64) as usize;
                    counters.drain(..=place);
                    record += 1;
                    let skew = u32::try_from(roll(80_000)).unwrap();
                    let at = (roll(5) > 0).then(|| Utc::from_secs(now + 40_000 - skew));
                    uses.push(Use { record: Seq(record), at });
                }
                _ => {}
            }
            if roll(4) == 0 {
                // Every extract lists what the one before it did.
                ring.settle(lock, number, &uses);
                let settled = ring.settle(lock, number, &uses);
                assert_eq!((settled.used, settled.unknown), (0, 0), "seed {seed}");
            }
            let out = ring.outstanding(lock, number);
            assert!((counters.len()..=OUTSTANDING).contains(&out), "seed {seed}: {out}");
        }
    }
    assert!(refused > 1_000, "the limit was reached {refused} times only");
}
