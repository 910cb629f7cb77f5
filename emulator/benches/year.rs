//! How long a simulated year takes: a lock with 99 holders, 40 openings a day,
//! 365 days, everything but drawing. The goal is 200 ms.
//!
//! Each opening is ten keys, the bolt drawn, three minutes, the bolt thrown,
//! on a freshly commissioned lock with real store, digests and timetables.

use std::fmt::Write as _;

use emulator::site::Site;
use emulator::world::World;
use lock_core::code::{Code, refused};
use lock_core::keys::{Digit, Key};
use lock_core::port::Bolt;
use lock_core::settings::Settings;
use lock_core::time::Utc;

/// 2027-01-01 00:00 UTC.
const START: u64 = 1_798_761_600;
const DAY: u64 = 86_400;
const OPENINGS_A_DAY: u64 = 40;

fn main() {
    divan::main();
}

/// Ninety-nine holders on a timetable that opens all day; their codes differ.
fn full_site() -> Site {
    let mut text = String::from(
        "site = \"Bench\"\nzone = \"Europe/Dublin\"\n[[lock]]\nid = \"till\"\nnumber = 1\n[timetable.A]\n",
    );
    for day in ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] {
        writeln!(text, "{day} = [\"06:00-22:00\"]").expect("text grows");
    }
    for number in 1..=99 {
        writeln!(
            text,
            "[[holder]]\nnumber = {number}\nname = \"Holder {number}\"\nrole = \"keyholder\"\ntimetable = \"A\""
        )
        .expect("text grows");
    }
    text += "[demo.codes]\n";
    for number in 1..=99 {
        writeln!(text, "\"{number:02}\" = \"{}\"", code(number)).expect("text grows");
    }
    Site::parse("bench.toml", &text).map_err(|why| why.to_string()).expect("the site is fine")
}

/// A code for each number, the next one that the lock would not refuse.
fn code(number: u64) -> String {
    (739_204 + number * 1_313..)
        .map(|candidate| candidate.to_string())
        .find(|text| Code::parse(text).is_some_and(|code| refused(&code).is_none()))
        .expect("nine codes in ten are not refused")
}

fn keys(number: u64) -> Vec<Key> {
    let text = format!("{number:02}{}", code(number));
    let digit = |c: char| c.to_digit(10).and_then(|d| Digit::new(u8::try_from(d).ok()?));
    let digits = text.chars().filter_map(digit).map(Key::Digit);
    digits.chain([Key::Ok]).collect()
}

fn commissioned(settings: &Settings) -> World {
    World::commission(settings, Utc::from_secs(u32::try_from(START).expect("in range")))
        .expect("the settings fit")
}

/// Forty openings between 07:00 and 20:00, by a holder in turn.
fn year(world: &mut World) -> u64 {
    let entries: Vec<Vec<Key>> = (1..=99).map(keys).collect();
    let mut opened = 0;
    for day in 0..365 {
        for opening in 0..OPENINGS_A_DAY {
            let at = START + day * DAY + 7 * 3_600 + opening * 1_170;
            world.run_until(at * 1_000);
            let entry =
                &entries[usize::try_from((day * OPENINGS_A_DAY + opening) % 99).expect("small")];
            for key in entry {
                world.press(*key);
            }
            opened += u64::from(world.move_bolt(Bolt::Drawn).is_ok());
            world.run_until((at + 180) * 1_000);
            let _ = world.move_bolt(Bolt::Thrown);
        }
        world.take_trace();
    }
    assert_eq!(opened, 365 * OPENINGS_A_DAY, "every opening succeeds");
    opened
}

#[divan::bench(sample_count = 10)]
fn simulated_year(bencher: divan::Bencher<'_, '_>) {
    let site = full_site();
    let lock = site.lock("till").expect("it is there");
    let settings = site.settings(lock, [7; 32]);
    bencher
        .with_inputs(|| commissioned(&settings))
        .bench_local_values(|mut world| year(&mut world));
}
