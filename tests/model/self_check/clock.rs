//! Sections 1 and 9: steady time, setting the clock, settling, hold-shut.

use super::*;

const WARDEN: (u8, &str) = OPEN_ALWAYS;

/// A steward gives a date and a time, up to the last page or the warden's.
fn give(bench: &mut Bench, date: &str, time: &str) {
    bench.task(4, "3", STEWARD).field(date).field(time);
}

fn hold(bench: &mut Bench, person: (u8, &str)) {
    bench.task(1, "1", person).ok();
}

/// "A steward alone corrects it by 5 min in sum, forward and back added up";
/// the order of the writes; "with the new shift: the target less steady time".
#[test]
fn a_steward_corrects_five_minutes_in_sum() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    give(&mut bench, "01032027", "0903");
    assert_eq!(bench.shows(), "form set-clock confirm to=2027-03-01T09:03");
    bench.look();
    bench.ok();
    assert_eq!(
        bench.look_at_writes(),
        [
            format!("tally clock-doubt ={}", monday(9, 0)),
            "record clock-corrected 40 =180".to_owned(),
            "tally corrected =180 shift=180".to_owned(),
        ]
    );
    assert_eq!(bench.seen.clock_set, [monday(9, 3)]);
    assert_eq!(bench.seen.records[0].utc, Some(monday(9, 3)));
    give(&mut bench, "01032027", "0901");
    bench.ok();
    assert_eq!(bench.shows(), "done set-clock", "two minutes back: five in sum");
    give(&mut bench, "01032027", "0902");
    assert_eq!(bench.shows(), "form set-clock second");
    assert_eq!(bench.enter(COUNTER).shows(), "refused right", "a warden is asked for");
}

/// "30 days of uptime without a correction end the sum (tally
/// `corrections-over`)"; "a boot begins both lengths anew".
#[test]
fn thirty_days_end_the_sum_of_corrections() {
    let month = 30 * 86_400;
    let mut bench = Bench::new(&shop(), monday(9, 0));
    give(&mut bench, "01032027", "0903");
    bench.ok().wait(month - 10).look();
    bench.cut(0).look();
    bench.wait(month - 1);
    assert!(bench.look_at_writes().is_empty());
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["tally corrections-over"]);
}

/// "More takes a warden too …: then holders of timetables stay closed for 8 h
/// of uptime, until tally `settled`"; `always` is not concerned.
#[test]
fn a_clock_set_by_two_settles_for_eight_hours() {
    let mut bench = Bench::new(&shop(), monday(7, 0));
    give(&mut bench, "01032027", "0900");
    bench.enter(WARDEN).look();
    bench.ok();
    assert_eq!(
        bench.look_at_writes(),
        [
            format!("tally clock-doubt ={}", monday(7, 0)),
            format!("record clock-set 40 01 ={}", monday(7, 0)),
            "tally clock-set shift=7200".to_owned(),
        ]
    );
    let until = "refused settling until=2027-03-01T17:00";
    assert_eq!(bench.enter(COUNTER).shows(), until);
    assert_eq!(bench.enter(WARDEN).shows(), "released");
    bench.wait(3_600).cut(10).wait(8 * 3_600 - 1);
    bench.look();
    bench.wait(1);
    assert_eq!(bench.look_at_writes(), ["tally settled"]);
    assert_eq!(bench.enter(COUNTER).shows(), "refused closed until=2027-03-02T08:30");
}

/// "Unless the lock was opened at that moment (then tally `corrected` with 0)."
#[test]
fn the_clock_of_an_opened_lock_needs_no_settling() {
    let mut bench = Bench::new(&shop(), monday(7, 0));
    bench.open(WARDEN);
    give(&mut bench, "01032027", "0900");
    bench.enter(WARDEN_TOO).look();
    bench.ok();
    assert_eq!(bench.look_at_writes()[2], "tally corrected =0 shift=7200");
    bench.contact(Input::Bolt(false));
    assert_eq!(bench.enter(COUNTER).shows(), "released");
}

/// "Waits and a first of two end": `always` too, with `cancelled` (`clock`).
#[test]
fn a_clock_set_by_two_ends_waits() {
    let setup = shop_with(|setup| setup.policy.delay_s = 600);
    let mut bench = Bench::new(&setup, monday(9, 0));
    bench.enter(WARDEN);
    give(&mut bench, "01032027", "1000");
    bench.enter(WARDEN_TOO).look();
    bench.ok();
    assert_eq!(bench.look_at_writes().last().expect("written"), "record cancelled (clock)");
    // A correction only decides anew.
    let mut bench = Bench::new(&setup, monday(9, 0));
    bench.enter(WARDEN);
    give(&mut bench, "01032027", "0903");
    assert_eq!(bench.ok().seen.access, "waiting");
}

/// "It may be set back. Never to before the firmware was built, nor later than
/// 30 years … after that."
#[test]
fn the_clock_goes_back_but_not_out_of_its_years() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    for date in ["29112026", "02122056"] {
        give(&mut bench, date, "0900");
        assert_eq!(bench.shows(), "form set-clock time refused=out-of-years", "{date}");
        bench.key(Key::Back);
    }
    give(&mut bench, "28022027", "0900");
    assert_eq!(bench.shows(), "form set-clock second");
    bench.enter(WARDEN).ok().wait(60).cut(60);
    assert!(bench.look_at_writes().last().expect("written").starts_with("record powered-up"));
    assert_eq!(bench.shows(), "secured", "the floor is that of the newest setting");
}

/// "At a boot, if it reads less than the floor, more than 366 days later than
/// the floor."
#[test]
fn a_boot_believes_a_year_and_a_day() {
    for (days, shows) in [(366, "secured"), (367, "secured clock=invalid")] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        bench.cut(days * 86_400);
        assert_eq!(bench.shows(), shows, "{days} days");
    }
}

/// "Of a repeated one, whether the first or the second is meant"; a skipped
/// time is none. Dublin, 2027 (Directive 2000/84/EC).
#[test]
fn a_repeated_time_is_asked_about() {
    let dublin = shop_with(|setup| setup.calendar.zone = "IST-1GMT0,M10.5.0,M3.5.0/1".to_owned());
    let start = utc(date(2027, 10, 31).at(0, 0, 0, 0));
    for (choice, utc) in [("1", start + 1_800), ("2", start + 5_400)] {
        let mut bench = Bench::new(&dublin, start);
        give(&mut bench, "31102027", "0130");
        assert_eq!(bench.shows(), "form set-clock first or second");
        bench.digits(choice).enter(WARDEN).ok();
        assert_eq!(bench.seen.clock_set, [utc]);
    }
    let mut bench = Bench::new(&dublin, start);
    give(&mut bench, "28032027", "0130");
    assert_eq!(bench.shows(), "form set-clock time refused=no-time");
    give(&mut bench, "30022027", "");
    assert_ne!(bench.shows(), "secured");
}

/// "An invalid clock however small the difference, takes a warden too"; "record
/// `clock-set` with the time before, where it was believed".
#[test]
fn a_lost_clock_is_set_by_two() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.step(&Step::ChipLost);
    assert_eq!(bench.shows(), "secured clock=invalid");
    bench.wait(60);
    give(&mut bench, "01032027", "0901");
    assert_eq!(bench.shows(), "form set-clock second");
    bench.enter(WARDEN).look();
    bench.ok();
    // Steady time went on by uptime: one minute.
    assert_eq!(
        bench.look_at_writes(),
        [
            format!("tally clock-doubt ={}", monday(9, 1)),
            "record clock-set 40 01".to_owned(),
            "tally clock-set shift=0".to_owned(),
        ]
    );
}

/// "It ends in steady time, so it keeps its length when the clock is set":
/// forward and back, and goes on by uptime while the clock is invalid.
#[test]
fn a_hold_shut_keeps_its_length() {
    for time in ["1329", "0700"] {
        let mut bench = Bench::new(&shop(), monday(9, 0));
        hold(&mut bench, COUNTER);
        give(&mut bench, "01032027", time);
        bench.enter(WARDEN).ok();
        bench.wait(4 * 3_600 + 1_799);
        assert!(bench.enter(WARDEN).shows().starts_with("refused held-shut"), "{time}");
        assert_eq!(bench.wait(1).enter(WARDEN).shows(), "released", "{time}");
    }
    let mut bench = Bench::new(&shop(), monday(9, 0));
    hold(&mut bench, COUNTER);
    bench.step(&Step::ChipLost).wait(4 * 3_600 + 1_799);
    assert_eq!(bench.enter(WARDEN).shows(), "refused held-shut");
    assert_eq!(bench.wait(1).enter(WARDEN).shows(), "released");
}

/// "It asks first and says until when. At *OK*, judged anew: tally `held-shut`,
/// then record `held-shut`"; *back* holds nothing shut.
#[test]
fn a_hold_shut_asks_first() {
    let mut bench = Bench::new(&shop(), monday(9, 0));
    bench.task(1, "1", COUNTER);
    assert_eq!(bench.shows(), "form hold-shut confirm until=2027-03-01T13:30");
    bench.look();
    assert_eq!(bench.key(Key::Back).shows(), "secured");
    bench.task(1, "1", COUNTER).look();
    assert_eq!(bench.ok().shows(), "done hold-shut until=2027-03-01T13:30");
    let end = monday(13, 30);
    assert_eq!(
        bench.look_at_writes(),
        [format!("tally held-shut ={end}"), format!("record held-shut 12 ={end}")]
    );
    assert_eq!(bench.key(Key::Back).shows(), "held until=2027-03-01T13:30");
    assert_eq!(bench.enter(WARDEN).shows(), "refused held-shut until=2027-03-01T13:30");
}

/// "No window … starts within the next 31 days, or the clock is invalid:
/// refused `hold`"; "or the running hold-shut's end if that is later".
#[test]
fn a_hold_shut_reaches_31_days_and_never_ends_sooner() {
    for (days, shows) in
        [(30, "form hold-shut confirm until=2027-04-01T08:30"), (31, "refused hold")]
    {
        let setup = shop_with(|setup| {
            let from = date(2027, 3, 2);
            let to = from + jiff::ToSpan::days(days - 1);
            let closure = crate::reference::Closure { from, to, timetables: [true; 8] };
            setup.calendar.closures.push(closure);
        });
        // 1 March, after the last start of that day.
        let mut bench = Bench::new(&setup, monday(14, 0));
        assert_eq!(bench.task(1, "1", COUNTER).shows(), shows);
    }
    let setup = shop_with(|setup| {
        setup.holders.get_mut(&14).expect("a row").follows = Follows::Timetable(1);
    });
    let mut bench = Bench::new(&setup, monday(9, 0));
    hold(&mut bench, COUNTER_TOO);
    hold(&mut bench, COUNTER);
    assert_eq!(bench.shows(), "done hold-shut until=2027-03-07T22:00");
    bench.step(&Step::ChipLost).task(1, "1", COUNTER);
    assert_eq!(bench.shows(), "refused hold");
    assert!(bench.look_at_writes().contains(&"record refused-hold 12 plain".to_owned()));
}

/// A hold-shut ends a wait, its own record first.
#[test]
fn a_hold_shut_cancels_a_wait() {
    let setup = shop_with(|setup| setup.policy.delay_s = 600);
    let mut bench = Bench::new(&setup, monday(9, 0));
    bench.enter(COUNTER).task(1, "1", COUNTER_TOO).look();
    bench.ok();
    assert_eq!(bench.look_at_writes().last().expect("written"), "record cancelled (held-shut)");
}
