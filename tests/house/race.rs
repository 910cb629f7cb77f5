//! Many processes at one keyring, by different links, and some of them killed: no code,
//! version or nonce comes twice.
//!
//! `cargo test` runs 3 processes and 3 kills; `RACE=12x40 cargo test -p checks --test house
//! race` runs 12 processes and 40 kills.
#![cfg(unix)]

use std::collections::BTreeSet;
use std::io::{BufRead as _, BufReader};
use std::os::unix::fs::symlink;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::Duration;

use emulator::keyring::{Cost, Keyring, Passphrase};
use lock_core::pairing::{LockNumber, Pairing};

const OFFICE: &str = include_str!("../../emulator/demo/office/harbour-bakery.toml");
const CHILD: &str = "RACE_CHILD";
const CHEAP: Cost = Cost { memory: 8, passes: 1, lanes: 1 };

fn folder() -> PathBuf {
    Path::new(env!("CARGO_TARGET_TMPDIR")).join("race")
}

/// What each process does until it is killed or has done enough: seals, pairs, makes a code
/// and says that it was used. Each line says what was made.
#[test]
fn a_process_of_the_race() {
    let Ok(place) = std::env::var(CHILD) else { return };
    let folder = folder();
    let place: usize = place.parse().unwrap();
    let links = ["ring", "desk/ring", "shortcut", "desk/home/ring"];
    let run = |command: String| {
        let ring = folder.join(links[place % links.len()]);
        let arguments = ["emulator".to_owned()].into_iter();
        let arguments = arguments.chain(command.split_whitespace().map(str::to_owned)).chain([
            "--keyring".to_owned(),
            ring.display().to_string(),
            "--passphrase-file".to_owned(),
            folder.join("passphrase").display().to_string(),
            "--format".to_owned(),
            "json".to_owned(),
        ]);
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let code = emulator::cli::run(arguments, &mut out, &mut err);
        (code, String::from_utf8(out).unwrap(), String::from_utf8(err).unwrap())
    };
    let site = folder.join("office.toml").display().to_string();
    for round in 0..2 {
        let out = folder.join(format!("sealed-{}-{place}-{round}", std::process::id()));
        let (code, told, err) =
            run(format!("plan seal {site} --lock till --out {}", out.display()));
        assert_eq!(code, 0, "{err}");
        println!("\nmade version {}", told.trim());
        let (code, told, _) = run(format!("plan code {site} --lock till --holder 40"));
        if code == 0 {
            println!("\nmade code {}", told.trim());
            let told: serde_json::Value = serde_json::from_str(&told).unwrap();
            let counter = &told["counter"];
            run(format!("keyring used --lock 1001 --holder 40 --code {counter}"));
        }
        let (code, told, err) = run("keyring pair --lock 1002 --print".to_owned());
        assert_eq!(code, 0, "{err}");
        let told: serde_json::Value = serde_json::from_str(&told).unwrap();
        println!("\nmade key {}", told["generation"]);
    }
}

fn start(place: usize) -> Child {
    let mut command = Command::new(std::env::current_exe().unwrap());
    command.args(["race::a_process_of_the_race", "--exact", "--nocapture"]);
    command.env(CHILD, place.to_string()).stdout(Stdio::piped()).stderr(Stdio::piped());
    command.spawn().unwrap()
}

/// What a process made, and whether it came to its end.
fn made(child: Child) -> (Vec<String>, bool) {
    let mut child = child;
    let lines = BufReader::new(child.stdout.take().unwrap()).lines();
    let made: Vec<String> =
        lines.map_while(Result::ok).filter(|line| line.starts_with("made ")).collect();
    (made, child.wait().unwrap().success())
}

#[test]
fn nothing_comes_twice() {
    let asked = std::env::var("RACE").unwrap_or_else(|_| "3x3".to_owned());
    let (processes, kills) = asked.split_once('x').unwrap();
    let (processes, kills): (usize, usize) = (processes.parse().unwrap(), kills.parse().unwrap());
    let folder = folder();
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(folder.join("desk")).unwrap();
    std::fs::write(folder.join("office.toml"), OFFICE).unwrap();
    std::fs::write(folder.join("passphrase"), "a passphrase of this test\n").unwrap();
    let mut ring = Keyring::default();
    for lock in [1001, 1002] {
        ring.add(Pairing::new(LockNumber::new(lock).unwrap(), 1, [7; Pairing::LEN])).unwrap();
    }
    let passphrase = Passphrase::new("a passphrase of this test".to_owned());
    ring.save(&folder.join("ring"), &passphrase, CHEAP).unwrap();
    symlink("../ring", folder.join("desk/ring")).unwrap();
    symlink("desk/ring", folder.join("shortcut")).unwrap();
    symlink("..", folder.join("desk/home")).unwrap();

    let mut all: Vec<String> = Vec::new();
    let mut running: Vec<Child> = (0..processes).map(start).collect();
    let mut wait = 40;
    for kill in 0..kills {
        // At all sorts of moments: while it waits, stretches, writes or has written.
        wait = (wait * 7 + 13) % 900;
        std::thread::sleep(Duration::from_millis(100 + wait));
        let mut killed = running.remove(kill % running.len());
        killed.kill().unwrap();
        all.extend(made(killed).0);
        running.push(start(processes + kill));
    }
    for child in running {
        let (made, fine) = made(child);
        assert!(fine, "a process failed that nobody killed");
        all.extend(made);
    }
    let mut versions = BTreeSet::new();
    let mut codes = BTreeSet::new();
    let mut keys = BTreeSet::new();
    for line in &all {
        let line = line.strip_prefix("made ").unwrap();
        if let Some(key) = line.strip_prefix("key ") {
            assert!(keys.insert(key.to_owned()), "key {key} was made twice");
            continue;
        }
        let (kind, json) = line.split_once(' ').unwrap();
        let told: serde_json::Value = serde_json::from_str(json).unwrap();
        let fresh = match kind {
            "version" => versions.insert(told["version"].as_u64().unwrap()),
            _ => codes.insert(told["counter"].as_u64().unwrap()),
        };
        assert!(fresh, "{line} was made twice");
    }
    // Nonces are the versions of the files that are there, whoever lived to tell of them.
    let mut nonces = BTreeSet::new();
    for file in std::fs::read_dir(&folder).unwrap() {
        let file = file.unwrap();
        if file.file_name().to_string_lossy().starts_with("sealed-") {
            let bytes = std::fs::read(file.path()).unwrap();
            // A process that was killed while it wrote leaves less, and no second one.
            if let Some(header) = bytes.first_chunk::<16>() {
                assert!(nonces.insert(*header), "a nonce was used twice");
            }
        }
    }
    assert!(
        versions.len() >= 2 * processes && codes.len() >= processes,
        "{} {}",
        versions.len(),
        codes.len()
    );
    assert!(Keyring::load(&folder.join("ring"), &passphrase).is_ok());
    println!(
        "{} versions, {} codes, {} keys, {} files; {kills} kills",
        versions.len(),
        codes.len(),
        keys.len(),
        nonces.len()
    );
}
