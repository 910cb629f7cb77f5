//! Where the lines of an iCalendar stand.
//!
//! A content line is folded over several lines of the file (RFC 5545 section
//! 3.1): a line that starts with a blank goes on where the one before ended.
//! Whoever reads an error wants the line of the file.

use std::ops::Range;

use crate::document::{Read, Wrong};

/// How deep components may be nested: VALARM in VEVENT in VCALENDAR, and room
/// for what others add.
const DEPTH_MOST: usize = 8;

/// The content lines of a file.
pub(super) struct Lines {
    lines: Vec<Line>,
    events: Vec<At>,
}

/// A content line, unfolded, and the bytes that it takes in the file.
struct Line {
    text: String,
    at: Range<usize>,
}

/// An event's own properties and where they stand.
pub(super) struct At {
    begin: Range<usize>,
    properties: Vec<(String, Range<usize>)>,
}

impl At {
    /// The byte at which the event starts.
    pub(super) fn start(&self) -> usize {
        self.begin.start
    }

    /// Where the first property of that name stands; the event's first line if
    /// there is none.
    pub(super) fn property(&self, name: &str) -> Range<usize> {
        let found = self.properties.iter().find(|(own, _)| own == name);
        found.map_or(&self.begin, |(_, at)| at).clone()
    }
}

impl Lines {
    /// Splits the file and checks that components begin and end in pairs.
    pub(super) fn read(text: &str) -> Read<Self> {
        let mut all = Self { lines: unfold(text), events: Vec::new() };
        let mut open: Vec<String> = Vec::new();
        for Line { text, at } in &all.lines {
            let end = text.find([':', ';']).unwrap_or(0);
            let name = text[..end].to_ascii_uppercase();
            let value = text.get(end + 1..).unwrap_or_default().trim();
            if name.is_empty() || !text.contains(':') {
                let what = "This is no line of an iCalendar.";
                let remedy = "Each line is NAME:VALUE, or starts with a blank and goes on.";
                return Err(Wrong::new(at, what, remedy));
            }
            if open.is_empty() && (name != "BEGIN" || value != "VCALENDAR") {
                let what =
                    "This is no iCalendar: it must be one calendar, from BEGIN:VCALENDAR on.";
                return Err(Wrong::new(at, what, "Export the calendar as iCalendar (.ics)."));
            }
            match name.as_str() {
                "BEGIN" => {
                    if open.len() == DEPTH_MOST {
                        let what = "These components are nested too deep.";
                        return Err(Wrong::new(at, what, "Export the calendar again."));
                    }
                    if open.len() == 1 && value == "VEVENT" {
                        all.events.push(At { begin: at.clone(), properties: Vec::new() });
                    }
                    open.push(value.to_owned());
                }
                "END" => {
                    let last = open.pop().unwrap_or_default();
                    if last != value {
                        let what = format!("{last} must end before something else does.");
                        let remedy = format!("END:{last} is missing; the file may be cut off.");
                        return Err(Wrong::new(at, what, remedy).here("ends something else"));
                    }
                }
                _ => {
                    if open.len() == 2
                        && open.last().is_some_and(|name| name == "VEVENT")
                        && let Some(event) = all.events.last_mut()
                    {
                        event.properties.push((name, at.clone()));
                    }
                }
            }
        }
        match (open.last(), all.lines.last()) {
            (None, Some(_)) => Ok(all),
            (Some(last), Some(line)) => {
                let what = format!("The file ends within a {last}.");
                let remedy = "It may be cut off; fetch or export it again.";
                Err(Wrong::new(&line.at, what, remedy).here("the last line"))
            }
            (_, None) => {
                let remedy = "Name an iCalendar (.ics) with events.";
                Err(Wrong::new(&(0..0), "This file is empty.", remedy))
            }
        }
    }

    /// The events in the order of the file.
    pub(super) fn events(&self) -> impl Iterator<Item = &At> {
        self.events.iter()
    }

    /// A content line a line, as the reading crate takes it.
    pub(super) fn unfolded(&self) -> String {
        self.lines.iter().map(|line| format!("{}\r\n", line.text)).collect()
    }

    /// The reading crate's complaint, at the line that it names.
    pub(super) fn no_calendar(&self, why: &str) -> Box<Wrong> {
        let number = why.split("at line ").nth(1).and_then(|rest| {
            let end = rest.find(|c: char| !c.is_ascii_digit()).unwrap_or(rest.len());
            rest.get(..end)?.parse::<usize>().ok()
        });
        let line = number.and_then(|number| self.lines.get(number.checked_sub(1)?));
        let at = line.map_or(0..0, |line| line.at.clone());
        let what = "This line cannot be read as iCalendar.";
        Wrong::new(&at, what, "Correct it as RFC 5545 says, or export the calendar again.")
    }
}

fn unfold(text: &str) -> Vec<Line> {
    let mut lines: Vec<Line> = Vec::new();
    let mut start = 0;
    for whole in text.split_inclusive('\n') {
        let at = start..start + whole.trim_end_matches(['\r', '\n']).len();
        start += whole.len();
        let mut line = &text[at.clone()];
        if at.start == 0 {
            line = line.trim_start_matches('\u{feff}');
        }
        match (line.strip_prefix([' ', '\t']), lines.last_mut()) {
            (Some(rest), Some(last)) => {
                last.text.push_str(rest);
                last.at.end = at.end;
            }
            _ if line.trim().is_empty() => {}
            _ => lines.push(Line { text: line.to_owned(), at }),
        }
    }
    lines
}
