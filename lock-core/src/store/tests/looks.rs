//! A block of several slots is believed only if every bit of it stays as it was.

use core::convert::Infallible;

use embedded_storage::nor_flash::{ErrorType, NorFlash, ReadNorFlash};

use super::super::bytes::seal;
use super::super::layout::{Region, SLOT};
use super::super::pages::{Pages, Place, Sight};
use crate::port::StoreFault;

const SLOTS: usize = 9;
const BLOCK: usize = SLOTS * SLOT;
const PAGE: usize = 4_096;

/// A page whose byte `at` reads otherwise from its second read on.
struct Unsteady {
    page: [u8; PAGE],
    at: usize,
    read: bool,
}

impl ErrorType for Unsteady {
    type Error = Infallible;
}

impl ReadNorFlash for Unsteady {
    const READ_SIZE: usize = 1;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), Infallible> {
        let from = usize::try_from(offset).unwrap();
        bytes.copy_from_slice(&self.page[from..from + bytes.len()]);
        if let Some(byte) = self.at.checked_sub(from).and_then(|place| bytes.get_mut(place)) {
            *byte ^= u8::from(self.read);
            self.read = true;
        }
        Ok(())
    }

    fn capacity(&self) -> usize {
        PAGE
    }
}

impl NorFlash for Unsteady {
    const WRITE_SIZE: usize = 4;
    const ERASE_SIZE: usize = PAGE;

    fn erase(&mut self, _: u32, _: u32) -> Result<(), Infallible> {
        self.page = [0xFF; PAGE];
        Ok(())
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), Infallible> {
        let from = usize::try_from(offset).unwrap();
        self.page[from..from + bytes.len()].copy_from_slice(bytes);
        Ok(())
    }
}

fn pages(at: usize, read: bool) -> Pages<Unsteady> {
    Pages(Unsteady { page: [0xFF; PAGE], at, read })
}

fn sealed() -> [u8; BLOCK] {
    let mut block = [0x5A; BLOCK];
    seal(&mut block);
    block
}

const REGION: Region = Region { first: 0, pages: 1 };
const PLACE: Place = Place { page: 0, slot: 3 };
const FIRST: usize = 3 * SLOT;

#[test]
fn a_byte_that_does_not_stay_makes_it_torn() {
    for at in 0..PAGE {
        let mut pages = pages(at, false);
        pages.0.write(u32::try_from(FIRST).unwrap(), &sealed()).unwrap();
        let mut block = [0; BLOCK];
        let sight = pages.look(REGION, PLACE, &mut block);
        let within = (FIRST..FIRST + BLOCK).contains(&at);
        assert_eq!(sight, Ok(if within { Sight::Torn } else { Sight::Whole }), "{at}");
        assert!(within || block == sealed(), "{at}");
    }
}

#[test]
fn a_byte_that_reads_otherwise_than_programmed_is_a_fault() {
    for at in 0..PAGE {
        let programmed = pages(at, true).program(REGION, PLACE, &sealed());
        let within = (FIRST..FIRST + BLOCK).contains(&at);
        assert_eq!(programmed, if within { Err(StoreFault) } else { Ok(()) }, "{at}");
    }
}
