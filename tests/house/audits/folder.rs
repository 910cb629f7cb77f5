//! A folder of a test's own: the demo site, a keyring, sealed extracts.

use std::path::{Path, PathBuf};

use emulator::audit::sample::{carried_out, extract, fortnight};
use emulator::keyring::{Cost, Keyring, Passphrase};
use emulator::site::Site;
use lock_core::audit::{Entry, Seq};
use lock_core::link::extract::{ExtractHeader, Scope};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::time::{Date, Utc};

pub(super) const DEMO: &str = include_str!("../../../emulator/demo/harbour-bakery.toml");

/// As cheap as Argon2id goes: what a guess costs is not tested here.
pub(super) const CHEAP: Cost = Cost { memory: 8, passes: 1, lanes: 1 };

pub(super) const PASSPHRASE: &str = "a passphrase of this test";

pub(super) fn passphrase() -> Passphrase {
    Passphrase::new(PASSPHRASE.to_owned())
}

pub(super) fn pairing(lock: u16, generation: u32) -> Pairing {
    let lock = LockNumber::new(lock).unwrap();
    Pairing::new(lock, generation, [u8::try_from(generation).unwrap(); Pairing::LEN])
}

pub(super) struct Folder(PathBuf);

impl Folder {
    /// An empty one but for site, keyring (locks 1001 to 1003, key 1) and
    /// passphrase.
    pub(super) fn new(name: &str) -> Self {
        let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("audits").join(name);
        let _ = std::fs::remove_dir_all(&folder);
        std::fs::create_dir_all(folder.join("extracts")).unwrap();
        let folder = Self(folder);
        folder.write("site.toml", DEMO.as_bytes());
        folder.write("passphrase", format!("{PASSPHRASE}\n").as_bytes());
        let mut keyring = Keyring::default();
        for lock in 1001..=1003 {
            keyring.add(pairing(lock, 1)).unwrap();
        }
        keyring.save(&folder.path("keyring"), &passphrase(), CHEAP).unwrap();
        folder
    }

    pub(super) fn path(&self, name: &str) -> PathBuf {
        self.0.join(name)
    }

    pub(super) fn write(&self, name: &str, bytes: &[u8]) {
        std::fs::write(self.path(name), bytes).unwrap();
    }

    pub(super) fn read(&self, name: &str) -> Vec<u8> {
        std::fs::read(self.path(name)).unwrap()
    }

    /// Puts the fortnight of each lock in, an extract a week.
    pub(super) fn live(&self) {
        let site = Site::parse("site.toml", DEMO).map_err(|why| why.to_string()).unwrap();
        for (id, lock) in [("till", 1001), ("store", 1002), ("vault", 1003)] {
            let mut week = 0;
            fortnight(&site, id, Date::from_ymd(2027, 3, 1).unwrap(), &mut |world| {
                week += 1;
                let file = carried_out(world, &pairing(lock, 1), week, Scope::All, None).unwrap();
                self.write(&format!("extracts/{id}-{week}.extract"), &file);
            })
            .map_err(|_| "format")
            .unwrap();
        }
    }

    /// Runs `emulator audit …` in this folder: `@x` is the path of `x` in it.
    pub(super) fn audit(&self, command: &str) -> (u8, String, String) {
        let keys = "--keyring @keyring --passphrase-file @passphrase";
        self.run(&format!("audit {command} {keys}"))
    }

    pub(super) fn run(&self, command: &str) -> (u8, String, String) {
        let words = command.split_whitespace().map(|word| match word.strip_prefix('@') {
            Some(name) => self.path(name).into_os_string(),
            None => word.into(),
        });
        let (mut out, mut err) = (Vec::new(), Vec::new());
        let arguments = std::iter::once("emulator".into()).chain(words);
        let code = emulator::cli::run(arguments, &mut out, &mut err);
        let text = |bytes| String::from_utf8(bytes).unwrap();
        (code, text(out), text(err))
    }
}

/// A sealed extract of these entries, made on 2027-03-01.
pub(super) fn sealed(lock: u16, generation: u32, number: u32, entries: &[Entry]) -> Vec<u8> {
    let header = ExtractHeader {
        number,
        scope: Scope::All,
        since_last: false,
        from: Seq(1),
        newest: entries.last().map(Entry::last),
        made: Some(Utc::from_secs(1_803_859_200)),
    };
    extract(&pairing(lock, generation), &header, entries).unwrap()
}
