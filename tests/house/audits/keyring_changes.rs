//! A keyring through its life: keys that locks got or did not get, passphrases, copies.

use emulator::keyring::strength::{Weak, judge};
use emulator::keyring::{Keyring, stretched};
use lock_core::pairing::LockNumber;
use lock_core::seal::{CHUNK, Direction, SealKey, Series, seal_chunk};
use serde_json::Value;

use super::folder::{CHEAP, Folder, pairing, passphrase};

const OFFICE: &str = include_str!("../../../emulator/demo/office/harbour-bakery.toml");
const KEYS: &str = "--keyring @keyring --passphrase-file @passphrase";

fn folder(name: &str) -> Folder {
    let folder = Folder::new(name);
    folder.write("office.toml", OFFICE.as_bytes());
    folder
}

/// What a command that succeeds writes as JSON.
fn told(folder: &Folder, command: &str) -> Value {
    let (code, out, err) = folder.run(&format!("{command} {KEYS} --format json"));
    assert_eq!((code, err.as_str()), (0, ""), "{command}");
    serde_json::from_str(&out).unwrap()
}

/// What a command that is refused says.
fn refused(folder: &Folder, command: &str) -> String {
    let (code, out, err) = folder.run(&format!("{command} {KEYS}"));
    assert_eq!((code, out.as_str()), (2, ""), "{command}");
    err.split_whitespace().filter(|word| *word != "│").collect::<Vec<_>>().join(" ")
}

fn sealed(folder: &Folder, name: &str) -> Value {
    told(folder, &format!("plan seal @office.toml --lock till --out @{name}"))
}

const CODE: &str = "plan code @office.toml --lock till --holder 40";

/// Before, an abandoned `keyring pair` made everything useless to the lock.
#[test]
fn nothing_is_made_with_a_key_that_no_lock_is_known_to_have() {
    let folder = folder("ring-standing");
    told(&folder, "keyring pair --lock 1001 --print");
    let first = sealed(&folder, "a");
    assert_eq!((&first["generation"], &first["unconfirmed"]), (&1.into(), &2.into()));
    let code = told(&folder, CODE);
    assert_eq!((&code["generation"], &code["unconfirmed"]), (&1.into(), &2.into()));
    let (_, out, _) = folder.run(&format!("{CODE} {KEYS}"));
    assert!(out.contains("under key 1") && out.contains("has key 2"), "{out}");
    // Given up; the next one has a number of its own.
    told(&folder, "keyring drop --lock 1001");
    assert!(refused(&folder, "keyring confirm --lock 1001").contains("waits to be confirmed"));
    assert!(refused(&folder, "keyring confirm --lock 1001 --generation 2").contains("is retired"));
    assert_eq!(told(&folder, "keyring pair --lock 1001 --print")["generation"], 3);
    assert_eq!(sealed(&folder, "b")["generation"], 1);
    assert_eq!(told(&folder, "keyring confirm --lock 1001")["generation"], 3);
    let third = sealed(&folder, "c");
    assert_eq!((&third["generation"], &third["unconfirmed"]), (&3.into(), &Value::Null));
    assert!(refused(&folder, "keyring drop --lock 1001 --generation 3").contains("has that key"));
    assert!(refused(&folder, "keyring confirm --lock 1001 --generation 1").contains("a newer key"));
    assert!(refused(&folder, "keyring confirm --lock 1001 --generation 9").contains("no such key"));
    // A lock that has none yet.
    told(&folder, "keyring pair --lock 1009 --print");
    folder.write("new.toml", OFFICE.replacen("1001", "1009", 1).as_bytes());
    let why = refused(&folder, "plan seal @new.toml --lock till --out @d");
    assert!(why.contains("Nobody has said yet that lock 1009 has its key 1"), "{why}");
    assert!(!folder.path("d").exists());
}

/// All of it under the new one, and nothing under the old one.
#[test]
fn the_passphrase_can_be_changed() {
    let folder = folder("ring-passphrase");
    told(&folder, CODE);
    let before = told(&folder, "keyring codes");
    let old = folder.read("passphrase");
    folder.write("easy", b"aaaaaaaaaaaa\n");
    folder.write("short", b"fG7_kq2.Lw\n");
    let change = "keyring passphrase --new-passphrase-file";
    for (name, why) in
        [("easy", "easily guessed"), ("short", "fewer than 12"), ("passphrase", "is the old one")]
    {
        let ring = folder.read("keyring");
        let said = refused(&folder, &format!("{change} @{name}"));
        assert!(said.contains(why) && !said.contains("aaaaaaaaaaaa"), "{said}");
        assert_eq!(folder.read("keyring"), ring, "{name}");
    }
    folder.write("new", b"gravel tuba ninety otter lamp\n");
    told(&folder, &format!("{change} @new"));
    assert!(refused(&folder, "keyring list").contains("does not open"));
    folder.write("passphrase", &folder.read("new"));
    assert_eq!(told(&folder, "keyring codes"), before);
    assert_ne!(old, folder.read("passphrase"));
}

/// Passphrases at the head of published lists of leaked ones, repeated, walked along the
/// keyboard or made of the words of this trade are refused; random words and letters are
/// not. `aaaaaaaaaaaa` was taken before.
#[test]
fn what_is_easily_guessed_is_no_new_passphrase() {
    let easy = [
        "aaaaaaaaaaaa",
        "123456789012",
        "qwertyuiop[]",
        "passwordpassword",
        "Password1234",
        "iloveyou2024",
        "abcabcabcabc",
        "1q2w3e4r5t6y",
        "keyringkeyring",
        "emulatorlock",
        "footballfootball",
        "letmeinletmein",
    ];
    for passphrase in easy {
        assert!(matches!(judge(passphrase, &[]), Err(Weak::Guessable(_))), "{passphrase}");
    }
    assert_eq!(judge("fG7_kq2.Lw", &[]), Err(Weak::Short));
    for passphrase in [
        "gravel tuba ninety otter lamp",
        "fG7_kq2.LwZp",
        "Ziegel Ofen drei Möwen Kai",
        "a passphrase of this test",
    ] {
        assert_eq!(judge(passphrase, &[]), Ok(()), "{passphrase}");
    }
}

#[test]
fn a_new_keyring_takes_no_easy_passphrase() {
    let folder = folder("ring-easy");
    folder.write("easy", b"aaaaaaaaaaaa\n");
    let pair = "keyring pair --keyring @new --passphrase-file @easy --lock 1001 --print";
    let (code, out, err) = folder.run(pair);
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.contains("easily guessed") && !err.contains("aaaaaaaaaaaa"), "{err}");
    assert!(!folder.path("new").exists());
}

/// Copied to another place, or put back over the newer file in any way: it is read, and
/// counts nothing. Where a file system keeps no birth this cannot be told.
#[cfg(unix)]
#[test]
fn a_copy_counts_nothing_before_it_is_adopted() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = folder("ring-copy");
    if std::fs::metadata(folder.path("keyring")).unwrap().created().is_err() {
        return;
    }
    assert_eq!(sealed(&folder, "a")["version"], 1);
    let old = folder.read("keyring");
    // In place, moved and linked it stays the one.
    std::fs::rename(folder.path("keyring"), folder.path("elsewhere")).unwrap();
    std::fs::rename(folder.path("elsewhere"), folder.path("keyring")).unwrap();
    assert_eq!(sealed(&folder, "b")["version"], 2);
    let newest = folder.read("keyring");
    let all =
        ["plan seal @office.toml --lock till --out @x", CODE, "keyring pair --lock 1001 --print"];
    let changes = all.into_iter().chain([
        "keyring confirm --lock 1001",
        "keyring used --lock 1001 --holder 40 --code 1",
        "keyring update @extracts",
    ]);
    let copied = |how: &str| {
        for change in changes.clone() {
            let why = refused(&folder, change);
            assert!(why.contains("is a copy, or an older state"), "{how}: {change}: {why}");
        }
        let (code, ..) = folder.run(&format!("keyring list {KEYS}"));
        assert_eq!(code, 0, "{how} is read");
    };
    // An older state, written into the very file.
    folder.write("keyring", &old);
    copied("an older state in place");
    folder.write("keyring", &newest);
    assert_eq!(sealed(&folder, "c")["version"], 3, "put back in place, nothing was lost");
    // A copy, of the newest state too.
    let newest = folder.read("keyring");
    for bytes in [&newest, &old] {
        std::fs::remove_file(folder.path("keyring")).unwrap();
        folder.write("keyring", bytes);
        let mode = std::fs::Permissions::from_mode(0o600);
        std::fs::set_permissions(folder.path("keyring"), mode).unwrap();
        copied("a copy");
    }
    // The other may count on: nothing more is made under keys that it has.
    told(&folder, "keyring adopt");
    let (_, list, _) = folder.run(&format!("keyring list {KEYS}"));
    assert!(list.lines().all(|row| row.ends_with("retired")), "{list}");
    assert!(refused(&folder, all[0]).contains("no key that lock 1001 has"));
    told(&folder, "keyring pair --lock 1001 --print");
    told(&folder, "keyring confirm --lock 1001");
    let anew = told(&folder, "plan seal @office.toml --lock till --out @d --after 3");
    assert_eq!((&anew["version"], &anew["generation"]), (&4.into(), &2.into()));
    assert!(refused(&folder, "keyring adopt").contains("is no copy"));
    // Moved to another machine, and the other is gone: the keys stay.
    let moved = folder.read("keyring");
    std::fs::remove_file(folder.path("keyring")).unwrap();
    folder.write("keyring", &moved);
    let mode = std::fs::Permissions::from_mode(0o600);
    std::fs::set_permissions(folder.path("keyring"), mode).unwrap();
    told(&folder, "keyring adopt --moved");
    let on = sealed(&folder, "e");
    assert_eq!((&on["version"], &on["generation"]), (&5.into(), &2.into()));
}

/// A keyring of the format before: its keys are those that locks have.
#[test]
fn a_keyring_of_format_2_opens() {
    let folder = folder("ring-format-2");
    folder.write("keyring", &format_2());
    let path = folder.path("keyring");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt as _;
        let mode = std::fs::Permissions::from_mode(0o600);
        std::fs::set_permissions(&path, mode).unwrap();
    }
    let ring = Keyring::load(&path, &passphrase()).map_err(|why| why.to_string()).unwrap();
    let lock = LockNumber::new(1001).unwrap();
    assert_eq!(ring.sealing(lock).unwrap().key(), pairing(1001, 2).key());
    assert!(!ring.is_copied());
    ring.save(&path, &passphrase(), CHEAP).unwrap();
    assert_eq!(folder.read("keyring")[4], 3);
    assert!(Keyring::load(&path, &passphrase()).is_ok());
    assert_eq!(sealed(&folder, "a")["version"], 8);
}

/// By hand, from the table of format 2: keys 1 and 2 of lock 1001, version 7.
fn format_2() -> Vec<u8> {
    let mut header = [0; 32];
    header[..6].copy_from_slice(&[0x9C, 0x4C, 0x6B, 0x0A, 2, 3]);
    header[6..10].copy_from_slice(&CHEAP.memory.to_le_bytes());
    header[10..14].copy_from_slice(&CHEAP.passes.to_le_bytes());
    header[14..16].copy_from_slice(&CHEAP.lanes.to_le_bytes());
    header[16..].copy_from_slice(&[0x5A; 16]);
    let mut chunk = [0; CHUNK];
    for (row, key) in [1_u8, 2].into_iter().enumerate() {
        let row = &mut chunk[row * 48..][..48];
        row[..8].copy_from_slice(&[1, 0, 0xE9, 3, key, 0, 0, 0]);
        row[16..].copy_from_slice(&[key; 32]);
    }
    chunk[96..108].copy_from_slice(&[2, 0, 0xE9, 3, 0, 0, 0, 0, 7, 0, 0, 0]);
    let key = stretched(passphrase().as_bytes(), &[0x5A; 16], CHEAP).unwrap();
    let series = Series { direction: Direction::Inbound, lock: 0, generation: 0, counter: 0 };
    let key = SealKey::from_bytes(*key);
    let length = seal_chunk(&key, &series, &header, 0x8000, &mut chunk, 3 * 48).unwrap();
    [&header, &chunk[..length]].concat()
}
