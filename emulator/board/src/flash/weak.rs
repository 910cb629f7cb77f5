//! Bits that read either way.
//!
//! A chip without any keeps no memory for them. With the first, a mask of the
//! size of the chip is made by cloning its bytes; with the last it is dropped.
//! There is no bound to be reached: each bit of the chip may be weak.
//!
//! What a weak bit reads is drawn for each read call anew: mostly bit by bit,
//! at one read in eight all of them 0 and at one in eight all of them 1, since
//! cells near one threshold often read alike. So a weak word may look settled
//! for several reads in a row, and turn out otherwise later.
//!
//! Bits of a step that *looks done* are asleep first: they read as if it had
//! been completed. They wake at the second return of the power after the cut
//! or within the next torn step, so that one boot finds all well; or earlier,
//! after a number of reads that the seed decides.

use core::ops::Range;

use super::tear::copy;
use crate::splitmix::SplitMix;

/// The weak bits of a chip.
#[derive(PartialEq, Eq)]
pub(super) struct Weak<B> {
    pub(super) mask: B,
    pub(super) bits: u32,
    /// Decides what weak bits read.
    pub(super) noise: u64,
    /// Reads that met a weak bit.
    pub(super) reads: u64,
    pub(super) asleep: Option<Asleep>,
}

/// Bytes whose weak bits read as if they were settled.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Asleep {
    pub(super) from: usize,
    pub(super) to: usize,
    /// They wake when the power has returned that often.
    pub(super) returns: u8,
    /// They wake after that many reads of any of them.
    pub(super) reads: Option<u64>,
}

impl Asleep {
    fn covers(&self, byte: usize) -> bool {
        self.from <= byte && byte < self.to
    }
}

impl<B: Clone> Clone for Weak<B> {
    fn clone(&self) -> Self {
        Self { mask: self.mask.clone(), ..*self }
    }

    fn clone_from(&mut self, from: &Self) {
        let Self { mask, bits, noise, reads, asleep } = self;
        mask.clone_from(&from.mask);
        (*bits, *noise, *reads, *asleep) = (from.bits, from.noise, from.reads, from.asleep);
    }
}

impl<B: AsRef<[u8]> + AsMut<[u8]> + Clone> Weak<B> {
    /// None yet, in a chip of such `bytes`.
    pub(super) fn none_in(bytes: &B) -> Self {
        let mut mask = bytes.clone();
        mask.as_mut().fill(0);
        Self { mask, bits: 0, noise: 0, reads: 0, asleep: None }
    }
}

impl<B: AsRef<[u8]> + AsMut<[u8]>> Weak<B> {
    pub(super) fn mask(&self) -> &[u8] {
        self.mask.as_ref()
    }

    pub(super) const fn bits(&self) -> u32 {
        self.bits
    }

    /// The weak bits of the byte that do not sleep.
    pub(super) fn awake(&self, byte: usize) -> u8 {
        if self.asleep.is_some_and(|asleep| asleep.covers(byte)) { 0 } else { self.all(byte) }
    }

    /// The weak bits of the byte.
    pub(super) fn all(&self, byte: usize) -> u8 {
        self.mask().get(byte).copied().unwrap_or_default()
    }

    /// These bits of the byte become weak.
    pub(super) fn weaken(&mut self, byte: usize, bits: u8) {
        if let Some(mask) = self.mask.as_mut().get_mut(byte) {
            self.bits = self.bits.saturating_add((bits & !*mask).count_ones());
            *mask |= bits;
        }
    }

    /// These bits of the byte are weak no longer.
    pub(super) fn settle(&mut self, byte: usize, bits: u8) {
        if let Some(mask) = self.mask.as_mut().get_mut(byte) {
            self.bits = self.bits.saturating_sub((bits & *mask).count_ones());
            *mask &= !bits;
        }
    }

    /// A torn step stirs what weak bits read.
    pub(super) fn stir(&mut self, seed: u64) {
        self.noise = SplitMix::at(self.noise ^ seed, 1);
    }

    /// The weak bits of `bytes` fall asleep.
    pub(super) fn lull(&mut self, bytes: Range<usize>, seed: u64) {
        let draws = &mut SplitMix::new(SplitMix::at(seed, 2));
        let reads = (draws.draw() & 1 == 0).then(|| {
            let width = draws.below(10);
            draws.draw() & ((1 << width) - 1)
        });
        self.asleep = Some(Asleep { from: bytes.start, to: bytes.end, returns: 2, reads });
    }

    /// No bit sleeps any more.
    pub(super) const fn wake(&mut self) {
        self.asleep = None;
    }

    /// The power is back.
    pub(super) fn power_up(&mut self) {
        if let Some(asleep) = &mut self.asleep {
            asleep.returns = asleep.returns.saturating_sub(1);
            if asleep.returns == 0 {
                self.asleep = None;
            }
        }
    }

    /// Reads the bytes at `at`, of which `cells` are the settled values.
    pub(super) fn read(&mut self, cells: &[u8], at: Range<usize>, to: &mut [u8]) {
        let mask = self.mask.as_ref().get(at.clone()).unwrap_or_default();
        if mask.iter().all(|bits| *bits == 0) {
            copy(cells, to);
            return;
        }
        let draw = SplitMix::at(self.noise, self.reads);
        self.reads = self.reads.wrapping_add(1);
        for (((to, cell), weak), byte) in to.iter_mut().zip(cells).zip(mask).zip(at.clone()) {
            let noise = match draw & 7 {
                0 => 0,
                1 => 0xFF,
                _ => SplitMix::at(draw, byte as u64).to_le_bytes()[0],
            };
            let sleeps = self.asleep.is_some_and(|asleep| asleep.covers(byte));
            let weak = if sleeps { 0 } else { *weak };
            *to = (cell & !weak) | (noise & weak);
        }
        self.count(&at);
    }

    /// A read of `at` brings the end of a sleep nearer.
    fn count(&mut self, at: &Range<usize>) {
        let Some(asleep) = &mut self.asleep else { return };
        let met = at.start < asleep.to && asleep.from < at.end;
        if let (true, Some(reads)) = (met, &mut asleep.reads) {
            match reads.checked_sub(1) {
                Some(left) => *reads = left,
                None => self.asleep = None,
            }
        }
    }

    /// What of it decides how the chip reads from now on, for a fingerprint.
    pub(super) fn state(&self) -> [u64; 3] {
        let asleep = self.asleep.map_or(0, |asleep| {
            let reads = asleep.reads.map_or(0, |reads| reads.wrapping_add(1));
            let place = SplitMix::at(asleep.from as u64, asleep.to as u64);
            SplitMix::at(place ^ u64::from(asleep.returns), reads)
        });
        [self.noise, self.reads, asleep]
    }
}
