//! NOR flash in RAM.
//!
//! It behaves as a data sheet says: programming only clears bits, erasing a
//! page sets all of them, and both ask for alignment. Whoever asks for what
//! flash cannot do (raise a bit, leave the array) gets an error, never a
//! result that looks right: a store with such a mistake must not pass here.
//!
//! A program of one word and an erase of one page are one step each, and
//! steps are counted. [`RamFlash::cut_after`] ends the power between two of
//! them: what was done stays, the rest never happens, every call fails until
//! [`RamFlash::power_cycle`].

use embedded_storage::nor_flash::{
    ErrorType, NorFlash, NorFlashError, NorFlashErrorKind, ReadNorFlash,
};
use heapless::Vec;

/// What an erased byte reads.
pub const ERASED: u8 = 0xFF;

/// Pages that one flash can have at most.
pub const PAGES: usize = 1_024;

/// Operations that a trace keeps; later ones are counted only.
pub const TRACE: usize = 128;

/// Why a call failed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum FlashError {
    /// An address or length that is no multiple of what the flash asks for.
    Alignment,
    /// Beyond the end of the flash.
    Bounds,
    /// A program that would raise a bit.
    RaisesBits,
    /// The power is out, since [`RamFlash::cut_after`] or
    /// [`RamFlash::power_cut`].
    PowerOut,
    /// One of the failures that [`RamFlash::fail_next_writes`] or
    /// [`RamFlash::deny_next_writes`] ordered.
    Ordered,
}

impl NorFlashError for FlashError {
    fn kind(&self) -> NorFlashErrorKind {
        match self {
            Self::Alignment => NorFlashErrorKind::NotAligned,
            Self::Bounds => NorFlashErrorKind::OutOfBounds,
            Self::RaisesBits | Self::PowerOut | Self::Ordered => NorFlashErrorKind::Other,
        }
    }
}

/// What was asked of a flash.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum OpKind {
    /// Reading.
    Read,
    /// Programming.
    Program,
    /// Erasing.
    Erase,
}

/// One call, as it shows from outside the flash.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Op {
    /// What was asked.
    pub kind: OpKind,
    /// The first byte.
    pub address: u32,
    /// How many bytes.
    pub length: u32,
}

/// The calls since a trace was begun.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Trace {
    /// The first [`TRACE`] of them, in order.
    pub ops: Vec<Op, TRACE>,
    /// How many came after those.
    pub more: u32,
}

/// How many of the coming writes are to go wrong, and how.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Orders {
    None,
    /// They fail and say so.
    Fail(u32),
    /// They do nothing and say that all is well.
    Lie(u32),
    /// They do as asked and say that they failed.
    Deny(u32),
}

/// A flash of words of `WORD` bytes in pages of `PAGE` bytes, kept in `B`: an
/// array on a microcontroller, a vector on a host.
#[derive(Clone)]
pub struct RamFlash<const WORD: usize, const PAGE: usize, B> {
    bytes: B,
    erases: Vec<u32, PAGES>,
    steps: u64,
    steps_left: Option<u64>,
    orders: Orders,
    trace: Option<Trace>,
}

impl<const WORD: usize, const PAGE: usize, B: AsRef<[u8]> + AsMut<[u8]>> RamFlash<WORD, PAGE, B> {
    const GEOMETRY: () = assert!(
        WORD.is_power_of_two() && PAGE.is_power_of_two() && WORD <= PAGE,
        "words and pages are powers of two, and a page has a word at least"
    );

    /// A flash with that content. It has as many whole pages as `bytes` has,
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
        Self { bytes, erases, steps: 0, steps_left: None, orders: Orders::None, trace: None }
    }

    /// A flash as it comes from the factory: `bytes` gives its size only.
    #[must_use]
    pub fn erased(mut bytes: B) -> Self {
        bytes.as_mut().fill(ERASED);
        Self::with_content(bytes)
    }

    /// The content, as a programmer's tool would see it.
    #[must_use]
    pub fn content(&self) -> &[u8] {
        self.bytes.as_ref()
    }

    /// The content, to be spoiled.
    pub fn content_mut(&mut self) -> &mut [u8] {
        self.bytes.as_mut()
    }

    /// Words programmed and pages erased so far.
    #[must_use]
    pub const fn steps(&self) -> u64 {
        self.steps
    }

    /// How often each page was erased.
    #[must_use]
    pub fn erases(&self) -> &[u32] {
        &self.erases
    }

    /// The power ends after that many more steps.
    pub const fn cut_after(&mut self, steps: u64) {
        self.steps_left = Some(steps);
    }

    /// The power ends now.
    pub const fn power_cut(&mut self) {
        self.steps_left = Some(0);
    }

    /// The power is back, and no further cut is ordered.
    pub const fn power_cycle(&mut self) {
        self.steps_left = None;
    }

    /// The next `n` programs or erases fail, and say so.
    pub const fn fail_next_writes(&mut self, n: u32) {
        self.orders = Orders::Fail(n);
    }

    /// The next `n` programs or erases do nothing, and say that all is well.
    pub const fn lie_next_writes(&mut self, n: u32) {
        self.orders = Orders::Lie(n);
    }

    /// The next `n` programs or erases do as asked, and say that they failed.
    pub const fn deny_next_writes(&mut self, n: u32) {
        self.orders = Orders::Deny(n);
    }

    /// Whether calls are served: not between the end of the power and
    /// [`RamFlash::power_cycle`].
    #[must_use]
    pub const fn has_power(&self) -> bool {
        !matches!(self.steps_left, Some(0))
    }

    /// Begins a trace, and forgets an earlier one.
    pub fn start_trace(&mut self) {
        self.trace = Some(Trace::default());
    }

    /// Ends the trace and hands it over; empty if none was begun.
    pub fn take_trace(&mut self) -> Trace {
        self.trace.take().unwrap_or_default()
    }

    /// How many bytes can be addressed.
    fn size(&self) -> usize {
        self.erases.len().saturating_mul(PAGE)
    }

    /// Notes the call, and finds the bytes that it is about.
    fn call(
        &mut self,
        kind: OpKind,
        address: u32,
        length: usize,
        unit: usize,
    ) -> Result<core::ops::Range<usize>, FlashError> {
        if let Some(trace) = &mut self.trace {
            let length = u32::try_from(length).unwrap_or(u32::MAX);
            if trace.ops.push(Op { kind, address, length }).is_err() {
                trace.more = trace.more.saturating_add(1);
            }
        }
        let from = usize::try_from(address).map_err(|_| FlashError::Bounds)?;
        let to = from.checked_add(length).ok_or(FlashError::Bounds)?;
        if to > self.size() {
            return Err(FlashError::Bounds);
        }
        // Units are powers of two.
        let low = unit.saturating_sub(1);
        if from & low != 0 || length & low != 0 {
            return Err(FlashError::Alignment);
        }
        if self.has_power() { Ok(from..to) } else { Err(FlashError::PowerOut) }
    }

    /// Takes a step, unless the power is out.
    fn step(&mut self) -> Result<(), FlashError> {
        if let Some(left) = &mut self.steps_left {
            *left = left.checked_sub(1).ok_or(FlashError::PowerOut)?;
        }
        self.steps = self.steps.saturating_add(1);
        Ok(())
    }

    /// What to do about this write, and what to say of it.
    fn ordered(&mut self) -> (Do, Result<(), FlashError>) {
        let (left, order) = match &mut self.orders {
            Orders::None => return (Do::AsAsked, Ok(())),
            Orders::Fail(left) => (left, (Do::Nothing, Err(FlashError::Ordered))),
            Orders::Lie(left) => (left, (Do::Nothing, Ok(()))),
            Orders::Deny(left) => (left, (Do::AsAsked, Err(FlashError::Ordered))),
        };
        match left.checked_sub(1) {
            None => (Do::AsAsked, Ok(())),
            Some(rest) => {
                *left = rest;
                order
            }
        }
    }
}

enum Do {
    AsAsked,
    Nothing,
}

impl<const WORD: usize, const PAGE: usize, B> ErrorType for RamFlash<WORD, PAGE, B> {
    type Error = FlashError;
}

impl<const WORD: usize, const PAGE: usize, B: AsRef<[u8]> + AsMut<[u8]>> ReadNorFlash
    for RamFlash<WORD, PAGE, B>
{
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), FlashError> {
        let range = self.call(OpKind::Read, offset, bytes.len(), Self::READ_SIZE)?;
        let from = self.bytes.as_ref().get(range).ok_or(FlashError::Bounds)?;
        for (to, from) in bytes.iter_mut().zip(from) {
            *to = *from;
        }
        Ok(())
    }

    fn capacity(&self) -> usize {
        self.size()
    }
}

impl<const WORD: usize, const PAGE: usize, B: AsRef<[u8]> + AsMut<[u8]>> NorFlash
    for RamFlash<WORD, PAGE, B>
{
    const WRITE_SIZE: usize = WORD;
    const ERASE_SIZE: usize = PAGE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), FlashError> {
        let length = to.checked_sub(from).ok_or(FlashError::Bounds)?;
        let length = usize::try_from(length).map_err(|_| FlashError::Bounds)?;
        let range = self.call(OpKind::Erase, from, length, PAGE)?;
        let (what, say) = self.ordered();
        if matches!(what, Do::Nothing) {
            return say;
        }
        for page in range.step_by(PAGE) {
            self.step()?;
            let end = page.saturating_add(PAGE);
            self.bytes.as_mut().get_mut(page..end).ok_or(FlashError::Bounds)?.fill(ERASED);
            // The geometry asserts that PAGE is no zero.
            if let Some(count) = page.checked_div(PAGE).and_then(|n| self.erases.get_mut(n)) {
                *count = count.saturating_add(1);
            }
        }
        say
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), FlashError> {
        let range = self.call(OpKind::Program, offset, bytes.len(), WORD)?;
        let (what, say) = self.ordered();
        if matches!(what, Do::Nothing) {
            return say;
        }
        let kept = self.bytes.as_ref().get(range.clone()).ok_or(FlashError::Bounds)?;
        if kept.iter().zip(bytes).any(|(old, new)| !*old & *new != 0) {
            return Err(FlashError::RaisesBits);
        }
        for (from, word) in range.step_by(WORD).zip(bytes.chunks_exact(WORD)) {
            self.step()?;
            let to = self.bytes.as_mut().get_mut(from..from.saturating_add(WORD));
            for (to, from) in to.ok_or(FlashError::Bounds)?.iter_mut().zip(word) {
                *to &= *from;
            }
        }
        say
    }
}

/// The promises of `embedded_storage::nor_flash` and of the fault model.
#[cfg(test)]
mod tests {
    use super::*;

    type Small = RamFlash<4, 256, [u8; 512]>;

    fn small() -> Small {
        Small::erased([0; 512])
    }

    #[test]
    fn programming_clears_bits_and_never_raises_one() {
        let mut flash = small();
        assert_eq!(flash.write(4, &[0xF0; 4]), Ok(()));
        assert_eq!(flash.write(4, &[0x30; 4]), Ok(()));
        assert_eq!(flash.write(4, &[0x31; 4]), Err(FlashError::RaisesBits));
        assert_eq!(flash.content()[3..9], [0xFF, 0x30, 0x30, 0x30, 0x30, 0xFF]);
    }

    #[test]
    fn erasing_sets_one_page_and_counts() {
        let mut flash = Small::with_content([0; 512]);
        assert_eq!(flash.erase(256, 512), Ok(()));
        assert_eq!(flash.content()[255..257], [0, 0xFF]);
        assert_eq!(flash.erases(), [0, 1]);
        assert_eq!(flash.steps(), 1);
    }

    #[test]
    fn asks_for_alignment_and_bounds() {
        let mut flash = small();
        assert_eq!(flash.write(2, &[0; 4]), Err(FlashError::Alignment));
        assert_eq!(flash.write(4, &[0; 3]), Err(FlashError::Alignment));
        assert_eq!(flash.write(512, &[0; 4]), Err(FlashError::Bounds));
        assert_eq!(flash.erase(0, 128), Err(FlashError::Alignment));
        assert_eq!(flash.erase(256, 768), Err(FlashError::Bounds));
        assert_eq!(flash.erase(256, 0), Err(FlashError::Bounds));
        assert_eq!(flash.read(u32::MAX, &mut [0; 2]), Err(FlashError::Bounds));
        assert_eq!(flash, small());
    }

    #[test]
    fn a_cut_falls_between_words_and_lasts_until_the_power_is_back() {
        let mut flash = small();
        flash.cut_after(2);
        assert_eq!(flash.write(0, &[0; 12]), Err(FlashError::PowerOut));
        assert_eq!(flash.read(0, &mut [0; 1]), Err(FlashError::PowerOut));
        assert_eq!(flash.erase(0, 256), Err(FlashError::PowerOut));
        flash.power_cycle();
        let mut bytes = [1; 12];
        assert_eq!(flash.read(0, &mut bytes), Ok(()));
        assert_eq!(bytes, [0, 0, 0, 0, 0, 0, 0, 0, 0xFF, 0xFF, 0xFF, 0xFF]);
    }

    #[test]
    fn fails_lies_and_denies_when_told_to() {
        let mut flash = small();
        flash.fail_next_writes(1);
        assert_eq!(flash.write(0, &[0; 4]), Err(FlashError::Ordered));
        flash.lie_next_writes(1);
        assert_eq!(flash.write(0, &[0; 4]), Ok(()));
        assert_eq!(flash.content()[0], 0xFF);
        assert_eq!(flash.write(0, &[0; 4]), Ok(()));
        assert_eq!(flash.content()[0], 0);
        flash.deny_next_writes(1);
        assert_eq!(flash.erase(0, 256), Err(FlashError::Ordered));
        assert_eq!(flash.content()[0], 0xFF);
    }

    #[test]
    fn a_trace_names_kind_address_and_length() {
        let mut flash = small();
        flash.start_trace();
        let _ = (flash.write(8, &[0; 8]), flash.read(1, &mut [0; 3]), flash.erase(256, 512));
        let op = |kind, address, length| Op { kind, address, length };
        let trace = flash.take_trace();
        let expected =
            [op(OpKind::Program, 8, 8), op(OpKind::Read, 1, 3), op(OpKind::Erase, 256, 256)];
        assert_eq!(trace.ops, expected);
        assert_eq!(trace.more, 0);
        assert_eq!(flash.take_trace(), Trace::default());
    }

    impl PartialEq for Small {
        fn eq(&self, other: &Self) -> bool {
            self.content() == other.content()
        }
    }

    impl core::fmt::Debug for Small {
        fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
            f.debug_list().entries(self.content()).finish()
        }
    }
}
