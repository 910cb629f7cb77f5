//! The rows of a calendar: weeks, closures, special days, and the zone rule that
//! came with them.
//!
//! They lie in a region of their own, so that a change of the settings, which turns
//! the banks over, has none of them to copy, and a file is adopted by naming where it
//! lies. There are three such regions: one for the calendar in force, one for one that
//! waits, one for a newer one that is being opened.
//!
//! Nothing here counts by itself (S14). A region is erased, whatever it reads, before a
//! calendar is written to it.

use embedded_storage::nor_flash::NorFlash;

use super::bank::Bank;
use super::layout::{Layout, Region, SLOT};
use super::pages::Pages;
use super::rows::{self, CalendarAt, DAY_ROWS, Filled, Kind, RowName};
use crate::port::StoreFault;
use crate::rules::Unreadable;
use crate::settings::ZONE_TEXT;
use crate::time::{Date, Weekday, Zone};
use crate::timetable::{
    Calendar, Closure, Day, FEWS, Few, Items, SPECIAL_DAYS, Special, TimetableId, Timetables,
    Windows,
};

/// The rows of one calendar. They are read and written as those of a bank are.
#[derive(Clone, Copy)]
pub(super) struct CalendarRows(Bank);

impl CalendarRows {
    pub(super) const fn at(layout: &Layout, at: CalendarAt) -> Self {
        Self(Bank::of_rows(layout.calendar(at.region), at.generation))
    }

    pub(super) const fn region(self) -> Region {
        self.0.region()
    }

    /// What `date` is to timetable `id`.
    #[inline(never)] // one copy
    pub(super) fn day<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        id: TimetableId,
        date: Date,
    ) -> Result<Day, Unreadable> {
        Reader { rows: self, pages }.day(id, date)
    }

    /// The zone rule as it came.
    pub(super) fn zone_text<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
    ) -> Result<heapless::String<ZONE_TEXT>, Unreadable> {
        self.0.zone_text(pages, Kind::CalendarZone)
    }

    /// The zone rule.
    pub(super) fn zone<F: NorFlash>(self, pages: &mut Pages<F>) -> Result<Zone, Unreadable> {
        Zone::parse(&self.zone_text(pages)?).map_err(|_| Unreadable)
    }

    /// Whether every row can be read back.
    #[inline(never)] // own frame
    pub(super) fn is_whole<F: NorFlash>(self, pages: &mut Pages<F>) -> bool {
        let kinds = [(Kind::Day, DAY_ROWS), (Kind::Closures, FEWS), (Kind::Special, SPECIAL_DAYS)];
        kinds.into_iter().all(|(kind, rows)| {
            (0..rows)
                .all(|index| self.0.row(pages, RowName { kind, index }, &mut [0; SLOT]).is_ok())
        }) && self.zone(pages).is_ok()
    }

    /// Writes one day.
    pub(super) fn write_day<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        (id, weekday): (TimetableId, Weekday),
        windows: &Windows,
    ) -> Result<(), StoreFault> {
        self.0.write(pages, RowName::day(id, weekday), Filled::Yes, |put| {
            rows::put_windows(windows, put);
        })
    }

    /// Writes a row of closures.
    pub(super) fn write_closures<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        index: u8,
        few: &[Closure],
    ) -> Result<(), StoreFault> {
        let name = RowName { kind: Kind::Closures, index };
        self.0.write(pages, name, Filled::Yes, |put| rows::put_closures(few, put))
    }

    /// Writes a special day, or that there is none.
    pub(super) fn write_special<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        index: u8,
        special: Option<&Special>,
    ) -> Result<(), StoreFault> {
        let name = RowName { kind: Kind::Special, index };
        let filled = if special.is_some() { Filled::Yes } else { Filled::Vacant };
        self.0.write(pages, name, filled, |put| {
            if let Some(special) = special {
                rows::put_special(special, put);
            }
        })
    }

    /// Writes the zone rule.
    pub(super) fn write_zone<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        text: &str,
    ) -> Result<(), StoreFault> {
        self.0.write_zone(pages, Kind::CalendarZone, text)
    }

    /// Writes every row, as a lock is formatted.
    pub(super) fn write<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        calendar: &Calendar,
        zone: &str,
    ) -> Result<(), StoreFault> {
        for (id, week) in TimetableId::ALL.into_iter().zip(&calendar.weeks) {
            for (weekday, windows) in Weekday::ALL.into_iter().zip(week) {
                self.write_day(pages, (id, weekday), windows)?;
            }
        }
        let mut items = calendar;
        for row in 0..FEWS {
            let mut few = Few::new();
            let Ok(()) = items.closures(row, &mut few);
            self.write_closures(pages, row, &few)?;
        }
        for place in 0..SPECIAL_DAYS {
            let special = calendar.specials.get(usize::from(place));
            self.write_special(pages, place, special)?;
        }
        self.write_zone(pages, zone)
    }
}

/// A calendar that is read row by row.
pub(super) struct Reader<'p, F> {
    pub(super) rows: CalendarRows,
    pub(super) pages: &'p mut Pages<F>,
}

impl<F: NorFlash> Items for Reader<'_, F> {
    type Error = Unreadable;

    fn windows(
        &mut self,
        id: TimetableId,
        weekday: Weekday,
        windows: &mut Windows,
    ) -> Result<(), Unreadable> {
        let (mut row, name) = ([0; SLOT], RowName::day(id, weekday));
        let (_, mut take) = self.rows.0.row(self.pages, name, &mut row)?;
        rows::take_windows(&mut take, windows).ok_or(Unreadable)
    }

    fn closures(&mut self, row: u8, few: &mut Few) -> Result<(), Unreadable> {
        let name = RowName { kind: Kind::Closures, index: row };
        let mut row = [0; SLOT];
        let (_, mut take) = self.rows.0.row(self.pages, name, &mut row)?;
        rows::take_closures(&mut take, few).ok_or(Unreadable)
    }

    fn special(
        &mut self,
        place: u8,
        windows: &mut Windows,
    ) -> Result<Option<(Date, Timetables)>, Unreadable> {
        let (mut row, name) = ([0; SLOT], RowName { kind: Kind::Special, index: place });
        match self.rows.0.row(self.pages, name, &mut row)? {
            (Filled::Vacant, _) => Ok(None),
            (Filled::Yes, mut take) => {
                rows::take_special(&mut take, windows).map(Some).ok_or(Unreadable)
            }
        }
    }
}
