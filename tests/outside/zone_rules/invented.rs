//! Rules that no country has, drawn at random.
//!
//! Source: jiff 1.0. Changes are kept within their year, from March to October
//! before they are shifted by up to a week, because jiff moves one that leaves
//! its year back into it; zic judges those (`neighbours`). Nor is jiff asked
//! for wall times here: where two changes lie hours apart it sees one gap or
//! fold where there are two, so wall times are judged by their meaning, the
//! moments at which jiff's own offset leads to them. Rules whose two changes
//! meet or swap in some years are left out: POSIX does not say what they mean.

use jiff::Timestamp;
use jiff::tz::TimeZone;
use lock_core::time::{Date, Instants, Utc, Zone};
use proptest::prelude::*;

use super::{split, timestamp};

fn clock(hours: u32) -> impl Strategy<Value = String> {
    prop_oneof![
        (0..=hours).prop_map(|h| format!("{h}")),
        (0..=hours, 0..60).prop_map(|(h, m)| format!("{h}:{m:02}")),
        (0..=hours, 0..60, 0..60).prop_map(|(h, m, s)| format!("{h}:{m:02}:{s:02}")),
    ]
}

fn signed(hours: u32) -> impl Strategy<Value = String> {
    ("[-+]?", clock(hours)).prop_map(|(sign, clock)| format!("{sign}{clock}"))
}

fn switch() -> impl Strategy<Value = String> {
    let day = prop_oneof![
        (3..=10, 1..=5, 0..=6).prop_map(|(m, w, d)| format!("M{m}.{w}.{d}")),
        (60..=300).prop_map(|n| format!("J{n}")),
        (59..=300).prop_map(|n| format!("{n}")),
    ];
    let time = prop_oneof![Just(String::new()), signed(167).prop_map(|time| format!("/{time}")),];
    (day, time).prop_map(|(day, time)| day + &time)
}

fn rule() -> impl Strategy<Value = String> {
    let saving = prop_oneof![Just(String::new()), signed(24)];
    (signed(24), saving, switch(), switch())
        .prop_map(|(standard, saving, from, to)| format!("AAA{standard}<B-1>{saving},{from},{to}"))
}

/// Whether jiff sees two changes in every year and none at New Year, as it
/// does where the same change comes first in all years.
fn is_regular(theirs: &TimeZone) -> bool {
    let new_years: Vec<i64> = (1970..=2106)
        .map(|year| Date::from_ymd(year, 1, 1).unwrap())
        .map(|date| i64::from(date.days()) * 86_400)
        .collect();
    let offset = |secs| theirs.to_offset(Timestamp::from_second(secs).unwrap());
    let mut changes = theirs.following(timestamp(0)).map(|change| change.timestamp().as_second());
    new_years.windows(2).all(|year| {
        let two = changes.by_ref().take(2).all(|change| (year[0]..year[1]).contains(&change));
        two && offset(year[1] - 1) == offset(year[1])
    })
}

/// The first change of jiff's offset after a moment.
fn their_next_change(theirs: &TimeZone, after: u32) -> Option<u32> {
    theirs
        .following(timestamp(after))
        .map(|change| change.timestamp().as_second())
        .take_while(|&secs| secs <= i64::from(u32::MAX))
        .filter_map(|secs| u32::try_from(secs).ok())
        .find(|&secs| theirs.to_offset(timestamp(secs - 1)) != theirs.to_offset(timestamp(secs)))
}

/// The moments at which jiff's clock shows `wall`, given every offset it has.
fn their_instants(theirs: &TimeZone, wall: i64, offsets: [i32; 2]) -> Vec<Utc> {
    let mut moments: Vec<Utc> = offsets
        .into_iter()
        .filter_map(|offset| {
            let secs = u32::try_from(wall - i64::from(offset)).ok()?;
            let holds = theirs.to_offset(timestamp(secs)).seconds() == offset;
            holds.then_some(Utc::from_secs(secs))
        })
        .collect();
    moments.sort_unstable();
    moments.dedup();
    moments
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2_000))]

    #[test]
    fn an_invented_rule_agrees_with_jiff(
        rule in rule(),
        moments in proptest::collection::vec(any::<u32>(), 8),
        near in -180_000_i64..180_000,
    ) {
        let ours = Zone::parse(&rule).unwrap();
        let theirs = TimeZone::posix(&rule).unwrap();
        prop_assume!(is_regular(&theirs));
        for start in moments {
            let offset = |secs| theirs.to_offset(timestamp(secs)).seconds();
            prop_assert_eq!(ours.offset(Utc::from_secs(start)).as_secs(), offset(start), "{} at {}", &rule, start);
            let change = their_next_change(&theirs, start);
            let found = ours.next_change(Utc::from_secs(start));
            prop_assert_eq!(found, change.map(Utc::from_secs), "{} after {}", &rule, start);
            let Some(change) = change else { continue };
            for secs in [change - 1, change] {
                let seen = ours.offset(Utc::from_secs(secs)).as_secs();
                prop_assert_eq!(seen, offset(secs), "{} at {}", &rule, secs);
            }
            let wall = i64::from(change) + i64::from(offset(change)) + near;
            let Some((date, second)) = split(wall) else { continue };
            let expected = their_instants(&theirs, wall, [offset(change - 1), offset(change)]);
            let found = match ours.instants(date, second) {
                Instants::None => vec![],
                Instants::One(only) => vec![only],
                Instants::Two(first, second) => vec![first, second],
            };
            prop_assert_eq!(found, expected, "{} at the wall time {}", &rule, wall);
        }
    }
}
