//! Timetables, closures and special days, and what about them contradicts.

use std::ops::Range;

use lock_core::time::{Date, Weekday};
use lock_core::timetable::{
    CLOSURES, Calendar, Closure, SPECIALS, Special, TIMETABLES, TimetableId, Timetables, Windows,
};
use toml::de::DeValue;

use super::TimetableName;
use super::windows::{PlacedWindow, read_day, refuse_run_over};
use crate::document::{Field, Table};
use crate::document::{Read, Wrong};

/// The days of a week as the file spells them.
const DAYS: [&str; 7] = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
/// Most characters of a timetable's name.
const NAME_MOST: usize = 40;
/// Most characters of a reason.
const WHY_MOST: usize = 200;

/// Everything about opening times, with places.
#[derive(Default)]
pub(super) struct PlacedCalendar {
    pub(super) weeks: [Option<PlacedWeek>; TIMETABLES],
    pub(super) closures: Vec<PlacedClosure>,
    pub(super) specials: Vec<PlacedSpecial>,
}

pub(super) struct PlacedWeek {
    pub(super) name: TimetableName,
    pub(super) days: [Vec<PlacedWindow>; 7],
    pub(super) at: Range<usize>,
}

pub(super) struct PlacedClosure {
    pub(super) closure: Closure,
    pub(super) why: Option<String>,
    pub(super) at: Range<usize>,
}

pub(super) struct PlacedSpecial {
    pub(super) date: Date,
    pub(super) timetables: Timetables,
    pub(super) windows: Vec<PlacedWindow>,
    pub(super) why: Option<String>,
    pub(super) at: Range<usize>,
}

impl PlacedCalendar {
    /// Reads `[timetable]`, `[[closure]]` and `[[special]]` of the whole file.
    pub(super) fn read(file: &Table<'_>) -> Read<Self> {
        let mut calendar = Self::default();
        if let Some(field) = file.get("timetable") {
            calendar.read_timetables(&field.table("the [timetable] table")?)?;
        }
        if let Some(field) = file.get("closure") {
            for table in field.tables("a [[closure]]")? {
                calendar.read_closure(&table)?;
            }
        }
        if let Some(field) = file.get("special") {
            for table in field.tables("a [[special]]")? {
                calendar.read_special(&table)?;
            }
        }
        calendar.refuse_special_neighbours()?;
        Ok(calendar)
    }

    /// Whether timetable `id` is defined.
    pub(super) fn defines(&self, id: TimetableId) -> bool {
        matches!(self.weeks.get(id.index()), Some(Some(_)))
    }

    /// The first date that a closure or special day names.
    pub(super) fn first_date(&self) -> Option<Date> {
        let closures = self.closures.iter().map(|placed| placed.closure.from);
        closures.chain(self.specials.iter().map(|placed| placed.date)).min()
    }

    /// The same for the lock.
    pub(super) fn bare(&self) -> Calendar {
        let mut calendar = Calendar::default();
        for (week, placed) in calendar.weeks.iter_mut().zip(&self.weeks) {
            let days = placed.iter().flat_map(|placed| &placed.days);
            for (day, windows) in week.iter_mut().zip(days) {
                *day = bare(windows);
            }
        }
        calendar.closures = self.closures.iter().map(|placed| placed.closure).collect();
        calendar.specials = self
            .specials
            .iter()
            .map(|PlacedSpecial { date, timetables, windows, .. }| Special {
                date: *date,
                timetables: *timetables,
                windows: bare(windows),
            })
            .collect();
        calendar
    }

    fn read_timetables(&mut self, tables: &Table<'_>) -> Read<()> {
        for (key, value) in tables.entries {
            let Some(id) = timetable_id(key.get_ref()) else {
                return Err(no_timetable(&key.span()));
            };
            let field = Field { key: key.get_ref(), value };
            let table = field.table("a [timetable]")?;
            let week = read_week(id, &table)?;
            if let Some(slot) = self.weeks.get_mut(id.index()) {
                *slot = Some(week);
            }
        }
        Ok(())
    }

    fn read_closure(&mut self, table: &Table<'_>) -> Read<()> {
        table.only(&["from", "to", "timetables", "why"])?;
        let from = table.need("from", "from = 2027-12-25")?.date()?;
        let to = table.get("to");
        let last = to.as_ref().map_or(Ok(from), Field::date)?;
        if let Some(to) = to
            && last < from
        {
            let what = "This closure ends before it starts.";
            let remedy = "`to` is the last day that is closed; leave it out for one day.";
            return Err(Wrong::new(&to.at(), what, remedy).here("earlier than `from`"));
        }
        let why = reason(table)?;
        let timetables = self.read_set(table)?;
        let closure = Closure { from, to: last, timetables };
        if self.closures.len() == CLOSURES {
            let what = format!("There are more than {CLOSURES} closures.");
            let remedy = "Take out closures that are over, or write days in a row as one.";
            return Err(Wrong::new(&table.at(), what, remedy).here("one too many"));
        }
        self.closures.push(PlacedClosure { closure, why, at: table.at() });
        Ok(())
    }

    fn read_special(&mut self, table: &Table<'_>) -> Read<()> {
        table.only(&["date", "timetables", "windows", "why"])?;
        let date = table.need("date", "date = 2027-12-24")?.date()?;
        let windows = read_day(&table.need("windows", "windows = [\"08:30-12:00\"]")?)?;
        let why = reason(table)?;
        let timetables = self.read_set(table)?;
        let special = PlacedSpecial { date, timetables, windows, why, at: table.at() };
        self.refuse_contradiction(&special)?;
        if self.specials.len() == SPECIALS {
            let what = format!("There are more than {SPECIALS} special days.");
            let remedy = "Take out special days that are over.";
            return Err(Wrong::new(&table.at(), what, remedy).here("one too many"));
        }
        self.specials.push(special);
        Ok(())
    }

    /// A list of timetables; all of them where it is left out.
    fn read_set(&self, table: &Table<'_>) -> Read<Timetables> {
        let Some(field) = table.get("timetables") else {
            return Ok(Timetables::ALL);
        };
        let mut set = Timetables::default();
        for value in field.list()? {
            let DeValue::String(name) = value.get_ref() else {
                let what = "`timetables` must be a list of letters in quotes.";
                let remedy = "Write timetables = [\"A\", \"B\"].";
                return Err(Wrong::new(&value.span(), what, remedy));
            };
            let id = self.defined(name, &value.span())?;
            if set.has(id) {
                let what = format!("Timetable {} is named twice.", id.letter());
                return Err(Wrong::new(&value.span(), what, "Name each timetable once.")
                    .here("named before"));
            }
            set = set.with(id);
        }
        if set == Timetables::default() {
            let what = "This list names no timetable.";
            let remedy = "Name one, or leave `timetables` out for all of them.";
            return Err(Wrong::new(&field.at(), what, remedy).here("empty"));
        }
        Ok(set)
    }

    /// The timetable of that letter, which must be defined.
    pub(super) fn defined(&self, letter: &str, at: &Range<usize>) -> Read<TimetableId> {
        let id = timetable_id(letter).ok_or_else(|| no_timetable(at))?;
        if self.defines(id) {
            return Ok(id);
        }
        let letter = id.letter();
        let what = format!("Timetable {letter} is not defined.");
        let remedy = format!("Add a [timetable.{letter}], or name another one.");
        Err(Wrong::new(at, what, remedy).here("not defined"))
    }

    fn refuse_contradiction(&self, special: &PlacedSpecial) -> Read<()> {
        let (year, month, day) = special.date.ymd();
        let on = format!("{year}-{month:02}-{day:02}");
        for id in TimetableId::ALL.into_iter().filter(|id| special.timetables.has(*id)) {
            let letter = id.letter();
            let closed = self.closures.iter().find(|placed| covers(placed, id, special.date));
            if let Some(closed) = closed {
                let what =
                    format!("{on} is both a closure and a special day of timetable {letter}.");
                let remedy = "Take one of them out: a closure has no opening time at all.";
                return Err(Wrong::new(&special.at, what, remedy)
                    .here("this special day")
                    .there(&closed.at, "this closure"));
            }
            let twice =
                |other: &&PlacedSpecial| other.date == special.date && other.timetables.has(id);
            if let Some(first) = self.specials.iter().find(twice) {
                let what = format!("{on} is twice a special day of timetable {letter}.");
                let remedy = "Write its windows in one [[special]].";
                return Err(Wrong::new(&special.at, what, remedy)
                    .here("the second")
                    .there(&first.at, "the first"));
            }
        }
        Ok(())
    }

    /// Windows of a special day may overlap those of the days around it.
    fn refuse_special_neighbours(&self) -> Read<()> {
        for special in &self.specials {
            for id in TimetableId::ALL.into_iter().filter(|id| special.timetables.has(*id)) {
                if let Some(before) = special.date.prev() {
                    let whose = "a special day and the day before it";
                    refuse_run_over(self.day(id, before), self.day(id, special.date), whose)?;
                }
                if let Some(after) = special.date.next() {
                    let whose = "a special day and the day after it";
                    refuse_run_over(self.day(id, special.date), self.day(id, after), whose)?;
                }
            }
        }
        Ok(())
    }

    /// The windows that start on a date, none on a closure.
    pub(super) fn day(&self, id: TimetableId, date: Date) -> &[PlacedWindow] {
        if self.closures.iter().any(|placed| covers(placed, id, date)) {
            return &[];
        }
        let special = |placed: &&PlacedSpecial| placed.date == date && placed.timetables.has(id);
        if let Some(special) = self.specials.iter().find(special) {
            return &special.windows;
        }
        let week = self.weeks.get(id.index()).and_then(Option::as_ref);
        week.and_then(|week| week.days.get(date.weekday().index())).map_or(&[], Vec::as_slice)
    }
}

/// What the table says in `why`.
fn reason(table: &Table<'_>) -> Read<Option<String>> {
    table.get("why").map(|why| why.name(WHY_MOST).map(str::to_owned)).transpose()
}

fn read_week(id: TimetableId, table: &Table<'_>) -> Read<PlacedWeek> {
    let known: Vec<&str> = ["name"].into_iter().chain(DAYS).collect();
    table.only(&known)?;
    let name = match table.get("name") {
        Some(field) => field.name(NAME_MOST)?.to_owned(),
        None => format!("Timetable {}", id.letter()),
    };
    let mut days: [Vec<PlacedWindow>; 7] = Default::default();
    for (day, key) in days.iter_mut().zip(DAYS) {
        if let Some(field) = table.get(key) {
            *day = read_day(&field)?;
        }
    }
    for today in Weekday::ALL {
        let tomorrow = today.next();
        if let (Some(before), Some(day)) = (days.get(today.index()), days.get(tomorrow.index())) {
            let name = |day: Weekday| DAYS.get(day.index()).copied().unwrap_or_default();
            let whose = format!("{} runs into {}", name(today), name(tomorrow));
            refuse_run_over(before, day, &whose)?;
        }
    }
    Ok(PlacedWeek { name: TimetableName { id, name }, days, at: table.at() })
}

fn covers(placed: &PlacedClosure, id: TimetableId, date: Date) -> bool {
    let Closure { from, to, timetables } = placed.closure;
    timetables.has(id) && from <= date && date <= to
}

fn bare(windows: &[PlacedWindow]) -> Windows {
    windows.iter().map(|placed| placed.window).collect()
}

fn timetable_id(letter: &str) -> Option<TimetableId> {
    TimetableId::ALL.into_iter().find(|id| letter == id.letter().to_string())
}

fn no_timetable(at: &Range<usize>) -> Box<Wrong> {
    let what = "There is no such timetable.";
    Wrong::new(at, what, "Timetables are called A to H.").here("unknown timetable")
}
