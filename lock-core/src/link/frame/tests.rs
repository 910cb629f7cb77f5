//! Frames arrive as they were sent, or not at all.

use std::vec::Vec;

use proptest::collection::vec;
use proptest::prelude::*;

use super::*;

fn framed(payload: &[u8]) -> Vec<u8> {
    let frame: Vec<u8> = encode(payload).unwrap().collect();
    assert!(frame.len() <= FRAME);
    frame
}

fn received(bytes: &[u8]) -> Vec<Result<Vec<u8>, FrameFault>> {
    let mut decoder = Decoder::new();
    let mut all = Vec::new();
    for byte in bytes {
        all.extend(decoder.push(*byte).map(|frame| frame.map(<[u8]>::to_vec)));
    }
    all
}

proptest! {
    /// Whatever came before, a frame behind a zero is received.
    #[test]
    fn a_frame_is_received_after_any_noise(
        mut bytes in vec(any::<u8>(), 0..900),
        payload in vec(prop_oneof![Just(0_u8), any::<u8>()], 0..=PAYLOAD),
    ) {
        let frame = framed(&payload);
        prop_assert_eq!(frame.iter().position(|byte| *byte == 0), Some(frame.len() - 1));
        bytes.push(0);
        bytes.extend_from_slice(&frame);
        prop_assert_eq!(received(&bytes).pop(), Some(Ok(payload)));
    }

    /// No single wrong byte passes for a payload.
    #[test]
    fn a_wrong_byte_is_never_a_payload(
        payload in vec(any::<u8>(), 0..40),
        at in any::<prop::sample::Index>(),
        flips in 1..=u8::MAX,
    ) {
        let mut frame = framed(&payload);
        let at = at.index(frame.len());
        frame[at] ^= flips;
        let all = received(&frame);
        prop_assert!(all.iter().all(Result::is_err), "{:?}", all);
    }

    /// Nothing that was no frame is worse than refused.
    #[test]
    fn any_bytes_are_unstuffed_or_refused(mut bytes in vec(any::<u8>(), 0..700)) {
        let length = bytes.len();
        if let Some(shorter) = unstuff(&mut bytes) {
            prop_assert!(shorter <= length);
        }
    }
}

#[test]
fn what_is_too_long_is_refused() {
    for fill in [0, 7] {
        assert_eq!(received(&framed(&[fill; PAYLOAD])), [Ok(std::vec![fill; PAYLOAD])]);
    }
    assert!(encode(&[7; PAYLOAD + 1]).is_none());
    let endless = [[2; 2_000].as_slice(), &[0], &framed(b"again")].concat();
    assert_eq!(received(&endless), [Err(FrameFault::TooLong), Ok(b"again".to_vec())]);
    assert_eq!(received(&[0, 0, 0]), []);
}
