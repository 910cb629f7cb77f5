//! Timetables A to H, closures and special days: when a lock may be opened.

mod both;
mod items;

use serde::{Deserialize, Serialize};

use crate::time::{Date, Minute};

pub(crate) use items::{FEW, FEWS, Few, Items, SPECIAL_DAYS};

/// Opening windows that one day can have: ours.
pub const WINDOWS_A_DAY: usize = 5;
/// Timetables that one lock can have: ours.
pub const TIMETABLES: usize = 8;
/// Closures that one lock can have: ours.
pub const CLOSURES: usize = 64;
/// Special days that one lock can have: ours.
pub const SPECIALS: usize = 32;

/// A timetable's name, a letter from A to H.
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
    /// Timetable E.
    E,
    /// Timetable F.
    F,
    /// Timetable G.
    G,
    /// Timetable H.
    H,
}

impl TimetableId {
    /// All of them, in order.
    pub const ALL: [Self; TIMETABLES] =
        [Self::A, Self::B, Self::C, Self::D, Self::E, Self::F, Self::G, Self::H];

    /// 0 for A to 7 for H.
    #[must_use]
    pub const fn index(self) -> usize {
        match self {
            Self::A => 0,
            Self::B => 1,
            Self::C => 2,
            Self::D => 3,
            Self::E => 4,
            Self::F => 5,
            Self::G => 6,
            Self::H => 7,
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
            Self::E => 'E',
            Self::F => 'F',
            Self::G => 'G',
            Self::H => 'H',
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

impl Follows {
    /// Always, then A to H: the place of each is its number in flash and records.
    pub const ALL: [Self; 1 + TIMETABLES] = [
        Self::Always,
        Self::Timetable(TimetableId::A),
        Self::Timetable(TimetableId::B),
        Self::Timetable(TimetableId::C),
        Self::Timetable(TimetableId::D),
        Self::Timetable(TimetableId::E),
        Self::Timetable(TimetableId::F),
        Self::Timetable(TimetableId::G),
        Self::Timetable(TimetableId::H),
    ];

    /// Its place in [`Follows::ALL`].
    #[must_use]
    pub const fn number(self) -> u8 {
        match self {
            Self::Always => 0,
            Self::Timetable(TimetableId::A) => 1,
            Self::Timetable(TimetableId::B) => 2,
            Self::Timetable(TimetableId::C) => 3,
            Self::Timetable(TimetableId::D) => 4,
            Self::Timetable(TimetableId::E) => 5,
            Self::Timetable(TimetableId::F) => 6,
            Self::Timetable(TimetableId::G) => 7,
            Self::Timetable(TimetableId::H) => 8,
        }
    }
}

/// A stretch of wall-clock time, half-open: `[from, to)`.
///
/// `to` before `from` means that it runs past midnight; it belongs to the day
/// on which it starts. A window never has no length.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(try_from = "[u8; 3]", into = "[u8; 3]")]
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

    /// As it lies in flash and in files: three bytes, the lowest first, with the
    /// first minute in the lower twelve bits and its end in the upper twelve.
    #[must_use]
    pub const fn to_bytes(self) -> [u8; 3] {
        let ([from, over], [to, past]) =
            (self.from.get().to_le_bytes(), self.to.get().to_le_bytes());
        [from, over | (to << 4), (to >> 4) | (past << 4)]
    }

    /// The window of those bytes, if it is one.
    #[must_use]
    pub fn from_bytes([low, middle, high]: [u8; 3]) -> Option<Self> {
        let from = Minute::new(u16::from_le_bytes([low, middle & 0x0F]))?;
        let to = Minute::new(u16::from_le_bytes([(middle >> 4) | (high << 4), high >> 4]))?;
        Self::new(from, to)
    }

    /// Whether it holds the minute `m` after the midnight before it starts.
    #[must_use]
    pub const fn holds(self, m: u16) -> bool {
        self.from.get() <= m && m < self.end()
    }
}

/// Three bytes that are no window: without length, or with a time that no day has.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct NotAWindow;

impl core::fmt::Display for NotAWindow {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str("a window starts before 24:00 and ends at another time")
    }
}

impl TryFrom<[u8; 3]> for Window {
    type Error = NotAWindow;

    fn try_from(bytes: [u8; 3]) -> Result<Self, NotAWindow> {
        Self::from_bytes(bytes).ok_or(NotAWindow)
    }
}

impl From<Window> for [u8; 3] {
    fn from(window: Window) -> Self {
        window.to_bytes()
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
#[serde(transparent)]
pub struct Timetables(u8);

const _: () = assert!(TIMETABLES == 8, "every bit of a set is a timetable");

impl Timetables {
    /// All of them.
    pub const ALL: Self = Self(u8::MAX);

    /// The set from its bits: bit 0 is A, bit 7 is H.
    #[must_use]
    pub const fn from_bits(bits: u8) -> Self {
        Self(bits)
    }

    /// The set's bits.
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

    /// What is in one of the two at least.
    #[must_use]
    pub const fn or(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    const fn bit(id: TimetableId) -> u8 {
        match id {
            TimetableId::A => 1,
            TimetableId::B => 2,
            TimetableId::C => 4,
            TimetableId::D => 8,
            TimetableId::E => 16,
            TimetableId::F => 32,
            TimetableId::G => 64,
            TimetableId::H => 128,
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

impl Closure {
    /// Whether it closes `date`.
    #[must_use]
    pub fn holds(&self, date: Date) -> bool {
        self.from <= date && date <= self.to
    }
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

/// Everything that says when a lock may be opened, in memory: on the laptop. A
/// lock reads it item by item.
#[derive(Clone, PartialEq, Eq, Debug, Default, Serialize, Deserialize)]
pub struct Calendar {
    /// The weeks of A to H.
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
        let mut items = self;
        let Ok(day) = Items::day(&mut items, id, date);
        day
    }
}
