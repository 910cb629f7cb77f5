//! What the laptop makes with a keyring: a lock takes it, and nothing is made twice.

use lock_core::code::one_time::{self, Digits};
use lock_core::code::{Code, Salt, Verdict, digest};
use lock_core::holder::{HolderRow, Number, Opens, Standing};
use lock_core::link::Version;
use lock_core::link::timetable_file::{self, HEADER};
use lock_core::role::Role;
use lock_core::seal::CHUNK;
use lock_core::timetable::{Follows, TimetableId};
use serde_json::Value;

use super::folder::{Folder, pairing};

/// As people run it: without codes, with a courier.
const OFFICE: &str = include_str!("../../../emulator/demo/office/harbour-bakery.toml");

/// What `plan check` calls an error.
const ALONE: &str = r#"site = "Harbour Bakery"
zone = "Europe/Dublin"
[[lock]]
id = "till"
number = 1001
dual_control = true
[timetable.A]
name = "Counter"
mon = ["08:30-12:30"]
[[holder]]
number = 12
name = "Tomasz"
role = "keyholder"
timetable = "A"
"#;

const SEAL: &str = "plan seal @real.toml --lock till --keyring @keyring \
                    --passphrase-file @passphrase --format json --out";
const CODE: &str = "plan code @real.toml --lock till --holder 40 --keyring @keyring \
                    --passphrase-file @passphrase --format json";

const CONFIRM: &str =
    "keyring confirm --keyring @keyring --passphrase-file @passphrase --lock 1001";

/// With the site as `real.toml`.
fn folder(name: &str) -> Folder {
    let folder = Folder::new(name);
    folder.write("real.toml", OFFICE.as_bytes());
    folder
}

fn told(folder: &Folder, command: &str) -> Value {
    let (code, out, err) = folder.run(command);
    assert_eq!((code, err.as_str()), (0, ""), "{command}");
    serde_json::from_str(&out).unwrap()
}

fn refused(folder: &Folder, command: &str, why: &str) {
    let (code, out, err) = folder.run(command);
    assert_eq!((code, out.as_str()), (2, ""), "{command}");
    let err: Vec<&str> = err.split_whitespace().filter(|word| *word != "│").collect();
    assert!(err.join(" ").contains(why), "{err:?}");
}

/// The lock's own reader opens the file: the site's times under the version and
/// fingerprint that were told; another lock's key opens nothing.
#[test]
fn a_lock_takes_the_sealed_file_and_versions_rise() {
    let folder = folder("seal");
    for version in 1..=2_u32 {
        let told = told(&folder, &format!("{SEAL} @till-{version}"));
        let bytes = folder.read(&format!("till-{version}"));
        let (header, sealed) = bytes.split_first_chunk::<HEADER>().unwrap();
        let open = |lock| {
            let mut chunks = sealed.chunks(CHUNK);
            let chunk = |_, room: &mut [u8; CHUNK]| {
                let chunk = chunks.next()?;
                room[..chunk.len()].copy_from_slice(chunk);
                Some(chunk.len())
            };
            timetable_file::open(header, chunk, &pairing(lock, 1))
        };
        let (opened, fingerprint, file) = open(1001).unwrap();
        assert!(open(1002).is_err());
        assert_eq!((opened, &told["version"]), (Version(version), &version.into()));
        assert_eq!(told["fingerprint"], fingerprint.to_string());
        let site = emulator::site::Site::parse("office", OFFICE).map_err(|why| why.to_string());
        let site = site.unwrap();
        assert!(file.calendar == site.calendar && file.zone == site.zone_rule);
    }
    // A new key starts no version anew: the lock would take the file for an old one.
    let pair = "keyring pair --keyring @keyring --passphrase-file @passphrase --lock 1001 --print";
    assert_eq!(folder.run(pair).0, 0);
    assert_eq!(folder.run(CONFIRM).0, 0);
    let third = told(&folder, &format!("{SEAL} @till-3"));
    assert_eq!((&third["version"], &third["generation"]), (&3.into(), &2.into()));
    // A keyring that lost count goes on behind the lock, and never back.
    for (after, version) in [("9", 10), ("2", 11)] {
        let next = told(&folder, &format!("{SEAL} @till-{version} --after {after}"));
        assert_eq!(next["version"], version);
    }
}

#[test]
fn what_must_not_be_sealed_is_refused_and_counts_nothing() {
    let folder = folder("seal-not");
    refused(&folder, &format!("{} @a", SEAL.replace("real", "site")), "holds [demo.codes]");
    refused(&folder, &format!("{} @a", SEAL.replace("till", "cellar")), "no lock \"cellar\"");
    folder.write("there", b"kept");
    refused(&folder, &format!("{SEAL} @there"), "there is a file of that name");
    assert_eq!(folder.read("there"), b"kept");
    folder.write("other.toml", OFFICE.replacen("1001", "1009", 1).as_bytes());
    let other = format!("{} @a", SEAL.replace("real", "other"));
    refused(&folder, &other, "holds no key that lock 1009 has");
    folder.write("alone.toml", ALONE.as_bytes());
    let alone = format!("{} @a", SEAL.replace("real", "alone"));
    refused(&folder, &alone, "error in line 3: The lock till needs two people");
    assert!(!folder.path("a").exists());
    assert_eq!(told(&folder, &format!("{SEAL} @a"))["version"], 1);
}

/// A lock whose counter stands behind the code before judges each code right, and
/// none is handed out twice, whatever key comes in between.
#[test]
fn a_lock_takes_each_code_once() {
    let folder = folder("code");
    let mut counter = 0;
    for _ in 0..3 {
        let told = told(&folder, CODE);
        let code = Code::parse(told["code"].as_str().unwrap()).unwrap();
        let key = pairing(1001, 1).courier(40);
        let (verdict, next) = one_time::judge(&key, counter, Digits::COURIER, &code);
        assert!(verdict == Verdict::Right);
        assert_eq!(u64::from(next), told["counter"].as_u64().unwrap() + 1);
        counter = next;
        assert!(one_time::judge(&key, counter, Digits::COURIER, &code).0 == Verdict::Wrong);
    }
    refused(&folder, &format!("{CODE} --lock-reset"), "they would come again");
    let pair = "keyring pair --keyring @keyring --passphrase-file @passphrase --lock 1001 --print";
    assert_eq!(folder.run(pair).0, 0);
    assert_eq!(folder.run(CONFIRM).0, 0);
    let anew = told(&folder, &format!("{CODE} --lock-reset"));
    assert_eq!(anew["generation"], 2);
    assert!(anew["counter"].as_u64().unwrap() < u64::from(counter));
}

#[test]
fn codes_are_for_couriers_only() {
    let folder = folder("code-not");
    let of = |number: &str| CODE.replace("holder 40", &format!("holder {number}"));
    refused(&folder, &of("12"), "Holder 12 is a keyholder");
    refused(&folder, &of("41"), "no holder 41");
    folder.write("real.toml", format!("{OFFICE}suspended = true\n").as_bytes());
    refused(&folder, CODE, "Holder 40 is suspended");
}

/// Couriers' codes have seven digits whatever the policy says of others: before, they
/// had as many as chosen codes, and a guess hit one in some 50,000.
#[test]
fn couriers_codes_have_seven_digits() {
    for digits in [6, 7, 8] {
        let folder = folder(&format!("code-{digits}"));
        let site = OFFICE.replacen("code_digits = 6", &format!("code_digits = {digits}"), 1);
        folder.write("real.toml", site.as_bytes());
        assert!(digits == 6 || site != OFFICE, "the site says how long chosen codes are");
        let told = told(&folder, CODE);
        let code = told["code"].as_str().unwrap();
        assert_eq!(code.len(), 7);
        let emulated = emulator::site::Site::parse("real", &site).map_err(|why| why.to_string());
        let emulated = emulated.unwrap();
        let mut settings = emulated.settings(emulated.lock("till").unwrap(), [7; 32]);
        settings.pairing = Some(pairing(1001, 1));
        let (number, salt) = (Number::new(40).unwrap(), Salt::from_bytes([3; Salt::LEN]));
        let unused = Code::parse("73920415").unwrap();
        settings.holders[number.index()] = Some(HolderRow {
            role: Role::Courier,
            opens: Opens::Yes,
            standing: Standing::Active,
            follows: Follows::Timetable(TimetableId::A),
            digest: digest(&settings.key, &salt, number, &unused),
            salt,
            counter: 0,
            opens_from: None,
        });
        // Monday, 2027-03-01, 14:00 in Dublin: within the courier's timetable.
        let at = lock_core::time::Utc::from_secs(1_803_909_600);
        let mut world =
            emulator::world::World::commission(&settings, at).map_err(|_| "format").unwrap();
        for digit in format!("40{code}").bytes() {
            let digit = lock_core::keys::Digit::new(digit - b'0').unwrap();
            world.press(lock_core::keys::Key::Digit(digit));
        }
        world.press(lock_core::keys::Key::Ok);
        assert_eq!(world.access(), Some("released"), "{digits}");
    }
}
