//! `lock_core::code`

use core::hint::black_box;

use lock_core::code::{
    Code, Digest, Entry, Kept, LockKey, Salt, Verdict, digest, duress_variant, guessable, judge,
    mac, refused,
};
use lock_core::holder::Number;
use lock_core::keys::Digit;

use crate::outside;

fn code() -> Option<Code> {
    let digits = outside::bytes::<10>().map(Digit::new);
    let mut known = [Digit::new(0)?; 10];
    for (to, from) in known.iter_mut().zip(digits) {
        *to = from?;
    }
    Code::from_digits(known.get(..usize::from(outside::byte()))?)
}

#[inline(never)]
pub fn entries() {
    let mut entry = black_box(Entry::default());
    for _ in 0..outside::byte() {
        match Digit::new(outside::byte()) {
            Some(digit) => outside::put(entry.push(digit).is_ok()),
            None => entry.clear(),
        }
        outside::put(entry.is_empty());
        outside::put_all(&entry.len().to_le_bytes());
        outside::put(entry.number().map_or(0, Number::get));
        if let (Some(code), Some(alone)) = (entry.code(), entry.code_alone()) {
            outside::put(code == alone);
        }
    }
}

#[inline(never)]
pub fn choices() {
    let text: [u8; 16] = outside::bytes();
    let parsed = core::str::from_utf8(&text).ok().and_then(Code::parse);
    for code in [parsed, code()].into_iter().flatten() {
        outside::put_all(&code.len().to_le_bytes());
        if let Some(why) = guessable(&code) {
            outside::print(why);
        }
        if let Some(why) = refused(&duress_variant(&code)) {
            outside::print(why);
        }
    }
}

#[inline(never)]
pub fn judgements() {
    let key = LockKey::from_bytes(outside::bytes());
    let salt = Salt::from_bytes(outside::bytes());
    let kept = Digest::from_bytes(outside::bytes());
    let (Some(number), Some(code)) = (Number::new(outside::byte()), code()) else { return };
    let by = Kept { salt: &salt, digest: &kept, enrolled: outside::byte() != 0 };
    match judge(&key, number, by, &code) {
        Verdict::Right => outside::put(b'r'),
        Verdict::Duress => outside::put(b'd'),
        Verdict::Wrong => outside::put(b'w'),
    }
    let fresh = digest(&key, &salt, number, &code);
    outside::put(fresh == kept);
    outside::put_all(fresh.as_bytes());
    outside::put_all(salt.as_bytes());

    let long: [u8; 100] = outside::bytes();
    let long = long.get(..usize::from(outside::byte())).unwrap_or_default();
    outside::put_all(&mac(long, &[key.as_bytes(), long]));
}
