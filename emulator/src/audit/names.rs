//! What numbers are called and which clock hangs on the wall: from the site
//! file, where there is one. Names never enter a lock.

use lock_core::audit::People;
use lock_core::decide::{Conditions, by_time};
use lock_core::holder::Number;
use lock_core::time::{Date, Instants, Utc, Weekday, Zone};
use lock_core::timetable::{Day, Follows, TimetableId, Window};

use crate::site::{LockPlan, Person, Site};

/// Minutes in a day.
const DAY_MINUTES: u16 = 1_440;

/// The site file, or nothing but numbers and UTC.
#[derive(Clone, Copy)]
pub struct Names<'s> {
    site: Option<&'s Site>,
    /// Whether there are site files, and the lock is in none of them.
    stranger: bool,
}

impl<'s> Names<'s> {
    /// Names and local time from `site`.
    #[must_use]
    pub const fn of(site: Option<&'s Site>) -> Self {
        Self { site, stranger: false }
    }

    /// For a lock that none of the site files has: the names, times and windows of
    /// another site would be told of the wrong people.
    #[must_use]
    pub const fn of_a_stranger() -> Self {
        Self { site: None, stranger: true }
    }

    /// Names and local time from the one of `sites` that has the lock.
    #[must_use]
    pub fn of_lock(sites: &'s [Site], lock: u32) -> Self {
        match sites.iter().find(|site| site.locks.iter().any(|plan| plan.number == lock)) {
            None if !sites.is_empty() => Self::of_a_stranger(),
            site => Self::of(site),
        }
    }

    /// Whether there are site files, and the lock is in none of them.
    #[must_use]
    pub const fn is_stranger(&self) -> bool {
        self.stranger
    }

    /// The site file.
    #[must_use]
    pub const fn site(&self) -> Option<&'s Site> {
        self.site
    }

    /// The zone of the times that people read.
    #[must_use]
    pub fn zone(&self) -> &Zone {
        self.site.map_or(&Zone::UTC, |site| &site.zone)
    }

    /// What that zone is called.
    #[must_use]
    pub fn zone_name(&self) -> &str {
        self.site.map_or("UTC", |site| &site.zone_name)
    }

    /// The holder's row of the site file.
    #[must_use]
    pub fn person(&self, number: Number) -> Option<&'s Person> {
        self.site?.holder(number)
    }

    /// `12 Tomasz`; `12` without a site file; `77 (not in the site file)`.
    #[must_use]
    pub fn who(&self, number: Number) -> String {
        match (self.site, self.person(number)) {
            (None, _) => format!("{:02}", number.get()),
            (Some(_), Some(person)) => format!("{:02} {}", number.get(), person.name),
            (Some(_), None) => format!("{:02} (not in the site file)", number.get()),
        }
    }

    /// One, or two joined by "and".
    #[must_use]
    pub fn people(&self, people: &People) -> String {
        let first = self.who(people.first);
        people.second.map_or(first.clone(), |second| format!("{first} and {}", self.who(second)))
    }

    /// The lock's row of the site file.
    #[must_use]
    pub fn plan(&self, lock: u32) -> Option<&'s LockPlan> {
        self.site?.locks.iter().find(|plan| plan.number == lock)
    }

    /// `Lock 1001 (till)`, or `Lock 1001`; `Lock 4711 (in no site file: numbers, UTC)`.
    #[must_use]
    pub fn lock(&self, lock: u32) -> String {
        match self.plan(lock) {
            Some(plan) => format!("Lock {lock} ({})", plan.id),
            None if self.stranger => format!("Lock {lock} (in no site file: numbers, UTC)"),
            None => format!("Lock {lock}"),
        }
    }

    /// `Mon 2027-03-01 08:31:04`, in the zone of the site; with the offset in
    /// an hour that comes twice.
    #[must_use]
    pub fn moment(&self, at: Option<Utc>) -> String {
        let Some(at) = at else { return "no valid clock".to_owned() };
        let local = self.zone().local(at);
        let (hour, minute, second) = local.hms();
        let twice = matches!(self.zone().instants(local.date, local.second), Instants::Two(..));
        let offset =
            if twice { format!(" {}", offset(local.offset.as_secs())) } else { String::new() };
        format!("{} {hour:02}:{minute:02}:{second:02}{offset}", date(local.date))
    }
}

/// `Mon 2027-03-01`.
pub(super) fn date(date: Date) -> String {
    let day = match date.weekday() {
        Weekday::Mon => "Mon",
        Weekday::Tue => "Tue",
        Weekday::Wed => "Wed",
        Weekday::Thu => "Thu",
        Weekday::Fri => "Fri",
        Weekday::Sat => "Sat",
        Weekday::Sun => "Sun",
    };
    let (year, month, dom) = date.ymd();
    format!("{day} {year:04}-{month:02}-{dom:02}")
}

/// `+01:00`.
fn offset(east: i32) -> String {
    let (sign, minutes) = (if east < 0 { '-' } else { '+' }, east.unsigned_abs() / 60);
    format!("{sign}{:02}:{:02}", minutes / 60, minutes % 60)
}

/// An instant in RFC 3339; in UTC where the offset has seconds, which RFC 3339
/// cannot write.
#[must_use]
pub fn rfc3339(zone: &Zone, at: Utc) -> String {
    let mut local = zone.local(at);
    if local.offset.as_secs() % 60 != 0 {
        local = Zone::UTC.local(at);
    }
    let ((year, month, day), (hour, minute, second)) = (local.date.ymd(), local.hms());
    format!(
        "{year:04}-{month:02}-{day:02}T{hour:02}:{minute:02}:{second:02}{}",
        offset(local.offset.as_secs())
    )
}

/// `4 min 02 s`.
#[must_use]
pub fn length(seconds: u32) -> String {
    match seconds {
        0..=119 => format!("{seconds} s"),
        120..=7_199 => format!("{} min {:02} s", seconds / 60, seconds % 60),
        _ => format!("{} h {:02} min", seconds / 3_600, seconds % 3_600 / 60),
    }
}

/// Where a release stands in the timetable of one holder.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Within {
    /// The holder follows none.
    Always,
    /// In this window of that timetable.
    Window(TimetableId, Window),
    /// In none.
    Outside(TimetableId),
}

impl Within {
    /// `A 08:30-12:30`.
    #[must_use]
    pub fn words(&self) -> String {
        match self {
            Self::Always => "always".to_owned(),
            Self::Window(id, window) => {
                format!("{} {}", id.letter(), crate::site::window_text(*window))
            }
            Self::Outside(id) => format!("{}: outside its windows", id.letter()),
        }
    }
}

/// Where `at` stands in what `follows` names, as the site file has it. The one
/// judge says whether it is inside; which window that is, the calendar.
#[must_use]
pub fn within(site: &Site, follows: Follows, at: Utc) -> Within {
    let id = match follows {
        Follows::Always => return Within::Always,
        Follows::Timetable(id) => id,
    };
    let decided = by_time(follows, &Conditions::unhindered(at), &site.zone, &mut &site.calendar);
    if !matches!(decided, Ok(Ok(_))) {
        return Within::Outside(id);
    }
    let local = site.zone.local(at);
    let minute = local.minute().get();
    let on = |date: Option<Date>, minute: u16| match date.map(|date| site.calendar.day(id, date)) {
        Some(Day::Windows(windows)) => windows.into_iter().find(|window| window.holds(minute)),
        Some(Day::Closed) | None => None,
    };
    let runs_in = minute.saturating_add(DAY_MINUTES);
    let window = on(Some(local.date), minute).or_else(|| on(local.date.prev(), runs_in));
    window.map_or(Within::Outside(id), |window| Within::Window(id, window))
}
