//! One-time codes of couriers: HOTP (RFC 4226), with a duress variant.
//!
//! Lock and laptop share a key for each courier and count codes. The laptop hands
//! out the code of a counter; the lock takes one of the next [`LOOK_AHEAD`]
//! counters and then goes on behind it, so that a code is good once and a code
//! that was never used holds nobody up.
//!
//! # Which counters are used
//! Both sides leave out a counter whose code is [`refused`] as easy to guess, or
//! whose code or duress variant is the code or variant of one of the
//! [`LOOK_AHEAD`] - 1 counters before it, used or not. That depends on the key
//! and the counter alone, so both sides leave out the same ones, and among the
//! counters that the lock considers no two can be meant by one entry: a plain
//! code is never taken for the duress variant of another, nor a code that was
//! used for one that was not.
//!
//! # Equal work
//! Whatever is typed, [`judge`] computes the same HOTP values and compares the
//! entry with each of them and each variant, in constant time.

use hmac::{Hmac, KeyInit, Mac};
use sha1::Sha1;
use subtle::{Choice, ConditionallySelectable, ConstantTimeEq};
use zeroize::{Zeroize, Zeroizing};

use super::{Code, MAX_DIGITS, MIN_DIGITS, Verdict, refused};

/// How many counters from its own on the lock considers. RFC 4226 section 7.4
/// asks for a look-ahead as small as use allows: ten codes handed out and not
/// used (our choice).
pub const LOOK_AHEAD: usize = 10;

/// The counters before one that its code must differ from.
const BEFORE: usize = LOOK_AHEAD - 1;

/// All the counters whose codes a judgement looks at.
const SEEN: usize = BEFORE + LOOK_AHEAD;

/// Most counters in a row that [`next_usable`] looks at. About one in eight is
/// left out; so many in a row are no accident.
const PATIENCE: u8 = 200;

/// Bytes of a SHA-1 block.
const BLOCK: usize = 64;

/// The secret that the codes of one courier come from. Wiped when dropped.
#[derive(Zeroize)]
pub struct CourierKey([u8; Self::LEN]);

silent!(CourierKey);
wiped!(CourierKey);

impl CourierKey {
    /// Bytes of a key: RFC 4226 section 4, R6, recommends 160 bits.
    pub const LEN: usize = 20;

    /// The key of these bytes.
    #[must_use]
    pub const fn from_bytes(bytes: [u8; Self::LEN]) -> Self {
        Self(bytes)
    }
}

/// How many digits one-time codes have.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Digits(u8);

impl Digits {
    /// Digits of couriers' codes, whatever the policy says of others. Ours: with six, the
    /// codes and variants of [`LOOK_AHEAD`] counters are up to 20 of a million.
    pub const COURIER: Self = Self(7);

    /// `n` digits, or `None` unless that is as many as a code can have.
    #[must_use]
    pub fn new(n: u8) -> Option<Self> {
        (MIN_DIGITS..=MAX_DIGITS).contains(&usize::from(n)).then_some(Self(n))
    }

    /// How many.
    #[must_use]
    pub const fn get(self) -> u8 {
        self.0
    }

    /// HOTP's step 3: a 31-bit number modulo a power of ten.
    const fn cut(self, number: u32) -> u32 {
        match self.0 {
            6 => number % 1_000_000,
            7 => number % 10_000_000,
            _ => number % 100_000_000,
        }
    }

    fn code(self, mut value: u32) -> Code {
        let mut code = Code { digits: [0; MAX_DIGITS], len: self.0 };
        for slot in code.digits.iter_mut().take(usize::from(self.0)).rev() {
            *slot = u8::try_from(value % 10).unwrap_or_default();
            value /= 10;
        }
        code
    }
}

/// The code of a counter, whether it is used or not; see [`next_usable`].
#[must_use]
pub fn code(key: &CourierKey, counter: u32, digits: Digits) -> Code {
    digits.code(digits.cut(number(&keyed(key), counter)))
}

/// The digit values of a code, first digit first: for the laptop, which hands it
/// to the courier. A lock never asks for them.
#[must_use]
pub fn issue(key: &CourierKey, counter: u32, digits: Digits) -> heapless::Vec<u8, MAX_DIGITS> {
    code(key, counter, digits).values().iter().copied().collect()
}

/// The first counter from `counter` on that is used, or `None` if there is none
/// near.
#[must_use]
pub fn next_usable(key: &CourierKey, counter: u32, digits: Digits) -> Option<u32> {
    (0..PATIENCE).find_map(|step| {
        let here = counter.checked_add(u32::from(step))?;
        Window::around(key, here, digits).usable(0).then_some(here)
    })
}

/// Judges a typed code by the courier's counter: what it is, and the counter from
/// then on. A wrong code changes nothing; neither does the caller's counter change
/// unless the opening and it become durable together.
///
/// Whether duress is switched on is the caller's business, as for other codes;
/// counting the guess before it is judged too (R2).
#[must_use]
pub fn judge(key: &CourierKey, counter: u32, digits: Digits, typed: &Code) -> (Verdict, u32) {
    let window = Window::around(key, counter, digits);
    let entry = Zeroizing::new(value(typed));
    let whole = u8::try_from(typed.len()).unwrap_or_default().ct_eq(&digits.0);
    let (mut right, mut duress) = (Choice::from(0), Choice::from(0));
    let mut next = counter;
    for ahead in 0..LOOK_AHEAD {
        let plain = window.value(ahead);
        let usable = Choice::from(u8::from(window.usable(ahead))) & whole;
        let is_right = plain.ct_eq(&entry) & usable;
        let is_duress = variant(plain).ct_eq(&entry) & usable;
        let behind = u32::try_from(ahead).unwrap_or_default().saturating_add(1);
        next.conditional_assign(&counter.saturating_add(behind), is_right | is_duress);
        right |= is_right;
        duress |= is_duress;
    }
    // Only the outcome is branched on, after all the work.
    match (bool::from(right), bool::from(duress)) {
        (true, _) => (Verdict::Right, next),
        (false, true) => (Verdict::Duress, next),
        (false, false) => (Verdict::Wrong, next),
    }
}

/// The values of the counters before and from a counter on.
struct Window {
    /// And whether there is such a counter.
    values: Zeroizing<[(u32, bool); SEEN]>,
    digits: Digits,
}

impl Window {
    #[inline(never)] // own frame
    fn around(key: &CourierKey, counter: u32, digits: Digits) -> Self {
        let keyed = keyed(key);
        let first = i64::from(counter).saturating_sub(BEFORE.try_into().unwrap_or(i64::MAX));
        let mut values = Zeroizing::new([(0, false); SEEN]);
        for (place, slot) in (0_i64..).zip(values.iter_mut()) {
            let here = u32::try_from(first.saturating_add(place));
            // The same work where there is no such counter. Nor is the last one
            // of all used: none would come behind it.
            let exists = here.is_ok_and(|here| here < u32::MAX);
            *slot = (digits.cut(number(&keyed, here.unwrap_or(u32::MAX))), exists);
        }
        Self { values, digits }
    }

    fn slot(&self, place: usize) -> (u32, bool) {
        self.values.get(place).copied().unwrap_or_default()
    }

    /// The value of the counter `ahead` of the window's own.
    fn value(&self, ahead: usize) -> u32 {
        self.slot(ahead.saturating_add(BEFORE)).0
    }

    /// Whether that counter is used. Its work hangs on key and counter only.
    fn usable(&self, ahead: usize) -> bool {
        let (value, exists) = self.slot(ahead.saturating_add(BEFORE));
        let easy = refused(&self.digits.code(value)).is_some();
        let mut clash = false;
        for place in ahead..ahead.saturating_add(BEFORE) {
            let (before, exists) = self.slot(place);
            clash |= exists && meets(value, before);
        }
        exists && !easy && !clash
    }
}

/// Whether a code or variant of the one is a code or variant of the other.
fn meets(one: u32, other: u32) -> bool {
    one == other || variant(one) == other || one == variant(other)
}

/// The duress variant: the last digit plus one, modulo ten.
const fn variant(value: u32) -> u32 {
    if value % 10 == 9 { value.saturating_sub(9) } else { value.saturating_add(1) }
}

/// A code as a number; its length is compared besides.
fn value(code: &Code) -> u32 {
    code.values().iter().fold(0, |value: u32, d| value.wrapping_mul(10).wrapping_add(u32::from(*d)))
}

#[cfg(test)]
std::thread_local! {
    /// How many MACs this thread has made: what a try costs.
    pub(super) static MACS: core::cell::Cell<u32> = const { core::cell::Cell::new(0) };
}

/// HOTP's MAC with the key in it and nothing else: two of the four blocks that
/// each MAC is, and the same for every counter.
fn keyed(key: &CourierKey) -> Hmac<Sha1> {
    // As in `digest.rs`: the constructor that takes any slice returns an error that
    // cannot happen.
    let mut block = Zeroizing::new([0; BLOCK]);
    for (to, from) in block.iter_mut().zip(&key.0) {
        *to = *from;
    }
    Hmac::new((&*block).into())
}

/// HOTP's steps 1 and 2: the MAC of the counter, and four bytes of it, whose place
/// its last half byte says, without their highest bit.
fn number(keyed: &Hmac<Sha1>, counter: u32) -> u32 {
    #[cfg(test)]
    MACS.with(|macs| macs.set(macs.get().saturating_add(1)));
    let mut hmac = keyed.clone();
    hmac.update(&u64::from(counter).to_be_bytes());
    let mac: Zeroizing<[u8; 20]> = Zeroizing::new(hmac.finalize().into_bytes().into());
    let offset = usize::from(mac.last().copied().unwrap_or_default() & 0x0F);
    let four = mac.get(offset..).and_then(<[u8]>::first_chunk::<4>).copied().unwrap_or_default();
    u32::from_be_bytes(four) & 0x7FFF_FFFF
}
