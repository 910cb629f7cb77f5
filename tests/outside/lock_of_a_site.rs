//! Not a source: a lock of a small site, for the checks that need one.

use emulator::site::Site;
use emulator::world::World;
use lock_core::audit::{Record, Seq};
use lock_core::keys::{Digit, Key};
use lock_core::screen::Screen;
use lock_core::time::Utc;

/// Tomasz, a keyholder on timetable A, and Maeve, a warden on none.
const HOLDERS: &str = "
[[holder]]
number = 1
name = \"Maeve\"
role = \"warden\"
opens = true
timetable = \"always\"
[[holder]]
number = 12
name = \"Tomasz\"
role = \"keyholder\"
timetable = \"A\"
[demo.codes]
\"01\" = \"480317\"
\"12\" = \"739204\"
";

pub(crate) const TOMASZ: &str = "12739204";
pub(crate) const MAEVE: &str = "01480317";

/// A lock in Dublin with that policy and timetable A, powered up at `start`.
pub(crate) fn lock(policy: &str, timetable: &str, start: u32) -> World {
    let text = format!(
        "site = \"Check\"\nzone = \"Europe/Dublin\"\n[policy]\n{policy}\n\
         [[lock]]\nid = \"till\"\nnumber = 1\n[timetable.A]\n{timetable}\n{HOLDERS}"
    );
    let site = Site::parse("check.toml", &text).map_err(|why| why.to_string()).unwrap();
    let settings = site.settings(site.lock("till").unwrap(), [9; 32]);
    World::commission(&settings, Utc::from_secs(start)).map_err(|_| "format").unwrap()
}

/// Types digits, then *OK*.
pub(crate) fn enter(world: &mut World, digits: &str) {
    for digit in digits.bytes().map(|byte| Digit::new(byte - b'0').unwrap()) {
        world.press(Key::Digit(digit));
    }
    world.press(Key::Ok);
}

pub(crate) fn wait(world: &mut World, seconds: u64) {
    world.run_until(world.now() + seconds * 1_000);
}

/// Every record that the lock lists.
pub(crate) fn audit(world: &mut World) -> Vec<(Seq, Record)> {
    world.memory().unwrap().records(Seq(0)).filter_map(|entry| entry.record()).collect()
}

pub(crate) fn screen(world: &World) -> Screen {
    world.screen().unwrap()
}
