//! The cells of a flash, and what they take.

use core::fmt;
use core::ops::Range;

use heapless::Vec;

use super::error::FlashError;
use super::fingerprint;
use super::limits::{Endurance, Limits, PerWord, Violations, Worn};
use super::tear::copy;
use super::weak::Weak;

/// What an erased byte reads.
pub const ERASED: u8 = 0xFF;

/// Pages that one flash can have at most.
pub const PAGES: usize = 1_024;

/// Stuck bits that one chip can have at most.
pub const STUCK: usize = 16;

/// What a stuck bit is stuck at.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum StuckAt {
    /// It reads 0 whatever is done.
    Zero,
    /// It reads 1 whatever is done.
    One,
}

#[derive(Clone, Copy, PartialEq, Eq, Debug)]
struct Stuck {
    byte: usize,
    bit: u8,
    at: StuckAt,
}

/// The cells of a flash of words of `WORD` bytes in pages of `PAGE` bytes,
/// kept in `B`: an array on a microcontroller, a vector on a host. They know
/// no power and no bus: [`RamFlash`](super::RamFlash) is the flash.
///
/// A clone is a snapshot. Its cost is that of a clone of `B`, twice while a
/// bit is weak, and once more with a limit of programs a word. Sweeps that
/// make many had better `clone_from`, which keeps the memory of the last.
///
/// What is compared by `==` is everything; see [`Chip::same_cells`].
#[derive(PartialEq, Eq)]
pub struct Chip<const WORD: usize, const PAGE: usize, B> {
    pub(super) cells: B,
    /// Bits that read either way, if there are any.
    pub(super) weak: Option<Weak<B>>,
    /// Programs that each word took since its last erase, a byte each, if
    /// they are limited.
    pub(super) programs: Option<B>,
    pub(super) erases: Vec<u32, PAGES>,
    stuck: Vec<Stuck, STUCK>,
    pub(super) limits: Limits,
    pub(super) violations: Violations,
}

impl<const WORD: usize, const PAGE: usize, B> Chip<WORD, PAGE, B>
where
    B: AsRef<[u8]> + AsMut<[u8]> + Clone,
{
    const GEOMETRY: () = assert!(
        WORD.is_power_of_two() && PAGE.is_power_of_two() && WORD <= PAGE,
        "words and pages are powers of two, and a page has a word at least"
    );

    /// A chip with that content. It has as many whole pages as `bytes` has,
    /// at most [`PAGES`].
    #[must_use]
    pub fn with_content(bytes: B) -> Self {
        let () = Self::GEOMETRY;
        let mut erases = Vec::new();
        for _ in bytes.as_ref().chunks_exact(PAGE) {
            if erases.push(0).is_err() {
                break;
            }
        }
        Self {
            cells: bytes,
            weak: None,
            programs: None,
            erases,
            stuck: Vec::new(),
            limits: Limits::default(),
            violations: Violations::default(),
        }
    }

    /// A chip as it comes from the factory: `bytes` gives its size only.
    #[must_use]
    pub fn erased(mut bytes: B) -> Self {
        bytes.as_mut().fill(ERASED);
        Self::with_content(bytes)
    }

    /// The same with those limits. Words that are not blank count as
    /// programmed once.
    #[must_use]
    pub fn with_limits(mut self, limits: Limits) -> Self {
        self.limits = limits;
        self.programs = match limits.programs {
            PerWord::Unlimited => None,
            PerWord::Once | PerWord::Twice | PerWord::TwiceIfZero => {
                let mut programs = self.cells.clone();
                programs.as_mut().fill(0);
                let words = self.content().chunks_exact(WORD);
                for (to, word) in programs.as_mut().iter_mut().zip(words) {
                    *to = u8::from(word.iter().any(|byte| *byte != ERASED));
                }
                Some(programs)
            }
        };
        self
    }

    /// How many bytes can be addressed.
    #[must_use]
    pub fn capacity(&self) -> usize {
        self.erases.len().saturating_mul(PAGE)
    }

    /// The settled content, as a programmer's tool would see it. A weak bit
    /// stands in it as it would be if the step that left it weak had been
    /// completed (looks done), or as 1 (unstable).
    #[must_use]
    pub fn content(&self) -> &[u8] {
        self.cells.as_ref()
    }

    /// The content, to be spoiled.
    pub fn content_mut(&mut self) -> &mut [u8] {
        self.cells.as_mut()
    }

    /// Which bits are weak, byte by byte; `None` if none is.
    #[must_use]
    pub fn weak_mask(&self) -> Option<&[u8]> {
        self.weak.as_ref().map(Weak::mask)
    }

    /// How many bits are weak.
    #[must_use]
    pub fn weak_bits(&self) -> u32 {
        self.weak.as_ref().map_or(0, Weak::bits)
    }

    /// How often each page was erased, whole or torn.
    #[must_use]
    pub fn erases(&self) -> &[u32] {
        &self.erases
    }

    /// What was asked that flash cannot do.
    #[must_use]
    pub const fn violations(&self) -> Violations {
        self.violations
    }

    /// Reads as many bytes as `to` has.
    ///
    /// # Errors
    /// [`FlashError::Bounds`] beyond the end.
    pub fn read(&mut self, address: u32, to: &mut [u8]) -> Result<(), FlashError> {
        let range = self.range(address, to.len())?;
        self.read_at(range, to)
    }

    /// The same at bytes that are known to be in the chip.
    pub(super) fn read_at(&mut self, range: Range<usize>, to: &mut [u8]) -> Result<(), FlashError> {
        let cells = self.cells.as_ref().get(range.clone()).ok_or(FlashError::Bounds)?;
        match &mut self.weak {
            None => copy(cells, to),
            Some(weak) => weak.read(cells, range, to),
        }
        Ok(())
    }

    /// The power is back.
    pub fn power_up(&mut self) {
        if let Some(weak) = &mut self.weak {
            weak.power_up();
        }
    }

    /// Turns a bit, 0 to 7 of the byte at `address`, over.
    ///
    /// # Errors
    /// [`FlashError::Bounds`] beyond the end or the byte.
    pub fn flip_bit(&mut self, address: u32, bit: u8) -> Result<(), FlashError> {
        let at = self.range(address, 1)?.start;
        let cell = self.cells.as_mut().get_mut(at).ok_or(FlashError::Bounds)?;
        *cell ^= 1_u8.checked_shl(bit.into()).ok_or(FlashError::Bounds)?;
        self.hold_stuck();
        Ok(())
    }

    /// That bit is stuck from now on, whatever is done.
    ///
    /// # Errors
    /// [`FlashError::Bounds`] beyond the end or the byte;
    /// [`FlashError::TooMany`] beyond [`STUCK`] of them.
    pub fn stick_bit(&mut self, address: u32, bit: u8, at: StuckAt) -> Result<(), FlashError> {
        let byte = self.range(address, 1)?.start;
        let bit = 1_u8.checked_shl(bit.into()).ok_or(FlashError::Bounds)?;
        self.stuck.push(Stuck { byte, bit, at }).map_err(|_| FlashError::TooMany)?;
        self.hold_stuck();
        Ok(())
    }

    /// Whether both read and take alike from now on: the same cells, weak
    /// bits and what they will read, stuck bits, limits, programs of each
    /// limited word, and wear if it is limited. Wear that has no
    /// consequences and violations are not looked at.
    #[must_use]
    pub fn same_cells(&self, other: &Self) -> bool {
        let bytes = |bytes: &Option<B>| bytes.as_ref().map(|b| b.as_ref().len());
        self.limits == other.limits
            && self.content() == other.content()
            && self.stuck == other.stuck
            && bytes(&self.programs) == bytes(&other.programs)
            && self.programs() == other.programs()
            && self.weak_mask() == other.weak_mask()
            && self.weak.as_ref().map(Weak::state) == other.weak.as_ref().map(Weak::state)
            && (self.limits.endurance.is_none() || self.erases == other.erases)
    }

    /// A number that is equal for chips of [`Chip::same_cells`], and differs
    /// for others but by chance, once in 2^64 pairs or so.
    #[must_use]
    pub fn fingerprint(&self) -> u64 {
        let mut print = fingerprint::of(0, self.content());
        print = fingerprint::of(print, self.programs());
        if let Some(weak) = &self.weak {
            print = fingerprint::of(print, weak.mask());
            print = weak.state().into_iter().fold(print, fingerprint::fold);
        }
        for stuck in &self.stuck {
            let at = u64::from(matches!(stuck.at, StuckAt::One));
            print =
                fingerprint::fold(print, (stuck.byte as u64) << 9 | at << 8 | u64::from(stuck.bit));
        }
        if self.limits.endurance.is_some() {
            for erases in &self.erases {
                print = fingerprint::fold(print, u64::from(*erases));
            }
        }
        print
    }

    /// The programs of each word, if they are limited.
    fn programs(&self) -> &[u8] {
        let words = self.cells.as_ref().len() / WORD;
        let programs = self.programs.as_ref().map(AsRef::as_ref);
        programs.and_then(|programs| programs.get(..words)).unwrap_or_default()
    }

    /// The bytes that `length` of them at `address` are.
    pub(super) fn range(&self, address: u32, length: usize) -> Result<Range<usize>, FlashError> {
        let from = usize::try_from(address).map_err(|_| FlashError::Bounds)?;
        let to = from.checked_add(length).ok_or(FlashError::Bounds)?;
        if to > self.capacity() { Err(FlashError::Bounds) } else { Ok(from..to) }
    }

    /// How a page that may be worn answers.
    pub(super) fn worn(&self, page: usize) -> Option<Worn> {
        let Endurance { erases, then } = self.limits.endurance?;
        (self.erases.get(page).copied().unwrap_or_default() >= erases).then_some(then)
    }

    /// Stuck bits read what they are stuck at.
    pub(super) fn hold_stuck(&mut self) {
        for stuck in &self.stuck {
            if let Some(cell) = self.cells.as_mut().get_mut(stuck.byte) {
                match stuck.at {
                    StuckAt::Zero => *cell &= !stuck.bit,
                    StuckAt::One => *cell |= stuck.bit,
                }
            }
            if let Some(weak) = &mut self.weak {
                weak.settle(stuck.byte, stuck.bit);
            }
        }
    }
}

impl<const WORD: usize, const PAGE: usize, B: Clone> Clone for Chip<WORD, PAGE, B> {
    fn clone(&self) -> Self {
        Self {
            cells: self.cells.clone(),
            weak: self.weak.clone(),
            programs: self.programs.clone(),
            erases: self.erases.clone(),
            stuck: self.stuck.clone(),
            ..*self
        }
    }

    fn clone_from(&mut self, from: &Self) {
        let Self { cells, weak, programs, erases, stuck, limits, violations } = self;
        cells.clone_from(&from.cells);
        weak.clone_from(&from.weak);
        programs.clone_from(&from.programs);
        erases.clone_from(&from.erases);
        stuck.clone_from(&from.stuck);
        (*limits, *violations) = (from.limits, from.violations);
    }
}

/// A summary: the content is long.
impl<const WORD: usize, const PAGE: usize, B> fmt::Debug for Chip<WORD, PAGE, B>
where
    B: AsRef<[u8]> + AsMut<[u8]> + Clone,
{
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.debug_struct("Chip")
            .field("pages", &self.erases.len())
            .field("fingerprint", &self.fingerprint())
            .field("weak_bits", &self.weak_bits())
            .field("stuck", &self.stuck)
            .field("limits", &self.limits)
            .field("violations", &self.violations)
            .finish_non_exhaustive()
    }
}
