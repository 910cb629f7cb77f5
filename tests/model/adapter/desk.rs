//! What the laptop knows, as the lock's own library has it: keys by generation,
//! one-time codes, pairing codes, and which codes are easy to guess.

use lock_core::code::one_time::{self, Digits};
use lock_core::code::{Code, Refused, refused};
use lock_core::pairing::{LockNumber, Pairing};
use lock_core::pairing_code::{PairingCode, SECRET_DIGITS};

use crate::office::LOCK;
use crate::reference::{Office, Paired};

pub(super) struct LocksOffice;

impl Office for LocksOffice {
    fn lock(&self) -> u16 {
        LOCK
    }

    fn one_time_code(&self, generation: u32, number: u8, counter: u32) -> String {
        let key = pairing(LOCK, generation).courier(number);
        let digits = one_time::issue(&key, counter, Digits::COURIER);
        digits.iter().map(|digit| char::from(b'0' + digit)).collect()
    }

    fn is_easy(&self, code: &str) -> bool {
        let code = Code::parse(code).expect("six to eight digits");
        matches!(refused(&code), Some(Refused::Itself(_)))
    }

    fn group_fits(&self, place: usize, group: &str) -> bool {
        PairingCode::default().take(place, &values(group)).is_ok()
    }

    fn read_pairing_code(&self, groups: &[String]) -> Option<Paired> {
        let mut code = PairingCode::default();
        for (place, group) in groups.iter().enumerate() {
            code.take(place, &values(group)).ok()?;
        }
        let pairing = code.pairing().ok()?;
        Some(Paired { lock: pairing.lock().get(), generation: pairing.generation() })
    }

    fn pairing_code(&self, lock: u16, generation: u32) -> Vec<String> {
        let told = |group: [u8; 6]| group.iter().map(|digit| char::from(b'0' + digit)).collect();
        code(lock, generation).groups().map(told).collect()
    }
}

/// The pairing key of that generation: what its pairing code makes.
pub(super) fn pairing(lock: u16, generation: u32) -> Pairing {
    if generation == 0 {
        // No code names it: a file that nobody could have sealed.
        return Pairing::new(LockNumber::new(lock).expect("from 1"), 0, [0; Pairing::LEN]);
    }
    code(lock, generation).pairing().map_err(|_| "no key").expect("a lock and a generation")
}

/// Some secret for each generation; any would do.
fn code(lock: u16, generation: u32) -> PairingCode {
    let mut secret = [0; SECRET_DIGITS];
    let mut state = generation;
    for digit in &mut secret {
        // A linear congruential step, as good as any other.
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        *digit = u8::try_from(state >> 16 & 0xff).expect("a byte") % 10;
    }
    let lock = LockNumber::new(lock).expect("from 1");
    PairingCode::new(lock, generation, &secret).expect("a generation that can be typed")
}

fn values(digits: &str) -> Vec<u8> {
    digits.bytes().map(|digit| digit - b'0').collect()
}
