//! When a timetable is open: membership of the wall time, asked instant by
//! instant at every place where the answer can change.

use jiff::ToSpan;
use jiff::civil::{Date, Time};

use super::civil::Zone;
use super::setup::{Setup, Timetable, Window};

/// How many local dates are looked through, today the first.
const DATES_AHEAD: i64 = 62;
/// How far ahead a hold-shut may end.
const HOLD_AHEAD_S: i64 = 120 * 3_600;

pub(crate) struct Hours<'a> {
    pub(crate) setup: &'a Setup,
    pub(crate) zone: &'a Zone,
}

impl Hours<'_> {
    pub(crate) fn is_open(&self, timetable: Timetable, utc: i64) -> bool {
        !self
            .windows_around(timetable, utc, |date, window| {
                self.contains(timetable, date, window, utc)
            })
            .is_empty()
    }

    /// The next instant inside a window, `utc` itself included.
    pub(crate) fn next_open(&self, timetable: Timetable, utc: i64) -> Option<i64> {
        let last = self.zone.local(utc).date() + DATES_AHEAD.days();
        std::iter::once(utc)
            .chain(self.edges(timetable, utc, DATES_AHEAD))
            .filter(|edge| self.zone.local(*edge).date() < last)
            .find(|edge| self.is_open(timetable, *edge))
    }

    /// Where the windows that are open at `utc` end; `None` if they run on
    /// beyond anything looked through.
    pub(crate) fn open_until(&self, timetable: Timetable, utc: i64) -> Option<i64> {
        self.edges(timetable, utc, DATES_AHEAD)
            .into_iter()
            .find(|edge| !self.is_open(timetable, *edge))
    }

    /// The next start of a window strictly ahead and within 120 h.
    pub(crate) fn next_start(&self, timetable: Timetable, utc: i64) -> Option<i64> {
        self.edges(timetable, utc, 7).into_iter().find(|edge| {
            *edge <= utc + HOLD_AHEAD_S
                && self.is_open(timetable, *edge)
                && !self.is_open(timetable, *edge - 1)
        })
    }

    /// The next instant at which the timetable opens or closes.
    pub(crate) fn next_change(&self, timetable: Timetable, utc: i64) -> Option<i64> {
        let open = self.is_open(timetable, utc);
        self.edges(timetable, utc, 14)
            .into_iter()
            .find(|edge| self.is_open(timetable, *edge) != open)
    }

    /// Windows of the local date of `utc` and of the day before that pass.
    fn windows_around(
        &self,
        timetable: Timetable,
        utc: i64,
        passes: impl Fn(Date, Window) -> bool,
    ) -> Vec<(Date, Window)> {
        let today = self.zone.local(utc).date();
        [today - 1.day(), today]
            .into_iter()
            .flat_map(|date| {
                self.setup
                    .windows_starting_on(timetable, date)
                    .iter()
                    .map(move |window| (date, *window))
            })
            .filter(|(date, window)| passes(*date, *window))
            .collect()
    }

    /// Whether the wall time at `utc` lies in the window that starts on `date`.
    fn contains(&self, timetable: Timetable, date: Date, window: Window, utc: i64) -> bool {
        let wall = self.zone.local(utc);
        if self.setup.is_closure(timetable, wall.date()) {
            return false;
        }
        let minute = minute_of_day(wall.time());
        let overnight = window.to < window.from;
        if wall.date() == date {
            minute >= window.from && (overnight || minute < window.to)
        } else if wall.date() == date + 1.day() {
            overnight && minute < window.to
        } else {
            false
        }
    }

    /// Every instant after `utc`, for `dates` local dates and a little more,
    /// at which membership can change: the windows' edges, midnights, and the
    /// changes of the clocks.
    fn edges(&self, timetable: Timetable, utc: i64, dates: i64) -> Vec<i64> {
        let today = self.zone.local(utc).date();
        let mut edges = self.zone.changes(utc, utc + (dates + 2) * 86_400);
        for ahead in -1..=dates + 1 {
            let date = today + ahead.days();
            let mut minutes = vec![(date, 0)];
            for window in self.setup.windows_starting_on(timetable, date) {
                minutes.push((date, window.from));
                let ends_on = if window.to < window.from { date + 1.day() } else { date };
                minutes.push((ends_on, window.to));
            }
            for (date, minute) in minutes {
                let wall = date.to_datetime(Time::midnight()) + i64::from(minute).minutes();
                edges.extend(self.zone.instants(wall));
            }
        }
        edges.retain(|edge| *edge > utc);
        edges.sort_unstable();
        edges.dedup();
        edges
    }
}

fn minute_of_day(time: Time) -> u32 {
    let minutes = i32::from(time.hour()) * 60 + i32::from(time.minute());
    u32::try_from(minutes).expect("0 to 1439")
}
