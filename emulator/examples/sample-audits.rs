//! Two weeks of the demo site as extracts, with the keyring that opens them, to
//! try `emulator audit` on: `sample-audits FOLDER`.
//!
//! The records are those of emulated locks that lived through the weeks. The keys
//! are of the emulator only, and so is the passphrase beside them.

use std::path::{Path, PathBuf};
use std::process::ExitCode;

use emulator::audit::sample::{carried_out, fortnight};
use emulator::keyring::{COST, Keyring, Passphrase};
use emulator::site::Site;
use lock_core::link::extract::Scope;
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::time::Date;

const PASSPHRASE: &str = "emulated locks only, no real keyring";

fn main() -> ExitCode {
    let Some(folder) = std::env::args_os().nth(1).map(PathBuf::from) else {
        eprintln!("Name a folder: sample-audits FOLDER");
        return ExitCode::from(2);
    };
    match write(&folder) {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::from(2)
        }
    }
}

fn write(folder: &Path) -> Result<(), String> {
    let told = |why: std::io::Error| format!("{}: {why}", folder.display());
    let text = include_str!("../demo/harbour-bakery.toml");
    let site = Site::parse("harbour-bakery.toml", text).map_err(|why| why.to_string())?;
    let start = Date::from_ymd(2027, 3, 1).ok_or("no such date")?;
    std::fs::create_dir_all(folder.join("extracts")).map_err(told)?;
    let mut keyring = Keyring::default();
    for id in ["till", "store", "vault"] {
        let number = site.lock(id).and_then(|plan| LockNumber::new(plan.number.try_into().ok()?));
        let number = number.ok_or("no such lock")?;
        let pairing = || Pairing::new(number, 1, *b"emulated locks only: no real key");
        let mut extracts = Vec::new();
        fortnight(&site, id, start, &mut |world| {
            let week = extracts.len() as u32 + 1;
            extracts.push(carried_out(world, &pairing(), week, Scope::All, None));
        })
        .map_err(|why| format!("{why:?}"))?;
        for (week, extract) in (1..).zip(extracts) {
            let file = folder.join(format!("extracts/{id}-{week}.extract"));
            std::fs::write(file, extract.ok_or("an extract cannot be made")?).map_err(told)?;
        }
        keyring.add(pairing()).map_err(|_| "one key twice")?;
    }
    let (ring, passphrase) = (folder.join("bakery.keyring"), PASSPHRASE.to_owned());
    std::fs::write(folder.join("passphrase.txt"), format!("{PASSPHRASE}\n")).map_err(told)?;
    std::fs::write(folder.join("harbour-bakery.toml"), text).map_err(told)?;
    keyring.save(&ring, &Passphrase::new(passphrase), COST).map_err(|why| why.to_string())
}
