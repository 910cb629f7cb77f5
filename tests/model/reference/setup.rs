//! What a lock is set up with, as plain data: people, timetables, the policy.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::policy::{Policy, Stricter};

/// One of the eight timetables A–H, as 0–7.
pub(crate) type Timetable = usize;
pub(crate) const TIMETABLES: usize = 8;

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Role {
    Warden,
    Deputy,
    Keyholder,
    Courier,
    Steward,
}

impl Role {
    /// Wardens and stewards.
    pub(crate) fn is_privileged(self) -> bool {
        matches!(self, Role::Warden | Role::Steward)
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Follows {
    Always,
    Timetable(Timetable),
}

/// A window in minutes of local wall time, half-open; `to < from` runs past
/// midnight, `to` may be 1440.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Window {
    pub(crate) from: u32,
    pub(crate) to: u32,
}

/// Seven days, Monday first.
pub(crate) type Week = [Vec<Window>; 7];

/// A row that waits for its time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct RowWaits {
    /// In steady time.
    pub(crate) until: i64,
    /// When it was made to wait, in steady time.
    pub(crate) made: i64,
    /// What held before; `None`: they could not open.
    pub(crate) held: Option<Follows>,
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Holder {
    pub(crate) number: u8,
    pub(crate) role: Role,
    /// A courier has none of their own.
    pub(crate) code: String,
    pub(crate) follows: Follows,
    /// Read for wardens and deputies only.
    pub(crate) opens: bool,
    pub(crate) suspended: bool,
    pub(crate) waits: Option<RowWaits>,
}

impl Holder {
    /// The table of section 11, for opening.
    pub(crate) fn may_open(&self) -> bool {
        match self.role {
            Role::Warden | Role::Deputy => self.opens,
            Role::Keyholder | Role::Courier => true,
            Role::Steward => false,
        }
    }

    /// What this row lets somebody follow at last; `None`: they cannot open.
    pub(crate) fn grants(&self) -> Option<Follows> {
        (self.may_open() && !self.suspended).then_some(self.follows)
    }

    /// What held last: of a row that waits, what held before it.
    pub(crate) fn held(&self) -> Option<Follows> {
        match self.waits {
            Some(waits) if self.grants().is_some() => waits.held,
            Some(_) | None => self.grants(),
        }
    }
}

/// Dates `from` to `to`, both inclusive.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Closure {
    pub(crate) from: Date,
    pub(crate) to: Date,
    pub(crate) timetables: [bool; TIMETABLES],
}

#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Special {
    pub(crate) date: Date,
    pub(crate) timetables: [bool; TIMETABLES],
    pub(crate) windows: Vec<Window>,
}

/// What a timetable file holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Calendar {
    /// A POSIX TZ rule.
    pub(crate) zone: String,
    pub(crate) timetables: [Week; TIMETABLES],
    pub(crate) closures: Vec<Closure>,
    pub(crate) specials: Vec<Special>,
}

impl Calendar {
    /// As from the factory: no windows at all.
    pub(crate) fn empty(zone: &str) -> Self {
        Self {
            zone: zone.to_owned(),
            timetables: Default::default(),
            closures: Vec::new(),
            specials: Vec::new(),
        }
    }

    /// The windows that start on `date`: none on a closure, a special day's
    /// instead of the weekday's.
    pub(crate) fn windows_starting_on(&self, timetable: Timetable, date: Date) -> &[Window] {
        if self.is_closure(timetable, date) {
            return &[];
        }
        let special = self
            .specials
            .iter()
            .find(|special| special.date == date && special.timetables[timetable]);
        match special {
            Some(special) => &special.windows,
            None => {
                let weekday = date.weekday().to_monday_zero_offset();
                &self.timetables[timetable][usize::try_from(weekday).expect("0 to 6")]
            }
        }
    }

    pub(crate) fn is_closure(&self, timetable: Timetable, date: Date) -> bool {
        self.closures.iter().any(|closure| {
            closure.from <= date && date <= closure.to && closure.timetables[timetable]
        })
    }
}

/// A timetable file that was accepted and waits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct WaitingFile {
    pub(crate) version: u32,
    pub(crate) calendar: Calendar,
    /// In steady time.
    pub(crate) until: i64,
}

/// Everything that is kept as settings, and changes by one write.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Setup {
    pub(crate) policy: Policy,
    pub(crate) stricter: Option<Stricter>,
    pub(crate) holders: BTreeMap<u8, Holder>,
    pub(crate) calendar: Calendar,
    /// Of the file in force; nought: none yet.
    pub(crate) version: u32,
    pub(crate) file: Option<WaitingFile>,
    /// The generation of the pairing key in use.
    pub(crate) key: Option<u32>,
    /// The highest generation of any key that this lock ever had.
    pub(crate) last_generation: u32,
    /// The next counter of each courier's number.
    pub(crate) counters: BTreeMap<u8, u32>,
}

impl Setup {
    /// As from the factory: nobody is enrolled.
    pub(crate) fn factory(zone: &str) -> Self {
        Self {
            policy: Policy::default(),
            stricter: None,
            holders: BTreeMap::new(),
            calendar: Calendar::empty(zone),
            version: 0,
            file: None,
            key: None,
            last_generation: 0,
            counters: BTreeMap::new(),
        }
    }

    pub(crate) fn holder(&self, number: u8) -> Option<&Holder> {
        self.holders.get(&number)
    }

    /// The calendar as it was last set: a file that waits counts as in force.
    pub(crate) fn last_calendar(&self) -> &Calendar {
        self.file.as_ref().map_or(&self.calendar, |file| &file.calendar)
    }
}
