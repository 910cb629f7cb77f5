//! How a bank's rows are written, kind by kind.

use embedded_storage::nor_flash::NorFlash;

use super::bank::Bank;
use super::calendar::CalendarRows;
use super::layout::Layout;
use super::pages::Pages;
use super::policy_row;
use super::rows::{self, CalendarAt, FileRow, Filled, Kind, RowName};
use crate::code::LockKey;
use crate::holder::HolderRow;
use crate::pairing::Pairing;
use crate::port::StoreFault;
use crate::settings::Settings;

impl Bank {
    pub(super) fn write_rows<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        layout: &Layout,
        settings: &Settings,
    ) -> Result<(), StoreFault> {
        let only = RowName::only;
        self.write(pages, only(Kind::Policy), Filled::Yes, |put| {
            policy_row::put(&settings.policy, None, put);
        })?;
        self.write_zone(pages, Kind::Zone, &settings.zone)?;
        self.write_key(pages, &settings.key)?;
        self.write_pairing(pages, settings.pairing.as_ref(), 0)?;
        for (number, row) in (0..).zip(&settings.holders) {
            self.write_holder(pages, number, row.as_ref(), 0)?;
        }
        let at = CalendarAt { region: 0, generation: self.generation() };
        CalendarRows::at(layout, at).write(pages, &settings.calendar, &settings.zone)?;
        self.write_file(pages, &FileRow { calendar: Some(at), ..FileRow::NONE })
    }

    pub(super) fn write_file<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        row: &FileRow,
    ) -> Result<(), StoreFault> {
        let name = RowName::only(Kind::File);
        self.write(pages, name, Filled::Yes, |put| rows::put_file(row, put))
    }

    pub(super) fn write_key<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        key: &LockKey,
    ) -> Result<(), StoreFault> {
        self.write(pages, RowName::only(Kind::Key), Filled::Yes, |put| {
            put.bytes(key.as_bytes());
        })
    }

    pub(super) fn write_zone<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        kind: Kind,
        text: &str,
    ) -> Result<(), StoreFault> {
        let length = u8::try_from(text.len()).map_err(|_| StoreFault)?;
        let name = RowName { kind, index: length };
        self.write(pages, name, Filled::Yes, |put| put.bytes(text.as_bytes()))
    }

    pub(super) fn write_pairing<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        pairing: Option<&Pairing>,
        last_generation: u32,
    ) -> Result<(), StoreFault> {
        let filled = if pairing.is_some() { Filled::Yes } else { Filled::Vacant };
        self.write(pages, RowName::only(Kind::Pairing), filled, |put| match pairing {
            Some(pairing) => rows::put_pairing(pairing, put),
            None => rows::put_last_generation(last_generation, put),
        })
    }

    pub(super) fn write_holder<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        number: u8,
        row: Option<&HolderRow>,
        spent: u32,
    ) -> Result<(), StoreFault> {
        let name = RowName { kind: Kind::Holder, index: number };
        let filled = if row.is_some() { Filled::Yes } else { Filled::Vacant };
        self.write(pages, name, filled, |put| match row {
            Some(row) => rows::put_holder(row, put),
            None if spent > 0 => rows::put_spent(spent, put),
            None => {}
        })
    }
}
