//! One keyring by several paths: it is one keyring, or it is refused.
#![cfg(unix)]

use std::os::unix::fs::symlink;
use std::path::PathBuf;
use std::sync::mpsc::channel;
use std::time::Duration;

use emulator::keyring::{Keyring, KeyringFault};
use serde_json::Value;

use super::folder::{CHEAP, Folder, passphrase};

const OFFICE: &str = include_str!("../../../emulator/demo/office/harbour-bakery.toml");

/// With links to the keyring from another folder, through a link of that folder, and
/// through a link to a link.
fn linked(name: &str) -> (Folder, [&'static str; 4]) {
    let folder = Folder::new(name);
    folder.write("office.toml", OFFICE.as_bytes());
    std::fs::create_dir_all(folder.path("desk/drawer")).unwrap();
    symlink("../keyring", folder.path("desk/ring")).unwrap();
    symlink("desk/ring", folder.path("shortcut")).unwrap();
    symlink(folder.path("."), folder.path("desk/drawer/home")).unwrap();
    (folder, ["keyring", "desk/ring", "shortcut", "desk/drawer/home/keyring"])
}

fn told(folder: &Folder, command: &str, ring: &str) -> Value {
    let keys = format!("--keyring @{ring} --passphrase-file @passphrase --format json");
    let (code, out, err) = folder.run(&format!("{command} @office.toml --lock till {keys}"));
    assert_eq!((code, err.as_str()), (0, ""), "{command} by {ring}");
    serde_json::from_str(&out).unwrap()
}

/// Before the real path was taken, a link was replaced by a keyring of its own, and
/// both counted on from the same number.
#[test]
fn every_path_to_a_keyring_counts_on() {
    let (folder, rings) = linked("ring-linked");
    let (mut versions, mut codes) = (Vec::new(), Vec::new());
    for round in 0..2 {
        for (place, ring) in rings.iter().enumerate() {
            let seal = format!("plan seal --out @sealed-{round}-{place}");
            versions.push(told(&folder, &seal, ring)["version"].as_u64().unwrap());
            if round == 0 {
                let code = told(&folder, "plan code --holder 40", ring);
                codes.push(code["counter"].as_u64().unwrap());
            }
        }
    }
    assert_eq!(versions, (1..=8).collect::<Vec<u64>>());
    assert!(codes.windows(2).all(|pair| pair[0] < pair[1]), "{codes:?}");
    for link in ["desk/ring", "shortcut"] {
        assert!(folder.path(link).is_symlink(), "{link} is a link no longer");
    }
}

/// Whoever comes by another path waits.
#[test]
fn a_keyring_is_held_by_all_its_paths() {
    let (folder, rings) = linked("ring-held");
    for ring in rings {
        let held = Keyring::hold(&folder.path("keyring")).map_err(|why| why.to_string()).unwrap();
        let (sender, receiver) = channel();
        let path: PathBuf = folder.path(ring);
        let waiter = std::thread::spawn(move || {
            let second = Keyring::hold(&path).map_err(|why| why.to_string()).unwrap();
            sender.send(()).unwrap();
            drop(second);
        });
        let early = receiver.recv_timeout(Duration::from_millis(100));
        assert!(early.is_err(), "{ring} was held twice");
        drop(held);
        receiver.recv_timeout(Duration::from_secs(20)).unwrap();
        waiter.join().unwrap();
    }
}

/// What cannot be one keyring is refused, and stays as it was: a second name of the
/// same file, and a link that leads nowhere.
#[test]
fn a_second_name_and_a_dead_link_are_refused() {
    let folder = Folder::new("ring-named-twice");
    std::fs::hard_link(folder.path("keyring"), folder.path("second")).unwrap();
    let before = folder.read("keyring");
    for name in ["keyring", "second"] {
        let why = Keyring::hold(&folder.path(name)).err().unwrap();
        assert!(matches!(why, KeyringFault::NamedTwice { .. }), "{name}: {why}");
        let why = Keyring::default().save(&folder.path(name), &passphrase(), CHEAP).err().unwrap();
        assert!(matches!(why, KeyringFault::NamedTwice { .. }), "{name}: {why}");
        assert_eq!(folder.read(name), before);
    }
    std::fs::remove_file(folder.path("second")).unwrap();
    assert!(Keyring::hold(&folder.path("keyring")).is_ok());

    symlink("nowhere", folder.path("dead")).unwrap();
    let why = Keyring::default().save(&folder.path("dead"), &passphrase(), CHEAP).err().unwrap();
    assert!(matches!(why, KeyringFault::Unreadable { .. }), "{why}");
    assert!(!folder.path("nowhere").exists() && folder.path("dead").is_symlink());
}
