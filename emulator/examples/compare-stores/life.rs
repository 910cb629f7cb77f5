//! What is asked of a store: the same random events for both.

use emulator::rig::Dice;

use crate::subject::{Fault, KEYS, Shape, Subject};

/// One event. Each number is used once.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Ask {
    /// A record.
    Record(u32),
    /// A setting.
    Set(u8, u32),
    /// The power goes and comes back.
    Boot,
}

/// The numbers of a life.
#[derive(Default)]
pub(crate) struct Numbers(u32);

impl Numbers {
    pub(crate) fn next(&mut self) -> u32 {
        self.0 += 1;
        self.0
    }
}

/// First each setting is set, as in any store that is in use.
pub(crate) fn first(numbers: &mut Numbers) -> Vec<Ask> {
    keys().map(|key| Ask::Set(key, numbers.next())).collect()
}

/// `length` events.
pub(crate) fn random(dice: &mut Dice, length: u64, numbers: &mut Numbers) -> Vec<Ask> {
    (0..length)
        .map(|_| match dice.below(20) {
            0..=14 => Ask::Record(numbers.next()),
            15..=17 => {
                let key = dice.below(u64::try_from(KEYS).unwrap_or(1));
                Ask::Set(u8::try_from(key).unwrap_or(0), numbers.next())
            }
            _ => Ask::Boot,
        })
        .collect()
}

/// Every setting.
pub(crate) fn keys() -> impl Iterator<Item = u8> {
    (0..KEYS).filter_map(|key| u8::try_from(key).ok())
}

/// Asks a subject for it once.
pub(crate) fn ask<const WORD: usize, const PAGE: usize, S: Subject<WORD, PAGE>>(
    subject: &mut S,
    ask: Ask,
) -> Result<(), Fault> {
    match ask {
        Ask::Record(n) => subject.record(n),
        Ask::Set(key, n) => subject.set(key, n),
        Ask::Boot => Ok(()),
    }
}

/// The power goes and comes back.
pub(crate) fn reboot<const WORD: usize, const PAGE: usize, S: Subject<WORD, PAGE>>(
    subject: S,
    shape: &Shape,
) -> S {
    S::boot(subject.off(), shape)
}

/// How often a call is made that fails.
const TRIES: u32 = 3;

/// Calls until it works, three times at the most; the flag says whether any of
/// them failed.
pub(crate) fn insist<T>(mut call: impl FnMut() -> Result<T, Fault>) -> Result<(T, bool), Fault> {
    let mut failed = false;
    for _ in 1..TRIES {
        match call() {
            Ok(value) => return Ok((value, failed)),
            Err(_) => failed = true,
        }
    }
    call().map(|value| (value, failed))
}
