//! The text of a site file: places in it, and a copy that shows no code.

use std::cell::Cell;
use std::ops::Range;
use std::path::Path;

use miette::NamedSource;

use super::refusal::LoadError;
use crate::{files, plain};

/// A run of digits this long could be a code, wherever in the file it stands:
/// one digit less than the shortest code, because people leave one out. Dates,
/// times and lock numbers have shorter runs.
const CODE_LIKE: usize = 5;

/// Words for a code as a key: that of the format, and those that people write.
const CODE_KEYS: [&str; 7] = ["demo", "codes", "code", "pin", "pins", "passcode", "passcodes"];

/// Units of the quantities that a site file holds (`quantity.rs`).
const UNITS: [&str; 5] = ["s", "m", "h", "V", "mV"];

/// Bytes of the longest file that is read: a thousand times what people write, and
/// more than the longest recording of a lesson.
pub const TEXT_MOST: usize = 1 << 20;

/// The text of a file.
///
/// # Errors
/// [`LoadError::Unreadable`], also if it is longer than [`TEXT_MOST`].
pub(crate) fn read_text(path: &Path) -> Result<String, LoadError> {
    let unreadable = |why| LoadError::Unreadable { path: path.to_owned(), why };
    files::read_text(path, TEXT_MOST).map_err(unreadable)
}

/// A place in a site file as an editor counts: lines and columns from 1,
/// columns in characters.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Debug)]
pub struct Place {
    /// The line.
    pub line: usize,
    /// The column.
    pub column: usize,
}

/// A site file's text under its name.
pub(crate) struct Source<'t> {
    name: &'t str,
    text: &'t str,
    codes: Codes,
    /// The byte that was placed last, and its place: those of a whole file are asked
    /// for in order, and so found in one go.
    last: Cell<(usize, Place)>,
}

/// Where every text begins.
const START: (usize, Place) = (0, Place { line: 1, column: 1 });

/// Whether a text may hold codes.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Codes {
    /// It may, so errors show no digits of them.
    Maybe,
    /// Its format has no place for any.
    Never,
}

impl<'t> Source<'t> {
    pub(crate) const fn new(name: &'t str, text: &'t str) -> Self {
        Self { name, text, codes: Codes::Maybe, last: Cell::new(START) }
    }

    /// A text of a format without codes, such as a calendar of holidays, whose
    /// dates are long runs of digits.
    pub(crate) const fn without_codes(name: &'t str, text: &'t str) -> Self {
        Self { name, text, codes: Codes::Never, last: Cell::new(START) }
    }

    /// The place of a byte; the end, if there is no character at it.
    pub(crate) fn place(&self, at: usize) -> Place {
        let at = if self.text.is_char_boundary(at) { at } else { self.text.len() };
        let (from, before) = Some(self.last.get()).filter(|(from, _)| *from <= at).unwrap_or(START);
        let between = &self.text[from..at];
        let place = match between.rfind('\n') {
            None => Place { column: before.column + between.chars().count(), ..before },
            Some(newline) => Place {
                line: before.line + between.matches('\n').count(),
                column: between[newline + 1..].chars().count() + 1,
            },
        };
        self.last.set((at, place));
        place
    }

    /// What an error may show: the same text, byte for byte in the same place,
    /// with every digit replaced that could belong to a code (R5).
    pub(crate) fn shown(&self) -> NamedSource<String> {
        let text = match self.codes {
            Codes::Maybe => masked(self.text),
            Codes::Never => self.text.to_owned(),
        };
        NamedSource::new(plain::line(self.name), plain::same_length(text))
    }

    /// What an error may say: what it quotes from the text stands in quotes, and shows
    /// no more of a code than the text does (R5).
    pub(crate) fn said(&self, words: String) -> String {
        match self.codes {
            Codes::Never => words,
            Codes::Maybe => {
                // From the first to the last: what is quoted may hold some itself.
                let mark = ['`', '"'];
                let quoted = words.find(mark).zip(words.rfind(mark));
                let (from, to) = quoted.unwrap_or((words.len(), words.len()));
                let mut said = words[..from].to_owned();
                mask_runs(&words[from..to], &mut said);
                said + &words[to..]
            }
        }
    }

    /// `span` within the text, never empty if the text is not.
    pub(crate) fn within(&self, span: Range<usize>) -> Range<usize> {
        let end = self.text.trim_end().len();
        let start = span.start.min(end.saturating_sub(1));
        start..span.end.clamp(start, self.text.len())
    }
}

/// Stars for digits: all of them in and around `[demo.codes]` and behind a key that
/// names a code; every longer run elsewhere, because a code in the wrong place is
/// still a code.
///
/// It works on bare text, since what cannot be read as TOML is shown too.
fn masked(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    // Whether the table is one of codes; whether the value is; brackets open in it.
    let (mut table, mut value, mut open) = (false, false, 0_i32);
    for line in text.split_inclusive('\n') {
        let start = line.trim_start();
        if start.starts_with('[') && open <= 0 {
            let header = start.trim_start_matches('[').split(']').next().unwrap_or_default();
            (table, value, open) = (names_code(header), false, 0);
        } else if open <= 0 && start.contains('=') {
            (value, open) = (keys(start).any(names_code), 0);
        } else if keys(start).any(names_code) {
            value = true;
        }
        if value {
            let count = |marks: [char; 2]| line.matches(marks).count().try_into().unwrap_or(0);
            open += count(['[', '{']) - count([']', '}']);
        }
        if table || value { mask_values(line, &mut shown) } else { mask_runs(line, &mut shown) }
    }
    shown
}

/// What stands before each `=` of a line, back to where a key can begin.
fn keys(line: &str) -> impl Iterator<Item = &str> {
    let ends = line.match_indices('=').map(|(at, _)| at);
    ends.filter_map(move |at| line.get(..at)?.rsplit(['{', ',', '[', '#']).next())
}

/// Whether a part of a dotted key is a word for a code. That `wrong_codes` has the
/// letters in it makes it none: its value is what is to be mended.
fn names_code(key: &str) -> bool {
    key.split('.').any(|part| {
        let part = part.trim_matches(|c: char| c.is_whitespace() || matches!(c, '"' | '\''));
        CODE_KEYS.iter().any(|name| part.eq_ignore_ascii_case(name))
    })
}

/// Masks every digit but those of a leading number of two digits.
fn mask_values(line: &str, shown: &mut String) {
    let key = line.split_once('=').map_or("", |(key, _)| key);
    let digits = key.chars().filter(char::is_ascii_digit).count();
    let kept = if digits == 2 { key.len() } else { 0 };
    for (at, c) in line.char_indices() {
        shown.push(if c.is_ascii_digit() && at >= kept { '*' } else { c });
    }
}

/// Masks runs of [`CODE_LIKE`] digits or more; blanks and underscores between
/// digits do not end a run. A quantity in quotes, `"86401s"`, is no code.
fn mask_runs(line: &str, shown: &mut String) {
    let mut rest = line;
    while let Some(start) = rest.find(|c: char| c.is_ascii_digit()) {
        let (before, from) = rest.split_at(start);
        let in_run = |c: char| c.is_ascii_digit() || c == '_' || c == ' ';
        let end = from.find(|c| !in_run(c)).unwrap_or(from.len());
        let (run, after) = from.split_at(end);
        let long = run.chars().filter(char::is_ascii_digit).count() >= CODE_LIKE;
        let long = long && !(before.ends_with('"') && is_unit(after));
        shown.push_str(before);
        shown.extend(run.chars().map(|c| if long && c.is_ascii_digit() { '*' } else { c }));
        rest = after;
    }
    shown.push_str(rest);
}

/// Whether a unit and the closing quote follow a number.
fn is_unit(after: &str) -> bool {
    after.split_once('"').is_some_and(|(unit, _)| UNITS.contains(&unit))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// R5: no code is shown, whichever way it got into the file.
    #[test]
    fn codes_are_masked_and_everything_else_stays() {
        for (text, shown) in [
            ("[demo.codes]\n\"12\" = \"739204\"\n", "[demo.codes]\n\"12\" = \"******\"\n"),
            ("[demo.codes]\n\"739204\" = 12\n", "[demo.codes]\n\"******\" = **\n"),
            ("[demo.codes]\n7 = 739_2 # 3\n", "[demo.codes]\n* = ***_* # *\n"),
            ("demo = { codes = { \"12\" = \"73\" } }", "demo = { codes = { \"**\" = \"**\" } }"),
            ("demo.codes.12 = \"7392\"\n", "demo.codes.12 = \"****\"\n"),
            (
                "[demo.codes]\n\n# x\n1 = '9'\n[policy]\na = 9",
                "[demo.codes]\n\n# x\n* = '*'\n[policy]\na = 9",
            ),
            ("code = \"739 204\"", "code = \"*** ***\""),
            ("code = \"7392\" # 12", "code = \"****\" # **"),
            (
                "Codes = [\n \"73\", # x\n \"9\" ]\na = 9",
                "Codes = [\n \"**\", # x\n \"*\" ]\na = 9",
            ),
            ("x = [{ number = 12, pin = \"7392\" }]", "x = [{ number = **, pin = \"****\" }]"),
            ("code =\n\"7392\"\nb = 9", "code =\n\"****\"\nb = 9"),
            // No code, though the letters are in the key, or in one before it.
            ("wrong_codes = 12\npenalty = \"9m\"", "wrong_codes = 12\npenalty = \"9m\""),
            ("code_digits = 123\nclass = \"E9\"", "code_digits = 123\nclass = \"E9\""),
            ("penalty = \"86401s\"\nx = \"739204\"", "penalty = \"86401s\"\nx = \"******\""),
            ("supply_low = \"48000mV\" # 739204s", "supply_low = \"48000mV\" # ******s"),
            (
                "from = 2027-12-25\nmon = [\"08:30-12:30\"]",
                "from = 2027-12-25\nmon = [\"08:30-12:30\"]",
            ),
        ] {
            assert_eq!(masked(text), shown);
        }
    }

    /// R5: a code in the wrong place is not quoted either; what else is said stays.
    #[test]
    fn codes_are_masked_in_what_is_said() {
        let said = |words: &str| Source::new("x", "").said(words.to_owned());
        for (words, shown) in [
            ("`739204` is no lock of 1234567.", "`******` is no lock of 1234567."),
            ("`a739_204b` and `12`.", "`a***_***b` and `12`."),
            ("Up to 65535, not `2027-03-28`.", "Up to 65535, not `2027-03-28`."),
            ("`a`739204` is not a state.", "`a`******` is not a state."),
            ("lock id \"739204\" is given twice", "lock id \"******\" is given twice"),
        ] {
            assert_eq!(said(words), shown);
        }
        let calendar = Source::without_codes("x", "");
        assert_eq!(calendar.said("`20270328`".to_owned()), "`20270328`");
    }

    #[test]
    fn places_count_lines_and_characters_from_one() {
        let source = Source::new("x", "a\nnäme = 1\n");
        assert_eq!(source.place(0), Place { line: 1, column: 1 });
        assert_eq!(source.place(2), Place { line: 2, column: 1 });
        assert_eq!(source.place(10), Place { line: 2, column: 8 });
        // In any order.
        for at in [0, 10, 2, 9, 4, 1, 99, 3] {
            let whole = Source::new("x", "a\nnäme = 1\n");
            assert_eq!(source.place(at), whole.place(at), "{at}");
        }
        assert_eq!(source.place(99), Place { line: 3, column: 1 });
    }
}
