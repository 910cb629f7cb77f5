//! How many entries are right, through the real machine: of a chosen code, of a courier's
//! number, and of two people's, beside the closed form.
//!
//! A guess of one in half a million is not to be met by chance in a test. So each sample
//! draws a secret at random, types every entry that could be right and a hundred that could
//! not, each at a lock of its own in the same state, and counts what is taken. The chance
//! of a guess is the mean of that count by the number of entries.

use emulator::site::Site;
use emulator::world::World;
use lock_core::code::one_time::{Digits, LOOK_AHEAD, issue};
use lock_core::code::{Code, Salt, digest, refused};
use lock_core::holder::{HolderRow, Number, Opens, Standing};
use lock_core::keys::{Digit, Key};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::role::Role;
use lock_core::settings::Settings;
use lock_core::time::Utc;
use lock_core::timetable::{Follows, TimetableId};

use super::folder::DEMO;

/// Monday, 2027-03-01, 09:00 in Dublin.
const MONDAY: u32 = 1_803_891_600;

fn dice(state: &mut u64, sides: u32) -> u32 {
    *state ^= *state << 13;
    *state ^= *state >> 7;
    *state ^= *state << 17;
    u32::try_from(*state % u64::from(sides)).unwrap()
}

fn settings() -> Settings {
    let site = Site::parse("site", DEMO).map_err(|why| why.to_string()).unwrap();
    site.settings(site.lock("till").unwrap(), [7; 32])
}

fn enrol(settings: &mut Settings, number: u8, role: Role, code: &str) {
    let number = Number::new(number).unwrap();
    let salt = Salt::from_bytes([number.get(); Salt::LEN]);
    let code = Code::parse(code).unwrap();
    settings.holders[number.index()] = Some(HolderRow {
        role,
        opens: Opens::Yes,
        standing: Standing::Active,
        follows: Follows::Timetable(TimetableId::A),
        digest: digest(&settings.key, &salt, number, &code),
        salt,
        counter: 0,
        pending: None,
    });
}

/// Whether a lock with those settings opens for these entries, one after the other.
fn opens(settings: &Settings, entries: &[(u8, &str)]) -> bool {
    let mut world = World::commission(settings, Utc::from_secs(MONDAY)).map_err(|_| "").unwrap();
    for (number, code) in entries {
        for digit in format!("{number:02}{code}").bytes() {
            world.press(Key::Digit(Digit::new(digit - b'0').unwrap()));
        }
        world.press(Key::Ok);
    }
    world.access() == Some("released")
}

fn usable(state: &mut u64, digits: usize) -> String {
    loop {
        let code = format!("{:0digits$}", dice(state, 10_u32.pow(u32::try_from(digits).unwrap())));
        if refused(&Code::parse(&code).unwrap()).is_none() {
            return code;
        }
    }
}

fn raised(code: &str) -> String {
    let (head, last) = code.split_at(code.len() - 1);
    format!("{head}{}", (last.parse::<u8>().unwrap() + 1) % 10)
}

/// Two entries of 889,354: the code and its variant, of all that differ from it in one
/// digit or are typed at random.
#[test]
fn two_entries_open_for_a_chosen_code() {
    let mut state = 0x9E37_79B9_7F4A_7C15;
    for _ in 0..3 {
        let code = usable(&mut state, 6);
        let mut settings = settings();
        enrol(&mut settings, 40, Role::Keyholder, &code);
        let mut entries: Vec<String> = (0..100).map(|_| usable(&mut state, 6)).collect();
        for place in 0..6 {
            for digit in 0..10 {
                let mut near = code.clone().into_bytes();
                near[place] = b'0' + digit;
                entries.push(String::from_utf8(near).unwrap());
            }
        }
        entries.sort();
        entries.dedup();
        let taken: Vec<&String> =
            entries.iter().filter(|entry| opens(&settings, &[(40, entry)])).collect();
        let mut expected = vec![code.clone(), raised(&code)];
        expected.sort();
        assert_eq!(taken.len(), 2, "{} of {}", taken.len(), entries.len());
        assert!(taken.into_iter().eq(&expected));
    }
}

/// On a courier's number: of twenty counters the ten that the lock looks at, without those
/// that both sides leave out, each with its variant. On average 20 · 0.9344 entries of ten
/// million; never more than twenty.
#[test]
fn ten_counters_and_their_variants_open_for_a_courier() {
    let mut state = 0x1234_5678_9ABC_DEF1;
    let (samples, mut sum, mut most) = (20_u32, 0, 0);
    for _ in 0..samples {
        let mut key = [0; Pairing::LEN];
        key.iter_mut().for_each(|byte| *byte = u8::try_from(dice(&mut state, 256)).unwrap());
        let pairing = || Pairing::new(LockNumber::new(1001).unwrap(), 1, key);
        let mut settings = settings();
        settings.pairing = Some(pairing());
        enrol(&mut settings, 40, Role::Courier, "73920415");
        let courier = pairing().courier(40);
        let code = |counter| {
            let digits = issue(&courier, counter, Digits::COURIER);
            digits.iter().map(|digit| char::from(b'0' + digit)).collect::<String>()
        };
        let mut entries: Vec<String> =
            (0..20).flat_map(|counter| [code(counter), raised(&code(counter))]).collect();
        entries.extend((0..20).map(|_| usable(&mut state, 7)));
        entries.sort();
        entries.dedup();
        let taken = entries.iter().filter(|entry| opens(&settings, &[(40, entry)])).count();
        let ahead = 0..u32::try_from(LOOK_AHEAD).unwrap();
        let used = ahead.filter(|c| refused(&Code::parse(&code(*c)).unwrap()).is_none()).count();
        assert_eq!(taken, 2 * used);
        most = most.max(taken);
        sum += u32::try_from(taken).unwrap();
    }
    let mean = f64::from(sum) / f64::from(samples);
    // 2 · 10 · 9,343,662 / 10^7; one counter more or less is 1.57 entries, and four standard
    // errors of twenty samples are 1.41.
    let expected = 20.0 * 0.934_366_2;
    assert!((mean - expected).abs() < 1.41 && most <= 20, "{mean} of {expected}, {most} at most");
    println!("{mean:.2} entries of 10,000,000 on average, {most} at most");
}

/// With two people both must be right: of the pairs of entries four open, in whichever
/// order; one right code alone opens nothing.
#[test]
fn four_pairs_of_entries_open_for_two_people() {
    let mut state = 0xDEAD_BEEF_1234_5677;
    let mut settings = settings();
    settings.policy.control = lock_core::policy::Control::Dual;
    for _ in 0..1 {
        let (one, two) = (usable(&mut state, 6), usable(&mut state, 6));
        enrol(&mut settings, 40, Role::Keyholder, &one);
        enrol(&mut settings, 41, Role::Keyholder, &two);
        let near = |code: &str, state: &mut u64| {
            let mut near: Vec<String> = (0..10).map(|n| format!("{}{n}", &code[..5])).collect();
            near.push(usable(state, 6));
            near
        };
        let (ones, twos) = (near(&one, &mut state), near(&two, &mut state));
        let mut taken = 0;
        for first in &ones {
            assert!(!opens(&settings, &[(40, first)]));
            for second in &twos {
                let right = [&one, &raised(&one)].contains(&first)
                    && [&two, &raised(&two)].contains(&second);
                let seen = opens(&settings, &[(40, first), (41, second)]);
                assert_eq!(seen, right);
                assert_eq!(opens(&settings, &[(41, second), (40, first)]), right);
                taken += u32::from(seen);
            }
        }
        assert_eq!(taken, 4);
    }
}
