//! Writes the memory stick of the drills anew, `emulator/demo/stick`, from the site
//! files beside it: `demo-stick`. A test holds that what lies there is what this
//! writes.
//!
//! The files are sealed under the key of emulated locks, which is of no use anywhere
//! else.

use std::path::Path;
use std::process::ExitCode;

use emulator::carry::sealed;
use emulator::drill::demo_pairing;
use emulator::site::Site;
use lock_core::link::Version;
use lock_core::pairing::LockNumber;

/// Name, lock, version, and the opening times.
const FILES: [(&str, u16, u32, &str); 3] = [
    ("till-last-winter.timetables", 1001, 1, include_str!("../demo/files/shorter-mondays.toml")),
    ("till.timetables", 1001, 2, include_str!("../demo/files/longer-mondays.toml")),
    ("vault.timetables", 1003, 7, include_str!("../demo/files/longer-mondays.toml")),
];

fn main() -> ExitCode {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/stick");
    match write(&folder) {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            eprintln!("{why}");
            ExitCode::from(2)
        }
    }
}

fn write(folder: &Path) -> Result<(), String> {
    std::fs::create_dir_all(folder).map_err(|why| format!("{}: {why}", folder.display()))?;
    for (name, bytes) in files()? {
        std::fs::write(folder.join(name), bytes).map_err(|why| format!("{name}: {why}"))?;
    }
    Ok(())
}

/// What is to lie there, by name.
fn files() -> Result<Vec<(&'static str, Vec<u8>)>, String> {
    let each = FILES.iter().map(|(name, lock, version, text)| {
        let site = Site::parse(name, text).map_err(|why| why.to_string())?;
        let lock = LockNumber::new(*lock).ok_or("no such lock")?;
        let (file, _) = sealed(&site, &demo_pairing(lock), Version(*version))
            .map_err(|why| format!("{name}: {why:?}"))?;
        Ok((*name, file.bytes()))
    });
    each.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_there_is_what_is_written() {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo/stick");
        let there = std::fs::read_dir(&folder).unwrap().count();
        let files = files().unwrap();
        assert_eq!(there, files.len());
        for (name, bytes) in files {
            let found = std::fs::read(folder.join(name)).unwrap();
            assert!(found == bytes, "{name}: run `cargo run -p emulator --example demo-stick`");
        }
    }
}
