//! What is compared: a store of records and settings behind the calls that
//! both have in common, and the bus between it and the chip.

use embedded_storage::nor_flash::{ErrorType, NorFlash, ReadNorFlash};
use emulated_board::flash::{FlashError, RamFlash};
use emulator::rig::store::chip::{Cells, Kept, Mains};

/// How many settings there are.
pub(crate) const KEYS: usize = 3;

/// Pages of the ring, or queue, of records.
pub(crate) const RECORD_PAGES: u32 = 4;

/// What of the flash is not given by its words and pages.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Shape {
    /// Pages of the map of settings, 2 or more, where the subject leaves that
    /// open.
    pub(crate) map_pages: u32,
    /// How the chip takes a program that would raise a bit.
    pub(crate) raise: Raise,
}

/// How a chip takes a program that would raise a bit.
#[derive(Clone, Copy, PartialEq, Eq, Debug, clap::ValueEnum)]
pub(crate) enum Raise {
    /// As most chips: the bit stays 0, and nothing is said.
    Ignored,
    /// With an error, before anything is programmed.
    Refused,
}

/// What a subject promises of its records.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Promise {
    /// The newest so many are listed at any moment. A cut may use up the place
    /// of one.
    pub(crate) newest: usize,
    /// Whether a boot may use up the place of one as well.
    pub(crate) boot_costs: bool,
}

/// A call that failed, in words.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct Fault(pub(crate) String);

/// What a subject lists.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub(crate) struct Listed {
    /// The records from the oldest on; `None` is one that nobody wrote.
    pub(crate) records: Vec<Option<u32>>,
    /// How many the list itself says are lost.
    pub(crate) lost: u32,
}

/// A store. What it wrote is durable when a call returns `Ok`.
pub(crate) trait Subject<const WORD: usize, const PAGE: usize>: Sized {
    /// Its name in the tables.
    const NAME: &'static str;

    /// What it promises.
    fn promise(shape: &Shape) -> Promise;

    /// A chip with the empty store.
    fn commission(shape: &Shape) -> Result<Cells<WORD, PAGE>, Fault>;

    /// Boots on what is in the chip; nothing else is known of earlier lives.
    fn boot(chip: Cells<WORD, PAGE>, shape: &Shape) -> Self;

    /// The power goes.
    fn off(self) -> Cells<WORD, PAGE>;

    /// What was done to the chip since the last call.
    fn acts(&mut self) -> Vec<Kept>;

    /// The records.
    fn list(&mut self) -> Result<Listed, Fault>;

    /// What setting `key` is, if it was ever set.
    fn setting(&mut self, key: u8) -> Result<Option<u32>, Fault>;

    /// Adds the record `n`, instead of the oldest if there is no room.
    fn record(&mut self, n: u32) -> Result<(), Fault>;

    /// Sets `key` to `n`.
    fn set(&mut self, key: u8, n: u32) -> Result<(), Fault>;

    /// Nothing is asked for a while.
    fn rest(&mut self) -> Result<(), Fault>;
}

/// Calls from one boot to the next after which a subject counts as hung. The
/// longest of them, a life of some hundred events, takes a fraction.
const CALLS: u32 = 4_000_000;

/// A chip as a store's driver sees it.
pub(crate) struct Bus<const WORD: usize, const PAGE: usize> {
    flash: RamFlash<WORD, PAGE, Vec<u8>, Mains>,
    raise: Raise,
    calls: u32,
}

impl<const WORD: usize, const PAGE: usize> Bus<WORD, PAGE> {
    pub(crate) fn new(chip: Cells<WORD, PAGE>, shape: &Shape) -> Self {
        Self { flash: RamFlash::new(chip, Mains::default()), raise: shape.raise, calls: 0 }
    }

    pub(crate) fn into_chip(self) -> Cells<WORD, PAGE> {
        self.flash.into_chip()
    }

    pub(crate) fn acts(&self) -> Vec<Kept> {
        self.flash.power().take()
    }

    fn call(&mut self) -> Result<(), FlashError> {
        self.calls = self.calls.saturating_add(1);
        if self.calls > CALLS { Err(FlashError::Ordered) } else { Ok(()) }
    }
}

impl<const WORD: usize, const PAGE: usize> ErrorType for Bus<WORD, PAGE> {
    type Error = FlashError;
}

impl<const WORD: usize, const PAGE: usize> ReadNorFlash for Bus<WORD, PAGE> {
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), FlashError> {
        self.call()?;
        self.flash.read(offset, bytes)
    }

    fn capacity(&self) -> usize {
        self.flash.capacity()
    }
}

impl<const WORD: usize, const PAGE: usize> NorFlash for Bus<WORD, PAGE> {
    const WRITE_SIZE: usize = WORD;
    const ERASE_SIZE: usize = PAGE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), FlashError> {
        self.call()?;
        self.flash.erase(from, to)
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), FlashError> {
        self.call()?;
        match (self.flash.write(offset, bytes), self.raise) {
            // Nothing of that call was done: the same again, with the bits left
            // out that cannot be raised.
            (Err(FlashError::RaisesBits), Raise::Ignored) => {
                let from = usize::try_from(offset).map_err(|_| FlashError::Bounds)?;
                let cells = self.flash.content().iter().skip(from);
                let falling: Vec<u8> =
                    bytes.iter().zip(cells).map(|(new, old)| new & old).collect();
                self.flash.write(offset, &falling)
            }
            (result, _) => result,
        }
    }
}
