//! `plan openings` against a computation of its own.
//!
//! Source: section 5 of docs/behaviour.md alone (membership by wall clock, closures,
//! special days), with IANA's data and civil time by jiff 1.0. The oracle below
//! knows no walk from boundary to boundary: it turns each date's wall time into
//! instants, one stretch of constant offset at a time, and joins what touches.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use jiff::civil::Date;
use jiff::tz::TimeZone;
use jiff::{Span, Timestamp, ToSpan};
use proptest::test_runner::{RngAlgorithm, TestRng};

use crate::planner::SiteFile;

/// Site files that are tried.
const SITES: u32 = 400;
/// Minutes of a day and of a week.
const DAY: i64 = 1_440;
const WEEK: i64 = 7 * DAY;

const ZONES: [&str; 14] = [
    "Europe/Dublin",
    "America/New_York",
    "America/Nuuk",
    "Africa/Cairo",
    "Australia/Lord_Howe",
    "America/Santiago",
    "Asia/Kathmandu",
    "Pacific/Kiritimati",
    "Asia/Jerusalem",
    "Antarctica/Troll",
    "America/Miquelon",
    "Pacific/Chatham",
    "America/St_Johns",
    "Pacific/Marquesas",
];

/// A window in minutes after the midnight before it starts, `to` up to 2,879.
type Window = (i64, i64);

/// A timetable with its closures and special days, as a person would list them.
pub(crate) struct Plan {
    pub(crate) zone: &'static str,
    week: [Vec<Window>; 7],
    closures: Vec<(Date, Date)>,
    specials: Vec<(Date, Vec<Window>)>,
    pub(crate) from: Date,
    pub(crate) to: Date,
}

/// Random numbers from one seed.
pub(crate) struct Dice(TestRng);

impl Dice {
    pub(crate) fn new(seed: u32) -> Self {
        let mut bytes = [0; 32];
        bytes[..4].copy_from_slice(&seed.to_le_bytes());
        Self(TestRng::from_seed(RngAlgorithm::ChaCha, &bytes))
    }

    /// A number from 0 to `most`, inclusive.
    pub(crate) fn upto(&mut self, most: i64) -> i64 {
        use proptest::prelude::Rng;
        let range = u64::try_from(most).unwrap() + 1;
        i64::try_from(self.0.next_u64() % range).unwrap()
    }

    /// Minutes from 0 to `most`, mostly on the quarter hour.
    fn minute(&mut self, most: i64) -> i64 {
        let minute = self.upto(most);
        if self.upto(2) > 0 { minute / 15 * 15 } else { minute }
    }
}

impl Plan {
    pub(crate) fn random(dice: &mut Dice) -> Self {
        let zone = ZONES[usize::try_from(dice.upto(13)).unwrap()];
        let year = i16::try_from(2027 + dice.upto(40)).unwrap();
        let from = Date::new(year, 1, 1).unwrap() + dice.upto(364).days();
        let mut plan = Self {
            zone,
            week: random_week(dice),
            closures: Vec::new(),
            specials: Vec::new(),
            from,
            to: from + 2.years(),
        };
        for _ in 0..dice.upto(20) {
            let first = from + (dice.upto(760) - 15).days();
            let days = if dice.upto(3) == 0 { dice.upto(90) } else { dice.upto(2) };
            plan.closures.push((first, first + days.days()));
        }
        for _ in 0..dice.upto(32) {
            plan.try_special(dice);
        }
        plan
    }

    /// Adds a special day, unless it would contradict what is there.
    fn try_special(&mut self, dice: &mut Dice) {
        let date = self.from + (dice.upto(735) - 2).days();
        let taken = self.specials.iter().any(|(other, _)| *other == date);
        if taken || self.is_closed(date) {
            return;
        }
        let mut windows = Vec::new();
        let mut at = dice.minute(DAY - 1);
        while windows.len() < 4 && at < DAY {
            let most = if dice.upto(4) == 0 { DAY - 2 } else { 300 };
            let length = 1 + dice.minute(most);
            windows.push((at, at + length));
            at += length + dice.minute(200);
        }
        if dice.upto(9) == 0 {
            windows.clear();
        }
        self.specials.push((date, windows));
        let before = date.yesterday().unwrap();
        let after = date.tomorrow().unwrap();
        if self.overlap(before, date) || self.overlap(date, after) {
            self.specials.pop();
        }
    }

    fn overlap(&self, day: Date, next: Date) -> bool {
        let runs_to = self.starting_on(day).iter().map(|w| w.1 - DAY).max().unwrap_or(0);
        self.starting_on(next).iter().any(|w| w.0 < runs_to)
    }

    fn is_closed(&self, date: Date) -> bool {
        self.closures.iter().any(|(from, to)| *from <= date && date <= *to)
    }

    /// The windows that start on a date.
    fn starting_on(&self, date: Date) -> &[Window] {
        if self.is_closed(date) {
            return &[];
        }
        if let Some((_, windows)) = self.specials.iter().find(|(other, _)| *other == date) {
            return windows;
        }
        &self.week[usize::try_from(date.weekday().to_monday_zero_offset()).unwrap()]
    }

    /// Whether the wall time `minute` of `date` is open.
    pub(crate) fn is_open(&self, date: Date, minute: i64) -> bool {
        let holds = |windows: &[Window], m: i64| windows.iter().any(|w| w.0 <= m && m < w.1);
        !self.is_closed(date)
            && (holds(self.starting_on(date), minute)
                || holds(self.starting_on(date.yesterday().unwrap()), minute + DAY))
    }

    /// The open wall time of a date: sorted stretches within `[0, 1440)`.
    fn wall_time(&self, date: Date) -> Vec<Window> {
        if self.is_closed(date) {
            return Vec::new();
        }
        let run_in = self.starting_on(date.yesterday().unwrap()).iter();
        let run_in = run_in.map(|w| (0, w.1 - DAY)).filter(|w| w.1 > 0);
        let own = self.starting_on(date).iter().map(|w| (w.0, w.1.min(DAY)));
        let mut stretches: Vec<Window> = run_in.chain(own).collect();
        stretches.sort_unstable();
        stretches
    }

    /// The maximal stretches of opening time, in the slow and obvious way.
    fn openings(&self, zone: &TimeZone) -> Vec<(Timestamp, Timestamp)> {
        let start = start_of(self.from, zone);
        let end = start_of(self.to, zone);
        let mut seams = vec![start];
        let following = zone.following(start).map(|transition| transition.timestamp());
        seams.extend(following.take_while(|at| *at < end));
        seams.push(end);
        let mut openings: Vec<(Timestamp, Timestamp)> = Vec::new();
        for seam in seams.windows(2) {
            let (begins, ends) = (seam[0], seam[1]);
            let offset = zone.to_offset(begins);
            let mut date = offset.to_datetime(begins).date();
            let last = offset.to_datetime(ends).date();
            while date <= last {
                for (from, to) in self.wall_time(date) {
                    let at = |minute: i64| {
                        let midnight = offset.to_timestamp(date.at(0, 0, 0, 0)).unwrap();
                        midnight + Span::new().minutes(minute)
                    };
                    let (from, to) = (at(from).max(begins), at(to).min(ends));
                    if from >= to {
                        continue;
                    }
                    match openings.last_mut() {
                        Some(last) if last.1 == from => last.1 = to,
                        _ => openings.push((from, to)),
                    }
                }
                date = date.tomorrow().unwrap();
            }
        }
        openings
    }

    /// The plan as a site file, with a second timetable that must not matter.
    pub(crate) fn site_file(&self, dice: &mut Dice) -> String {
        let mut text = format!("site = \"S\"\nzone = \"{}\"\n", self.zone);
        let (used, other) = if dice.upto(1) == 0 { ("A", "B") } else { ("C", "A") };
        text += "[[lock]]\nid = \"till\"\nnumber = 1\n";
        writeln!(text, "[timetable.{used}]").unwrap();
        for (day, windows) in
            ["mon", "tue", "wed", "thu", "fri", "sat", "sun"].iter().zip(&self.week)
        {
            if !windows.is_empty() || dice.upto(1) == 0 {
                writeln!(text, "{day} = {}", window_list(windows, dice)).unwrap();
            }
        }
        writeln!(text, "[timetable.{other}]\nwed = [\"10:00-11:00\"]").unwrap();
        let from = self.from;
        writeln!(text, "[[closure]]\nfrom = {from}\ntimetables = [\"{other}\"]").unwrap();
        for (from, to) in &self.closures {
            writeln!(text, "[[closure]]\nfrom = {from}").unwrap();
            if from != to || dice.upto(1) == 0 {
                writeln!(text, "to = {to}").unwrap();
            }
            if dice.upto(1) == 0 {
                writeln!(text, "timetables = [\"{used}\"]").unwrap();
            }
        }
        for (date, windows) in &self.specials {
            writeln!(text, "[[special]]\ndate = {date}\ntimetables = [\"{used}\"]").unwrap();
            writeln!(text, "windows = {}", window_list(windows, dice)).unwrap();
        }
        text += "[[holder]]\nnumber = 12\nname = \"T\"\nrole = \"keyholder\"\n";
        writeln!(text, "timetable = \"{used}\"").unwrap();
        text
    }
}

pub(crate) fn start_of(date: Date, zone: &TimeZone) -> Timestamp {
    let noon = zone.to_zoned_datetime(date.at(12, 0, 0, 0)).unwrap();
    noon.start_of_day().unwrap().timestamp()
}

/// Windows without overlaps, drawn on the circle of a week.
fn random_week(dice: &mut Dice) -> [Vec<Window>; 7] {
    let mut week: [Vec<Window>; 7] = Default::default();
    let mut cuts = BTreeSet::new();
    for _ in 0..2 + dice.upto(40) {
        cuts.insert(dice.minute(WEEK - 1));
    }
    let cuts: Vec<i64> = cuts.into_iter().collect();
    for (row, from) in cuts.iter().enumerate() {
        let to = cuts.get(row + 1).copied().unwrap_or(cuts[0] + WEEK);
        let day = &mut week[usize::try_from(from / DAY).unwrap()];
        // Now and then two neighbours are both open, and touch.
        if dice.upto(2) == 0 || to - from >= DAY || day.len() == 4 {
            continue;
        }
        day.push((from % DAY, from % DAY + to - from));
    }
    week
}

/// In any order: the file need not be sorted.
fn window_list(windows: &[Window], dice: &mut Dice) -> String {
    let text = |(from, to): &Window| {
        let to =
            if *to > DAY || (*to == DAY && *from > 0 && from % 2 == 0) { to - DAY } else { *to };
        format!("\"{:02}:{:02}-{:02}:{:02}\"", from / 60, from % 60, to / 60, to % 60)
    };
    let mut list: Vec<String> = windows.iter().map(text).collect();
    if dice.upto(1) == 0 {
        list.reverse();
    }
    format!("[{}]", list.join(", "))
}

/// R3: what is promised is wall-clock membership, whatever the zone does.
#[test]
fn openings_are_those_of_the_wall_clock_in_400_random_sites() {
    for seed in 0..SITES {
        let mut dice = Dice::new(seed);
        let plan = Plan::random(&mut dice);
        let zone = TimeZone::get(plan.zone).expect("an IANA zone");
        let text = plan.site_file(&mut dice);
        let file = SiteFile::new(&text);
        let (from, to) = (plan.from.to_string(), plan.to.to_string());
        let seen = file.openings(&zone, &["--holder", "12", "--from", &from, "--to", &to]);
        let expected = plan.openings(&zone);
        if seen != expected {
            let row = seen.iter().zip(&expected).position(|(seen, expected)| seen != expected);
            let row = row.unwrap_or(seen.len().min(expected.len()));
            panic!(
                "seed {seed}, {}, {from} to {to}, stretch {row}:\n seen {:?}\n expected {:?}\n{text}",
                plan.zone,
                seen.get(row),
                expected.get(row),
            );
        }
    }
}
