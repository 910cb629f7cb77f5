//! What an office makes for a lock: pairing keys, files, couriers' codes. All of it ours.

use std::format;
use std::string::String;

use crate::code::one_time::{self, Digits};
use crate::link::Version;
use crate::link::timetable_file::{Sealer, TimetableFile};
use crate::pairing::{LockNumber, Pairing};
use crate::pairing_code::{PairingCode, SECRET_DIGITS};
use crate::time::Minute;
use crate::timetable::{Calendar, Window};

fn pairing_code(generation: u32) -> PairingCode {
    let lock = LockNumber::new(1_001).unwrap();
    PairingCode::new(lock, generation, &[4; SECRET_DIGITS]).unwrap()
}

/// The pairing key of that generation.
pub(super) fn pairing(generation: u32) -> Pairing {
    pairing_code(generation).pairing().unwrap()
}

/// The keys that type in the pairing key of that generation.
pub(super) fn groups(generation: u32) -> String {
    let code = pairing_code(generation);
    code.groups().map(|group| format!("{} ok ", digits(&group))).collect()
}

/// The keys by which the courier with that number gives the code of that counter.
pub(super) fn one_time(number: u8, counter: u32) -> String {
    let key = pairing(1).courier(number);
    format!("{number} {} ok", digits(&one_time::issue(&key, counter, Digits::COURIER)))
}

fn digits(values: &[u8]) -> String {
    values.iter().map(|value| char::from(b'0' + value)).collect()
}

/// A file under the first pairing key, by what it opens from Monday to Friday: "8-17 -"
/// is timetable A from 08:00 to 17:00 and timetable B never.
pub(super) fn file(version: u32, weeks: &str) -> Sealer {
    let mut calendar = Calendar::EMPTY;
    for (week, hours) in calendar.weeks.iter_mut().zip(weeks.split(' ')) {
        let Some((from, to)) = hours.split_once('-').filter(|hours| *hours != ("", "")) else {
            continue;
        };
        let hour = |text: &str| Minute::from_hm(text.parse().unwrap(), 0).unwrap();
        for day in week.iter_mut().take(5) {
            *day = [Window::new(hour(from), hour(to)).unwrap()].into_iter().collect();
        }
    }
    let zone = heapless::String::try_from("UTC0").unwrap();
    Sealer::new(&pairing(1), Version(version), &TimetableFile { zone, calendar }).unwrap()
}
