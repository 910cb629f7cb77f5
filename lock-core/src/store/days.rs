//! The days of a settings bank: weeks, closures and special days, row by row.

use embedded_storage::nor_flash::NorFlash;

use super::bank::Bank;
use super::pages::Pages;
use super::rows::{self, CLOSURE_ROWS, CLOSURES_A_ROW, Filled, Kind, RowName, SPECIAL_ROWS};
use crate::port::StoreFault;
use crate::rules::Unreadable;
use crate::time::{Date, Weekday};
use crate::timetable::{Calendar, Day, TimetableId, Windows};

impl Bank {
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
            let closures = self.read(pages, name, |_, take| rows::take_closures(take))?;
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
            let special = self.read(pages, name, |filled, take| match filled {
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
        let windows = self.read(pages, name, |_, take| rows::take_day(take))?;
        Ok(Day::Windows(windows))
    }

    /// Writes every row of the calendar, empty ones too.
    pub(super) fn write_calendar<F: NorFlash>(
        self,
        pages: &mut Pages<F>,
        calendar: Option<&Calendar>,
    ) -> Result<(), StoreFault> {
        let none = Windows::new();
        for id in TimetableId::ALL {
            let week = calendar.and_then(|calendar| calendar.weeks.get(id.index()));
            for weekday in Weekday::ALL {
                let windows = week.and_then(|week| week.get(weekday.index())).unwrap_or(&none);
                self.write(pages, RowName::day(id, weekday), Filled::Yes, |put| {
                    rows::put_day(windows, put);
                })?;
            }
        }
        let closures = calendar.map_or(&[][..], |calendar| &calendar.closures);
        let mut closures = closures.chunks(CLOSURES_A_ROW);
        for index in 0..CLOSURE_ROWS {
            let name = RowName { kind: Kind::Closures, index };
            let four = closures.next().unwrap_or(&[]);
            self.write(pages, name, Filled::Yes, |put| {
                rows::put_closures(four, put);
            })?;
        }
        let specials = calendar.map_or(&[][..], |calendar| &calendar.specials);
        let mut specials = specials.iter();
        for index in 0..SPECIAL_ROWS {
            let name = RowName { kind: Kind::Special, index };
            let special = specials.next();
            let filled = if special.is_some() { Filled::Yes } else { Filled::Vacant };
            self.write(pages, name, filled, |put| {
                if let Some(special) = special {
                    rows::put_special(special, put);
                }
            })?;
        }
        Ok(())
    }
}
