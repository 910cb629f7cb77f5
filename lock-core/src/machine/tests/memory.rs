//! Memory that fails when a story says so.

use std::cell::Cell;
use std::rc::Rc;

use embedded_storage::nor_flash::{ErrorType, NorFlash, NorFlashErrorKind, ReadNorFlash};
use zeroize::Zeroize;

use crate::store::Ram;

/// What the memory no longer does.
#[derive(Clone, Default)]
pub(super) struct Ails(Rc<Cell<(bool, bool)>>);

impl Ails {
    pub(super) fn set(&self, ails: &str) {
        self.0.set(match ails {
            "whole" => (false, false),
            "takes nothing" => (true, false),
            "says nothing" => (false, true),
            unknown => panic!("memory does not fail so: {unknown:?}"),
        });
    }

    fn ails(&self, which: fn((bool, bool)) -> bool) -> Result<(), NorFlashErrorKind> {
        if which(self.0.get()) { Err(NorFlashErrorKind::Other) } else { Ok(()) }
    }
}

pub(super) struct Memory(Ram, Ails);

impl Memory {
    pub(super) fn blank(ails: Ails) -> Self {
        Self(Ram::blank(), ails)
    }
}

impl Zeroize for Memory {
    fn zeroize(&mut self) {
        self.0.zeroize();
    }
}

impl ErrorType for Memory {
    type Error = NorFlashErrorKind;
}

impl ReadNorFlash for Memory {
    const READ_SIZE: usize = Ram::READ_SIZE;

    fn read(&mut self, offset: u32, bytes: &mut [u8]) -> Result<(), NorFlashErrorKind> {
        self.1.ails(|(_, reads)| reads)?;
        self.0.read(offset, bytes)
    }

    fn capacity(&self) -> usize {
        self.0.capacity()
    }
}

impl NorFlash for Memory {
    const WRITE_SIZE: usize = Ram::WRITE_SIZE;
    const ERASE_SIZE: usize = Ram::ERASE_SIZE;

    fn erase(&mut self, from: u32, to: u32) -> Result<(), NorFlashErrorKind> {
        self.1.ails(|(writes, _)| writes)?;
        self.0.erase(from, to)
    }

    fn write(&mut self, offset: u32, bytes: &[u8]) -> Result<(), NorFlashErrorKind> {
        self.1.ails(|(writes, _)| writes)?;
        self.0.write(offset, bytes)
    }
}
