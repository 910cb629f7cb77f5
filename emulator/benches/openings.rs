//! How long planning takes: 99 holders, ten years, a calendar filled to its
//! limits. The goal is a second for all of them.

use std::fmt::Write as _;

use emulator::plan::{Range, everybody, openings};
use emulator::site::Site;
use lock_core::time::Date;
use lock_core::timetable::{Follows, TimetableId};

const LETTERS: [&str; 8] = ["A", "B", "C", "D", "E", "F", "G", "H"];

fn main() {
    divan::main();
}

/// 99 holders on eight timetables of five windows a day, 64 closures and 32
/// special days.
fn full_site() -> Site {
    let mut text = String::from(
        "site = \"Bench\"\nzone = \"Europe/Dublin\"\n[[lock]]\nid = \"till\"\nnumber = 1\n",
    );
    for letter in LETTERS {
        writeln!(text, "[timetable.{letter}]").expect("text grows");
        for day in ["mon", "tue", "wed", "thu", "fri", "sat", "sun"] {
            let windows =
                r#"["06:00-09:00", "10:00-13:00", "14:00-18:00", "19:00-20:00", "22:00-02:00"]"#;
            writeln!(text, "{day} = {windows}").expect("text grows");
        }
    }
    for row in 0..64 {
        let (year, month) = (2027 + row / 12, row % 12 + 1);
        writeln!(text, "[[closure]]\nfrom = {year}-{month:02}-10").expect("text grows");
    }
    for row in 0..32 {
        let (year, month) = (2027 + row / 12, row % 12 + 1);
        writeln!(text, "[[special]]\ndate = {year}-{month:02}-20\nwindows = [\"09:00-12:00\"]")
            .expect("text grows");
    }
    for number in 1..=99 {
        let letter = LETTERS[number % 8];
        writeln!(
            text,
            "[[holder]]\nnumber = {number}\nname = \"Holder {number}\"\nrole = \"keyholder\"\n\
             timetable = \"{letter}\""
        )
        .expect("text grows");
    }
    Site::parse("bench.toml", &text).map_err(|why| why.to_string()).expect("the site is fine")
}

fn ten_years(site: &Site) -> Range {
    let date = |year| Date::from_ymd(year, 1, 1).expect("a date");
    Range::between(&site.zone, date(2027), date(2037)).expect("within the clock's reach")
}

#[divan::bench]
fn everybody_for_ten_years(bencher: divan::Bencher<'_, '_>) {
    let site = full_site();
    bencher.bench(|| everybody(&site, ten_years(&site)));
}

#[divan::bench]
fn one_timetable_for_ten_years(bencher: divan::Bencher<'_, '_>) {
    let site = full_site();
    let follows = Follows::Timetable(TimetableId::A);
    bencher.bench(|| openings(&site, follows, ten_years(&site)));
}

#[divan::bench]
fn reading_a_full_site() -> Site {
    full_site()
}
