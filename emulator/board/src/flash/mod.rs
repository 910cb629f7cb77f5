//! NOR flash in RAM.
//!
//! It behaves as a data sheet says: programming only clears bits, erasing a
//! page sets all of them, and both ask for alignment. Whoever asks for what
//! flash cannot do (raise a bit, program a word too often, leave the array)
//! gets an error, never a result that looks right: a store with such a mistake
//! must not pass here.
//!
//! | part | what it is |
//! | --- | --- |
//! | [`Chip`] | the cells: content, weak bits, wear; limits; faults at rest |
//! | [`RamFlash`] | a chip on a bus, with power: the `NorFlash` |
//! | [`fuse`](crate::fuse) | the power, which counts steps and ends |
//!
//! # Cuts
//! A program of one word and an erase of one page are one step each. The
//! power counts them, and may end between two of them or within one. Then
//! every call fails until the power is back. What a step leaves that the power
//! ended within, its *class* says:
//!
//! | class | program of a word | erase of a page |
//! | --- | --- | --- |
//! | before | nothing | nothing |
//! | after | all of it, not reported | all of it, not reported |
//! | prefix, suffix | the part before or from a byte or bit | the same |
//! | subset | any of the falling bits | any of the rising bits |
//! | random | as subset | any content |
//! | unstable | a subset; the other falling bits are weak | the same, rising |
//! | looks done | reads complete; some falling bits are weak | the same, rising |
//!
//! A weak bit reads 0 or 1, from read to read. It settles when a whole program
//! makes it 0 or a whole erase 1, and by nothing else: in a torn step it stays
//! weak. After *looks done* weak bits sleep first, for one whole boot or for a
//! number of reads. The seed decides which bits, where a part ends, and what is read.
//!
//! # What counts as a program and as an erase
//! A torn program counts as one of its word if it changed or weakened a bit. A
//! torn erase wears its page, unless it was torn *before*; the words that it
//! reached and left without a bit settled at 0 may be programmed anew, though
//! some of their bits may be weak: no lock can tell them from blank ones.

mod calls;
mod chip;
mod error;
mod fingerprint;
mod image;
mod limits;
mod orders;
mod steps;
mod tear;
mod weak;

#[cfg(test)]
mod tests;

use core::ops::Range;

use embedded_storage::nor_flash::{ErrorType, NorFlash, ReadNorFlash};

pub use calls::{Op, OpKind, TRACE, Trace};
pub use chip::{Chip, ERASED, PAGES, STUCK, StuckAt};
pub use error::FlashError;
pub use image::WEAK_STATE;
pub use limits::{Endurance, Limits, PerWord, Violations, Worn};

use crate::fuse::{Act, Fuse, Power, Step};
use orders::{Do, Due, Orders, Writes};

/// A flash of words of `WORD` bytes in pages of `PAGE` bytes, kept in `B`: an
/// array on a microcontroller, a vector on a host. `P` is its power: a supply
/// of its own, or a reference to one that a whole board shares.
#[derive(Clone)]
pub struct RamFlash<const WORD: usize, const PAGE: usize, B, P = Fuse> {
    chip: Chip<WORD, PAGE, B>,
    power: P,
    /// Returns of the power that the chip knows of.
    returns: u64,
    orders: Orders,
    trace: Option<Trace>,
}

impl<const WORD: usize, const PAGE: usize, B, P> RamFlash<WORD, PAGE, B, P>
where
    B: AsRef<[u8]> + AsMut<[u8]> + Clone,
    P: Power,
{
    /// A flash of that chip, on that power. The chip was without power before.
    #[must_use]
    pub fn new(mut chip: Chip<WORD, PAGE, B>, power: P) -> Self {
        chip.power_up();
        let returns = power.returns();
        Self { chip, power, returns, orders: Orders::default(), trace: None }
    }

    /// The cells.
    #[must_use]
    pub const fn chip(&self) -> &Chip<WORD, PAGE, B> {
        &self.chip
    }

    /// The cells, to be spoiled.
    pub const fn chip_mut(&mut self) -> &mut Chip<WORD, PAGE, B> {
        &mut self.chip
    }

    /// The cells alone.
    #[must_use]
    pub fn into_chip(self) -> Chip<WORD, PAGE, B> {
        self.chip
    }

    /// The power.
    #[must_use]
    pub const fn power(&self) -> &P {
        &self.power
    }

    /// As [`Chip::content`].
    #[must_use]
    pub fn content(&self) -> &[u8] {
        self.chip.content()
    }

    /// As [`Chip::content_mut`].
    pub fn content_mut(&mut self) -> &mut [u8] {
        self.chip.content_mut()
    }

    /// As [`Chip::erases`].
    #[must_use]
    pub fn erases(&self) -> &[u32] {
        self.chip.erases()
    }

    /// The next `n` programs or erases fail, and say so.
    pub const fn fail_next_writes(&mut self, n: u32) {
        self.orders.writes(Writes::Fail(n));
    }

    /// The next `n` programs or erases do nothing, and say that all is well.
    pub const fn lie_next_writes(&mut self, n: u32) {
        self.orders.writes(Writes::Lie(n));
    }

    /// The next `n` programs or erases do as asked, and say that they failed.
    pub const fn deny_next_writes(&mut self, n: u32) {
        self.orders.writes(Writes::Deny(n));
    }

    /// A fault of the bus that passes: `after` more calls of that kind work,
    /// then `count` fail, do nothing, and say so.
    pub const fn fail_calls(&mut self, kind: OpKind, after: u32, count: u32) {
        self.orders.fail(kind, Due { after, count });
    }

    /// Whether calls are served: not between the end of the power and its
    /// return.
    #[must_use]
    pub fn has_power(&self) -> bool {
        self.power.is_on()
    }

    /// Begins a trace, and forgets an earlier one.
    pub fn start_trace(&mut self) {
        self.trace = Some(Trace::default());
    }

    /// Ends the trace and hands it over; empty if none was begun.
    pub fn take_trace(&mut self) -> Trace {
        self.trace.take().unwrap_or_default()
    }

    /// Notes the call, and finds the bytes that it is about.
    fn call(
        &mut self,
        kind: OpKind,
        address: u32,
        length: usize,
        unit: usize,
    ) -> Result<Range<usize>, FlashError> {
        if let Some(trace) = &mut self.trace {
            trace.note(kind, address, length);
        }
        let range = self.chip.range(address, length)?;
        // Units are powers of two.
        let low = unit.saturating_sub(1);
        if range.start & low != 0 || length & low != 0 {
            return Err(FlashError::Alignment);
        }
        if !self.power.is_on() {
            return Err(FlashError::PowerOut);
        }
        let returns = self.power.returns();
        while self.returns < returns {
            self.returns = self.returns.saturating_add(1);
            self.chip.power_up();
        }
        Ok(range)
    }

    /// Does `act`, as far as the power goes.
    fn step(&mut self, act: &Act<'_>) -> Result<(), FlashError> {
        match self.power.step(*act) {
            Step::Whole => self.chip.carry_out(act),
            Step::Torn(class, seed) => {
                self.chip.tear_checked(act, class, seed);
                Err(FlashError::PowerOut)
            }
            Step::Nothing => Err(FlashError::PowerOut),
        }
    }
}

impl<const WORD: usize, const PAGE: usize, B> RamFlash<WORD, PAGE, B>
where
    B: AsRef<[u8]> + AsMut<[u8]> + Clone,
{
    /// A flash with that content, as [`Chip::with_content`], on a power of its
    /// own.
    #[must_use]
    pub fn with_content(bytes: B) -> Self {
        Self::new(Chip::with_content(bytes), Fuse::new())
    }

    /// A flash as it comes from the factory: `bytes` gives its size only.
    #[must_use]
    pub fn erased(bytes: B) -> Self {
        Self::new(Chip::erased(bytes), Fuse::new())
    }

    /// Steps begun so far, as [`Fuse::steps`].
    #[must_use]
    pub fn steps(&self) -> u64 {
        self.power.steps()
    }

    /// The power ends after that many more steps, as [`Fuse::cut_after`].
    pub fn cut_after(&mut self, steps: u64) {
        self.power.cut_after(steps);
    }

    /// The power ends now.
    pub fn power_cut(&mut self) {
        self.power.power_cut();
    }

    /// The power is back, and no further cut is ordered.
    pub fn power_cycle(&mut self) {
        self.power.power_cycle();
    }
}

impl<const WORD: usize, const PAGE: usize, B, P> ErrorType for RamFlash<WORD, PAGE, B, P> {
    type Error = FlashError;
}

impl<const WORD: usize, const PAGE: usize, B, P> ReadNorFlash for RamFlash<WORD, PAGE, B, P>
where
    B: AsRef<[u8]> + AsMut<[u8]> + Clone,
    P: Power,
{
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), FlashError> {
        let range = self.call(OpKind::Read, offset, bytes.len(), Self::READ_SIZE)?;
        let (_, say) = self.orders.for_call(OpKind::Read);
        say?;
        self.chip.read_at(range, bytes)
    }

    fn capacity(&self) -> usize {
        self.chip.capacity()
    }
}

impl<const WORD: usize, const PAGE: usize, B, P> NorFlash for RamFlash<WORD, PAGE, B, P>
where
    B: AsRef<[u8]> + AsMut<[u8]> + Clone,
    P: Power,
{
    const WRITE_SIZE: usize = WORD;
    const ERASE_SIZE: usize = PAGE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), FlashError> {
        let length = to.checked_sub(from).ok_or(FlashError::Bounds)?;
        let length = usize::try_from(length).map_err(|_| FlashError::Bounds)?;
        let range = self.call(OpKind::Erase, from, length, PAGE)?;
        let (what, say) = self.orders.for_call(OpKind::Erase);
        if matches!(what, Do::Nothing) {
            return say;
        }
        for page in range.step_by(PAGE) {
            let page = u32::try_from(page / PAGE).map_err(|_| FlashError::Bounds)?;
            self.step(&Act::Erase { page })?;
        }
        say
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), FlashError> {
        let range = self.call(OpKind::Program, offset, bytes.len(), WORD)?;
        let (what, say) = self.orders.for_call(OpKind::Program);
        if matches!(what, Do::Nothing) {
            return say;
        }
        let at = |byte: usize| u32::try_from(byte).map_err(|_| FlashError::Bounds);
        let words = || range.clone().step_by(WORD).zip(bytes.chunks_exact(WORD));
        // Nothing of a call is done that asks for what flash cannot do.
        for (byte, word) in words() {
            self.chip.check(&Act::Program { address: at(byte)?, word })?;
        }
        for (byte, word) in words() {
            self.step(&Act::Program { address: at(byte)?, word })?;
        }
        say
    }
}
