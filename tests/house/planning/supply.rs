//! `plan supply`: the model against a simulated year, and its arithmetic by hand.

use emulator::plan::costs::{ASSUMED, Costs};
use emulator::plan::supply::{BATTERIES, Battery, Bench, Work, count};
use emulator::site::Site;
use emulator::tour::SITE;

use super::{json, plan};

fn demo() -> Site {
    Site::parse("site", SITE).map_err(|why| why.to_string()).unwrap()
}

/// A year with six openings a day, counted as it went, is what the model makes of an
/// idle day and an opening: within 2 %, and one erased page in fifty.
#[test]
fn a_simulated_year_is_what_the_model_says() {
    let site = demo();
    for id in ["till", "vault"] {
        let lock = site.lock(id).unwrap();
        let counted = count(&site, lock).map_err(|_| "format").unwrap();
        let mut bench = Bench::new(&site, lock).map_err(|_| "format").unwrap();
        for _ in 0..365 {
            for _ in 0..6 {
                assert!(bench.opening(), "every opening succeeds");
                bench.passes(7_200);
            }
            bench.passes(86_400 - 6 * (7_200 + bench.opening_takes()));
        }
        let year = bench.take_work();
        let model = counted.idle_day.and(counted.opening.times(6.0)).times(365.0);
        for ((name, seen), (_, said)) in year.counts().into_iter().zip(model.counts()) {
            let share = (seen - said).abs() / seen.max(1.0);
            assert!(share <= 0.02, "{id}, {name}: the year has {seen}, the model {said}");
        }
        let (seen, said) =
            (ASSUMED.day(&year.times(1.0 / 365.0)), ASSUMED.day(&model.times(1.0 / 365.0)));
        assert!((seen - said).abs() / seen < 0.01, "{id}: {seen} and {said} mJ a day");
    }
}

/// Nobody comes: the lock wakes to compare its clock, and draws nothing. An opening is
/// nine keys, the drive out and back, and what R1 and R2 put into flash.
#[test]
fn what_a_lock_does_in_a_day() {
    let site = demo();
    let counted = count(&site, site.lock("till").unwrap()).map_err(|_| "format").unwrap();
    let Work { wakes, refreshes, moves, words, .. } = counted.idle_day;
    assert!((1.0..=30.0).contains(&wakes), "{wakes} wake-ups on an idle day");
    assert_eq!((refreshes, moves, words), (0.0, 0.0, 0.0));
    let Work { keys, moves, words, refreshes, .. } = counted.opening;
    assert_eq!((keys, moves), (9.0, 2.0));
    assert!(
        (8.0..40.0).contains(&words) && (5.0..14.0).contains(&refreshes),
        "{words} {refreshes}"
    );
}

/// By hand: 1 Ah at 3 V is 10.8 kJ. A day of 10 J takes 10 / 0.68 = 14.7 J out of it,
/// 5.37 kJ a year; it loses 0.324 kJ a year by itself; 10.8 / 5.695 = 1.896 years.
#[test]
fn the_arithmetic_of_a_battery() {
    let battery = Battery { name: "", volts: 3.0, milliampere_hours: 1_000.0, keeps: 10.0 };
    assert!((battery.years(10_000.0) - 1.896).abs() < 0.001, "{}", battery.years(10_000.0));
    assert_eq!(battery.lasts(10_000.0), "1.9 years");
    // Nothing but its own loss: a third of a century, and nobody sells such cells.
    assert!((battery.years(0.0) - 1.0 / 0.03).abs() < 1e-9);
    assert_eq!(battery.lasts(0.0), "for as long as such cells keep, 10 years");
    // 100 J a day, 147.1 J out of it: 10,800 / 54,036 of a year.
    assert_eq!(battery.lasts(100_000.0), "73 days");
    let day = Work { refreshes: 2.0, moves: 1.0, ..Work::default() };
    // 0.015 mW for a day, two refreshes, one move.
    assert!((ASSUMED.day(&day) - (1_296.0 + 96.0 + 90.0)).abs() < 1e-9);
}

#[test]
fn the_command_says_what_it_counted() {
    let told = json(SITE, "supply", &["--lock", "till"]);
    assert_eq!(told["opening"]["keys"], 9.0);
    let rows = told["batteries"].as_array().unwrap();
    assert_eq!(rows.len(), BATTERIES.len());
    let total = told["total"].as_f64().unwrap();
    for (battery, row) in BATTERIES.iter().zip(rows) {
        let years = battery.years(total).min(battery.keeps);
        // The default thresholds are for four cells: two never reach them.
        match battery.name {
            "2 × LR6" => assert!(row["years"].is_null() && row["refused"].is_string(), "{row}"),
            _ => assert!((years - row["years"].as_f64().unwrap()).abs() < 1e-6, "{row}"),
        }
    }
    let (code, _, err) = plan(SITE, "supply", &["--lock", "cellar"]);
    assert_eq!(code, 2);
    assert!(err.contains("no lock \"cellar\""), "{err}");
}

/// The site with these thresholds.
fn with_policy(low: u16, spent: u16) -> String {
    assert_eq!(SITE.matches("code_digits = 6\n").count(), 1);
    let thresholds = format!("supply_low = \"{low}mV\"\nsupply_spent = \"{spent}mV\"\n");
    SITE.replace("code_digits = 6\n", &format!("code_digits = 6\n{thresholds}"))
}

/// What the thresholds say of a new battery, the lock itself says too: it releases
/// nothing on one that is refused as spent, and opens on one that is not refused.
#[test]
fn a_battery_that_the_lock_cannot_use_is_refused() {
    let thresholds =
        [(4_800, 4_200), (3_000, 2_500), (2_999, 2_500), (9_000, 8_800), (6_000, 3_000)];
    for (low, spent) in thresholds {
        let text = with_policy(low, spent);
        let Ok(site) = Site::parse("site", &text) else {
            assert!(low < 3_000, "{low}");
            continue;
        };
        let lock = site.lock("till").unwrap();
        for battery in BATTERIES {
            let refused = battery.refused(&lock.policy);
            let volts = (battery.volts * 1_000.0) as u16;
            let mut bench = Bench::new(&site, lock).map_err(|_| "format").unwrap();
            bench.supply(volts);
            let opens = bench.opening();
            let said = refused.as_deref().unwrap_or_default();
            let what = format!("{} at {low} and {spent}: {said}", battery.name);
            assert_eq!(said.contains("supply_spent"), !opens, "{what}");
            assert_eq!(refused.is_some(), volts <= low, "{what}");
        }
    }
    let none = with_policy(9_000, 8_000);
    let (code, out, _) = plan(&none, "supply", &["--lock", "till"]);
    assert_eq!((code, out.matches("cannot be used").count()), (1, BATTERIES.len()), "{out}");
    let (code, out, _) = plan(SITE, "supply", &["--lock", "till"]);
    assert_eq!((code, out.matches("cannot be used").count()), (0, 1), "{out}");
}

/// A file of costs takes the place of what is assumed, key by key.
#[test]
fn a_board_has_its_own_costs() {
    let read = |text: &str| Costs::parse("board", text).map_err(|why| format!("{why:?} {why}"));
    assert_eq!(read(""), Ok(ASSUMED));
    let all =
        "asleep = 1\nwake = 2.5\nkey = 3\nrefresh = 4\nmove = 5\nsound = 6\nword = 7\npage = 8e0";
    let work = Work { wakes: 1.0, keys: 1.0, refreshes: 1.0, ..Work::default() };
    let rest = Work { moves: 1.0, sounds: 1.0, words: 1.0, pages: 1.0, ..work };
    let parts = read(all).unwrap().parts(&rest).map(|(_, cost)| cost);
    assert_eq!(parts, [86_400.0, 2.5, 3.0, 4.0, 5.0, 6.0, 7.0, 8.0]);
    for (text, what) in [
        ("refersh = 1", "Did you mean `refresh`?"),
        ("key = \"1\"", "must be a number"),
        ("key = -1", "must be a number from 0"),
        ("key = nan", "must be a number from 0"),
        ("key = 1e99", "must be a number from 0"),
        ("key", "no TOML"),
    ] {
        let why = read(text).expect_err(text);
        assert!(why.contains(what), "{text}: {why}");
    }

    let file = std::env::temp_dir().join(format!("costs-{}.toml", std::process::id()));
    std::fs::write(&file, "refresh = 0\n").unwrap();
    let path = file.to_str().unwrap();
    let told = json(SITE, "supply", &["--lock", "till", "--costs", path]);
    assert_eq!(told["millijoules_a_day"]["display refreshes"], 0.0);
    std::fs::write(&file, "\n\nrefresh = -3\n").unwrap();
    let (code, _, err) = plan(SITE, "supply", &["--lock", "till", "--costs", path]);
    assert_eq!(code, 2);
    assert!(err.contains("`refresh` must be a number") && err.contains(":3:"), "{err}");
    std::fs::remove_file(&file).unwrap();
}
