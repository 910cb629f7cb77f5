//! What a chip shows, judged by many reads of it and by nothing else.

use std::vec;
use std::vec::Vec;

use super::*;

/// What a bit reads.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Seen {
    Zero,
    One,
    Either,
}

/// Reads of one look: a weak bit reads the same in all of them in fewer than
/// one of 2^80 looks.
const READS: usize = 200;

pub(super) type Cells<const WORD: usize> = Chip<WORD, 256, Vec<u8>>;

/// Each bit of the chip, lowest of a byte first, as it reads from now on.
pub(super) fn look<const WORD: usize>(chip: &Cells<WORD>) -> Vec<Seen> {
    let mut chip = chip.clone();
    let size = chip.capacity();
    let (mut ever, mut always, mut bytes) = (vec![0; size], vec![0xFF; size], vec![0; size]);
    for _ in 0..READS {
        chip.read(0, &mut bytes).unwrap();
        for ((ever, always), byte) in ever.iter_mut().zip(&mut always).zip(&bytes) {
            *ever |= byte;
            *always &= byte;
        }
    }
    let bit = |of: &[u8], n: usize| of[n / 8] & (1 << (n % 8)) != 0;
    let seen = |n| match (bit(&ever, n), bit(&always, n)) {
        (false, _) => Seen::Zero,
        (true, true) => Seen::One,
        (true, false) => Seen::Either,
    };
    (0..size * 8).map(seen).collect()
}

/// The same once nothing sleeps any more.
pub(super) fn look_later<const WORD: usize>(chip: &Cells<WORD>) -> Vec<Seen> {
    let mut chip = chip.clone();
    chip.power_up();
    chip.power_up();
    look(&chip)
}

/// What a look would find if `act` were done whole.
pub(super) fn done(before: &[Seen], act: &Act<'_>) -> Vec<Seen> {
    let mut after = before.to_vec();
    match *act {
        Act::Program { address, word } => {
            let from = usize::try_from(address).unwrap() * 8;
            for n in 0..word.len() * 8 {
                if word[n / 8] & (1 << (n % 8)) == 0 {
                    after[from + n] = Seen::Zero;
                }
            }
        }
        Act::Erase { page } => {
            let from = usize::try_from(page).unwrap() * 256 * 8;
            after[from..from + 256 * 8].fill(Seen::One);
        }
        Act::Effect => {}
    }
    after
}
