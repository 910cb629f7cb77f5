//! The laptop's side as the tests have it on their own: one-time codes by RFC
//! 4226 over the RustCrypto crates, keys derived as `docs/wire-format.md` says,
//! and stand-ins for what the contract leaves open (the digits of a pairing
//! code, which codes are easy to guess). Whoever holds the model against a lock
//! gives it the lock's own laptop side instead.

use hmac::{Hmac, KeyInit, Mac};
use sha1::Sha1;
use sha2::Sha256;

use crate::reference::{Office, Paired};

pub(crate) const LOCK: u16 = 1_001;

pub(crate) struct OwnOffice;

impl Office for OwnOffice {
    fn lock(&self) -> u16 {
        LOCK
    }

    fn one_time_code(&self, generation: u32, number: u8, counter: u32) -> String {
        let key = courier_key(&pairing_key(generation), LOCK, generation, number);
        hotp(&key, u64::from(counter), 7)
    }

    /// Three digits or fewer, steps of one size, or a half said twice.
    fn is_easy(&self, code: &str) -> bool {
        let digits: Vec<u8> = code.bytes().map(|digit| digit - b'0').collect();
        let distinct: std::collections::BTreeSet<u8> = digits.iter().copied().collect();
        let step = |pair: &[u8]| (10 + pair[1] - pair[0]) % 10;
        let even = digits.windows(2).all(|pair| step(pair) == step(&digits[..2]));
        let (front, back) = digits.split_at(digits.len() / 2);
        distinct.len() <= 3 || even || front == back
    }

    fn group_fits(&self, place: usize, group: &str) -> bool {
        let (digits, check) = group.split_at(5);
        check == check_digit(place, digits)
    }

    fn read_pairing_code(&self, groups: &[String]) -> Option<Paired> {
        let lock = groups.first()?[..5].parse().ok()?;
        let generation = groups.get(1)?[..5].parse().ok()?;
        Some(Paired { lock, generation })
    }

    fn pairing_code(&self, lock: u16, generation: u32) -> Vec<String> {
        let key = pairing_key(generation);
        (0..8)
            .map(|place| {
                let digits = match place {
                    0 => format!("{lock:05}"),
                    1 => format!("{generation:05}"),
                    _ => format!("{:05}", u32::from(key[place]) * 311 % 100_000),
                };
                let check = check_digit(place, &digits);
                format!("{digits}{check}")
            })
            .collect()
    }
}

/// A stand-in: the weighted sum of the digits and the place, modulo ten.
fn check_digit(place: usize, digits: &str) -> String {
    let weighted = digits.bytes().zip([3_usize, 1, 7, 3, 1]);
    let sum: usize = weighted.map(|(digit, weight)| usize::from(digit - b'0') * weight).sum();
    ((sum + place) % 10).to_string()
}

/// Some key for each generation; no lock but the model's has it.
fn pairing_key(generation: u32) -> [u8; 32] {
    let mut mac = <Hmac<Sha256> as KeyInit>::new_from_slice(b"checks").expect("any length");
    mac.update(&generation.to_le_bytes());
    mac.finalize().into_bytes().into()
}

/// `docs/wire-format.md`, *Keys*: label, lock, generation, number.
fn courier_key(pairing: &[u8; 32], lock: u16, generation: u32, number: u8) -> [u8; 20] {
    let mut mac = <Hmac<Sha256> as KeyInit>::new_from_slice(pairing).expect("any length");
    mac.update(b"courier codes\x00\x00\x01");
    mac.update(&lock.to_le_bytes());
    mac.update(&generation.to_le_bytes());
    mac.update(&[number]);
    let bytes = mac.finalize().into_bytes();
    bytes[..20].try_into().expect("32 bytes")
}

/// RFC 4226, section 5.3.
fn hotp(key: &[u8], counter: u64, digits: usize) -> String {
    let mut mac = <Hmac<Sha1> as KeyInit>::new_from_slice(key).expect("any length");
    mac.update(&counter.to_be_bytes());
    let hash = mac.finalize().into_bytes();
    let offset = usize::from(hash[19] & 15);
    let taken: [u8; 4] = hash[offset..offset + 4].try_into().expect("four bytes");
    let number = u32::from_be_bytes(taken) & 0x7fff_ffff;
    let number = format!("{number:010}");
    number[10 - digits..].to_owned()
}

/// RFC 4226, appendix D.
#[test]
fn one_time_codes_are_those_of_the_rfc() {
    let codes: Vec<String> = (0..10).map(|at| hotp(b"12345678901234567890", at, 6)).collect();
    let published = [
        "755224", "287082", "359152", "969429", "338314", "254676", "287922", "162583", "399871",
        "520489",
    ];
    assert_eq!(codes, published);
}
