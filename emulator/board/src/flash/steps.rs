//! Steps of a chip, whole and torn.

use core::ops::Range;

use super::chip::{Chip, ERASED};
use super::error::FlashError;
use super::limits::Worn;
use super::tear;
use super::weak::Weak;
use crate::fuse::{Act, Class};
use crate::splitmix::SplitMix;

impl<const WORD: usize, const PAGE: usize, B> Chip<WORD, PAGE, B>
where
    B: AsRef<[u8]> + AsMut<[u8]> + Clone,
{
    /// Does the whole of `act`. An effect is none of the chip's.
    ///
    /// # Errors
    /// [`FlashError::Bounds`] and [`FlashError::Alignment`];
    /// [`FlashError::RaisesBits`] and [`FlashError::ProgramLimit`], counted as
    /// violations; [`FlashError::Worn`]. Nothing was changed then.
    pub fn complete(&mut self, act: &Act<'_>) -> Result<(), FlashError> {
        self.check(act)?;
        self.carry_out(act)
    }

    /// Does of `act` what a cut of the power within it leaves. `seed` decides
    /// what the class leaves open: the same chip, act, class and seed always
    /// give the same chip.
    ///
    /// # Errors
    /// As [`Chip::complete`], except that a worn page takes a torn act without
    /// a word.
    pub fn tear(&mut self, act: &Act<'_>, class: Class, seed: u64) -> Result<(), FlashError> {
        self.check(act)?;
        self.tear_checked(act, class, seed);
        Ok(())
    }

    /// Whether the chip takes `act`. What it does not is counted.
    ///
    /// # Errors
    /// As [`Chip::complete`], without [`FlashError::Worn`].
    pub(super) fn check(&mut self, act: &Act<'_>) -> Result<(), FlashError> {
        match *act {
            Act::Program { address, word } => self.check_program(address, word),
            Act::Erase { page } => self.page_bytes(page).map(drop),
            Act::Effect => Ok(()),
        }
    }

    fn check_program(&mut self, address: u32, word: &[u8]) -> Result<(), FlashError> {
        let range = self.range(address, WORD)?;
        if word.len() != WORD || range.start & (WORD - 1) != 0 {
            return Err(FlashError::Alignment);
        }
        let number = range.start / WORD;
        let cells = self.cells.as_ref().get(range.clone()).ok_or(FlashError::Bounds)?;
        let raises = match &self.weak {
            None => cells.iter().zip(word).any(|(old, new)| !*old & *new != 0),
            Some(weak) => (range.zip(cells).zip(word))
                .any(|((byte, old), new)| !(*old | weak.awake(byte)) & *new != 0),
        };
        if raises {
            self.violations.raised = self.violations.raised.saturating_add(1);
            return Err(FlashError::RaisesBits);
        }
        if !self.limits.programs.takes(self.programs_of(number), word) {
            self.violations.over_limit = self.violations.over_limit.saturating_add(1);
            return Err(FlashError::ProgramLimit);
        }
        Ok(())
    }

    /// Does the whole of an act that was checked.
    ///
    /// # Errors
    /// [`FlashError::Worn`].
    pub(super) fn carry_out(&mut self, act: &Act<'_>) -> Result<(), FlashError> {
        match *act {
            Act::Effect => return Ok(()),
            Act::Program { address, word } => {
                let range = self.range(address, WORD)?;
                match self.worn(range.start / PAGE) {
                    Some(Worn::Fails) => return Err(FlashError::Worn),
                    Some(Worn::DoesNothing) => return Ok(()),
                    None => self.program(range, word),
                }
            }
            Act::Erase { page } => {
                let range = self.page_bytes(page)?;
                match self.worn(range.start / PAGE) {
                    Some(Worn::Fails) => return Err(FlashError::Worn),
                    Some(Worn::DoesNothing) => return Ok(()),
                    None => self.erase(range),
                }
            }
        }
        self.hold_stuck();
        self.drop_settled();
        Ok(())
    }

    fn program(&mut self, range: Range<usize>, word: &[u8]) {
        let cells = self.cells.as_mut().get_mut(range.clone()).unwrap_or_default();
        for (cell, new) in cells.iter_mut().zip(word) {
            *cell &= *new;
        }
        if let Some(weak) = &mut self.weak {
            for (byte, new) in range.clone().zip(word) {
                weak.settle(byte, !*new);
            }
        }
        self.count_program(range.start / WORD);
    }

    fn erase(&mut self, range: Range<usize>) {
        self.cells.as_mut().get_mut(range.clone()).unwrap_or_default().fill(ERASED);
        if let Some(weak) = &mut self.weak {
            for byte in range.clone() {
                weak.settle(byte, 0xFF);
            }
        }
        if let Some(programs) = &mut self.programs {
            let words = range.start / WORD..range.end / WORD;
            programs.as_mut().get_mut(words).unwrap_or_default().fill(0);
        }
        self.count_erase(range.start / PAGE);
    }

    /// Tears an act that was checked.
    pub(super) fn tear_checked(&mut self, act: &Act<'_>, class: Class, seed: u64) {
        // The power ends, so that a boot has passed since bits fell asleep.
        if let Some(weak) = &mut self.weak {
            weak.wake();
        }
        match class {
            Class::Before => {}
            Class::After => {
                // A worn page has nobody left to tell.
                let _ = self.carry_out(act);
            }
            Class::Prefix
            | Class::Suffix
            | Class::Subset
            | Class::Random
            | Class::Unstable
            | Class::LooksDone => {
                self.tear_within(act, class, seed);
                self.hold_stuck();
                self.drop_settled();
            }
        }
    }

    fn tear_within(&mut self, act: &Act<'_>, class: Class, seed: u64) {
        let torn = match *act {
            Act::Program { address, word } => self.range(address, WORD).map(|at| (at, Some(word))),
            Act::Erase { page } => self.page_bytes(page).map(|at| (at, None)),
            Act::Effect => return,
        };
        let Ok((at, word)) = torn else { return };
        if self.worn(at.start / PAGE).is_some() {
            return;
        }
        let (mut change, mut pulled, mut weakened) = ([0; PAGE], [0; PAGE], [0; PAGE]);
        let change = change.get_mut(..at.len()).unwrap_or_default();
        let pulled = pulled.get_mut(..at.len()).unwrap_or_default();
        let weakened = weakened.get_mut(..at.len()).unwrap_or_default();
        self.change(&at, word, change);
        let reached = tear::outcome(change, pulled, weakened, class, seed, WORD);
        if let (Class::Random, None) = (class, word) {
            self.scramble(&at, seed);
        } else {
            self.pull(&at, word, pulled);
        }
        self.weaken(&at, weakened, seed);
        match class {
            Class::LooksDone => self.lull(&at, change, seed),
            _ => self.raise(&at, weakened),
        }
        let acted =
            |index: usize| [&*pulled, &*weakened].map(|m| m.get(index).is_some_and(|m| *m != 0));
        match word {
            Some(_) if (0..WORD).any(|index| acted(index).contains(&true)) => {
                self.count_program(at.start / WORD);
            }
            Some(_) => {}
            None => {
                self.count_erase(at.start / PAGE);
                for start in (0..PAGE).step_by(WORD) {
                    let end = start + WORD;
                    let whole = reached.start <= start && end <= reached.end;
                    if whole || (start..end).any(|index| acted(index).contains(&true)) {
                        self.forget_programs(at.start + start);
                    }
                }
            }
        }
    }

    /// The bits that a program of `word`, or an erase, is to change.
    fn change(&self, at: &Range<usize>, word: Option<&[u8]>, change: &mut [u8]) {
        let cells = self.cells.as_ref().get(at.clone()).unwrap_or_default();
        for ((index, to), cell) in change.iter_mut().enumerate().zip(cells) {
            let weak = self.weak.as_ref().map_or(0, |weak| weak.all(at.start + index));
            *to = match word {
                Some(word) => (cell | weak) & !word.get(index).copied().unwrap_or(ERASED),
                None => !cell | weak,
            };
        }
    }

    /// Bits reach what they were to be. The weak ones among them stay weak:
    /// only a whole step settles those.
    fn pull(&mut self, at: &Range<usize>, word: Option<&[u8]>, bits: &[u8]) {
        let cells = self.cells.as_mut().get_mut(at.clone()).unwrap_or_default();
        for (cell, bits) in cells.iter_mut().zip(bits) {
            match word {
                Some(_) => *cell &= !bits,
                None => *cell |= bits,
            }
        }
    }

    /// Arbitrary content: mostly near what an erase comes by, the old content
    /// or none.
    fn scramble(&mut self, at: &Range<usize>, seed: u64) {
        let mut noise = [0; PAGE];
        let draws = &mut SplitMix::new(SplitMix::at(seed, 3));
        let keeps = if draws.draw() & 1 == 0 { 0xFF } else { 0 };
        tear::spread(&[0xFF; PAGE], &mut noise, draws, WORD);
        let cells = self.cells.as_mut().get_mut(at.clone()).unwrap_or_default();
        for (cell, noise) in cells.iter_mut().zip(noise) {
            *cell = (*cell | !keeps) ^ noise;
        }
    }

    fn weaken(&mut self, at: &Range<usize>, bits: &[u8], seed: u64) {
        if bits.iter().all(|bits| *bits == 0) {
            return;
        }
        let weak = self.weak.get_or_insert_with(|| Weak::none_in(&self.cells));
        for (byte, bits) in at.clone().zip(bits) {
            weak.weaken(byte, *bits);
        }
        weak.stir(seed);
    }

    /// Weak bits sleep, unless one beside the change would fall asleep too.
    fn lull(&mut self, at: &Range<usize>, change: &[u8], seed: u64) {
        if let Some(weak) = &mut self.weak
            && at.clone().zip(change).all(|(byte, change)| weak.all(byte) & !change == 0)
        {
            weak.lull(at.clone(), seed);
        }
    }

    /// What lies under unstable bits is 1.
    fn raise(&mut self, at: &Range<usize>, bits: &[u8]) {
        let cells = self.cells.as_mut().get_mut(at.clone()).unwrap_or_default();
        for (cell, bits) in cells.iter_mut().zip(bits) {
            *cell |= bits;
        }
    }

    /// No memory is kept for weak bits once there are none.
    fn drop_settled(&mut self) {
        if self.weak_bits() == 0 {
            self.weak = None;
        }
    }

    /// How many programs the word took, as far as they are counted.
    fn programs_of(&self, word: usize) -> u8 {
        let programs = self.programs.as_ref().and_then(|programs| programs.as_ref().get(word));
        programs.copied().unwrap_or_default()
    }

    fn count_program(&mut self, word: usize) {
        let programs = self.programs.as_mut().and_then(|programs| programs.as_mut().get_mut(word));
        if let Some(programs) = programs {
            *programs = programs.saturating_add(1);
        }
    }

    fn count_erase(&mut self, page: usize) {
        if let Some(erases) = self.erases.get_mut(page) {
            *erases = erases.saturating_add(1);
        }
    }

    /// After a torn erase of the word at `from`: if it has no bit left that is
    /// settled at 0, a lock cannot know better than to program it again.
    fn forget_programs(&mut self, from: usize) {
        let weak = |byte| self.weak.as_ref().map_or(0, |weak| weak.all(byte));
        let blank = (from..from + WORD)
            .zip(self.cells.as_ref().iter().skip(from))
            .all(|(byte, cell)| cell | weak(byte) == ERASED);
        let programs = self.programs.as_mut().and_then(|p| p.as_mut().get_mut(from / WORD));
        if let (true, Some(programs)) = (blank, programs) {
            *programs = 0;
        }
    }

    /// The bytes of a page.
    fn page_bytes(&self, page: u32) -> Result<Range<usize>, FlashError> {
        let page = usize::try_from(page).map_err(|_| FlashError::Bounds)?;
        let from = page.checked_mul(PAGE).ok_or(FlashError::Bounds)?;
        self.range(u32::try_from(from).map_err(|_| FlashError::Bounds)?, PAGE)
    }
}
