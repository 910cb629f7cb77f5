//! A flash whose torn words read either way, chosen anew for each boot.
//!
//! The power ends within a step that is chosen; what it tore then reads, from boot
//! to boot, as if it had been done whole or as if it had been cut short, and
//! within a boot the same at every look. So looks that agree prove nothing, and a
//! store must be content with what the order of its writes tells. A first word of
//! a block is never blank again (`pages.rs` asks sixteen times), so it is cut
//! short by half.

use std::vec;
use std::vec::Vec;

use embedded_storage::nor_flash::{
    ErrorType, NorFlash, NorFlashError, NorFlashErrorKind, ReadNorFlash,
};

use super::super::layout::SLOT;

/// What was torn, and how it may read.
#[derive(Clone, PartialEq, Eq, Hash)]
struct Torn {
    at: usize,
    whole: Vec<u8>,
    short: Vec<u8>,
}

/// The flash.
#[derive(Clone, PartialEq, Eq, Hash)]
pub(super) struct Fickle<const WORD: usize, const PAGE: usize> {
    /// What this boot reads.
    cells: Vec<u8>,
    torn: Vec<Torn>,
    /// Steps before the one that the power ends in.
    left: Option<usize>,
    on: bool,
    steps: usize,
}

/// The power is out.
#[derive(Debug)]
pub(super) struct Out;

impl NorFlashError for Out {
    fn kind(&self) -> NorFlashErrorKind {
        NorFlashErrorKind::Other
    }
}

impl<const WORD: usize, const PAGE: usize> Fickle<WORD, PAGE> {
    /// Erased, so many bytes.
    pub(super) fn erased(bytes: usize) -> Self {
        Self { cells: vec![0xFF; bytes], torn: Vec::new(), left: None, on: true, steps: 0 }
    }

    /// How many ways there are to read what is torn.
    pub(super) fn ways(&self) -> usize {
        1 << self.torn.len()
    }

    /// The power is back: whether the `n`th torn thing reads whole, bit `n` of
    /// `way` says.
    pub(super) fn powered(mut self, way: usize) -> Self {
        for (n, torn) in self.torn.iter().enumerate() {
            let reads = if way >> n & 1 == 1 { &torn.whole } else { &torn.short };
            self.cells[torn.at..torn.at + reads.len()].copy_from_slice(reads);
        }
        Self { left: None, on: true, steps: 0, ..self }
    }

    /// The power will end within a step, after `steps` whole ones from now.
    pub(super) const fn arm(&mut self, steps: usize) {
        self.left = Some(steps);
    }

    /// Words programmed and pages erased since the power came.
    pub(super) const fn steps(&self) -> usize {
        self.steps
    }

    /// Brings the bytes at `at` to `to`, as far as the power goes.
    fn step(&mut self, at: usize, to: &[u8], short: impl Fn(&[u8]) -> Vec<u8>) -> Result<(), Out> {
        if !self.on {
            return Err(Out);
        }
        let cells = &mut self.cells[at..at + to.len()];
        if self.left == Some(0) {
            self.on = false;
            let short = short(cells);
            self.torn.push(Torn { at, whole: to.to_vec(), short });
            return Err(Out);
        }
        self.left = self.left.map(|left| left - 1);
        self.steps += 1;
        cells.copy_from_slice(to);
        self.torn.retain(|torn| torn.at + torn.whole.len() <= at || at + to.len() <= torn.at);
        Ok(())
    }
}

impl<const WORD: usize, const PAGE: usize> ErrorType for Fickle<WORD, PAGE> {
    type Error = Out;
}

impl<const WORD: usize, const PAGE: usize> ReadNorFlash for Fickle<WORD, PAGE> {
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), Out> {
        let from = usize::try_from(offset).unwrap();
        if !self.on {
            return Err(Out);
        }
        bytes.copy_from_slice(&self.cells[from..from + bytes.len()]);
        Ok(())
    }

    fn capacity(&self) -> usize {
        self.cells.len()
    }
}

impl<const WORD: usize, const PAGE: usize> NorFlash for Fickle<WORD, PAGE> {
    const WRITE_SIZE: usize = WORD;
    const ERASE_SIZE: usize = PAGE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), Out> {
        for page in (from..to).step_by(PAGE) {
            let at = usize::try_from(page).unwrap();
            self.step(at, &[0xFF; PAGE], <[u8]>::to_vec)?;
        }
        Ok(())
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), Out> {
        for (at, word) in (offset..).step_by(WORD).zip(bytes.chunks(WORD)) {
            let at = usize::try_from(at).unwrap();
            // Where the store programs it must have been erased, to the end.
            let torn =
                self.torn.iter().any(|torn| torn.at <= at && at < torn.at + torn.whole.len());
            assert!(!torn, "a word is programmed that may not be blank: {at:#x}");
            assert!(!self.on || self.cells[at..at + WORD] == [0xFF; WORD], "{at:#x} is not blank");
            let done = if at.is_multiple_of(SLOT) { 2 } else { 0 };
            self.step(at, word, |blank| {
                word.iter().take(done).chain(blank.iter().skip(done)).copied().collect()
            })?;
        }
        Ok(())
    }
}
