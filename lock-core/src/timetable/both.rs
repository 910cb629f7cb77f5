//! What is open under two calendars at once: what holds while a timetable file
//! waits (R3).

use super::{Day, Window, Windows};

/// Minutes in a day, as in ISO 8601's 24:00.
const DAY_MINUTES: u16 = 1_440;

/// Minutes from one to before the other, counted from the midnight before the
/// day: up to 2,879.
type Stretch = (u16, u16);

impl Day {
    /// What of this day is open in both: closed if either is, else the minutes
    /// that a window of each has.
    ///
    /// Never wider than either, but sometimes narrower than the two allow: at
    /// most as many stretches as a day has windows are kept, the earliest ones;
    /// one that is a day or longer loses its end; and where one lets a window
    /// run past midnight and the other begins one there, they are windows of
    /// different days, which have nothing in common.
    #[must_use]
    pub fn both(&self, other: &Self) -> Self {
        match (self, other) {
            (Self::Closed, _) | (_, Self::Closed) => Self::Closed,
            (Self::Windows(ours), Self::Windows(theirs)) => Self::Windows(common(ours, theirs)),
        }
    }
}

fn common(ours: &Windows, theirs: &Windows) -> Windows {
    let mut common = Windows::new();
    let mut after = 0;
    while let Some((from, end)) = stretch(ours, theirs, after) {
        after = end;
        let pushed = window(from, end).map(|window| common.push(window));
        if !matches!(pushed, Some(Ok(()))) {
            break;
        }
    }
    common
}

/// The window of a stretch, or of as much of it as a window can have.
fn window(from: u16, end: u16) -> Option<Window> {
    let longest =
        if from == 0 { DAY_MINUTES } else { from.checked_add(DAY_MINUTES.checked_sub(1)?)? };
    let end = end.min(longest);
    let to = if end > DAY_MINUTES { end.checked_sub(DAY_MINUTES)? } else { end };
    Window::new(crate::time::Minute::new(from)?, crate::time::Minute::new(to)?)
}

/// The first whole stretch in both that starts at `after` or later. What
/// touches or overlaps is one.
fn stretch(ours: &Windows, theirs: &Windows, after: u16) -> Option<Stretch> {
    let from = pieces(ours, theirs).map(|(from, _)| from).filter(|from| *from >= after).min()?;
    let mut end = from;
    let further = |end| {
        let reaches = move |piece: &Stretch| piece.0 <= end && piece.1 > end;
        pieces(ours, theirs).filter(reaches).map(|(_, end)| end).max()
    };
    while let Some(further) = further(end) {
        end = further;
    }
    Some((from, end))
}

/// What each pair of windows has in common.
fn pieces(ours: &Windows, theirs: &Windows) -> impl Iterator<Item = Stretch> {
    ours.iter().flat_map(move |one| {
        theirs.iter().filter_map(move |other| {
            let from = one.from().max(other.from()).get();
            let end = one.end().min(other.end());
            (from < end).then_some((from, end))
        })
    })
}

/// The judge counts minutes; windows may overlap, as a lock's own settings may.
#[cfg(test)]
mod tests {
    use std::vec::Vec;

    use proptest::collection::vec;
    use proptest::prelude::*;

    use super::*;
    use crate::time::Minute;
    use crate::timetable::WINDOWS_A_DAY;

    fn windows(of: &[(u16, u16)]) -> Windows {
        let minute = |m| Minute::new(m).unwrap();
        of.iter().map(|(from, to)| Window::new(minute(*from), minute(*to)).unwrap()).collect()
    }

    fn open(day: &Day) -> Vec<bool> {
        let Day::Windows(windows) = day else { return std::vec![false; 2_880] };
        (0..2_880).map(|m| windows.iter().any(|w| w.holds(m))).collect()
    }

    /// Runs of open minutes.
    fn runs(open: &[bool]) -> Vec<(usize, usize)> {
        let mut runs: Vec<(usize, usize)> = Vec::new();
        for (minute, _) in open.iter().enumerate().filter(|(_, open)| **open) {
            match runs.last_mut() {
                Some(run) if run.1 == minute => run.1 += 1,
                _ => runs.push((minute, minute + 1)),
            }
        }
        runs
    }

    /// Coarse, so that windows touch, overlap and are equal often.
    fn any_windows() -> impl Strategy<Value = Windows> {
        let edge = prop_oneof![3 => (0..=48u16).prop_map(|n| n * 30), 1 => 0..=1_440u16];
        let pair = (edge.clone(), edge).prop_filter("no window", |(from, to)| from != to);
        let pair = pair.prop_filter("starts at 24:00", |(from, _)| *from < 1_440);
        vec(pair, 0..=WINDOWS_A_DAY).prop_map(|pairs| windows(&pairs))
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(4_000))]

        #[test]
        fn both_is_what_each_minute_says(ours in any_windows(), theirs in any_windows()) {
            let (ours, theirs) = (Day::Windows(ours), Day::Windows(theirs));
            let both = ours.both(&theirs);
            prop_assert_eq!(&both, &theirs.both(&ours));
            let expected: Vec<bool> =
                open(&ours).iter().zip(open(&theirs)).map(|(a, b)| *a && b).collect();
            let (expected, seen) = (runs(&expected), runs(&open(&both)));
            prop_assert_eq!(seen.len(), expected.len().min(WINDOWS_A_DAY));
            for (seen, expected) in seen.iter().zip(&expected) {
                // A window has no room for 24 hours but from midnight.
                let longest = if expected.0 == 0 { 1_440 } else { expected.0 + 1_439 };
                prop_assert_eq!(*seen, (expected.0, expected.1.min(longest)));
            }
        }
    }

    #[test]
    fn a_day_that_either_closes_is_closed() {
        let night = Day::Windows(windows(&[(1_320, 120)]));
        assert_eq!(night.both(&Day::Closed), Day::Closed);
        assert_eq!(Day::Closed.both(&night), Day::Closed);
        let until_one = Day::Windows(windows(&[(1_380, 60)]));
        assert_eq!(night.both(&until_one), until_one);
        assert_eq!(night.both(&night), night);
    }

    /// Narrower than the two allow, and said so above: 22:00 to 02:00 in one
    /// window, and in two days' windows.
    #[test]
    fn a_window_over_midnight_and_one_from_midnight_have_nothing_in_common() {
        let through = Day::Windows(windows(&[(1_320, 120)]));
        let split = Day::Windows(windows(&[(1_320, 1_440)]));
        assert_eq!(through.both(&split), split);
        let after = Day::Windows(windows(&[(0, 120)]));
        assert_eq!(after.both(&Day::Windows(windows(&[]))), Day::Windows(windows(&[])));
    }
}
