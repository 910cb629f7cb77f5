//! What a secret type must not do: show itself, be copied, be left behind.

use std::borrow::ToOwned;
use std::format;
use std::vec::Vec;

use super::*;

/// That they cannot be shown is `silent!`'s to see to; a copy would not be wiped.
#[test]
fn secrets_cannot_be_copied() {
    trait Copies<Answer> {
        fn ask() {}
    }
    impl<T> Copies<()> for T {}
    struct Has;
    impl<T: Clone> Copies<Has> for T {}
    <Code as Copies<_>>::ask();
    <Entry as Copies<_>>::ask();
    <LockKey as Copies<_>>::ask();
}

#[test]
fn secrets_are_wiped() {
    fn on_drop<T: zeroize::ZeroizeOnDrop>() {}
    on_drop::<Code>();
    on_drop::<Entry>();
    on_drop::<LockKey>();

    let mut code = Code::parse("98765432").unwrap();
    code.zeroize();
    assert_eq!((code.digits, code.len), ([0; MAX_DIGITS], 0));
    let mut key = LockKey::from_bytes([9; LockKey::LEN]);
    key.zeroize();
    assert_eq!(key.as_bytes(), &[0; LockKey::LEN]);
}

/// Every length from none to ten, digits or not.
#[test]
fn only_six_to_eight_digits_make_a_code() {
    let text = "0918273645";
    let digits: Vec<Digit> =
        text.bytes().map(|b| Digit::new(b.wrapping_sub(b'0')).unwrap()).collect();
    for len in 0..=text.len() {
        let good = (MIN_DIGITS..=MAX_DIGITS).contains(&len);
        let parsed = Code::parse(&text[..len]);
        let made = Code::from_digits(&digits[..len]);
        assert_eq!((parsed.is_some(), made.is_some()), (good, good));
        if let (Some(parsed), Some(made)) = (parsed, made) {
            assert!(parsed == made && parsed.len() == len);
            assert_eq!(parsed.values(), &digits.iter().map(|d| d.get()).collect::<Vec<_>>()[..len]);
        }
    }
    // Between '/' and ':' lie the ASCII digits; '٣' is a digit, but not ASCII.
    for bad in ["12345/", "12345:", "12345 ", "-12345", "1234٣", "12345٣"] {
        assert!(Code::parse(bad).is_none(), "{bad}");
    }
}

/// Codes differ in any digit and in length, also where the padding is equal.
#[test]
fn codes_are_equal_only_to_themselves() {
    let base = "102030";
    for place in 0..base.len() {
        for digit in '0'..='9' {
            let mut other = base.to_owned();
            other.replace_range(place..=place, &format!("{digit}"));
            let equal = Code::parse(base) == Code::parse(&other);
            assert_eq!(equal, base == other);
        }
    }
    assert!(Code::parse("102030") != Code::parse("1020300"));
}

/// Right near or far, under duress, wrong, used up, of another length, at the first
/// counter or the last: each costs as many MACs (R5).
#[test]
fn every_one_time_code_costs_the_same() {
    use one_time::{Digits, LOOK_AHEAD, MACS, code, judge, next_usable};

    let key = CourierKey::from_bytes([0x5A; CourierKey::LEN]);
    let digits = Digits::new(6).unwrap();
    let mut verdicts = Vec::new();
    let mut cost = |counter: u32, typed: &Code| {
        let before = MACS.get();
        verdicts.push(judge(&key, counter, digits, typed).0);
        MACS.get() - before
    };
    let ahead = u32::try_from(LOOK_AHEAD).unwrap();
    let expected = cost(1_000, &Code::parse("739204").unwrap());
    assert!(expected > ahead);
    for counter in [0, 1, 1_000, u32::MAX / 2, u32::MAX - 1, u32::MAX] {
        for place in counter.saturating_sub(2)..=counter.saturating_add(ahead) {
            let typed = code(&key, place, digits);
            assert_eq!(cost(counter, &typed), expected, "the code of {place} at {counter}");
            assert_eq!(cost(counter, &duress_variant(&typed)), expected);
        }
        for typed in ["482913", "48291300"] {
            assert_eq!(cost(counter, &Code::parse(typed).unwrap()), expected);
        }
    }
    for verdict in [Verdict::Right, Verdict::Duress, Verdict::Wrong] {
        assert!(verdicts.contains(&verdict), "every verdict was tried");
    }
    assert!(next_usable(&key, 0, digits).is_some());
}
