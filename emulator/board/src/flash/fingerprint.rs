//! A number that tells images apart quickly.

/// Bytes that are taken in at once, in four lanes.
const CHUNK: usize = 32;

/// Odd numbers without a pattern: the first digits of the fraction of pi, as
/// ciphers and hashes use them.
const KEYS: [u64; 4] =
    [0x243F_6A88_85A3_08D3, 0x1319_8A2E_0370_7345, 0xA409_3822_299F_31D1, 0x082E_FA98_EC4E_6C89];

/// A fingerprint of `bytes`, begun with `start`. Two images share one by
/// chance once in 2^64 pairs or so; it withstands nobody who wants them to.
pub(super) fn of(start: u64, bytes: &[u8]) -> u64 {
    let mut lanes = KEYS.map(|key| key ^ start);
    let (chunks, rest) = bytes.as_chunks::<CHUNK>();
    for chunk in chunks {
        take(&mut lanes, chunk);
    }
    if !rest.is_empty() {
        let mut last = [0; CHUNK];
        for (to, from) in last.iter_mut().zip(rest) {
            *to = *from;
        }
        take(&mut lanes, &last);
    }
    lanes.into_iter().fold(bytes.len() as u64, fold)
}

fn take(lanes: &mut [u64; 4], chunk: &[u8; CHUNK]) {
    let (words, _) = chunk.as_chunks::<8>();
    for (lane, word) in lanes.iter_mut().zip(words) {
        *lane = fold(*lane, u64::from_le_bytes(*word));
    }
}

/// Takes `word` in: both halves of a product of 64 by 64 bits.
pub(super) const fn fold(lane: u64, word: u64) -> u64 {
    let product = ((lane ^ word) as u128).wrapping_mul(0x9E37_79B9_7F4A_7C15);
    ((product >> 64) as u64) ^ (product as u64).rotate_left(29)
}
