//! Flash that corrects errors: a word that a power cut tore cannot be read at all. What
//! `docs/porting.md` asks of its driver, to hand out zeros for such a word, is enough.

use std::collections::BTreeSet;

use embedded_storage::nor_flash::{ErrorType, NorFlashErrorKind, ReadNorFlash};

use super::*;
use crate::audit::Entry;

const WORD: usize = 8;
const PAGE: usize = 2_048;

/// What the driver does with a word that cannot be read.
#[derive(Clone, Copy, PartialEq)]
enum Driver {
    HandsOutZeros,
    Fails,
}

struct Corrected {
    cells: Vec<u8>,
    /// Where a word was torn.
    torn: BTreeSet<usize>,
    driver: Driver,
    /// Words and pages until the power ends, within the last of them.
    left: usize,
}

impl Corrected {
    /// Whether the next step is done to its end.
    fn step(&mut self, at: usize) -> Result<(), NorFlashErrorKind> {
        self.left = self.left.saturating_sub(1);
        match self.left {
            0 => {
                self.torn.insert(at);
                // Nothing more reaches the cells.
                Err(NorFlashErrorKind::Other)
            }
            _ => Ok(()),
        }
    }
}

impl ErrorType for Corrected {
    type Error = NorFlashErrorKind;
}

impl ReadNorFlash for Corrected {
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), NorFlashErrorKind> {
        let from = usize::try_from(offset).unwrap();
        for (at, byte) in (from..).zip(bytes) {
            *byte = match (self.torn.contains(&(at / WORD * WORD)), self.driver) {
                (false, _) => self.cells[at],
                (true, Driver::HandsOutZeros) => 0,
                (true, Driver::Fails) => return Err(NorFlashErrorKind::Other),
            };
        }
        Ok(())
    }

    fn capacity(&self) -> usize {
        self.cells.len()
    }
}

impl NorFlash for Corrected {
    const WRITE_SIZE: usize = WORD;
    const ERASE_SIZE: usize = PAGE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), NorFlashErrorKind> {
        let (from, to) = (usize::try_from(from).unwrap(), usize::try_from(to).unwrap());
        for page in (from..to).step_by(PAGE) {
            self.torn.retain(|at| !(page..page + PAGE).contains(at));
            self.step(page)?;
            self.cells[page..page + PAGE].fill(0xFF);
        }
        Ok(())
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), NorFlashErrorKind> {
        let from = usize::try_from(offset).unwrap();
        for (at, word) in (from..).step_by(WORD).zip(bytes.chunks(WORD)) {
            self.step(at)?;
            for (cell, byte) in self.cells[at..].iter_mut().zip(word) {
                *cell &= byte;
            }
        }
        Ok(())
    }
}

/// A lock's store after `cut` steps, which end in a torn word or page: how many records
/// were acknowledged, and what is found when the power is back.
fn after(cut: usize, driver: Driver) -> (usize, Result<usize, Fault>) {
    let layout = Layout::for_pages_of(PAGE).unwrap();
    let bytes = usize::try_from(layout.bytes(PAGE).unwrap()).unwrap();
    let (cells, torn) = (vec![0; bytes], BTreeSet::new());
    let flash = Corrected { cells, torn, driver: Driver::HandsOutZeros, left: usize::MAX };
    let mut store = FlashStore::format(flash, layout, &plain_settings()).ok().unwrap();
    let mut flash = {
        put(
            &mut store,
            &Write::Record(Record { at: None, event: Event::PoweredUp { unrecorded: 0 } }),
        )
        .unwrap();
        store.into_flash()
    };
    (flash.left, flash.driver) = (cut, driver);
    let (mut store, found) = FlashStore::mount(flash, layout);
    let mut acknowledged = 1;
    if found.known.is_ok() {
        for _ in 0..4 {
            let record = Write::Record(Record { at: None, event: Event::Lapsed });
            if put(&mut store, &Write::Tally(Tally::Counted(number(1)))).is_err()
                || put(&mut store, &record).is_err()
            {
                break;
            }
            acknowledged += 1;
        }
    }
    let mut flash = store.into_flash();
    flash.left = usize::MAX;
    let (mut store, found) = FlashStore::mount(flash, layout);
    let known = found.known.as_ref().err().copied();
    let records = store.records(Seq(0)).filter(|entry| matches!(entry, Entry::Record(..)));
    (acknowledged, known.map_or(Ok(records.count()), Err))
}

/// Wherever the power ends: the settings are there, what was acknowledged is there, and at
/// most one record more.
#[test]
fn a_torn_word_that_reads_as_zeros_costs_nothing() {
    let mut lost = 0;
    for cut in 1..120 {
        let (acknowledged, found) = after(cut, Driver::HandsOutZeros);
        let records = found.unwrap_or_else(|fault| panic!("{fault:?} after {cut} steps"));
        assert!((acknowledged..=acknowledged + 1).contains(&records), "{cut}: {records}");
        // A driver that passes the error on makes a lock that asks for service.
        lost += usize::from(after(cut, Driver::Fails).1 == Err(Fault::Store));
    }
    assert!(lost > 20, "only {lost} cuts tear anything");
}
