//! One instant, explained: may somebody open then, why, and until when?

use lock_core::holder::Standing;
use lock_core::rules::delay;
use lock_core::time::{DAY_SECONDS, Date, Seconds, Utc};
use lock_core::timetable::{Closure, Day, Follows, TimetableId, Window};

use super::openings::{HORIZON, permit};
use super::{Range, openings};
use crate::document::Place;
use crate::site::{LockPlan, Person, Site};

/// The answer for one holder at one instant.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Why {
    /// Whether the judge would permit a release.
    pub may_open: bool,
    /// The first instant from which on the answer is the same; `None` if it was
    /// longer ago than the judge looks ahead, or time does not matter.
    pub since: Option<Utc>,
    /// The first instant at which the answer is another one; `None` likewise.
    pub until: Option<Utc>,
    /// What decides.
    pub reason: Reason,
    /// The clock change of that date, if it has one.
    pub change: Option<Change>,
    /// Whether the lock's time delay, begun at the instant, could be claimed.
    pub delay_fits: bool,
    /// Who else may open at the instant, by their place in the file.
    pub others: Vec<usize>,
}

/// What decides whether somebody may open.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Reason {
    /// The holder is suspended.
    Suspended,
    /// The role never opens, or the row does not say so.
    Role,
    /// The holder follows no timetable.
    Always,
    /// In this window, which started on that date.
    Window {
        /// The window.
        window: Window,
        /// The date on which it started.
        date: Date,
        /// Its special day, if it is one of a special day.
        special: Option<Told>,
    },
    /// A closure covers the date.
    Closure(Closure, Told),
    /// A closure covers the day before, from which a window would run in; it is
    /// closed whole.
    ClosureBefore(Told),
    /// Outside the windows of a special day.
    Special(Vec<Window>, Told),
    /// Outside the windows of the weekday.
    Weekday(Vec<Window>),
}

/// Where the file says so, and why.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Told {
    /// Where.
    pub place: Place,
    /// What it gives as the reason.
    pub why: Option<String>,
}

/// A clock change.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Change {
    /// When.
    pub at: Utc,
    /// Seconds that the clock on the wall goes forward; back, if negative.
    pub forward: i32,
}

/// Explains what `person` would meet at `lock` at the instant `at`.
#[must_use]
pub fn why(site: &Site, lock: &LockPlan, person: &Person, at: Utc) -> Why {
    let others = site.holders.iter().enumerate();
    let others = others.filter(|(_, other)| {
        other.number != person.number && other.may_open() && permit(site, other.follows, at).open
    });
    let mut answer = Why {
        may_open: false,
        since: None,
        until: None,
        reason: Reason::Role,
        change: change_on(site, site.zone.local(at).date),
        delay_fits: false,
        others: others.map(|(row, _)| row).collect(),
    };
    if !person.may_open() {
        if person.standing == Standing::Suspended {
            answer.reason = Reason::Suspended;
        }
        return answer;
    }
    let permit = permit(site, person.follows, at);
    answer.may_open = permit.open;
    answer.delay_fits = permit.open && delay::fits(lock.policy.delay, Some(at), permit.ends);
    answer.reason = match person.follows {
        Follows::Always => Reason::Always,
        Follows::Timetable(id) => {
            answer.until = permit.turns;
            answer.since = since(site, person.follows, at, permit.open);
            reason(site, id, at, permit.open)
        }
    };
    answer
}

/// From when on the judge's answer has been what it is at `at`.
fn since(site: &Site, follows: Follows, at: Utc, open: bool) -> Option<Utc> {
    let back = Seconds::new(at.as_secs()).get().saturating_sub(HORIZON.get());
    let range = Range { from: Utc::from_secs(back), to: at.after(Seconds::new(1)) };
    let stretches = openings(site, follows, range);
    let last = stretches.last()?;
    let turned = if open { last.from } else { last.to };
    (turned > range.from).then_some(turned)
}

fn reason(site: &Site, id: TimetableId, at: Utc, open: bool) -> Reason {
    let local = site.zone.local(at);
    let (date, minute) = (local.date, local.minute().get());
    if open && let Some(reason) = window_of(site, id, date, minute) {
        return reason;
    }
    let covers = |closure: &Closure, date: Date| {
        closure.timetables.has(id) && closure.from <= date && date <= closure.to
    };
    let closures = || site.calendar.closures.iter().enumerate();
    let told = |row: usize| Told {
        place: site.places.closures.get(row).copied().unwrap_or(site.places.zone),
        why: site.places.closure_reasons.get(row).cloned().flatten(),
    };
    if let Some((row, closure)) = closures().find(|(_, closure)| covers(closure, date)) {
        return Reason::Closure(*closure, told(row));
    }
    if let Some(before) = date.prev()
        && let Some((row, _)) = closures().find(|(_, closure)| covers(closure, before))
        && weekly(site, id, before).iter().any(|window| window.holds(minute + DAY_MINUTES))
    {
        return Reason::ClosureBefore(told(row));
    }
    match special_of(site, id, date) {
        Some(told) => Reason::Special(windows(site, id, date), told),
        None => Reason::Weekday(windows(site, id, date)),
    }
}

const DAY_MINUTES: u16 = 1_440;

/// The window that holds a minute of a date: its own, or one that runs in.
fn window_of(site: &Site, id: TimetableId, date: Date, minute: u16) -> Option<Reason> {
    let find = |date: Date, minute: u16| {
        let window = windows(site, id, date).into_iter().find(|window| window.holds(minute))?;
        Some(Reason::Window { window, date, special: special_of(site, id, date) })
    };
    find(date, minute).or_else(|| find(date.prev()?, minute + DAY_MINUTES))
}

/// The windows that start on a date, none on a closure.
fn windows(site: &Site, id: TimetableId, date: Date) -> Vec<Window> {
    match site.calendar.day(id, date) {
        Day::Closed => Vec::new(),
        Day::Windows(windows) => windows.into_iter().collect(),
    }
}

/// The windows of the weekday, whatever the date.
fn weekly(site: &Site, id: TimetableId, date: Date) -> Vec<Window> {
    let week = site.calendar.weeks.get(id.index());
    let day = week.and_then(|week| week.get(date.weekday().index()));
    day.into_iter().flatten().copied().collect()
}

fn special_of(site: &Site, id: TimetableId, date: Date) -> Option<Told> {
    let found = |special: &lock_core::timetable::Special| {
        special.date == date && special.timetables.has(id)
    };
    let row = site.calendar.specials.iter().position(found)?;
    Some(Told {
        place: site.places.specials.get(row).copied().unwrap_or(site.places.zone),
        why: site.places.special_reasons.get(row).cloned().flatten(),
    })
}

/// The clock change whose wall time touches a date.
#[must_use]
pub fn change_on(site: &Site, date: Date) -> Option<Change> {
    let zone = &site.zone;
    let start = u32::from(date.days()).saturating_mul(DAY_SECONDS).saturating_sub(DAY_SECONDS);
    let at = zone.next_change(Utc::from_secs(start))?;
    let before = Utc::from_secs(at.as_secs().saturating_sub(1));
    let forward = zone.offset(at).as_secs() - zone.offset(before).as_secs();
    let touches = zone.local(at).date == date || zone.local(before).date == date;
    (touches && forward != 0).then_some(Change { at, forward })
}
