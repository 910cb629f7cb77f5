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

/// Our own function, with our own arguments (version 0x13, 16 bytes out, no secret and no
/// associated data): what the reference implementation in C makes of them, by PyPI's
/// argon2-cffi 25.1.0. That one gives `09316115…91c3cf7` for the row "password, somesalt, 2
/// passes, 64 MiB, 1 lane, 32 bytes" of its authors' own test (from memory).
#[test]
fn a_passphrase_becomes_what_the_reference_makes_of_it() {
    let counted: [u8; 16] = std::array::from_fn(|n| u8::try_from(n).unwrap());
    let rows = [
        ("password", *b"somesaltsomesalt", COST, "739ca00980b99a534895feb13df22e0e"),
        ("Ziegel Ofen drei Möwen Kai", counted, COST, "98c54b7c2270eecd137d25f829e89a02"),
        (
            "password",
            *b"somesaltsomesalt",
            Cost { memory: 256, passes: 2, lanes: 1 },
            "8d282f33abfd1bb60a4d8a0c0a9e32bb",
        ),
    ];
    for (passphrase, salt, cost, expected) in rows {
        let key = stretched(passphrase.as_bytes(), &salt, cost).unwrap();
        let hex: String = key.iter().map(|byte| format!("{byte:02x}")).collect();
        assert_eq!(hex, expected, "{passphrase}");
    }
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
