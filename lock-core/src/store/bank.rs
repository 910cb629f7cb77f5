//! The settings in one bank: written whole, header last, and read row by row.
//!
//! There are two banks, so that later settings can be written beside those in
//! force; the header with the higher generation counts. Every row carries its
//! name, the low half of its generation and a check value, so that no row is
//! ever taken for another or for an older one. A bank whose header counts but
//! whose rows cannot be read is never passed over for the older one: settings
//! that were replaced do not come back.

use embedded_storage::nor_flash::NorFlash;
use zeroize::Zeroizing;

use super::bytes::{ERASED, Put, Take, is_sealed, seal};
use super::layout::{Layout, Region, SLOT, Which};
use super::pages::{Pages, Place};
use super::rows::{
    self, CLOSURE_ROWS, CLOSURES_A_ROW, Filled, Kind, LONG, RowName, SPECIAL_ROWS, VERSION,
};
use crate::holder::{HolderRow, Number};
use crate::port::{Fault, StoreFault};
use crate::recovered::Known;
use crate::rules::Unreadable;
use crate::settings::Settings;
use crate::time::{Date, Weekday, Zone};
use crate::timetable::{Day, TimetableId};

/// The bank whose settings are in force.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) struct Bank {
    region: Region,
    generation: u32,
}

impl Bank {
    /// Writes `settings` into the first bank, which must be erased.
    pub(super) fn commission<F: NorFlash>(
        pages: &mut Pages<F>,
        layout: &Layout,
        settings: &Settings,
    ) -> Result<Self, StoreFault> {
        let bank = Self { region: layout.bank(Which::First), generation: 1 };
        bank.write_rows(pages, settings)?;
        bank.write::<LONG, F>(pages, HEADER, Filled::Yes, |put| put.u32(bank.generation))?;
        Ok(bank)
    }

    /// The bank in force, or [`Fault::Blank`] if both are erased, or
    /// [`Fault::Settings`].
    pub(super) fn find<F: NorFlash>(pages: &mut Pages<F>, layout: &Layout) -> Result<Self, Fault> {
        let banks = [layout.bank(Which::First), layout.bank(Which::Second)];
        let found = banks.map(|region| Self::header(pages, region));
        if let Some(bank) = found.into_iter().flatten().max_by_key(|bank| bank.generation) {
            return Ok(bank);
        }
        for region in banks {
            for page in 0..region.pages {
                if pages.is_blank(region, page) != Ok(true) {
                    return Err(Fault::Settings);
                }
            }
        }
        Err(Fault::Blank)
    }

    fn header<F: NorFlash>(pages: &mut Pages<F>, region: Region) -> Option<Self> {
        let row = pages.read::<LONG>(region, place(HEADER)).ok()?;
        if !is_sealed(&row) {
            return None;
        }
        let mut whole = Take::from(&row);
        whole.u32();
        let generation = whole.u32();
        HEADER.take(generation, &mut Take::from(&row))?;
        Some(Self { region, generation })
    }

    /// What the machine keeps in memory.
    pub(super) fn known<F: NorFlash>(self, pages: &mut Pages<F>) -> Result<Known, Unreadable> {
        let policy = self.read::<LONG, _, _>(pages, RowName::only(Kind::Policy), |_, take| {
            rows::take_policy(take)
        })?;
        let text = self.zone_text(pages)?;
        let zone = Zone::parse(&text).map_err(|_| Unreadable)?;
        let key = self.read::<LONG, _, _>(pages, RowName::only(Kind::Key), |_, take| {
            Some(rows::take_key(take))
        })?;
        Ok(Known { policy, zone, key })
    }

    /// The zone rule as it was set. The length of the text is the row's index.
    fn zone_text<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
    ) -> Result<heapless::String<{ crate::settings::ZONE_TEXT }>, Unreadable> {
        let at = place(RowName::only(Kind::Zone));
        let [_, length, ..] = pages.read::<SLOT>(self.region, at).map_err(|_| Unreadable)?;
        let name = RowName { kind: Kind::Zone, index: length };
        self.read::<LONG, _, _>(pages, name, |_, take| rows::take_zone(length, take))
    }

    /// The row of holder `number`.
    pub(super) fn holder<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        number: Number,
    ) -> Result<Option<HolderRow>, Unreadable> {
        self.read::<LONG, _, _>(pages, rows::holder_row(number), |filled, take| match filled {
            Filled::Vacant => Some(None),
            Filled::Yes => rows::take_holder(take).map(Some),
        })
    }

    /// What `date` is to timetable `id`: a closure, else a special day, else
    /// its weekday.
    pub(super) fn day<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        id: TimetableId,
        date: Date,
    ) -> Result<Day, Unreadable> {
        for index in 0..CLOSURE_ROWS {
            let name = RowName { kind: Kind::Closures, index };
            let closures =
                self.read::<SLOT, _, _>(pages, name, |_, take| rows::take_closures(take))?;
            let hit = |c: &crate::timetable::Closure| {
                c.timetables.has(id) && c.from <= date && date <= c.to
            };
            if closures.iter().any(hit) {
                return Ok(Day::Closed);
            }
            if closures.len() < CLOSURES_A_ROW {
                break;
            }
        }
        for index in 0..SPECIAL_ROWS {
            let name = RowName { kind: Kind::Special, index };
            let special = self.read::<SLOT, _, _>(pages, name, |filled, take| match filled {
                Filled::Vacant => Some(None),
                Filled::Yes => rows::take_special(take).map(Some),
            })?;
            match special {
                None => break,
                Some(special) if special.date == date && special.timetables.has(id) => {
                    return Ok(Day::Windows(special.windows));
                }
                Some(_) => {}
            }
        }
        let name = RowName::day(id, date.weekday());
        let windows = self.read::<SLOT, _, _>(pages, name, |_, take| rows::take_day(take))?;
        Ok(Day::Windows(windows))
    }

    /// Reads a row, checks that it is that one, and takes its fields. Some
    /// rows are secret, so what was read is wiped.
    fn read<const N: usize, F: NorFlash, T>(
        self,
        pages: &mut Pages<F>,
        name: RowName,
        fields: impl FnOnce(Filled, &mut Take<'_>) -> Option<T>,
    ) -> Result<T, Unreadable> {
        let mut row = Zeroizing::new([0; N]);
        pages.read_into(self.region, place(name), &mut row).map_err(|_| Unreadable)?;
        if !is_sealed(&row) {
            return Err(Unreadable);
        }
        let mut take = Take::from(&*row);
        let filled = name.take(self.generation, &mut take).ok_or(Unreadable)?;
        fields(filled, &mut take).ok_or(Unreadable)
    }

    /// Writes a row and reads it back.
    fn write<const N: usize, F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        name: RowName,
        filled: Filled,
        fields: impl FnOnce(&mut Put<'_>),
    ) -> Result<(), StoreFault> {
        let mut row = Zeroizing::new([ERASED; N]);
        let mut put = Put::into(&mut *row);
        name.put(filled, self.generation, &mut put);
        fields(&mut put);
        seal(&mut row);
        let mut seen = Zeroizing::new([0; N]);
        pages.program(self.region, place(name), &row, &mut seen)
    }

    fn write_rows<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        settings: &Settings,
    ) -> Result<(), StoreFault> {
        let only = RowName::only;
        self.write::<LONG, F>(pages, only(Kind::Policy), Filled::Yes, |put| {
            rows::put_policy(&settings.policy, put);
        })?;
        let length = u8::try_from(settings.zone.len()).map_err(|_| StoreFault)?;
        let zone = RowName { kind: Kind::Zone, index: length };
        self.write::<LONG, F>(pages, zone, Filled::Yes, |put| {
            put.bytes(settings.zone.as_bytes());
        })?;
        self.write::<LONG, F>(pages, only(Kind::Key), Filled::Yes, |put| {
            put.bytes(settings.key.as_bytes());
        })?;
        for (index, row) in (0..).zip(&settings.holders) {
            let name = RowName { kind: Kind::Holder, index };
            let filled = if row.is_some() { Filled::Yes } else { Filled::Vacant };
            self.write::<LONG, F>(pages, name, filled, |put| {
                if let Some(row) = row {
                    rows::put_holder(row, put);
                }
            })?;
        }
        self.write_calendar(pages, settings)
    }

    fn write_calendar<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        settings: &Settings,
    ) -> Result<(), StoreFault> {
        for (id, week) in TimetableId::ALL.into_iter().zip(&settings.calendar.weeks) {
            for (weekday, windows) in Weekday::ALL.into_iter().zip(week) {
                self.write::<SLOT, F>(pages, RowName::day(id, weekday), Filled::Yes, |put| {
                    rows::put_day(windows, put);
                })?;
            }
        }
        let mut closures = settings.calendar.closures.chunks(CLOSURES_A_ROW);
        for index in 0..CLOSURE_ROWS {
            let name = RowName { kind: Kind::Closures, index };
            let four = closures.next().unwrap_or(&[]);
            self.write::<SLOT, F>(pages, name, Filled::Yes, |put| {
                rows::put_closures(four, put);
            })?;
        }
        let mut specials = settings.calendar.specials.iter();
        for index in 0..SPECIAL_ROWS {
            let name = RowName { kind: Kind::Special, index };
            let special = specials.next();
            let filled = if special.is_some() { Filled::Yes } else { Filled::Vacant };
            self.write::<SLOT, F>(pages, name, filled, |put| {
                if let Some(special) = special {
                    rows::put_special(special, put);
                }
            })?;
        }
        Ok(())
    }
}

/// The header; its index is the version of the layout.
const HEADER: RowName = RowName { kind: Kind::Header, index: VERSION };

/// A bank's slots count on through its pages.
fn place(name: RowName) -> Place {
    Place { page: 0, slot: name.slot() }
}
