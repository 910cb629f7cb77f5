//! A calendar item by item: in memory, or row by row in flash.

use core::convert::Infallible;

use super::{CLOSURES, Calendar, Closure, Day, SPECIALS, TimetableId, Timetables, Windows};
use crate::time::{Date, Weekday};

/// Closures that are read at once.
pub(crate) const FEW: usize = 4;
/// How often so many are read at most.
pub(crate) const FEWS: u8 = 16;

/// Places for special days.
pub(crate) const SPECIAL_DAYS: u8 = 32;

const _: () = assert!(CLOSURES == 16 * FEW, "every closure is read");
const _: () = assert!(SPECIALS == 32, "every special day is read");

/// A few closures; fewer than [`FEW`] are the last ones.
pub(crate) type Few = heapless::Vec<Closure, FEW, u8>;

/// Where the items of a calendar are read from. They are put where the reader has room
/// for them, which must be empty: a small machine has none to hand them around.
pub(crate) trait Items {
    /// Why one cannot be read.
    type Error;

    /// The windows of a weekday of timetable `id`.
    fn windows(
        &mut self,
        id: TimetableId,
        weekday: Weekday,
        windows: &mut Windows,
    ) -> Result<(), Self::Error>;

    /// Puts the closures from 4 × `row` on into `few`, for rows below [`FEWS`].
    fn closures(&mut self, row: u8, few: &mut Few) -> Result<(), Self::Error>;

    /// The special day at that place: its date, for which timetables, its windows; `None`
    /// behind the last.
    fn special(
        &mut self,
        place: u8,
        windows: &mut Windows,
    ) -> Result<Option<(Date, Timetables)>, Self::Error>;

    /// What `date` is to timetable `id`: a closure, else a special day, else its
    /// weekday.
    fn day(&mut self, id: TimetableId, date: Date) -> Result<Day, Self::Error> {
        if self.closed(date)?.has(id) {
            return Ok(Day::Closed);
        }
        let mut windows = Windows::new();
        for place in 0..SPECIAL_DAYS {
            let Some((special, timetables)) = self.special(place, &mut windows)? else { break };
            if special == date && timetables.has(id) {
                return Ok(Day::Windows(windows));
            }
            windows.clear();
        }
        self.windows(id, date.weekday(), &mut windows)?;
        Ok(Day::Windows(windows))
    }

    /// The timetables for which a date is closed.
    #[inline(never)] // own frame
    fn closed(&mut self, date: Date) -> Result<Timetables, Self::Error> {
        let mut closed = Timetables::default();
        for row in 0..FEWS {
            let mut closures = Few::new();
            self.closures(row, &mut closures)?;
            for closure in closures.iter().filter(|closure| closure.holds(date)) {
                closed = closed.or(closure.timetables);
            }
            if closures.len() < FEW {
                break;
            }
        }
        Ok(closed)
    }
}

impl Items for &Calendar {
    type Error = Infallible;

    fn windows(
        &mut self,
        id: TimetableId,
        weekday: Weekday,
        windows: &mut Windows,
    ) -> Result<(), Infallible> {
        let week = self.weeks.get(id.index());
        if let Some(day) = week.and_then(|week| week.get(weekday.index())) {
            windows.clone_from(day);
        }
        Ok(())
    }

    fn closures(&mut self, row: u8, few: &mut Few) -> Result<(), Infallible> {
        for closure in self.closures.iter().skip(usize::from(row).saturating_mul(FEW)).take(FEW) {
            // There is room for so many.
            let _ = few.push(*closure);
        }
        Ok(())
    }

    fn special(
        &mut self,
        place: u8,
        windows: &mut Windows,
    ) -> Result<Option<(Date, Timetables)>, Infallible> {
        let special = self.specials.get(usize::from(place));
        if let Some(special) = special {
            windows.clone_from(&special.windows);
        }
        Ok(special.map(|special| (special.date, special.timetables)))
    }
}
