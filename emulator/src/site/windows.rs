//! Opening windows: reading them, merging those that touch, refusing those
//! that overlap.

use std::ops::Range;

use lock_core::time::Minute;
use lock_core::timetable::{WINDOWS_A_DAY, Window};
use toml::de::DeValue;

use crate::document::{Field, Value};
use crate::document::{Read, Wrong};

/// Minutes in a day.
const DAY: u16 = 1_440;

const EXAMPLE: &str =
    "Write a window as \"08:30-12:30\"; one that runs past midnight as \"22:00-02:00\".";

/// A window and where it is written.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct PlacedWindow {
    pub(super) window: Window,
    pub(super) at: Range<usize>,
}

/// The windows that start on one day: sorted, merged, at most five.
pub(super) fn read_day(field: &Field<'_>) -> Read<Vec<PlacedWindow>> {
    let mut windows = Vec::new();
    for value in field.list()? {
        windows.push(read_window(value)?);
    }
    windows.sort_by_key(|placed| placed.window.from());
    for pair in windows.windows(2) {
        if let [first, second] = pair
            && first.window.end() > second.window.from().get()
        {
            return Err(overlap(first, second, "on the same day"));
        }
    }
    let windows = merged(windows);
    match windows.get(WINDOWS_A_DAY) {
        None => Ok(windows),
        Some(sixth) => {
            let what = format!("`{}` has more than {WINDOWS_A_DAY} windows.", field.key);
            let remedy = "A lock keeps five windows a day; windows that touch count as one.";
            Err(Wrong::new(&sixth.at, what, remedy).here("one too many"))
        }
    }
}

/// Refuses windows of a day that are still running when one of the next day's
/// starts. `whose` says which two days they are.
pub(super) fn refuse_run_over(
    before: &[PlacedWindow],
    day: &[PlacedWindow],
    whose: &str,
) -> Read<()> {
    for first in before {
        let runs_to = first.window.end().saturating_sub(DAY);
        if let Some(second) = day.iter().find(|w| w.window.from().get() < runs_to) {
            return Err(overlap(first, second, whose));
        }
    }
    Ok(())
}

/// Which of the two is written last is the one to complain about.
fn overlap(first: &PlacedWindow, second: &PlacedWindow, whose: &str) -> Box<Wrong> {
    let (early, late) =
        if first.at.start < second.at.start { (first, second) } else { (second, first) };
    let what = format!(
        "The windows {} and {} overlap ({whose}).",
        written(first.window),
        written(second.window),
    );
    let remedy = "Let one end before or when the other starts, or write one window for both.";
    let wrong = Wrong::new(&late.at, what, remedy).here("overlaps");
    if early.at == late.at { wrong } else { wrong.there(&early.at, "with this one") }
}

/// Touching windows become one, unless it would be a day long or more, which
/// no single window can say.
fn merged(windows: Vec<PlacedWindow>) -> Vec<PlacedWindow> {
    let mut merged: Vec<PlacedWindow> = Vec::new();
    for next in windows {
        if let Some(last) = merged.last_mut()
            && last.window.end() == next.window.from().get()
            && let Some(both) = joined(last.window, next.window)
        {
            last.window = both;
            continue;
        }
        merged.push(next);
    }
    merged
}

fn joined(first: Window, second: Window) -> Option<Window> {
    let end = second.end();
    let to = if end > DAY { end.saturating_sub(DAY) } else { end };
    let both = Window::new(first.from(), Minute::new(to)?)?;
    (both.end() == end).then_some(both)
}

fn read_window(value: &Value<'_>) -> Read<PlacedWindow> {
    let at = value.span();
    let DeValue::String(text) = value.get_ref() else {
        let what = "A window must be a text in quotes.";
        return Err(Wrong::new(&at, what, EXAMPLE).here("no window"));
    };
    let Some((from, to)) = text.split_once('-') else {
        let what = "A window needs a start and an end with a hyphen between them.";
        return Err(Wrong::new(&at, what, EXAMPLE).here("no window"));
    };
    let from = read_time(from, &at)?;
    let to = read_time(to, &at)?;
    if from == Minute::END {
        let what = "A window cannot start at 24:00.";
        let remedy = "Write 00:00 on the next day, or an earlier start.";
        return Err(Wrong::new(&at, what, remedy).here("starts when the day is over"));
    }
    let Some(window) = Window::new(from, to) else {
        let what = "This window has no length: it ends when it starts.";
        let remedy = "For a whole day write \"00:00-24:00\".";
        return Err(Wrong::new(&at, what, remedy).here("no length"));
    };
    Ok(PlacedWindow { window, at })
}

/// Reads a time written `08:30`.
fn read_time(text: &str, at: &Range<usize>) -> Read<Minute> {
    let time = text.trim();
    let minute = time.split_once(':').and_then(|(hour, minute)| {
        let two = |part: &str| {
            let plain = part.len() == 2 && part.bytes().all(|b| b.is_ascii_digit());
            plain.then(|| part.parse().ok()).flatten()
        };
        Minute::from_hm(two(hour)?, two(minute)?)
    });
    minute.ok_or_else(|| {
        // What is not at least shaped like a time may be anything, and is not
        // repeated.
        let shaped = time.len() <= 5 && time.contains(':');
        let name = if shaped { format!("`{time}`") } else { "One of the two".into() };
        Wrong::new(at, format!("{name} is not a time of day."), EXAMPLE)
            .here("hours are 00 to 24, minutes 00 to 59")
    })
}

/// A window as the site file spells it.
#[must_use]
pub fn written(window: Window) -> String {
    let ((from_hour, from_minute), (to_hour, to_minute)) = (window.from().hm(), window.to().hm());
    format!("{from_hour:02}:{from_minute:02}-{to_hour:02}:{to_minute:02}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn window(from: u16, to: u16) -> Window {
        Window::new(Minute::new(from).unwrap(), Minute::new(to).unwrap()).unwrap()
    }

    /// Every pair of touching windows on a grid: one window if it holds the
    /// same minutes, two if no one window can.
    #[test]
    fn joining_changes_no_minute() {
        let grid = |m: u16| m * 60;
        for from in (0..24).map(grid) {
            for middle in (from / 60 + 1..24).map(grid) {
                for to in (0..=24).map(grid).filter(|to| *to != middle) {
                    let (first, second) = (window(from, middle), window(middle, to));
                    let length = second.end() - from;
                    let both = joined(first, second);
                    let expected = length < DAY || (from == 0 && length == DAY);
                    assert_eq!(both.is_some(), expected, "{from} {middle} {to}");
                    let Some(both) = both else { continue };
                    for m in 0..2 * DAY {
                        assert_eq!(both.holds(m), first.holds(m) || second.holds(m));
                    }
                }
            }
        }
    }
}
