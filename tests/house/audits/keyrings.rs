//! Keyrings: what is put in comes out, under that passphrase and no other.

use emulator::audit::sealed::Keys;
use emulator::keyring::{Keyring, KeyringFault, Passphrase};
use lock_core::pairing::LockNumber;
use lock_core::pairing_code::PairingCode;

use super::folder::{CHEAP, Folder, pairing, passphrase};

/// More than a chunk holds, in whatever order they were put in.
#[test]
fn keys_come_back_as_they_were() {
    let folder = Folder::new("keyring");
    let path = folder.path("ring");
    for count in [0, 1, 6, 7, 40] {
        let mut keyring = Keyring::default();
        for n in (0..count).rev() {
            keyring.add(pairing(n / 3 + 1, u32::from(n % 3 + 1))).unwrap();
        }
        if count > 0 {
            assert!(keyring.add(pairing(1, 1)).is_err(), "one key twice");
        }
        keyring.save(&path, &passphrase(), CHEAP).unwrap();
        let read = Keyring::load(&path, &passphrase()).map_err(|why| why.to_string()).unwrap();
        assert_eq!(read.names().count(), usize::from(count));
        for n in 0..count {
            let (lock, generation) = (LockNumber::new(n / 3 + 1).unwrap(), u32::from(n % 3 + 1));
            let key = read.pairing(lock, generation).unwrap();
            assert_eq!(key.key(), pairing(lock.get(), generation).key());
            assert!(read.pairing(lock, 9).is_none());
        }
    }
}

/// Cut or altered anywhere, or opened with another passphrase, it is refused;
/// the key is nowhere in the file.
#[test]
fn a_keyring_that_was_touched_is_refused() {
    let folder = Folder::new("touched");
    let mut keyring = Keyring::default();
    for generation in 1..=8 {
        keyring.add(pairing(1001, generation)).unwrap();
    }
    let path = folder.path("ring");
    keyring.save(&path, &passphrase(), CHEAP).unwrap();
    let whole = folder.read("ring");
    assert!(!whole.windows(8).any(|bytes| (1..=8).any(|key| bytes == [key; 8])));
    let refused = |bytes: &[u8]| {
        folder.write("ring", bytes);
        Keyring::load(&path, &passphrase()).is_err()
    };
    for at in 0..whole.len() {
        assert!(refused(&whole[..at]), "cut at {at}");
        // Memory and passes that a header asks for are taken as they are, within
        // bounds: what costs a gigabyte each time is not tried here.
        if (8..10).contains(&at) || (11..16).contains(&at) {
            continue;
        }
        let mut altered = whole.clone();
        altered[at] ^= 1;
        assert!(refused(&altered), "altered at {at}");
    }
    assert!(refused(&[whole.clone(), vec![0]].concat()));
    assert!(!refused(&whole));
    let other = Passphrase::new("another passphrase".to_owned());
    let why = Keyring::load(&path, &other).err().unwrap();
    assert!(matches!(why, KeyringFault::Sealed { .. }));
}

/// A salt is drawn anew: the same keys under the same passphrase look different.
#[test]
fn no_two_files_are_alike() {
    let folder = Folder::new("alike");
    let mut keyring = Keyring::default();
    keyring.add(pairing(1001, 1)).unwrap();
    for name in ["one", "two"] {
        keyring.save(&folder.path(name), &passphrase(), CHEAP).unwrap();
    }
    let (one, two) = (folder.read("one"), folder.read("two"));
    assert_eq!(one.len(), two.len());
    assert!(one[16..32] != two[16..32] && one[32..] != two[32..]);
}

/// The printed code makes the key that the keyring keeps; the next one is newer,
/// and the old one stays.
#[test]
fn the_code_on_paper_is_the_key_in_the_ring() {
    let folder = Folder::new("pair");
    let pair = "keyring pair --keyring @ring --passphrase-file @passphrase --lock 1001 --print";
    for generation in 1..=2_u32 {
        let (code, out, err) = folder.run(&format!("{pair} --format json"));
        assert_eq!((code, err.as_str()), (0, ""));
        let told: serde_json::Value = serde_json::from_str(&out).unwrap();
        assert_eq!(told["generation"], generation);
        let mut typed = PairingCode::default();
        for (place, group) in told["code"].as_array().unwrap().iter().enumerate() {
            let digits: Vec<u8> = group.as_str().unwrap().bytes().map(|b| b - b'0').collect();
            typed.take(place, &digits).unwrap();
        }
        let typed = typed.pairing().unwrap();
        let ring = Keyring::load(&folder.path("ring"), &passphrase());
        let ring = ring.map_err(|why| why.to_string()).unwrap();
        assert_eq!(typed.key(), ring.pairing(typed.lock(), generation).unwrap().key());
        assert_eq!(ring.names().count(), generation as usize);
    }
    let list = "keyring list --keyring @ring --passphrase-file @passphrase";
    let listed = "lock  1001  key 1  unconfirmed\nlock  1001  key 2  unconfirmed\n";
    assert_eq!(folder.run(list).1, listed);
    // Where no terminal is, it is printed only if somebody says so: it is a key.
    let (code, out, err) = folder.run(&pair.replace(" --print", " --format json"));
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.contains("--print"), "{err}");
    assert_eq!(folder.run(list).1, listed);
    folder.write("short", b"elevenchars\n");
    let short = "keyring pair --keyring @new --passphrase-file @short --lock 1001 --print";
    let (code, out, err) = folder.run(short);
    assert_eq!((code, out.as_str()), (2, ""));
    assert!(err.contains("fewer than 12") && !err.contains("elevenchars"), "{err}");
    assert!(!folder.path("new").exists());
    let (code, ..) = folder.run(&pair.replace("1001", "0"));
    assert_eq!(code, 2);
}

/// What a later version wrote is told from what is no keyring.
#[test]
fn a_later_format_is_named() {
    let folder = Folder::new("later");
    let mut bytes = folder.read("keyring");
    bytes[4] += 1;
    folder.write("keyring", &bytes);
    let why = Keyring::load(&folder.path("keyring"), &passphrase()).err().unwrap();
    assert!(matches!(why, KeyringFault::Newer { .. }), "{why}");
}

/// For its owner's eyes only, whatever was left beside it; if others may read or
/// change it, it is refused.
#[cfg(unix)]
#[test]
fn a_keyring_is_its_owners_alone() {
    use std::fs::{Permissions, metadata, set_permissions};
    use std::os::unix::fs::{PermissionsExt as _, symlink};
    let folder = Folder::new("owner");
    let (path, beside) = (folder.path("keyring"), folder.path("keyring.new"));
    let keyring = Keyring::load(&path, &passphrase()).map_err(|why| why.to_string()).unwrap();
    let mode = |mode| set_permissions(&path, Permissions::from_mode(mode)).unwrap();
    for open in [0o640, 0o620, 0o604, 0o602] {
        mode(open);
        let why = Keyring::load(&path, &passphrase()).err().unwrap();
        assert!(matches!(why, KeyringFault::Exposed { .. }), "{open:o}: {why}");
    }
    folder.write("keyring.new", b"left over");
    set_permissions(&beside, Permissions::from_mode(0o666)).unwrap();
    keyring.save(&path, &passphrase(), CHEAP).unwrap();
    assert_eq!(metadata(&path).unwrap().permissions().mode() & 0o777, 0o600);
    folder.write("bystander", b"kept");
    symlink(folder.path("bystander"), &beside).unwrap();
    keyring.save(&path, &passphrase(), CHEAP).unwrap();
    assert_eq!(folder.read("bystander"), b"kept");
    assert!(Keyring::load(&path, &passphrase()).is_ok());
}
