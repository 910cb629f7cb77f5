//! Reading one key of a TOML table: its type, and where it stands.

use std::ops::Range;

use lock_core::time::Date;
use toml::Spanned;
use toml::de::{DeArray, DeTable, DeValue};

use super::refusal::{Read, Wrong};
use crate::plain::is_plain;

/// A value with its place.
pub(crate) type Value<'t> = Spanned<DeValue<'t>>;

/// The last year that a site can plan. The lock's clock ends in 2106.
pub(crate) const LAST_YEAR: u16 = 2_100;

/// How far a word may be from a known one to be taken for a slip of it, at most: a
/// third of its letters.
const SLIP: usize = 3;

/// A table of the file, with the name people know it by.
#[derive(Clone, Copy)]
pub(crate) struct Table<'t> {
    /// For sentences: `the [policy] table`, say.
    pub(crate) called: &'static str,
    pub(crate) entries: &'t DeTable<'t>,
    at: (usize, usize),
}

/// One key of a table and its value.
#[derive(Clone, Copy)]
pub(crate) struct Field<'t> {
    pub(crate) key: &'t str,
    pub(crate) value: &'t Value<'t>,
}

impl<'t> Table<'t> {
    pub(crate) fn new(called: &'static str, entries: &'t DeTable<'t>, at: &Range<usize>) -> Self {
        Self { called, entries, at: (at.start, at.end) }
    }

    /// Where it starts.
    pub(crate) fn at(&self) -> Range<usize> {
        self.at.0..self.at.1
    }

    /// Refuses keys that are not among `known`, and names the nearest one that could
    /// stand in its place: one that the table has already could not.
    pub(crate) fn only(&self, known: &[&str]) -> Read<()> {
        for key in self.entries.keys() {
            let name: &str = key.get_ref();
            if known.contains(&name) {
                continue;
            }
            let free: Vec<&str> =
                known.iter().copied().filter(|key| self.entries.get(*key).is_none()).collect();
            let remedy = match nearest(name, free.iter().copied()) {
                Some(near) => format!("Did you mean `{near}`?"),
                None if free.is_empty() => "Take it out: all keys of this place are there.".into(),
                None => format!("Keys that could stand here: {}.", free.join(", ")),
            };
            let what = if could_be_code(name) {
                format!("There is an unknown key in {}.", self.called)
            } else {
                format!("`{name}` is no key of {}.", self.called)
            };
            return Err(Wrong::new(&key.span(), what, remedy).here("unknown key"));
        }
        Ok(())
    }

    /// The key, if it is there.
    pub(crate) fn get(&self, key: &str) -> Option<Field<'t>> {
        let (key, value) = self.entries.get_key_value(key)?;
        Some(Field { key: key.get_ref(), value })
    }

    /// The key, which must be there.
    pub(crate) fn need(&self, key: &'static str, example: &str) -> Read<Field<'t>> {
        self.get(key).ok_or_else(|| {
            let what = format!("The key `{key}` is missing in {}.", self.called);
            Wrong::new(&self.at(), what, format!("Add it, for example: {example}"))
                .here(format!("`{key}` belongs in here"))
        })
    }
}

impl<'t> Field<'t> {
    pub(crate) fn at(&self) -> Range<usize> {
        self.value.span()
    }

    pub(crate) fn text(&self) -> Read<&'t str> {
        match self.value.get_ref() {
            DeValue::String(text) => Ok(text),
            _ => Err(self.wrong_type("a text in quotes")),
        }
    }

    /// A text to be shown to people: 1 to `most` characters, none of them a
    /// control character.
    pub(crate) fn name(&self, most: usize) -> Read<&'t str> {
        let name = self.text()?.trim();
        let key = self.key;
        let wrong = |what: String| {
            let remedy = format!("Write 1 to {most} characters.");
            Err(Wrong::new(&self.at(), what, remedy))
        };
        let length = name.chars().count();
        if length == 0 {
            return wrong(format!("`{key}` is empty."));
        }
        if length > most {
            return wrong(format!("`{key}` is too long: it has {length} characters."));
        }
        if !name.chars().all(is_plain) {
            return wrong(format!("`{key}` has a character that cannot be shown."));
        }
        Ok(name)
    }

    pub(crate) fn flag(&self) -> Read<bool> {
        match self.value.get_ref() {
            DeValue::Boolean(flag) => Ok(*flag),
            _ => Err(self.wrong_type("true or false, without quotes")),
        }
    }

    /// A whole number from `least` to `most`.
    pub(crate) fn whole(&self, least: u32, most: u32, remedy: &str) -> Read<u32> {
        let DeValue::Integer(number) = self.value.get_ref() else {
            return Err(self.wrong_type("a whole number, without quotes"));
        };
        let value = i64::from_str_radix(&number.as_str().replace('_', ""), number.radix());
        match value.ok().and_then(|value| u32::try_from(value).ok()) {
            Some(value) if (least..=most).contains(&value) => Ok(value),
            _ => {
                let what = format!("`{}` must be a number from {least} to {most}.", self.key);
                Err(Wrong::new(&self.at(), what, remedy).here("out of bounds"))
            }
        }
    }

    /// A number from 0 to `most`, with a point or without.
    pub(crate) fn decimal(&self, most: f64) -> Read<f64> {
        let text = match self.value.get_ref() {
            DeValue::Float(number) => number.as_str(),
            DeValue::Integer(number) if number.radix() == 10 => number.as_str(),
            _ => return Err(self.wrong_type("a number, without quotes")),
        };
        match text.replace('_', "").parse::<f64>() {
            Ok(value) if (0.0..=most).contains(&value) => Ok(value),
            _ => {
                let what = format!("`{}` must be a number from 0 to {most}.", self.key);
                let remedy = "Write it in the unit of this key.";
                Err(Wrong::new(&self.at(), what, remedy).here("out of bounds"))
            }
        }
    }

    pub(crate) fn date(&self) -> Read<Date> {
        let wrong_type = || self.wrong_type("a date such as 2027-12-24, without quotes");
        let DeValue::Datetime(moment) = self.value.get_ref() else {
            return Err(wrong_type());
        };
        let (Some(date), None, None) = (moment.date, moment.time, moment.offset) else {
            return Err(wrong_type());
        };
        let date = Some(date).filter(|date| date.year <= LAST_YEAR);
        date.and_then(|date| Date::from_ymd(date.year, date.month, date.day)).ok_or_else(|| {
            let what = format!("`{}` lies outside the years that a lock can plan.", self.key);
            let remedy = format!("Write a date from 1970-01-01 to {LAST_YEAR}-12-31.");
            Wrong::new(&self.at(), what, remedy)
        })
    }

    pub(crate) fn list(&self) -> Read<&'t DeArray<'t>> {
        match self.value.get_ref() {
            DeValue::Array(list) => Ok(list),
            _ => Err(self.wrong_type("a list in square brackets")),
        }
    }

    pub(crate) fn table(&self, called: &'static str) -> Read<Table<'t>> {
        match self.value.get_ref() {
            DeValue::Table(entries) => Ok(Table::new(called, entries, &self.at())),
            _ => Err(self.wrong_type("a table")),
        }
    }

    /// The tables of a `[[key]]`.
    pub(crate) fn tables(&self, called: &'static str) -> Read<Vec<Table<'t>>> {
        let DeValue::Array(list) = self.value.get_ref() else {
            let what = format!("`{}` must be written with double brackets.", self.key);
            let remedy = format!("Write [[{}]] above each of them.", self.key);
            return Err(Wrong::new(&self.at(), what, remedy).here(found(self.value)));
        };
        list.iter().map(|value| Field { key: self.key, value }.table(called)).collect()
    }

    pub(crate) fn wrong_type(&self, expected: &str) -> Box<Wrong> {
        let what = format!("`{}` must be {expected}.", self.key);
        Wrong::new(&self.at(), what, format!("Write {expected}.")).here(found(self.value))
    }
}

/// The known word nearest to `word`, if it could be a slip of the keyboard, or
/// the word written out.
pub(crate) fn nearest<'k>(word: &str, known: impl Iterator<Item = &'k str>) -> Option<&'k str> {
    let word = word.to_lowercase();
    let distance = |known: &str| {
        let known = known.to_lowercase();
        if known.len() >= SLIP && word.starts_with(&known) {
            return 0;
        }
        strsim::damerau_levenshtein(&word, &known)
    };
    let most = SLIP.min((word.chars().count() + 1) / 3);
    known
        .map(|known| (distance(known), known))
        .min()
        .filter(|(distance, known)| *distance <= most && *distance < known.len())
        .map(|(_, known)| known)
}

/// Words for a value of the wrong type; never the value, which could be a code.
fn found(value: &Value<'_>) -> &'static str {
    match value.get_ref() {
        DeValue::String(_) => "this is a text",
        DeValue::Integer(_) => "this is a whole number",
        DeValue::Float(_) => "this is a number with a point",
        DeValue::Boolean(_) => "this is true or false",
        DeValue::Datetime(_) => "this is a date or time",
        DeValue::Array(_) => "this is a list",
        DeValue::Table(_) => "this is a table",
    }
}

/// Whether a word holds so many digits that it could be a code.
fn could_be_code(word: &str) -> bool {
    word.chars().filter(char::is_ascii_digit).count() > 2
}
