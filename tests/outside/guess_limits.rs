//! How likely a guess succeeds, in exact fractions.
//!
//! Sources: FIPS 140-2 section 4.3.3 (superseded by FIPS 140-3): one random try
//! succeeds with less than 1 in 1,000,000, the tries of a minute with less than
//! 1 in 100,000. NIST SP 800-63B-4, initial public draft (December 2022, from
//! memory), 5.2.2: at most 100 consecutive failures on one account; 5.2.11:
//! activation secrets of six characters or more, at most *ten* consecutive
//! failures, and a blocklist of ten or more. No conformity with either is claimed: six
//! digits, our default, miss the first figure, and this module says so.
//!
//! A guesser is taken to know which codes are refused, which makes guessing
//! easier, and to choose evenly among the others. What people prefer among them
//! is not modelled.

use core::cmp::Ordering;

use emulator::plan::check::usable_codes;
use emulator::rig::codes::closed_form::judged;
use lock_core::code::one_time::{Digits, LOOK_AHEAD};
use lock_core::code::{Code, Entry, Kept, LockKey, Salt, Verdict, digest, judge, refused};
use lock_core::holder::Number;
use lock_core::keys::Digit;
use lock_core::policy::{NUMBER_LIMIT, Policy};

use crate::guessable::{USABLE_6, USABLE_7, USABLE_8};

/// Wrong codes until the penalty, which is longer than a minute. So no minute has more
/// tries. That this holds is held against the lock in `brute_force.rs`.
fn tries_a_minute() -> u64 {
    assert!(Policy::DEFAULT.penalty.get() > 60);
    Policy::DEFAULT.wrong_codes.into()
}

/// Codes that open for one holder: their own, and its duress variant.
const WITH_DURESS: u64 = 2;

/// A chance, `hits` out of `of`.
#[derive(Clone, Copy)]
struct Chance {
    hits: u64,
    of: u64,
}

const fn chance(hits: u64, of: u64) -> Chance {
    Chance { hits, of }
}

const ONE_TRY: Chance = chance(1, 1_000_000);
const ONE_MINUTE: Chance = chance(1, 100_000);

impl Chance {
    fn compare(self, other: Self) -> Ordering {
        let cross = |a: u64, b: u64| u128::from(a) * u128::from(b);
        cross(self.hits, other.of).cmp(&cross(other.hits, self.of))
    }

    fn less(self, other: Self) -> bool {
        self.compare(other) == Ordering::Less
    }
}

/// With our refused codes, and with the duress variant.
#[test]
fn six_digits_miss_one_in_a_million_and_seven_pass() {
    assert!(!chance(1, USABLE_6).less(ONE_TRY));
    assert!(!chance(WITH_DURESS, USABLE_6).less(ONE_TRY));
    assert!(chance(WITH_DURESS, USABLE_7).less(ONE_TRY));
    assert!(chance(WITH_DURESS, USABLE_8).less(ONE_TRY));
}

/// A minute has four tries: six digits pass even so, with the duress variant and
/// a guesser who knows the refused codes; a fifth try would cost it.
#[test]
fn a_minute_of_tries_stays_below_one_in_a_hundred_thousand() {
    let minute = |tries: u64, usable| chance(tries * WITH_DURESS, usable);
    assert!(minute(tries_a_minute(), USABLE_6).less(ONE_MINUTE));
    assert!(minute(tries_a_minute(), USABLE_7).less(ONE_MINUTE));
    assert!(!minute(tries_a_minute() + 1, USABLE_6).less(ONE_MINUTE));
}

/// What `plan check` calculates with is what `guessable.rs` counts, code by code.
#[test]
fn the_planner_knows_how_many_codes_are_usable() {
    for (digits, usable) in [(6, USABLE_6), (7, USABLE_7), (8, USABLE_8)] {
        assert_eq!(u64::from(usable_codes(digits)), usable);
    }
}

/// The hundred failures that a number is allowed in all: below 1 in 4,000. Ten, as 5.2.11
/// has it, would leave 1 in 44,000, and let anybody shut a holder out within a quarter of
/// an hour; a hundred take fifteen (docs/bad-codes.md).
#[test]
fn a_hundred_failures_find_six_digits_rarely() {
    let all: u64 = NUMBER_LIMIT.into();
    assert!(chance(all * WITH_DURESS, USABLE_6).less(chance(1, 4_000)));
    assert!(chance(10 * WITH_DURESS, USABLE_6).less(chance(1, 44_000)));
    let hours = |hours: u64| judged(&Policy::DEFAULT, 0, hours * 3_600);
    assert!(hours(14) < all && hours(16) >= all);
    assert!(judged(&Policy::DEFAULT, 0, 899) < 10 && judged(&Policy::DEFAULT, 0, 900) >= 10);
}

/// On a courier's number ten counters and their variants are right: up to 20 entries of ten
/// million. Seven digits meet the minute and not the try; six, before, met neither.
#[test]
fn a_couriers_number_meets_the_minute() {
    let right = WITH_DURESS * u64::try_from(LOOK_AHEAD).unwrap();
    let of = |tries: u64, digits: u32| chance(tries * right, 10_u64.pow(digits));
    assert_eq!(u32::from(Digits::COURIER.get()), 7);
    assert!(of(tries_a_minute(), 7).less(ONE_MINUTE) && !of(1, 7).less(ONE_TRY));
    assert!(!of(tries_a_minute(), 6).less(ONE_MINUTE) && !of(1, 6).less(ONE_TRY));
}

/// No code is shorter than six digits, however it comes in, and the ten codes of
/// a blocklist are there many times over.
#[test]
fn activation_secrets_have_six_digits_and_a_blocklist() {
    let mut shorter = String::from("73920");
    assert!(Code::parse(&shorter).is_none());
    let mut entry = Entry::new();
    for digit in [1, 2, 7, 3, 9, 2, 0] {
        entry.push(Digit::new(digit).unwrap()).unwrap();
    }
    assert!(entry.code().is_none());
    shorter.push('4');
    assert!(Code::parse(&shorter).is_some());
    let blocked = (0..1_000_000)
        .filter(|n| refused(&Code::parse(&format!("{n:06}")).unwrap()).is_some())
        .take(10);
    assert_eq!(blocked.count(), 10);
}

/// Every six-digit code is typed against one that is enrolled: exactly one is
/// right and one is duress, which is what doubles the chance. Against a number
/// that nobody holds, none is.
#[test]
fn one_code_in_a_million_is_right_and_one_is_duress() {
    let key = LockKey::from_bytes([0x5a; LockKey::LEN]);
    let salt = Salt::from_bytes([0xc3; Salt::LEN]);
    let number = Number::new(12).unwrap();
    // The last digit is a nine, so that the variant's is a zero.
    let kept = digest(&key, &salt, number, &Code::parse("739209").unwrap());
    let somebodys = Kept { salt: &salt, digest: &kept, enrolled: true };
    let nobodys = Kept { enrolled: false, ..somebodys };
    let (mut right, mut duress, mut unknown) = (vec![], vec![], 0);
    for n in 0..1_000_000 {
        let text = format!("{n:06}");
        let code = Code::parse(&text).unwrap();
        match judge(&key, number, somebodys, &code) {
            Verdict::Right => right.push(text),
            Verdict::Duress => duress.push(text),
            Verdict::Wrong => {}
        }
        unknown += usize::from(judge(&key, number, nobodys, &code) != Verdict::Wrong);
    }
    assert_eq!((right, duress), (vec!["739209".into()], vec!["739200".into()]));
    assert_eq!(unknown, 0);
}
