//! Source: RFC 9106, section 5.3, the test vector of Argon2id (from memory), and
//! its second recommended choice, section 4: 3 passes, 4 lanes, 64 MiB (from
//! memory). What a keyring's passphrase becomes is held to them.

use argon2::{Algorithm, Argon2, AssociatedData, ParamsBuilder, Version};
use emulator::keyring::{COST, Cost, stretched};

/// The library that the keyring uses gives the published tag.
#[test]
fn the_published_tag_comes_out() {
    let mut params = ParamsBuilder::new();
    params.m_cost(32).t_cost(3).p_cost(4).output_len(32);
    params.data(AssociatedData::new(&[4; 12]).unwrap());
    let params = params.build().unwrap();
    let argon2 =
        Argon2::new_with_secret(&[3; 8], Algorithm::Argon2id, Version::V0x13, params).unwrap();
    let mut tag = [0; 32];
    argon2.hash_password_into(&[1; 32], &[2; 16], &mut tag).unwrap();
    let hex: String = tag.iter().map(|byte| format!("{byte:02x}")).collect();
    assert_eq!(hex, "0d640df58d78766c08c037a34a8b53c9d01ef0452d75b65eb52520e96b01e659");
}

#[test]
fn a_keyring_costs_what_the_rfc_recommends() {
    assert_eq!(COST, Cost { memory: 64 * 1_024, passes: 3, lanes: 4 });
}

/// Passphrase, salt and each part of the cost bear on the key.
#[test]
fn everything_bears_on_the_key() {
    let cheap = Cost { memory: 64, passes: 1, lanes: 1 };
    let key = |passphrase: &str, salt: u8, cost| {
        *stretched(passphrase.as_bytes(), &[salt; 16], cost).unwrap()
    };
    let keys = [
        key("one", 1, cheap),
        key("two", 1, cheap),
        key("one", 2, cheap),
        key("one", 1, Cost { memory: 128, ..cheap }),
        key("one", 1, Cost { passes: 2, ..cheap }),
        key("one", 1, Cost { lanes: 2, ..cheap }),
    ];
    for (place, one) in keys.iter().enumerate() {
        assert!(keys[place + 1..].iter().all(|other| other != one), "{place}");
    }
}
