//! Codes that nobody may choose, because people choose them too often.
//!
//! People's codes are far from even: the top 5 to 8 % of PINs cover over half
//! of them (Wang et al. 2017), and a blocklist of about a tenth of the space
//! balances safety and annoyance best (Markert et al., S&P 2020). What
//! [`refused`] leaves, counted one by one by an outside check:
//!
//! | digits | usable | refused |
//! | --- | --- | --- |
//! | 6 | 889,354 | 11.06 % |
//! | 7 | 9,343,662 | 6.56 % |
//! | 8 | 93,212,148 | 6.79 % |
//!
//! Dates are refused as day-month-year and month-day-year, not as
//! year-month-day: with all three the six-digit list would take 13.5 %. Where
//! people write the year first, that is a gap (our trade-off, without a source).
//!
//! A code is chosen by somebody who has proved who they are: these rules take
//! their time as they need it, unlike a judgement.

use serde::{Deserialize, Serialize};

use core::fmt;

use super::{Code, MAX_DIGITS, duress_variant};
use crate::keys::Key;

/// A digit that stands this often in a row makes a code guessable.
const RUN: usize = 3;

/// Strokes over the keypad are three or four keys long: rows, diagonals and
/// outer columns have three, the middle column four.
const STROKES: [usize; 2] = [3, 4];

/// What people choose for a four-digit PIN: the first twenty of a frequency
/// list (SecLists, ranking only) and its 22nd, the middle column of the keypad.
/// Longer codes are taken to be one of these with something before or behind
/// it (our extension: no ranking of longer numeric codes is at hand).
const POPULAR: [[u8; 4]; 21] = [
    [1, 2, 3, 4],
    [1, 1, 1, 1],
    [0, 0, 0, 0],
    [1, 2, 1, 2],
    [7, 7, 7, 7],
    [1, 0, 0, 4],
    [2, 0, 0, 0],
    [4, 4, 4, 4],
    [2, 2, 2, 2],
    [6, 9, 6, 9],
    [9, 9, 9, 9],
    [3, 3, 3, 3],
    [5, 5, 5, 5],
    [6, 6, 6, 6],
    [1, 1, 2, 2],
    [1, 3, 1, 3],
    [8, 8, 8, 8],
    [2, 0, 0, 1],
    [4, 3, 2, 1],
    [1, 0, 1, 0],
    [2, 5, 8, 0],
];

/// Why a code is easy to guess. Says nothing of the code beyond its kind.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Guessable {
    /// One or two different digits only.
    FewDigits,
    /// All digits rise or fall by the same step, 9 and 0 being neighbours.
    EvenSteps,
    /// A block of half its length or less, repeated to the end; the last
    /// repetition may be cut short.
    Repeated,
    /// Each digit twice; an odd last digit is free.
    Doubled,
    /// The same read backwards.
    Mirrored,
    /// Straight strokes over neighbouring keys of the keypad, three or four
    /// keys each; the last may be cut short.
    Strokes,
    /// Day, month and year or month, day and year. Six digits: any two-digit
    /// year; eight: 1900 to 2099; seven: eight without the leading zero.
    Date,
    /// Begins or ends with a four-digit code that many people choose.
    Popular,
    /// The same digit three times in a row.
    Run,
}

impl fmt::Display for Guessable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::FewDigits => "it has only one or two different digits",
            Self::EvenSteps => "its digits rise or fall in even steps",
            Self::Repeated => "it repeats a few digits",
            Self::Doubled => "it has each digit twice in a row",
            Self::Mirrored => "it reads the same backwards",
            Self::Strokes => "its keys lie in straight lines",
            Self::Date => "it can be read as a date",
            Self::Popular => "it begins or ends with a code that many people choose",
            Self::Run => "it has a digit three times in a row",
        })
    }
}

/// Why a code is refused when somebody chooses it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Refused {
    /// The code itself is easy to guess.
    Itself(Guessable),
    /// Its duress variant is, for a reason that stays unsaid.
    Variant,
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Itself(why) => why.fmt(f),
            Self::Variant => f.write_str("it is too close to a code that is easy to guess"),
        }
    }
}

/// Whether a new code must be refused: it or its own duress variant is easy to
/// guess (rule R5). Asked also where duress is switched off, so that switching
/// it on later leaves no guessable variant behind.
#[must_use]
pub fn refused(code: &Code) -> Option<Refused> {
    if let Some(why) = guessable(code) {
        return Some(Refused::Itself(why));
    }
    guessable(&duress_variant(code)).map(|_| Refused::Variant)
}

/// The first reason, in the order of [`Guessable`], for which `code` is easy to
/// guess.
#[must_use]
pub fn guessable(code: &Code) -> Option<Guessable> {
    let digits = code.values();
    let why = if has_few_digits(digits) {
        Guessable::FewDigits
    } else if has_even_steps(digits) {
        Guessable::EvenSteps
    } else if is_repeated(digits) {
        Guessable::Repeated
    } else if is_doubled(digits) {
        Guessable::Doubled
    } else if is_mirrored(digits) {
        Guessable::Mirrored
    } else if is_strokes(digits) {
        Guessable::Strokes
    } else if is_date(digits) {
        Guessable::Date
    } else if is_popular(digits) {
        Guessable::Popular
    } else if has_run(digits) {
        Guessable::Run
    } else {
        return None;
    };
    Some(why)
}

fn has_few_digits(digits: &[u8]) -> bool {
    let seen = digits.iter().fold(0_u16, |seen, d| seen | 1_u16.wrapping_shl(u32::from(*d)));
    seen.count_ones() <= 2
}

fn has_even_steps(digits: &[u8]) -> bool {
    let mut steps = digits
        .iter()
        .zip(digits.iter().skip(1))
        .map(|(a, b)| b.wrapping_add(10).wrapping_sub(*a) % 10);
    let first = steps.next();
    steps.all(|step| Some(step) == first)
}

fn is_repeated(digits: &[u8]) -> bool {
    (1..=digits.len() / 2).any(|block| digits.iter().zip(digits.iter().skip(block)).all(same))
}

fn is_doubled(digits: &[u8]) -> bool {
    let firsts = digits.iter().step_by(2);
    firsts.zip(digits.iter().skip(1).step_by(2)).all(same)
}

fn is_mirrored(digits: &[u8]) -> bool {
    digits.iter().eq(digits.iter().rev())
}

fn has_run(digits: &[u8]) -> bool {
    digits.windows(RUN).any(|run| run.iter().zip(run.iter().skip(1)).all(same))
}

fn same((a, b): (&u8, &u8)) -> bool {
    a == b
}

fn is_popular(digits: &[u8]) -> bool {
    POPULAR.iter().any(|stem| digits.starts_with(stem) || digits.ends_with(stem))
}

/// Whether the code can be cut into strokes. `reached` marks how many digits
/// can be used up by whole strokes.
fn is_strokes(digits: &[u8]) -> bool {
    let mut reached = [false; MAX_DIGITS + 1];
    reached[0] = true;
    for start in 0..=digits.len() {
        if reached.get(start) != Some(&true) {
            continue;
        }
        let rest = digits.get(start..).unwrap_or_default();
        if rest.len() < 3 && is_line(rest) {
            return true;
        }
        for keys in STROKES {
            if rest.get(..keys).is_some_and(is_line)
                && let Some(mark) = reached.get_mut(start.saturating_add(keys))
            {
                *mark = true;
            }
        }
    }
    false
}

/// Whether each key is the neighbour of the one before, in one direction.
fn is_line(digits: &[u8]) -> bool {
    let mut steps = digits.iter().zip(digits.iter().skip(1)).map(|(from, to)| step(*from, *to));
    match steps.next() {
        None => true,
        Some(None) => false,
        Some(first) => steps.all(|step| step == first),
    }
}

/// Rows and columns from one key to a neighbouring one; `None` for the same key
/// and those further away.
fn step(from: u8, to: u8) -> Option<(i8, i8)> {
    let ((row, column), (to_row, to_column)) = (place(from)?, place(to)?);
    let (down, right) = (to_row.wrapping_sub(row), to_column.wrapping_sub(column));
    let near = (-1..=1).contains(&down) && (-1..=1).contains(&right);
    (near && (down, right) != (0, 0)).then_some((down, right))
}

/// Row and column of a digit's key.
fn place(digit: u8) -> Option<(i8, i8)> {
    for (keys, row) in Key::LAYOUT.iter().zip(0_i8..) {
        for (key, column) in keys.iter().zip(0_i8..) {
            if let Key::Digit(d) = key
                && d.get() == digit
            {
                return Some((row, column));
            }
        }
    }
    None
}

fn is_date(digits: &[u8]) -> bool {
    let two = |tens: u8, units: u8| tens.wrapping_mul(10).wrapping_add(units);
    match *digits {
        [a, b, c, d, _, _] => is_day(two(a, b), two(c, d)),
        [b, c, d, e, f, _, _] => is_day(b, two(c, d)) && is_century(two(e, f)),
        [a, b, c, d, e, f, _, _] => is_day(two(a, b), two(c, d)) && is_century(two(e, f)),
        _ => false,
    }
}

fn is_century(hundreds: u8) -> bool {
    hundreds == 19 || hundreds == 20
}

/// Whether two numbers are a day and a month, whichever comes first; 29 February
/// counts in every year.
fn is_day(a: u8, b: u8) -> bool {
    let fits = |day: u8, month: u8| {
        let days = match month {
            4 | 6 | 9 | 11 => 30,
            2 => 29,
            1..=12 => 31,
            _ => 0,
        };
        (1..=days).contains(&day)
    };
    fits(a, b) || fits(b, a)
}
