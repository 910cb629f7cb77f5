//! Single instants of `plan openings`: is it open, by the clock on the wall?
//!
//! Source: IANA's data through jiff 1.0, which says what the wall shows; the
//! windows of a random plan say whether that is open. And days with a clock
//! change whose openings were worked out by hand.

use jiff::Timestamp;
use jiff::tz::TimeZone;

use crate::openings::{Dice, Plan, start_of};
use crate::planner::SiteFile;

/// Random instants, and every minute around each clock change.
#[test]
fn every_instant_is_open_exactly_if_its_wall_time_lies_in_a_window() {
    for seed in 10_000..10_040 {
        let mut dice = Dice::new(seed);
        let plan = Plan::random(&mut dice);
        let zone = TimeZone::get(plan.zone).expect("an IANA zone");
        let file = SiteFile::new(&plan.site_file(&mut dice));
        let (from, to) = (plan.from.to_string(), plan.to.to_string());
        let seen = file.openings(&zone, &["--holder", "12", "--from", &from, "--to", &to]);
        let (start, end) = (start_of(plan.from, &zone), start_of(plan.to, &zone));
        let mut instants: Vec<i64> = Vec::new();
        for _ in 0..1_000 {
            instants.push(start.as_second() + dice.upto(end.as_second() - start.as_second() - 1));
        }
        for change in zone.following(start).take(4) {
            let change = change.timestamp().as_second();
            instants.extend((-300..300).map(|minute| change + minute * 60));
            instants.extend([change - 1, change + 1]);
        }
        for second in instants {
            let at = Timestamp::from_second(second).unwrap();
            if at < start || at >= end {
                continue;
            }
            let wall = at.to_zoned_datetime(zone.clone()).datetime();
            let minute = i64::from(wall.hour()) * 60 + i64::from(wall.minute());
            let listed = seen.iter().any(|(from, to)| *from <= at && at < *to);
            assert_eq!(listed, plan.is_open(wall.date(), minute), "seed {seed}, {at}, wall {wall}");
        }
    }
}

fn site(zone: &str, rest: &str) -> String {
    format!(
        "site = \"S\"\nzone = \"{zone}\"\n[[lock]]\nid = \"till\"\nnumber = 1\n{rest}\n\
         [[holder]]\nnumber = 1\nname = \"W\"\nrole = \"warden\"\nopens = true\n\
         timetable = \"always\"\n[[holder]]\nnumber = 50\nname = \"R\"\nrole = \"steward\"\n"
    )
}

fn listed(zone: &str, timetable: &str, who: [&str; 2], from: &str, to: &str) -> Vec<String> {
    let file = SiteFile::new(&site(zone, timetable));
    let tz = TimeZone::get(zone).unwrap();
    let rest = [who[0], who[1], "--from", from, "--to", to];
    let show = |at: Timestamp| at.to_zoned_datetime(tz.clone()).strftime("%FT%R%:z").to_string();
    let openings = file.openings(&tz, &rest);
    openings.into_iter().map(|(from, to)| format!("{} {}", show(from), show(to))).collect()
}

/// Dublin goes from 01:00 to 02:00 on 2027-03-28, a Sunday.
#[test]
fn a_window_loses_the_hour_that_is_skipped() {
    let seen = listed(
        "Europe/Dublin",
        "[timetable.A]\nsun = [\"00:30-01:00\", \"01:15-02:30\", \"03:00-04:00\"]\n\
         [timetable.B]\nsun = [\"01:00-02:00\"]",
        ["--timetable", "A"],
        "2027-03-28",
        "2027-03-29",
    );
    assert_eq!(
        seen,
        [
            // Touching in time, though not on the wall.
            "2027-03-28T00:30+00:00 2027-03-28T02:30+01:00",
            "2027-03-28T03:00+01:00 2027-03-28T04:00+01:00",
        ]
    );
    let table = "[timetable.B]\nsun = [\"01:00-02:00\"]";
    let seen = listed("Europe/Dublin", table, ["--timetable", "B"], "2027-03-28", "2027-04-04");
    assert_eq!(seen, [""; 0]);
}

/// Lord Howe goes from 02:00 back to 01:30 on 2027-04-04, a Sunday.
#[test]
fn a_window_in_the_repeated_half_hour_is_open_twice() {
    let table = "[timetable.A]\nsun = [\"01:30-01:45\"]";
    let zone = "Australia/Lord_Howe";
    let seen = listed(zone, table, ["--timetable", "A"], "2027-04-04", "2027-04-05");
    assert_eq!(
        seen,
        [
            "2027-04-04T01:30+11:00 2027-04-04T01:45+11:00",
            "2027-04-04T01:30+10:30 2027-04-04T01:45+10:30",
        ]
    );
}

/// Cairo goes from 00:00 to 01:00 on 2027-04-30 and from 24:00 back to 23:00
/// on 2027-10-28: the date starts at 01:00, and 23:00 to 24:00 comes twice.
#[test]
fn a_date_is_clipped_at_its_earliest_instant() {
    let always = ["--holder", "1"];
    let seen = listed("Africa/Cairo", "", always, "2027-04-30", "2027-05-01");
    assert_eq!(seen, ["2027-04-30T01:00+03:00 2027-05-01T00:00+03:00"]);
    let seen = listed("Africa/Cairo", "", always, "2027-10-28", "2027-10-29");
    assert_eq!(seen, ["2027-10-28T00:00+03:00 2027-10-29T00:00+02:00"]);
    let seen = listed("Africa/Cairo", "", always, "2027-10-28", "2027-10-28");
    assert_eq!(seen, [""; 0]);
}

/// A closure takes what runs in, and the windows that start on it, whole.
#[test]
fn a_closure_cuts_both_nights() {
    let table = "[timetable.B]\nfri = [\"22:00-02:00\"]\nsat = [\"22:00-02:00\"]\n\
                 sun = [\"22:00-02:00\"]\n[[closure]]\nfrom = 2027-12-25";
    let who = ["--timetable", "B"];
    let seen = listed("Europe/Dublin", table, who, "2027-12-24", "2027-12-28");
    assert_eq!(
        seen,
        [
            "2027-12-24T22:00+00:00 2027-12-25T00:00+00:00",
            "2027-12-26T22:00+00:00 2027-12-27T02:00+00:00",
        ]
    );
}

/// Who may not open has no opening time, and is told why.
#[test]
fn a_steward_has_no_opening_time() {
    let file = SiteFile::new(&site("Europe/Dublin", ""));
    let dates = ["--from", "2027-01-01", "--to", "2028-01-01"];
    let (code, out, err) = file.run(&[&["--holder", "50"], &dates[..]].concat());
    assert_eq!((code, out.as_str()), (0, "[]\n"));
    assert!(err.contains("R (50) may not open"), "{err}");
    let (code, out, _) = file.run(&dates);
    let rows: serde_json::Value = serde_json::from_str(&out).unwrap();
    assert_eq!(
        (code, rows[0]["holder"].as_u64(), rows[1]["holder"].as_u64()),
        (0, Some(1), Some(50))
    );
    assert_eq!(rows[0]["openings"].as_array().map(Vec::len), Some(1));
    assert_eq!(rows[1]["openings"].as_array().map(Vec::len), Some(0));
}

/// A timetable without an end is one stretch, however long, and so is what a
/// closed season of months leaves.
#[test]
fn a_timetable_that_never_closes_is_one_stretch() {
    let days = ["mon", "tue", "wed", "thu", "fri", "sat", "sun"];
    let week = days.map(|day| format!("{day} = [\"00:00-24:00\"]")).join("\n");
    let table = format!("[timetable.A]\n{week}\n[[closure]]\nfrom = 2029-01-01\nto = 2029-06-30");
    let who = ["--timetable", "A"];
    let seen = listed("Europe/Dublin", &table, who, "2027-01-01", "2030-01-01");
    assert_eq!(
        seen,
        [
            "2027-01-01T00:00+00:00 2029-01-01T00:00+00:00",
            "2029-07-01T00:00+01:00 2030-01-01T00:00+00:00",
        ]
    );
}
