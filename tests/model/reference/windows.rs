//! When a timetable is open: stretches of UTC, worked out piece by piece of
//! constant offset from UTC, so that what is open is what the local wall time
//! says and nothing else.

use jiff::ToSpan;
use jiff::civil::Date;

use super::civil::Zone;
use super::setup::{Calendar, TIMETABLES, Timetable};

/// How many local dates are looked through, today the first.
pub(crate) const DATES_AHEAD: i64 = 62;
const DAY_S: i64 = 86_400;

/// Half-open stretches of UTC in rising order, none touching the next.
pub(crate) type Spans = Vec<(i64, i64)>;

/// The timetables in force; while a file waits, only what both open.
#[derive(Clone, Copy)]
pub(crate) struct Hours<'a> {
    pub(crate) calendar: &'a Calendar,
    pub(crate) waiting: Option<&'a Calendar>,
}

impl<'a> Hours<'a> {
    pub(crate) fn of(calendar: &'a Calendar) -> Self {
        Self { calendar, waiting: None }
    }

    fn zone(&self) -> Zone {
        Zone::new(&self.calendar.zone)
    }

    pub(crate) fn is_open(&self, timetable: Timetable, utc: i64) -> bool {
        contains(&self.spans(timetable, utc - DAY_S, utc + DAY_S), utc)
    }

    /// The next instant inside a window, `utc` itself included.
    pub(crate) fn next_open(&self, timetable: Timetable, utc: i64) -> Option<i64> {
        let end = self.end_of_dates(utc, DATES_AHEAD);
        self.spans(timetable, utc - DAY_S, end)
            .into_iter()
            .find(|span| span.1 > utc)
            .map(|span| span.0.max(utc))
            .filter(|instant| *instant < end)
    }

    /// Where the windows that are open at `utc` end; `None` if they run on
    /// beyond anything looked through.
    pub(crate) fn open_until(&self, timetable: Timetable, utc: i64) -> Option<i64> {
        let end = self.end_of_dates(utc, DATES_AHEAD) + DAY_S;
        let spans = self.spans(timetable, utc - DAY_S, end);
        spans.into_iter().find(|span| span.1 > utc).map(|span| span.1).filter(|until| *until < end)
    }

    /// The next start of a window strictly ahead, within the horizon.
    pub(crate) fn next_start(&self, timetable: Timetable, utc: i64) -> Option<i64> {
        self.starts(timetable, utc, DATES_AHEAD).first().map(|span| span.0)
    }

    /// The next start of any timetable.
    pub(crate) fn next_start_of_any(&self, utc: i64) -> Option<i64> {
        (0..TIMETABLES).filter_map(|timetable| self.next_start(timetable, utc)).min()
    }

    /// The stretches that begin strictly ahead, within so many local dates.
    pub(crate) fn starts(&self, timetable: Timetable, utc: i64, dates: i64) -> Spans {
        let end = self.end_of_dates(utc, dates);
        let mut spans = self.spans(timetable, utc - DAY_S, end + 2 * DAY_S);
        spans.retain(|span| span.0 > utc && span.0 < end);
        spans
    }

    /// The next instant at which the timetable opens or closes.
    pub(crate) fn next_change(&self, timetable: Timetable, utc: i64) -> Option<i64> {
        self.spans(timetable, utc - DAY_S, utc + 14 * DAY_S)
            .into_iter()
            .flat_map(|span| [span.0, span.1])
            .find(|edge| *edge > utc && *edge < utc + 14 * DAY_S)
    }

    /// The first instant after the local date that lies `dates` after today.
    fn end_of_dates(&self, utc: i64, dates: i64) -> i64 {
        let zone = self.zone();
        let last = zone.local(utc).date() + dates.days();
        let midnight = last.at(0, 0, 0, 0);
        zone.instants(midnight).first().copied().unwrap_or_else(|| {
            // Midnight is skipped on that date: the first instant after the gap.
            let guess = day_number(last) * DAY_S;
            zone.changes(guess - DAY_S, guess + DAY_S).first().copied().unwrap_or(guess)
        })
    }

    /// What is open between two instants.
    pub(crate) fn spans(&self, timetable: Timetable, from: i64, to: i64) -> Spans {
        let open = spans_of(self.calendar, timetable, from, to);
        match self.waiting {
            Some(waiting) => both(&open, &spans_of(waiting, timetable, from, to)),
            None => open,
        }
    }
}

fn spans_of(calendar: &Calendar, timetable: Timetable, from: i64, to: i64) -> Spans {
    let zone = Zone::new(&calendar.zone);
    let mut borders = vec![from];
    borders.extend(zone.changes(from, to - 1));
    borders.push(to);
    let mut open = Vec::new();
    for piece in borders.windows(2) {
        let (start, end) = (piece[0], piece[1]);
        let offset = zone.offset(start);
        let first = (start + offset).div_euclid(DAY_S) - 1;
        let last = (end + offset).div_euclid(DAY_S);
        for day in first..=last {
            let date = Date::constant(1970, 1, 1) + day.days();
            for window in calendar.windows_starting_on(timetable, date) {
                let overnight = if window.to < window.from { DAY_S } else { 0 };
                let midnight = day * DAY_S;
                let opens = midnight + i64::from(window.from) * 60;
                let closes = midnight + overnight + i64::from(window.to) * 60;
                // A closure takes out what runs in from the day before.
                let tomorrow_closed = calendar.is_closure(timetable, date + 1.day());
                let closes = if tomorrow_closed { closes.min(midnight + DAY_S) } else { closes };
                let span = ((opens - offset).max(start), (closes - offset).min(end));
                if span.0 < span.1 {
                    open.push(span);
                }
            }
        }
    }
    merged(open)
}

fn merged(mut spans: Spans) -> Spans {
    spans.sort_unstable();
    let mut out: Spans = Vec::new();
    for span in spans {
        match out.last_mut() {
            Some(last) if span.0 <= last.1 => last.1 = last.1.max(span.1),
            Some(_) | None => out.push(span),
        }
    }
    out
}

fn both(one: &Spans, other: &Spans) -> Spans {
    let mut out = Spans::new();
    for a in one {
        for b in other.iter().skip_while(|b| b.1 <= a.0).take_while(|b| b.0 < a.1) {
            out.push((a.0.max(b.0), a.1.min(b.1)));
        }
    }
    out
}

pub(crate) fn contains(spans: &Spans, utc: i64) -> bool {
    spans.iter().any(|span| span.0 <= utc && utc < span.1)
}

/// Whether every instant of `inner` is one of `outer`.
fn is_within(inner: &Spans, outer: &Spans) -> bool {
    inner.iter().all(|a| outer.iter().any(|b| b.0 <= a.0 && a.1 <= b.1))
}

/// The timetables that `new` opens wider than the calendar in force: on one of
/// 400 local dates from yesterday on, or in the plain week, it has a minute that
/// the other has not; all of them if the zone is another.
pub(crate) fn opened_wider(new: &Calendar, in_force: &Calendar, utc: i64) -> Vec<Timetable> {
    if new.zone != in_force.zone {
        return (0..TIMETABLES).collect();
    }
    let today = day_number(Zone::new(&in_force.zone).local(utc).date());
    let (from, to) = ((today - 1) * DAY_S, (today + 399) * DAY_S);
    // By the wall: as if the zone knew no offset.
    let by_the_wall =
        |calendar: &Calendar| Calendar { zone: "UTC0".to_owned(), ..calendar.clone() };
    let plain = |calendar: &Calendar| Calendar {
        closures: Vec::new(),
        specials: Vec::new(),
        ..by_the_wall(calendar)
    };
    let pairs = [
        (by_the_wall(new), by_the_wall(in_force), from, to),
        (plain(new), plain(in_force), to, to + 7 * DAY_S),
    ];
    (0..TIMETABLES)
        .filter(|timetable| {
            pairs.iter().any(|(new, in_force, from, to)| {
                let inner = spans_of(new, *timetable, *from, *to);
                !is_within(&inner, &spans_of(in_force, *timetable, *from, *to))
            })
        })
        .collect()
}

pub(crate) fn day_number(date: Date) -> i64 {
    i64::from((date - Date::constant(1970, 1, 1)).get_days())
}
