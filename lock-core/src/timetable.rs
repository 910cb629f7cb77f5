//! Timetables A to D, closures and special days: when a lock may be opened.

mod both;

use serde::{Deserialize, Serialize};

use crate::time::{Date, Minute};

/// Opening windows that one day can have (*common practice*: four).
pub const WINDOWS_A_DAY: usize = 4;
/// Timetables that one lock can have (*common practice*: four).
pub const TIMETABLES: usize = 4;
/// Closures that one lock can have.
pub const CLOSURES: usize = 64;
/// Special days that one lock can have.
pub const SPECIALS: usize = 32;

/// A timetable's name: A, B, C or D.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug, Serialize, Deserialize)]
pub enum TimetableId {
    /// Timetable A.
    A,
    /// Timetable B.
    B,
    /// Timetable C.
    C,
    /// Timetable D.
    D,
}

impl TimetableId {
    /// All four, in order.
    pub const ALL: [Self; TIMETABLES] = [Self::A, Self::B, Self::C, Self::D];

    /// 0 for A to 3 for D.
    #[must_use]
    pub const fn index(self) -> usize {
        match self {
            Self::A => 0,
            Self::B => 1,
            Self::C => 2,
            Self::D => 3,
        }
    }

    /// The letter.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Self::A => 'A',
            Self::B => 'B',
            Self::C => 'C',
            Self::D => 'D',
        }
    }
}

/// What a holder's openings follow.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub enum Follows {
    /// No timetable: windows, closures and special days do not apply.
    Always,
    /// That timetable.
    Timetable(TimetableId),
}

/// A stretch of wall-clock time, half-open: `[from, to)`.
///
/// `to` before `from` means that it runs past midnight; it belongs to the day
/// on which it starts. A window never has no length.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(try_from = "(Minute, Minute)", into = "(Minute, Minute)")]
pub struct Window {
    from: Minute,
    to: Minute,
}

impl Window {
    /// The window `[from, to)`, or `None` if it has no length or starts at
    /// 24:00.
    #[must_use]
    pub fn new(from: Minute, to: Minute) -> Option<Self> {
        if from == to || from.get() >= Self::DAY { None } else { Some(Self { from, to }) }
    }

    const DAY: u16 = 1_440;

    /// Its first minute, 00:00 to 23:59.
    #[must_use]
    pub const fn from(self) -> Minute {
        self.from
    }

    /// The minute at which it is over, 00:00 to 24:00.
    #[must_use]
    pub const fn to(self) -> Minute {
        self.to
    }

    /// Its end in minutes after the midnight before it starts: up to 2,879.
    #[must_use]
    pub const fn end(self) -> u16 {
        if self.to.get() <= self.from.get() {
            self.to.get().saturating_add(Self::DAY)
        } else {
            self.to.get()
        }
    }

    /// Whether it holds the minute `m` after the midnight before it starts.
    #[must_use]
    pub const fn holds(self, m: u16) -> bool {
        self.from.get() <= m && m < self.end()
    }
}

/// A window without length, or one that starts at 24:00.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NotAWindow;

impl core::fmt::Display for NotAWindow {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("a window starts before 24:00 and ends at another time")
    }
}

impl TryFrom<(Minute, Minute)> for Window {
    type Error = NotAWindow;

    fn try_from((from, to): (Minute, Minute)) -> Result<Self, NotAWindow> {
        Self::new(from, to).ok_or(NotAWindow)
    }
}

impl From<Window> for (Minute, Minute) {
    fn from(window: Window) -> Self {
        (window.from, window.to)
    }
}

/// The windows that start on one day.
pub type Windows = heapless::Vec<Window, WINDOWS_A_DAY, u8>;

/// What one date is to one timetable.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Day {
    /// A closure: no opening time at all, nor any that runs in.
    Closed,
    /// These windows start on it (of its weekday, or as a special day).
    Windows(Windows),
}

/// A set of timetables.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
#[serde(try_from = "u8", into = "u8")]
pub struct Timetables(u8);

/// A bit beyond those of A to D.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NoTimetables;

impl core::fmt::Display for NoTimetables {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("there are four timetables")
    }
}

impl TryFrom<u8> for Timetables {
    type Error = NoTimetables;

    fn try_from(bits: u8) -> Result<Self, NoTimetables> {
        if bits <= Self::ALL.0 { Ok(Self(bits)) } else { Err(NoTimetables) }
    }
}

impl From<Timetables> for u8 {
    fn from(set: Timetables) -> Self {
        set.0
    }
}

impl Timetables {
    /// All four.
    pub const ALL: Self = Self(0b1111);

    /// The set from its bits: bit 0 is A. Higher bits are ignored.
    #[must_use]
    pub const fn from_bits(bits: u8) -> Self {
        Self(bits & Self::ALL.0)
    }

    /// The set's bits: bit 0 is A.
    #[must_use]
    pub const fn bits(self) -> u8 {
        self.0
    }

    /// The set with `id` in it.
    #[must_use]
    pub const fn with(self, id: TimetableId) -> Self {
        Self(self.0 | Self::bit(id))
    }

    /// Whether `id` is in it.
    #[must_use]
    pub const fn has(self, id: TimetableId) -> bool {
        self.0 & Self::bit(id) != 0
    }

    const fn bit(id: TimetableId) -> u8 {
        match id {
            TimetableId::A => 1,
            TimetableId::B => 2,
            TimetableId::C => 4,
            TimetableId::D => 8,
        }
    }
}

/// Dates, first to last inclusive, on which timetables have no opening time.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Closure {
    /// The first date.
    pub from: Date,
    /// The last date.
    pub to: Date,
    /// The timetables that it closes.
    pub timetables: Timetables,
}

/// A date whose windows replace the weekday's.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize)]
pub struct Special {
    /// The date.
    pub date: Date,
    /// The timetables whose windows it replaces.
    pub timetables: Timetables,
    /// The windows that start on it instead.
    pub windows: Windows,
}

/// The windows of seven days, Monday first.
pub type Week = [Windows; 7];

/// Everything that says when a lock may be opened, in memory: on the laptop,
/// or on its way into the store.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
pub struct Calendar {
    /// The weeks of A to D.
    pub weeks: [Week; TIMETABLES],
    /// The closures.
    pub closures: heapless::Vec<Closure, CLOSURES>,
    /// The special days.
    pub specials: heapless::Vec<Special, SPECIALS>,
}

impl Calendar {
    /// Nothing is open, ever.
    pub const EMPTY: Self = Self {
        weeks: [const { [const { Windows::new() }; 7] }; TIMETABLES],
        closures: heapless::Vec::new(),
        specials: heapless::Vec::new(),
    };

    /// What `date` is to timetable `id`.
    #[must_use]
    pub fn day(&self, id: TimetableId, date: Date) -> Day {
        let closed = |c: &Closure| c.timetables.has(id) && c.from <= date && date <= c.to;
        if self.closures.iter().any(closed) {
            return Day::Closed;
        }
        let special = |s: &&Special| s.timetables.has(id) && s.date == date;
        if let Some(special) = self.specials.iter().find(special) {
            return Day::Windows(special.windows.clone());
        }
        let week = self.weeks.get(id.index());
        let windows = week.and_then(|week| week.get(date.weekday().index()));
        Day::Windows(windows.cloned().unwrap_or_default())
    }
}
