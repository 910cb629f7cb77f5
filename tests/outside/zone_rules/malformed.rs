//! Strings that are no zone rule are refused, at the right place.
//!
//! Sources: the grammar of IEEE Std 1003.1 chapter 8.3 with the hours of RFC
//! 9636 section 3.3.2 for the list; jiff 1.0 as a second reader for random
//! strings. Both readers draw the line in the same place but for one: where a
//! name gets too long.

use jiff::tz::TimeZone;
use lock_core::time::{Zone, ZoneError, ZoneErrorKind};
use proptest::prelude::*;

use super::LISTED;

#[test]
fn malformed_rules_are_refused_where_they_go_wrong() {
    use ZoneErrorKind as Kind;
    for (rule, at, kind) in [
        ("", 0, Kind::Name),
        (":Europe/Dublin", 0, Kind::Name),
        ("Europe/Dublin", 6, Kind::OffsetHours),
        ("AB0", 0, Kind::Name),
        ("<+1>1", 0, Kind::Name),
        ("<+01", 4, Kind::NameNotClosed),
        ("<+0 1>1", 3, Kind::NameNotClosed),
        ("Abcdefghijklmnopqrstuvwxyzabcde1", 0, Kind::NameTooLong),
        ("CET", 3, Kind::OffsetHours),
        ("CET-", 4, Kind::OffsetHours),
        ("CET--1", 4, Kind::OffsetHours),
        ("CET25", 3, Kind::OffsetHours),
        ("CET-1:", 6, Kind::Sixty),
        ("CET-1:5", 6, Kind::Sixty),
        ("CET-1:60", 6, Kind::Sixty),
        ("CET-1:30:", 9, Kind::Sixty),
        ("CET-1:30:61", 9, Kind::Sixty),
        ("CET123", 5, Kind::Trailing),
        ("CET-1 ", 5, Kind::Trailing),
        ("CET-1,M3.5.0,M10.5.0", 5, Kind::Trailing),
        ("CET-1CE", 5, Kind::Name),
        ("CET-1CEST", 9, Kind::NoSwitches),
        ("CET-1CEST-2", 11, Kind::NoSwitches),
        ("CET-1CEST;M3.5.0;M10.5.0", 9, Kind::NoSwitches),
        ("CET-1CEST,", 10, Kind::Day),
        ("CET-1CEST,X3.5.0,M10.5.0", 10, Kind::Day),
        ("CET-1CEST,M3.5.0", 16, Kind::OneSwitch),
        ("CET-1CEST,M3.5.0,", 17, Kind::Day),
        ("CET-1CEST,M0.5.0,M10.5.0", 11, Kind::Month),
        ("CET-1CEST,M13.5.0,M10.5.0", 11, Kind::Month),
        ("CET-1CEST,M.5.0,M10.5.0", 11, Kind::Month),
        ("CET-1CEST,M3,M10.5.0", 12, Kind::Dot),
        ("CET-1CEST,M3.0.0,M10.5.0", 13, Kind::Week),
        ("CET-1CEST,M3.6.0,M10.5.0", 13, Kind::Week),
        ("CET-1CEST,M3.5,M10.5.0", 14, Kind::Dot),
        ("CET-1CEST,M3.5.7,M10.5.0", 15, Kind::Weekday),
        ("CET-1CEST,M3.5.,M10.5.0", 15, Kind::Weekday),
        ("CET-1CEST,M3.5.0,M10.5.00", 24, Kind::Trailing),
        ("CET-1CEST,J0,J300", 11, Kind::CommonDay),
        ("CET-1CEST,J366,J300", 11, Kind::CommonDay),
        ("CET-1CEST,366,300", 10, Kind::OrdinalDay),
        ("CET-1CEST,0,3000", 15, Kind::Trailing),
        ("CET-1CEST,M3.5.0/,M10.5.0", 17, Kind::TimeHours),
        ("CET-1CEST,M3.5.0/168,M10.5.0", 17, Kind::TimeHours),
        ("CET-1CEST,M3.5.0,M10.5.0/-168", 26, Kind::TimeHours),
        ("CET-1CEST,M3.5.0,M10.5.0/2:7", 27, Kind::Sixty),
        ("CET-1CEST,M3.5.0,M10.5.0/3,", 26, Kind::Trailing),
        ("CET-1CÉST,M3.5.0,M10.5.0", 5, Kind::Name),
        ("CET-1\0", 5, Kind::Trailing),
    ] {
        let error = ZoneError { at, kind };
        assert_eq!(Zone::parse(rule), Err(error), "{rule:?}");
        // jiff takes longer names; both bounds are each reader's own.
        let theirs = TimeZone::posix(rule);
        let own_bound = kind == Kind::NameTooLong;
        assert!(own_bound || theirs.is_err(), "jiff accepts {rule:?}");
    }
}

#[test]
fn a_refusal_reads_as_a_sentence() {
    let error = Zone::parse("CET-1CEST,M3.6.0,M10.5.0").unwrap_err();
    assert_eq!(error.to_string(), "character 14: expected a week from 1 to 5 (the last)");
}

fn same_verdict(text: &str) -> Result<(), TestCaseError> {
    prop_assert_eq!(
        Zone::parse(text).is_ok(),
        TimeZone::posix(text).is_ok(),
        "{:?}: ours {:?}",
        text,
        Zone::parse(text)
    );
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(20_000))]

    #[test]
    fn any_string_gets_the_same_verdict_from_both(text in "\\PC{0,40}") {
        same_verdict(&text)?;
    }

    #[test]
    fn letters_of_the_grammar_get_the_same_verdict(text in "[A-C<>]{3,5}[-+0-9:]{1,4}[A-CJM<>,./:+0-9-]{0,24}") {
        same_verdict(&text)?;
    }

    /// Good rules with one to three bytes replaced, removed or put in.
    #[test]
    fn damaged_rules_get_the_same_verdict(
        rule in proptest::sample::select(&LISTED[..]),
        damage in proptest::collection::vec((any::<usize>(), 0..3, "[A-CJM<>,./:+0-9-]"), 1..=3),
    ) {
        let mut text = rule.to_owned();
        for (place, how, put) in damage {
            let at = place % (text.len() + 1);
            let end = text.len().min(at + usize::from(how != 0));
            text.replace_range(at..end, if how == 1 { "" } else { &put });
        }
        same_verdict(&text)?;
        if let Ok(zone) = Zone::parse(&text) {
            prop_assert_eq!(Zone::from_bytes(&zone.to_bytes()), Ok(zone));
        }
    }
}
