//! The site file: locks, holders, timetables, closures and policy, in TOML.
//!
//! | file | concept |
//! | --- | --- |
//! | this one | [`Site`]: a whole file, read or refused |
//! | `policy.rs`, `locks.rs` | the policy, and what each lock overrides |
//! | `class.rs` | the class of lock that is asked for |
//! | `windows.rs`, `calendar.rs` | windows, timetables, closures, special days |
//! | `zone.rs` | from an IANA name to a rule that a lock can keep |
//! | `people.rs`, `codes.rs` | holders, and their codes for drills |
//! | `settings.rs` | the settings of one lock |
//!
//! # Invariants
//! - A file is read whole or refused whole, at its first mistake.
//! - A site that was read keeps every limit of `lock-core`: its settings can be
//!   written to a lock as they are.
//! - No error shows a code (R5).
//!
//! # Choices where the file leaves something out
//! - `opens`: a warden or deputy who says nothing about it does not open.
//! - `timetable`: must be there for everybody who may open. For the others it
//!   means `always`, which grants them nothing.
//! - `timetables` of a closure or special day: all four.
//! - `name` of a timetable: its letter.

mod calendar;
mod class;
mod codes;
mod locks;
mod people;
mod policy;
mod settings;
mod windows;
mod zone;

use std::path::Path;

use lock_core::holder::Number;
use lock_core::settings::ZONE_TEXT;
use lock_core::time::{Date, Utc, Zone};
use lock_core::timetable::{Calendar, TIMETABLES, TimetableId, Window};
use toml::de::DeTable;

pub use class::Class;
pub use codes::DemoCode;
pub use locks::LockPlan;
pub use people::Person;
pub use windows::written as window_text;

use crate::document::{LoadError, Place, Read, Refusal, Source, Table, no_toml, read_text};
use crate::plain;

use calendar::PlacedCalendar;
use zone::PlacedZone;

/// Most characters of a site's name.
const NAME_MOST: usize = 40;

/// A site file that was read whole.
///
/// No `Debug`: it may hold demo codes.
pub struct Site {
    /// The site's name.
    pub name: String,
    /// The IANA name of its zone, as IANA spells it.
    pub zone_name: String,
    /// The zone's rule, a POSIX TZ string that [`Zone::parse`] accepts.
    pub zone_rule: heapless::String<ZONE_TEXT>,
    /// The rule, parsed.
    pub zone: Zone,
    /// From when on the rule says what IANA's table says; before, it may not.
    pub zone_since: Utc,
    /// The locks, at least one, in the order of the file.
    pub locks: Vec<LockPlan>,
    /// The holders, in the order of the file.
    pub holders: Vec<Person>,
    /// Timetables, closures and special days.
    pub calendar: Calendar,
    /// The timetables that the file defines, by letter.
    pub timetables: [Option<TimetableName>; TIMETABLES],
    /// Codes for drills, by number.
    pub demo_codes: Vec<DemoCode>,
    /// Where things stand that have no place of their own.
    pub places: Places,
}

lock_core::silent!(Site);

/// What a timetable is called.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct TimetableName {
    /// Its letter.
    pub id: TimetableId,
    /// Its name, for people at the laptop only.
    pub name: String,
}

/// Where things stand in the file, and what it says for people only.
#[derive(Clone, Debug)]
pub struct Places {
    /// The file's name.
    pub file: String,
    /// The zone.
    pub zone: Place,
    /// The timetables, by letter.
    pub timetables: [Option<Place>; TIMETABLES],
    /// The closures, in the order of [`Calendar::closures`].
    pub closures: Vec<Place>,
    /// The special days, in the order of [`Calendar::specials`].
    pub specials: Vec<Place>,
    /// Why each closure is one, where the file says so, in the same order.
    pub closure_reasons: Vec<Option<String>>,
    /// The same of each special day.
    pub special_reasons: Vec<Option<String>>,
    /// `[demo.codes]`, if it is there.
    pub demo: Option<Place>,
    /// Every window of a weekday or a special day.
    pub windows: Vec<WindowPlace>,
}

/// Where a window is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct WindowPlace {
    /// The timetable.
    pub id: TimetableId,
    /// The weekday, Monday = 0; or the special day's date.
    pub day: WindowDay,
    /// The window.
    pub window: Window,
    /// Where it is written.
    pub place: Place,
}

/// What a window belongs to.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum WindowDay {
    /// A weekday, Monday = 0.
    Weekday(usize),
    /// A special day.
    Special(Date),
}

impl Site {
    /// Reads a site file.
    ///
    /// # Errors
    /// [`LoadError`]: the file cannot be read, or is refused.
    pub fn load(path: &Path) -> Result<Self, LoadError> {
        let text = read_text(path)?;
        Ok(Self::parse(&plain::path(path), &text)?)
    }

    /// Reads the text of a site file; `name` is what errors call it.
    ///
    /// # Errors
    /// [`Refusal`] at the first mistake; nothing of the file is used then.
    pub fn parse(name: &str, text: &str) -> Result<Self, Box<Refusal>> {
        let source = Source::new(name, text);
        read(name, text, &source).map_err(|wrong| wrong.in_source(&source))
    }

    /// The lock of that id.
    #[must_use]
    pub fn lock(&self, id: &str) -> Option<&LockPlan> {
        self.locks.iter().find(|lock| lock.id == id)
    }

    /// The holder of that number.
    #[must_use]
    pub fn holder(&self, number: Number) -> Option<&Person> {
        self.holders.iter().find(|person| person.number == number)
    }

    /// Whether the file defines timetable `id`.
    #[must_use]
    pub fn defines(&self, id: TimetableId) -> bool {
        matches!(self.timetables.get(id.index()), Some(Some(_)))
    }
}

fn read(name: &str, text: &str, source: &Source<'_>) -> Read<Site> {
    let document = DeTable::parse(text).map_err(|error| no_toml(&error))?;
    let file = Table::new("the site file", document.get_ref(), &(0..0));
    file.only(&[
        "site",
        "zone",
        "policy",
        "lock",
        "timetable",
        "closure",
        "special",
        "holder",
        "demo",
    ])?;
    let site = file.need("site", "site = \"Harbour Bakery\"")?.name(NAME_MOST)?;
    let zone = zone::read(&file.need("zone", "zone = \"Europe/Dublin\"")?)?;
    let locks = locks::read(&file, source)?;
    let calendar = PlacedCalendar::read(&file)?;
    zone.refuse_table_in_planned_years(calendar.first_date())?;
    let holders = people::read(&file, &calendar, source)?;
    let demo_codes = codes::read(&file, &holders)?;
    let demo = file.get("demo").and_then(|field| field.table("").ok()?.get("codes"));
    let demo = demo.map(|field| source.place(field.at().start));
    let places = places(name, &zone, &calendar, demo, source);
    let zone_since = zone.since();
    let PlacedZone { name: zone_name, rule, zone, .. } = zone;
    Ok(Site {
        name: site.to_owned(),
        zone_name,
        zone_rule: rule,
        zone,
        zone_since,
        locks,
        holders,
        calendar: calendar.bare(),
        timetables: calendar.weeks.map(|week| week.map(|week| week.name)),
        demo_codes,
        places,
    })
}

fn places(
    name: &str,
    zone: &PlacedZone,
    calendar: &PlacedCalendar,
    demo: Option<Place>,
    source: &Source<'_>,
) -> Places {
    let place = |at: &std::ops::Range<usize>| source.place(at.start);
    let mut windows = Vec::new();
    for (id, week) in TimetableId::ALL.into_iter().zip(&calendar.weeks) {
        let days = week.iter().flat_map(|week| &week.days).enumerate();
        for (day, placed) in days.flat_map(|(day, windows)| windows.iter().map(move |w| (day, w))) {
            let day = WindowDay::Weekday(day);
            windows.push(WindowPlace { id, day, window: placed.window, place: place(&placed.at) });
        }
        for special in calendar.specials.iter().filter(|special| special.timetables.has(id)) {
            let day = WindowDay::Special(special.date);
            windows.extend(special.windows.iter().map(|placed| WindowPlace {
                id,
                day,
                window: placed.window,
                place: place(&placed.at),
            }));
        }
    }
    let mut timetables = [None; TIMETABLES];
    for (slot, week) in timetables.iter_mut().zip(&calendar.weeks) {
        *slot = week.as_ref().map(|week| place(&week.at));
    }
    Places {
        file: name.to_owned(),
        zone: place(&zone.at),
        timetables,
        closures: calendar.closures.iter().map(|placed| place(&placed.at)).collect(),
        specials: calendar.specials.iter().map(|placed| place(&placed.at)).collect(),
        closure_reasons: calendar.closures.iter().map(|placed| placed.why.clone()).collect(),
        special_reasons: calendar.specials.iter().map(|placed| placed.why.clone()).collect(),
        demo,
        windows,
    }
}
