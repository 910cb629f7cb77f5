//! The rules, one a file, pure: the same question always gets the same answer.
//!
//! [`decide`](mod@crate::decide) is the one decision: the door, the planner and every
//! explanation ask it, so that what a plan promises is what the lock does.

pub mod clock;
pub mod delay;
pub mod ends;
pub mod hold_shut;
pub mod limit;
pub mod opening_time;
pub mod penalty;
pub mod pending;
pub mod supply;
pub mod way_out;
pub mod widening;

/// Settings that the lock needs now could not be read from its store.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Unreadable;

/// Where the days of the timetables are read from: a store, or memory.
///
/// Reading takes `&mut self` because reading NOR flash does.
pub trait Days {
    /// What `date` is to timetable `id`.
    ///
    /// # Errors
    /// [`Unreadable`] if the settings cannot be read back whole.
    fn day(
        &mut self,
        id: crate::timetable::TimetableId,
        date: crate::time::Date,
    ) -> Result<crate::timetable::Day, Unreadable>;
}

impl Days for &crate::timetable::Calendar {
    fn day(
        &mut self,
        id: crate::timetable::TimetableId,
        date: crate::time::Date,
    ) -> Result<crate::timetable::Day, Unreadable> {
        Ok(crate::timetable::Calendar::day(self, id, date))
    }
}
