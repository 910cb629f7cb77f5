//! One-time codes against published ones: RFC 4226 appendix D, and RFC 6238
//! appendix B, whose time steps are HOTP counters (SHA-1, 8 digits, steps of 30 s);
//! and the look-ahead against a search that compares codes as texts.

use lock_core::code::one_time::{self, Digits, LOOK_AHEAD};
use lock_core::code::{Code, CourierKey, Verdict, duress_variant, refused};
use proptest::prelude::*;

/// The key of both RFCs: the digits 1 to 0, twice.
const KEY: &[u8; CourierKey::LEN] = b"12345678901234567890";

fn digits(n: u8) -> Digits {
    Digits::new(n).unwrap()
}

fn parsed(text: &str) -> Code {
    Code::parse(text).unwrap()
}

#[test]
fn rfc_4226_appendix_d() {
    let key = CourierKey::from_bytes(*KEY);
    let values = [
        "755224", "287082", "359152", "969429", "338314", "254676", "287922", "162583", "399871",
        "520489",
    ];
    for (counter, value) in (0..).zip(values) {
        assert!(one_time::code(&key, counter, digits(6)) == parsed(value), "counter {counter}");
    }
}

#[test]
fn rfc_6238_appendix_b_of_eight_digits() {
    let key = CourierKey::from_bytes(*KEY);
    let rows: [(u64, &str); 6] = [
        (59, "94287082"),
        (1_111_111_109, "07081804"),
        (1_111_111_111, "14050471"),
        (1_234_567_890, "89005924"),
        (2_000_000_000, "69279037"),
        (20_000_000_000, "65353130"),
    ];
    for (time, value) in rows {
        let counter = u32::try_from(time / 30).unwrap();
        assert!(one_time::code(&key, counter, digits(8)) == parsed(value), "T = {time}");
    }
}

#[test]
fn codes_have_as_many_digits_as_other_codes() {
    for n in 0..=u8::MAX {
        assert_eq!(Digits::new(n).is_some(), (6..=8).contains(&n));
    }
}

/// The counters that are used, by the rule as `one_time.rs` states it.
fn used(key: &CourierKey, counter: u32, n: Digits) -> bool {
    let code = one_time::code(key, counter, n);
    let both = [duress_variant(&code), code];
    let before = (1..u32::try_from(LOOK_AHEAD).unwrap()).filter_map(|back| {
        let code = one_time::code(key, counter.checked_sub(back)?, n);
        Some([duress_variant(&code), code])
    });
    let clashes = before.flatten().any(|other| both.contains(&other));
    counter < u32::MAX && refused(&both[1]).is_none() && !clashes
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Whatever the key: the counters that both sides use are those of the rule.
    #[test]
    fn both_sides_leave_out_the_same_counters(
        bytes in any::<[u8; CourierKey::LEN]>(),
        counter in prop_oneof![0..40_u32, any::<u32>(), u32::MAX - 20..=u32::MAX],
        n in 6..=8_u8,
    ) {
        let (key, n) = (CourierKey::from_bytes(bytes), digits(n));
        let here = one_time::next_usable(&key, counter, n);
        let expected = (counter..counter.saturating_add(100)).find(|c| used(&key, *c, n));
        prop_assert_eq!(here, expected);
    }

    /// Each code within reach is right, its variant duress, both lead behind it, and
    /// what is left out is neither, unless another counter's.
    #[test]
    fn a_code_within_reach_is_taken_once(
        bytes in any::<[u8; CourierKey::LEN]>(),
        counter in prop_oneof![0..40_u32, any::<u32>(), u32::MAX - 20..=u32::MAX],
        n in 6..=8_u8,
    ) {
        let (key, n) = (CourierKey::from_bytes(bytes), digits(n));
        for ahead in 0..u32::try_from(LOOK_AHEAD).unwrap() {
            let Some(here) = counter.checked_add(ahead) else { break };
            let code = one_time::code(&key, here, n);
            let variant = duress_variant(&code);
            if used(&key, here, n) {
                prop_assert_eq!(one_time::judge(&key, counter, n, &code), (Verdict::Right, here + 1));
                prop_assert_eq!(
                    one_time::judge(&key, counter, n, &variant),
                    (Verdict::Duress, here + 1)
                );
                // Neither a second time.
                prop_assert_eq!(one_time::judge(&key, here + 1, n, &code).0, Verdict::Wrong);
                prop_assert_eq!(one_time::judge(&key, here + 1, n, &variant).0, Verdict::Wrong);
            } else if refused(&code).is_some() {
                prop_assert_eq!(one_time::judge(&key, counter, n, &code), (Verdict::Wrong, counter));
            }
        }
        if let Some(beyond) = counter.checked_add(u32::try_from(LOOK_AHEAD).unwrap()) {
            let code = one_time::code(&key, beyond, n);
            if used(&key, beyond, n) {
                prop_assert_eq!(one_time::judge(&key, counter, n, &code), (Verdict::Wrong, counter));
            }
        }
    }
}

/// With six digits the last six of a code of eight are a code too, and not to be
/// taken where eight are asked for.
#[test]
fn a_code_of_another_length_is_wrong() {
    let key = CourierKey::from_bytes(*KEY);
    let mut tried = 0;
    for counter in 0..200 {
        for (asked, typed) in [(6, 7), (6, 8), (7, 6), (7, 8), (8, 6), (8, 7)] {
            let code = one_time::code(&key, counter, digits(typed));
            let judged = one_time::judge(&key, counter, digits(asked), &code);
            assert_eq!(judged, (Verdict::Wrong, counter));
            tried += 1;
        }
    }
    assert_eq!(tried, 1_200);
}

/// Six digits clash often enough that the rule is needed. Of a million counters of one key
/// about 27 have a code or variant of one of the nine before (three ways of 10^6 for each),
/// and so many are left out though they are not easy to guess.
#[test]
fn clashes_happen() {
    let key = CourierKey::from_bytes(*KEY);
    let value = |counter| {
        let digits = one_time::issue(&key, counter, digits(6));
        digits.iter().fold(0_u32, |value, digit| value * 10 + u32::from(*digit))
    };
    let variant = |value: u32| value - value % 10 + (value % 10 + 1) % 10;
    let mut before = std::collections::VecDeque::new();
    let (mut clashing, mut easy) = (0_u32, 0_u32);
    for counter in 0..1_000_000 {
        let own = value(counter);
        let meets = |other: &u32| own == *other || variant(own) == *other || own == variant(*other);
        let clashes = before.iter().any(meets);
        easy += u32::from(refused(&one_time::code(&key, counter, digits(6))).is_some());
        if clashes {
            clashing += 1;
            assert!(!used(&key, counter, digits(6)), "counter {counter} is used");
        }
        before.push_back(own);
        if before.len() == LOOK_AHEAD {
            before.pop_front();
        }
    }
    // Four standard deviations of a count of 27; and 11.06 % of codes are easy to guess.
    assert!((7..=47).contains(&clashing), "{clashing} clash");
    assert!((109_000..=112_500).contains(&easy), "{easy} are easy to guess");
}
