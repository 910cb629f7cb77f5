//! A folder of a test's own, with one of each file that commands read.

use std::ffi::{OsStr, OsString};
use std::fs;
use std::os::unix::ffi::OsStrExt as _;
use std::os::unix::fs::symlink;
use std::path::{Path, PathBuf};
use std::process::Command;

use emulator::audit::sample::extract;
use emulator::keyring::{Cost, Keyring, Passphrase};
use lock_core::audit::{Entry, Event, Record, Seq};
use lock_core::holder::Number;
use lock_core::link::extract::{ExtractHeader, Scope};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::time::Utc;

const SITE: &str = include_str!("../../demo/harbour-bakery.toml");
const DRILL: &str = include_str!("../../demo/drills/r03-closed-is-closed.toml");
const PASSPHRASE: &str = "a passphrase of this test";

/// 2027-03-01.
const MADE: Utc = Utc::from_secs(1_803_859_200);

pub(crate) struct Place(PathBuf);

impl Place {
    /// A new one.
    pub(crate) fn new(name: &str) -> Self {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("ends").join(name);
        let _ = fs::remove_dir_all(&folder);
        fs::create_dir_all(folder.join("extracts")).unwrap();
        fs::create_dir_all(folder.join("drills")).unwrap();
        let place = Self(folder);
        place.write("bakery.toml", SITE);
        let real = SITE.split("[demo.codes]").next().unwrap();
        place.write("site.toml", format!("{real}{COURIER}"));
        let drill = DRILL.replace("../harbour-bakery.toml", "../bakery.toml");
        place.write("drills/pass.toml", &drill);
        place.write("drills/fail.toml", drill.replace("state = \"secured\"", "state = \"open\""));
        place.write("costs.toml", "refresh = 1\n");
        place.write("passphrase", format!("{PASSPHRASE}\n"));
        place.write("holidays.ics", HOLIDAYS);
        let mut keyring = Keyring::default();
        keyring.add(pairing()).unwrap();
        let cheap = Cost { memory: 8, passes: 1, lanes: 1 };
        let passphrase = Passphrase::new(PASSPHRASE.to_owned());
        keyring.save(&place.path("keyring"), &passphrase, cheap).unwrap();
        place.write("extracts/till.extract", sealed());
        place
    }

    pub(crate) fn path(&self, name: impl AsRef<OsStr>) -> PathBuf {
        self.0.join(name.as_ref())
    }

    pub(crate) fn write(&self, name: impl AsRef<OsStr>, bytes: impl AsRef<[u8]>) {
        fs::write(self.path(name), bytes).unwrap();
    }

    /// A pipe that nobody writes to.
    pub(crate) fn fifo(&self, name: impl AsRef<OsStr>) -> PathBuf {
        let path = self.path(name);
        assert!(Command::new("mkfifo").arg(&path).status().unwrap().success());
        path
    }

    /// A link that leads to itself.
    pub(crate) fn endless(&self, name: impl AsRef<OsStr>) -> PathBuf {
        let path = self.path(name);
        symlink(&path, &path).unwrap();
        path
    }

    /// A name that is no UTF-8, and steers a terminal.
    pub(crate) fn odd(ending: &str) -> OsString {
        OsStr::from_bytes(&[b"od\xffd\x1b[2K\n", ending.as_bytes()].concat()).to_owned()
    }

    /// The words of a command: `@x` is the path of `x`, `KEYS` are the options that
    /// give keyring and passphrase.
    pub(crate) fn words(&self, command: &str) -> Vec<OsString> {
        let keys = "--keyring @keyring --passphrase-file @passphrase";
        let command = command.replace("KEYS", keys);
        let words = command.split_whitespace().map(|word| match word.strip_prefix('@') {
            Some(name) => self.path(name).into_os_string(),
            None => word.into(),
        });
        words.collect()
    }

    /// What lies in the folder, at any depth.
    pub(crate) fn names(&self) -> Vec<PathBuf> {
        fn search(folder: &Path, found: &mut Vec<PathBuf>) {
            for entry in fs::read_dir(folder).unwrap() {
                let path = entry.unwrap().path();
                if path.is_dir() && !path.is_symlink() {
                    search(&path, found);
                }
                found.push(path);
            }
        }
        let mut found = Vec::new();
        search(&self.0, &mut found);
        found.sort();
        found
    }
}

fn pairing() -> Pairing {
    Pairing::new(LockNumber::new(1001).unwrap(), 1, [7; Pairing::LEN])
}

/// An extract of lock 1001 with three records.
fn sealed() -> Vec<u8> {
    let who = Number::new(12).unwrap();
    let record = |seq| {
        let event = Event::WrongCode { who };
        Entry::Record(Seq(seq), Record { at: Some(MADE), event })
    };
    let entries: Vec<Entry> = (1..=3).map(record).collect();
    let header = ExtractHeader {
        number: 1,
        scope: Scope::All,
        since_last: false,
        from: Seq(1),
        newest: Some(Seq(3)),
        made: Some(MADE),
    };
    extract(&pairing(), &header, &entries).unwrap()
}

const COURIER: &str = "
[[holder]]
number = 40
name = \"Courier\"
role = \"courier\"
timetable = \"A\"
";

const HOLIDAYS: &str = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:test\r\nBEGIN:VEVENT\r\nUID:1\r\n\
DTSTAMP:20270101T000000Z\r\nDTSTART;VALUE=DATE:20271225\r\nSUMMARY:Christmas\r\nEND:VEVENT\r\n\
END:VCALENDAR\r\n";
